"""Lab 06 as a whole: scripted people on random tickets, judged with the real key."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pytest

from coldwright.answers.tolerance import separable_slips
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.replay import Replay
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.people.overloads import SLIPS, right
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.insulation_tester import limit_of_insulation
from coldwright.instruments.multimeter import limit_of_ohms
from coldwright.instruments.thermometer import limit_of_temperature
from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.heard import ROUNDED_S
from coldwright.labs.overloads.unit import FAULTS, MODELS, chosen_unit
from coldwright.labs.ticket import Ticket, practice_ticket
from coldwright.marking.judge import judge
from coldwright.marking.marks import LabMarks, Standing
from tests.labs.scripted import Scripted

SCRIPTED = Scripted("overloads")
LAB, KEY, bench_for = SCRIPTED.lab, SCRIPTED.key, SCRIPTED.bench_for
# Which units a slip's value can arise on at all, so that the search need not draw hundreds
ONLY = {
    "overload read in its place": {FaultName.OVERLOAD_OPEN},
    "seized without a start test": {FaultName.RELAY_STUCK_OPEN, FaultName.PTC_OPEN},
    "seized for an open winding": {FaultName.START_WINDING_OPEN},
    "ground fault missed": {FaultName.GROUNDED},
}
BEEPER = "earth by the beeper"  # it gives a value only where the beeper was used


def ticket_of(number: int) -> Ticket:
    return practice_ticket("overloads tested", number)


def spread_tickets(count: int) -> list[Ticket]:
    """So many tickets, in turn one of each fault, so that a small sample holds every fault."""
    found: dict[FaultName, list[Ticket]] = {fault: [] for fault in FAULTS}
    each = -(-count // len(FAULTS))
    number = 0
    while min(map(len, found.values())) < each:
        ticket = ticket_of(number)
        found[chosen_unit(ticket.seed_bytes).fault.name].append(ticket)
        number += 1
    return [tickets[i] for i in range(each) for tickets in found.values()][:count]


def hand_in(ticket: Ticket, person: Callable[[UnitBench], dict[str, str]] = right) -> LabMarks:
    """What judging makes of one person's work."""
    bench = bench_for(ticket)
    answers = person(bench)
    return judge(LAB, KEY, answers, ticket, bench.sheet_text())


def told_apart(case: Case) -> dict[str, list[str]]:
    """For each slip that gives a value on this case, the answers in which it can be told."""
    expected = KEY(case)
    found: dict[str, list[str]] = {}
    for name in {name for m in LAB.misconceptions for name in m.answers}:
        slips = LAB.slips(case, name)
        told = separable_slips(expected[name].right, expected[name].tolerance, slips)
        for key in slips:
            found.setdefault(key, []).extend([name] if key in told else [])
    return found


def bare_case(ticket: Ticket) -> Case:
    """The case without a job sheet."""
    case = LAB.make_case(ticket, None)
    assert isinstance(case, Case)
    return case


def test_the_lab_is_worth_twenty_marks():
    """All points together are 20 over ten check cells, five of them for the way of working."""
    assert LAB.points == 20
    assert len(LAB.questions) == 10
    assert LAB.question("safe_order").points == 5


def test_who_measures_and_answers_right_gets_all(sample, figure):
    """A person who works by the book earns 20 of 20 on every ticket."""
    tickets = spread_tickets(sample(small=15, full=100))
    for ticket in tickets:
        marks = hand_in(ticket)
        assert marks.points == 20, (ticket, [m for m in marks.marks if m.points != m.max_points])
    figure("lab 06: tickets on which the right person earned 20/20", len(tickets))


def test_a_blank_hand_in_gets_nothing(sample):
    """Blank earns 0, and every answer is 'not answered', not 'wrong'."""
    for ticket in spread_tickets(sample(small=15, full=100)):
        marks = judge(LAB, KEY, {}, ticket, bench_for(ticket).sheet_text())
        assert marks.points == 0
        assert {m.standing for m in marks.marks if m.question != "safe_order"} == {Standing.NOT_ANSWERED}


def test_right_answers_without_readings_get_nothing(sample, figure):
    """Right answers with no reading on the sheet earn no mark: not even a guessed fault and its remedy."""
    most = 0
    for ticket in spread_tickets(sample(small=15, full=100)):
        answers = right(bench_for(ticket))
        marks = judge(LAB, KEY, answers, ticket, bench_for(ticket).sheet_text())
        most = max(most, marks.points)
    assert most == 0
    figure("lab 06: most marks for right answers without readings", f"{most} of {LAB.points}")


@pytest.mark.parametrize("slip", list(SLIPS))
def test_each_slip_gets_its_own_sentence(slip, sample):
    """A person with one slip reads its sentence wherever it can be told, loses those marks, and is told of no other."""
    wanted, seen, number = sample(small=2, full=25), 0, -1
    while seen < wanted:
        number += 1
        assert number < 3000, f"only {seen} tickets on which it can be told"
        ticket = ticket_of(number)
        if chosen_unit(ticket.seed_bytes).fault.name not in ONLY.get(slip, FAULTS):
            continue
        if slip != BEEPER and not told_apart(bare_case(ticket)).get(slip):
            continue
        bench = bench_for(ticket)
        answers = SLIPS[slip](bench)
        case = LAB.make_case(ticket, Replay(bench))
        told = told_apart(case).get(slip)
        if not told:
            continue
        seen += 1
        marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
        found = {m.name for m in marks.marks if m.misconception == slip}
        assert found & set(told), (number, [m for m in marks.marks if m.points != m.max_points])
        sentence = next(m.sentence for m in LAB.misconceptions if m.key == slip)
        assert all(m.sentence == sentence and m.points == 0 for m in marks.marks if m.misconception == slip)
        assert {m.misconception for m in marks.marks} <= {None, slip}, number


def test_every_slip_has_its_person():
    """A scripted person for each misconception, and none over."""
    assert set(SLIPS) == {m.key for m in LAB.misconceptions}
    assert len(SLIPS) >= 6


def test_most_slips_can_be_told_apart_on_most_tickets(sample, figure):
    """Of the tickets on which a slip gives a value at all, most let it be told; the share of each is printed."""
    applies: Counter[str] = Counter()
    told: Counter[str] = Counter()
    for ticket in spread_tickets(sample(small=20, full=100)):
        bench = bench_for(ticket)
        right(bench)
        case = LAB.make_case(ticket, Replay(bench))
        for key, names in told_apart(case).items():
            applies[key] += 1
            told[key] += bool(names)
    shares = {key: told[key] / n for key, n in applies.items()}
    for key, share in shares.items():
        figure(f"lab 06, slip told apart: {key}", f"{told[key]} of {applies[key]} tickets it applies to ({share:.0%})")
    assert set(shares) == {m.key for m in LAB.misconceptions} - {BEEPER}
    assert min(shares.values()) > 0
    assert sum(share >= 0.8 for share in shares.values()) >= 12


def test_every_sentence_is_one_sentence_of_its_own():
    """Each slip has one sentence, and no two share it."""
    sentences = [m.sentence for m in LAB.misconceptions]
    assert len(set(sentences)) == len(sentences)
    assert all(s.endswith(".") and ". " not in s for s in sentences)


def test_every_condition_is_drawn(sample, figure):
    """Every fault, every model and both supplies turn up; no fault is drawn twice as often as its share."""
    count = sample(small=130, full=400)
    draws = [chosen_unit(ticket_of(number).seed_bytes) for number in range(count)]
    faults = Counter(unit.fault.name for unit in draws)
    assert set(faults) == set(FAULTS)
    assert {unit.cooler.model for unit in draws} == set(MODELS)
    assert {(unit.cooler.volts, unit.cooler.hertz) for unit in draws} == {(120.0, 60.0), (230.0, 50.0)}
    assert max(faults.values()) < 2.2 * count / len(FAULTS)
    figure("lab 06: rarest and commonest fault", f"{min(faults.values())} and {max(faults.values())} of {count}")


def test_no_two_tickets_have_the_same_unit(sample):
    """Each ticket has its own ohms and its own room."""
    count = sample(small=60, full=300)
    units = [chosen_unit(ticket_of(number).seed_bytes) for number in range(count)]
    assert len({(unit.parts.motor.run_ohm, unit.room_k) for unit in units}) == count


def test_tolerance_is_above_the_resolution(sample):
    """Every tolerance is wider than one digit of the instrument that the answer comes from."""
    for ticket in spread_tickets(sample(small=15, full=100)):
        expected = KEY(bare_case(ticket))
        digits = {
            "on_seconds": lambda _v: ROUNDED_S / 2,
            "off_seconds": lambda _v: ROUNDED_S / 2,
            "average_watts": lambda _v: 0.1,
            "start_amps": lambda v: limit_of_clamp(v)[1],
            "winding_hot": lambda _v: limit_of_temperature()[1],
            "overload_ohms": lambda v: limit_of_ohms(v)[1],
            "earth_ohms": lambda v: limit_of_ohms(v)[1],
            "insulation": lambda v: limit_of_insulation(v)[1],
        }
        for name, digit in digits.items():
            assert all(tolerance > digit(value) for value, tolerance in expected[name].numbers), (ticket, name)


def test_a_hazard_costs_its_mark():
    """Ohms on the live unit is on the sheet and costs the points for no hazard and for order, nothing else."""

    def careless(bench: UnitBench) -> dict[str, str]:
        bench.perform("ohms", ("overload 1", "overload 2"))
        if bench.instruments.meter.ruined:
            bench.perform("new meter")
        return right(bench)

    marks = hand_in(ticket_of(3), careless)
    lost = {m.name for m in marks.marks if m.points != m.max_points}
    assert "no_hazard" in lost
    assert lost <= {"no_hazard", "proved_dead", "zeroed"}


def test_who_skips_the_proof_is_told_what_is_missing():
    """Right answers from a whole sheet, cut before the proof: the marks for proof and order wait for those readings."""
    ticket = ticket_of(0)
    bench = bench_for(ticket)
    answers = right(bench)
    cut = bench_for(ticket)
    for line in bench.lines:
        if line.act == "ohms" and "plug E" in line.on:
            break
        cut.perform(line.act, line.on)
    marks = {m.name: m for m in judge(LAB, KEY, answers, ticket, cut.sheet_text()).marks}
    assert marks["earth_ohms"].standing is Standing.NO_READING
    assert marks["insulation"].standing is Standing.NO_READING
    assert marks["no_hazard"].points == 0
    assert marks["no_hazard"].standing is Standing.NOT_COUNTED
    judged = judge(LAB, KEY, answers, ticket, cut.sheet_text())
    assert judged.missing[0].startswith("ohms from the plug's earth pin")
    assert len(judged.missing) == 2


def test_every_answer_has_its_way_and_its_rule():
    """`how` names every answer, `rules` every need, and every right answer has a reason."""
    answers = [a for q in LAB.questions for a in q.answers]
    assert set(LAB.how) == {a.name for a in answers}
    assert set(LAB.rules) == {a.needs for a in answers} - {None}
    found = LAB.solutions(bare_case(ticket_of(1)))
    assert set(found) == {a.name for a in answers}
    assert all(solution.reason.endswith(".") for solution in found.values())
