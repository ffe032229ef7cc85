"""What was predicted beside what an instrument showed last, in words."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from coldwright.answers.forms import is_blank
from coldwright.bench.unit_acts import UnitTaken
from coldwright.errors import AnswerError
from coldwright.panels.words import line_cells
from coldwright.quantities import Kind, read, show

KINDS = {
    "ohms": Kind.RESISTANCE,
    "continuity": Kind.RESISTANCE,
    "insulation": Kind.RESISTANCE,
    "volts ac": Kind.VOLTAGE,
    "volts ac low impedance": Kind.VOLTAGE,
    "volts dc": Kind.VOLTAGE,
    "lowest volts": Kind.VOLTAGE,
    "capacitance": Kind.CAPACITANCE,
    "amps ac": Kind.CURRENT,
    "clamp": Kind.CURRENT,
    "inrush": Kind.CURRENT,
    "start test": Kind.CURRENT,
    "watts": Kind.POWER,
    "power factor": Kind.RATIO,
    "kilowatt-hours": Kind.ENERGY,
    "temperature": Kind.TEMPERATURE,
}
OVER_RANGE = ("OL", "OVER RANGE", "OPEN")


def compared(predicted: object, taken: Sequence[UnitTaken], kinds: Mapping[str, Kind] = KINDS) -> str:
    """A prediction beside the last reading on the job sheet, with what the instrument may be off.

    Parameters
    ----------
    predicted : object
        What was typed, such as "230 V" or "OL"; blank for no prediction yet [-]
    taken : sequence of UnitTaken
        Readings so far [-]
    kinds : mapping of str to Kind
        What each kind of reading is a number of [-]
    """
    if is_blank(predicted):
        return "No prediction yet. Write one between the quote marks, run that cell again, then this one."
    if not taken:
        return "There is no reading yet. Take one on the bench, then run this cell again."
    last = taken[-1]
    number, _, act, shown, _ = line_cells(last.line)
    beginning = f"The last reading is line {number}, {act}, and shows {shown}"
    typed = str(predicted).strip()
    if typed.upper() in OVER_RANGE:
        over = math.isinf(last.display.value)
        return f"You predicted over range (OL). {beginning}: {'so it does' if over else 'not over range'}."
    kind = kinds.get(last.act)
    if kind is None or not math.isfinite(last.display.value):
        return f"You predicted {typed}. {beginning}: there is no number to compare."
    limit = last.display.limit
    return f"{beginning}, ±{_spread(limit, kind, 2)}. {_apart(typed, last.display.value, limit, kind)}"


def _apart(typed: str, value: float, limit: float, kind: Kind) -> str:
    try:
        guess = read(typed, kind).value
    except AnswerError as error:
        return f"Your prediction cannot be put beside it: {error}."
    off = abs(guess - value)
    within = "no more" if off <= limit else "more"
    return f"You predicted {typed}. The two are {_spread(off, kind, 3)} apart: {within} than the instrument may be off."


def _spread(size: float, kind: Kind, digits: int) -> str:
    """A difference of two quantities, with so many digits that count."""
    if kind is Kind.TEMPERATURE:
        return show(size, Kind.TEMPERATURE_DIFFERENCE, digits=digits)
    if kind in (Kind.PRESSURE_GAUGE, Kind.PRESSURE_ABSOLUTE):  # their difference is neither
        bar, psi = (show(size, Kind.PRESSURE_GAUGE, unit, digits=digits) for unit in ("barg", "psig"))
        return f"{bar.removesuffix('g')} ({psi.removesuffix('g')})"
    return show(size, kind, "kWh" if kind is Kind.ENERGY else None, digits=digits)
