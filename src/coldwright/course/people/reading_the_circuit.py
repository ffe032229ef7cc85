"""Scripted people for lab 02: one who works right, and one for each slip. They see what instruments show, no more."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.reading_the_circuit_work import Answers, Notes, Person, ohms_text
from coldwright.labs.reading_the_circuit.joint import ENDS


def right(bench: UnitBench) -> Answers:
    """Answers of a person who measures and reasons right.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    return Person(bench).job()


def _says(name: str, word: str) -> Callable[[UnitBench], Answers]:
    return lambda bench: {**right(bench), name: word}


def _timer_skipped(bench: UnitBench) -> Answers:
    return {**right(bench), "after_thermostat": "overload 1", "fan_path": "thermostat"}


def _parallel(bench: UnitBench) -> Answers:
    person = Person(bench, reads_wired=True)
    answers = person.job()
    return {**answers, "fan_ohms": ohms_text(person.notes.shown["wired fan"])}


def _worked_out(name: str, number: Callable[[Notes], float], unit: str) -> Callable[[UnitBench], Answers]:
    """A person who works one answer out in a wrong way from right readings."""

    def works(bench: UnitBench) -> Answers:
        person = Person(bench)
        answers = person.job()
        if name == "heater_watts" and not math.isfinite(_heater(person.notes)):
            return answers
        return {**answers, name: f"{number(person.notes):.5g} {unit}"}

    return works


def _heater(notes: Notes) -> float:
    return notes.value("heater") if "heater" in notes.shown else math.inf


def _no_heater(bench: UnitBench) -> Answers:
    answers = right(bench)
    return {**answers, "heater_watts": "none"} if answers["heater_ohms"] == "OL" else answers


def _other_end(bench: UnitBench) -> Answers:
    """Names the first other end of the same wire that the answer can take."""
    answers = right(bench)
    line = next(net for net in bench.unit.wiring.nets.values() if answers["joint"] in net)
    others = [end for end in line if end in ENDS and end != answers["joint"]]
    return {**answers, "joint": others[0]} if others else answers


def _other_timer(bench: UnitBench) -> Answers:
    answers = right(bench)
    return {**answers, "timer_joins": {"timer 2": "timer 4", "timer 4": "timer 2"}.get(answers["timer_joins"], "none")}


def _other_way(bench: UnitBench) -> Answers:
    answers = right(bench)
    return {**answers, "terminator_cold": {"open": "closed", "closed": "open"}.get(answers["terminator_cold"], "none")}


SLIPS: Mapping[str, Callable[[UnitBench], Answers]] = {
    "timer skipped": _timer_skipped,
    "wrong side of the switch": _says("after_thermostat", "door switch 1"),
    "door switch put in the fan's path": _says("fan_path", "thermostat and door switch"),
    "no volts taken for a dead part": _says("thermostat_contact", "open"),
    "supply volts taken for good": _says("thermostat_contact", "closed"),
    "no supply behind the reading": _says("thermostat_contact", "closed"),
    "parallel path": _parallel,
    "timer contact mixed up": _other_timer,
    "terminator the wrong way round": _other_way,
    "volts over ohms for watts": _worked_out("heater_watts", lambda n: n.value("supply") / n.value("heater"), "W"),
    "volts times ohms for watts": _worked_out("heater_watts", lambda n: n.value("supply") * n.value("heater"), "W"),
    "heater taken for not there": _no_heater,
    "other end of the wire": _other_end,
    "drop read without load": _says("joint_volts", "0 V"),
    "drop read to neutral": _worked_out("joint_volts", lambda n: n.value("supply"), "V"),
    "watts of the whole load": _worked_out("joint_watts", lambda n: n.value("supply") * n.value("amps"), "W"),
    "volts over amps for watts": _worked_out("joint_watts", lambda n: n.value("drop") / n.value("amps"), "W"),
    "stuck timer named as thermostat": _says("component", "thermostat"),
    "heater blamed for no heat": _says("component", "heater"),
    "lamp blamed for the dark": _says("component", "lamp"),
    "compressor blamed for no cold": _says("component", "compressor"),
    "seized fan called open": _says("wrong", "open"),
    "open fan called seized": _says("wrong", "seized"),
    "drifted thermostat called stuck": _says("wrong", "stuck open"),
}
