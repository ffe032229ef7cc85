"""Curves fitted to a decay test: one that comes to a level, and one that goes on rising.

For each pace τ of the first bend the rest is a straight least-squares fit, with bounds that the physics gives.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np

PACES = 40
_UNSURE = 9.0  # a fit this much worse in χ² than the best is still believed: three standard deviations
_SHARE_OF_READING = 0.005
"""Gauges are not quite smooth and curves not quite exponentials: scatter that is always allowed (an estimate)."""


@dataclass(frozen=True)
class Fit:
    """A fitted curve: its misfit, the level that it comes to or its straight rise starts from, rise, pace of the bend.

    `misfit` is the sum of squares in units of the scatter, `level_pa` in Pa, `rise` in Pa/s, `pace_s` in s.
    """

    misfit: float
    level_pa: float
    rise: float
    pace_s: float


def level_fits(seconds: np.ndarray, pascal: np.ndarray, scatter: np.ndarray, paces: np.ndarray) -> list[Fit]:
    r"""Best fits of a curve that comes to a level, one for each pace.

    .. math:: p = a - b e^{-t / \tau}, \quad b \ge 0

    Parameters
    ----------
    seconds, pascal, scatter : ndarray
        Times, pressures and how far a single one may scatter, shape (n,) [s, Pa, Pa]
    paces : ndarray
        Paces to try, shape (m,) [s]
    """
    return _fits(seconds, pascal, scatter, paces, straight=False)


def best_below(seconds: np.ndarray, pascal: np.ndarray, scatter: np.ndarray, paces: np.ndarray, most_pa: float) -> Fit:
    """Best fit of a curve that comes to a level no higher than a bound.

    Parameters
    ----------
    seconds, pascal, scatter : ndarray
        Times, pressures and how far a single one may scatter, shape (n,) [s, Pa, Pa]
    paces : ndarray
        Paces to try first, rising, shape (m,) [s]
    most_pa : float
        Highest level allowed [Pa]
    """
    for _ in range(3):  # at the bound the pace alone sets the slope: look closer and closer round the best
        fits = _fits(seconds, pascal, scatter, paces, straight=False)
        held = [fit if fit.level_pa <= most_pa else _held_down(seconds, pascal, scatter, fit, most_pa) for fit in fits]
        place = min(range(len(held)), key=lambda i: held[i].misfit)
        paces = np.geomspace(paces[max(0, place - 1)], paces[min(len(held) - 1, place + 1)], paces.size)
    return held[place]


def rising_fits(seconds: np.ndarray, pascal: np.ndarray, scatter: np.ndarray, paces: np.ndarray) -> list[Fit]:
    r"""Best fits of a curve that goes on rising in a straight line, one for each pace.

    .. math:: p = a + r t - b e^{-t / \tau}, \quad r \ge 0, \; b \ge 0

    Parameters
    ----------
    seconds, pascal, scatter : ndarray
        Times, pressures and how far a single one may scatter, shape (n,) [s, Pa, Pa]
    paces : ndarray
        Paces to try, shape (m,) [s]
    """
    return _fits(seconds, pascal, scatter, paces, straight=True)


def believed(fits: list[Fit], best: Fit, readings: int) -> list[Fit]:
    """Those fits that are not clearly worse than the best of all.

    Parameters
    ----------
    fits : list of Fit
        Fits [-]
    best : Fit
        Best of all curves; where it is worse than the scatter, the scatter is taken to be larger [-]
    readings : int
        Number of readings [-]
    """
    stretch = max(1.0, best.misfit / max(1, readings - 3))
    return [fit for fit in fits if fit.misfit <= best.misfit + _UNSURE * stretch]


def scatter_of(pascal: np.ndarray, resolution_pa: float) -> np.ndarray:
    """How far a single reading may scatter: from second differences and the digits, and 0.5 % of the reading.

    Parameters
    ----------
    pascal : ndarray
        Pressures at even times, or nearly so, shape (n,), n at least 3 [Pa]
    resolution_pa : float
        Last digit of the gauge [Pa]

    Returns
    -------
    ndarray
        Scatter, one standard deviation, shape (n,) [Pa]
    """
    noise = float(np.median(np.abs(np.diff(pascal, 2)))) / (0.6745 * np.sqrt(6.0))
    digits = resolution_pa / np.sqrt(12.0)
    return np.asarray(np.sqrt(noise**2 + digits**2 + (_SHARE_OF_READING * pascal) ** 2))


def slopes_of(seconds: np.ndarray, pascal: np.ndarray, scatter: np.ndarray) -> tuple[float, float, float]:
    """Slopes of the two halves of some readings, and how far their difference may scatter.

    Parameters
    ----------
    seconds, pascal, scatter : ndarray
        Times, pressures and how far a single one may scatter, shape (n,), n at least 4 [s, Pa, Pa]

    Returns
    -------
    tuple of float
        Slope of the first half, of the second half, two standard deviations of their difference [Pa/s]
    """
    middle = seconds.size // 2
    found = [_slope(part, seconds, pascal, scatter) for part in (slice(None, middle), slice(middle, None))]
    (early, early_off), (late, late_off) = found
    return early, late, 2.0 * float(np.hypot(early_off, late_off))


def _slope(part: slice, seconds: np.ndarray, pascal: np.ndarray, scatter: np.ndarray) -> tuple[float, float]:
    since = seconds[part] - seconds[part].mean()
    spread = float(np.sum(since**2))
    return float(np.sum(since * pascal[part])) / spread, float(np.mean(scatter[part])) / spread**0.5


def _fits(seconds: np.ndarray, pascal: np.ndarray, scatter: np.ndarray, paces: np.ndarray, straight: bool) -> list[Fit]:
    since = seconds - seconds[0]
    fits = []
    for pace in paces.tolist():
        columns = np.column_stack([np.ones_like(since), since if straight else 0 * since, -np.exp(-since / pace)])
        misfit, found = _not_negative(columns / scatter[:, None], pascal / scatter)
        fits.append(Fit(misfit, float(found[0]), float(found[1]), pace))
    return fits


def _held_down(seconds: np.ndarray, pascal: np.ndarray, scatter: np.ndarray, fit: Fit, most_pa: float) -> Fit:
    bend = np.exp(-(seconds - seconds[0]) / fit.pace_s) / scatter
    short = (most_pa - pascal) / scatter
    height = max(0.0, float(bend @ short) / float(bend @ bend))
    return Fit(float(np.sum((short - height * bend) ** 2)), most_pa, 0.0, fit.pace_s)


def _not_negative(columns: np.ndarray, wanted: np.ndarray) -> tuple[float, np.ndarray]:
    """Least squares in which all but the first parameter are zero or more: the best of all choices of zeros."""
    others = [place for place in range(1, columns.shape[1]) if np.any(columns[:, place])]
    best = np.inf, np.zeros(columns.shape[1])
    for count in range(len(others) + 1):
        for kept in combinations(others, count):
            places = [0, *kept]
            found = np.zeros(columns.shape[1])
            found[places] = np.linalg.lstsq(columns[:, places], wanted, rcond=None)[0]
            misfit = float(np.sum((columns @ found - wanted) ** 2))
            if misfit < best[0] and all(found[place] >= 0 for place in kept):
                best = misfit, found
    return best
