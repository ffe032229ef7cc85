"""Moist air by its parts as ideal gases: vapour pressure, moisture, heat and density; plain functions of numbers."""

from __future__ import annotations

import math

from coldwright.cabinet.checks import PERCENT, check_between, check_temperature
from coldwright.quantities.constants import ICE_POINT_K, SEA_LEVEL_PA

RATIO_OF_MASSES = 0.621945  # molar mass of water over that of dry air
R_DRY_AIR, CP_DRY_AIR, CP_VAPOUR = 287.042, 1006.0, 1860.0  # J/(kg K)
HEAT_OF_EVAPORATION, HEAT_OF_MELTING = 2.501e6, 3.335e5  # J/kg, at 0 °C
LEAST_PA, MOST_PA = 5e4, 1.1e5  # from 5,500 m above the sea to a high at sea level

_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)


def saturation_pressure(temperature_k: float) -> float:
    r"""Vapour pressure of water, or of ice below 0 °C.

    .. math:: \ln p = c_1/T + c_2 + c_3 T + c_4 T^2 + c_5 T^3 + c_6 T^4 + c_7 \ln T

    Parameters
    ----------
    temperature_k : float
        Temperature, -50 °C to 60 °C [K]

    Returns
    -------
    float
        Pressure [Pa]

    Raises
    ------
    InputError
        If the temperature is outside the span.

    References
    ----------
    .. [1] Hyland & Wexler, 1983, as in ASHRAE Handbook: Fundamentals, chapter Psychrometrics (coefficients from
       memory; held to IAPWS in the tests).
    """
    check_temperature("the temperature of the water", temperature_k)
    c = _ICE if temperature_k < ICE_POINT_K else _WATER
    powers = c[1] + temperature_k * (c[2] + temperature_k * (c[3] + temperature_k * (c[4] + temperature_k * c[5])))
    return math.exp(c[0] / temperature_k + powers + c[6] * math.log(temperature_k))


def humidity_ratio(temperature_k: float, relative_humidity: float, pressure_pa: float = SEA_LEVEL_PA) -> float:
    """Mass of water vapour for each kilogram of dry air.

    Parameters
    ----------
    temperature_k : float
        Temperature of the air [K]
    relative_humidity : float
        Share of the saturation pressure, 0 to 1; below 0 °C that of ice [1]
    pressure_pa : float
        Pressure of the air [Pa]

    Returns
    -------
    float
        Moisture of the air [kg/kg]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    check_between("the relative humidity", relative_humidity, "", 0.0, 1.0, PERCENT)
    check_between("the pressure of the air", pressure_pa, "Pa", LEAST_PA, MOST_PA)
    in_air = 1.0007 + 3.46e-8 * pressure_pa  # air raises the vapour pressure of water: Buck 1981, from memory
    vapour = relative_humidity * in_air * saturation_pressure(temperature_k)
    return RATIO_OF_MASSES * vapour / (pressure_pa - vapour)


def air_enthalpy(temperature_k: float, moisture: float) -> float:
    """Heat content of moist air for each kilogram of dry air, zero for dry air and liquid water at 0 °C.

    Parameters
    ----------
    temperature_k : float
        Temperature of the air [K]
    moisture : float
        Water vapour for each kilogram of dry air [kg/kg]

    Returns
    -------
    float
        Enthalpy [J/kg]
    """
    celsius = temperature_k - ICE_POINT_K
    return CP_DRY_AIR * celsius + moisture * (HEAT_OF_EVAPORATION + CP_VAPOUR * celsius)


def air_density(temperature_k: float, moisture: float, pressure_pa: float = SEA_LEVEL_PA) -> float:
    """Density of moist air, its vapour included.

    Parameters
    ----------
    temperature_k : float
        Temperature of the air [K]
    moisture : float
        Water vapour for each kilogram of dry air [kg/kg]
    pressure_pa : float
        Pressure of the air [Pa]

    Returns
    -------
    float
        Density [kg/m³]
    """
    return (1.0 + moisture) * dry_air_density(temperature_k, moisture, pressure_pa)


def dry_air_density(temperature_k: float, moisture: float, pressure_pa: float = SEA_LEVEL_PA) -> float:
    """Mass of dry air in a cubic metre of moist air.

    Parameters
    ----------
    temperature_k : float
        Temperature of the air [K]
    moisture : float
        Water vapour for each kilogram of dry air [kg/kg]
    pressure_pa : float
        Pressure of the air [Pa]

    Returns
    -------
    float
        Dry air in the volume [kg/m³]
    """
    return pressure_pa / (R_DRY_AIR * temperature_k * (1.0 + moisture / RATIO_OF_MASSES))


def dew_point(temperature_k: float, relative_humidity: float) -> float:
    """Temperature at which a surface in the air becomes wet, or grows frost below 0 °C.

    Parameters
    ----------
    temperature_k : float
        Temperature of the air [K]
    relative_humidity : float
        Share of the saturation pressure, above 0 to 1 [1]

    Returns
    -------
    float
        Dew point [K]

    Raises
    ------
    InputError
        If a value is outside its span, or the dew point lies below -50 °C.
    """
    check_between("the relative humidity", relative_humidity, "", 1e-3, 1.0, PERCENT)
    wanted = relative_humidity * saturation_pressure(temperature_k)
    low, high = 223.15, temperature_k
    check_between("the vapour pressure in the air", wanted, "Pa", saturation_pressure(low), math.inf)
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if saturation_pressure(middle) < wanted else (low, middle)
    return 0.5 * (low + high)
