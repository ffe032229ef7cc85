"""Checks on what a person gives: pressures and temperatures that can be, with the likely slip where they cannot."""

from __future__ import annotations

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.coolprop import Fluid

LEAST_MEANT_K = 150.0  # -123 °C: nobody means less, though some equations go on; °C and °F typed for kelvin fall below
LEAST_MEANT_PA = 100.0  # nobody means a boiling point below it; bar typed for pascal falls below
NEAR_CRITICAL = 0.9999  # share of the critical pressure up to which bubble and dew are told apart


def shown_pressure(pressure_pa: float) -> str:
    """A pressure as a person reads it.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure [Pa]

    Returns
    -------
    str
        Such as "2.01 bar absolute" [-]
    """
    return f"{pressure_pa / 1e5:.3g} bar absolute" if pressure_pa >= 1e3 else f"{pressure_pa:.3g} Pa absolute"


def shown_temperature(temperature_k: float) -> str:
    """A temperature as a person reads it.

    Parameters
    ----------
    temperature_k : float
        Temperature [K]

    Returns
    -------
    str
        Such as "-10.1 °C" [-]
    """
    return f"{temperature_k - ICE_POINT_K:.1f} °C"


def check_pressure(fluid: Fluid, pressure_pa: float) -> None:
    """Refuses a pressure that no system has.

    Parameters
    ----------
    fluid : Fluid
        The refrigerant's equation of state [-]
    pressure_pa : float
        Absolute pressure [Pa]

    Raises
    ------
    InputError
        If it is not above 0, not finite, or beyond the equation of state.
    """
    name = fluid.refrigerant.name
    if not pressure_pa > 0:
        raise InputError(
            f"the pressure of {name} is {pressure_pa:g} Pa; an absolute pressure is above 0. Was it a gauge pressure?"
        )
    if not pressure_pa <= fluid.most_pressure_pa:
        raise InputError(
            f"the pressure of {name} is {pressure_pa / 1e5:g} bar absolute; its equation of state ends at "
            f"{fluid.most_pressure_pa / 1e5:.0f} bar. Was it in kPa, and taken for another unit?"
        )


def check_boiling_pressure(fluid: Fluid, pressure_pa: float, least_pa: float) -> None:
    """Refuses a pressure at which the refrigerant does not boil, or the equation does not say where.

    Parameters
    ----------
    fluid : Fluid
        The refrigerant's equation of state [-]
    pressure_pa : float
        Absolute pressure [Pa]
    least_pa : float
        Lowest pressure the equation has a boiling point for [Pa]

    Raises
    ------
    InputError
        If the pressure is at or above the critical one, or below the lowest.
    """
    check_pressure(fluid, pressure_pa)
    name = fluid.refrigerant.name
    if pressure_pa > NEAR_CRITICAL * fluid.critical_pressure_pa:
        raise InputError(
            f"{name} has no boiling point at {shown_pressure(pressure_pa)}: from its critical pressure of "
            f"{shown_pressure(fluid.critical_pressure_pa)} up, liquid and vapour are one. Was the unit another one?"
        )
    least = max(least_pa, LEAST_MEANT_PA)
    if pressure_pa < least:
        raise InputError(
            f"at {shown_pressure(pressure_pa)} no boiling point of {name} is known: the course has them down to "
            f"{shown_pressure(least)}. Was it in bar or kPa, or a gauge pressure? Absolute pascals are wanted here"
        )


def check_temperature(fluid: Fluid, temperature_k: float, most_k: float) -> None:
    """Refuses a temperature outside the equation of state.

    Parameters
    ----------
    fluid : Fluid
        The refrigerant's equation of state [-]
    temperature_k : float
        Temperature [K]
    most_k : float
        Highest temperature that is meant [K]

    Raises
    ------
    InputError
        If the temperature is outside; the message guesses at the slip.
    """
    least = max(fluid.least_k, LEAST_MEANT_K)
    if least <= temperature_k <= most_k:
        return
    name = fluid.refrigerant.name
    what = f"the temperature of {name} is {temperature_k:g} K ({shown_temperature(temperature_k)})"
    if temperature_k < least:
        raise InputError(
            f"{what}; the course has data of it from {shown_temperature(least)}, {least:g} K, up. "
            "Was it in °C or °F? Kelvin are wanted here"
        )
    if most_k == fluid.most_k or not temperature_k <= fluid.most_k:
        raise InputError(f"{what}; its equation of state ends at {shown_temperature(fluid.most_k)}. Was it in °F?")
    raise InputError(
        f"{what}; above its critical temperature of {shown_temperature(fluid.critical_k)} it does not boil or "
        "condense at any pressure. Was it in °F?"
    )
