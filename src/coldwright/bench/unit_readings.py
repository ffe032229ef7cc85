"""Readings on the bench of a whole unit: which instrument, what it is put on, what it does to the unit and to you."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.appliance.drive import fan_turns
from coldwright.appliance.start_test import start_test
from coldwright.appliance.unit_circuit import CORD
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.acts import stopped
from coldwright.bench.hazards import Hazard
from coldwright.bench.unit_acts import HOLD_S, LISTEN_S, PLACES, START_TEST_S
from coldwright.bench.unit_labels import label
from coldwright.errors import BenchError
from coldwright.instruments.clamp import ClampMeter
from coldwright.instruments.display import Display, Error
from coldwright.instruments.insulation_tester import InsulationTester
from coldwright.instruments.multimeter import Function, MeterEvent, Multimeter
from coldwright.instruments.power_meter import PowerMeter
from coldwright.instruments.thermometer import read_temperature

if TYPE_CHECKING:
    from coldwright.bench.unit_bench import UnitBench

Shown = tuple[Display, tuple[Hazard, ...]]
HAZARDS = {
    MeterEvent.OHMS_ON_LIVE: Hazard.OHMS_ON_LIVE,
    MeterEvent.OHMS_ON_CHARGED: Hazard.OHMS_ON_CHARGED,
    MeterEvent.CONTINUITY_ON_LIVE: Hazard.OHMS_ON_LIVE,
    MeterEvent.CONTINUITY_ON_CHARGED: Hazard.OHMS_ON_CHARGED,
    MeterEvent.RUINED: Hazard.METER_RUINED,
    MeterEvent.FUSE_BLOWN: Hazard.FUSE_BLOWN,
    MeterEvent.CAPACITANCE_ON_LIVE: Hazard.CAPACITANCE_ON_LIVE,
    MeterEvent.CAPACITANCE_ON_CHARGED: Hazard.CAPACITANCE_ON_CHARGED,
}
ON_THE_PINS = (
    ComponentKind.CURRENT_RELAY,
    ComponentKind.POTENTIAL_RELAY,
    ComponentKind.PTC,
    ComponentKind.SOLID_STATE_SWITCH,
    ComponentKind.OVERLOAD,
    ComponentKind.RUN_CAPACITOR,
)
DEAD_FUNCTIONS = (Function.OHMS, Function.CONTINUITY, Function.CAPACITANCE)


class UnitInstruments:
    """The instruments on one bench. Where each stands within its accuracy is drawn once.

    Parameters
    ----------
    lead_ohm : float
        Resistance of the multimeter's leads [Ω]
    error : callable
        Where an instrument stands, by name [-]
    """

    def __init__(self, lead_ohm: float, error: Callable[[str], Error]) -> None:
        self._lead_ohm, self.error = lead_ohm, error
        self._meters = 0
        self.meter = self.fetch_meter()
        self.tester = InsulationTester(lambda r: error(f"insulation {r}"))
        self.clamp = ClampMeter(lambda r: error(f"clamp {r}"))
        self.power = PowerMeter(lambda what: error(f"power meter {what}"))

    def fetch_meter(self) -> Multimeter:
        """Another multimeter, its leads not zeroed yet."""
        self._meters += 1
        number = self._meters
        self.meter = Multimeter(self._lead_ohm, lambda f, r: self.error(f"meter {number} {f.value} {r}"))
        return self.meter

    def zero_leads(self) -> Display:
        """Tips together on ohms, and what shows is taken off from now on."""
        self.meter.function = Function.OHMS
        return self.meter.zero_leads()


@dataclass(frozen=True)
class Reading:
    """One kind of reading: what it may be put on, what it is called, how it is taken."""

    check: Callable[[UnitBench, tuple[str, ...]], None]
    words: Callable[[tuple[str, ...]], str]
    take: Callable[[UnitBench, tuple[str, ...]], Shown]


# ------------------------------------------------------------------ multimeter


def _two_terminals(bench: UnitBench, on: tuple[str, ...]) -> None:
    known = bench.circuit.terminals()
    if len(on) != 2:
        raise BenchError(f"two tips go on two terminals; {len(on)} given")
    for terminal in on:
        if terminal not in known:
            raise BenchError(f"there is no terminal {terminal!r} here; they are {', '.join(known)}")
    if on[0] == on[1]:
        raise BenchError(f"both tips are on {on[0]}; choose two terminals. To zero the leads, use 'zero leads'")


def _metered(function: Function) -> Reading:
    def take(bench: UnitBench, on: tuple[str, ...]) -> Shown:
        meter = bench.instruments.meter
        meter.function = function
        display, events = meter.read(bench.circuit, *on)
        hazards = [HAZARDS[event] for event in events if event in HAZARDS]
        at_outlet = any(terminal.startswith("outlet") for terminal in on)
        if function in DEAD_FUNCTIONS and (bench.state.plugged or at_outlet) and not hazards and not meter.ruined:
            live = Hazard.CAPACITANCE_ON_LIVE if function is Function.CAPACITANCE else Hazard.OHMS_ON_LIVE
            hazards.append(live)  # whatever stands between these two tips: the unit is live
        return display, tuple(hazards)

    return Reading(_two_terminals, lambda on: f"{function.value}, {on[0]} to {on[1]}", take)


# ------------------------------------------------------------------ clamp and hold


def _conductor(bench: UnitBench, on: tuple[str, ...]) -> None:
    known = (CORD, *bench.unit.wiring.terminals)
    if len(on) != 1 or on[0] not in known:
        raise BenchError(f"the clamp goes round the cord or the wire at one terminal: {', '.join(known)}")


def _unplugged(bench: UnitBench) -> None:
    if bench.state.plugged:
        raise BenchError("the start is over: pull the plug first, then hold the instrument and plug in")


def _clamp(bench: UnitBench, on: tuple[str, ...]) -> Shown:
    return bench.instruments.clamp.read(bench.circuit, on[0]), ()


def _inrush(bench: UnitBench, on: tuple[str, ...]) -> Shown:
    passed = bench.hold(on[0])
    return bench.instruments.clamp.inrush([(s, amps) for s, amps, _ in passed.samples]), ()


def _lowest_volts(bench: UnitBench, _on: tuple[str, ...]) -> Shown:
    passed = bench.hold(CORD)
    return bench.instruments.meter.lowest_volts([(s, volts) for s, _, volts in passed.samples]), ()


def _held_conductor(bench: UnitBench, on: tuple[str, ...]) -> None:
    _conductor(bench, on)
    _unplugged(bench)


def _held_plug(bench: UnitBench, on: tuple[str, ...]) -> None:
    if on:
        raise BenchError("the meter stays on the outlet and keeps the lowest volts; name no terminals")
    _unplugged(bench)


# ------------------------------------------------------------------ the others


def _no_place(_bench: UnitBench, on: tuple[str, ...]) -> None:
    if on:
        raise BenchError("this reading is of the whole unit; name no place")


def _watts(bench: UnitBench, _on: tuple[str, ...]) -> Shown:
    return bench.instruments.power.watts(bench.circuit), ()


def _power_factor(bench: UnitBench, _on: tuple[str, ...]) -> Shown:
    return bench.instruments.power.power_factor(bench.circuit), ()


def _energy(bench: UnitBench, _on: tuple[str, ...]) -> Shown:
    return bench.instruments.power.energy(bench.state.energy_j), ()


def _insulation(bench: UnitBench, on: tuple[str, ...]) -> Shown:
    if bench.state.plugged or any(terminal.startswith("outlet") for terminal in on):
        return stopped("stopped: the unit is plugged in"), (Hazard.INSULATION_TEST_ON_LIVE,)
    boards = bench.unit.wiring.of_kind(ComponentKind.INVERTER_BOARD)
    if any(board.name not in bench.state.removed or set(on) & set(board.terminals) for board in boards):
        return stopped("stopped: board connected"), (Hazard.INSULATION_TEST_ON_ELECTRONICS,)
    shown = bench.instruments.tester.read(bench.circuit, *on)
    return shown, (Hazard.INSULATION_TEST_ON_LIVE,) if math.isnan(shown.value) else ()


def _place(_bench: UnitBench, on: tuple[str, ...]) -> None:
    if len(on) != 1 or on[0] not in PLACES:
        raise BenchError(f"the thermometer can be put on {', '.join(PLACES)}")


def _temperature(bench: UnitBench, on: tuple[str, ...]) -> Shown:
    state = bench.state
    true_k = {
        "room": bench.unit.room_k,
        "shell": state.shell_k,
        "cabinet": state.cabinet_k,
        "evaporator": state.evaporator_k,
        "overload": state.overload_k,
    }[on[0]]
    return read_temperature(true_k, bench.instruments.error("temperature")), ()


def _component(bench: UnitBench, on: tuple[str, ...]) -> None:
    if len(on) != 1:
        raise BenchError("inspect one component at a time")
    bench.unit.wiring.component(on[0])


def _text(text: str) -> Display:
    return Display(text, math.nan, math.nan, math.nan)


def _inspect(bench: UnitBench, on: tuple[str, ...]) -> Shown:
    turns = fan_turns(bench.circuit, on[0]) if on[0] in bench.parts.fans else None
    return _text(label(bench.unit, bench.parts, bench.state, on[0], turns)), ()


def _listen(bench: UnitBench, _on: tuple[str, ...]) -> Shown:
    began = bench.state.at_s
    passed = bench.hear(LISTEN_S)
    bench.spend(LISTEN_S)
    heard = [f"{event.words} at {5 * round((event.at_s - began) / 5)} s" for event in passed.events]
    return _text("; ".join(heard) if heard else "nothing"), ()


def _may_start(bench: UnitBench, on: tuple[str, ...]) -> None:
    _no_place(bench, on)
    if bench.parts.motor is None:
        raise BenchError("an inverter compressor has no start winding: the start test is not for it")
    if bench.state.plugged:
        raise BenchError("pull the plug first: the test cord takes its place")
    on_pins = [c.name for c in bench.unit.wiring.of_kind(*ON_THE_PINS) if c.name not in bench.state.removed]
    if on_pins:
        raise BenchError(f"still wired to the pins: {', '.join(on_pins)}. Take these off before the start test")


def _start_test(bench: UnitBench, _on: tuple[str, ...]) -> Shown:
    if any(taken.shows_grounded for taken in bench.taken):
        return stopped("stopped: the winding is grounded"), (Hazard.STARTED_GROUNDED,)
    tested = start_test(bench.unit, bench.parts, bench.state, START_TEST_S)
    bench.state = tested.after
    bench.spend(START_TEST_S)
    shown = bench.instruments.clamp.amps(tested.amps)
    words = "starts and runs" if tested.runs else "does not start" if tested.most_amps > 0.05 else "nothing happens"
    return Display(f"{words}, {shown.text}", shown.value, shown.limit, shown.resolution), ()


READINGS: dict[str, Reading] = {
    **{
        f.value: _metered(f)
        for f in (
            Function.OHMS,
            Function.CONTINUITY,
            Function.VOLTS_AC,
            Function.VOLTS_AC_LOW,
            Function.VOLTS_DC,
            Function.CAPACITANCE,
            Function.AMPS_AC,
        )
    },
    "clamp": Reading(_conductor, lambda on: f"Clamp round {_wire(on[0])}", _clamp),
    "inrush": Reading(_held_conductor, lambda on: f"Plugged in, clamp on hold round {_wire(on[0])}", _inrush),
    "lowest volts": Reading(_held_plug, lambda _on: "Plugged in, lowest volts at the plug", _lowest_volts),
    "watts": Reading(_no_place, lambda _on: "Power meter, watts", _watts),
    "power factor": Reading(_no_place, lambda _on: "Power meter, power factor", _power_factor),
    "kilowatt-hours": Reading(_no_place, lambda _on: "Power meter, energy", _energy),
    "insulation": Reading(_two_terminals, lambda on: f"500 V d.c., {on[0]} to {on[1]}", _insulation),
    "temperature": Reading(_place, lambda on: f"Temperature, {on[0]}", _temperature),
    "inspect": Reading(_component, lambda on: f"A look at the {on[0]}", _inspect),
    "listen": Reading(_no_place, lambda _on: "Two minutes of listening", _listen),
    "start test": Reading(_may_start, lambda _on: "Start test with the devices bypassed, 3 s", _start_test),
}


def _wire(conductor: str) -> str:
    return "the whole cord" if conductor == CORD else f"the wire at {conductor}"


__all__ = ["HOLD_S", "READINGS", "Reading", "UnitInstruments"]
