"""How far off a result can be that is worked out from several readings, and what a meter itself takes away."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from coldwright.electrical.measured import Measured
from coldwright.errors import InputError
from coldwright.quantities.checks import check_ohms, check_wire


@dataclass(frozen=True)
class Limits:
    """A result with its limits, all in the unit of the result.

    `worst`: every reading off by its whole limit, each to the side that hurts. `likely`: root of the sum of squares,
    for readings whose errors have nothing to do with each other.
    """

    value: float
    worst: float
    likely: float


def reading_limits(formula: Callable[..., float], *readings: Measured) -> Limits:
    r"""Result of a formula and how far off it can be, from the limits of its readings.

    The effect of one reading is half the difference that its own limit makes,

    .. math:: e_i = |f(x_i + l_i) - f(x_i - l_i)| / 2,

    the worst case is the sum of the effects, the likely one the root of the sum of their squares [1]_.

    Parameters
    ----------
    formula : callable
        Takes one number per reading, gives the result [-]
    *readings : Measured
        Readings with their limits [-]

    Raises
    ------
    InputError
        If there is no reading, one is over range, or the formula cannot be worked out within its limits.

    Notes
    -----
    Good for limits that are small beside the readings, as those of a meter are.

    References
    ----------
    .. [1] ISO/IEC Guide 98-3 (GUM), 5.1.2, from memory.
    """
    if not readings:
        raise InputError("there is no reading to work with; give at least one")
    for number, reading in enumerate(readings, start=1):
        if reading.is_open:
            raise InputError(f"reading {number} is over range; a result needs a number. Is the path open?")
    values = [reading.value for reading in readings]
    effects = [_effect(formula, values, number, reading.limit) for number, reading in enumerate(readings)]
    return Limits(_worked(formula, values), sum(effects), math.hypot(*effects))


def _worked(formula: Callable[..., float], values: list[float]) -> float:
    try:
        return formula(*values)
    except (ZeroDivisionError, ValueError) as error:
        listed = ", ".join(f"{value:g}" for value in values)
        raise InputError(f"the result cannot be worked out from {listed} ({error}); is one of them zero?") from error


def _effect(formula: Callable[..., float], values: list[float], number: int, limit: float) -> float:
    high, low = list(values), list(values)
    high[number] += limit
    low[number] -= limit
    return abs(_worked(formula, high) - _worked(formula, low)) / 2


def voltmeter_share(source_ohm: float, input_ohm: float) -> float:
    """Share of the true voltage that is left when a voltmeter is put on.

    Parameters
    ----------
    source_ohm : float
        Resistance of the circuit, seen from the two tips, zero or more [Ω]
    input_ohm : float
        Resistance of the meter, above zero [Ω]

    Returns
    -------
    float
        1 if the meter takes nothing away, near 0 for a ghost voltage [-]

    Raises
    ------
    InputError
        If a resistance is outside these bounds.
    """
    check_wire("the resistance of the circuit", source_ohm)
    check_ohms("the input resistance of the voltmeter", input_ohm)
    return input_ohm / (source_ohm + input_ohm)


def ammeter_share(circuit_ohm: float, shunt_ohm: float) -> float:
    """Share of the true current that is left when an ammeter is put in the path.

    Parameters
    ----------
    circuit_ohm : float
        Resistance of the whole path without the meter, above zero [Ω]
    shunt_ohm : float
        Resistance of the meter with its leads, zero or more [Ω]

    Returns
    -------
    float
        1 if the meter takes nothing away [-]

    Raises
    ------
    InputError
        If a resistance is outside these bounds.
    """
    check_wire("the resistance of the ammeter", shunt_ohm)
    check_ohms("the resistance of the path", circuit_ohm, "Is the meter across the supply?")
    return circuit_ohm / (circuit_ohm + shunt_ohm)
