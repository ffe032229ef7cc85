"""Where a refrigerant boils and condenses: bubble and dew, glide and latent heat. Pressures are absolute."""

from __future__ import annotations

from coldwright.refrigerants.coolprop import Fluid, fluid_of
from coldwright.refrigerants.ranges import check_boiling_pressure, check_temperature
from coldwright.refrigerants.states import State, state_at

BELOW_CRITICAL_K = 0.01  # bubble and dew are told apart up to here


def _pressure(refrigerant: str, temperature_k: float, quality: float) -> float:
    fluid = fluid_of(refrigerant)
    check_temperature(fluid, temperature_k, fluid.critical_k - BELOW_CRITICAL_K)
    return fluid.at_boiling_temperature(temperature_k, quality).pressure


def bubble_pressure(refrigerant: str, temperature_k: float) -> float:
    """Pressure at which liquid of that temperature begins to boil.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    temperature_k : float
        Temperature, below the critical one [K]

    Returns
    -------
    float
        Absolute pressure [Pa]

    Raises
    ------
    InputError
        If the temperature is below the equation of state or above the critical temperature.

    Examples
    --------
    >>> round(bubble_pressure("R-134a", 273.15) / 1e5, 2)
    2.93
    """
    return _pressure(refrigerant, temperature_k, 0.0)


def dew_pressure(refrigerant: str, temperature_k: float) -> float:
    """Pressure at which vapour of that temperature begins to condense.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    temperature_k : float
        Temperature, below the critical one [K]

    Returns
    -------
    float
        Absolute pressure [Pa]

    Raises
    ------
    InputError
        If the temperature is below the equation of state or above the critical temperature.
    """
    return _pressure(refrigerant, temperature_k, 1.0)


def _fluid_at(refrigerant: str, pressure_pa: float) -> Fluid:
    fluid = fluid_of(refrigerant)
    check_boiling_pressure(fluid, pressure_pa, fluid.least_pressure_pa)
    return fluid


def bubble_temperature(refrigerant: str, pressure_pa: float) -> float:
    """Temperature at which liquid under that pressure begins to boil; subcooling counts from it.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    float
        Temperature [K]

    Raises
    ------
    InputError
        If the refrigerant has no boiling point at that pressure.
    """
    return _fluid_at(refrigerant, pressure_pa).at_quality(pressure_pa, 0.0).temperature


def dew_temperature(refrigerant: str, pressure_pa: float) -> float:
    """Temperature at which the last liquid under that pressure is gone; superheat counts from it.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    float
        Temperature [K]

    Raises
    ------
    InputError
        If the refrigerant has no boiling point at that pressure.
    """
    fluid = fluid_of(refrigerant)
    check_boiling_pressure(fluid, pressure_pa, fluid.least_dew_pa)
    return fluid.at_quality(pressure_pa, 1.0).temperature


def glide(refrigerant: str, pressure_pa: float) -> float:
    """How much warmer a blend is when it has boiled away than when it begins to boil; 0 for one substance.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    float
        Dew temperature less bubble temperature [K]
    """
    fluid = _fluid_at(refrigerant, pressure_pa)
    if not fluid.refrigerant.is_blend:
        return 0.0
    return fluid.at_quality(pressure_pa, 1.0).temperature - fluid.at_quality(pressure_pa, 0.0).temperature


def latent_heat(refrigerant: str, pressure_pa: float) -> float:
    """Heat that a kilogram takes up from bubble to dew.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    float
        Latent heat [J/kg]
    """
    fluid = _fluid_at(refrigerant, pressure_pa)
    return fluid.at_quality(pressure_pa, 1.0).enthalpy - fluid.at_quality(pressure_pa, 0.0).enthalpy


def saturated_liquid(refrigerant: str, pressure_pa: float) -> State:
    """State of liquid that is just about to boil.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    State
        The bubble point, quality 0 [-]
    """
    return state_at(_fluid_at(refrigerant, pressure_pa).at_quality(pressure_pa, 0.0), 0.0)


def saturated_vapour(refrigerant: str, pressure_pa: float) -> State:
    """State of vapour that is just about to condense.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    State
        The dew point, quality 1 [-]
    """
    fluid = fluid_of(refrigerant)
    check_boiling_pressure(fluid, pressure_pa, fluid.least_dew_pa)
    return state_at(fluid.at_quality(pressure_pa, 1.0), 1.0)
