"""A survey of one unit: every reading that a lab allows, taken in one fixed order on a bench of its own."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from coldwright.appliance.cooler import Cooler
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_faults import UnitFault
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.sheet import SheetHeader
from coldwright.bench.unit_bench import NOT_TAKEN_OFF, UnitBench
from coldwright.errors import BenchError
from coldwright.instruments.display import Display

ROOM_K = 297.0
HEADER = SheetHeader(lab="survey", learner="survey", ticket="", model="")
CAPACITORS = (ComponentKind.START_CAPACITOR, ComponentKind.RUN_CAPACITOR)


@dataclass(frozen=True)
class Survey:
    """What showed, by reading."""

    shown: dict[tuple[str, ...], Display]


def bench_with(cooler: Cooler, fault: UnitFault, seed: bytes = b"survey") -> UnitBench:
    """A bench with a unit of a model, exactly as its plate says but for the fault."""
    unit = BenchUnit(cooler, cooler.parts, fault, ROOM_K, arrival_state(ROOM_K))
    return UnitBench(unit, seed, 0.3, HEADER)


def survey(cooler: Cooler, fault: UnitFault) -> Survey:
    """Every reading on a unit with a fault."""
    bench = bench_with(cooler, fault)
    shown: dict[tuple[str, ...], Display] = {}

    def note(stage: str, act: str, *on: str) -> None:
        display = bench.perform(act, on).display
        assert display is not None
        shown[(stage, act, *on)] = display

    _running(bench, note)
    _dead(bench, note)
    try:
        bench.perform("start test")
        note("dead", "start test")
    except BenchError:
        assert bench.parts.motor is None
    return Survey(shown)


def _running(bench: UnitBench, note) -> None:
    note("start", "inrush", "cord L")
    for component in bench.unit.wiring.components:
        note("seen", "inspect", component.name)
    note("start", "listen")
    for component in bench.unit.wiring.of_kind(ComponentKind.PTC):  # hot from its work: soon it should be cool
        bench.perform("isolate")
        bench.perform("wait", ("5 min",))
        bench.perform("take off", (component.name,))
        note("five minutes after", "ohms", *component.terminals)
        bench.perform("put back", (component.name,))
        bench.perform("plug in")
    bench.perform("open door")
    bench.perform("wait", ("10 s",))
    _live(bench, note, "running")
    bench.perform("shut door")
    bench.perform("wait", ("1 h",))
    note("after an hour", "listen")
    note("after an hour", "watts")
    note("after an hour", "temperature", "cabinet")
    note("after an hour", "temperature", "shell")
    note("after an hour", "clamp", "cord L")
    for _ in range(2):
        bench.perform("wait", ("1 h",))
    _live(bench, note, "after three hours")
    note("after three hours", "temperature", "cabinet")
    note("after three hours", "temperature", "evaporator")
    if bench.parts.defrost is not None:
        bench.perform("advance timer")
        bench.perform("wait", ("1 min",))
        _live(bench, note, "timer advanced")
        bench.perform("wait", ("1 h",))
        note("long after the timer was advanced", "watts")
        note("long after the timer was advanced", "temperature", "evaporator")


def _live(bench: UnitBench, note, stage: str) -> None:
    wiring = bench.unit.wiring
    note(stage, "watts")
    for component in wiring.components:
        if len(component.terminals) == 2:
            note(stage, "volts ac", *component.terminals)
            note(stage, "clamp", component.terminals[0])
    for terminal in wiring.terminals:
        if terminal.startswith("pin"):
            note(stage, "clamp", terminal)
    note(stage, "volts ac", "plug L", "plug N")


def _dead(bench: UnitBench, note) -> None:
    wiring = bench.unit.wiring
    bench.perform("isolate")
    bench.perform("wait", ("5 min",))
    bench.perform("wait", ("12 h",))
    for name in ("start capacitor", "run capacitor", "board"):
        if any(component.name == name for component in wiring.components):
            bench.perform("discharge", (name,))
    bench.perform("zero leads")
    note("dead", "ohms", "plug E", "cabinet metal")
    for a in ("plug L", "plug N"):
        note("dead", "ohms", a, a.replace("plug", "cord"))
    for terminal in wiring.terminals:
        for net, joined in wiring.nets.items():
            if terminal in joined and terminal != joined[0]:
                note(f"joint of {net}", "ohms", joined[0], terminal)
    bench.perform("thermostat on")
    for component in wiring.components:
        if component.kind not in NOT_TAKEN_OFF:
            bench.perform("take off", (component.name,))
    for door in ("open door", "shut door"):
        bench.perform(door)
        for component in wiring.of_kind(ComponentKind.DOOR_SWITCH):
            note(door, "ohms", *component.terminals)
    for component in wiring.components:
        ends = component.terminals
        for i, a in enumerate(ends):
            for b in ends[i + 1 :]:
                if component.kind is not ComponentKind.CORD and "shell" not in (a, b):
                    note("off", "ohms", a, b)
        if component.kind in CAPACITORS:
            note("off", "capacitance", *ends)
        if "shell" in ends:
            note("off", "insulation", ends[0], "shell")


def differ(one: Display, other: Display) -> bool:
    """Whether two displays differ by more than both instruments leave open, or say different things."""
    values = (one.value, other.value)
    if all(math.isfinite(value) for value in values):
        return abs(values[0] - values[1]) > one.limit + other.limit + one.resolution + other.resolution
    if any(math.isinf(value) for value in values):
        return values[0] != values[1] and not all(math.isnan(value) for value in values)
    return one.text != other.text


def told_apart(one: Survey, other: Survey) -> list[tuple[str, ...]]:
    """Readings in which two surveys differ."""
    both = one.shown.keys() & other.shown.keys()
    return [key for key in both if differ(one.shown[key], other.shown[key])]


__all__ = ["Survey", "bench_with", "differ", "replace", "survey", "told_apart"]
