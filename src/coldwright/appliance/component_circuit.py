"""What each component puts between its terminals at one moment: branches, switches, windings, sources.

A component's elements are named "component: part", so that a current can be asked for by name.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from coldwright.appliance.circuit_elements import CHARGED_OHM, Moment
from coldwright.appliance.inverter_circuit import board, inverter_compressor
from coldwright.appliance.parts import Stuck
from coldwright.appliance.wiring import Component, ComponentKind
from coldwright.electrical.capacitor import Capacitor, Condition
from coldwright.electrical.motor import slip_of, winding_impedance
from coldwright.electrical.network import Branch, Coupled, Source, Switch
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay, SolidStateSwitch
from coldwright.electrical.windings import REFERENCE_K, resistance_at

OPEN_OHM = 1e12  # a broken winding inside a pair of coupled ones
SHORTED_CAPACITOR_OHM = 0.2
COLD_FILAMENT = 0.1  # of its ohms at white heat (from memory: a tenth to a fifteenth)


def _cord(component: Component, now: Moment) -> None:
    cord, ends = now.parts.cord, now.ends(component)
    for i, ohm in enumerate((cord.live_ohm, cord.neutral_ohm, cord.earth_ohm)):
        now.into.resistor(f"{component.name}: {component.roles[i + 3]}", ends[i], ends[i + 3], ohm)


def _thermostat(component: Component, now: Moment) -> None:
    stuck = now.parts.thermostat.stuck
    closed = stuck is Stuck.CLOSED or (now.state.knob_on and now.state.thermostat_closed and stuck is Stuck.FREE)
    now.into.switches.append(Switch(component.name, *now.two(component), closed=closed, contact_ohm=0.02))


def _door_switch(component: Component, now: Moment) -> None:
    stuck = now.parts.door_switch
    closed = stuck is Stuck.CLOSED or (now.state.door_open and stuck is Stuck.FREE)
    now.into.switches.append(Switch(component.name, *now.two(component), closed=closed, contact_ohm=0.02))


def _lamp(component: Component, now: Moment) -> None:
    cold = COLD_FILAMENT if now.hertz == 0 else 1.0
    now.into.resistor(component.name, *now.two(component), now.parts.lamp_ohm * cold)


def _fan(component: Component, now: Moment) -> None:
    fan = now.parts.fans.get(component.name)
    if fan is None or fan.condition.name == "OPEN":
        return
    if now.hertz == 0:
        now.into.resistor(component.name, *now.two(component), fan.winding_ohm)
        return
    z = fan.impedance(now.parts.supply.rated_volts)
    now.into.resistor(component.name, *now.two(component), z.real, z.imag, now.hertz)


def _overload(component: Component, now: Moment) -> None:
    overload = now.parts.overload
    if overload is None or now.state.overload_open or overload.is_open:
        return
    now.into.resistor(component.name, *now.two(component), overload.heater_ohm)


def _current_relay(component: Component, now: Moment) -> None:
    relay = now.parts.start_device
    assert isinstance(relay, CurrentRelay)
    line, run, start = now.ends(component)
    if not relay.coil_open:
        reactance = 2 * math.pi * now.hertz * relay.coil_inductance_h
        now.into.resistor(f"{component.name}: coil", line, run, relay.coil_ohm, reactance, now.hertz)
    closed = now.state.contact_closed
    now.into.switches.append(Switch(f"{component.name}: contact", line, start, closed, relay.contact_ohm))


def _potential_relay(component: Component, now: Moment) -> None:
    relay = now.parts.start_device
    assert isinstance(relay, PotentialRelay)
    coil, start, capacitor = now.ends(component)
    if not relay.coil_open:
        reactance = 2 * math.pi * now.hertz * relay.coil_inductance_h
        now.into.resistor(f"{component.name}: coil", coil, start, relay.coil_ohm, reactance, now.hertz)
    closed = now.state.contact_closed
    now.into.switches.append(Switch(f"{component.name}: contact", start, capacitor, closed, relay.contact_ohm))


def _ptc(component: Component, now: Moment) -> None:
    ptc = now.parts.start_device
    assert isinstance(ptc, Ptc)
    now.into.resistor(component.name, *now.two(component), ptc.resistance(now.state.ptc_k))


def _solid_state(component: Component, now: Moment) -> None:
    switch = now.parts.start_device
    assert isinstance(switch, SolidStateSwitch)
    now.into.switches.append(Switch(component.name, *now.two(component), now.state.contact_closed, 0.1))


def _capacitor(component: Component, now: Moment, capacitor: Capacitor | None, volts: float) -> None:
    if capacitor is None:
        return
    a, b = now.ends(component)
    leaks = [1 / ohm for ohm in (capacitor.leak_ohm, capacitor.bleed_ohm) if ohm is not None and math.isfinite(ohm)]
    if leaks:
        now.into.resistor(f"{component.name}: leak", a, b, 1 / sum(leaks))
    if capacitor.condition is Condition.SHORTED:
        now.into.resistor(component.name, a, b, SHORTED_CAPACITOR_OHM)
    elif capacitor.condition is Condition.OK and now.hertz > 0:
        esr = capacitor.loss_tangent / (2 * math.pi * now.hertz * capacitor.farad)
        now.into.branches.append(Branch(component.name, a, b, esr, capacitance=capacitor.farad))
    if abs(volts) > 0 and now.hertz == 0 and capacitor.condition is Condition.OK:
        now.into.sources.append(Source(component.name, a, b, volts, 0.0, CHARGED_OHM))


def _start_capacitor(component: Component, now: Moment) -> None:
    _capacitor(component, now, now.parts.start_capacitor, now.state.start_capacitor_v)


def _run_capacitor(component: Component, now: Moment) -> None:
    _capacitor(component, now, now.parts.run_capacitor, now.state.run_capacitor_v)


def _compressor(component: Component, now: Moment) -> None:
    motor, windings, state = now.parts.motor, now.parts.windings, now.state
    assert motor is not None
    common, run, start, shell = now.ends(component)
    hot = [resistance_at(ohm, REFERENCE_K, state.winding_k) for ohm in (motor.run_ohm, motor.start_ohm)]
    (z_rr, z_rs), (z_sr, z_ss) = winding_impedance(motor, slip_of(motor, state.speed), hot[0], hot[1])
    broken_run = OPEN_OHM if windings.run_left is None else 0.0
    broken_start = OPEN_OHM if windings.start_left is None else 0.0
    if now.hertz not in (0.0, motor.frequency_hz):  # a small test signal on a rotor that stands still
        scale = now.hertz / motor.frequency_hz
        z_rr, z_ss, z_rs, z_sr = complex(hot[0], z_rr.imag * scale), complex(hot[1], z_ss.imag * scale), 0j, 0j
    now.into.coupled.append(
        Coupled(
            component.name,
            (common, run),
            (common, start),
            ((z_rr + broken_run, z_rs), (z_sr, z_ss + broken_start)),
            (hot[0] + broken_run, hot[1] + broken_start),
            now.hertz or motor.frequency_hz,
        )
    )
    if now.hertz > 0 and motor.core_loss_w > 0 and windings.run_left is not None and state.speed > 0:
        core = now.parts.supply.rated_volts**2 / motor.core_loss_w
        now.into.resistor(f"{component.name}: core", common, run, core)
    ground = 1 / (1 / windings.insulation_ohm + 1 / windings.ground_ohm)
    for end, name in ((run, "run"), (start, "start")):
        now.into.resistor(f"{component.name}: {name} insulation", end, shell, 2 * ground)


def _timer(component: Component, now: Moment) -> None:
    defrost = now.parts.defrost
    assert defrost is not None
    common, to_defrost, motor, cooling = now.ends(component)
    contact = to_defrost if now.state.timer_defrost else cooling
    now.into.switches.append(Switch(f"{component.name}: contact", common, contact, closed=True, contact_ohm=0.02))
    now.into.resistor(f"{component.name}: motor", common, motor, defrost.timer_ohm)


def _heater(component: Component, now: Moment) -> None:
    defrost = now.parts.defrost
    assert defrost is not None
    now.into.resistor(component.name, *now.two(component), defrost.heater_ohm)


def _terminator(component: Component, now: Moment) -> None:
    defrost = now.parts.defrost
    assert defrost is not None
    closed = now.state.terminator_closed
    if defrost.terminator is not Stuck.FREE:
        closed = defrost.terminator is Stuck.CLOSED
    now.into.switches.append(Switch(component.name, *now.two(component), closed=closed, contact_ohm=0.02))


def _nothing(_component: Component, _now: Moment) -> None:
    """Bare metal has nothing between its terminals."""


BUILDERS: dict[ComponentKind, Callable[[Component, Moment], None]] = {
    ComponentKind.CORD: _cord,
    ComponentKind.THERMOSTAT: _thermostat,
    ComponentKind.DOOR_SWITCH: _door_switch,
    ComponentKind.LAMP: _lamp,
    ComponentKind.FAN: _fan,
    ComponentKind.OVERLOAD: _overload,
    ComponentKind.CURRENT_RELAY: _current_relay,
    ComponentKind.POTENTIAL_RELAY: _potential_relay,
    ComponentKind.PTC: _ptc,
    ComponentKind.SOLID_STATE_SWITCH: _solid_state,
    ComponentKind.START_CAPACITOR: _start_capacitor,
    ComponentKind.RUN_CAPACITOR: _run_capacitor,
    ComponentKind.COMPRESSOR: _compressor,
    ComponentKind.INVERTER_COMPRESSOR: inverter_compressor,
    ComponentKind.INVERTER_BOARD: board,
    ComponentKind.DEFROST_TIMER: _timer,
    ComponentKind.DEFROST_HEATER: _heater,
    ComponentKind.TERMINATOR: _terminator,
    ComponentKind.CABINET: _nothing,
}


def add_elements(component: Component, now: Moment) -> None:
    """Put what a component holds between its terminals into the circuit.

    Parameters
    ----------
    component : Component
        The component [-]
    now : Moment
        Parts, state, frequency and where the elements go [-]
    """
    BUILDERS[component.kind](component, now)
