"""Leak rate from a record of pressures or of weights: a straight line through it, with the uncertainty of its slope."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.refrigerants.nitrogen import nitrogen_density
from coldwright.sealed_system.service.inputs import check_positive, check_pressure, check_temperature
from coldwright.sealed_system.service.standing_pressure import check_volume

YEAR_S = 365.25 * 86400.0
LEAST_POINTS = 3


@dataclass(frozen=True)
class LeakRate:
    """Mass lost in a second, and the limit of that at 95 % [kg/s]. Below zero it would be a gain."""

    kg_per_s: float
    limit_kg_per_s: float

    @property
    def grams_per_year(self) -> float:
        """Loss [g/year]."""
        return self.kg_per_s * 1000.0 * YEAR_S

    @property
    def limit_grams_per_year(self) -> float:
        """Limit of the loss at 95 % [g/year]."""
        return self.limit_kg_per_s * 1000.0 * YEAR_S

    @property
    def is_shown(self) -> bool:
        """Whether the loss stands out from its uncertainty."""
        return self.kg_per_s > self.limit_kg_per_s


@dataclass(frozen=True)
class Line:
    """Slope of a straight line through points, the standard error of it, and how many points are left to judge that."""

    slope: float
    standard_error: float
    degrees: int


def fit_line(x: Sequence[float], y: Sequence[float], resolution: float = 0.0) -> Line:
    r"""Least-squares slope with its standard error.

    .. math:: s_b = \sqrt{\max(s^2, r^2 / 12) / \sum (x - \bar x)^2}

    Parameters
    ----------
    x, y : sequence of float
        Points, three or more, at two or more different x [-]
    resolution : float
        Last digit of y as the instrument shows it; the scatter is taken as no less than what rounding to it gives [-]

    Returns
    -------
    Line
        Slope, its standard error and the degrees of freedom
    """
    if len(x) != len(y):
        raise InputError(f"the record has {len(x)} times and {len(y)} values; it must have as many of each")
    if len(x) < LEAST_POINTS:
        raise InputError(
            f"the record has {len(x)} readings; a slope and its uncertainty take {LEAST_POINTS} or more. "
            "Two points always lie on a line"
        )
    if not all(math.isfinite(v) for v in (*x, *y)):
        raise InputError("the record holds a value that is no number; each reading must be finite")
    mean_x, mean_y = math.fsum(x) / len(x), math.fsum(y) / len(y)
    spread = math.fsum((xi - mean_x) ** 2 for xi in x)
    if not spread > 0.0:
        raise InputError("all readings of the record were taken at the same time; a rate takes different times")
    slope = math.fsum((xi - mean_x) * (yi - mean_y) for xi, yi in zip(x, y, strict=True)) / spread
    degrees = len(x) - 2
    scatter = math.fsum((yi - mean_y - slope * (xi - mean_x)) ** 2 for xi, yi in zip(x, y, strict=True)) / degrees
    return Line(slope, math.sqrt(max(scatter, resolution**2 / 12.0) / spread), degrees)


def _share_within(t: float, degrees: int) -> float:
    """Share of Student's distribution between -t and t (Abramowitz and Stegun 26.7.3 and 26.7.4, from memory)."""
    angle = math.atan(t / math.sqrt(degrees))
    cosine, term, total = math.cos(angle), 1.0, 0.0
    if degrees % 2:
        term = cosine
        for k in range(1, degrees - 1, 2):
            total += term
            term *= cosine**2 * (k + 1) / (k + 2)
        return 2.0 / math.pi * (angle + math.sin(angle) * total)
    for k in range(0, degrees, 2):
        total += term
        term *= cosine**2 * (k + 1) / (k + 2)
    return math.sin(angle) * total


def student_95(degrees: int) -> float:
    """Factor that turns a standard error into a limit at 95 %, both sides, by Student's distribution.

    Parameters
    ----------
    degrees : int
        Degrees of freedom, one or more [-]

    Returns
    -------
    float
        Factor; 12.7 for one degree, 1.96 for very many [-]
    """
    if degrees < 1:
        raise InputError(f"the degrees of freedom are {degrees}; they must be one or more")
    low, high = 1.9, 13.0
    while high - low > 1e-10:
        middle = (low + high) / 2.0
        if _share_within(middle, degrees) < 0.95:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def leak_from_weights(times_s: Sequence[float], masses_kg: Sequence[float], resolution_kg: float) -> LeakRate:
    """Leak rate from weights of the same thing taken over time.

    Parameters
    ----------
    times_s : sequence of float
        When each was weighed [s]
    masses_kg : sequence of float
        Weight each time, hoses and all the same [kg]
    resolution_kg : float
        Last digit of the scale [kg]

    Returns
    -------
    LeakRate
        Loss and its limit at 95 %
    """
    check_positive("the resolution of the scale", resolution_kg, "kg")
    for mass in masses_kg:
        check_positive("a weight of the record", mass, "kg", "Was the scale zeroed with the unit on it?")
    line = fit_line(times_s, masses_kg, resolution_kg)
    return LeakRate(-line.slope, student_95(line.degrees) * line.standard_error)


def leak_from_pressures(
    times_s: Sequence[float],
    pressures_pa: Sequence[float],
    temperatures_k: Sequence[float],
    volume_m3: float,
    resolution_pa: float,
    volume_share: float = 0.1,
) -> LeakRate:
    """Leak rate of nitrogen from pressures and temperatures over time, at about the pressure of the test.

    Each reading is turned into the mass of nitrogen it stands for, as a real gas; so temperature is corrected for.

    Parameters
    ----------
    times_s : sequence of float
        When each was read [s]
    pressures_pa : sequence of float
        Absolute pressures [Pa]
    temperatures_k : sequence of float
        Temperatures of the gas [K]
    volume_m3 : float
        Volume under pressure [m³]
    resolution_pa : float
        Last digit, or part of a division that can be read, of the gauge [Pa]
    volume_share : float
        Share by which the volume may be off, 0 to 1; it seldom is known better than a tenth [-]

    Returns
    -------
    LeakRate
        Loss of nitrogen and its limit at 95 %

    Notes
    -----
    A line fits as long as the pressure falls by little; past a tenth of it the leak itself slows down.
    """
    check_volume(volume_m3)
    check_positive("the resolution of the gauge", resolution_pa, "Pa")
    if not 0.0 <= volume_share < 1.0:
        raise InputError(f"the share of the volume is {volume_share:g}; it must lie between 0 and 1. Was it per cent?")
    if not len(times_s) == len(pressures_pa) == len(temperatures_k):
        raise InputError(
            f"the record has {len(times_s)} times, {len(pressures_pa)} pressures and {len(temperatures_k)} "
            "temperatures; it must have as many of each"
        )
    masses = []
    for pressure, temperature in zip(pressures_pa, temperatures_k, strict=True):
        check_pressure("a pressure of the record", pressure)
        check_temperature("a temperature of the record", temperature)
        masses.append(volume_m3 * nitrogen_density(pressure, temperature))
    step = max(masses, default=0.0) * resolution_pa / max(pressures_pa, default=1.0)
    line = fit_line(times_s, masses, step)
    scatter = student_95(line.degrees) * line.standard_error
    return LeakRate(-line.slope, math.hypot(scatter, volume_share * line.slope))
