"""The air around: its pressure at a height and in a weather, and gauge against absolute pressure."""

from __future__ import annotations

from coldwright.errors import InputError
from coldwright.quantities.constants import SEA_LEVEL_PA

SEA_LEVEL_K = 288.15
LAPSE_K_PER_M = 0.0065
EXPONENT = 9.80665 * 0.0289644 / (8.31432 * LAPSE_K_PER_M)  # constants of the 1976 standard; 5.2559
LEAST_ALTITUDE_M, MOST_ALTITUDE_M = -500.0, 5500.0  # the Dead Sea's shore; the highest towns lie below 5.2 km
LEAST_SEA_LEVEL_PA, MOST_SEA_LEVEL_PA = 87_000.0, 109_000.0  # lowest and highest ever measured (from memory)


def station_pressure(altitude_m: float, sea_level_pa: float = SEA_LEVEL_PA) -> float:
    r"""Pressure of the air at a place, from its height and the weather report.

    .. math:: p^{1/n} = p_0^{1/n} - p_s^{1/n} \, L h / T_s, \qquad n = g M / (R L)

    A weather report gives the pressure reduced to sea level in this same way, so that the local one comes back.

    Parameters
    ----------
    altitude_m : float
        Height above the sea [m]
    sea_level_pa : float
        Pressure reduced to sea level, as in a weather report [Pa]

    Returns
    -------
    float
        Absolute pressure of the air [Pa]

    Raises
    ------
    InputError
        If nobody works at that height, or no weather has that pressure.

    References
    ----------
    .. [1] *U.S. Standard Atmosphere, 1976*, NOAA, NASA, USAF (constants from memory).

    Examples
    --------
    >>> round(station_pressure(1609.0))
    83431
    """
    if not LEAST_ALTITUDE_M <= altitude_m <= MOST_ALTITUDE_M:
        raise InputError(
            f"the altitude is {altitude_m:g} m; people work from {LEAST_ALTITUDE_M:.0f} m to {MOST_ALTITUDE_M:.0f} m. "
            "Was it in feet?"
        )
    if not LEAST_SEA_LEVEL_PA <= sea_level_pa <= MOST_SEA_LEVEL_PA:
        raise InputError(
            f"the pressure at sea level is {sea_level_pa:g} Pa; weather keeps it from {LEAST_SEA_LEVEL_PA:.0f} Pa to "
            f"{MOST_SEA_LEVEL_PA:.0f} Pa. Was it in hPa (mbar) or inches of mercury, or not reduced to sea level?"
        )
    power = 1.0 / EXPONENT
    fall = SEA_LEVEL_PA**power * LAPSE_K_PER_M * altitude_m / SEA_LEVEL_K
    return float((sea_level_pa**power - fall) ** EXPONENT)


def _check_air(atmosphere_pa: float) -> None:
    if not 40e3 <= atmosphere_pa <= 115e3:
        raise InputError(
            f"the pressure of the air is {atmosphere_pa:g} Pa; where people work it is from 40 kPa to 115 kPa. "
            "Was it in another unit?"
        )


def gauge_of(absolute_pa: float, atmosphere_pa: float = SEA_LEVEL_PA) -> float:
    """What a gauge shows that reads 0 in the air of the place.

    Parameters
    ----------
    absolute_pa : float
        Absolute pressure [Pa]
    atmosphere_pa : float
        Absolute pressure of the air at the place [Pa]

    Returns
    -------
    float
        Gauge pressure, negative in a vacuum [Pa]

    Raises
    ------
    InputError
        If the absolute pressure is below 0, or the air's is not one of this world.
    """
    _check_air(atmosphere_pa)
    if not 0 <= absolute_pa < float("inf"):
        raise InputError(
            f"the absolute pressure is {absolute_pa:g} Pa; nothing is below a perfect vacuum, 0. "
            "Was it a gauge pressure?"
        )
    return absolute_pa - atmosphere_pa


def absolute_of(gauge_pa: float, atmosphere_pa: float = SEA_LEVEL_PA) -> float:
    """Absolute pressure from what a gauge shows that reads 0 in the air of the place.

    Parameters
    ----------
    gauge_pa : float
        Gauge pressure, negative in a vacuum [Pa]
    atmosphere_pa : float
        Absolute pressure of the air at the place [Pa]

    Returns
    -------
    float
        Absolute pressure [Pa]

    Raises
    ------
    InputError
        If the gauge pressure is below a perfect vacuum, or the air's is not one of this world.
    """
    _check_air(atmosphere_pa)
    absolute = gauge_pa + atmosphere_pa
    if not 0 <= absolute < float("inf"):
        raise InputError(
            f"the gauge pressure is {gauge_pa:g} Pa where the air has {atmosphere_pa:g} Pa; a perfect vacuum reads "
            f"{-atmosphere_pa:g} Pa and nothing is below it. Was it in another unit?"
        )
    return absolute
