"""How to get to each answer of the lab on overloads, and what counts as right."""

from __future__ import annotations

from coldwright.instruments.clamp import RANGES as CLAMP
from coldwright.instruments.display import Range
from coldwright.instruments.insulation_tester import RANGES as INSULATION
from coldwright.instruments.multimeter import OHMS
from coldwright.instruments.power_meter import RANGES as POWER
from coldwright.instruments.power_meter import Quantity
from coldwright.instruments.thermometer import RANGE as THERMOMETER
from coldwright.labs.overloads.heard import ROUNDED_S

HOW = {
    "sound": "Listen for two minutes, more than once if you must: does it hum or run, and does it click off?",
    "on_seconds": "From the click that brings it on to the click that ends it.",
    "off_seconds": "From the click that ends it to the click that brings it on again.",
    "average_watts": "Weigh the watts while on and the watts while off, each by its own seconds.",
    "start_amps": "Clamp round the wire at pin C, on hold, then plug in; or read the clamp while it stands and hums.",
    "trip_estimate": "The sheet's seconds, times the square of the sheet's amps over yours.",
    "ultimate_amps": "Mix shell and room by their shares, then take the root of the warmth left over the sheet's.",
    "winding_hot": "Hot over cold, times (234.5 + the room's temperature in °C), minus 234.5.",
    "overload_ohms": "Take it off, let it cool for 12 hours, zero the leads, and read across its two ends.",
    "overload_rating": "Look at its label, and hold it against the plate of the compressor.",
    "start_test": "Test the insulation of the pins first; then, start device and overload off, start it on the cord.",
    "fault": "Go through it in order: supply, insulation, overload, start winding, start device, rotor, fan.",
    "remedy": "Put right what is wrong, not what clicks.",
    "earth_ohms": "After the last part is in, plug pulled, leads zeroed: ohms from the plug's earth pin to bare metal.",
    "insulation": "After the last part is in: 500 V d.c. from plug L and from plug N to metal; give the lower one.",
}


def _accuracy(chosen: Range, digit: str) -> str:
    return f"±({chosen.percent:g} % of the reading + {chosen.digits} × {digit})"


_OHMS = _accuracy(OHMS[0], "the last digit")
RULES = {
    "listening": f"Counts as right within {ROUNDED_S:.0f} s: each end of it is heard to the nearest {ROUNDED_S:.0f} s.",
    "watts": f"Counts as right within what the times heard, each ±{ROUNDED_S:.0f} s, and the power meter, "
    f"{_accuracy(POWER[Quantity.WATTS], '0.1 W')}, leave open.",
    "start": f"Counts as right within what the clamp allows, {_accuracy(CLAMP[0], 'the last digit')}, and one digit "
    "more; a time worked out from it within what that leaves open.",
    "shell": f"Counts as right within what the thermometer, ±{THERMOMETER.limit(0.0):g} °C, leaves open in the "
    "formula, and 0.01 A more.",
    "winding": f"Counts as right within what the meter, {_OHMS}, and the thermometer, "
    f"±{THERMOMETER.limit(0.0):g} °C, leave open in the formula.",
    "overload": f"Counts as right within what the meter allows, {_OHMS}, and one digit more.",
    "earth": f"Counts as right within what the meter allows, {_OHMS}, and one digit more.",
    "insulation": f"Counts as right within what the tester allows, {_accuracy(INSULATION[0], 'the last digit')} up to "
    f"200 MΩ and {_accuracy(INSULATION[-1], 'the last digit')} above, and one digit more.",
    "label": "One word is right.",
    "start test": "One word is right.",
    "evidence": "Counts only if the reading that proves it is on your job sheet, from before a new part went in.",
}
