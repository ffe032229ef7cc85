"""Lab 00 as a whole: scripted people on random tickets, judged with the real key."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from functools import cache

import pytest

from coldwright.answers.tolerance import separable_slips
from coldwright.bench.replay import replay
from coldwright.bench.sheet import parse_sheet
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.safe_isolation import SLIPS, right
from coldwright.instruments.meter_ranges import Function, limit_of, limit_of_ohms
from coldwright.labs.safe_isolation.case import Case
from coldwright.labs.safe_isolation.unit import CAN_LACK, EARTHS, FANS, PLACES, SUPPLIES, draw_job
from coldwright.labs.ticket import Ticket, practice_ticket
from coldwright.marking.judge import judge
from coldwright.marking.marks import Standing
from tests.labs.scripted import Scripted

SCRIPTED = Scripted("safe_isolation")
LAB, KEY = SCRIPTED.lab, SCRIPTED.key
bench_for, hand_in = SCRIPTED.bench_for, SCRIPTED.hand_in
Person = Callable[[UnitBench], dict[str, str]]


def work_through(person: Person, ticket: Ticket) -> tuple[dict[str, str], str]:
    """One person's answers and job sheet."""
    bench = bench_for(ticket)
    return person(bench), bench.sheet_text()


def case_of(ticket: Ticket, sheet: str) -> Case:
    """The case that marking would look at."""
    case = LAB.make_case(ticket, replay(parse_sheet(sheet), bench_for(ticket)))
    assert isinstance(case, Case)
    return case


@cache
def told_apart(number: int) -> dict[str, bool]:
    """For each slip that gives a value on a ticket, whether it can be told in one answer at least."""
    ticket = practice_ticket("share", number)
    case = case_of(ticket, work_through(right, ticket)[1])
    expected = KEY(case)
    found: dict[str, bool] = {}
    for name, wanted in expected.items():
        slips = LAB.slips(case, name)
        apart = separable_slips(wanted.right, wanted.tolerance, slips)
        for key in slips:
            found[key] = found.get(key, False) or key in apart
    return found


def test_the_lab_is_worth_twenty_marks_in_ten_cells() -> None:
    """All points together are 20; four of them for the way of working; at least eight check cells."""
    assert LAB.points == 20
    assert LAB.questions[-1].name == "safe_order"
    assert LAB.question("safe_order").points == 4
    assert len(LAB.questions) == 10


def test_who_measures_and_answers_right_gets_all(sample, figure):
    """A person who works by the book earns 20 of 20 on every ticket."""
    count = sample(small=15, full=100)
    for number in range(count):
        marks = hand_in(right, practice_ticket("full marks", number))
        assert marks.points == 20, (number, [m for m in marks.marks if m.points != m.max_points])
    figure("lab 00: tickets on which the right person earned 20/20", count)


def test_a_blank_hand_in_gets_nothing(sample):
    """Blank earns 0, and every answer is 'not answered', not 'wrong'."""
    for number in range(sample(small=15, full=100)):
        marks = hand_in(lambda _bench: {}, practice_ticket("blank", number))
        assert marks.points == 0
        assert {m.standing for m in marks.marks if m.question != "safe_order"} == {Standing.NOT_ANSWERED}


def test_right_answers_without_readings_get_less_than_half(sample, figure):
    """Right answers with no reading on the sheet stay below half of the marks."""
    most = Fraction(0)
    for number in range(sample(small=15, full=100)):
        ticket = practice_ticket("no readings", number)
        answers, _ = work_through(right, ticket)
        most = max(most, judge(LAB, KEY, dict(answers), ticket, bench_for(ticket).sheet_text()).points)
    assert 0 < most < LAB.points / 2
    figure("lab 00: most marks for right answers without readings", f"{most} of {LAB.points}")


@pytest.mark.parametrize("slip", SLIPS)
def test_each_slip_gets_its_own_sentence(slip, sample):
    """A person with one slip reads its sentence wherever it can be told, loses those marks, and is told of no other."""
    wanted, seen, number = sample(small=3, full=25), 0, -1
    sentence = next(m.sentence for m in LAB.misconceptions if m.key == slip)
    while seen < wanted:
        number += 1
        assert number < 400, f"{slip}: only {seen} tickets on which it can be told"
        if not told_apart(number).get(slip):
            continue
        seen += 1
        marks = hand_in(SLIPS[slip], practice_ticket("share", number))
        found = [m for m in marks.marks if m.misconception == slip]
        assert found, (number, [m for m in marks.marks if m.points != m.max_points])
        assert all(m.sentence == sentence and m.points == 0 for m in found)
        claimed = {m.misconception for m in marks.marks} - {None, slip}
        assert not claimed, number


def test_most_slips_can_be_told_apart_on_most_tickets(sample, figure):
    """Of the tickets on which a slip gives a value at all, most let it be told; the share of each is printed."""
    applies: Counter[str] = Counter()
    told: Counter[str] = Counter()
    for number in range(sample(small=20, full=100)):
        for key, apart in told_apart(number).items():
            applies[key] += 1
            told[key] += apart
    shares = {key: told[key] / n for key, n in applies.items()}
    for key, share in shares.items():
        figure(f"lab 00, slip told apart: {key}", f"{told[key]} of {applies[key]} tickets it applies to ({share:.0%})")
    assert set(shares) == {m.key for m in LAB.misconceptions} == set(SLIPS)
    assert len(shares) >= 6
    assert sum(share >= 0.8 for share in shares.values()) >= 18


def test_every_sentence_is_one_sentence_of_its_own():
    """Each slip has one sentence, and no two share it."""
    sentences = [m.sentence for m in LAB.misconceptions]
    assert len(set(sentences)) == len(sentences)
    assert all(s.endswith(".") and ". " not in s for s in sentences)


def test_tolerance_is_above_the_resolution(sample):
    """Every tolerance on a reading is wider than one digit of the meter that shows it."""
    for number in range(sample(small=15, full=100)):
        case = LAB.make_case(practice_ticket("tolerance", number), None)
        expected = KEY(case)
        for name in ("supply_volts", "wire_volts"):
            ((volts, tolerance),) = expected[name].numbers
            assert tolerance > limit_of(Function.VOLTS_AC, volts)[1], (number, name)
        for name in ("earth_ohm", "fan_ohm"):
            for ohm, tolerance in expected[name].numbers:
                assert tolerance > limit_of_ohms(ohm)[1], (number, name)
        for name in ("supply_limit", "both_limits"):
            assert expected[name].tolerance > 0.1, (number, name)


def test_every_condition_is_drawn_about_as_often(sample, figure):
    """Both supplies, and each earth, switch, note and place turn up, none less than half as often as it should."""
    count = sample(small=200, full=300)
    kinds: dict[str, Counter[object]] = {name: Counter() for name in ("volts", "earth", "switch", "note", "place")}
    for number in range(count):
        job = draw_job(practice_ticket("conditions", number).seed_bytes)
        kinds["volts"][job.unit.cooler.volts] += 1
        kinds["earth"][job.earth] += 1
        kinds["switch"][job.unit.fault.name] += 1
        kinds["note"][job.lacks] += 1
        kinds["place"][job.place] += 1
    wanted = {"volts": 2, "earth": len(EARTHS), "switch": 2, "note": len(CAN_LACK), "place": len(PLACES)}
    for name, choices in wanted.items():
        assert len(kinds[name]) == choices, name
        assert min(kinds[name].values()) > 0.5 * count / choices, (name, kinds[name])
    figure("lab 00: tickets at 120 V and at 230 V", f"{kinds['volts'][120.0]} and {kinds['volts'][230.0]} of {count}")


def test_every_verdict_is_drawn(sample):
    """Supply within, too low and not to tell; fan that agrees, differs, not to tell; meters that agree and differ."""
    seen: dict[str, set[str]] = {name: set() for name in ("supply_verdict", "fan", "meters", "wire", "old_range")}
    for number in range(sample(small=60, full=200)):
        expected = KEY(LAB.make_case(practice_ticket("verdicts", number), None))
        for name, words in seen.items():
            words |= set(expected[name].words)
    assert seen["supply_verdict"] == {each.value for each in SUPPLIES}
    assert seen["fan"] == set(FANS)
    assert seen["meters"] == {"agree", "differ"}
    assert seen["wire"] == {"live", "ghost"}
    assert seen["old_range"] == {"200 V", "600 V"}


def replayed_without(left_out: tuple[str, ...], ticket: Ticket) -> str:
    """The right person's job sheet with one act left out after the plug was pulled."""
    done, again = bench_for(ticket), bench_for(ticket)
    right(done)
    pulled = False
    for line in done.lines:
        pulled |= line.act == "isolate"
        if not (pulled and (line.act, *line.on) == left_out):
            again.perform(line.act, line.on)
    return again.sheet_text()


def first_with(what: Callable[[Case], bool]) -> tuple[Ticket, Case]:
    """The first practice ticket whose unit is such."""
    for number in range(200):
        ticket = practice_ticket("such a unit", number)
        case = LAB.make_case(ticket, None)
        if what(case):
            return ticket, case
    pytest.fail("no such unit was drawn")


def test_the_ghost_is_the_divider_of_the_two_stray_capacitances():
    """Limit case by hand: 300 pF to live and 100 pF to earth with 10 MΩ across give |jωC1 R / (1 + jω(C1 + C2) R)|."""
    _, case = first_with(lambda c: not c.wire_is_live)
    omega = 2 * math.pi * case.unit.cooler.hertz
    by_hand = abs(1j * omega * 300e-12 * 10e6 / (1 + 1j * omega * 400e-12 * 10e6)) * case.supply_volts[0]
    assert case.wire_volts[0] == pytest.approx(by_hand, rel=0.01)


def test_hazard_costs_its_mark_and_no_other():
    """Ohms on the live cooler at the start costs the mark for a sheet without hazards, and the proof comes too late."""

    def ohms_live(bench: UnitBench) -> dict[str, str]:
        bench.perform("ohms", ("plug L", "plug N"))
        bench.perform("new meter")
        return right(bench)

    ticket, _ = first_with(lambda _case: True)
    marks = hand_in(ohms_live, ticket)
    assert {m.name for m in marks.marks if m.points != m.max_points} >= {"no_hazard", "tried", "pairs"}
    assert {m.name for m in marks.marks if m.points != m.max_points} <= {"no_hazard", "tried", "pairs", "zeroed"}


@pytest.mark.parametrize(
    ("left_out", "lost"),
    [
        (("volts ac", "outlet L", "outlet N"), {"tried"}),
        (("volts ac", "plug L", "plug E"), {"pairs"}),
        (("volts ac", "plug N", "plug E"), {"pairs"}),
        (("zero leads",), {"zeroed"}),
    ],
)
def test_a_step_left_out_costs_its_own_mark(left_out, lost):
    """The dead proof without its last live try, or without one pair, and leads not zeroed: one mark each."""
    ticket, _ = first_with(lambda c: c.job.earth == "lost")
    marks = judge(LAB, KEY, {}, ticket, replayed_without(left_out, ticket))
    assert {m.name for m in marks.marks if m.question == "safe_order" and m.points != m.max_points} == lost


def test_a_missing_reading_is_named_and_costs_the_way_of_working():
    """With one reading alone the wire's verdict has none behind it, and the marks for safe order say what lacks."""
    ticket, _ = first_with(lambda _case: True)
    answers, _ = work_through(right, ticket)
    bench = bench_for(ticket)
    bench.perform("volts ac", ("outlet L", "outlet N"))
    marks = judge(LAB, KEY, dict(answers), ticket, bench.sheet_text())
    standings = {m.name: m.standing for m in marks.marks}
    assert standings["supply_volts"] is Standing.RIGHT
    assert standings["wire"] is Standing.NO_READING
    assert {m.standing for m in marks.marks if m.question == "safe_order"} == {Standing.NOT_COUNTED}
    assert any("low-impedance" in each for each in marks.missing)
