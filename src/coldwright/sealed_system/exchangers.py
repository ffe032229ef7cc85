"""Condenser and evaporator at one moment: zones that take their share of the tube from the mass that is there.

Each has a zone of vapour and one that boils or condenses, the condenser one of liquid too, each with a conductance to
the air. So every equation is explicit: no zone is searched for.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from coldwright.refrigerants.kernels import Saturation, Tables, kernel, saturation, temperature_ph
from coldwright.sealed_system.plant import DRIEST, Around, Plant, State, vapour_elsewhere
from coldwright.sealed_system.void_fraction import mean_density, quality_of_mass, void_ratio

LEAST_QUALITY = 0.3  # of what leaves a flooded evaporator; more liquid than that lies in the shell
WETTEST_INLET = 0.95  # quality at the evaporator's inlet, for its mean density
MOST_DESUPERHEATING = 0.9  # of the condenser
MOST_LIQUID = 0.95  # of what desuperheating leaves
VAPOUR_SHARE = 0.7  # of either exchanger's volume, for how fast its pressure moves
SOFT = 0.005  # width of the bend where the wetted share comes down to nothing
MANY_UNITS = 1e3


class Condensing(NamedTuple):
    """What the condenser does at one moment."""

    heat_w: float  # of condensing alone
    liquid_h: float  # of what leaves
    liquid_k: float
    quality: float  # of what leaves: 0 where liquid does
    rate: float  # of ln P [1/s]


class Boiling(NamedTuple):
    """What the evaporator does at one moment."""

    heat_w: float  # of boiling alone
    wetted: float
    quality: float  # of what leaves: 1 where dry
    leave_h: float
    out_k: float
    low_kg: float
    rate: float  # of ln P [1/s]


@kernel
def condenser(
    tables: Tables,
    plant: Plant,
    around: Around,
    state: State,
    c: Saturation,
    discharge_k: float,
    flow: float,
    capillary: float,
) -> Condensing:
    """What the condenser does in a state.

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
    c : Saturation
        At the condensing pressure [-]
    discharge_k : float
        Temperature of the gas that comes [K]
    flow, capillary : float
        What the compressor sends and the capillary takes [kg/s]

    Returns
    -------
    Condensing
        Heat, what leaves, and how fast its pressure rises [-]
    """
    air = around.condenser_air
    latent = c.vapour_h - c.liquid_h
    vapour_share = 0.0
    if flow > 0.0 and discharge_k > c.dew_k:
        units = MANY_UNITS
        if c.dew_k > around.room_k + 0.01:
            units = math.log((discharge_k - around.room_k) / (c.dew_k - around.room_k))
        vapour_share = min(MOST_DESUPERHEATING, units * flow * c.vapour_cp / (plant.condenser_vapour_w_per_k * air))
    rho_l, rho_v = 1.0 / c.liquid_v, 1.0 / c.vapour_v
    ratio = void_ratio(rho_l, rho_v)
    hot_rho = rho_v * c.dew_k / (0.5 * (c.dew_k + max(c.dew_k, discharge_k)))
    fixed = plant.discharge_m3 * rho_v + plant.condenser_m3 * vapour_share * hot_rho
    tube = plant.condenser_m3 * (1.0 - vapour_share)
    condensing_rho = mean_density(rho_l, rho_v, ratio, 0.0, 1.0)
    sealed = fixed + tube * condensing_rho + plant.liquid_line_m3 * rho_l
    liquid_share, quality = 0.0, 0.0
    if state.high_kg >= sealed:
        filled = (state.high_kg - sealed) / (plant.condenser_m3 * (rho_l - condensing_rho)) / (1.0 - vapour_share)
        liquid_share = min(MOST_LIQUID, filled) * (1.0 - vapour_share)
        carried = max(capillary, DRIEST) * c.liquid_cp
        approach = math.exp(-plant.condenser_liquid_w_per_k * air * liquid_share / carried)
        liquid_k = around.room_k + (c.bubble_k - around.room_k) * approach
        liquid_h = c.liquid_h - c.liquid_cp * (c.bubble_k - liquid_k)
    else:
        quality = quality_of_mass(rho_l, rho_v, ratio, 1.0, tube, plant.liquid_line_m3, state.high_kg - fixed, 0.0)
        liquid_h = c.liquid_h + quality * latent
        liquid_k = c.bubble_k + (c.dew_k - c.bubble_k) * quality
    to_room = 0.5 * (c.bubble_k + c.dew_k) - around.room_k
    heat_w = plant.condenser_w_per_k * air * (1.0 - vapour_share - liquid_share) * to_room
    stored = plant.condenser_j_per_k * slope_k(tables, math.exp(state.log_high))
    stored += (plant.discharge_m3 + VAPOUR_SHARE * plant.condenser_m3) * rho_v * latent
    vapour_in = flow + max(0.0, -capillary)
    rate = (latent * (vapour_in - quality * max(0.0, capillary)) - heat_w) / stored
    return Condensing(heat_w, liquid_h, liquid_k, quality, rate)


@kernel
def evaporator(
    tables: Tables, plant: Plant, around: Around, state: State, e: Saturation, flow: float, capillary: float
) -> Boiling:
    """What the evaporator does in a state.

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
    e : Saturation
        At the evaporating pressure [-]
    flow, capillary : float
        What the compressor takes and the capillary sends [kg/s]

    Returns
    -------
    Boiling
        Heat, what leaves, and how fast its pressure rises [-]
    """
    pressure = math.exp(state.log_low)
    latent = e.vapour_h - e.liquid_h
    low_kg = around.charge_kg - state.high_kg - state.oil_kg
    rho_l, rho_v = 1.0 / e.liquid_v, 1.0 / e.vapour_v
    ratio = void_ratio(rho_l, rho_v)
    inlet = (state.inlet_h - e.liquid_h) / latent
    x_zone = min(WETTEST_INLET, max(0.0, inlet))
    elsewhere = vapour_elsewhere(tables, plant, pressure, state.shell_k, e.vapour_v)
    wet_rho = mean_density(rho_l, rho_v, ratio, x_zone, 1.0)
    quality = 1.0
    wetted = (low_kg - elsewhere - plant.evaporator_m3 * rho_v) / (plant.evaporator_m3 * (wet_rho - rho_v))
    if wetted > 1.0:
        wetted = 1.0
        in_shell = elsewhere - plant.suction_m3 * rho_v
        quality = quality_of_mass(
            rho_l, rho_v, ratio, x_zone, plant.evaporator_m3, plant.suction_m3, low_kg - in_shell, LEAST_QUALITY
        )
    wetted = 0.5 * (wetted + math.sqrt(wetted * wetted + SOFT * SOFT))
    fan = around.evaporator_air
    e_k = 0.5 * (e.bubble_k + e.dew_k)
    heat_w = plant.evaporator_w_per_k * fan * wetted * (around.air_k - e_k)
    out_k, leave_h = e.dew_k, e.liquid_h + quality * latent
    if wetted < 1.0:
        carried = max(flow, DRIEST) * e.vapour_cp
        units = plant.evaporator_vapour_w_per_k * fan * (1.0 - wetted) / carried
        leave_h = e.vapour_h + e.vapour_cp * (around.air_k - e.dew_k) * (1.0 - math.exp(-units))
        out_k = temperature_ph(tables, pressure, leave_h)
    stored = plant.evaporator_j_per_k * slope_k(tables, pressure)
    stored += latent * (plant.suction_m3 + plant.shell_m3 + VAPOUR_SHARE * plant.evaporator_m3) * rho_v
    arriving = inlet if capillary > 0.0 else 1.0
    rate = latent * ((heat_w + around.heater_w) / latent + capillary * arriving - flow * quality) / stored
    return Boiling(heat_w, wetted, quality, leave_h, out_k, low_kg, rate)


@kernel
def slope_k(tables: Tables, pressure: float) -> float:
    """Rise of the dew temperature per unit of ln P.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Absolute [Pa]

    Returns
    -------
    float
        Slope of the dew line [K]
    """
    up, down = saturation(tables, pressure * 1.01), saturation(tables, pressure / 1.01)
    return (up.dew_k - down.dew_k) / (2.0 * math.log(1.01))
