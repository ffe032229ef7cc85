"""The compressor at one moment: flow, power, heat into and out of its shell.

Volumetric efficiency with clearance after Stoecker & Jones. Suction gas is warmed by the shell and wet gas dries on the
way. Power is indicated power and friction; the motor's watts follow from both by a curve, its speed by a straight line.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from coldwright.refrigerants.kernels import Saturation, Tables, compressed_enthalpy, kernel, temperature_ph, volume_ph
from coldwright.sealed_system.plant import Around, Plant, State

LEAKS_UNWORKED = 0.7  # share of what leaks at the valves that goes back before it is compressed; illustrative
MOST_LEAK = 0.95  # of what the cylinder takes in
LEAK_EXPONENT = 0.9  # of volume with pressure, for the density of what leaks


class Compression(NamedTuple):
    """What the compressor does at one moment."""

    flow: float  # that leaves [kg/s]
    shaft_w: float
    watts: float
    cylinder_h: float  # of the gas that the cylinder takes in [J/kg]
    heated: float  # by the shell, on its way there [J/kg]
    out_h: float  # of the gas that leaves [J/kg]
    discharge_k: float
    return_k: float


@kernel
def filling_share(clearance: float, ratio: float, exponent: float) -> float:
    """Share of the displacement that fresh gas fills when the clearance's gas has expanded; 0 where there is none.

    Parameters
    ----------
    clearance : float
        Volume left over displacement [-]
    ratio : float
        Pressure of discharge over pressure of suction [-]
    exponent : float
        Of the expansion [-]

    Returns
    -------
    float
        Share of the displacement [-]
    """
    return max(0.0, 1.0 + clearance - clearance * ratio ** (1.0 / exponent))


@kernel
def compression(
    tables: Tables,
    plant: Plant,
    around: Around,
    state: State,
    c: Saturation,
    e: Saturation,
    high: float,
    low: float,
) -> Compression:
    """What the compressor does in a state; at rest it moves nothing.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    around : Around
        What it stands in [-]
    state : State
        Its state [-]
    c, e : Saturation
        At the condensing and the evaporating pressure [-]
    high, low : float
        Pressures, from `pressures` [Pa]

    Returns
    -------
    Compression
        Flow, power and heat [-]
    """
    c_pa, e_pa = math.exp(state.log_high), math.exp(state.log_low)
    return_k = temperature_ph(tables, e_pa, state.return_h)
    heated = plant.suction_heating * e.vapour_cp * (state.shell_k - return_k)
    cylinder_h = state.return_h + heated
    if around.running <= 0.0:
        return Compression(0.0, 0.0, 0.0, cylinder_h, heated, cylinder_h, state.shell_k, return_k)
    volume = volume_ph(tables, e_pa, cylinder_h) * e_pa / low
    ratio = max(1.0, high / low)
    work = (compressed_enthalpy(tables, e_pa, cylinder_h, e_pa * ratio) - cylinder_h) / plant.indicated_efficiency
    per_rev = plant.displacement_m3 * filling_share(plant.clearance, ratio, plant.expansion_exponent) / volume
    # speed falls with shaft power, and shaft power rises with speed: both straight lines
    free = plant.speed_free * around.speed
    slope = plant.speed_fall * around.speed
    gross = per_rev * max(0.0, (free - slope * plant.friction_w) / (1.0 + slope * per_rev * work))
    leak = 0.0
    if plant.leak_m2 > 0.0:
        hot_v = volume * (low / high) ** LEAK_EXPONENT
        leak = min(MOST_LEAK * gross, plant.leak_m2 * math.sqrt(max(0.0, high - low) / hot_v))
    shaft = (gross - LEAKS_UNWORKED * leak) * work + plant.friction_w
    watts = plant.motor_w + plant.motor_slope * shaft + plant.motor_bend * shaft * shaft
    out_h = cylinder_h + work
    out_h -= plant.discharge_cooling * c.vapour_cp * (temperature_ph(tables, c_pa, out_h) - state.shell_k)
    return Compression(
        gross - leak, shaft, watts, cylinder_h, heated, out_h, temperature_ph(tables, c_pa, out_h), return_k
    )
