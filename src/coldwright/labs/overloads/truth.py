"""What a unit does by itself as it came in, worked out where no reading tells it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from coldwright.appliance.operation import Operation
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.bench.unit_acts import HOLD_S
from coldwright.bench.unit_bench import UnitBench
from coldwright.instruments.display import Display
from coldwright.labs.overloads.heard import Heard, heard_events
from coldwright.labs.overloads.unit import draw_unit
from coldwright.labs.ticket import practice_ticket
from coldwright.labs.unit_draw import drawn_lead

WATCHED_S = 900.0
STARTING_S = 0.2  # a start device has settled by then, and no rotor has run up
WIRE = "pin C"  # all of the compressor's current


@dataclass(frozen=True)
class Truth:
    """One unit by itself; each figure is worked out when it is first asked for."""

    seed: bytes
    unit: BenchUnit

    @property
    def _run(self) -> Operation:
        return Operation(self.unit.wiring, self.unit.parts, self.unit.room_k, self.unit.phase)

    @cached_property
    def heard(self) -> Heard:
        """What is heard in the first quarter of an hour."""
        return heard_events(self._run.advance(self.unit.arrival, WATCHED_S).events)

    @cached_property
    def watts_on(self) -> float:
        """Watts at the plug with power on the compressor [W]."""
        return _watts(self.unit, _on_state(self.unit, self._run, self.running_a is not None))

    @cached_property
    def watts_off(self) -> float:
        """Watts at the plug without power on the compressor [W]."""
        return _watts(self.unit, replace(self.unit.arrival, overload_open=True, speed=0.0))

    @property
    def start_a(self) -> float:
        """Amps of the compressor at the start, cold [A]."""
        return self._started[0]

    @property
    def running_a(self) -> float | None:
        """Amps of the compressor while it runs; None if it does not run [A]."""
        return self._started[1]

    @cached_property
    def _started(self) -> tuple[float, float | None]:
        bench = _scratch(self.seed, self.unit)
        start_a = _shown(bench, "inrush", WIRE).value
        return start_a, _shown(bench, "clamp", WIRE).value if bench.state.speed > 0 else None

    @cached_property
    def start_test(self) -> str:
        """What the start test tells, cold."""
        bench = _scratch(self.seed, self.unit)
        for component in self.unit.wiring.components:
            if component.name in ("relay", "PTC", "overload"):
                bench.perform("take off", (component.name,))
        return _shown(bench, "start test").text.partition(",")[0]


@lru_cache(maxsize=256)
def truth_of(seed: bytes) -> Truth:
    """What the unit of a seed does by itself.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    return Truth(seed, draw_unit(seed))


def _scratch(seed: bytes, unit: BenchUnit) -> UnitBench:
    """The unit on a bench off the record, unplugged and cold."""
    cold = replace(unit, arrival=arrival_state(unit.room_k))
    return UnitBench(cold, seed, drawn_lead(seed), practice_ticket("off the record", 0).header)


def _shown(bench: UnitBench, act: str, *on: str) -> Display:
    display = bench.perform(act, on).display
    assert display is not None
    return display


def _on_state(unit: BenchUnit, run: Operation, runs: bool) -> UnitState:
    """A state with power on the compressor: as it came in running, as it runs, or with the rotor locked."""
    if unit.arrival.speed > 0:
        return unit.arrival
    room_k = unit.room_k
    began = replace(unit.arrival, overload_open=False, overload_k=room_k, ptc_k=room_k, speed=0.0, powered_s=0.0)
    if runs:
        return run.advance(replace(began, pressure=0.0), float(HOLD_S)).state
    return run.advance(began, STARTING_S).state


def _watts(unit: BenchUnit, state: UnitState) -> float:
    return UnitCircuit(unit.wiring, unit.parts, state).power()[0]
