"""What readings prove in lab 04: a PTC read before it ran, after a run and later; a relay's contact; proof of dead."""

from __future__ import annotations

import pytest

from coldwright.answers.forms import read_answer
from coldwright.appliance.cooler import cooler
from coldwright.appliance.unit_faults import FaultName
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.replay import Replay
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.start_circuits import right
from coldwright.labs.start_circuits import LAB
from coldwright.labs.start_circuits.case import StartCase
from coldwright.labs.start_circuits.economy import best_tests
from coldwright.labs.start_circuits.evidence import ptc_when
from coldwright.labs.start_circuits.readings import AFTER_RUN, FIRST, LATER, TICK, Shows
from coldwright.labs.start_circuits.table import COLD_FROM_S, COLD_TO_S, table
from coldwright.labs.start_circuits.unit import MODELS, draw_unit, drawn_condition
from coldwright.labs.ticket import Ticket, practice_ticket
from tests.labs.scripted import Scripted

F = FaultName
SCRIPTED = Scripted("start_circuits")
RELAYS = (ComponentKind.CURRENT_RELAY, ComponentKind.SOLID_STATE_SWITCH)
PAIRS = (("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E"))
OUTLET = ("outlet L", "outlet N")


def unit(number: int) -> Ticket:
    """The practice unit of a number, as its desk brings it."""
    return practice_ticket("start_circuits", number)


def worked(ticket: Ticket, *acts: tuple[str, ...]) -> UnitBench:
    """A bench on which acts were done."""
    bench = SCRIPTED.bench_for(ticket)
    for act, *on in acts:
        bench.perform(act, tuple(on))
    return bench


def case_of(ticket: Ticket, bench: UnitBench) -> StartCase:
    """What marking sees of a bench."""
    case = LAB.make_case(ticket, Replay(bench))
    assert isinstance(case, StartCase)
    return case


def read_ptc(ticket: Ticket, wait: str = "5 min", run: tuple[str, ...] = ("inrush", "listen")) -> StartCase:
    """Volts, start amps and what is heard; unplug, prove dead, wait, take the PTC off and read it."""
    acts: list[tuple[str, ...]] = [("volts ac", *OUTLET)]
    acts += [("inrush", "cord L") if act == "inrush" else (act,) for act in run]
    acts += [("isolate",), *(("volts ac", *pair) for pair in PAIRS), ("volts ac", *OUTLET)]
    acts += [("zero leads",), ("wait", wait), ("take off", "PTC"), ("ohms", "PTC 1", "PTC 2")]
    return case_of(ticket, worked(ticket, *acts))


def test_a_cracked_ptc_is_proved_by_its_ohms_five_minutes_after_a_run():
    """Unit 12 shows 20 Ω where a good one has 5 Ω and one that cannot cool thousands: only 'cracked' is left."""
    case = read_ptc(unit(12))
    assert case.fault is F.PTC_CRACKED
    assert case.left_open == {F.PTC_CRACKED}


def test_a_good_ptc_is_cleared_five_minutes_after_a_run():
    """Unit 99 is sound: its few ohms leave neither an open, a cracked nor an uncooled PTC."""
    case = read_ptc(unit(99))
    assert case.fault is F.NONE
    assert case.left_open & {F.PTC_OPEN, F.PTC_CRACKED, F.PTC_NOT_COOLED} == set()


def test_a_ptc_read_before_it_ever_ran_or_after_a_short_run_clears_no_cooling():
    """Cold for hours, or after seconds of power, one that cannot cool can look good as well: it stays possible."""
    ticket = unit(99)
    before = worked(ticket, ("volts ac", *OUTLET), ("take off", "PTC"), ("ohms", "PTC 1", "PTC 2"))
    assert F.PTC_NOT_COOLED in case_of(ticket, before).left_open
    assert F.PTC_CRACKED not in case_of(ticket, before).left_open
    assert F.PTC_NOT_COOLED in read_ptc(ticket, run=("inrush",)).left_open
    assert F.PTC_NOT_COOLED in read_ptc(ticket, wait="1 h").left_open


@pytest.mark.parametrize(
    ("rested_s", "ran_s", "when"),
    [(60, 300, ""), (300, 150, AFTER_RUN), (300, 15, LATER), (3600, 150, LATER), (43200, 150, FIRST), (1e9, 0, FIRST)],
)
def test_when_a_ptc_was_read(rested_s, ran_s, when):
    """Too soon: nothing; 5 min after a run: that; after seconds of power or an hour: later; half a day: cold again."""
    assert ptc_when(rested_s, ran_s) == when


def test_every_drawn_ptc_that_cannot_cool_is_told_by_then(sample):
    """At either end of the time that counts, after a run of two minutes, each leaves itself alone as the fault."""
    drawn = {n: drawn_condition(unit(n).seed_bytes) for n in range(2000)}
    numbers = [n for n, (fault, _) in drawn.items() if fault is F.PTC_NOT_COOLED]
    numbers.sort(key=lambda n: drawn[n][1] not in ("Tarn 12", "Tarn 17"))  # their tables are worked out already
    for number in numbers[: sample(small=4, full=60)]:
        ticket = unit(number)
        bench = worked(ticket, ("inrush", "cord L"), ("listen",), ("isolate",), ("zero leads",))
        state = bench.state
        for rest in (COLD_FROM_S, COLD_TO_S):
            bench.state = bench.operation.advance(state, rest - state.rested_s).state
            ohms = bench.parts.start_device.resistance(bench.state.ptc_k)  # type: ignore[union-attr]
            rows = next(row for test, row in table(bench.unit.cooler.model).items() if test.when == AFTER_RUN)
            meets = {fault for fault, shows in rows.items() if any(s.meets(Shows(ohms, ohms)) for s in shows)}
            assert meets == {F.PTC_NOT_COOLED}, (number, rest, ohms)


@pytest.mark.parametrize("number", [12, 35, 72, 99, 202])
def test_no_solution_sends_a_learner_to_a_hot_ptc(number):
    """The best tests read a PTC five minutes after a run, when a good one is cold, never right after it."""
    ticket = unit(number)
    reason = LAB.solutions(LAB.make_case(ticket, None))["part"].reason
    assert "two minutes after a run" not in reason
    if drawn_condition(ticket.seed_bytes)[0] in (F.PTC_CRACKED, F.PTC_OPEN, F.PTC_NOT_COOLED):
        assert "ohms PTC 1 to PTC 2, with the PTC off, five minutes after a run" in reason


def test_a_hot_ptc_taken_off_is_noted_and_is_no_hazard():
    """Right after a run the sheet says that it is hot; after five minutes, and of another part, it says nothing."""
    bench = worked(unit(12), ("inrush", "cord L"), ("listen",), ("isolate",))
    told = bench.perform("take off", ("PTC",))
    assert "But the PTC is still hot: let it cool." in told.text
    assert (bench.lines[-1].shown, bench.lines[-1].hazards) == ("the PTC is still hot: let it cool", ())
    assert read_ptc(unit(12)).base.lines[-2].shown == ""
    assert worked(unit(18), ("inrush", "cord L"), ("isolate",), ("take off", "relay")).lines[-1].shown == ""


def test_a_run_winding_that_is_open_is_silent_only_behind_a_coil_or_a_start_switch(sample):
    """As the lesson's table has it: other devices let the start winding hum; a potential relay without coil runs."""
    few = ("Tarn 11", "Tarn 12", "Tarn 25")
    for model in (*few, *(m for m in MODELS if m not in few))[: sample(small=len(few), full=len(MODELS))]:
        rows = table(model)
        heard = next(row for test, row in rows.items() if test.act == "listen" and test.when in ("", FIRST))
        silent = bool(cooler(model).wiring.of_kind(*RELAYS))
        words = {show.word for show in heard[F.RUN_WINDING_OPEN]}
        assert all((word == "silence") is silent for word in words), model
        if cooler(model).wiring.of_kind(ComponentKind.POTENTIAL_RELAY):
            assert all(show.word.startswith("runs, clicks") for show in heard[F.RELAY_COIL_OPEN])
    assert {drawn_condition(unit(n).seed_bytes)[0] for n in (6, 21, 37)} == {F.RUN_WINDING_OPEN}


def test_a_tick_does_not_clear_a_contact():
    """A burnt contact ticks and passes nothing: heard with a tick, a current relay's contact is still in question."""
    heard = next(row for test, row in table("Tarn 11").items() if test.act == "listen")
    words = {show.word for show in heard[F.RELAY_STUCK_OPEN]}
    assert words == {"hums, clicks", "hums, clicks, ticks"}
    assert TICK == "tick from the relay"


def test_a_contact_is_not_condemned_by_ear():
    """The best tests for a stuck contact hold coil, contact and start test; for a stuck rotor the start test."""
    told = {(test.act, test.on) for test in best_tests("Tarn 11", F.RELAY_STUCK_OPEN)}
    assert told == {("ohms", ("relay 1", "relay 2")), ("ohms", ("relay 1", "relay 3")), ("start test", ())}
    assert [test.act for test in best_tests("Tarn 11", F.SEIZED)] == ["start test"]
    assert [test.on for test in best_tests("Tarn 12", F.RUN_WINDING_OPEN)] == [("pin C", "pin R")]


def _unit_18(*more: tuple[str, ...]) -> dict[str, bool]:
    """Points for working of a person who proves unit 18 as the lesson says, reads more, and then works by the book."""
    ticket = unit(18)
    first = [("volts ac", *OUTLET), *(("volts ac", *pair) for pair in PAIRS), ("volts ac", *OUTLET), ("zero leads",)]
    off = [("take off", "relay"), ("ohms", "relay 1", "relay 2"), ("ohms", "relay 1", "relay 3")]
    start = [("take off", "overload"), ("start test",), *more, ("put back", "overload"), ("put back", "relay")]
    bench = worked(ticket, *first, *off, *start, ("wait", "5 min"))
    right(bench)
    return dict(LAB.worked(case_of(ticket, bench)))


def test_who_proves_a_contact_as_the_lesson_says_keeps_both_marks_for_economy():
    """Coil, contact and start test on unit 18 are the best tests, and two windings more cost but one mark."""
    assert all(_unit_18().values())
    lost = _unit_18(("ohms", "pin C", "pin S"), ("ohms", "pin C", "pin R"))
    assert [name for name, earned in lost.items() if not earned] == ["best_test"]


def test_dead_on_one_pair_or_with_an_untried_meter_is_no_proof():
    """L to N alone, or the meter not tried after it, loses the point for proving dead and no other."""
    ticket = unit(18)
    for first in ([PAIRS[0]], [OUTLET, PAIRS[0], OUTLET], [OUTLET, *PAIRS]):
        bench = worked(ticket, *(("volts ac", *pair) for pair in first), ("take off", "overload"))
        bench.perform("put back", ("overload",))
        right(bench)
        found = LAB.worked(case_of(ticket, bench))
        assert [name for name, earned in found.items() if not earned] == ["proved_dead"], first


def test_low_volts_are_a_live_source_all_the_same():
    """On unit 39 the outlet is far below the plate: who tries the meter on it has still tried it."""
    ticket = unit(39)
    bench = SCRIPTED.bench_for(ticket)
    right(bench)
    case = case_of(ticket, bench)
    assert case.fault is F.LOW_SUPPLY
    assert all(LAB.worked(case).values())


@pytest.mark.parametrize(
    ("name", "typed", "read"),
    [
        ("wrong", "burnt contact", "contact stuck open"),
        ("remedy", "replace relay", "new relay"),
        ("remedy", "new start relay", "new relay"),
        ("remedy", "replace the PTC", "new PTC"),
        ("remedy", "change the compressor", "new compressor"),
    ],
)
def test_words_of_the_trade_are_read(name, typed, read):
    """Other words for the same are taken as the same."""
    form = next(a.form for q in LAB.questions for a in q.answers if a.name == name)
    assert read_answer(form, typed).word == read


def test_no_start_current_gets_a_reason_of_its_own():
    """With an open start winding nothing is added: pin C carries what the run winding does, by hand 0 + I = I."""
    wanted = (F.START_WINDING_OPEN, "Tarn 11")
    number = next(n for n in range(3000) if drawn_condition(unit(n).seed_bytes) == wanted)
    found = LAB.solutions(LAB.make_case(unit(number), None))["start_common"]
    assert found.reason == "The start winding gets no current, so pin C carries what the run winding does."
    assert draw_unit(unit(number).seed_bytes).fault.name is F.START_WINDING_OPEN
