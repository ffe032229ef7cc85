"""Scripted people for the lab on overloads: each works from what the instruments show, and some make one slip."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.overloads_answers import answers_from, average
from coldwright.course.people.overloads_notes import Notes
from coldwright.course.people.overloads_work import take_readings
from coldwright.electrical.windings import Conductor
from coldwright.labs.overloads.sheet import SHEET_C, trip_sheet
from coldwright.quantities.constants import ICE_POINT_K

Answers = dict[str, str]
Change = Callable[[UnitBench, Notes, Answers], Answers]
K = Conductor.COPPER.value


def right(bench: UnitBench) -> Answers:
    """The answers of a person who works by the book.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    return answers_from(bench, take_readings(bench))


def _slip(change: Change, zeroes: bool = True) -> Callable[[UnitBench], Answers]:
    """A person who works well and makes one slip in what they write down."""

    def works(bench: UnitBench) -> Answers:
        notes = take_readings(bench, zeroes)
        answers = answers_from(bench, notes)
        return {**answers, **change(bench, notes, answers)}

    return works


def _says(name: str, word: str) -> Change:
    return lambda _bench, _notes, _answers: {name: word}


def _swapped(_bench: UnitBench, _notes: Notes, answers: Answers) -> Answers:
    return {"on_seconds": answers["off_seconds"], "off_seconds": answers["on_seconds"]}


def _hum_watts(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"average_watts": f"{notes.watts_on:.1f} W"}


def _shares_swapped(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"average_watts": f"{average(notes.watts_off, notes.watts_on, notes.on_s, notes.off_s):.1f} W"}


def _running(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"start_amps": f"{notes.running_a:.3f} A"} if notes.running_a is not None else {}


def _not_squared(bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    if notes.grounded:
        return {}
    sheet = trip_sheet(bench.unit.cooler)
    return {"trip_estimate": f"{sheet.seconds * sheet.amps / max(notes.start_a, 0.001):.2f} s"}


def _upside_down(bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    if notes.grounded:
        return {}
    sheet = trip_sheet(bench.unit.cooler)
    return {"trip_estimate": f"{sheet.seconds * (notes.start_a / sheet.amps) ** 2:.2f} s"}


def _no_root(bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    sheet = trip_sheet(bench.unit.cooler)
    left = sheet.trip_k - sheet.around(notes.shell_k, notes.room_k)
    return {"ultimate_amps": f"{sheet.ultimate_a * left / (sheet.trip_k - ICE_POINT_K - SHEET_C):.3f} A"}


def _room_alone(bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"ultimate_amps": f"{trip_sheet(bench.unit.cooler).ultimate(notes.room_k):.3f} A"}


def _fahrenheit(kelvin: float) -> float:
    return (kelvin - ICE_POINT_K) * 9 / 5 + 32


def _fahrenheit_around(bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    sheet = trip_sheet(bench.unit.cooler)
    around_f = _fahrenheit(sheet.around(notes.shell_k, notes.room_k))
    return {"ultimate_amps": f"{sheet.ultimate(ICE_POINT_K + around_f):.3f} A"}


def _rise(_bench: UnitBench, notes: Notes, answers: Answers) -> Answers:
    hot_c = float(answers["winding_hot"].removesuffix(" °C"))
    return {"winding_hot": f"{hot_c - (notes.room_k - ICE_POINT_K):.1f} °C"}


def _fahrenheit_room(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"winding_hot": f"{notes.hot.value / notes.cold.value * (K + _fahrenheit(notes.room_k)) - K:.1f} °C"}


def _as_read(_bench: UnitBench, _notes: Notes, _answers: Answers) -> Answers:
    return {}


def _in_circuit(_bench: UnitBench, notes: Notes, _answers: Answers) -> Answers:
    return {"overload_ohms": notes.overload_in_place.text}


def _beeper(bench: UnitBench, _notes: Notes, _answers: Answers) -> Answers:
    shown = bench.perform("continuity", ("plug E", "cabinet metal")).display
    assert shown is not None
    return {"earth_ohms": shown.text.partition(",")[0]}


def _multimeter(bench: UnitBench, _notes: Notes, _answers: Answers) -> Answers:
    shown = bench.perform("ohms", ("plug L", "cabinet metal")).display
    assert shown is not None
    return {"insulation": shown.text}


SLIPS: Mapping[str, Callable[[UnitBench], Answers]] = {
    "times swapped": _slip(_swapped),
    "watts while on for the average": _slip(_hum_watts),
    "on and off swapped in the average": _slip(_shares_swapped),
    "running amps for starting amps": _slip(_running),
    "trip time without the square": _slip(_not_squared),
    "trip time upside down": _slip(_upside_down),
    "square root forgotten": _slip(_no_root),
    "room alone": _slip(_room_alone),
    "degrees Fahrenheit round the overload": _slip(_fahrenheit_around),
    "rise for temperature": _slip(_rise),
    "degrees Fahrenheit in the formula": _slip(_fahrenheit_room),
    "leads not zeroed": _slip(_as_read, zeroes=False),
    "overload read in its place": _slip(_in_circuit),
    "read while hot": _slip(_says("overload_ohms", "OL")),
    "hot overload condemned": _slip(_says("fault", "overload open")),
    "overload blamed for its duty": _slip(_says("fault", "overload weak")),
    "seized without a start test": _slip(_says("fault", "seized rotor")),
    "seized for an open winding": _slip(_says("fault", "seized rotor")),
    "ground fault missed": _slip(_says("fault", "no fault")),
    "overload bridged": _slip(_says("remedy", "bridge the overload")),
    "new overload for its duty": _slip(_says("remedy", "fit a new overload")),
    "earth by the beeper": _slip(_beeper),
    "insulation by the multimeter": _slip(_multimeter),
}
