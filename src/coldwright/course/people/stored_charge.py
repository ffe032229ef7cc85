"""Scripted people for lab 01: one works right, each other one works right but for one slip.

They see what the instruments show and what stands on the work order, never the true parts.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.stored_charge_work import Answers, Notes, answers_from, take_notes
from coldwright.electrical.capacitor import parallel, series


def right(bench: UnitBench) -> Answers:
    """Answers of a person who works by the book.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    return answers_from(take_notes(bench))


Change = Callable[[Notes, Answers], Answers]
HEAT = ("bleed_watts",)


def _slip(change: Change) -> Callable[[UnitBench], Answers]:
    """Works right and makes one slip in what is written down."""

    def works(bench: UnitBench) -> Answers:
        notes = take_notes(bench)
        answers = answers_from(notes)
        return {**answers, **change(notes, answers)}

    return works


def _says(name: str, word: str) -> Change:
    return lambda _notes, _answers: {name: word}


def _times(factor: float, *names: str) -> Change:
    """Numbers that come out too large or too small by a factor; what is no number stays."""

    def change(_notes: Notes, answers: Answers) -> Answers:
        found = {}
        for name in names:
            number, blank, unit = answers[name].partition(" ")
            if blank:
                found[name] = f"{float(number) * factor:.5g} {unit}"
        return found

    return change


def _rms(notes: Notes, _answers: Answers) -> Answers:
    """All with the RMS volts, but for the watts of a resistor on a.c., where they are right."""
    lower = replace(notes, peak=notes.peak / math.sqrt(2))
    kept = ("volts_left", "lead", "ohms_across", "condition", "energy_two", *(() if notes.store == "board" else HEAT))
    return {name: text for name, text in answers_from(lower).items() if name not in kept}


def _not_squared(notes: Notes, _answers: Answers) -> Answers:
    return {
        "energy": f"{0.5 * notes.farad * notes.peak:.5g} J",
        "energy_two": f"{0.5 * notes.joined * notes.pair_volts:.5g} J",
    }


def _time_constant(notes: Notes, _answers: Answers) -> Answers:
    alone = {} if math.isinf(notes.ohm) else {"time_alone": f"{notes.ohm * notes.farad:.5g} s"}
    return {
        "high_lead_time": f"{max(notes.leads.values())[0] * notes.farad:.5g} s",
        "bleed_ohm": f"{60 / notes.farad:.5g} ohm",
        **alone,
    }


def _log_ten(notes: Notes, answers: Answers) -> Answers:
    ten = math.log(10)
    return {
        **_times(1 / ten, "high_lead_time", "time_alone")(notes, answers),
        **_times(ten, "bleed_ohm")(notes, answers),
    }


def _two(join: Callable[[tuple[float, float]], float]) -> Change:
    return lambda notes, _answers: {"energy_two": f"{0.5 * join(notes.pair) * notes.pair_volts**2:.5g} J"}


def _lead(pick: Callable[..., tuple[float, float]]) -> Change:
    """Takes the lead with the fewest or the most ohms."""

    def change(notes: Notes, _answers: Answers) -> Answers:
        picked = pick(notes.leads.values())
        return {"lead": next(letter for letter, lead in notes.leads.items() if lead == picked)}

    return change


def _in_circuit(bench: UnitBench) -> Answers:
    """Writes down the ohms that showed before the capacitor came off."""
    notes = take_notes(bench, wired=True)
    answers = answers_from(notes)
    if notes.wired_ohm is None or math.isinf(notes.wired_ohm.value):
        return answers
    return {**answers, "ohms_across": f"{notes.wired_ohm.value:.6g} ohm"}


def _joules(_notes: Notes, answers: Answers) -> Answers:
    return {"low_lead_watts": answers["energy"].replace("J", "W")}


SLIPS: Mapping[str, Callable[[UnitBench], Answers]] = {
    "plug out taken for empty": _slip(_says("volts_left", "0 V")),
    "RMS for peak": _slip(_rms),
    "peak for the heat": _slip(_times(2.0, *HEAT)),
    "half forgotten": _slip(_times(2.0, "energy", "energy_two")),
    "volts not squared": _slip(_not_squared),
    "a thousand off in the capacitance": _slip(_times(1e-3, "charge", "energy")),
    "joules for watts": _slip(_joules),
    "time constant taken for safe": _slip(_time_constant),
    "logarithm to ten": _slip(_log_ten),
    "ohms in circuit": _in_circuit,
    "series for parallel": _slip(_two(series)),
    "parallel for series": _slip(_two(parallel)),
    "screwdriver": _slip(_says("lead", "screwdriver")),
    "lead too weak": _slip(_lead(min)),
    "lead too slow": _slip(_lead(max)),
    "bleed resistor trusted": _slip(_says("condition", "in order")),
    "leak not seen": _slip(_says("condition", "in order")),
    "low value not seen": _slip(_says("condition", "in order")),
    "bleed resistor taken for a leak": _slip(_says("condition", "leaky")),
    "open taken for missing": _slip(_says("condition", "bleed resistor missing")),
    "missing taken for open": _slip(_says("condition", "bleed resistor open")),
    "none fitted taken for missing": _slip(_says("condition", "bleed resistor missing")),
}
