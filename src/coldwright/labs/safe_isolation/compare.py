"""A reading beside a limit or beside another reading, with what the meters may be off: agrees, differs, cannot tell."""

from __future__ import annotations

import math
from enum import Enum

from coldwright.electrical.measured import Measured
from coldwright.errors import InputError


class Against(Enum):
    """Where a reading lies against two limits, its own ± allowed for."""

    WITHIN = "within limits"
    LOW = "too low"
    HIGH = "too high"
    CANNOT_TELL = "cannot tell"


def against_limits(reading: Measured, low: float, high: float) -> Against:
    """Where a reading lies against two limits: only a limit that lies clear of its ± decides.

    Inside both limits by more than the ± is within; outside one by more than the ± is too low or too high; else the
    reading cannot tell [1]_.

    Parameters
    ----------
    reading : Measured
        The reading with its limit; over range counts as too high [any]
    low, high : float
        The limits, low below high [same unit]

    Raises
    ------
    InputError
        If the limits are not in order.

    References
    ----------
    .. [1] The decision rule of ISO 14253-1, from memory.
    """
    if not low < high:
        raise InputError(f"the lower limit is {low:g} and the upper {high:g}; lower must be below upper. Swapped?")
    if reading.value - reading.limit > high:
        return Against.HIGH
    if reading.value + reading.limit < low:
        return Against.LOW
    inside = low <= reading.value - reading.limit and reading.value + reading.limit <= high
    return Against.WITHIN if inside else Against.CANNOT_TELL


def against_plate(reading: Measured, plate: float, tolerance: float) -> Against:
    """Where a reading lies against a plate value and its tolerance.

    Parameters
    ----------
    reading : Measured
        The reading with its limit [any]
    plate : float
        Value on the plate, above zero [same unit]
    tolerance : float
        Tolerance of the plate value, above 0 and below 1 [-]

    Raises
    ------
    InputError
        If the plate value or the tolerance is outside these bounds.
    """
    if not 0 < plate < math.inf:
        raise InputError(f"the plate value is {plate:g}; it must be above zero")
    if not 0 < tolerance < 1:
        raise InputError(f"the tolerance is {tolerance:g}; it must be above 0 and below 1. Is it 5 % = 0.05?")
    return against_limits(reading, plate * (1 - tolerance), plate * (1 + tolerance))


def readings_agree(one: Measured, other: Measured) -> bool | None:
    """Whether two instruments agree on one thing; None where it cannot be told.

    Apart by no more than the root of the sum of squares of both limits they agree, by more than the sum of the limits
    they do not.

    Parameters
    ----------
    one, other : Measured
        Readings of one thing, each with its limit [any]

    Raises
    ------
    InputError
        If a reading is over range.
    """
    if one.is_open or other.is_open:
        raise InputError("a reading is over range; two numbers are needed to say whether they agree")
    apart = abs(one.value - other.value)
    if apart <= math.hypot(one.limit, other.limit):
        return True
    return False if apart > one.limit + other.limit else None
