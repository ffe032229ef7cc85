"""Lab 06, the way of working: a grounded motor stays dead, a repair is made and proved, one slip costs one slip."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache

import pytest

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.hazards import Hazard
from coldwright.bench.replay import Replay
from coldwright.bench.unit_acts import LISTEN_S
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.overloads import SLIPS, right
from coldwright.instruments.power_meter import Quantity, limit_of_power_meter
from coldwright.labs.overloads.evidence import LONG_ENOUGH
from coldwright.labs.overloads.needs import NOT_ZEROED, UNFAIR
from coldwright.labs.overloads.truth import Truth
from coldwright.labs.overloads.unit import WEAK_KITCHEN_C, chosen_unit, draw_unit
from coldwright.labs.ticket import Ticket, practice_ticket
from coldwright.labs.unit_case import proof_after_repair
from coldwright.labs.unit_draw import arrived_running
from coldwright.marking.judge import NO_READING, judge
from coldwright.marking.marks import Mark, Standing
from coldwright.quantities.constants import ICE_POINT_K
from tests.labs.scripted import Scripted

SCRIPTED = Scripted("overloads")
LAB, KEY, bench_for = SCRIPTED.lab, SCRIPTED.key, SCRIPTED.bench_for
F = FaultName


@lru_cache(maxsize=64)
def ticket_with(fault: FaultName, model: str = "", number: int = 0) -> Ticket:
    """The first ticket that draws a fault, on a model if one is named."""
    while True:
        ticket = practice_ticket("overloads worked", number)
        unit = chosen_unit(ticket.seed_bytes)
        if unit.fault.name is fault and model in ("", unit.cooler.model):
            return ticket
        number += 1


def marked(ticket: Ticket, answers: dict[str, str], bench: UnitBench) -> dict[str, Mark]:
    """The marks of a bench's job sheet, by name."""
    return {m.name: m for m in judge(LAB, KEY, answers, ticket, bench.sheet_text()).marks}


def short_of(marks: dict[str, Mark]) -> set[str]:
    """Names of what did not get its marks."""
    return {name for name, mark in marks.items() if mark.points != mark.max_points}


def again(ticket: Ticket, lines: list[tuple[str, tuple[str, ...]]]) -> UnitBench:
    """A bench with these acts done on it."""
    bench = bench_for(ticket)
    for act, on in lines:
        bench.perform(act, on)
    return bench


def acts_of(bench: UnitBench) -> list[tuple[str, tuple[str, ...]]]:
    """What stands on a job sheet."""
    return [(line.act, line.on) for line in bench.lines]


def test_a_grounded_motor_need_not_be_started():
    """Below 2 MΩ from a pin to the shell: no start test and no start amps are asked for, and all 20 marks are given."""
    ticket = ticket_with(F.GROUNDED)
    bench = bench_for(ticket)
    answers = right(bench)
    done = {line.act for line in bench.lines}
    assert not {"start test", "inrush", "plug in"} & done
    assert answers["start_test"] == answers["start_amps"] == "not done: grounded"
    assert short_of(marked(ticket, answers, bench)) == set()


def test_a_start_of_a_motor_found_grounded_is_a_hazard():
    """After that reading the start test is stopped and costs the mark for no hazard; before it, it is none."""
    ticket = ticket_with(F.GROUNDED)
    bench = bench_for(ticket)
    answers = right(bench)
    acts = acts_of(bench)
    found = acts.index(("insulation", ("pin C", "shell")))
    before = again(ticket, [*acts[:found], ("start test", ()), *acts[found:]])
    assert not before.hazards
    assert marked(ticket, answers, before)["no_hazard"].points == 1
    after = again(ticket, [*acts[: found + 1], ("start test", ()), *acts[found + 1 :]])
    assert {hazard for _, hazard in after.hazards} == {Hazard.STARTED_GROUNDED}
    assert short_of(marked(ticket, answers, after)) == {"no_hazard"}


def test_a_grounded_unit_that_gets_power_again_loses_its_proof():
    """Failed insulation is no proof, and power after that reading costs the mark; nothing else does."""
    ticket = ticket_with(F.GROUNDED)
    bench = bench_for(ticket)
    answers = right(bench)
    case = LAB.make_case(ticket, Replay(bench))
    assert proof_after_repair(case.sheet) == {"earth": True, "insulation": False, "polarity": True}
    bench.perform("plug in")
    assert short_of(marked(ticket, answers, bench)) == {"proof"}


def test_not_done_is_wrong_where_nothing_is_grounded():
    """The words for a grounded winding earn nothing on a sound one."""
    ticket = ticket_with(F.NONE)
    bench = bench_for(ticket)
    answers = {**right(bench), "start_test": "not done: grounded", "start_amps": "not done: grounded"}
    assert short_of(marked(ticket, answers, bench)) == {"start_test", "start_amps"}


@pytest.mark.parametrize("fault", [F.NONE, F.CONDENSER_FAN_OPEN, F.GROUNDED])
def test_watts_of_a_unit_that_runs_are_what_the_bench_shows(fault):
    """The key's watts without a reading lie within the power meter's accuracy of the first reading on the bench."""
    ticket = ticket_with(fault)
    if draw_unit(ticket.seed_bytes).arrival.speed <= 0:
        pytest.skip("it stands at this moment")
    shown = bench_for(ticket).perform("watts").display
    told = Truth(ticket.seed_bytes, draw_unit(ticket.seed_bytes)).watts_on
    assert told == pytest.approx(shown.value, abs=sum(limit_of_power_meter(Quantity.WATTS, shown.value)))


@pytest.mark.parametrize("model", ["Tarn 14", "Tarn 24"])
def test_a_sound_unit_runs_again_after_ten_minutes(model):
    """Plug pulled from the run it came in with, twice five minutes, plugged in again: it runs, as no fault should."""
    ticket = ticket_with(F.NONE, model)
    bench = again(ticket, [("isolate", ()), ("wait", ("5 min",)), ("wait", ("5 min",)), ("inrush", ("pin C",))])
    assert bench.state.speed > 0


@pytest.mark.parametrize("fault", [F.OVERLOAD_WRONG, F.CONDENSER_FAN_SEIZED, F.RELAY_STUCK_OPEN])
def test_a_repair_must_be_made_and_tried(fault):
    """Old parts back: no mark for the repair. The right part without a try: neither. A part too many: neither."""
    ticket = ticket_with(fault)
    bench = bench_for(ticket)
    answers = right(bench)
    assert short_of(marked(ticket, answers, bench)) == set()
    acts = acts_of(bench)
    untried = acts[: acts.index(("plug in", ()))]
    assert short_of(marked(ticket, answers, again(ticket, untried))) == {"repaired"}
    fit = next(act for act in acts if act[0] == "fit")
    old = [("put back", act[1]) if act == fit else act for act in acts]
    lost = short_of(marked(ticket, answers, again(ticket, old)))
    assert "repaired" in lost
    assert lost <= {"repaired", "proof", "insulation"}
    more = [*acts[: acts.index(fit)], ("take off", ("lamp",)), ("fit", ("lamp",)), *acts[acts.index(fit) :]]
    assert "repaired" in short_of(marked(ticket, answers, again(ticket, more)))


def test_nothing_is_fitted_where_nothing_failed():
    """A new overload on a sound unit costs the mark for the repair."""
    ticket = ticket_with(F.NONE)
    bench = bench_for(ticket)
    answers = right(bench)
    acts = acts_of(bench)
    proof = next(n for n, act in enumerate(acts) if act[0] == "ohms" and "plug E" in act[1])
    swapped = [*acts[:proof], ("take off", ("overload",)), ("fit", ("overload",)), *acts[proof:]]
    assert short_of(marked(ticket, answers, again(ticket, swapped))) == {"repaired"}


@pytest.mark.parametrize("fault", [F.SEIZED, F.RELAY_WELDED, F.OVERLOAD_OPEN, F.LOW_SUPPLY, F.NONE])
def test_a_verdict_needs_its_evidence(fault):
    """Right words for fault and remedy with nothing but listening on the sheet: no reading stands behind them."""
    ticket = ticket_with(fault)
    answers = right(bench_for(ticket))
    marks = marked(ticket, answers, again(ticket, [("listen", ())]))
    for name in ("fault", "remedy"):
        assert (marks[name].standing, marks[name].points) == (Standing.NO_READING, 0), name
        assert marks[name].sentence == NO_READING


@pytest.mark.parametrize("fault", [F.OVERLOAD_OPEN, F.SEIZED])
def test_leads_that_were_not_zeroed_cost_their_own_marks_alone(fault):
    """The mark for zeroing and the numbers with the leads in them are lost; OL counts, and so does the rest."""
    ticket = ticket_with(fault)
    bench = bench_for(ticket)
    answers = SLIPS["leads not zeroed"](bench)
    marks = marked(ticket, answers, bench)
    assert "zeroed" in short_of(marks)
    assert short_of(marks) <= {"zeroed", "winding_hot", "overload_ohms", "earth_ohms"}
    assert ("overload_ohms" in short_of(marks)) is (fault is not F.OVERLOAD_OPEN)
    assert all(marks[name].points == 1 for name in ("proved_dead", "no_hazard", "proof", "repaired"))
    wrong = marked(ticket, {**answers, "earth_ohms": "3.3 ohm"}, bench)
    assert wrong["earth_ohms"].sentence == NOT_ZEROED


def test_a_reading_that_is_not_fair_is_told_as_one():
    """The overload read in its place only: what was read is not denied, but asked for again."""
    ticket = ticket_with(F.SEIZED)
    read = [("isolate", ()), ("zero leads", ()), ("ohms", ("overload 1", "overload 2"))]
    answers = {"overload_ohms": right(bench_for(ticket))["overload_ohms"]}
    mark = marked(ticket, answers, again(ticket, read))["overload_ohms"]
    assert (mark.standing, mark.sentence) == (Standing.NO_READING, UNFAIR["overload"])
    none = marked(ticket, answers, again(ticket, read[:2]))["overload_ohms"]
    assert none.sentence == NO_READING


def test_a_wrong_answer_without_a_reading_is_not_called_wrong_for_the_unit():
    """A number that hits nothing and has no reading behind it is told to take the reading."""
    ticket = ticket_with(F.SEIZED)
    mark = marked(ticket, {"start_amps": "55.5 A"}, again(ticket, [("listen", ())]))["start_amps"]
    assert (mark.standing, mark.sentence) == (Standing.NO_READING, NO_READING)


@pytest.mark.parametrize("model", ["Tarn 11", "Tarn 21", "Tarn 14", "Tarn 24"])
def test_ten_minutes_without_a_click_are_enough(model):
    """The weakest overload in the hottest kitchen that a ticket draws clicks more often than every ten minutes."""
    ticket = ticket_with(F.OVERLOAD_WEAK, model)
    unit = chosen_unit(ticket.seed_bytes)
    hottest = replace(unit, room_k=ICE_POINT_K + WEAK_KITCHEN_C[1], fault=replace(unit.fault, size=1.0))
    begun = arrived_running(replace(hottest, arrival=replace(hottest.arrival, shell_k=hottest.room_k)), 1300.0)
    events = Truth(ticket.seed_bytes, begun)._run.advance(begun.arrival, 1800.0).events
    clicks = [event.at_s for event in events if event.words == "click from the compressor"]
    spans = [b - a for a, b in zip([0.0, *clicks], clicks, strict=False)]
    assert len(clicks) >= 3
    assert max(spans) < LONG_ENOUGH * LISTEN_S


def test_silence_of_four_minutes_proves_nothing():
    """Two times of listening to a weak overload in its pause do not let one say that it does not click."""
    ticket = ticket_with(F.NONE)
    four = marked(ticket, {"sound": "runs and stays on"}, again(ticket, [("listen", ())] * 2))
    ten = marked(ticket, {"sound": "runs and stays on"}, again(ticket, [("listen", ())] * LONG_ENOUGH))
    assert four["sound"].standing is Standing.NO_READING
    assert ten["sound"].standing is Standing.RIGHT


def test_failed_insulation_is_told_as_what_came_in():
    """On a grounded unit the reason names the unit as it came in and what the new compressor must show."""
    ticket = ticket_with(F.GROUNDED)
    solution = LAB.solutions(LAB.make_case(ticket, None))["insulation"]
    assert solution.reason.endswith("below 2 MΩ, as it came in; the new compressor must show at least 2 MΩ.")
    sound = LAB.solutions(LAB.make_case(ticket_with(F.NONE), None))["insulation"]
    assert "new compressor" not in sound.reason


def test_earth_above_half_an_ohm_is_no_proof():
    """By hand: 0.40 Ω proves it, 0.60 Ω does not, and 0.60 Ω with 0.3 Ω of leads in it does."""
    ticket = ticket_with(F.NONE)
    bench = bench_for(ticket)
    right(bench)
    case = LAB.make_case(ticket, Replay(bench)).sheet

    def with_earth(ohm: float, zeroed: bool) -> bool:
        changed = tuple(
            replace(t, zeroed=zeroed, display=replace(t.display, value=ohm)) if "plug E" in t.on else t
            for t in case.taken
            if not (t.act.startswith("volts") and "plug E" in t.on)
        )
        return proof_after_repair(replace(case, taken=changed, lead_ohm=0.3))["earth"]

    assert [with_earth(*each) for each in ((0.4, True), (0.6, True), (0.6, False), (math.inf, True))] == [
        True,
        False,
        True,
        False,
    ]
