"""How to get to each answer of lab 00, and what counts as right."""

from __future__ import annotations

from coldwright.instruments.meter_ranges import OHMS, VOLTS_AC
from coldwright.labs.safe_isolation.unit import FAN_TOLERANCE, PLATE_TOLERANCE
from coldwright.labs.unit_case import EARTHED_BELOW_OHM

HOW = {
    "supply_volts": "Read volts a.c. from live to neutral at the outlet, and give every digit.",
    "supply_limit": "Take the percentage of the reading, then add three of the last digit that the meter shows.",
    "supply_verdict": f"The plate allows its volts ± {PLATE_TOLERANCE * 100:.0f} %; see where the whole ± lies.",
    "old_range": "Take the lowest range that goes higher than the reading.",
    "old_digit": "The old meter counts to 2000, so one digit is the 2000th part of the range, or 1 V on 600 V.",
    "meter": "First the category of the place, then the volts: the meter must stand both.",
    "both_limits": "Square both limits, add the squares and take the root.",
    "meters": "Compare how far the two readings are apart with both limits together.",
    "peak_volts": "The meter shows RMS: the peak of a sine is 1.414 times that.",
    "wire_volts": "Door open, lamp out, plugged in: read volts a.c. from door switch 2 to cord N.",
    "wire": "Read it on the low-impedance input too: a ghost breaks down there, a live wire does not.",
    "earth_ohm": "Plug pulled, leads zeroed: read ohms from plug E to cabinet metal.",
    "earth": f"Up to {EARTHED_BELOW_OHM:g} Ω is good, more is poor, OL is lost.",
    "fan_ohm": "Plug pulled, leads zeroed, fan taken off: read ohms across it.",
    "fan": f"The maker allows his value ± {FAN_TOLERANCE * 100:.0f} %; see where the whole ± lies.",
    "note": "Live source, L to N, L to E, N to E, live source again: look for the step that is not there.",
}
_VOLTS = f"±({VOLTS_AC[-1].percent:g} % of the reading + {VOLTS_AC[-1].digits} digits)"
_OHMS = f"±({OHMS[0].percent:g} % of the reading + {OHMS[0].digits} digits)"
RULES = {
    "supply": f"Counts as right within what the meter allows, {_VOLTS}, and one digit more; a ± within one digit.",
    "wire": f"Counts as right within what the meter allows, {_VOLTS}, and one digit more.",
    "earth": f"Counts as right within what the meter allows, {_OHMS}, and one digit more.",
    "fan": f"Counts as right within what the meter allows, {_OHMS}, and one digit more.",
}
