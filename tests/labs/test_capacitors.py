"""Lab 05 as a whole: scripted people on random tickets, judged with the real key; and its notebook."""

from __future__ import annotations

import math
import shutil
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import nbformat
import numpy as np
import pytest

from coldwright.bench.hazards import Hazard
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.build import build
from coldwright.course.people.capacitors import SLIPS, right
from coldwright.instruments.meter_ranges import Function, limit_of
from coldwright.labs.capacitors.shelf import FITS
from coldwright.labs.capacitors.solutions import solutions
from coldwright.labs.capacitors.unit import MODELS, RUN, START, draw_job
from coldwright.labs.ticket import Ticket, issue_ticket, practice_ticket
from coldwright.marking.judge import judge
from coldwright.marking.marks import Standing
from tests.labs.scripted import Scripted, lost
from tests.notebooks.run_notebook import SOURCES, filled, printed, run

SCRIPTED = Scripted("capacitors")
LAB, KEY = SCRIPTED.lab, SCRIPTED.key
bench_for, separable = SCRIPTED.bench_for, SCRIPTED.separable
hand_in, case_of = SCRIPTED.hand_in, SCRIPTED.case_of
FOLDER = "05_capacitors"
WORK = "from coldwright.course.people.capacitors import right\n\nright(desk.bench)\ndesk"


def test_the_lab_is_worth_twenty_marks():
    """All points together are 20 over eight check cells, four of them for the way of working."""
    assert LAB.points == 20
    assert len(LAB.questions) == 8
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


@pytest.mark.parametrize("slip", list(SLIPS))
def test_each_slip_gets_its_own_sentence(slip, sample):
    """A person with one slip reads its sentence wherever it can be told, loses those marks, and is told of no other."""
    wanted, seen, number = sample(small=3, full=25), 0, 0
    sentence, names = next((m.sentence, m.answers) for m in LAB.misconceptions if m.key == slip)
    while seen < wanted:
        number += 1
        assert number < 1500, f"{slip}: only {seen} tickets on which it can be told"
        ticket = practice_ticket("one slip", number)
        if not any(slip in LAB.slips(LAB.make_case(ticket, None), name) for name in names):
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


def test_every_condition_and_both_supplies_are_drawn(sample):
    """Each model, each condition of a start and of a run capacitor, both ways of joining two, 120 V and 230 V."""
    seen, jobs = set(), [draw_job(practice_ticket("conditions", n).seed_bytes) for n in range(sample(300, 300))]
    for job in jobs:
        seen |= {job.unit.cooler.model, (job.component, job.ending), job.pair.in_parallel, job.unit.cooler.hertz}
    endings = ("", "OPEN", "SHORTED", "LOW", "LEAKY", "WRONG_VALUE", "WRONG_VOLTAGE")
    assert seen == {*MODELS, *((c, e) for c in (START, RUN) for e in endings), True, False, 50.0, 60.0}


def test_one_spare_fits_and_each_other_breaks_one_rule(sample):
    """The rule of replacement finds no fault with one spare, and with each other one what was drawn for it."""
    words = {
        "capacitance": "may have",
        "voltage": "it is for",
        "type": "is a ",
        "frequency": "not marked",
        "bleed resistor": "bleed",
    }
    for number in range(sample(small=60, full=300)):
        job = draw_job(practice_ticket("shelf", number).seed_bytes)
        for letter, spare in job.shelf.items():
            reasons = job.reasons(letter)
            if spare.breaks == FITS:
                assert reasons == []
            else:
                (reason,) = reasons
                assert words[spare.breaks] in reason, (number, letter)
        assert sorted(job.shelf[c].breaks for c in job.shelf if c != job.fitting) == sorted(
            words if job.component == START else set(words) - {"bleed resistor"}
        )


def test_two_odd_capacitors_make_up_the_nameplate_by_hand(sample):
    """In parallel P + Q, in series P·Q / (P + Q) is the value on the nameplate, and only one of the two is."""
    for number in range(sample(small=60, full=300)):
        job = draw_job(practice_ticket("pair", number).seed_bytes)
        p, q, wanted = job.pair.p_farad, job.pair.q_farad, job.plate[0]
        sums, products = p + q, p * q / (p + q)
        assert p < q
        assert (sums if job.pair.in_parallel else products) == pytest.approx(wanted, rel=1e-9)
        assert abs((products if job.pair.in_parallel else sums) / wanted - 1) > 0.2


def test_the_slip_gives_the_motor_within_the_power_meters_limits(sample):
    """Watts over amps squared and volts over amps of the slip are R and Z of the motor, within the meter's limits."""
    for number in range(sample(small=30, full=200)):
        job = draw_job(practice_ticket("slip", number).seed_bytes)
        motor = job.unit.parts.motor
        for held, ohm in ((job.slip.run, motor.run_ohm), (job.slip.start, motor.start_ohm)):
            volts, amps, watts = (reading.value for reading in held.readings)
            off = sum(reading.limit / reading.value for reading in held.readings) + held.amps.limit / amps
            assert watts / amps**2 > ohm * (1 - off)  # the rotor adds its part to the winding's own resistance
            assert abs(held.impedance) == pytest.approx(volts / amps, rel=1e-9)
        assert job.slip.run.volts.value == pytest.approx(0.5 * job.unit.parts.supply.volts, rel=0.015)


def test_the_key_by_plain_arithmetic(sample):
    """By hand from the work order: tolerance, shares, C = I/2πfV, R = W/I², X from Z; sizes by trying every 0.1 %."""
    for number in range(sample(small=15, full=100)):
        case = LAB.make_case(practice_ticket("by hand", number), None)
        job, expected = case.job, KEY(case)
        farad, volts = job.plate
        start, hertz = job.component == START, job.unit.cooler.hertz
        p, q = job.pair.p_farad, job.pair.q_farad
        r_r, x_r = _by_hand(job.slip.run)
        r_s, x_s = _by_hand(job.slip.start)
        by_hand = {
            "lowest_allowed": farad if start else 0.95 * farad,
            "highest_allowed": 1.2 * farad if start else 1.05 * farad,
            "volts_on_p": volts if job.pair.in_parallel else volts * q / (p + q),
        }
        tried = np.geomspace(farad / 20, farad * 50, 12000)
        i_r, i_s = 1 / complex(r_r, x_r), 1 / (r_s + 1j * (x_s - 1 / (2 * np.pi * hertz * tried)))
        torque = (i_s * np.conj(i_r)).imag
        by_hand["most_torque"] = tried[torque.argmax()]
        by_hand["most_torque_per_amp"] = tried[(torque / abs(i_r + i_s)).argmax()]
        by_hand["quadrature"] = tried[abs((i_s * np.conj(i_r)).real).argmin()]
        if start:
            x_c = 1 / (2 * math.pi * hertz * farad)
            by_hand["volts_in_service"] = job.unit.cooler.volts * x_c / math.hypot(r_s, x_s - x_c)
        for name, value in by_hand.items():
            assert expected[name].numbers[0][0] == pytest.approx(value, rel=2e-3), (number, name)
        if start and expected["under_load"].numbers:
            v, a = (display.value for display in job.slip.load)
            assert expected["under_load"].numbers[0][0] == pytest.approx(a / (2 * math.pi * hertz * v), rel=1e-9)


def _by_hand(held) -> tuple[float, float]:
    volts, amps, watts = (reading.value for reading in held.readings)
    resistance = watts / amps**2
    return resistance, math.sqrt((volts / amps) ** 2 - resistance**2)


def test_the_three_sizes_stand_in_their_order(sample):
    """Quadrature asks for the least capacitance, most torque per amp for more, most torque for the most."""
    for number in range(sample(small=30, full=200)):
        expected = KEY(LAB.make_case(practice_ticket("sizes", number), None))
        numbers = [expected[n].numbers[0][0] for n in ("quadrature", "most_torque_per_amp", "most_torque")]
        assert numbers == sorted(numbers)


def test_tolerance_is_above_the_resolution(sample):
    """Every tolerance on a reading is wider than one digit of the meter that shows it."""
    for number in range(sample(small=30, full=200)):
        case = LAB.make_case(practice_ticket("tolerance", number), None)
        expected = KEY(case)
        for value, tolerance in expected["capacitance"].numbers:
            assert tolerance > limit_of(Function.CAPACITANCE, value)[1]
        for value, tolerance in expected["volts_in_service"].numbers:
            assert tolerance > limit_of(Function.VOLTS_AC, value)[1]
        for name in ("quadrature", "most_torque", "most_torque_per_amp", "under_load"):
            assert all(tolerance > 0.005 * value for value, tolerance in expected[name].numbers), name


def test_a_run_capacitor_at_work_has_more_than_the_supply_across_it(sample):
    """The volts that the lab asks for are above the supply on every unit with a run capacitor that was put right."""
    found = 0
    for number in range(sample(small=20, full=100)):
        case = LAB.make_case(practice_ticket("at work", number), None)
        if case.job.component == RUN:
            found += 1
            assert case.at_work[0] > 1.2 * case.job.unit.cooler.volts
    assert found


def _first(component: str, *endings: str, models: Sequence[str] = MODELS) -> Ticket:
    for number in range(400):
        ticket = practice_ticket("wanted", number)
        job = draw_job(ticket.seed_bytes)
        if job.component == component and job.ending in endings and job.unit.cooler.model in models:
            return ticket
    pytest.fail(f"no {component} {endings} was drawn")


def test_a_hazard_costs_its_mark():
    """Ohms on a live unit stands on the sheet and costs the point for a sheet without hazards, nothing else."""
    ticket = _first(RUN, "LOW")

    def careless(bench: UnitBench) -> dict[str, str]:
        answers = right(bench)
        bench.perform("ohms", ("plug L", "plug N"))
        assert bench.hazards[0][1] is Hazard.OHMS_ON_LIVE
        bench.perform("new meter")
        return answers

    assert [name for name, _, _ in lost(hand_in(careless, ticket))] == ["no_hazard"]


@pytest.mark.parametrize("left_out", [0, 1, 2, 3, 4])
def test_a_proof_of_dead_with_a_step_left_out_costs_its_mark(left_out):
    """Live source, three pairs, live source: each one left out costs the mark for proving dead, and no other."""
    ticket = _first(RUN, "LOW")
    done, again = bench_for(ticket), bench_for(ticket)
    answers = right(done)
    steps = [line.n for line in done.lines if line.act == "volts ac"][:5]
    for line in done.lines:
        if line.n != steps[left_out]:
            again.perform(line.act, line.on)

    assert [name for name, _, _ in lost(judge(LAB, KEY, answers, ticket, again.sheet_text()))] == ["proved_dead"]


@pytest.mark.parametrize("component", [START, RUN])
def test_a_shorted_capacitor_shows_ol_and_both_words_are_right(component):
    """A short never charges: the meter shows OL on capacitance; "OL" and "shorted" count, "open" and 0 do not."""
    ticket = _first(component, "SHORTED")
    bench = bench_for(ticket)
    answers = right(bench)
    shown = [line.shown for line in bench.lines if line.act == "capacitance"]
    points = {
        typed: {
            m.name: m.points
            for m in judge(LAB, KEY, {**answers, "capacitance": typed}, ticket, bench.sheet_text()).marks
        }
        for typed in ("OL", "shorted", "open", "0 uF")
    }

    assert shown == ["OL"]
    assert {typed: found["capacitance"] for typed, found in points.items()} == {
        "OL": 2,
        "shorted": 2,
        "open": 0,
        "0 uF": 0,
    }


def test_a_bleed_resistor_is_named_as_on_a_part(sample):
    """15 kΩ, as it is printed, in every reason that names it."""
    reasons = [
        solution.reason
        for number in range(sample(small=15, full=60))
        for solution in solutions(LAB.make_case(practice_ticket("reasons", number), None)).values()
    ]
    assert not any("15000" in reason for reason in reasons)
    assert any("the maker's one has 15 kΩ across" in reason for reason in reasons)


@pytest.mark.parametrize(("breaks", "charged"), [("bleed resistor", True), (FITS, False)])
def test_without_its_bleed_resistor_it_is_measured_charged(breaks, charged):
    """After a start a spare without a bleed resistor keeps its charge: the meter shows no number."""
    ticket = _first(START, "LOW", models=("Tarn 14", "Tarn 24"))
    job = draw_job(ticket.seed_bytes)
    spare = next(letter for letter, each in job.shelf.items() if each.breaks == breaks)
    bench = bench_for(ticket)
    for act, *on in (("discharge", START), ("take off", START), ("fit", START, spare), ("inrush", f"{START} 1")):
        bench.perform(act, tuple(on))
    bench.perform("isolate")
    told = bench.perform("capacitance", job.ends)

    assert (Hazard.CAPACITANCE_ON_CHARGED in told.hazards) is charged
    assert math.isnan(told.display.value) is charged


def test_the_wrong_spare_costs_the_repair():
    """Who writes the right letter but fits another spare loses the point for the repair alone."""
    ticket = _first(START, "LOW")
    job = draw_job(ticket.seed_bytes)
    wrong = next(letter for letter, spare in job.shelf.items() if spare.breaks == "voltage")

    def clumsy(bench: UnitBench) -> dict[str, str]:
        answers = right(bench)
        for act, *on in (("isolate",), ("take off", START), ("fit", START, wrong)):
            bench.perform(act, tuple(on))
        return answers

    assert [name for name, _, _ in lost(hand_in(clumsy, ticket))] == ["repaired"]


def test_no_proof_after_the_repair_costs_the_repair():
    """A part fitted last, with nothing proved after it, earns no point for the repair."""
    ticket = _first(RUN, "")

    def hasty(bench: UnitBench) -> dict[str, str]:
        answers = right(bench)
        for act, *on in (("isolate",), ("discharge", RUN), ("take off", RUN), ("put back", RUN)):
            bench.perform(act, tuple(on))
        return answers

    assert [name for name, _, _ in lost(hand_in(hasty, ticket))] == ["repaired"]


@pytest.mark.parametrize("ending", ["OPEN", "SHORTED"])
def test_a_dead_run_capacitor_read_at_work_is_no_reading(ending):
    """Amps of 0 or volts of 0 give no capacitance under load; such readings are passed over and marking goes on."""
    ticket = _first(RUN, ending)

    def hurried(bench: UnitBench) -> dict[str, str]:
        bench.perform("plug in")
        bench.perform("wait", ("10 s",))
        bench.perform("volts ac", ("run capacitor 1", "run capacitor 2"))
        bench.perform("clamp", ("run capacitor 1",))
        return {"under_load": "5 uF", "volts_in_service": "300 V"}

    marks = hand_in(hurried, ticket)
    assert marks.points == 0
    assert {m.name for m in marks.marks if m.standing is Standing.RIGHT} == set()


@pytest.mark.parametrize(("left_out", "words"), [("inspect", "a look at"), ("clamp", "amps in its wire")])
def test_work_points_wait_for_every_reading(left_out, words):
    """Without one needed reading no point for the way of working is given, and what is missing is named."""
    ticket = _first(RUN, "LOW")
    bench = bench_for(ticket)
    done = bench.perform

    def perform(act, on=()):
        if act == left_out:
            return bench_for(ticket).perform("inspect", (RUN,)) if act == "inspect" else _shows(done, act, on, ticket)
        return done(act, on)

    bench.perform = perform
    answers = right(bench)
    marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
    work = [m for m in marks.marks if m.question == "safe_order"]

    assert all(m.points == 0 for m in work)
    assert any(words in each for each in marks.missing)


def _shows(_done, act, on, ticket):
    spare = bench_for(ticket)
    spare.perform("plug in")
    return spare.perform(act, on)


def built_lab(folder: Path) -> nbformat.NotebookNode:
    """The lab's notebook as handed out, built from the scripts of this topic alone."""
    shutil.copytree(SOURCES / FOLDER, folder / "sources" / FOLDER)
    build(folder / "sources", folder / "course")
    return nbformat.read(folder / "course" / FOLDER / "lab.ipynb", as_version=4)


def test_the_lab_notebook_runs_with_a_persons_answers(tmp_path):
    """Readings on the notebook's own desk, answers typed in: each is read back, and the judge gives 20 of 20."""
    notebook = built_lab(tmp_path)
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


def test_the_notebooks_table_of_marks_is_that_of_the_lab(tmp_path):
    """Each question stands in it with its points, and under its own heading in the same order."""
    cells = built_lab(tmp_path).cells
    text = "\n".join(cell.source for cell in cells if cell.cell_type == "markdown")
    rows = dict(line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| "))
    rows.pop("Question")
    headings = [line for line in text.splitlines() if line.startswith("## ") and line[3].isdigit()]

    assert rows == {question.title: str(question.points) for question in LAB.questions}
    assert headings == [f"## {n}. {question.title}" for n, question in enumerate(LAB.questions, 1)]
