"""States of a refrigerant, superheat and subcooling.

Enthalpy and entropy count from 200 kJ/kg and 1 kJ/(kg K) for saturated liquid at 0 °C. Pressures are absolute.
In a blend's two-phase region temperature, enthalpy and volume run in straight lines from bubble to dew.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.refrigerants.coolprop import Fluid, Point, Side, fluid_of
from coldwright.refrigerants.ranges import (
    check_boiling_pressure,
    check_pressure,
    check_temperature,
    shown_pressure,
    shown_temperature,
)

ROUNDING = 1e-9  # of a quality
AT_BOILING_K = 1e-6  # a pure refrigerant this near its boiling point has no state by temperature


@dataclass(frozen=True)
class State:
    """A state of a refrigerant, in SI; `quality` is the share of vapour by mass, None outside the two-phase region."""

    pressure_pa: float
    temperature_k: float
    enthalpy_j_per_kg: float
    entropy_j_per_kg_k: float
    density_kg_per_m3: float
    quality: float | None


def state_at(point: Point, quality: float | None = None) -> State:
    """The state that a point of one phase stands for.

    Parameters
    ----------
    point : Point
        Point of the equation of state [-]
    quality : float | None
        0 for saturated liquid, 1 for saturated vapour, None for others [-]

    Returns
    -------
    State
        The state [-]
    """
    return State(point.pressure, point.temperature, point.enthalpy, point.entropy, point.density, quality)


def _between(bubble: Point, dew: Point, quality: float) -> State:
    """The state that is liquid and vapour, in shares of mass."""

    def mixed(liquid: float, vapour: float) -> float:
        return liquid + quality * (vapour - liquid)

    return State(
        bubble.pressure,
        mixed(bubble.temperature, dew.temperature),
        mixed(bubble.enthalpy, dew.enthalpy),
        mixed(bubble.entropy, dew.entropy),
        1.0 / mixed(1.0 / bubble.density, 1.0 / dew.density),
        quality,
    )


def state_pq(refrigerant: str, pressure_pa: float, quality: float) -> State:
    """State of liquid and vapour together, by its share of vapour.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure, below the critical one [Pa]
    quality : float
        Share of vapour by mass, 0 to 1 [-]

    Returns
    -------
    State
        The state [-]

    Raises
    ------
    InputError
        If the refrigerant does not boil at that pressure, or the quality is not from 0 to 1.
    """
    fluid = fluid_of(refrigerant)
    check_boiling_pressure(fluid, pressure_pa, fluid.least_pressure_pa)
    if not 0 <= quality <= 1:
        raise InputError(f"the quality is {quality:g}; it is a share from 0 (liquid) to 1 (vapour). Was it in percent?")
    return _between(fluid.at_quality(pressure_pa, 0.0), fluid.at_quality(pressure_pa, 1.0), quality)


def state_pt(refrigerant: str, pressure_pa: float, temperature_k: float) -> State:
    """State by pressure and temperature.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    temperature_k : float
        Temperature [K]

    Returns
    -------
    State
        The state; of a blend between bubble and dew, one with a quality [-]

    Raises
    ------
    InputError
        If either is outside the equation of state, or a pure refrigerant is just at its boiling point.
    """
    fluid = fluid_of(refrigerant)
    check_pressure(fluid, pressure_pa)
    check_temperature(fluid, temperature_k, fluid.most_k)
    bubble, dew = fluid.ends(pressure_pa)
    if dew is None:
        return state_at(fluid.at_temperature(pressure_pa, temperature_k, _alone(fluid, pressure_pa)))
    if temperature_k > dew.temperature + AT_BOILING_K:
        return state_at(fluid.at_temperature(pressure_pa, temperature_k, Side.VAPOUR))
    if bubble is None:
        raise InputError(fluid.outside())
    if temperature_k < bubble.temperature - AT_BOILING_K:
        return state_at(fluid.at_temperature(pressure_pa, temperature_k, Side.LIQUID))
    if not fluid.refrigerant.is_blend:
        raise InputError(
            f"{fluid.refrigerant.name} boils at {shown_temperature(temperature_k)} at {shown_pressure(pressure_pa)}: "
            "pressure and temperature do not say how much of it is liquid. Give the enthalpy or the quality"
        )
    glide = dew.temperature - bubble.temperature
    return _between(bubble, dew, min(max((temperature_k - bubble.temperature) / glide, 0.0), 1.0))


def _alone(fluid: Fluid, pressure_pa: float) -> Side:
    """The side of a pressure without a boiling point: above the critical one, or below the lowest of the equation."""
    return Side.EITHER if pressure_pa >= fluid.critical_pressure_pa else Side.VAPOUR


def _by(
    fluid: Fluid, pressure_pa: float, value: float, of: Callable[[Point], float], find: Callable[..., Point]
) -> State:
    """State by pressure and a second value that grows with temperature and with quality."""
    check_pressure(fluid, pressure_pa)
    bubble, dew = fluid.ends(pressure_pa)
    if not math.isfinite(value):
        raise InputError(f"the state of {fluid.refrigerant.name} is asked for at {value:g}; a finite number is wanted")
    if dew is None:
        side = _alone(fluid, pressure_pa)
    elif bubble is None:
        if value <= of(dew):
            raise InputError(fluid.outside())
        side = Side.VAPOUR
    else:
        quality = (value - of(bubble)) / (of(dew) - of(bubble))
        if -ROUNDING <= quality <= 1 + ROUNDING:
            return _between(bubble, dew, min(max(quality, 0.0), 1.0))
        side = Side.VAPOUR if quality > 1 else Side.LIQUID
    found = find(pressure_pa, value, side)
    if not fluid.least_k <= found.temperature <= fluid.most_k:
        raise InputError(fluid.outside())
    return state_at(found)


def state_ph(refrigerant: str, pressure_pa: float, enthalpy_j_per_kg: float) -> State:
    """State by pressure and enthalpy.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    enthalpy_j_per_kg : float
        Specific enthalpy; 200 kJ/kg for saturated liquid at 0 °C [J/kg]

    Returns
    -------
    State
        The state [-]

    Raises
    ------
    InputError
        If the state is outside the equation of state.
    """
    fluid = fluid_of(refrigerant)
    return _by(fluid, pressure_pa, enthalpy_j_per_kg, lambda point: point.enthalpy, fluid.at_enthalpy)


def state_ps(refrigerant: str, pressure_pa: float, entropy_j_per_kg_k: float) -> State:
    """State by pressure and entropy.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    entropy_j_per_kg_k : float
        Specific entropy; 1 kJ/(kg K) for saturated liquid at 0 °C [J/(kg K)]

    Returns
    -------
    State
        The state [-]

    Raises
    ------
    InputError
        If the state is outside the equation of state.
    """
    fluid = fluid_of(refrigerant)
    return _by(fluid, pressure_pa, entropy_j_per_kg_k, lambda point: point.entropy, fluid.at_entropy)


def superheat(refrigerant: str, pressure_pa: float, temperature_k: float) -> float:
    """How far vapour is above its dew point; below 0 where liquid must be there.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    temperature_k : float
        Temperature [K]

    Returns
    -------
    float
        Temperature less dew temperature [K]
    """
    fluid = fluid_of(refrigerant)
    check_boiling_pressure(fluid, pressure_pa, fluid.least_dew_pa)
    check_temperature(fluid, temperature_k, fluid.most_k)
    return temperature_k - fluid.at_quality(pressure_pa, 1.0).temperature


def subcooling(refrigerant: str, pressure_pa: float, temperature_k: float) -> float:
    """How far liquid is below its bubble point; below 0 where vapour must be there.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    pressure_pa : float
        Absolute pressure [Pa]
    temperature_k : float
        Temperature [K]

    Returns
    -------
    float
        Bubble temperature less temperature [K]
    """
    fluid = fluid_of(refrigerant)
    check_boiling_pressure(fluid, pressure_pa, fluid.least_pressure_pa)
    check_temperature(fluid, temperature_k, fluid.most_k)
    return fluid.at_quality(pressure_pa, 0.0).temperature - temperature_k
