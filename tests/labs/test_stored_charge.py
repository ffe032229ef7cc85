"""Lab 01 as a whole: scripted people on random tickets, judged with the real key; and its notebooks, run."""

from __future__ import annotations

import math
import shutil
from collections import Counter
from fractions import Fraction
from itertools import product
from pathlib import Path

import nbformat
import pytest

from coldwright.appliance.cooler import cooler
from coldwright.bench.hazards import Hazard
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.build import build
from coldwright.course.people.stored_charge import SLIPS, right
from coldwright.course.readability import reading_grades
from coldwright.instruments.meter_ranges import Function, limit_of
from coldwright.labs.stored_charge.solutions import solutions
from coldwright.labs.stored_charge.unit import (
    BUS,
    CAN_HAVE,
    CONDITIONS,
    MISSING,
    RUN,
    START,
    STORES,
    Job,
    draw_job,
    drawn_kind,
)
from coldwright.labs.stored_charge.van import EMPTY_V, FIT, WITHIN_S
from coldwright.labs.ticket import Ticket, issue_ticket, practice_ticket
from coldwright.marking.judge import judge
from coldwright.marking.marks import Standing
from tests.labs.scripted import Scripted, lost
from tests.notebooks.run_notebook import SOURCES, filled, printed, run

SCRIPTED = Scripted("stored_charge")
LAB, KEY = SCRIPTED.lab, SCRIPTED.key
bench_for, separable = SCRIPTED.bench_for, SCRIPTED.separable
hand_in, case_of = SCRIPTED.hand_in, SCRIPTED.case_of
CURRENT_RELAY = ["Tarn 14", "Tarn 24"]
FOLDER = "01_stored_charge"
WORK = "from coldwright.course.people.stored_charge import right\n\nright(desk.bench)\ndesk"


def job_with(store: str, condition: str) -> tuple[Ticket, Job]:
    """The first ticket that draws a store in a condition."""
    return job_of(condition, [model for model, kept in STORES.items() if kept == store])


def job_of(condition: str, models: list[str]) -> tuple[Ticket, Job]:
    """The first ticket that draws a condition in one of some models."""
    for number in range(600):
        ticket = practice_ticket("wanted", number)
        kind, model = drawn_kind(ticket.seed_bytes)
        if kind == condition and model in models:
            return ticket, draw_job(ticket.seed_bytes)
    pytest.fail(f"no {condition} in {models} was drawn")


def test_the_lab_is_worth_twenty_marks():
    """All points together are 20 over nine check cells, four of them for the way of working."""
    assert LAB.points == 20
    assert len(LAB.questions) == 9
    assert LAB.questions[-1].name == "safe_order"
    assert LAB.question("safe_order").points == 4


def test_every_answer_has_its_how_its_rule_and_its_solution():
    """Nothing is asked without a way to it, and each need of a reading says what counts."""
    answers = {a.name: a for q in LAB.questions for a in q.answers}
    case = LAB.make_case(practice_ticket("how", 1), None)

    assert set(LAB.how) == set(answers) == set(solutions(case)) == set(KEY(case))
    assert {a.needs for a in answers.values()} - {None} == set(LAB.rules)
    assert {name for m in LAB.misconceptions for name in m.answers} <= set(answers)


def test_who_measures_and_answers_right_gets_all(sample, figure):
    """A person who works by the book earns 20 of 20 on every ticket."""
    count = sample(small=15, full=100)
    for number in range(count):
        marks = hand_in(right, practice_ticket("full marks", number))
        assert marks.points == 20, (number, lost(marks), marks.flags)
    figure("tickets on which the right person earned 20/20", count)


def test_a_blank_hand_in_gets_nothing(sample):
    """Blank earns 0, and every answer is 'not answered', not 'wrong'."""
    for number in range(sample(small=15, full=100)):
        ticket = practice_ticket("blank", number)
        marks = judge(LAB, KEY, {}, ticket, bench_for(ticket).sheet_text())
        assert marks.points == 0
        assert {m.standing for m in marks.marks if m.question != "safe_order"} == {Standing.NOT_ANSWERED}


def test_right_answers_without_readings_get_less_than_half(sample, figure):
    """Right answers with no reading on the sheet stay below half of the marks."""
    most = Fraction(0)
    for number in range(sample(small=15, full=100)):
        ticket = practice_ticket("no readings", number)
        answers = right(bench_for(ticket))
        most = max(most, judge(LAB, KEY, answers, ticket, bench_for(ticket).sheet_text()).points)
    assert most < LAB.points / 2
    figure("most marks for right answers without readings", f"{most} of {LAB.points}")


def test_the_key_without_a_sheet_agrees_with_what_a_person_reads(sample):
    """What the key falls back on where nothing was read agrees with what a person reads, within the tolerance."""
    for number in range(sample(small=15, full=100)):
        ticket = practice_ticket("fall back", number)
        case = LAB.make_case(ticket, None)
        bench = bench_for(ticket)
        right(bench)
        read = KEY(case_of(ticket, bench.sheet_text()))
        for name, expected in KEY(case).items():
            assert expected.words == read[name].words
            if name == "volts_left":  # read later by the person, so it can only have fallen
                most = max(value + tolerance for value, tolerance in expected.numbers)
                assert all(other <= most for other, _ in read[name].numbers)
                continue
            for (value, tolerance), (other, more) in product(expected.numbers, read[name].numbers):
                assert abs(value - other) <= tolerance + more, name


@pytest.mark.parametrize("slip", list(SLIPS))
def test_each_slip_gets_its_own_sentence(slip, sample):
    """A person with one slip reads its sentence wherever it can be told, loses those marks, and is told of no other."""
    wanted, seen, number = sample(small=3, full=25), 0, 0
    sentence, names = next((m.sentence, m.answers) for m in LAB.misconceptions if m.key == slip)
    while seen < wanted:
        number += 1
        assert number < 1500, f"{slip}: only {seen} tickets on which it can be told"
        ticket = practice_ticket("one slip", number)
        first_look = LAB.make_case(ticket, None)
        if not any(slip in LAB.slips(first_look, name) for name in names):
            continue
        bench = bench_for(ticket)
        answers = SLIPS[slip](bench)
        told = separable(case_of(ticket, bench.sheet_text()), slip)
        if not told:
            continue
        seen += 1
        marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
        found = {m.name for m in marks.marks if m.misconception == slip}
        assert found == set(told), (number, told, lost(marks))
        assert all(m.sentence == sentence and m.points == 0 for m in marks.marks if m.misconception == slip)
        assert {m.misconception for m in marks.marks} <= {None, slip}, number


def test_most_slips_can_be_told_apart_on_most_tickets(sample, figure):
    """Of the tickets on which a slip gives a value at all, most let it be told; the share of each is printed."""
    applies: Counter[str] = Counter()
    told: Counter[str] = Counter()
    for number in range(sample(small=20, full=100)):
        bench = bench_for(ticket := practice_ticket("share", number))
        right(bench)
        case = case_of(ticket, bench.sheet_text())
        for m in LAB.misconceptions:
            if any(m.key in LAB.slips(case, name) for name in m.answers):
                applies[m.key] += 1
                told[m.key] += bool(separable(case, m.key))
    for key, n in applies.items():
        figure(f"slip told apart: {key}", f"{told[key]} of {n} tickets it applies to ({told[key] / n:.0%})")
    assert set(SLIPS) == {m.key for m in LAB.misconceptions}
    assert sum(told[key] >= 0.8 * n for key, n in applies.items()) >= 15


def test_every_sentence_is_one_sentence_of_its_own():
    """Each slip has one sentence, and no two share it."""
    sentences = [m.sentence for m in LAB.misconceptions]
    assert len(set(sentences)) == len(sentences) >= 6
    assert all(s.endswith(".") and ". " not in s for s in sentences)


def test_every_condition_model_and_supply_is_drawn(sample):
    """Each condition of each store, each model and both supplies turn up; no condition is rare."""
    count = sample(small=300, full=3000)
    kinds = [drawn_kind(practice_ticket("conditions", n).seed_bytes) for n in range(count)]
    conditions = Counter(condition for condition, _ in kinds)

    assert {(STORES[model], condition) for condition, model in kinds} == {
        (store, condition) for condition, stores in CAN_HAVE.items() for store in stores
    }
    assert {model for _, model in kinds} == set(STORES)
    assert {cooler(model).hertz for _, model in kinds} == {50.0, 60.0}
    assert set(conditions) == set(CONDITIONS)
    assert min(conditions.values()) > count / 6 / 2


def test_every_cooler_comes_in_running(sample):
    """The notebook says that it runs: whatever is wrong with its capacitor, the motor turns as the job begins."""
    for number in range(sample(small=30, full=400)):
        job = draw_job(practice_ticket("runs", number).seed_bytes)
        assert job.store == BUS or job.unit.arrival.speed > 0, (number, job.unit.cooler.model, job.condition)


def test_tolerance_is_above_the_resolution(sample):
    """Every tolerance on a reading is wider than one digit of the meter, and worked-out numbers allow three digits."""
    for number in range(sample(small=15, full=200)):
        case = LAB.make_case(practice_ticket("tolerance", number), None)
        expected = KEY(case)
        for name, function in (("volts_left", Function.VOLTS_DC), ("ohms_across", Function.OHMS)):
            for value, tolerance in expected[name].numbers:
                assert tolerance > limit_of(function, value)[1], name
        for name in ("peak_volts", "charge", "energy", "low_lead_watts", "high_lead_time", "bleed_ohm", "bleed_watts"):
            assert all(tolerance >= 0.0005 * value for value, tolerance in expected[name].numbers), name


def test_one_lead_is_fit_for_the_job_and_each_other_is_not(sample):
    """By V²/R and R·C·ln(V/5 V), worked by hand here: one lead keeps both rules, one is too weak, one too slow."""
    for number in range(sample(small=20, full=300)):
        case = LAB.make_case(practice_ticket("leads", number), None)
        volts, farad = case.peaks[0].value, case.farads[0].value
        fits = {
            letter: (
                volts**2 / lead.ohm <= 10 * lead.watts,
                lead.ohm * farad * math.log(volts / EMPTY_V) <= WITHIN_S,
            )
            for letter, lead in case.job.leads.items()
        }
        assert sorted(fits.values()) == [(False, True), (True, False), (True, True)], number
        assert case.job.leads[next(k for k, both in fits.items() if all(both))].worth == FIT


@pytest.mark.parametrize(("farad", "volts", "joules"), [(1e-6, 1000.0, 0.5), (100e-6, 300.0, 4.5)])
def test_energy_by_hand_in_the_key(farad, volts, joules):
    """½·C·V²: 1 µF at 1000 V holds 0.5 J, 100 µF at 300 V holds 4.5 J."""
    from coldwright.labs.stored_charge.formulas import formulas

    _, job = job_with(START, MISSING)
    assert formulas(job)["energy"](volts, farad, 1.0) == pytest.approx(joules, rel=1e-12)


def test_a_missing_bleed_resistor_leaves_the_charge_on_it():
    """With a current relay and no bleed resistor the volts of the first reading still stand there 12 hours later."""
    ticket, job = job_of(MISSING, CURRENT_RELAY)
    bench = bench_for(ticket)
    bench.perform("isolate")
    first = bench.perform("volts dc", job.ends).display
    bench.perform("wait", ("12 h",))
    last = bench.perform("volts dc", job.ends).display

    assert first.value > 50
    assert last.value == first.value


def test_the_bus_of_a_board_begins_at_the_peak_of_the_supply_and_falls_with_its_resistor():
    """√2 × the volts of the supply while it is plugged in; then V·exp(-t / RC) between two readings 75 s apart."""
    ticket, job = job_with(BUS, "in order")
    bench = bench_for(ticket)
    supply = bench.perform("volts ac", ("plug L", "plug N")).display
    bus = bench.perform("volts dc", job.ends).display
    bench.perform("isolate")
    first = bench.perform("volts dc", job.ends).display
    bench.perform("wait", ("1 min",))
    second = bench.perform("volts dc", job.ends).display

    assert bus.value == pytest.approx(math.sqrt(2) * supply.value, abs=math.sqrt(2) * supply.limit + bus.limit)
    constant = job.ohm_across * job.farad  # the bleed resistor, and the rectifier beside it
    assert second.value == pytest.approx(first.value * math.exp(-75 / constant), rel=0.01)


def test_a_run_capacitor_is_emptied_by_the_windings():
    """No bleed resistor is fitted, and with the plug out nothing is left, whatever it held at work."""
    ticket, job = job_with(RUN, "in order")
    bench = bench_for(ticket)
    bench.perform("isolate")

    assert job.makers_bleed_ohm is None
    assert bench.perform("volts dc", job.ends).display.value == pytest.approx(0.0, abs=0.003)


def test_a_hazard_costs_its_mark():
    """Ohms on a live unit stands on the sheet and costs the point for a sheet without hazards, nothing else."""
    ticket, _ = job_with(RUN, "low")

    def careless(bench: UnitBench) -> dict[str, str]:
        answers = right(bench)
        bench.perform("plug in")
        bench.perform("ohms", ("plug L", "plug N"))
        assert bench.hazards[0][1] is Hazard.OHMS_ON_LIVE
        return answers

    assert [name for name, _, _ in lost(hand_in(careless, ticket))] == ["no_hazard"]


def test_hands_on_a_charged_capacitor_cost_two_marks():
    """Who takes a charged capacitor off gets the shock, and no point for emptying it or for a clean sheet."""
    ticket, job = job_of(MISSING, CURRENT_RELAY)

    def hasty(bench: UnitBench) -> dict[str, str]:
        bench.perform("volts ac", ("outlet L", "outlet N"))
        bench.perform("isolate")
        for pair in (("plug L", "plug N"), ("plug L", "plug E"), ("plug N", "plug E"), ("outlet L", "outlet N")):
            bench.perform("volts ac", pair)
        bench.perform("volts dc", job.ends)
        bench.perform("take off", (job.store,))
        assert bench.hazards[0][1] is Hazard.TOUCHED_CHARGED
        bench.perform("put back", (job.store,))
        bench.perform("plug in")
        return right(bench)

    assert {name for name, _, _ in lost(hand_in(hasty, ticket))} == {"no_hazard", "emptied"}


@pytest.mark.parametrize(
    "left_out",
    [
        ("volts ac", "outlet L", "outlet N"),
        ("volts ac", "plug L", "plug E"),
        ("volts ac", "plug N", "plug E"),
    ],
)
def test_a_proof_of_dead_with_a_step_left_out_costs_its_mark(left_out):
    """Without the last live try, or without one pair, the unit was not proved dead: that mark and no other."""
    ticket, _ = job_with(START, "in order")
    done, again = bench_for(ticket), bench_for(ticket)
    answers = right(done)
    for line in done.lines:
        if (line.act, *line.on) != left_out:
            again.perform(line.act, line.on)

    assert [name for name, _, _ in lost(judge(LAB, KEY, answers, ticket, again.sheet_text()))] == ["proved_dead"]


def test_ohms_on_a_board_by_hand():
    """In its place two rectifiers of 1 MΩ lie beside the bleed resistor: R · 2 MΩ / (R + 2 MΩ), and 2 MΩ burnt open.

    The megohms are the model's own choice (illustrative); product over sum is worked by hand.
    """
    for condition in ("in order", "bleed resistor open", "bleed resistor too high"):
        _, job = job_with(BUS, condition)
        bleed = job.board.bleed_ohm
        assert job.ohm_across == pytest.approx(bleed * 2e6 / (bleed + 2e6), rel=1e-3)
        made = job.makers_bleed_ohm
        assert job.sheet_ohm == pytest.approx((made * 2e6 / (made + 2e6), 2e6), rel=1e-3)
        assert (abs(job.ohm_across / job.sheet_ohm[0] - 1) <= 0.1) is (condition == "in order")


def test_reasons_name_what_was_compared():
    """A leak in a run capacitor is held against OL, not against a resistor; volts that are printed are named so."""
    found, start = (
        solutions(LAB.make_case(job_with(store, condition)[0], None))
        for store, condition in ((RUN, "leaky"), (START, "low"))
    )

    assert "where the maker fits no bleed resistor and a good one shows OL." in found["condition"].reason
    assert start["bleed_watts"].reason.startswith("Plan for the ")
    assert "RMS printed on it" in start["bleed_watts"].reason
    assert start["lead"].reason.count(" s to 5 V") == 3


def test_who_never_reads_before_the_discharge_gets_no_points_for_the_way():
    """Discharged at once, the volts left were never read: nothing backs that answer, and it is named as missing."""
    ticket, job = job_with(START, "in order")
    bench = bench_for(ticket)
    for act, *on in (("isolate",), ("volts ac", "plug L", "plug N"), ("discharge", job.store)):
        bench.perform(act, tuple(on))
    answers = right(bench)
    marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
    work = [m for m in marks.marks if m.question == "safe_order"]

    assert all(m.points == 0 for m in work)
    assert any("before it is discharged" in each for each in marks.missing)
    assert "volts_left" in [name for name, _, _ in lost(marks)]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """This topic's folder, built from its sources alone."""
    sources, course = tmp_path_factory.mktemp("sources"), tmp_path_factory.mktemp("course")
    shutil.copytree(SOURCES / FOLDER, sources / FOLDER)
    build(sources, course)
    return course / FOLDER


def test_the_lab_notebook_runs_with_a_persons_answers(built, tmp_path):
    """Readings on the notebook's own desk, answers typed in: each is read back, and the judge gives 20 of 20."""
    notebook = nbformat.read(built / "lab.ipynb", as_version=4)
    ticket = issue_ticket(b"a secret for the tests", "a course", LAB.name, "ada")
    spare = bench_for(ticket)
    answers = right(spare)
    (tmp_path / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    cells = {
        f"answer-{q.name.replace('_', '-')}": "\n".join(f'{a.name} = "{answers[a.name]}"' for a in q.answers)
        for q in LAB.questions
        if q.answers
    }

    done = run(filled(notebook, cells, {"desk": WORK}), tmp_path)

    sheet = (tmp_path / "job_sheet.jsonl").read_text(encoding="utf-8")
    assert sheet == spare.sheet_text()
    for question in LAB.questions:
        said = printed(done, f"check-{question.name.replace('_', '-')}")
        assert not any(word in said for word in ("not answered", "cannot be read", "not there yet", "✓", "✗"))
    assert judge(LAB, KEY, answers, ticket, sheet).points == 20


def test_the_lesson_runs_and_its_numbers_are_those_of_print_and_hand(built, tmp_path):
    """Bird's example prints 4.4 V; 200 µF at 165 V hold 2.72 J as 50 µF at 330 V do; 325² / 4700 is 22.5 W."""
    notebook = nbformat.read(built / "lesson.ipynb", as_version=4)
    safe = ('isolate"', 'volts ac", "plug L", "plug N"', 'volts dc", "start capacitor 1", "start capacitor 2"')
    work = "\n".join(f'desk.do("{act})' for act in safe)

    done = run(filled(notebook, {"prediction": 'predicted = "0 V"'}, {"desk": work}), tmp_path)

    assert "You predicted 0 V." in printed(done, "compare")
    assert "more than the instrument may be off" in printed(done, "compare")
    assert "there are 4.36 V left" in printed(done, "time-example")  # 24 · exp(-1.5 / 0.88) by hand; 4.4 as printed
    assert printed(done, "energy").count("2.72 J") == 2
    assert "22.5 W at first, 11.6 J in all" in printed(done, "bleed")
    assert "100 µF, 4.50 J" in printed(done, "two")
    assert "24 µF, 1.08 J" in printed(done, "two")
    assert "IN TIME" in printed(done, "real-unit")


def test_the_units_named_in_the_lesson_are_what_it_says():
    """Unit 24 keeps its charge for want of a bleed resistor; 20 is a board, 21 a run capacitor, 15 burnt, 18 leaky."""
    jobs = {n: draw_job(practice_ticket("stored_charge", n).seed_bytes) for n in (24, 20, 21, 15, 18)}

    assert (jobs[24].condition, jobs[24].unit.cooler.model) == (MISSING, "Tarn 14")
    assert (jobs[20].store, jobs[20].condition) == (BUS, "in order")
    assert (jobs[21].store, jobs[21].condition) == (RUN, "in order")
    assert (jobs[15].store, jobs[15].condition) == (START, "bleed resistor open")
    assert (jobs[18].store, jobs[18].condition) == (START, "leaky")


def test_the_notebooks_table_of_marks_is_that_of_the_lab(built):
    """Each question stands in it with its points, and under its own heading in the same order."""
    cells = nbformat.read(built / "lab.ipynb", as_version=4).cells
    text = "\n".join(cell.source for cell in cells if cell.cell_type == "markdown")
    rows = dict(line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| "))
    rows.pop("Question")
    headings = [line for line in text.splitlines() if line.startswith("## ") and line[3].isdigit()]

    assert rows == {question.title: str(question.points) for question in LAB.questions}
    assert headings == [f"## {n}. {question.title}" for n, question in enumerate(LAB.questions, 1)]


def test_the_text_is_plain(figure):
    """Lesson and lab stay at or below school grade 9."""
    grades = {name: grade for name, grade in reading_grades(SOURCES).items() if name.startswith(FOLDER)}
    for name, grade in grades.items():
        figure(f"reading grade of {name}", f"{grade:.1f}")
    assert len(grades) == 2
    assert max(grades.values()) <= 9
