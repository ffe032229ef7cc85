"""Right or not within a tolerance, and which known slip a number shows, if exactly one."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from coldwright.errors import InputError

_ROUNDING = 1e-9  # of the larger number: what binary fractions lose of a decimal number


def within(value: float, target: float, tolerance: float) -> bool:
    """Whether a value lies within a tolerance of a target, the edge included; never for inf or nan.

    Parameters
    ----------
    value, target : float
        Two numbers in one unit [any]
    tolerance : float
        Zero or more, in the same unit [any]
    """
    if not tolerance >= 0:
        raise InputError(f"the tolerance is {tolerance}; it must be zero or more")
    if not (math.isfinite(value) and math.isfinite(target)):
        return False
    return abs(value - target) <= tolerance + _ROUNDING * max(abs(value), abs(target))


def same(one: float | str, other: float | str, tolerance: float) -> bool:
    """Whether one answer counts as the other: equal words, or numbers within the tolerance.

    Parameters
    ----------
    one, other : float or str
        Two answers [any]
    tolerance : float
        Tolerance on numbers [same unit]
    """
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return within(one, other, tolerance)


def one_slip(
    given: float | str, right: Sequence[float | str], tolerance: float, slips: Mapping[str, Sequence[float | str]]
) -> str | None:
    """Key of the slip that an answer shows; None unless exactly one can be meant.

    A slip that cannot be told from a right answer, or from another slip, is never claimed.

    Parameters
    ----------
    given : float or str
        The learner's number or word [any]
    right : sequence of float or str
        Every right answer [any]
    tolerance : float
        Tolerance on numbers [same unit]
    slips : mapping of str to sequence of float or str
        Values that each slip can give [same unit]
    """
    if any(same(given, answer, tolerance) for answer in right):
        return None
    found = [
        key
        for key in separable_slips(right, tolerance, slips)
        if any(same(given, value, tolerance) for value in slips[key])
    ]
    return found[0] if len(found) == 1 else None


def separable_slips(
    right: Sequence[float | str], tolerance: float, slips: Mapping[str, Sequence[float | str]]
) -> tuple[str, ...]:
    """Keys of the slips that can be told from every right answer and from each other.

    Two numbers can be told apart where their bands of tolerance do not meet: further apart than twice the tolerance.

    Parameters
    ----------
    right : sequence of float or str
        Every right answer [any]
    tolerance : float
        Tolerance on numbers [same unit]
    slips : mapping of str to sequence of float or str
        Values that each slip can give [same unit]
    """

    def apart(values: Sequence[float | str], others: Sequence[float | str]) -> bool:
        return not any(same(value, other, 2 * tolerance) for value in values for other in others)

    return tuple(
        key
        for key, values in slips.items()
        if values and apart(values, right) and all(apart(values, other) for name, other in slips.items() if name != key)
    )
