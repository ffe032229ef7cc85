"""How to get to each answer of lab 01, and what counts as right."""

from __future__ import annotations

from coldwright.instruments.display import Range
from coldwright.instruments.meter_ranges import CAPACITANCE, OHMS, VOLTS_AC, VOLTS_DC

HOW = {
    "volts_left": "Pull the plug, prove the unit dead in full, then read volts d.c. across it before you discharge it.",
    "peak_volts": "Take √2 times the RMS volts: printed on a start capacitor, read at work on a run capacitor, of the "
    "supply for a board.",
    "charge": "Farads times peak volts.",
    "energy": "Half of farads times peak volts squared.",
    "low_lead_watts": "Peak volts squared over the ohms of the lead with the fewest ohms.",
    "high_lead_time": "Ohms times farads times the ln of peak volts over 5 V, for the lead with the most ohms.",
    "lead": "Work out first watts and time for each: at most ten times its watts, and below 5 V within 30 s.",
    "bleed_ohm": "60 s over farads times the ln of peak volts over 50 V.",
    "bleed_watts": "Volts squared over ohms: the RMS volts on a.c., the whole d.c. volts on the bus of a board.",
    "ohms_across": "Discharged, and a capacitor off the unit: read ohms across it.",
    "time_alone": "Ohms across it times farads times the ln of peak volts over 50 V; with OL it never empties.",
    "condition": "In order: a look at it, then ohms against the maker's resistor, then farads against what is printed.",
    "energy_two": "Side by side add the two, in series take product over sum; then half of farads times volts squared.",
}


def _accuracy(chosen: Range) -> str:
    return f"±({chosen.percent:g} % of the reading + {chosen.digits} digits)"


_IN_FORMULA = (
    f"Counts as right within what volts a.c., {_accuracy(VOLTS_AC[2])}, and capacitance, {_accuracy(CAPACITANCE[3])}, "
    "leave open in the formula, and half of the third digit."
)
RULES = {
    "left": f"Counts as right within what volts d.c. allow, {_accuracy(VOLTS_DC[2])}, and one digit more.",
    "peak": _IN_FORMULA,
    "stored": _IN_FORMULA,
    "ohms": f"Counts as right within what the meter allows on ohms, {_accuracy(OHMS[0])}, and one digit more.",
    "alone": f"{_IN_FORMULA} Ohms, {_accuracy(OHMS[0])}, count with them.",
    "tests": "A look, ohms and capacitance must be on your job sheet; of a board, ohms alone.",
}
