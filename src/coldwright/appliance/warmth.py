"""Heat and cold of a unit over one step: winding and shell, cabinet, evaporator, defrost timer; all first-order."""

from __future__ import annotations

import math
from dataclasses import replace

from coldwright.appliance.drive import Drive
from coldwright.appliance.parts import Parts, Stuck
from coldwright.appliance.state import UnitState
from coldwright.electrical.heating import time_to

COLD_DROP_K, CABINET_S, WARMING_S = 38.0, 3600.0, 14400.0
EVAPORATOR_BELOW_K, EVAPORATOR_S, HEATER_K_PER_S = 12.0, 600.0, 0.03


def warmth(parts: Parts, room_k: float, state: UnitState, drive: Drive, step: float) -> tuple[float, float]:
    """Temperature of winding and shell after a step, each towards where it would settle [K].

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    room_k : float
        Temperature of the room [K]
    state : UnitState
        State before the step [-]
    drive : Drive
        What its circuit does [-]
    step : float
        Length of the step [s]
    """
    heat = parts.heat
    to_shell = heat.winding_w_per_k * (state.winding_k - state.shell_k)
    outward = heat.shell_w_per_k * (1.0 if drive.condenser_fan_turns else heat.idle_fan_factor)
    winding = towards(state.winding_k, state.shell_k + drive.copper_w / heat.winding_w_per_k, step, heat.winding_s)
    settles = room_k + (to_shell + drive.other_w) / outward
    return winding, towards(state.shell_k, settles, step, heat.shell_j_per_k / outward)


def simple_cabinet(parts: Parts, room_k: float, state: UnitState, drive: Drive, step: float) -> UnitState:
    """The state with cabinet and evaporator after a step, where no sealed system is worked out.

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    room_k : float
        Temperature of the room [K]
    state : UnitState
        State after the step but for these [-]
    drive : Drive
        What its circuit does [-]
    step : float
        Length of the step [s]
    """
    target, span, runs = _cabinet(parts, room_k, state, drive)
    cabinet_k = towards(state.cabinet_k, target, step, span)
    cold = state.cabinet_k - EVAPORATOR_BELOW_K if runs else state.cabinet_k
    evaporator_k = towards(state.evaporator_k, cold, step, EVAPORATOR_S)
    if drive.heater_w > 0:
        evaporator_k += step * HEATER_K_PER_S * drive.heater_w / 200.0
    return replace(state, cabinet_k=cabinet_k, evaporator_k=evaporator_k)


def defrost_timer(parts: Parts, state: UnitState, drive: Drive, step: float) -> UnitState:
    """The state with its defrost timer after a step.

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    state : UnitState
        State after the step but for the timer [-]
    drive : Drive
        What its circuit does [-]
    step : float
        Length of the step [s]
    """
    defrost = parts.defrost
    if defrost is None or not drive.timer_powered:
        return state
    ran = state.timer_s + step
    limit = defrost.defrost_s if state.timer_defrost else defrost.cooling_s
    turned = ran >= limit and defrost.timer_stuck is Stuck.FREE
    return replace(state, timer_s=0.0 if turned else ran, timer_defrost=state.timer_defrost != turned)


def time_to_thermostat(parts: Parts, room_k: float, state: UnitState, drive: Drive) -> float:
    """Time until the cabinet reaches the thermostat's next temperature, inf if it never does [s].

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    room_k : float
        Temperature of the room [K]
    state : UnitState
        State now [-]
    drive : Drive
        What its circuit does [-]
    """
    if parts.thermostat.stuck is not Stuck.FREE:
        return math.inf
    target, span, _ = _cabinet(parts, room_k, state, drive)
    wanted = parts.thermostat.open_k if state.thermostat_closed else parts.thermostat.close_k
    return time_to(state.cabinet_k, wanted, target, span)


def _cabinet(parts: Parts, room_k: float, state: UnitState, drive: Drive) -> tuple[float, float, bool]:
    """Where the cabinet would settle [K], its time constant [s], and whether it is being cooled."""
    runs = state.speed > 0 or (drive.powered and parts.board is not None)
    drop = COLD_DROP_K if drive.evaporator_fan_turns else 0.3 * COLD_DROP_K
    return (room_k - drop, CABINET_S, True) if runs else (room_k, WARMING_S, False)


def towards(value: float, target: float, step: float, time_constant: float) -> float:
    """A first-order quantity after a step on its way to a target.

    Parameters
    ----------
    value, target : float
        Where it is and where it would settle [any]
    step, time_constant : float
        How long it goes, and its time constant [s]
    """
    return target + (value - target) * math.exp(-step / time_constant)
