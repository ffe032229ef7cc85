"""Scripted people for lab 05: one works right, each other one works right but for one slip.

They see what the instruments show and what stands on the work order and the nameplate, never the true parts.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.capacitors_work import (
    Answers,
    Notes,
    answers_from,
    microfarads,
    prove_dead,
    under_load,
    why_not,
    work,
)
from coldwright.electrical.capacitor import parallel, reactance, series, series_volts
from coldwright.electrical.capacitor_rule import ToleranceClass


def right(bench: UnitBench) -> Answers:
    """Answers of a person who works by the book.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    return answers_from(work(bench))


def _slip(change: Callable[[Notes, Answers], Answers]) -> Callable[[UnitBench], Answers]:
    """Works right and makes one slip in what is written down."""

    def works(bench: UnitBench) -> Answers:
        notes = work(bench)
        answers = answers_from(notes)
        return {**answers, **change(notes, answers)}

    return works


def _in_circuit(bench: UnitBench) -> Answers:
    """Reads it once more while it is still wired in, before it comes off, and writes that down."""
    prove_dead(bench)
    name = "start capacitor" if "check the start capacitor" in bench.look() else "run capacitor"
    bench.perform("discharge", (name,))
    shown = bench.perform("capacitance", (f"{name} 1", f"{name} 2")).display
    assert shown is not None
    return {**answers_from(work(bench)), "capacitance": shown.text.split(" after")[0]}


def _loaded(notes: Notes, volts: float | None, hertz: float) -> Answers:
    readings = notes.order.load or notes.at_work
    if readings is None:
        return {}
    return {"under_load": microfarads(under_load((volts or readings[0], readings[1]), hertz))}


def _other_frequency(notes: Notes, _answers: Answers) -> Answers:
    return _loaded(notes, None, 110.0 - notes.order.hertz)


def _supply(notes: Notes, _answers: Answers) -> Answers:
    if notes.at_work is None:
        return {}
    supply = notes.order.supply
    return {**_loaded(notes, supply, notes.order.hertz), "volts_in_service": f"{supply:.0f} V"}


def _other_class(notes: Notes, _answers: Answers) -> Answers:
    start = notes.order.tolerance is ToleranceClass.START_20
    low, high = (ToleranceClass.RUN_5 if start else ToleranceClass.START_20).band(notes.order.farad)
    return {"lowest_allowed": microfarads(low), "highest_allowed": microfarads(high)}


def _always(join: Callable[[tuple[float, float]], float]) -> Callable[[Notes, Answers], Answers]:
    return lambda notes, _answers: {"made_up": microfarads(join(notes.order.pair))}


def _on_p(share: Callable[[Notes], float]) -> Callable[[Notes, Answers], Answers]:
    return lambda notes, _answers: {"volts_on_p": f"{share(notes):.4g} V"}


def _takes(name: str, other: str) -> Callable[[Notes, Answers], Answers]:
    return lambda _notes, answers: {name: answers[other]}


def _reactance_left_out(notes: Notes, answers: Answers) -> Answers:
    """Sizes with the start winding taken as a resistance alone."""
    order = notes.order
    found = {}
    for name in ("quadrature", "most_torque", "most_torque_per_amp"):
        ohm = reactance(float(answers[name].split()[0]) * 1e-6, order.hertz) - order.start.imag
        found[name] = microfarads(under_load((ohm, 1.0), order.hertz))
    return found


def _plain_sum(notes: Notes, _answers: Answers) -> Answers:
    order = notes.order
    if notes.at_work is not None:
        return {}
    ohm = reactance(order.farad, order.hertz)
    return {"volts_in_service": f"{order.supply * ohm / (abs(order.start) + ohm):.1f} V"}


def _writes_spare(reason: str) -> Callable[[Notes, Answers], Answers]:
    """Writes down a spare although it breaks a rule; fits the right one all the same."""

    def change(notes: Notes, answers: Answers) -> Answers:
        order = notes.order
        broken = [letter for letter in order.shelf if reason in "; ".join(why_not(order, letter))]
        return {"part": broken[0]} if broken and answers["part"] != "none" else {}

    return change


def _replaces_all(notes: Notes, _answers: Answers) -> Answers:
    return {"part": next(letter for letter in notes.order.shelf if not why_not(notes.order, letter))}


def _says(word: str) -> Callable[[Notes, Answers], Answers]:
    return lambda _notes, _answers: {"condition": word}


def _share_of_second(notes: Notes) -> float:
    return series_volts(notes.order.pair, notes.order.volts)[1]


SLIPS: Mapping[str, Callable[[UnitBench], Answers]] = {
    "read in circuit": _in_circuit,
    "figure of the other frequency": _slip(_other_frequency),
    "supply volts for the capacitor's": _slip(_supply),
    "tolerance of the other type": _slip(_other_class),
    "series for parallel": _slip(_always(series)),
    "parallel for series": _slip(_always(parallel)),
    "volts shared in parallel": _slip(_on_p(lambda notes: notes.order.volts / 2)),
    "whole volts in series": _slip(_on_p(lambda notes: notes.order.volts)),
    "equal shares in series": _slip(_on_p(lambda notes: notes.order.volts / 2)),
    "shares swapped": _slip(_on_p(_share_of_second)),
    "quadrature for most torque": _slip(_takes("most_torque", "quadrature")),
    "most torque for torque per amp": _slip(_takes("most_torque_per_amp", "most_torque")),
    "start winding's reactance left out": _slip(_reactance_left_out),
    "ohms added as plain numbers": _slip(_plain_sum),
    "lower voltage accepted": _slip(_writes_spare("it is for ")),
    "other type accepted": _slip(_writes_spare(" capacitor")),
    "other value accepted": _slip(_writes_spare("may have")),
    "other frequency accepted": _slip(_writes_spare("not marked")),
    "bleed resistor not missed": _slip(_writes_spare("has no bleed")),
    "good one replaced": _slip(_replaces_all),
    "capacitance alone trusted": _slip(_says("good")),
    "own label trusted": _slip(_says("good")),
    "marked volts not compared": _slip(_says("good")),
    "bleed resistor taken for a leak": _slip(_says("leaky")),
}
