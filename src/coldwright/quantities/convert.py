"""Conversions at the edge: SI inside, other units only where a person reads or types."""

import math
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from coldwright.quantities.kinds import Kind
from coldwright.quantities.lookup import named_unit

if TYPE_CHECKING:
    import pint


def to_si(value: float, kind: Kind, unit: str) -> float:
    """Value in SI of a number in a unit; rounded once, at the end.

    Parameters
    ----------
    value : float
        Number; inf and nan pass through [the unit given]
    kind : Kind
        Kind of the quantity [-]
    unit : str
        Any clear spelling of a unit of that kind [-]

    Raises
    ------
    InputError
        If the kind has no such unit.

    Examples
    --------
    >>> to_si(4.2, Kind.RESISTANCE, "kohm")
    4200.0
    >>> to_si(32, Kind.TEMPERATURE, "°F")
    273.15
    """
    found = named_unit(kind, unit)
    if not math.isfinite(value):
        return math.copysign(1, found.factor) * value
    return float(Fraction(value) * found.factor + found.offset)


def in_unit(value: float, kind: Kind, unit: str) -> float:
    """Number in a unit of a value in SI; rounded once, at the end.

    Parameters
    ----------
    value : float
        Value; inf and nan pass through [SI]
    kind : Kind
        Kind of the quantity [-]
    unit : str
        Any clear spelling of a unit of that kind [-]

    Raises
    ------
    InputError
        If the kind has no such unit.

    Examples
    --------
    >>> in_unit(4200.0, Kind.RESISTANCE, "kΩ")
    4.2
    """
    found = named_unit(kind, unit)
    if not math.isfinite(value):
        return math.copysign(1, found.factor) * value
    return float((Fraction(value) - found.offset) / found.factor)


@cache
def registry() -> "pint.UnitRegistry":
    """The one pint registry, made on first call. Never give it a learner's text: see `reader`."""
    import pint

    return pint.UnitRegistry()
