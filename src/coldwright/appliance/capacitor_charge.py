"""What charge stays on a unit's capacitors as time passes and circuits open."""

from __future__ import annotations

import math
from dataclasses import replace

from coldwright.appliance.drive import Drive, drive_of
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.electrical.capacitor import Capacitor

ALTERNATING_ABOVE_V = 1.0
GONE_V = 0.01
SWITCHES = ("plugged", "knob_on", "thermostat_closed", "overload_open", "contact_closed", "timer_defrost", "removed")


def charged(circuit: UnitCircuit, drive: Drive, after: UnitState, phase: float, step: float) -> UnitState:
    """The state with what the capacitors hold after a step.

    A capacitor that carries alternating current holds no direct voltage; when its circuit opens it keeps a part of the
    peak and then empties through what is joined to it.

    Parameters
    ----------
    circuit : UnitCircuit
        The circuit during the step [-]
    drive : Drive
        What that circuit does [-]
    after : UnitState
        State at its end [-]
    phase : float
        Part of the peak that stays when a circuit opens, 0 to 1 [-]
    step : float
        Length of the step [s]
    """
    changed: dict[str, float] = {}
    for name, field in (("start capacitor", "start_capacitor_v"), ("run capacitor", "run_capacitor_v")):
        capacitor = circuit.parts.start_capacitor if name == "start capacitor" else circuit.parts.run_capacitor
        if capacitor is not None:
            volts = _volts(circuit, drive, after, name, capacitor, phase, step)
            if volts != getattr(after, field):
                changed[field] = volts
    if circuit.parts.board is not None:
        changed["bus_v"] = _bus(circuit, drive, step)
    return replace(after, **changed) if changed else after  # type: ignore[arg-type]


def _volts(
    circuit: UnitCircuit, drive: Drive, after: UnitState, name: str, capacitor: Capacitor, phase: float, step: float
) -> float:
    field = f"{name.replace(' ', '_')}_v"
    alternating, held = getattr(drive, field), getattr(circuit.state, field)
    if alternating > 0:
        return 0.0 if _still_closed(circuit, after, name) else phase * math.sqrt(2) * float(alternating)
    if abs(held) < GONE_V:
        return 0.0
    return emptied(circuit, name, capacitor, held, step)


def _still_closed(circuit: UnitCircuit, after: UnitState, name: str) -> bool:
    before = circuit.state
    if all(getattr(before, field) == getattr(after, field) for field in SWITCHES):
        return True
    return getattr(drive_of(UnitCircuit(circuit.wiring, circuit.parts, after)), f"{name.replace(' ', '_')}_v") > 0


def emptied(circuit: UnitCircuit, name: str, capacitor: Capacitor, held: float, step: float) -> float:
    """Voltage left on a capacitor after some time on what is joined to it [V].

    Parameters
    ----------
    circuit : UnitCircuit
        The circuit [-]
    name : str
        Name of the capacitor [-]
    capacitor : Capacitor
        The capacitor [-]
    held : float
        Voltage at the beginning [V]
    step : float
        How long [s]
    """
    ohm = circuit.capacitor_discharge_ohm(name)
    if math.isinf(ohm):
        return held
    left = held * math.exp(-step / (max(ohm, 1e-3) * capacitor.farad))
    return left if abs(left) >= GONE_V else 0.0


def _bus(circuit: UnitCircuit, drive: Drive, step: float) -> float:
    board = circuit.parts.board
    assert board is not None
    peak = math.sqrt(2) * drive.board_v
    ends = circuit.wiring.component("board")
    ohm = circuit.resistance(ends.terminal("plus"), ends.terminal("minus")) if circuit.state.bus_v > GONE_V else 1.0
    left = circuit.state.bus_v * math.exp(-step / (ohm * board.bus_farad))
    return max(peak if peak > ALTERNATING_ABOVE_V else 0.0, left if left >= GONE_V else 0.0)
