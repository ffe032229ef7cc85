"""The usual start test: a test cord on the bare pins, the start winding joined in for a moment, devices bypassed."""

from __future__ import annotations

from dataclasses import dataclass, replace

from coldwright.appliance.operation import Operation
from coldwright.appliance.parts import Parts
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.wiring import ComponentKind, wirings
from coldwright.electrical.start_relays import SolidStateSwitch

START_JOINED_S = 1.0


@dataclass(frozen=True)
class Tested:
    """What a start test left and showed."""

    after: UnitState
    amps: float
    most_amps: float
    runs: bool


def start_test(unit: BenchUnit, parts: Parts, state: UnitState, seconds: float) -> Tested:
    """What a start with the devices bypassed does.

    A good capacitor of the test set stands in for the unit's start capacitor where the motor needs one.

    Parameters
    ----------
    unit : BenchUnit
        The unit [-]
    parts : Parts
        Its parts as they are [-]
    state : UnitState
        Its state, unplugged, devices off [-]
    seconds : float
        How long the test cord is on [s]

    Returns
    -------
    Tested
        The state after it, amps at its end and most amps [A], and whether the compressor runs.
    """
    needs = bool(unit.wiring.of_kind(ComponentKind.START_CAPACITOR, ComponentKind.RUN_CAPACITOR))
    wiring = wirings()["start test with a capacitor" if needs else "start test"]
    good = unit.cooler.parts.start_capacitor or unit.cooler.parts.run_capacitor
    tested = replace(
        parts,
        start_device=SolidStateSwitch(on_time_s=START_JOINED_S, rest_time_s=0.0),
        start_capacitor=good if needs else None,
        run_capacitor=None,
        overload=None,
        fans={},
        defrost=None,
        loose={},
        cord=type(parts.cord)(),
    )
    bare = replace(state, plugged=True, removed=frozenset(), powered_s=0.0, rested_s=1e9, contact_closed=False)
    run = Operation(wiring, tested, unit.room_k, unit.phase)
    passed = run.advance(bare, seconds, "cord L")
    end = passed.state
    amps = abs(UnitCircuit(wiring, tested, end).component_current("cord: live"))
    after = replace(
        state, winding_k=end.winding_k, shell_k=end.shell_k, pressure=end.pressure, at_s=end.at_s, speed=0.0
    )
    return Tested(after, amps, max(sampled for _, sampled, _ in passed.samples), end.speed > 0)
