"""What a sealed system is built of, what it stands in, its state, and what can be read at one moment.

Faults change numbers of `Plant` and `Around` only. Here too: refrigerant in the oil and in the vapour spaces, and the
pressures that the capillary sees.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from coldwright.quantities.constants import GAS_CONSTANT
from coldwright.refrigerants.kernels import Tables, dew_pressure_at, kernel, saturation

DRIEST = 1e-9


class Plant(NamedTuple):
    """What a sealed system is built of, SI; the faults of a system are changes of these numbers."""

    displacement_m3: float
    clearance: float  # volume left over displacement
    expansion_exponent: float
    leak_m2: float  # valves: area of a hole from discharge to suction
    indicated_efficiency: float
    friction_w: float
    speed_free: float  # rev/s without load
    speed_fall: float  # rev/s per watt of shaft power
    motor_w: float  # electric watts = motor_w + motor_slope * shaft + motor_bend * shaft²
    motor_slope: float
    motor_bend: float
    most_shaft_w: float
    suction_heating: float  # share of the way from return gas to shell temperature
    discharge_cooling: float  # share of the way from discharge to shell temperature
    shell_w_per_k: float
    shell_j_per_k: float
    bore_m: float
    capillary_m: float
    roughness: float
    exchanger: float  # effectiveness on the vapour's heat capacity
    suction_line: float  # share of the way from the exchanger's outlet to room temperature
    condenser_vapour_w_per_k: float  # whole condenser, were it all that zone
    condenser_w_per_k: float
    condenser_liquid_w_per_k: float
    condenser_j_per_k: float
    evaporator_w_per_k: float
    evaporator_vapour_w_per_k: float
    evaporator_j_per_k: float
    discharge_m3: float
    condenser_m3: float
    liquid_line_m3: float
    evaporator_m3: float
    suction_m3: float
    shell_m3: float
    oil_kg: float
    oil_solubility: float  # kg/kg at saturation
    air_mol: float  # gas that does not condense
    lag_s: float
    oil_lag_s: float


class Around(NamedTuple):
    """What the system stands in, and whether it runs."""

    room_k: float
    air_k: float  # on the evaporator
    running: float  # 1 or 0
    speed: float  # of the frequency the plant's numbers are for
    condenser_air: float  # share of the condenser's air flow conductance
    evaporator_air: float
    charge_kg: float
    heater_w: float = 0.0  # of a defrost heater on the evaporator
    standing_w: float = 0.0  # electric heat in the shell while the rotor stands


class State(NamedTuple):
    """What changes with time."""

    log_high: float  # ln of condensing pressure, Pa
    log_low: float
    high_kg: float
    shell_k: float
    return_h: float
    inlet_h: float
    oil_kg: float  # refrigerant in the oil


class Moment(NamedTuple):
    """Rates of the state, and what can be read."""

    rates: State
    discharge_pa: float
    suction_pa: float
    condensing_k: float  # dew
    bubbling_k: float
    evaporating_k: float
    superheat_k: float  # at the evaporator's outlet
    return_superheat_k: float  # at the compressor
    subcooling_k: float
    wetted: float
    outlet_quality: float  # of the evaporator: 1 where dry
    liquid_outlet_quality: float  # of the condenser: 0 where liquid leaves
    discharge_k: float
    return_k: float
    liquid_k: float
    flow: float  # compressor
    capillary: float
    shaft_w: float
    watts: float
    evaporator_w: float
    condenser_w: float
    shell_w: float
    line_w: float
    low_kg: float
    surplus_w: float  # energy in less energy out: zero in a steady state


@kernel
def oil_holds(tables: Tables, plant: Plant, low_pa: float, shell_k: float) -> float:
    """Refrigerant that the oil holds when it has had time, in proportion to pressure over saturation.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    low_pa : float
        Pressure in the shell [Pa]
    shell_k : float
        Temperature of the shell [K]

    Returns
    -------
    float
        Refrigerant in the oil [kg]
    """
    return plant.oil_kg * plant.oil_solubility * min(1.0, low_pa / dew_pressure_at(tables, shell_k))


@kernel
def oil_at_rest(tables: Tables, plant: Plant, charge: float, log_low: float, high_kg: float, shell_k: float) -> float:
    """Refrigerant in the oil of a steady state, also where there is too little of it to hold the pressure.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    charge : float
        Refrigerant in all [kg]
    log_low : float
        ln of the evaporating pressure [-]
    high_kg : float
        Refrigerant on the high side [kg]
    shell_k : float
        Temperature of the shell [K]

    Returns
    -------
    float
        Refrigerant in the oil [kg]
    """
    low = math.exp(log_low)
    oil = oil_holds(tables, plant, low, shell_k)
    dry = dry_low_side(tables, plant, low, shell_k)
    if charge - high_kg - oil < dry:
        oil = (charge - high_kg) * oil / (dry + oil)
    return oil


@kernel
def dry_low_side(tables: Tables, plant: Plant, low: float, shell_k: float) -> float:
    """What the low side holds when it is all vapour.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    low : float
        Pressure [Pa]
    shell_k : float
        Temperature of the shell [K]

    Returns
    -------
    float
        Refrigerant [kg]
    """
    vapour_v = saturation(tables, low).vapour_v
    return plant.evaporator_m3 / vapour_v + vapour_elsewhere(tables, plant, low, shell_k, vapour_v)


@kernel
def pressures(tables: Tables, plant: Plant, around: Around, state: State) -> tuple[float, float]:
    """Pressures that the capillary sees, gas that does not condense and want of refrigerant included.

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

    Returns
    -------
    tuple[float, float]
        High and low, absolute [Pa]
    """
    high, low = math.exp(state.log_high), math.exp(state.log_low)
    c = saturation(tables, high)
    gas = (plant.discharge_m3 + plant.condenser_m3 + plant.liquid_line_m3) / c.vapour_v
    if state.high_kg < gas:
        high *= max(DRIEST, state.high_kg / gas)
    high += plant.air_mol * GAS_CONSTANT * c.dew_k / (plant.condenser_m3 + plant.discharge_m3)
    low_kg = around.charge_kg - state.high_kg - state.oil_kg
    dry = dry_low_side(tables, plant, low, state.shell_k)
    if low_kg < dry:
        low *= max(DRIEST, low_kg / dry)
    return high, low


@kernel
def vapour_elsewhere(tables: Tables, plant: Plant, low: float, shell_k: float, vapour_v: float) -> float:
    """Vapour in the suction line and, warmer, in the shell.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    low : float
        Evaporating pressure [Pa]
    shell_k : float
        Temperature of the shell [K]
    vapour_v : float
        Dry vapour's volume at that pressure [m³/kg]

    Returns
    -------
    float
        Refrigerant [kg]
    """
    e = saturation(tables, low)
    warm = vapour_v * max(1.0, shell_k / e.dew_k)
    return plant.suction_m3 / vapour_v + plant.shell_m3 / warm


@kernel
def enough_vapour_h(tables: Tables, pressure: float, temperature: float) -> float:
    """Enthalpy of vapour at a temperature, dry vapour at least.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Absolute [Pa]
    temperature : float
        Of the vapour [K]

    Returns
    -------
    float
        Enthalpy [J/kg]
    """
    s = saturation(tables, pressure)
    return s.vapour_h + s.vapour_cp * max(0.0, temperature - s.dew_k)
