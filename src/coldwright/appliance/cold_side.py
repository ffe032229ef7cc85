"""The cold side of a unit in step with its electrical side: one compressor, one cabinet, one course of time."""

from __future__ import annotations

import math
from dataclasses import replace

from coldwright.appliance.cold_parts import ColdSide
from coldwright.appliance.cold_run import cold_span
from coldwright.appliance.drive import Drive
from coldwright.appliance.parts import Parts
from coldwright.appliance.state import ColdState, UnitState
from coldwright.cabinet.air import CabinetNumbers, air_rates
from coldwright.electrical.motor import synchronous_speed
from coldwright.sealed_system.engine import engine_of
from coldwright.sealed_system.plant import Around, Moment, State

BEHIND_S = 0.5  # the cold side is carried on in steps of at least this
SETTLES_S = 3600.0
FIRST_S = 0.5
FULL_SPEED = 0.9  # of synchronous speed: from there on the plant's own line of speed against load holds


def cold_arrival(cold: ColdSide, room_k: float, cabinet_k: float, charge_kg: float) -> ColdState:
    """The cold side of a unit that has long stood still.

    Parameters
    ----------
    cold : ColdSide
        What it is made of [-]
    room_k, cabinet_k : float
        Temperatures of the room and of the cabinet [K]
    charge_kg : float
        Refrigerant in it [kg]

    Returns
    -------
    ColdState
        Pressures equal, the liquid where it is coldest [-]
    """
    from coldwright.refrigerants.kernels import dew_pressure_at
    from coldwright.sealed_system.plant import enough_vapour_h

    engine = engine_of(cold.refrigerant)
    low = dew_pressure_at(engine.tables, min(room_k, cabinet_k))
    high = dew_pressure_at(engine.tables, room_k)
    vapour_h = enough_vapour_h(engine.tables, low, room_k)
    state = State(math.log(high), math.log(low), 0.04 * charge_kg, room_k, vapour_h, vapour_h, 0.1 * charge_kg)
    around = Around(room_k, cabinet_k, 0.0, 0.0, cold.still_condenser, cold.still_evaporator, charge_kg)
    state = engine.advance(engine.tables, cold.plant, around, state, SETTLES_S, FIRST_S)[0]
    return ColdState(state, charge_kg, cabinet_k)


def around_of(parts: Parts, cold: ColdSide, room_k: float, state: UnitState, drive: Drive) -> Around:
    """What the sealed system stands in at one moment.

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    cold : ColdSide
        Its cold side [-]
    room_k : float
        Temperature of the room [K]
    state : UnitState
        State now [-]
    drive : Drive
        What its circuit does [-]
    """
    assert state.cold is not None
    turns = state.speed > 0.0
    full = FULL_SPEED * synchronous_speed(parts.motor) if parts.motor is not None else math.inf
    return Around(
        room_k,
        state.cabinet_k,
        1.0 if turns else 0.0,
        min(1.0, state.speed / full),
        1.0 if drive.condenser_fan_turns or "condenser fan" not in parts.fans else cold.still_condenser,
        1.0 if drive.evaporator_fan_turns or "evaporator fan" not in parts.fans else cold.still_evaporator,
        state.cold.charge_kg,
        drive.heater_w,
        0.0 if turns else drive.copper_w + drive.other_w,
    )


def cabinet_of(parts: Parts, cold: ColdSide, state: UnitState, drive: Drive) -> CabinetNumbers:
    """The cabinet at one moment: door, fan and lamp as they are.

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    cold : ColdSide
        Its cold side [-]
    state : UnitState
        State now [-]
    drive : Drive
        What its circuit does [-]
    """
    fan = parts.fans.get("evaporator fan")
    inside = fan.watts if fan is not None and drive.evaporator_fan_turns else 0.0
    shut = cold.cabinet
    opened = cold.open_door_w_per_k if state.door_open else 0.0
    return shut._replace(inside_w=shut.inside_w + inside + drive.lamp_w, door_w_per_k=shut.door_w_per_k + opened)


def moment_of(parts: Parts, cold: ColdSide, room_k: float, state: UnitState, drive: Drive) -> Moment:
    """What flows in the sealed system at one moment.

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    cold : ColdSide
        Its cold side [-]
    room_k : float
        Temperature of the room [K]
    state : UnitState
        State now [-]
    drive : Drive
        What its circuit does [-]
    """
    assert state.cold is not None
    engine = engine_of(cold.refrigerant)
    around = around_of(parts, cold, room_k, state, drive)
    return engine.at_once(engine.tables, cold.plant, around, state.cold.sealed)


def cold_after(parts: Parts, cold: ColdSide, room_k: float, state: UnitState, drive: Drive, step: float) -> UnitState:
    """The state with its cold side carried on by a step; steps too short for it are saved up.

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    cold : ColdSide
        Its cold side [-]
    room_k : float
        Temperature of the room [K]
    state : UnitState
        State after the step but for the cold side [-]
    drive : Drive
        What its circuit does [-]
    step : float
        Length of the step [s]
    """
    now = state.cold
    assert now is not None
    behind = now.behind_s + step
    if behind < BEHIND_S:
        return replace(state, cold=replace(now, behind_s=behind))
    engine = engine_of(cold.refrigerant)
    around = around_of(parts, cold, room_k, state, drive)
    cabinet = cabinet_of(parts, cold, state, drive)
    length = now.length_s if around.running == now.ran else FIRST_S
    done = cold_span(engine.tables, cold.plant, around, cabinet, now.sealed, now.product_k, behind, length)
    sealed = done.state
    cold_now = ColdState(sealed, now.charge_kg, done.product_k, done.length, 0.0, around.running)
    return replace(
        state,
        cold=cold_now,
        cabinet_k=done.air_k,
        shell_k=sealed.shell_k,
        evaporator_k=done.now.evaporating_k,
        pressure=_load_share(parts, cold, state, done.now),
    )


def time_to_cabinet(
    parts: Parts, cold: ColdSide, room_k: float, state: UnitState, drive: Drive, wanted_k: float
) -> float:
    """Time until the cabinet's air reaches a temperature at its present rate, inf where it moves away from it [s].

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    cold : ColdSide
        Its cold side [-]
    room_k : float
        Temperature of the room [K]
    state : UnitState
        State now [-]
    drive : Drive
        What its circuit does [-]
    wanted_k : float
        The temperature [K]
    """
    assert state.cold is not None
    taken = moment_of(parts, cold, room_k, state, drive).evaporator_w
    cabinet = cabinet_of(parts, cold, state, drive)
    rate, _product = air_rates(state.cabinet_k, state.cold.product_k, room_k, taken, cabinet)
    gap = wanted_k - state.cabinet_k
    return gap / rate if rate * gap > 0.0 else math.inf


def _load_share(parts: Parts, cold: ColdSide, state: UnitState, now: Moment) -> float:
    """How far the torque asked for lies between equal and working pressures; above 1 beyond the design point."""
    load = parts.load
    if state.speed > 0.0:
        asked = now.shaft_w / state.speed
        return max(0.0, (asked - load.equal_nm) / (load.working_nm - load.equal_nm))
    return max(0.0, (now.discharge_pa - now.suction_pa) / cold.design_drop_pa)
