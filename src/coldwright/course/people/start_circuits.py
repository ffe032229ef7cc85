"""Scripted people for lab 04: one works right, each other one works right but for one slip."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.start_circuits_work import Notes, Person
from coldwright.instruments.display import Display
from coldwright.labs.start_circuits.remedies import FOUND
from coldwright.labs.start_circuits.solutions import sag_limit

Answers = dict[str, str]
Change = Callable[[UnitBench, Notes, Answers], Answers]
LOW_BELOW = 0.9  # of the rated volts: common practice, no source
RULES = {
    "Resistance start with a current relay": ("open", "the run amps fall", "relay"),
    "Capacitor start with a current relay": ("open", "the run amps fall", "relay"),
    "Capacitor start and capacitor run with a potential relay": ("closed", "the start volts rise", "relay"),
    "Resistance start with a PTC": ("low ohms", "it heats up", "PTC"),
    "Frost-free, PTC start with a run capacitor": ("low ohms", "it heats up", "PTC"),
    "Resistance start with a solid-state switch": ("open", "its time is over", "start switch"),
    "Permanent capacitor": ("no device", "it never does", ""),
}


def amps(display: Display) -> str:
    """What a clamp showed, as an answer.

    Parameters
    ----------
    display : Display
        What showed [-]
    """
    return display.text.replace(" a.c.", "")


def answers_from(bench: UnitBench, notes: Notes) -> Answers:
    """The answers that right reasoning draws from the notes.

    Parameters
    ----------
    bench : UnitBench
        The bench, for its plate [-]
    notes : Notes
        Readings and the diagnosis [-]
    """
    rest, lets_go, _ = RULES[bench.unit.wiring.title]
    part, wrong, component = FOUND[notes.diagnosis] if notes.diagnosis is not None else ("", "", "")
    assert notes.lowest_volts is not None
    low = notes.rest_volts.value < LOW_BELOW * bench.unit.cooler.volts
    return {
        "at_rest": rest,
        "lets_go": lets_go,
        "found_amps": amps(notes.found_amps),
        "part": part,
        "wrong": wrong,
        "remedy": _remedy(part, wrong, component),
        **{name: amps(shown) for name, shown in notes.start.items()},
        "running_line": amps(notes.running["running_line"]) if notes.running else "does not run",
        "running_start": amps(notes.running["running_start"]) if notes.running else "does not run",
        "source_ohm": _source(notes),
        "supply": "too low" if low else "in order",
    }


def _remedy(part: str, wrong: str, component: str) -> str:
    if wrong == "upside down":
        return "relay upright"
    if component:
        return f"new {component}"
    return {"none": "nothing", "supply": "put the supply right", "": ""}.get(part, "new compressor")


def _volts(notes: Notes) -> tuple[float, float]:
    assert notes.lowest_volts is not None
    return notes.rest_volts.value, notes.lowest_volts.value


def _start_line(notes: Notes) -> float:
    assert notes.line_amps is not None
    return notes.line_amps.value


def _source(notes: Notes) -> str:
    rest, low = _volts(notes)
    if rest - low <= sag_limit(rest, low):
        return "cannot tell"
    return f"{(rest - low) / _start_line(notes):.4f} ohm"


def right(bench: UnitBench) -> Answers:
    """Answers of a person who works by the book.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    return answers_from(bench, Person(bench).work())


def _slip(change: Change) -> Callable[[UnitBench], Answers]:
    """Works right and makes one slip in what is written down."""

    def works(bench: UnitBench) -> Answers:
        notes = Person(bench).work()
        answers = answers_from(bench, notes)
        return {**answers, **change(bench, notes, answers)}

    return works


def _says(name: str, word: str) -> Change:
    return lambda _bench, _notes, _answers: {name: word}


def _clamp_round_cord(bench: UnitBench) -> Answers:
    """Puts the clamp round the whole cord first, writes that down, and works right from then on."""
    person = Person(bench)
    shown = person.read("inrush", "cord")
    bench.perform("isolate")
    bench.perform("wait", ("12 h",))
    return {**answers_from(bench, person.work()), "found_amps": amps(shown)}


def _plate_running(bench: UnitBench, _notes: Notes, _answers: Answers) -> Answers:
    return {"found_amps": f"{bench.unit.plate.running_a:.2f} A"}


def _start_for_running(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"running_line": f"{_start_line(notes):.2f} A"}


def _added(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"start_common": f"{notes.start['start_run'].value + notes.start['start_start'].value:.3f} A"}


def _swapped(_bench: UnitBench, _notes: Notes, answers: Answers) -> Answers:
    return {"start_run": answers["start_start"], "start_start": answers["start_run"]}


def _over_running(bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    rest, low = _volts(notes)
    taken = notes.running["running_line"].value if notes.running else bench.unit.plate.running_a
    return {"source_ohm": f"{(rest - low) / taken:.4f} ohm"}


def _whole_volts(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"source_ohm": f"{_volts(notes)[0] / _start_line(notes):.4f} ohm"}


def _blames_device(bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    device = RULES[bench.unit.wiring.title][2]
    return {"part": device} if notes.diagnosis is FaultName.SEIZED and device else {}


SLIPS: Mapping[str, Callable[[UnitBench], Answers]] = {
    "clamp round the cord": _clamp_round_cord,
    "running amps for start amps": _slip(_plate_running),
    "start amps for running amps": _slip(_start_for_running),
    "amps simply added": _slip(_added),
    "run and start swapped": _slip(_swapped),
    "sag divided by running amps": _slip(_over_running),
    "whole volts divided": _slip(_whole_volts),
    "sag taken for a bad supply": _slip(_says("supply", "too low")),
    "low supply not seen": _slip(_says("supply", "in order")),
    "current relay thought closed at rest": _slip(_says("at_rest", "closed")),
    "potential relay thought open at rest": _slip(_says("at_rest", "open")),
    "current relay condemned for an open contact": _slip(_says("wrong", "contact stuck open")),
    "potential relay condemned for a closed contact": _slip(_says("wrong", "contact welded")),
    "hot PTC condemned": _slip(_says("wrong", "open")),
    "pick-up not read": _slip(_says("wrong", "contact stuck open")),
    "seized rotor taken for the start device": _slip(_blames_device),
}
