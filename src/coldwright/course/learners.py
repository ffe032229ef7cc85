"""An invented class: scripted people who take readings on their own unit and answer as their profile would.

None of them sees the true unit. Each works from what the instruments showed, with one habit of its own, so that what
they hand in tests the whole way from bench to marks. The people and their habits are made up.
"""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.appliance.compressor import PINS
from coldwright.bench.compressor_bench import CompressorBench
from coldwright.electrical.measured import Measured
from coldwright.electrical.pins import Pattern, PinReadings, Pins, sum_rule
from coldwright.electrical.verdict import Verdict, judge_windings
from coldwright.electrical.windings import Conductor, resistance_at, temperature_rise
from coldwright.instruments.display import Display
from coldwright.labs.winding_checks.case import PAIR_NAMES, PAIRS

K = Conductor.COPPER.value


@dataclass(frozen=True)
class Habits:
    """How a person works at the bench. The default is the right way."""

    isolates: bool = True
    proves_dead: bool = True
    discharges: bool = True
    disconnects: bool = True
    zeroes: bool = True
    waits: bool = True
    breaks_vacuum: bool = True


@dataclass
class Notes:
    """What a person wrote down: what the instruments displayed, and the room in kelvin."""

    cold: dict[tuple[str, str], Display]
    hot: dict[tuple[str, str], Display]
    room_k: float
    insulation: dict[str, Measured]


def take_readings(bench: CompressorBench, habits: Habits) -> Notes:
    """Work through the winding checks on a bench and note what shows.

    Parameters
    ----------
    bench : CompressorBench
        The learner's own unit [-]
    habits : Habits
        How the person works [-]
    """
    if habits.isolates:
        bench.isolate()
    if habits.proves_dead:
        bench.volts_ac("L", "N")
    if habits.discharges:
        bench.discharge()
    if habits.disconnects:
        bench.disconnect()
    if habits.zeroes:
        bench.zero_leads()
    hot = {pair: _ohms(bench, pair) for pair in PAIRS}
    if habits.waits:
        bench.let_stand()
    cold = {pair: _ohms(bench, pair) for pair in PAIRS}
    room = bench.temperature("room").display
    assert room is not None
    if habits.breaks_vacuum:
        bench.break_vacuum()
    insulation = {}
    for pin in PINS:
        shown = bench.insulation(pin).display
        assert shown is not None
        if shown.value == shown.value:
            insulation[pin] = shown.measured
    return Notes(cold, hot, room.value, insulation)


def _ohms(bench: CompressorBench, pair: tuple[str, str]) -> Display:
    """A reading of a pair; with a ruined meter the person fetches another."""
    display = bench.ohms(*pair).display
    assert display is not None
    if display.value != display.value:
        bench.new_meter()
        return _ohms(bench, pair)
    return display


def lowest_pair(notes: Notes) -> tuple[str, str]:
    """The pair that read lowest, cold.

    Parameters
    ----------
    notes : Notes
        Readings [-]
    """
    return min(PAIRS, key=lambda pair: notes.cold[pair].value)


def largest(notes: Notes) -> Display:
    """The largest cold reading that is not over range.

    Parameters
    ----------
    notes : Notes
        Readings [-]
    """
    return max((d for d in notes.cold.values() if d.value < float("inf")), key=lambda d: d.value)


def rise_pair(notes: Notes) -> tuple[str, str]:
    """The pair that read both hot and cold; the one where the meter's limit weighs least.

    Parameters
    ----------
    notes : Notes
        Readings [-]
    """
    both = [p for p in PAIRS if max(notes.hot[p].value, notes.cold[p].value) < float("inf")]
    return min(both, key=lambda pair: notes.cold[pair].limit / notes.cold[pair].value)


def answers_from(bench: CompressorBench, notes: Notes) -> dict[str, str]:
    """The answers that right reasoning draws from the notes.

    Parameters
    ----------
    bench : CompressorBench
        The bench, for its data sheet [-]
    notes : Notes
        Readings [-]
    """
    readings = PinReadings({frozenset(pair): d.measured for pair, d in notes.cold.items()})
    data = bench.unit.plate.windings
    worst = min(notes.insulation.values(), key=lambda m: m.value, default=Measured(float("inf")))
    found = judge_windings(readings, notes.room_k, data, worst)
    answers = {name: notes.cold[pair].text for name, pair in PAIR_NAMES.items()}
    answers |= _pin_answers(found.pins)
    rule = sum_rule(readings)
    if data.is_inverter:
        answers["sum_rule"] = "does not apply"
    elif rule.holds is None:
        answers["sum_rule"] = "cannot be tested"
    else:
        answers["sum_rule"] = "holds" if rule.holds else "does not hold"
    answers["meter_limit"] = f"{largest(notes).limit:.4f} ohm"
    low = notes.cold[lowest_pair(notes)]
    answers["resistance_at_20"] = f"{resistance_at(low.value, notes.room_k):.4f} ohm"
    pair = rise_pair(notes)
    rise = temperature_rise(notes.cold[pair].value, notes.hot[pair].value, notes.room_k, notes.room_k)
    answers["temperature_rise"] = f"{rise:.1f} K"
    answers["insulation"] = "OL" if worst.is_open else f"{worst.value / 1e6:.3f} Mohm"
    answers["verdict"] = "" if found.verdict is Verdict.UNDECIDED else found.verdict.value
    return answers


def _pin_answers(pins: Pins) -> dict[str, str]:
    found = {"common": pins.common, "run": pins.run, "start": pins.start}
    otherwise = "none" if pins.pattern is Pattern.THREE_EQUAL else "cannot tell"
    return {role: pin or otherwise for role, pin in found.items()}
