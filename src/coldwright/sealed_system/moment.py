"""One sealed system at one moment: where its refrigerant is, what flows, what heat goes where, how fast all changes.

State and rates are the same for the steady balance (all rates zero) and for the course of time. The exchanger between
suction line and capillary acts on the heat capacity of the vapour, dry and wet alike (Hermes et al. 2010).
"""

from __future__ import annotations

import math

from coldwright.refrigerants.kernels import Tables, kernel, saturation
from coldwright.sealed_system.compressor import compression
from coldwright.sealed_system.exchangers import condenser, evaporator
from coldwright.sealed_system.plant import Around, Moment, Plant, State, enough_vapour_h, oil_holds

RESTING_LAGS = 10.0  # how many times slower the lines follow while nothing moves


@kernel
def moment(
    tables: Tables, plant: Plant, around: Around, state: State, high: float, low: float, capillary: float
) -> Moment:
    """What flows and changes in a state.

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
    high, low : float
        Pressures, from `pressures` [Pa]
    capillary : float
        Flow through the capillary at this state [kg/s]

    Returns
    -------
    Moment
        Rates and readings [-]
    """
    e_pa = math.exp(state.log_low)
    c, e = saturation(tables, math.exp(state.log_high)), saturation(tables, e_pa)
    work = compression(tables, plant, around, state, c, e, high, low)
    flow = work.flow
    warm = condenser(tables, plant, around, state, c, work.discharge_k, flow, capillary)
    cold = evaporator(tables, plant, around, state, e, flow, capillary)

    # exchanger and suction line
    gained = plant.exchanger * e.vapour_cp * (warm.liquid_k - cold.out_k)
    warmed = plant.suction_line * e.vapour_cp * (around.room_k - (cold.out_k + gained / e.vapour_cp))
    if around.running > 0.0:
        return_rate = (cold.leave_h + gained + warmed - state.return_h) / plant.lag_s
        inlet_rate = (warm.liquid_h - gained - state.inlet_h) / plant.lag_s
    else:
        resting_h = enough_vapour_h(tables, e_pa, around.room_k)
        return_rate = (resting_h - state.return_h) / (RESTING_LAGS * plant.lag_s)
        inlet_rate = (warm.liquid_h - state.inlet_h) / plant.lag_s

    shell_w = plant.shell_w_per_k * (state.shell_k - around.room_k)
    taken_w = flow * (work.out_h - work.cylinder_h + work.heated)
    shell_rate = (work.watts + around.standing_w - taken_w - shell_w) / plant.shell_j_per_k
    oil_rate = (oil_holds(tables, plant, low, state.shell_k) - state.oil_kg) / plant.oil_lag_s

    drying_w = flow * (cold.leave_h - e.vapour_h) if cold.wetted < 1.0 else 0.0
    evaporator_w = cold.heat_w + drying_w
    condenser_w = warm.heat_w + flow * (work.out_h - c.vapour_h)
    condenser_w += max(0.0, capillary) * max(0.0, c.liquid_h - warm.liquid_h)
    line_w = flow * warmed
    in_w = evaporator_w + around.heater_w + work.watts + around.standing_w + line_w
    return Moment(
        State(warm.rate, cold.rate, flow - capillary, shell_rate, return_rate, inlet_rate, oil_rate),
        high,
        low,
        c.dew_k,
        c.bubble_k,
        e.dew_k,
        cold.out_k - e.dew_k,
        work.return_k - e.dew_k,
        c.bubble_k - warm.liquid_k,
        cold.wetted,
        cold.quality,
        warm.quality,
        work.discharge_k,
        work.return_k,
        warm.liquid_k,
        flow,
        capillary,
        work.shaft_w,
        work.watts,
        evaporator_w,
        condenser_w,
        shell_w,
        line_w,
        cold.low_kg,
        in_w - condenser_w - shell_w,
    )
