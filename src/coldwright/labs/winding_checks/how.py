"""How to get to each answer of lab 03, and what counts as right."""

from __future__ import annotations

from coldwright.instruments.display import Range
from coldwright.instruments.insulation_tester import RANGES as INSULATION
from coldwright.instruments.multimeter import OHMS
from coldwright.instruments.thermometer import RANGE as THERMOMETER
from coldwright.labs.winding_checks.case import PAIR_NAMES

HOW = {
    "common": "Look for the pair that reads highest: the pin it leaves out is common.",
    "run": "From common, the lower of the two readings goes to run.",
    "start": "From common, the higher of the two readings goes to start.",
    "sum_rule": "Add the two lower readings, compare with the highest, and allow for the limits of all three.",
    "meter_limit": "Take the percentage of the reading, then add three of the last digit that the meter shows.",
    "resistance_at_20": "Multiply the reading by (234.5 + 20) and divide by (234.5 + the winding's temperature in °C).",
    "temperature_rise": "Take hot less cold, divide by cold, and multiply by (234.5 + the room's temperature in °C).",
    "insulation": "Test all three pins to the shell and give the lowest reading.",
    "verdict": "Go through it in order: insulation, open paths, sum rule, then each winding against the maker's value.",
} | dict.fromkeys(PAIR_NAMES, "Read it cold, with the connector off and the leads zeroed.")


def _rule(chosen: Range) -> str:
    return f"±({chosen.percent:g} % of the reading + {chosen.digits} digits)"


_AFTER_FORMULA = (
    f"Counts as right within what the meter, {_rule(OHMS[0])}, and the thermometer, ±{THERMOMETER.limit(0.0):g} °C, "
    "leave open in the formula."
)
RULES = {
    "pair": f"Counts as right within what the meter allows, {_rule(OHMS[0])}, and one digit more.",
    "lowest pair": _AFTER_FORMULA,
    "hot and cold": _AFTER_FORMULA,
    "insulation": f"Counts as right within what the tester allows, {_rule(INSULATION[0])} up to 200 MΩ and "
    f"{_rule(INSULATION[-1])} above, and one digit more.",
}
