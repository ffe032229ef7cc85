"""Is the food safe? Cold holding at 5 °C, and the two stages in which cooked food must cool.

Rules of the FDA Food Code, 3-501.16 and 3-501.14, as states have adopted it (read there). Local food law comes first.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from coldwright.cabinet.checks import MINUTES, check_between, check_temperature
from coldwright.errors import InputError

COLD_HOLDING_K, HOT_HOLDING_K, FIRST_STAGE_K = 278.15, 330.15, 294.15  # 5 °C (41 °F), 57 °C (135 °F), 21 °C (70 °F)
FIRST_STAGE_S, WHOLE_S = 2 * 3600.0, 6 * 3600.0


class Safety(Enum):
    """What a record of food temperatures says."""

    SAFE = "safe"
    UNSAFE = "unsafe"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True)
class SafetyVerdict:
    """A verdict with its reason in a sentence."""

    safety: Safety
    reason: str


def cold_holding(product_k: float, limit_k: float = 0.0) -> SafetyVerdict:
    """Whether food is cold enough to be kept, by the temperature of the food and not of the air.

    Parameters
    ----------
    product_k : float
        Temperature of the food [K]
    limit_k : float
        Most that the thermometer can be off [K]

    Returns
    -------
    SafetyVerdict
        Safe at 5 °C or below with the limit allowed for; cannot tell where the limit decides [-]

    Raises
    ------
    InputError
        If the temperature is none of food.
    """
    _check_food(product_k, limit_k)
    shown = f"the food is at {_c(product_k)} ± {limit_k:.1f} K; the rule is 5 °C (41 °F) or below"
    if product_k + limit_k <= COLD_HOLDING_K:
        return SafetyVerdict(Safety.SAFE, shown)
    if product_k - limit_k > COLD_HOLDING_K:
        return SafetyVerdict(Safety.UNSAFE, shown)
    return SafetyVerdict(Safety.CANNOT_TELL, f"{shown}: the thermometer's limit decides")


def cooling_rule(times_s: Sequence[float], product_k: Sequence[float], limit_k: float = 0.0) -> SafetyVerdict:
    """Whether cooked food cooled fast enough: 57 °C to 21 °C within 2 h, and to 5 °C within 6 h in all.

    Parameters
    ----------
    times_s : sequence
        Times of the readings, rising, the first one where the food was at 57 °C or above [-]
    product_k : sequence
        Temperatures of the food's core in kelvin, one for each time [-]
    limit_k : float
        Most that the thermometer can be off [K]

    Returns
    -------
    SafetyVerdict
        With the times that it took, or why it cannot be told yet [-]

    Raises
    ------
    InputError
        If the record has fewer than two readings, lengths differ, times do not rise or the food starts below 57 °C.
    """
    _check_record(times_s, product_k, limit_k)
    lasted = _lasted(times_s, product_k)
    doubts: list[str] = []
    reached: list[str] = []
    for place, stage_k, allowed in (("21 °C", FIRST_STAGE_K, FIRST_STAGE_S), ("5 °C", COLD_HOLDING_K, WHOLE_S)):
        at_best = time_below(times_s, product_k, stage_k + limit_k, HOT_HOLDING_K)
        surely = time_below(times_s, product_k, stage_k - limit_k, HOT_HOLDING_K)
        if min(at_best, lasted) > allowed:
            told = f"took {_h(at_best)}" if math.isfinite(at_best) else f"is not reached after {_h(lasted)}"
            return SafetyVerdict(Safety.UNSAFE, f"{place} {told}; the rule allows {_h(allowed)}. Discard the food")
        if surely > allowed:
            doubts.append(f"whether {place} is reached within {_h(allowed)} cannot be told from this record")
        reached.append(f"{place} after {_h(surely)}")
    if doubts:
        return SafetyVerdict(Safety.CANNOT_TELL, "; ".join(doubts))
    return SafetyVerdict(Safety.SAFE, "; ".join(reached))


def time_below(times_s: Sequence[float], product_k: Sequence[float], wanted_k: float, from_k: float) -> float:
    """Time from falling through one temperature to reaching a lower one; straight lines between the readings.

    Parameters
    ----------
    times_s, product_k : sequence
        Times in seconds and temperatures in kelvin [-]
    wanted_k, from_k : float
        The lower and the higher temperature [K]

    Returns
    -------
    float
        Time, inf if it is not reached in the record [s]
    """
    end = _falls_to(times_s, product_k, wanted_k)
    return end if math.isinf(end) else max(0.0, end - _falls_to(times_s, product_k, from_k))


def _falls_to(times_s: Sequence[float], product_k: Sequence[float], wanted_k: float) -> float:
    if product_k[0] <= wanted_k:
        return times_s[0]
    for i in range(1, len(times_s)):
        if product_k[i] <= wanted_k:
            share = (product_k[i - 1] - wanted_k) / (product_k[i - 1] - product_k[i])
            return times_s[i - 1] + share * (times_s[i] - times_s[i - 1])
    return math.inf


def _lasted(times_s: Sequence[float], product_k: Sequence[float]) -> float:
    began = _falls_to(times_s, product_k, HOT_HOLDING_K)
    return 0.0 if math.isinf(began) else times_s[-1] - began


def _check_record(times_s: Sequence[float], product_k: Sequence[float], limit_k: float) -> None:
    if len(times_s) != len(product_k) or len(times_s) < 2:
        raise InputError(
            f"the record has {len(times_s)} times and {len(product_k)} temperatures; it needs two or more of each, "
            "as many of one as of the other"
        )
    if any(not a < b for a, b in pairwise(times_s)):
        raise InputError("the times of the record do not rise; each reading comes after the one before it")
    for kelvin in product_k:
        _check_food(kelvin, limit_k)
    if product_k[0] < HOT_HOLDING_K:
        raise InputError(
            f"the record begins at {_c(product_k[0])}; the cooling rule counts from 57 °C (135 °F). Was it °F taken "
            "for °C, or was the first reading left out?"
        )
    check_between("the length of the record", times_s[-1] - times_s[0], "s", 1.0, 7 * 86400.0, MINUTES)


def _check_food(kelvin: float, limit_k: float) -> None:
    check_temperature("the temperature of the food", kelvin, 223.15, 383.15)
    check_between("the limit of the thermometer", limit_k, "K", 0.0, 10.0)


def _c(kelvin: float) -> str:
    return f"{kelvin - 273.15:.1f} °C"


def _h(seconds: float) -> str:
    return f"{seconds / 3600.0:.1f} h"
