"""One body with one temperature: it warms and cools towards where it would settle, by one time constant."""

from __future__ import annotations

import math
from collections.abc import Callable

from coldwright.quantities.checks import check_finite, check_not_negative, check_positive


def after(start: float, settles: float, seconds: float, time_constant_s: float) -> float:
    r"""Temperature a while later, on the way to where it settles.

    .. math:: T = T_\infty + (T_0 - T_\infty)\, e^{-t/\tau}

    Parameters
    ----------
    start : float
        Temperature at the beginning [K]
    settles : float
        Temperature that it would settle at [K]
    seconds : float
        Time that passes, zero or more [s]
    time_constant_s : float
        Time constant, above zero [s]

    Returns
    -------
    float
        Temperature [K]

    Raises
    ------
    InputError
        If the time is negative or not finite, a temperature is not finite or the time constant not above zero.
    """
    check_not_negative("the time that passes", seconds, "s")
    _check(start, settles, time_constant_s)
    return settles + (start - settles) * math.exp(-seconds / time_constant_s)


def time_to(start: float, wanted: float, settles: float, time_constant_s: float) -> float:
    r"""Time from one temperature to another, or inf where it is never reached.

    .. math:: t = \tau \ln \frac{T_0 - T_\infty}{T - T_\infty}

    Parameters
    ----------
    start : float
        Temperature at the beginning [K]
    wanted : float
        Temperature to reach [K]
    settles : float
        Temperature that it would settle at [K]
    time_constant_s : float
        Time constant, above zero [s]

    Returns
    -------
    float
        Time, inf for never [s]

    Raises
    ------
    InputError
        If a temperature is not finite or the time constant not above zero.
    """
    check_finite("the temperature to reach", wanted, "K")
    _check(start, settles, time_constant_s)
    if wanted == start:
        return 0.0
    left, way = wanted - settles, start - settles
    if left == 0 or way / left < 1:  # on the far side of where it settles, or behind the start
        return math.inf
    return time_constant_s * math.log(way / left)


def where_zero(falling: Callable[[float], float], low: float, high: float, within: float = 1e-9) -> float:
    """Where a falling function is zero, by halving.

    Parameters
    ----------
    falling : callable
        Function of one number, above zero at `low` and below at `high` [-]
    low, high : float
        Ends of the span [any]
    within : float
        How close, as a part of the upper end [1]

    Returns
    -------
    float
        The place [any]
    """
    while high - low > within * high:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if falling(middle) > 0 else (low, middle)
    return 0.5 * (low + high)


def _check(start: float, settles: float, time_constant_s: float) -> None:
    check_finite("the temperature at the beginning", start, "K")
    check_finite("the temperature that it settles at", settles, "K")
    check_positive("the time constant", time_constant_s, "s")
