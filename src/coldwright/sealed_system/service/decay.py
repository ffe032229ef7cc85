"""Reading a decay test: the pump is shut off, and the pressure rises. Tight, wet, leaking, or too early to tell?

A dry and tight system rises a little and stays. Water rises to its vapour pressure and stays there. A leak rises on and
on in a straight line. In the first minutes all three can look alike: then the answer is that it cannot be told yet.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

import numpy as np

from coldwright.errors import InputError
from coldwright.refrigerants.water import TRIPLE_K, TRIPLE_PA, water_vapour_pressure
from coldwright.sealed_system.service import decay_words as words
from coldwright.sealed_system.service.decay_curves import (
    PACES,
    Fit,
    believed,
    best_below,
    level_fits,
    rising_fits,
    scatter_of,
    slopes_of,
)
from coldwright.sealed_system.service.decay_words import MICRON_PA

TIGHT_BELOW_PA = 1000 * MICRON_PA
"""A system that holds below 1000 microns passes; makers differ (common practice, no source)."""
GAUGE_SHARE = 0.10
RESOLUTION_PA = MICRON_PA
FEWEST = 6
_MOST_PA = 120_000.0
_SLOWEST = 0.5  # part of the test: a level counts as seen if its pace is quicker
_BEND_OVER = 0.2  # part of the test: pace of a first bend beside which a straight rise counts as a leak
_BADLY = 2.0  # misfit for each reading from which the start of the test is left out
_ALIKE = 0.1  # a rise over the test that is less than this part of the pressure is no rise
_STRAIGHT = 0.15  # the two halves of a straight line differ in slope by no more than this part


class Decay(Enum):
    """What a decay test says."""

    TIGHT = "dry and tight"
    WATER = "water"
    LEAK = "leak"
    OTHER_GAS = "gas from oil or from behind the capillary"
    CANNOT_TELL = "cannot tell yet"


@dataclass(frozen=True)
class DecayReading:
    """What a decay test says, why, and how sure.

    The level with its ± in Pa, nan if there is none. A straight rise that the readings do not rule out goes from
    `least_rise` to `most_rise`, in Pa/s.
    """

    verdict: Decay
    reason: str
    level_pa: float = math.nan
    level_limit_pa: float = math.nan
    least_rise: float = 0.0
    most_rise: float = 0.0


@dataclass(frozen=True)
class _Shape:
    """What the curve does: fits with a level that was seen, with one still to come, with a straight rise.

    `may_be_water` tells whether one still to come may be that of water.
    """

    seen: list[Fit]
    to_come: list[Fit]
    may_be_water: bool
    least_rise: float
    most_rise: float
    misfit: float

    @property
    def levels(self) -> tuple[float, float]:
        """Lowest and highest level that was seen [Pa]."""
        found = [fit.level_pa for fit in self.seen]
        return min(found), max(found)


def read_decay(
    times: Sequence[float],
    pressures: Sequence[float],
    temperature_k: float,
    tight_below_pa: float = TIGHT_BELOW_PA,
    gauge_share: float = GAUGE_SHARE,
) -> DecayReading:
    """What a decay test says, with its reason and how sure it is.

    Parameters
    ----------
    times : sequence of float
        Times since the pump was shut off, rising, evenly if possible [s]
    pressures : sequence of float
        Absolute pressures at those times [Pa]
    temperature_k : float
        Temperature of the coldest part of the system [K]
    tight_below_pa : float
        Level below which a system passes [Pa]
    gauge_share : float
        Accuracy of the vacuum gauge as a share of its reading [-]

    Raises
    ------
    InputError
        If there are too few readings, times do not rise, or a value cannot be right.

    Notes
    -----
    Fits a curve that comes to a level and one that ends in a straight rise, and keeps all that the readings do not rule
    out. Where what is kept says different things, nothing is claimed. Gas from oil or from behind the capillary levels
    off too, by chance perhaps where water does.
    """
    seconds, pascal = _checked(times, pressures)
    water = water_vapour_pressure(temperature_k)
    if not 0 < gauge_share < 0.5:
        raise InputError(f"the accuracy of the gauge is {gauge_share:g}; as a share it must be above 0 and below 0.5")
    if not tight_below_pa > 0:
        raise InputError(f"the level to pass is {tight_below_pa:g} Pa; it must be above zero")
    if pascal[-1] < (1 - _ALIKE) * pascal[0] - 2 * RESOLUTION_PA:
        return DecayReading(Decay.CANNOT_TELL, words.FALLS)
    most_water = (1 + gauge_share) * water
    shape = _shape(seconds, pascal, most_water)
    while shape.misfit > _BADLY * seconds.size and 2 * seconds.size >= 3 * FEWEST:
        start = seconds.size // 3
        seconds, pascal = seconds[start:], pascal[start:]
        shape = _shape(seconds, pascal, most_water)
    return _decided(shape, seconds, pascal, temperature_k, water, tight_below_pa, gauge_share)


def leak_flow(rise: float, volume_m3: float) -> float:
    """Flow into a system from how fast its pressure rises.

    Parameters
    ----------
    rise : float
        Rise of pressure, zero or more [Pa/s]
    volume_m3 : float
        Volume that rises with it, above zero [m³]

    Returns
    -------
    float
        Flow [Pa·m³/s]

    Raises
    ------
    InputError
        If one is outside these bounds.
    """
    if not 0 <= rise < math.inf:
        raise InputError(f"the rise is {rise:g} Pa/s; it must be zero or more and finite")
    if not 0 < volume_m3 < 1:
        raise InputError(
            f"the volume is {volume_m3:g} m³; it must be above 0 m³ and below 1 m³. Was it typed in litres?"
        )
    return rise * volume_m3


def _checked(times: Sequence[float], pressures: Sequence[float]) -> tuple[np.ndarray, np.ndarray]:
    if len(times) != len(pressures):
        raise InputError(f"there are {len(times)} times and {len(pressures)} pressures; each reading needs both")
    if len(times) < FEWEST:
        raise InputError(f"there are {len(times)} readings; a decay test needs at least {FEWEST}")
    for before, after in pairwise(times):
        if not before < after < math.inf:
            raise InputError(f"a reading at {after:g} s follows one at {before:g} s; times must rise")
    for pa in pressures:
        if not pa > 0:
            raise InputError(f"a pressure is {pa:g} Pa; it must be above zero. Was it a gauge pressure?")
        if pa > _MOST_PA:
            raise InputError(
                f"a pressure is {pa:g} Pa, more than the atmosphere has; a decay test lies far below. Was it microns?"
            )
    return np.array(times, dtype=float), np.array(pressures, dtype=float)


def _shape(seconds: np.ndarray, pascal: np.ndarray, most_water: float) -> _Shape:
    span, count = float(seconds[-1] - seconds[0]), seconds.size
    scatter = scatter_of(pascal, RESOLUTION_PA)
    seen = level_fits(seconds, pascal, scatter, np.geomspace(span / count, _SLOWEST * span, PACES))
    slow = np.geomspace(_SLOWEST * span, 50 * span, PACES)[1:]
    to_come = level_fits(seconds, pascal, scatter, slow)
    of_water = best_below(seconds, pascal, scatter, slow, most_water)
    quickest = min(span / count, 0.9 * _BEND_OVER * span)
    rising = rising_fits(seconds, pascal, scatter, np.geomspace(quickest, _BEND_OVER * span, PACES))
    best = min((*seen, *to_come, *rising), key=lambda fit: fit.misfit)
    rises = [fit.rise for fit in believed(rising, best, count)]
    off = 2.0 * float(np.mean(scatter)) * math.sqrt(12.0 / count) / span
    least, most = (max(0.0, min(rises) - off), max(rises) + off) if rises else (0.0, 0.0)
    may_be_water = bool(believed([of_water], best, count))
    kept = believed(seen, best, count), believed(to_come, best, count)
    return _Shape(*kept, may_be_water, least, most, best.misfit)


def _decided(
    shape: _Shape,
    seconds: np.ndarray,
    pascal: np.ndarray,
    temperature_k: float,
    water: float,
    tight_below: float,
    share: float,
) -> DecayReading:
    end, span = float(pascal[-1]), float(seconds[-1] - seconds[0])
    counts = max(_ALIKE * end, 3 * RESOLUTION_PA)  # a rise that counts as one
    may_rise = shape.most_rise * span > counts
    rises = end - float(pascal[0]) > counts
    may_come = rises and any(fit.level_pa > end + 3 * counts for fit in shape.to_come)
    if shape.seen and not may_rise and not may_come:
        return _levelled(shape, temperature_k, water, tight_below, share)
    early, late, off = slopes_of(seconds, pascal, scatter_of(pascal, RESOLUTION_PA))
    if late - early > off + _STRAIGHT * abs(late):
        return DecayReading(Decay.CANNOT_TELL, words.quicker(end, water), math.nan, math.nan, 0.0, shape.most_rise)
    straight = abs(late - early) <= max(_STRAIGHT * late, 0.0)
    if straight and not shape.seen and shape.least_rise * span > counts / 2 and not shape.may_be_water:
        reason = words.leak(shape.least_rise, shape.most_rise, end > (1 + share) * water, water)
        return DecayReading(Decay.LEAK, reason, math.nan, math.nan, shape.least_rise, shape.most_rise)
    return DecayReading(Decay.CANNOT_TELL, words.still_open(end, late, water), math.nan, math.nan, 0.0, shape.most_rise)


def _levelled(shape: _Shape, temperature_k: float, water: float, tight_below: float, share: float) -> DecayReading:
    low, high = shape.levels
    level = 0.5 * (low + high)
    limit = 0.5 * (high - low) + share * level

    def reading(verdict: Decay, reason: str) -> DecayReading:
        return DecayReading(verdict, reason, level, limit, shape.least_rise, shape.most_rise)

    hidden = words.hidden(shape.most_rise)
    if water - limit <= tight_below and level <= tight_below:
        return reading(Decay.CANNOT_TELL, words.cold(level, limit, water))
    if high <= tight_below:
        return reading(Decay.TIGHT, words.tight(level, limit, tight_below, water) + hidden)
    if abs(level - water) <= limit:
        return reading(Decay.WATER, words.water(level, limit, water) + hidden)
    if temperature_k > TRIPLE_K and abs(level - TRIPLE_PA) <= limit:
        return reading(Decay.CANNOT_TELL, words.melting(level, limit, water))
    if low <= tight_below:
        return reading(Decay.CANNOT_TELL, words.near_the_line(level, limit, tight_below))
    return reading(Decay.OTHER_GAS, words.other_gas(level, limit, water) + hidden)
