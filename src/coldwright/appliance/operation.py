"""A unit as time passes: start, run-up, relay and overload, heat, thermostat, defrost, charge on capacitors.

Electrically every moment is a steady state of the circuit at the rotor's speed of that moment; the rotor's inertia, the
heat and the switches carry the time. Steps are fixed by the state alone, so the same acts give the same readings.
Of a unit with a cold side, shell, cabinet and pressures are those of its sealed system; of any other they are
first-order and illustrative.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from coldwright.appliance.capacitor_charge import charged
from coldwright.appliance.cold_side import cold_after, time_to_cabinet
from coldwright.appliance.drive import Drive, drive_of
from coldwright.appliance.heard import Event, heard
from coldwright.appliance.parts import Parts, Stuck
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.warmth import defrost_timer, simple_cabinet, time_to_thermostat, towards, warmth
from coldwright.appliance.wiring import Wiring
from coldwright.electrical.motor import synchronous_speed
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay, SolidStateSwitch

FINE_S, LOCKED_FIRST_S, LOCKED_S, SLOW_S, LONG_S, LEAST_S = 0.005, 0.02, 0.25, 2.0, 60.0, 0.01
LOCKED_FIRST_FOR_S = 2.0
PTC_SETTLES_S = 10.0  # longer steps follow a hot PTC at its volts, for its watts change on the way
LONG_START_S, CRAWL, CRAWL_S = 3.0, 0.3, 0.02  # a rotor that crawls for longer than any start is followed less closely
SETTLES_S = 120.0  # after a start; then long steps follow the heat
SETTLED = 0.02  # of synchronous speed per second: slower changes are followed in slow steps


@dataclass(frozen=True)
class Passed:
    """What a span of time left: the state, what was heard, and samples of (seconds, amps, volts at the plug)."""

    state: UnitState
    events: tuple[Event, ...]
    samples: tuple[tuple[float, float, float], ...] = ()


@dataclass
class Operation:
    """Runs one unit. `phase` is the part of the peak that a capacitor keeps when its circuit opens.

    Parameters
    ----------
    wiring : Wiring
        How it is wired [-]
    parts : Parts
        Its true parts [-]
    room_k : float
        Temperature of the room [K]
    phase : float
        0 to 1 [-]
    """

    wiring: Wiring
    parts: Parts
    room_k: float
    phase: float = 0.9

    def advance(self, state: UnitState, seconds: float, sample: str = "") -> Passed:
        """Let time pass.

        Parameters
        ----------
        state : UnitState
            State at the beginning [-]
        seconds : float
            How long, above zero [s]
        sample : str
            Conductor whose current is sampled at each step; none if empty [-]
        """
        events: list[Event] = []
        samples: list[tuple[float, float, float]] = []
        began, passed = state.at_s, 0.0
        known: dict[tuple[object, ...], Drive] = {}
        state = self._settled(state, self._drive(UnitCircuit(self.wiring, self.parts, state), known))
        while passed < seconds - 1e-9:
            circuit = UnitCircuit(self.wiring, self.parts, state)
            drive = self._drive(circuit, known)
            if sample:
                samples.append((passed, circuit.ac_current(sample), circuit.power()[1]))
            step = min(self._step(state, drive), seconds - passed)
            before = state
            state = self._after(state, drive, step)
            state = charged(circuit, drive, state, self.phase, step)
            passed = seconds if step == seconds - passed else passed + step
            state = replace(state, at_s=began + passed)
            events += heard(self.parts, before, state, drive, events)
        return Passed(state, tuple(events), tuple(samples))

    def is_powered(self, state: UnitState) -> bool:
        """Whether the compressor has power in a state.

        Parameters
        ----------
        state : UnitState
            The state [-]
        """
        return drive_of(UnitCircuit(self.wiring, self.parts, state)).powered

    def settled(self, state: UnitState) -> UnitState:
        """A state with its switches as its temperatures and currents set them.

        Parameters
        ----------
        state : UnitState
            The state [-]
        """
        return self._settled(state, drive_of(UnitCircuit(self.wiring, self.parts, state)))

    def switched(self, before: UnitState, after: UnitState) -> UnitState:
        """A state after something was switched or taken off, with what that leaves on the capacitors.

        Parameters
        ----------
        before, after : UnitState
            States without and with the change [-]
        """
        circuit = UnitCircuit(self.wiring, self.parts, before)
        return charged(circuit, drive_of(circuit), after, self.phase, 0.0)

    # ---------------------------------------------------------------- electric

    def _drive(self, circuit: UnitCircuit, known: dict[tuple[object, ...], Drive]) -> Drive:
        state = circuit.state
        device = self.parts.start_device
        ohm = device.resistance(state.ptc_k) if isinstance(device, Ptc) else 1.0
        key = (
            state.plugged,
            state.thermostat_closed and state.knob_on,
            state.overload_open,
            state.contact_closed,
            state.timer_defrost,
            state.terminator_closed,
            state.removed,
            state.door_open,
            round(state.speed, 3),
            round(state.winding_k),
            round(100 * math.log(ohm)) if math.isfinite(ohm) else -1,
        )
        if key not in known:
            known[key] = drive_of(circuit)
        return known[key]

    def _acceleration(self, state: UnitState, drive: Drive) -> float:
        """Acceleration of the rotor [rad/s²]; none while it stands and the torque does not break it away."""
        motor, load = self.parts.motor, self.parts.load
        if motor is None or self.parts.windings.seized:
            return 0.0
        asked = load.equal_nm + (load.working_nm - load.equal_nm) * state.pressure
        asked += motor.friction_w / synchronous_speed(motor)
        if state.speed <= 0 and drive.torque <= asked:
            return 0.0
        return (drive.torque - asked) / motor.inertia_kg_m2

    def _step(self, state: UnitState, drive: Drive) -> float:
        return min(self._pace(state, drive), max(LEAST_S, self._until_switch(state, drive)))

    def _until_switch(self, state: UnitState, drive: Drive) -> float:
        """Time until the thermostat or the overload would switch, if all stays as it is [s]."""
        parts = self.parts
        times = [self._until_thermostat(state, drive)] if state.plugged else []
        if parts.overload is not None and state.plugged and not parts.overload.is_open:
            if state.overload_open:
                times.append(parts.overload.reset_time(state.overload_k, state.shell_k, self.room_k))
            else:
                amps = drive.overload_a
                times.append(parts.overload.trip_time(amps, state.overload_k, state.shell_k, self.room_k))
        return min(times, default=math.inf)

    def _until_thermostat(self, state: UnitState, drive: Drive) -> float:
        parts, cold = self.parts, self.parts.cold
        if cold is None or parts.thermostat.stuck is not Stuck.FREE:
            return time_to_thermostat(parts, self.room_k, state, drive)
        wanted = parts.thermostat.open_k if state.thermostat_closed else parts.thermostat.close_k
        return time_to_cabinet(parts, cold, self.room_k, state, drive, wanted)

    def _pace(self, state: UnitState, drive: Drive) -> float:
        """Step that the quickest of what is going on asks for [s]."""
        motor = self.parts.motor
        if not drive.powered or motor is None:
            return LONG_S
        if abs(self._acceleration(state, drive)) > SETTLED * synchronous_speed(motor):
            crawls = state.powered_s > LONG_START_S and state.speed < CRAWL * synchronous_speed(motor)
            return CRAWL_S if crawls else FINE_S
        if state.speed <= 0:
            return LOCKED_FIRST_S if state.powered_s < LOCKED_FIRST_FOR_S else LOCKED_S
        return SLOW_S if state.powered_s < SETTLES_S else LONG_S

    def _speed(self, state: UnitState, drive: Drive, step: float) -> float:
        motor = self.parts.motor
        if motor is None or not drive.powered:
            return 0.0
        acceleration = self._acceleration(state, drive)
        if step <= FINE_S or state.speed <= 0:
            return min(max(0.0, state.speed + acceleration * step), 0.9999 * synchronous_speed(motor))
        nudge = 1e-4 * synchronous_speed(motor)
        slower = UnitCircuit(self.wiring, self.parts, replace(state, speed=state.speed - nudge))
        slope = (acceleration - self._acceleration(slower.state, drive_of(slower))) / nudge
        if slope >= 0:
            return max(0.0, state.speed + acceleration * FINE_S)
        return min(max(0.0, state.speed - acceleration / slope), 0.9999 * synchronous_speed(motor))

    # --------------------------------------------------------------------- time

    def _after(self, state: UnitState, drive: Drive, step: float) -> UnitState:
        parts = self.parts
        winding_k, shell_k = warmth(parts, self.room_k, state, drive, step)
        overload_k, ptc_k = state.overload_k, state.ptc_k
        if parts.overload is not None:
            overload_k = parts.overload.heated(overload_k, drive.overload_a, state.shell_k, self.room_k, step)
        if isinstance(parts.start_device, Ptc):
            if step > PTC_SETTLES_S and drive.ptc_w > 0:
                ptc_k = parts.start_device.heated_at(ptc_k, drive.ptc_v, step, self.room_k)
            else:
                ptc_k = parts.start_device.heated(ptc_k, drive.ptc_w, step, self.room_k)
        after = replace(
            state,
            winding_k=winding_k,
            overload_k=overload_k,
            ptc_k=ptc_k,
            speed=self._speed(state, drive, step),
            energy_j=state.energy_j + step * drive.plug_w,
            powered_s=state.powered_s + step if drive.supplied else 0.0,
            rested_s=_rested(state, drive, step),
        )
        if parts.cold is None:
            after = simple_cabinet(parts, self.room_k, replace(after, shell_k=shell_k), drive, step)
            after = replace(after, pressure=self._simple_pressure(state, step))
        else:
            after = cold_after(parts, parts.cold, self.room_k, after, drive, step)
        return self._settled(defrost_timer(parts, after, drive, step), drive)

    def _simple_pressure(self, state: UnitState, step: float) -> float:
        """Where the pressures stand after a step, 0 for equal and 1 for working ones."""
        runs, load = state.speed > 0, self.parts.load
        return towards(state.pressure, 1.0 if runs else 0.0, step, load.build_s if runs else load.equalise_s)

    def _settled(self, state: UnitState, drive: Drive) -> UnitState:
        """Switches as the temperatures and currents of this moment set them."""
        parts = self.parts
        changed: dict[str, bool | float] = {
            "thermostat_closed": parts.thermostat.next_closed(state.thermostat_closed, state.cabinet_k)
        }
        if parts.overload is not None:
            changed["overload_open"] = parts.overload.next_open(state.overload_open, state.overload_k)
        if parts.defrost is not None:
            closed = state.terminator_closed
            closed = (
                state.evaporator_k < parts.defrost.terminator_open_k
                if closed
                else (state.evaporator_k <= parts.defrost.terminator_close_k)
            )
            changed["terminator_closed"] = closed
            if parts.defrost.timer_stuck is not Stuck.FREE:
                changed["timer_defrost"] = parts.defrost.timer_stuck is Stuck.CLOSED
        changed["contact_closed"] = self._contact(state, drive)
        return replace(state, **changed)  # type: ignore[arg-type]

    def _contact(self, state: UnitState, drive: Drive) -> bool:
        device = self.parts.start_device
        if isinstance(device, CurrentRelay):
            return device.next_closed(state.contact_closed, drive.coil_a)
        if isinstance(device, PotentialRelay):
            return device.next_closed(state.contact_closed, drive.coil_v)
        if isinstance(device, SolidStateSwitch):
            return device.conducts(drive.supplied, state.powered_s, state.rested_s)
        return state.contact_closed


def _rested(state: UnitState, drive: Drive, step: float) -> float:
    """How long the start device is without power, or had been before it got power."""
    if drive.supplied:
        return state.rested_s
    return step if state.powered_s > 0 else state.rested_s + step
