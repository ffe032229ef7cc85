"""Viscosity, surface tension and heat capacity of a refrigerant at saturation, for flow and heat transfer."""

from __future__ import annotations

from coldwright.errors import InputError
from coldwright.refrigerants.coolprop import Fluid, fluid_of
from coldwright.refrigerants.ranges import check_boiling_pressure, check_temperature, shown_temperature
from coldwright.refrigerants.saturation import BELOW_CRITICAL_K

R22_LEAST_K, R22_MOST_K = 200.0, 350.0


def _fluid_at(refrigerant: str, temperature_k: float) -> Fluid:
    fluid = fluid_of(refrigerant)
    check_temperature(fluid, temperature_k, fluid.critical_k - BELOW_CRITICAL_K)
    if fluid.refrigerant.name == "R-22" and not R22_LEAST_K <= temperature_k <= R22_MOST_K:
        raise InputError(
            f"the temperature of R-22 is {shown_temperature(temperature_k)}; its viscosity is known to the course from "
            f"{shown_temperature(R22_LEAST_K)} to {shown_temperature(R22_MOST_K)}"
        )
    return fluid


def viscosity_liquid(refrigerant: str, temperature_k: float) -> float:
    """Viscosity of saturated liquid.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    temperature_k : float
        Bubble temperature [K]

    Returns
    -------
    float
        Dynamic viscosity [Pa s]

    Raises
    ------
    InputError
        If the temperature is outside what is known.

    Notes
    -----
    CoolProp's own, within 4 % of the VDI Heat Atlas from -40 °C up where that has a table. R-22 is a fit to that table
    (0.8 %), because CoolProp 8 is 13 to 23 % lower; the PPDS equation of the same atlas is up to 18 % lower than its
    table too. Blends are CoolProp's: a mean of the logarithms by moles comes within 16 % of it for R-404A and 5 % for
    R-407C and R-410A.
    """
    fluid = _fluid_at(refrigerant, temperature_k)
    return fluid.transport(fluid.at_boiling_temperature(temperature_k, 0.0).pressure).liquid_viscosity


def viscosity_vapour(refrigerant: str, temperature_k: float) -> float:
    """Viscosity of saturated vapour.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    temperature_k : float
        Dew temperature [K]

    Returns
    -------
    float
        Dynamic viscosity [Pa s]

    Raises
    ------
    InputError
        If the temperature is outside what is known.

    Notes
    -----
    Within 5 % of the VDI Heat Atlas for R-134a, R-600a, R-290 and R-22 (CoolProp's less a tenth); for R-152a the two
    disagree by up to 16 % between -25 °C and 80 °C.
    """
    fluid = _fluid_at(refrigerant, temperature_k)
    return fluid.transport(fluid.at_boiling_temperature(temperature_k, 1.0).pressure).vapour_viscosity


def surface_tension(refrigerant: str, temperature_k: float) -> float:
    """Surface tension of saturated liquid against its vapour.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    temperature_k : float
        Bubble temperature [K]

    Returns
    -------
    float
        Surface tension [N/m]

    Raises
    ------
    InputError
        If the temperature is outside what is known.
    """
    fluid = _fluid_at(refrigerant, temperature_k)
    return fluid.transport(fluid.at_boiling_temperature(temperature_k, 0.0).pressure).surface_tension


def heat_capacity_liquid(refrigerant: str, pressure_pa: float) -> float:
    """Heat capacity of saturated liquid at constant pressure.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    float
        Specific heat capacity [J/(kg K)]
    """
    return _heat_capacity(refrigerant, pressure_pa, 0.0)


def heat_capacity_vapour(refrigerant: str, pressure_pa: float) -> float:
    """Heat capacity of saturated vapour at constant pressure.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]

    Returns
    -------
    float
        Specific heat capacity [J/(kg K)]
    """
    return _heat_capacity(refrigerant, pressure_pa, 1.0)


def _heat_capacity(refrigerant: str, pressure_pa: float, quality: float) -> float:
    fluid = fluid_of(refrigerant)
    check_boiling_pressure(fluid, pressure_pa, fluid.least_pressure_pa)
    return fluid.at_quality(pressure_pa, quality).cp
