"""Lab 04 as a whole: scripted people on random tickets, judged with the real key."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from coldwright.bench.replay import Replay
from coldwright.course.people.start_circuits import SLIPS, right
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.labs.start_circuits import LAB
from coldwright.labs.start_circuits.case import OUTLET, StartCase
from coldwright.labs.start_circuits.economy import CLOSE, SLACK
from coldwright.labs.start_circuits.remedies import FOUND
from coldwright.labs.start_circuits.unit import FAULTS, MODELS, drawn_condition
from coldwright.labs.ticket import Ticket, issue_ticket, practice_ticket
from coldwright.marking.judge import judge
from coldwright.marking.marks import LabMarks, Standing
from tests.labs.scripted import Scripted
from tests.notebooks.run_notebook import filled, printed, run

ROOT = Path(__file__).parents[2]
SCRIPTED = Scripted("start_circuits")
KEY, bench_for, separable = SCRIPTED.key, SCRIPTED.bench_for, SCRIPTED.separable
FEW = ("Tarn 24", "Tarn 12", "Tarn 25", "Tarn 26", "Tarn 13")  # enough kinds of start for the small sample
TELLING_OUT = 3000


def tickets(name: str, full: bool) -> Iterator[Ticket]:
    """Tickets one after the other; in the small sample those of a few models, whose tables are worked out once."""
    for number in range(TELLING_OUT):
        ticket = practice_ticket(name, number)
        if full or drawn_condition(ticket.seed_bytes)[1] in FEW:
            yield ticket


@cache
def worked_right(ticket: Ticket) -> tuple[dict[str, str], str]:
    """Answers and job sheet of the person who works by the book."""
    bench = bench_for(ticket)
    return right(bench), bench.sheet_text()


def judged(ticket: Ticket, answers: dict[str, str], sheet: str | None) -> tuple[LabMarks, StartCase]:
    """What judging makes of a hand-in, and the case that it looked at."""
    seen: list[StartCase] = []

    def make_case(ticket: Ticket, found: Replay | None) -> StartCase:
        seen.append(LAB.make_case(ticket, found))
        return seen[-1]

    return judge(replace(LAB, make_case=make_case), KEY, answers, ticket, sheet), seen[0]


def marked(ticket: Ticket, answers: dict[str, str], sheet: str | None) -> LabMarks:
    """What judging makes of a hand-in."""
    return judged(ticket, answers, sheet)[0]


@cache
def judged_right(ticket: Ticket) -> tuple[LabMarks, StartCase]:
    """The same of the person who works by the book."""
    return judged(ticket, *worked_right(ticket))


def applies(slip: str, case: StartCase) -> bool:
    """Whether a slip gives a value on a unit that is none of the right words."""
    found = next(m for m in LAB.misconceptions if m.key == slip)
    values = {name: found.value(case, name) for name in found.answers}
    right_words = FOUND[case.fault]
    return any(value not in (None, (), *right_words) for value in values.values())


def taken(count: int, full: bool) -> list[Ticket]:
    found = tickets("full marks", full)
    return [next(found) for _ in range(count)]


def lost(marks: LabMarks) -> set[str]:
    return {m.name for m in marks.marks if m.points != m.max_points}


def test_the_lab_is_worth_twenty_marks():
    """All points together are 20 in eight check cells, the last for the way of working."""
    assert LAB.points == 20
    assert len(LAB.questions) == 8
    assert LAB.questions[-1].name == "safe_order"
    assert LAB.questions[-1].points == 6


def test_who_measures_and_answers_right_gets_all(sample, figure, pytestconfig):
    """A person who works by the book earns 20 of 20 on every ticket."""
    count = sample(small=15, full=100)
    for number, ticket in enumerate(taken(count, pytestconfig.getoption("--full"))):
        marks, _ = judged_right(ticket)
        assert marks.points == 20, (number, drawn_condition(ticket.seed_bytes), lost(marks), marks.flags)
    figure("start circuits: tickets on which the right person earned 20/20", count)


def test_a_blank_hand_in_gets_nothing(sample, pytestconfig):
    """Blank earns 0, and every answer is 'not answered', not 'wrong'."""
    for ticket in taken(sample(small=6, full=100), pytestconfig.getoption("--full")):
        marks = marked(ticket, {}, None)
        assert marks.points == 0
        assert {m.standing for m in marks.marks if m.question != "safe_order"} == {Standing.NOT_ANSWERED}


def test_right_answers_without_readings_get_less_than_half(sample, figure, pytestconfig):
    """Right answers with no reading on the sheet stay below half of the marks."""
    some = taken(sample(small=6, full=100), pytestconfig.getoption("--full"))
    most = max(marked(ticket, worked_right(ticket)[0], bench_for(ticket).sheet_text()).points for ticket in some)
    assert most < LAB.points / 2
    figure("start circuits: most marks for right answers without readings", f"{most} of {LAB.points}")


@pytest.mark.parametrize("slip", [m.key for m in LAB.misconceptions])
def test_each_slip_gets_its_own_sentence(slip, sample, pytestconfig):
    """A person with one slip reads its sentence wherever it can be told, loses those marks, and is told of no other."""
    wanted, seen = sample(small=1, full=25), 0
    sentence = next(m.sentence for m in LAB.misconceptions if m.key == slip)
    for ticket in tickets(slip, pytestconfig.getoption("--full")):
        if not applies(slip, LAB.make_case(ticket, None)):
            continue
        bench = bench_for(ticket)
        marks, case = judged(ticket, SLIPS[slip](bench), bench.sheet_text())
        told = separable(case, slip)
        if not told:
            continue
        seen += 1
        found = {m.name: m for m in marks.marks if m.misconception == slip}
        assert set(told) <= set(found), (drawn_condition(ticket.seed_bytes), lost(marks))
        assert all(m.sentence == sentence and m.points == 0 for m in found.values())
        assert {m.misconception for m in marks.marks} == {None, slip}
        assert lost(marks) <= set(next(m.answers for m in LAB.misconceptions if m.key == slip))
        if seen == wanted:
            return
    pytest.fail(f"{slip}: told apart on {seen} tickets only")


def test_most_slips_can_be_told_apart_on_most_tickets(sample, figure, pytestconfig):
    """Of the tickets on which a slip gives a value at all, most let it be told; the share of each is printed."""
    applies: Counter[str] = Counter()
    told: Counter[str] = Counter()
    for ticket in taken(sample(small=15, full=100), pytestconfig.getoption("--full")):
        case = judged_right(ticket)[1]
        for m in LAB.misconceptions:
            if any(m.key in LAB.slips(case, name) for name in m.answers):
                applies[m.key] += 1
                told[m.key] += bool(separable(case, m.key))
    shares = {key: told[key] / n for key, n in applies.items()}
    for key in shares:
        figure(f"start circuits, slip told apart: {key}", f"{told[key]} of {applies[key]} tickets it applies to")
    assert sum(share >= 0.8 for share in shares.values()) >= 6


def test_every_sentence_is_one_sentence_of_its_own():
    """Each slip has one sentence and a person who makes it, and no two share one."""
    sentences = [m.sentence for m in LAB.misconceptions]
    assert len(set(sentences)) == len(sentences)
    assert all(s.endswith(".") and ". " not in s for s in sentences)
    assert set(SLIPS) == {m.key for m in LAB.misconceptions}


def test_tolerance_is_above_the_resolution(sample, pytestconfig):
    """Every tolerance on amps is wider than one digit of the clamp; that on the supply is more than one digit makes."""
    for ticket in taken(sample(small=6, full=100), pytestconfig.getoption("--full")):
        case = LAB.make_case(ticket, None)
        expected = KEY(case)
        for name in ("found_amps", "start_run", "start_start", "start_common", "running_line", "running_start"):
            assert all(tolerance > limit_of_clamp(value)[1] for value, tolerance in expected[name].numbers), name
        for ohm, tolerance in expected["source_ohm"].numbers:
            amps = (case.unit.parts.supply.volts - case.true_lowest) / ohm
            assert tolerance > 0.1 / amps


def test_every_condition_and_both_supplies_are_drawn():
    """Every fault, every model and both supplies turn up, each fault about as often."""
    count = 600
    drawn = [drawn_condition(practice_ticket("conditions", number).seed_bytes) for number in range(count)]
    faults = Counter(fault for fault, _ in drawn)
    assert set(faults) == set(FAULTS)
    assert {model for _, model in drawn} == set(MODELS)
    assert {model[5] for _, model in drawn} == {"1", "2"}
    assert min(faults.values()) > 0.4 * count / len(FAULTS)


def test_hazard_costs_its_mark():
    """Ohms with the plug in is on the sheet and costs the point for a sheet without hazards."""
    ticket = taken(1, False)[0]
    bench = bench_for(ticket)
    bench.perform("plug in")
    bench.perform("ohms", ("cord L", "cord N"))
    bench.perform("isolate")
    bench.perform("new meter")
    bench.perform("wait", ("1 h",))
    marks = marked(ticket, right(bench), bench.sheet_text())
    assert "no_hazard" in lost(marks)
    assert lost(marks) <= {"no_hazard", "proved_dead"}


@pytest.mark.parametrize(
    ("extra", "costs"), [(CLOSE, set()), (CLOSE + 1, {"best_test"}), (SLACK + 1, {"economy", "best_test"})]
)
def test_needless_readings_cost_the_marks_for_economy(extra, costs):
    """One reading too many is free, up to three cost one mark, more cost both; nothing else is lost."""
    ticket = taken(1, False)[0]
    bench = bench_for(ticket)
    for pair in (OUTLET, ("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E"), OUTLET):
        bench.perform("volts ac", pair)
    for number in range(extra):
        bench.perform(
            "ohms", (("lamp 1", "lamp 2"), ("plug N", "cord N"), ("cord E", "cord N"), ("plug L", "cord L"))[number]
        )
    assert lost(marked(ticket, right(bench), bench.sheet_text())) == costs


def test_a_reading_under_other_conditions_voids_no_evidence():
    """A person who also listens with the thermostat off, when all is silent, still earns 20 of 20."""
    ticket = taken(1, False)[0]
    bench = bench_for(ticket)
    bench.perform("plug in")
    bench.perform("thermostat off")
    bench.perform("listen")
    bench.perform("thermostat on")
    bench.perform("isolate")
    bench.perform("wait", ("12 h",))
    assert lost(marked(ticket, right(bench), bench.sheet_text())) == set()


def test_a_wrong_part_first_costs_the_repair_and_not_the_evidence():
    """Who fits a sound overload first and then finds the fault loses the point for the repair alone."""
    ticket = next(t for t in tickets("shotgun", False) if drawn_condition(t.seed_bytes)[0].name == "RELAY_COIL_OPEN")
    bench = bench_for(ticket)
    for pair in (OUTLET, ("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E"), OUTLET):
        bench.perform("volts ac", pair)
    bench.perform("take off", ("overload",))
    bench.perform("fit", ("overload",))
    assert lost(marked(ticket, right(bench), bench.sheet_text())) == {"repaired"}


def test_the_wrong_part_costs_the_mark_for_the_repair():
    """A part that is fitted though it has not failed costs the point for the repair."""
    ticket = next(t for t in tickets("repair", False) if drawn_condition(t.seed_bytes)[0].name == "SEIZED")
    bench = bench_for(ticket)
    answers = right(bench)
    bench.perform("isolate")
    bench.perform("take off", ("overload",))
    bench.perform("fit", ("overload",))
    found = marked(ticket, answers, bench.sheet_text())
    assert "repaired" in lost(found)
    assert "wrong" not in lost(found)


def test_the_notebook_takes_right_work_for_twenty(tmp_path):
    """The built notebook, worked on its own desk with the answers typed in, earns 20 of 20."""
    nbformat = pytest.importorskip("nbformat")
    notebook = nbformat.read(ROOT / "course" / LAB.folder / "lab.ipynb", as_version=4)
    ticket = next(
        ticket
        for ticket in (issue_ticket(b"a secret for the tests", "a course", LAB.name, f"ada{n}") for n in range(100))
        if drawn_condition(ticket.seed_bytes)[1] in FEW
    )
    (tmp_path / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    answers, sheet = worked_right(ticket)
    cells = {
        f"answer-{q.name.replace('_', '-')}": "\n".join(f'{a.name} = "{answers[a.name]}"' for a in q.answers)
        for q in LAB.questions
        if q.answers
    }
    work = "from coldwright.course.people.start_circuits import right\n\nright(desk.bench)\ndesk"
    done = run(filled(notebook, cells, {"desk": work}), tmp_path)
    assert (tmp_path / "job_sheet.jsonl").read_text(encoding="utf-8") == sheet
    for question in LAB.questions:
        said = printed(done, f"check-{question.name.replace('_', '-')}")
        assert not any(word in said for word in ("not answered", "cannot be read", "not there yet"))
    text = next(cell.source for cell in notebook.cells if cell.id == "job")
    assert all(f"| {question.title} | {question.points} |" in text for question in LAB.questions)
    assert marked(ticket, answers, sheet).points == 20
