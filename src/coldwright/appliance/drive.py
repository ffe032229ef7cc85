"""What drives a unit at one moment: currents, torque, heat, and what turns, from one solution of its circuit."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.appliance.parts import FanCondition
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.wiring import ComponentKind
from coldwright.electrical.motor import slip_of, torque
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import PotentialRelay
from coldwright.electrical.windings import REFERENCE_K, resistance_at

POWERED_A = 0.02
SHAFT_TO_GAS = 0.7  # share of shaft power that leaves with the gas; the rest warms the shell; illustrative
CARRIES_A = 0.01  # a capacitor with less carries no alternating current worth the name
SUPPLIED_ABOVE = 0.3  # of the rated volts, for electronics
TURNS_ABOVE = 0.6  # of the rated volts, for a fan


@dataclass(frozen=True)
class Drive:
    """Currents [A], torque [N·m] and heats [W] of one moment."""

    powered: bool
    supplied: bool  # volts stand at the start device, whether or not a winding takes current
    plug_w: float
    torque: float
    copper_w: float
    other_w: float
    overload_a: float
    coil_a: float
    coil_v: float
    ptc_w: float
    ptc_v: float
    heater_w: float
    lamp_w: float
    timer_powered: bool
    condenser_fan_turns: bool
    evaporator_fan_turns: bool
    start_capacitor_v: float  # alternating volts on a capacitor that carries current, else 0
    run_capacitor_v: float
    board_v: float


def fan_turns(circuit: UnitCircuit, name: str) -> bool:
    """Whether a fan turns; False where there is none.

    Parameters
    ----------
    circuit : UnitCircuit
        The circuit at this moment [-]
    name : str
        Name of the fan [-]
    """
    fan = circuit.parts.fans.get(name)
    if fan is None or fan.condition is not FanCondition.TURNS or name in circuit.state.removed:
        return False
    return abs(circuit.component_current(name)) > TURNS_ABOVE * fan.amps


def drive_of(circuit: UnitCircuit) -> Drive:
    """What drives the unit at this moment.

    Parameters
    ----------
    circuit : UnitCircuit
        The circuit at this moment [-]
    """
    parts, current = circuit.parts, circuit.component_current
    run, start = current("compressor first"), current("compressor second")
    powered = abs(run) + abs(start) > POWERED_A or _board_powered(circuit)
    turning, copper, other = _motor(circuit, run, start)
    device = parts.start_device
    ptc_a = abs(current("PTC"))
    heater_a = abs(current("heater"))
    return Drive(
        powered=powered,
        supplied=powered or _switch_volts(circuit) > SUPPLIED_ABOVE * parts.supply.rated_volts,
        plug_w=circuit.power()[0],
        torque=turning,
        copper_w=copper,
        other_w=other,
        overload_a=abs(current("overload")),
        coil_a=abs(current("relay: coil")),
        coil_v=_coil_volts(circuit) if isinstance(device, PotentialRelay) else 0.0,
        ptc_w=ptc_a**2 * device.resistance(circuit.state.ptc_k) if isinstance(device, Ptc) and ptc_a > 0 else 0.0,
        ptc_v=ptc_a * device.resistance(circuit.state.ptc_k) if isinstance(device, Ptc) and ptc_a > 0 else 0.0,
        heater_w=heater_a**2 * parts.defrost.heater_ohm if parts.defrost is not None and heater_a > 0 else 0.0,
        lamp_w=abs(current("lamp")) ** 2 * parts.lamp_ohm,
        timer_powered=abs(current("defrost timer: motor")) > 0,
        condenser_fan_turns=fan_turns(circuit, "condenser fan"),
        evaporator_fan_turns=fan_turns(circuit, "evaporator fan"),
        start_capacitor_v=_alternating(circuit, "start capacitor"),
        run_capacitor_v=_alternating(circuit, "run capacitor"),
        board_v=_board_volts(circuit),
    )


def _motor(circuit: UnitCircuit, run: complex, start: complex) -> tuple[float, float, float]:
    """Torque, heat in the copper of the stator, other heat in the shell."""
    parts, state = circuit.parts, circuit.state
    motor = parts.motor
    if motor is None:
        return 0.0, 0.0, parts.board.watts * 0.4 if parts.board is not None and _board_powered(circuit) else 0.0
    turning = torque(motor, slip_of(motor, state.speed), run, start)
    hot = resistance_at(1.0, REFERENCE_K, state.winding_k)
    copper = hot * (abs(run) ** 2 * motor.run_ohm + abs(start) ** 2 * motor.start_ohm)
    common, run_pin, start_pin, _shell = circuit.wiring.component("compressor").terminals
    taken = circuit.component_voltage(common, run_pin) * run.conjugate()
    taken += circuit.component_voltage(common, start_pin) * start.conjugate()
    shaft = turning * state.speed
    return turning, copper, max(0.0, taken.real - copper - SHAFT_TO_GAS * shaft)


def _switch_volts(circuit: UnitCircuit) -> float:
    """Volts between pin C and a solid-state switch's line side."""
    switches = circuit.wiring.of_kind(ComponentKind.SOLID_STATE_SWITCH)
    if not switches:
        return 0.0
    return abs(circuit.component_voltage("pin C", switches[0].terminals[0]))


def _coil_volts(circuit: UnitCircuit) -> float:
    coil, start, _capacitor = circuit.wiring.of_kind(ComponentKind.POTENTIAL_RELAY)[0].terminals
    return abs(circuit.component_voltage(coil, start))


def _alternating(circuit: UnitCircuit, name: str) -> float:
    if abs(circuit.component_current(name)) < CARRIES_A:
        return 0.0
    return abs(circuit.component_voltage(*circuit.wiring.component(name).terminals))


def _board_volts(circuit: UnitCircuit) -> float:
    if circuit.parts.board is None:
        return 0.0
    return abs(circuit.component_voltage(*circuit.wiring.component("board").terminals[:2]))


def _board_powered(circuit: UnitCircuit) -> bool:
    return circuit.parts.board is not None and abs(circuit.component_current("board: input")) > POWERED_A
