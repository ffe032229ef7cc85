"""Lab 02 as a whole: scripted people on random tickets, judged with the real key; and its notebook."""

from __future__ import annotations

import shutil
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import nbformat
import pytest

from coldwright.answers.forms import read_answer
from coldwright.appliance.operation import Operation
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.replay import Replay
from coldwright.bench.unit_bench import UnitBench
from coldwright.course.build import build
from coldwright.course.people.reading_the_circuit import SLIPS, right
from coldwright.instruments.meter_ranges import Function, limit_of, limit_of_ohms
from coldwright.labs.practice import Found, practice_unit
from coldwright.labs.reading_the_circuit.fault_words import WHY, WRONG
from coldwright.labs.reading_the_circuit.needs import best, counted
from coldwright.labs.reading_the_circuit.solutions import solutions
from coldwright.labs.reading_the_circuit.unit import (
    COMPLAINTS,
    FAULTS,
    MODELS,
    draw_unit,
    faulty_component,
    is_frost_free,
)
from coldwright.labs.ticket import Ticket, issue_ticket, practice_ticket
from coldwright.marking.judge import judge
from coldwright.marking.marks import Standing
from tests.labs.scripted import Scripted, lost
from tests.notebooks.run_notebook import SOURCES, filled, printed, run

SCRIPTED = Scripted("reading_the_circuit")
LAB, KEY = SCRIPTED.lab, SCRIPTED.key
bench_for, separable = SCRIPTED.bench_for, SCRIPTED.separable
FOLDER = "02_reading_the_circuit"
WORK = "from coldwright.course.people.reading_the_circuit import right\n\nright(desk.bench)\ndesk"
F = FaultName
HARMLESS = (F.DOOR_SWITCH_OPEN, F.DOOR_SWITCH_CLOSED, F.THERMOSTAT_CLOSED)  # current flows all the same


@cache
def worked(number: int) -> tuple[Ticket, UnitBench, dict[str, str]]:
    """A ticket worked through by the right person: bench and answers, kept for every test that looks at them."""
    ticket = practice_ticket("worked", number)
    bench = bench_for(ticket)
    return ticket, bench, right(bench)


def ticket_with(fault: FaultName) -> Ticket:
    """The first ticket that draws a fault."""
    tickets = (practice_ticket("one of each", number) for number in range(1000))
    return next(ticket for ticket in tickets if draw_unit(ticket.seed_bytes).fault.name is fault)


def test_the_lab_is_worth_twenty_marks():
    """All points together are 20 over nine check cells, five of them for the way of working."""
    assert LAB.points == 20
    assert len(LAB.questions) == 9
    assert LAB.questions[-1].name == "safe_order"
    assert LAB.question("safe_order").points == 5


def test_every_answer_has_its_how_its_rule_and_its_solution():
    """Nothing is asked without a way to it, and each need of a reading says what counts."""
    answers = {a.name: a for q in LAB.questions for a in q.answers}
    case = LAB.make_case(practice_ticket("how", 1), None)

    assert set(LAB.how) == set(answers) == set(solutions(case)) == set(KEY(case))
    assert {a.needs for a in answers.values()} - {None} == set(LAB.rules)
    assert {name for m in LAB.misconceptions for name in m.answers} <= set(answers)
    assert set(WRONG) == set(WHY) == set(COMPLAINTS) == set(FAULTS)


def test_who_measures_and_answers_right_gets_all(sample, figure):
    """A person who works by the book earns 20 of 20 on every ticket, the sheet replayed line by line."""
    count, readings = sample(small=15, full=100), Counter()
    for number in range(count):
        ticket, bench, answers = worked(number)
        marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
        assert marks.points == 20, (number, lost(marks), marks.flags)
        case = LAB.make_case(ticket, Replay(bench))
        readings.update(taken=counted(case), best=best(case))
    figure("tickets on which the right person earned 20/20", count)
    figure("readings of the right person against the shortest way", f"{readings['taken'] / readings['best']:.2f}")


@pytest.mark.parametrize("fault", list(dict.fromkeys(FAULTS)), ids=lambda fault: fault.name)
def test_each_fault_can_be_found_and_repaired(fault):
    """For each fault the right person, who sees only readings, names it and earns 20 of 20."""
    ticket = ticket_with(fault)
    bench = bench_for(ticket)
    answers = right(bench)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("coldwright.marking.judge.replay", lambda _sheet, _fresh: Replay(bench))
        marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
    assert marks.points == 20, lost(marks)


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
        ticket, _, answers = worked(number)
        most = max(most, judge(LAB, KEY, answers, ticket, bench_for(ticket).sheet_text()).points)
    assert 0 < most < LAB.points / 2
    figure("most marks for right answers without readings", f"{most} of {LAB.points}")


@pytest.mark.parametrize("slip", list(SLIPS))
def test_each_slip_gets_its_own_sentence(slip, sample, monkeypatch):
    """One slip gets its sentence wherever it can be told, loses those marks, and no other slip is claimed."""
    wanted, seen, number = sample(small=3, full=25), 0, 0
    sentence, names = next((m.sentence, m.answers) for m in LAB.misconceptions if m.key == slip)
    while seen < wanted:
        number += 1
        assert number < 3000, f"{slip}: only {seen} tickets on which it can be told"
        ticket = practice_ticket("one slip", number)
        case = LAB.make_case(ticket, None)
        if not any(slip in LAB.slips(case, name) for name in names):
            continue
        bench = bench_for(ticket)
        answers = SLIPS[slip](bench)
        own = Replay(bench)
        told = separable(LAB.make_case(ticket, own), slip)
        if not told:
            continue
        seen += 1
        monkeypatch.setattr("coldwright.marking.judge.replay", lambda _sheet, _fresh, own=own: own)  # once is enough
        marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
        found = {m.name for m in marks.marks if m.misconception == slip}
        assert found == set(told), (number, told, lost(marks))
        assert all(m.sentence == sentence and m.points == 0 for m in marks.marks if m.misconception == slip)
        assert {m.misconception for m in marks.marks} <= {None, slip}, number
        assert {name for name, _, _ in lost(marks)} <= set(names), (number, lost(marks))


def test_most_slips_can_be_told_apart_on_most_tickets(sample, figure):
    """Of the tickets on which a slip gives a value at all, most let it be told; the share of each is printed."""
    applies: Counter[str] = Counter()
    told: Counter[str] = Counter()
    for number in range(sample(small=20, full=100)):
        ticket, bench, _ = worked(number)
        case = LAB.make_case(ticket, Replay(bench))
        for m in LAB.misconceptions:
            if any(m.key in LAB.slips(case, name) for name in m.answers):
                applies[m.key] += 1
                told[m.key] += bool(separable(case, m.key))
    for key, n in applies.items():
        figure(f"slip told apart: {key}", f"{told[key]} of {n} tickets it applies to ({told[key] / n:.0%})")
    assert set(SLIPS) == {m.key for m in LAB.misconceptions}
    assert sum(told[key] >= 0.8 * n for key, n in applies.items()) >= 12


def test_every_sentence_is_one_sentence_of_its_own():
    """Each slip has one sentence, and no two share it."""
    sentences = [m.sentence for m in LAB.misconceptions]
    assert len(set(sentences)) == len(sentences) >= 6
    assert all(s.endswith(".") and ". " not in s for s in sentences)


def test_every_condition_is_drawn_evenly(sample, figure):
    """Each fault, each model and both supplies turn up; frost-free on about half; no fault is twice another's share."""
    count = sample(small=600, full=2000)
    units = [draw_unit(practice_ticket("conditions", number).seed_bytes) for number in range(count)]
    faults = Counter(unit.fault.name for unit in units)
    frost_free = sum(is_frost_free(unit.wiring) for unit in units) / count

    assert set(faults) == set(FAULTS)
    assert {unit.cooler.model for unit in units} == set(MODELS)
    assert 0.4 < sum(unit.cooler.hertz == 60 for unit in units) / count < 0.6
    assert 0.4 < frost_free < 0.6
    assert max(faults.values()) < 2.5 * min(faults.values())
    figure("frost-free share of the tickets", f"{frost_free:.0%}")


def test_the_poor_joint_is_never_at_the_part_that_is_changed(sample):
    """A new part brings new joints: so the poor one sits at another part, but where it is the fault itself."""
    for number in range(sample(small=200, full=1000)):
        unit = draw_unit(practice_ticket("joints", number).seed_bytes)
        (terminal,) = unit.parts.loose
        at_the_part = unit.wiring.owner(terminal).name == faulty_component(unit)
        assert at_the_part is (unit.fault.name is F.LOOSE_CONNECTION), number


def test_every_healthy_unit_runs_through_its_poor_joint(sample):
    """With the fault gone the compressor starts and still turns after five minutes: the joint alone stops none."""
    tried = 0
    for number in range(sample(small=12, full=100)):
        unit = draw_unit(practice_ticket("runs", number).seed_bytes)
        if unit.fault.name is F.LOOSE_CONNECTION or unit.cooler.is_inverter:
            continue
        state = replace(unit.arrival, plugged=True, timer_defrost=False, thermostat_closed=True)
        assert Operation(unit.wiring, unit.healthy, unit.room_k, unit.phase).advance(state, 300.0).state.speed > 0
        tried += 1
    assert tried > 5


def test_the_key_by_plain_arithmetic(sample):
    """By hand: heater watts are V²/R, the drop is I·R of the joint, its watts I²·R; the fan's ohms its winding's."""
    for number in range(sample(small=10, full=100)):
        case = LAB.make_case(practice_ticket("by hand", number), None)
        expected, parts = KEY(case), case.unit.parts
        ((joint, ohm),) = parts.loose.items()
        drop = case.poor.usual
        assert joint in expected["joint"].words
        assert expected["joint_volts"].numbers[0][0] == pytest.approx(drop.amps * ohm, rel=1e-3)
        assert expected["joint_watts"].numbers[0][0] == pytest.approx(drop.amps**2 * ohm, rel=1e-3)
        if case.fault is not F.CONDENSER_FAN_OPEN:
            assert expected["fan_ohms"].numbers[0][0] == parts.fans["condenser fan"].winding_ohm
        if parts.defrost is not None and case.fault is not F.HEATER_OPEN:
            watts = parts.supply.volts**2 / parts.defrost.heater_ohm  # the outlet without a load
            assert expected["heater_watts"].numbers[0][0] == pytest.approx(watts, rel=1e-3)


def test_a_switch_shows_supply_open_and_next_to_none_closed():
    """Volts across the door switch, shut: the supply where it opens, under 1 % of it where it is stuck closed."""
    for fault, is_open in ((F.DOOR_SWITCH_CLOSED, False), (F.THERMOSTAT_OPEN, True)):
        case = LAB.make_case(ticket_with(fault), None)
        ((volts, _),) = KEY(case)["door_switch_volts"].numbers
        supply = case.unit.parts.supply.volts
        assert volts > 0.95 * supply if is_open else volts < 0.01 * supply
    assert KEY(LAB.make_case(ticket_with(F.THERMOSTAT_OPEN), None))["thermostat_contact"].words == ("open",)
    assert KEY(LAB.make_case(ticket_with(F.CORD_OPEN), None))["thermostat_contact"].words == ("cannot tell",)


def test_no_volts_across_a_switch_without_supply_tell_nothing_of_it():
    """With an open cord 0 V stand across the door switch, and the reason does not call it closed (unit 14)."""
    case = LAB.make_case(practice_ticket(LAB.name, 14), None)
    assert case.fault is F.CORD_OPEN
    reason = solutions(case)["door_switch_volts"].reason
    assert reason.endswith("V stand across it, for no supply gets to it: this tells nothing of the switch.")
    other = solutions(LAB.make_case(ticket_with(F.DOOR_SWITCH_OPEN), None))["door_switch_volts"].reason
    assert "supply volts if it is open" in other


@pytest.mark.parametrize("terminal", ["thermostat 1", "thermostat 2", "overload 1", "board L", "cord N"])
def test_a_third_terminal_tells_which_end_is_poor(terminal):
    """The poor end shows volts to both others of its line; the two good ends show none between them (Ohm's law)."""
    tickets = (practice_ticket("which end", number) for number in range(1000))
    case = next(
        case
        for case in (LAB.make_case(ticket, None) for ticket in tickets)
        if case.poor.terminal == terminal and len(case.poor.others) > 1 and case.fault in HARMLESS
    )
    run = Operation(case.unit.wiring, case.unit.healthy, case.unit.room_k, case.unit.phase)
    state = run.advance(replace(case.unit.arrival, plugged=True, timer_defrost=False), 300.0).state
    circuit = UnitCircuit(case.unit.wiring, case.unit.healthy, state)
    first, second = case.poor.others[:2]
    assert circuit.ac_voltage(terminal, first, 1e7) == pytest.approx(
        circuit.ac_voltage(terminal, second, 1e7), rel=1e-3
    )
    assert circuit.ac_voltage(terminal, first, 1e7) > 100 * circuit.ac_voltage(first, second, 1e7)
    assert "to a third terminal on the same line" in LAB.how["joint"]


@pytest.mark.parametrize(("typed", "right_watts"), [("0 W", True), ("OL", True), ("none", False), ("250 W", False)])
def test_an_open_heater_draws_no_watts(typed, right_watts):
    """It is there and open: 0 W, or OL for it, are right, 'none' is not and gets the sentence that says so."""
    ticket = ticket_with(F.HEATER_OPEN)
    practice = replace(practice_unit(LAB, 0), bench=bench_for(ticket))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("coldwright.labs.practice.practice_ticket", lambda _lab, _number: ticket)
        (mark,) = practice.mark({"heater_watts": typed})
    assert (mark.found is Found.RIGHT) is right_watts
    if typed == "none":
        assert mark.sentence == "The heater is there, but open: no current, so 0 W."


@pytest.mark.parametrize(
    ("name", "typed", "read"),
    [
        ("thermostat_contact", "shut", "closed"),
        ("terminator_cold", "OL", "open"),
        ("terminator_cold", "shut", "closed"),
    ],
)
def test_other_words_for_a_contact_are_read(name, typed, read):
    """Shut is closed, and a meter that shows OL sees an open contact."""
    form = next(a.form for q in LAB.questions for a in q.answers if a.name == name)
    assert read_answer(form, typed).word == read


def test_tolerance_is_above_the_resolution(sample):
    """Every tolerance on volts and ohms is wider than one digit of the meter that shows it."""
    for number in range(sample(small=12, full=100)):
        case = LAB.make_case(practice_ticket("tolerance", number), None)
        expected = KEY(case)
        for name in ("door_switch_volts", "joint_volts"):
            assert all(t > limit_of(Function.VOLTS_AC, v)[1] for v, t in expected[name].numbers), (number, name)
        for name in ("fan_ohms", "heater_ohms"):
            assert all(t > limit_of_ohms(v)[1] for v, t in expected[name].numbers), (number, name)


def test_a_hazard_costs_its_mark():
    """Ohms with the plug in is on the sheet: it costs the mark for no hazard and that for proving dead, no other."""
    ticket = practice_ticket("live", 3)
    bench = bench_for(ticket)
    bench.perform("plug in")
    bench.perform("ohms", ("door switch 1", "door switch 2"))
    bench.perform("isolate")
    bench.perform("new meter")
    answers = right(bench)
    marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
    assert {name for name, _, _ in lost(marks)} == {"no_hazard", "proved_dead"}


def test_readings_without_end_cost_the_mark_for_economy():
    """Reading every pair of terminals costs the mark for economy and none for the answers."""
    ticket = practice_ticket("economy", 2)
    bench = bench_for(ticket)
    answers = right(bench)
    terminals = [t for t in bench.unit.wiring.terminals if not t.startswith(("plug", "pin", "cord"))]
    for other in terminals[1:40]:
        bench.perform("volts ac", (terminals[0], other))
    marks = judge(LAB, KEY, answers, ticket, bench.sheet_text())
    assert {name for name, _, _ in lost(marks)} == {"economy"}


def test_a_part_that_is_not_the_fault_earns_no_proof():
    """Fitting another part and proving it gives neither the mark for proof nor that for showing that it works."""
    ticket = ticket_with(F.CONDENSER_FAN_OPEN)
    bench = bench_for(ticket)
    answers = right(bench)
    bench.fitted.clear()  # as if another part had been fitted
    bench.lines = [line for line in bench.lines if line.act != "fit"]
    case = LAB.make_case(ticket, Replay(bench))
    assert answers["component"] == "condenser fan"
    assert LAB.worked(case)["proof"] is False
    assert LAB.worked(case)["works"] is False


def test_a_cord_is_changed_in_one_act_and_never_live():
    """Live, the bench stops it as a hazard; with the plug out the new cord is whole: 0.08 Ω from plug to unit."""
    bench = bench_for(ticket_with(F.CORD_OPEN))
    assert bench.perform("ohms", ("plug L", "cord L")).display.text == "OL"
    bench.perform("plug in")
    assert "Stopped: the unit is still plugged in." in bench.perform("fit", ("cord",)).text
    bench.perform("isolate")
    assert bench.perform("fit", ("cord",)).text.startswith("Fitted: cord")
    assert bench.perform("fit", ("cord",)).text == "The cord is new already."
    bench.perform("zero leads")
    assert bench.perform("ohms", ("plug L", "cord L")).display.value == pytest.approx(0.08, abs=0.005)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder of the topic, built from its sources alone."""
    place = tmp_path_factory.mktemp("built")
    shutil.copytree(SOURCES / FOLDER, place / "sources" / FOLDER)
    build(place / "sources", place / "course")
    return place / "course" / FOLDER


def test_the_lesson_runs_and_shows_what_it_says(built, tmp_path):
    """Run blank but for two readings: the comparison, the right and wrong, and both examples are said."""
    notebook = nbformat.read(built / "lesson.ipynb", as_version=4)
    acts = 'desk.do("plug in")\ndesk.do("volts ac", "thermostat 1", "thermostat 2")'
    answers = 'desk.mark(timer_joins="timer 2", thermostat_contact="open", component="thermostat", wrong="stuck open")'
    sources = {"prediction": 'predicted = "120 V"', "timer-answers": answers}
    done = run(filled(notebook, sources, {"desk": acts}), tmp_path)

    assert "thermostat 1 to thermostat 2, and shows 0.0" in printed(done, "compare")
    told = printed(done, "timer-answers")
    assert "timer_joins: timer 2. ✓ Right." in told
    assert "thermostat_contact: open. ✗ Wrong. You took 0 V across the switch for an open one" in told
    assert "component: thermostat. ✗ Wrong. You blamed the thermostat, but it is closed" in told
    assert "18 V times 6 A are 108 W" in printed(done, "watts-example")
    assert "Verdict: POOR." in printed(done, "real-unit")


def test_the_lesson_s_units_are_what_it_says():
    """Each unit that the lesson names by its number has the trap that it tells of."""
    units = {n: draw_unit(practice_ticket(LAB.name, n).seed_bytes) for n in (4, 7, 9, 14, 59)}
    wanted = {
        4: F.TIMER_STUCK_DEFROST,
        7: F.THERMOSTAT_DRIFTED,
        9: F.TERMINATOR_OPEN,
        14: F.CORD_OPEN,
        59: F.EVAPORATOR_FAN_SEIZED,
    }
    text = (SOURCES / FOLDER / "lesson.py").read_text(encoding="utf-8")

    assert {n: unit.fault.name for n, unit in units.items()} == wanted
    assert all(f"**Unit {n}, " in text for n in (7, 9, 14, 59))
    assert (units[4].cooler.model, units[4].cooler.volts) == ("Tarn 17", 120.0)


def test_the_notebook_tells_how_many_readings_the_shortest_way_needs():
    """9 readings, and 12 on a frost-free unit, stand in the lab as they are counted."""
    text = (SOURCES / FOLDER / "lab.py").read_text(encoding="utf-8")
    counts = {best(LAB.make_case(practice_ticket("count", number), None)) for number in range(30)}

    assert counts == {9, 12}
    assert "The shortest way needs 9 readings, and 12 on a frost-free unit. You may take twice as many." in text


def test_the_notebook_worked_right_earns_twenty(built, tmp_path):
    """Real cells: readings on the notebook's own desk, answers typed in, each read back; the judge gives 20 of 20."""
    notebook = nbformat.read(built / "lab.ipynb", as_version=4)
    ticket = issue_ticket(b"a secret for the tests", "a course", LAB.name, "ada")
    spare = bench_for(ticket)
    answers = right(spare)
    cells = {
        f"answer-{q.name.replace('_', '-')}": "\n".join(f'{a.name} = "{answers[a.name]}"' for a in q.answers)
        for q in LAB.questions
        if q.answers
    }
    table = next(cell.source for cell in notebook.cells if cell.id == "job")
    assert all(f"| {question.title} | {question.points} |" in table for question in LAB.questions)
    work = tmp_path / "work"
    work.mkdir()
    (work / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    done = run(filled(notebook, cells, {"desk": WORK}), work)
    sheet = (work / "job_sheet.jsonl").read_text(encoding="utf-8")
    assert sheet == spare.sheet_text()
    for question in LAB.questions:
        said = printed(done, f"check-{question.name.replace('_', '-')}")
        assert not any(word in said for word in ("not answered", "cannot be read", "not there yet", "✓", "✗"))
    assert judge(LAB, KEY, answers, ticket, sheet).points == 20
