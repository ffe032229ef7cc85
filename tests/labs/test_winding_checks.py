"""Lab 03 as a whole: scripted people on random tickets, judged with the real key."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from coldwright.answers.tolerance import separable_slips
from coldwright.bench.bench import Bench
from coldwright.bench.replay import replay
from coldwright.bench.sheet import parse_sheet
from coldwright.course.demo_class import PROFILES
from coldwright.course.demo_work import Profile, Work
from coldwright.instruments.multimeter import limit_of_ohms
from coldwright.labs.catalogue import lab
from coldwright.labs.ticket import Ticket, practice_ticket
from coldwright.labs.winding_checks.case import Case
from coldwright.marking.judge import judge, load_key
from coldwright.marking.marks import LabMarks, Standing

LAB = lab("winding_checks")
KEY = load_key(Path(__file__).parents[2] / "autograde" / "keys", LAB)
BY_ID = {profile.id: profile for profile in PROFILES}
KNOCK_ON = {"leads not zeroed": {"sum rule broken by the leads"}}  # a slip that follows from another
SLIPPING = [profile for profile in PROFILES if profile.slip is not None]


def bench_for(ticket: Ticket) -> Bench:
    return LAB.open_bench(ticket, None)


def work_through(profile: Profile, ticket: Ticket) -> tuple[Work, str]:
    """One person's answers and job sheet; code cells are left out."""
    bench = bench_for(ticket)
    return profile.works(bench, bench_for(ticket)), bench.sheet_text()


def hand_in(profile: Profile, ticket: Ticket) -> LabMarks:
    """What judging makes of one person's work."""
    work, sheet = work_through(profile, ticket)
    return judge(LAB, KEY, dict(work.answers), ticket, sheet)


def case_of(ticket: Ticket, sheet: str) -> Case:
    """The case that marking would look at."""
    return LAB.make_case(ticket, replay(parse_sheet(sheet), bench_for(ticket)))


def separable(case: Case, slip: str) -> list[str]:
    """Names of the answers in which a slip can be told."""
    expected = KEY(case)
    return [
        name
        for m in LAB.misconceptions
        if m.key == slip
        for name in m.answers
        if slip in separable_slips(expected[name].right, expected[name].tolerance, LAB.slips(case, name))
    ]


def test_the_lab_is_worth_twenty_marks():
    """All points together are 20, some of them for the way of working."""
    assert LAB.points == 20
    assert LAB.question("safe_order").points == 4


def test_who_measures_and_answers_right_gets_all(sample, figure):
    """A person who works by the book earns 20 of 20 on every ticket."""
    count = sample(small=40, full=200)
    for number in range(count):
        marks = hand_in(BY_ID["ada"], practice_ticket("full marks", number))
        assert marks.points == 20, (number, [m for m in marks.marks if m.points != m.max_points])
    figure("tickets on which the right person earned 20/20", count)


def test_other_units_and_spellings_earn_the_same(sample):
    """The same values in other units and words earn 20 of 20 too."""
    for number in range(sample(small=40, full=200)):
        marks = hand_in(BY_ID["ben"], practice_ticket("other units", number))
        assert marks.points == 20, (number, [m for m in marks.marks if m.points != m.max_points])


def test_a_blank_hand_in_gets_nothing(sample):
    """Blank earns 0, and every answer is 'not answered', not 'wrong'."""
    for number in range(sample(small=20, full=200)):
        marks = hand_in(BY_ID["bea"], practice_ticket("blank", number))
        assert marks.points == 0
        assert {m.standing for m in marks.marks if m.question != "safe_order"} == {Standing.NOT_ANSWERED}


def test_right_answers_without_readings_get_less_than_half(sample, figure):
    """Right answers with no reading on the sheet stay below half of the marks."""
    most = Fraction(0)
    for number in range(sample(small=40, full=200)):
        most = max(most, hand_in(BY_ID["cyril"], practice_ticket("no readings", number)).points)
    assert most < LAB.points / 2
    figure("most marks for right answers without readings", f"{most} of {LAB.points}")


@pytest.mark.parametrize("profile", SLIPPING, ids=[p.slip for p in SLIPPING])
def test_each_slip_gets_its_own_sentence(profile, sample):
    """A person with one slip reads its sentence wherever it can be told, loses those marks, and is told of no other."""
    wanted, seen, number = sample(small=4, full=25), 0, 0
    while seen < wanted:
        number += 1
        assert number < 3000, f"{profile.slip}: only {seen} tickets on which it can be told"
        ticket = practice_ticket(profile.slip, number)
        work, sheet = work_through(profile, ticket)
        if not separable(case_of(ticket, sheet), profile.slip):
            continue
        seen += 1
        marks = judge(LAB, KEY, dict(work.answers), ticket, sheet)
        found = {m.name for m in marks.marks if m.misconception == profile.slip}
        assert found, (number, [m for m in marks.marks if m.points != m.max_points])
        sentence = next(m.sentence for m in LAB.misconceptions if m.key == profile.slip)
        assert all(m.sentence == sentence and m.points == 0 for m in marks.marks if m.misconception == profile.slip)
        claimed = {m.misconception for m in marks.marks} - {None, profile.slip}
        assert claimed <= KNOCK_ON.get(profile.slip, set()), number


def test_most_slips_can_be_told_apart_on_most_tickets(sample, figure):
    """Of the tickets on which a slip gives a value at all, most let it be told; the share of each is printed."""
    count = sample(small=60, full=400)
    applies: Counter[str] = Counter()
    told: Counter[str] = Counter()
    for number in range(count):
        ticket = practice_ticket("share", number)
        _, sheet = work_through(BY_ID["ada"], ticket)
        case = case_of(ticket, sheet)
        for m in LAB.misconceptions:
            if any(m.key in LAB.slips(case, name) for name in m.answers):
                applies[m.key] += 1
                told[m.key] += bool(separable(case, m.key))
    shares = {key: told[key] / n for key, n in applies.items()}
    for key, share in shares.items():
        figure(f"slip told apart: {key}", f"{told[key]} of {applies[key]} tickets it applies to ({share:.0%})")
    assert set(shares) == {m.key for m in LAB.misconceptions}
    assert len(shares) >= 8
    assert min(shares.values()) > 0
    assert sum(share >= 0.8 for share in shares.values()) >= 8


def test_every_sentence_is_one_sentence_of_its_own():
    """Each slip has one sentence, and no two share it."""
    sentences = [m.sentence for m in LAB.misconceptions]
    assert len(set(sentences)) == len(sentences)
    assert all(s.endswith(".") and ". " not in s for s in sentences)


def test_tolerance_is_above_the_resolution(sample):
    """Every tolerance on a resistance is wider than one digit of the meter that shows it."""
    for number in range(sample(small=60, full=300)):
        case = LAB.make_case(practice_ticket("tolerance", number), None)
        expected = KEY(case)
        for name in ("resistance_12", "resistance_13", "resistance_23", "resistance_at_20", "meter_limit"):
            for value, tolerance in expected[name].numbers:
                shown = max(r for r in case.cold.values() if r < 6e7) if name == "meter_limit" else value
                assert tolerance > limit_of_ohms(shown)[1], (number, name)
        assert all(tolerance > 1e3 for _, tolerance in expected["insulation"].numbers)
        assert expected["temperature_rise"].tolerance > 0.1


def test_hazard_costs_its_mark():
    """Ohms on a live circuit is on the sheet and costs the point for a sheet without hazards, nothing else."""
    for number in range(40):
        ticket = practice_ticket("live", number)
        if bench_for(ticket).plugged:
            break
    marks = hand_in(BY_ID["zoe"], ticket)
    lost = {m.name for m in marks.marks if m.points != m.max_points}
    assert "no_hazard" in lost
    assert lost <= {"no_hazard", "proved_dead"}


def test_every_condition_is_drawn(sample):
    """Good, open, protector, shorted, grounded, hot protector, inverter and vacuum all turn up."""
    seen = set()
    for number in range(sample(small=300, full=300)):
        unit = bench_for(practice_ticket("conditions", number)).unit
        seen |= {unit.fault.kind.name, f"inverter {unit.plate.is_inverter}", f"vacuum {unit.under_vacuum}"}
        seen |= {f"tripped {unit.protector_tripped}"}
    assert len(seen) == 7 + 2 + 2 + 2


def test_the_key_says_cannot_tell_where_ohms_cannot():
    """With one winding open, the pin left out is known and the other two are not."""
    from coldwright.appliance.faults import FaultKind

    for number in range(200):
        case = LAB.make_case(practice_ticket("cannot tell", number), None)
        if case.unit.fault.kind is FaultKind.OPEN_RUN:
            expected = KEY(case)
            assert expected["run"].words == (case.unit.run,)
            assert expected["common"].words == expected["start"].words == ("cannot tell",)
            return
    pytest.fail("no open run winding was drawn")
