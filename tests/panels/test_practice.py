"""Practice without end: right answers are right, wrong ones say why, and each known slip gets its own sentence."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from coldwright.answers.forms import NumberForm
from coldwright.answers.tolerance import separable_slips, within
from coldwright.appliance.faults import FaultKind
from coldwright.errors import InputError
from coldwright.labs.catalogue import lab
from coldwright.labs.practice import Found, Practice
from coldwright.labs.practice import practice_unit as unit_of
from coldwright.labs.question import Misconception
from coldwright.labs.winding_checks.how import HOW
from coldwright.labs.winding_checks.practice_solutions import solutions
from coldwright.marking.judge import load_key
from coldwright.panels import practice_desk
from coldwright.quantities import Kind

LAB = lab("winding_checks")
FORMS = {answer.name: answer.form for question in LAB.questions for answer in question.answers}
KEY = load_key(Path(__file__).parents[2] / "autograde" / "keys", LAB)
VERDICTS = {
    FaultKind.NONE: "good",
    FaultKind.OPEN_RUN: "open winding",
    FaultKind.OPEN_START: "open winding",
    FaultKind.OPEN_PROTECTOR: "open internal protector",
    FaultKind.SHORTED_RUN: "shorted turns",
    FaultKind.SHORTED_START: "shorted turns",
    FaultKind.GROUNDED: "grounded",
}
Sample = Callable[..., int]


def practice_unit(number: int) -> Practice:
    """The practice unit of a number of lab 03."""
    return unit_of(LAB, number)


def units(count: int) -> Iterator[Practice]:
    """Practice units in order of their numbers."""
    return (practice_unit(number) for number in range(count))


def typed(name: str, value: float | str) -> str:
    """A value as a person would type it."""
    form = FORMS[name]
    if isinstance(value, str) or not isinstance(form, NumberForm):
        return str(value)
    return f"{value:.9f} {'K' if form.kind is Kind.TEMPERATURE_DIFFERENCE else 'ohm'}"


def test_the_verdict_is_the_fault_that_the_unit_has(sample: Sample) -> None:
    """On every unit the verdict found from readings is the fault that was drawn; both are worked out apart."""
    for practice in units(sample(small=80, full=1000)):
        (mark,) = practice.mark({"verdict": VERDICTS[practice.bench.unit.fault.kind]})
        assert mark.found is Found.RIGHT, practice.number


def test_pins_of_a_unit_with_whole_windings_are_its_pins(sample: Sample) -> None:
    """Common, run and start found from readings are those that were drawn; an inverter compressor has none."""
    for practice in units(sample(small=80, full=1000)):
        unit = practice.bench.unit
        if unit.fault.kind in (FaultKind.OPEN_RUN, FaultKind.OPEN_START, FaultKind.OPEN_PROTECTOR):
            continue
        pins = {"common": unit.common, "run": unit.run, "start": unit.start}
        answers = dict.fromkeys(pins, "none") if unit.plate.is_inverter else pins
        assert {mark.found for mark in practice.mark(answers)} == {Found.RIGHT}, practice.number


def test_practice_and_the_key_of_the_lab_agree(sample: Sample) -> None:
    """Two ways, written apart, to the same answers: words equal, numbers within a twentieth of the tolerance.

    They differ by the protector's contact, 1 mΩ in the winding's path, which does not grow with heat.
    """
    for practice in units(sample(small=60, full=600)):
        case = practice.case
        right, key = solutions(case), KEY(case)
        assert set(right) == set(key)
        for name, expected in key.items():
            mine = right[name].expected
            assert mine.words == expected.words, (practice.number, name)
            for (number, tolerance), (other, wanted) in zip(mine.numbers, expected.numbers, strict=True):
                assert within(number, other, wanted / 20), (practice.number, name)
                assert 0.7 * wanted < tolerance < 1.4 * wanted, (practice.number, name)


def test_a_right_answer_is_told_with_its_reason() -> None:
    """Unit 28 has its common on pin 2; the reason names the highest pair, which leaves it out."""
    unit = practice_unit(28).bench.unit
    (mark,) = practice_unit(28).mark({"common": f"pin {unit.common}"})

    others = " and ".join(sorted({unit.run, unit.start}))
    assert (mark.found, mark.sentence) == (Found.RIGHT, f"The highest pair, {others}, leaves out pin {unit.common}.")


def test_a_wrong_answer_without_a_known_slip_says_how_to_find_it() -> None:
    """No slip is made up; the sentence says how the answer is found."""
    (mark,) = practice_unit(28).mark({"resistance_at_20": "400 ohm"})

    assert (mark.found, mark.slip, mark.sentence) == (Found.WRONG, None, HOW["resistance_at_20"])
    assert set(HOW) == set(FORMS)


@pytest.mark.parametrize("slip", LAB.misconceptions, ids=lambda m: m.key)
def test_each_slip_gets_its_sentence(slip: Misconception, sample: Sample) -> None:
    """Where a slip can be told at all, the answer it gives is wrong and reads the sentence of that slip."""
    wanted, seen = sample(small=2, full=20), 0
    for practice in units(4000):
        case = practice.case
        for name in slip.answers:
            slips = LAB.slips(case, name)
            if slip.key not in slips:
                continue
            right = solutions(case)[name].expected
            if slip.key not in separable_slips(right.right, right.tolerance, slips):
                continue
            (mark,) = practice.mark({name: typed(name, slips[slip.key][0])})
            assert (mark.found, mark.slip, mark.sentence) == (Found.WRONG, slip.key, slip.sentence), practice.number
            seen += 1
        if seen >= wanted:
            return
    pytest.fail(f"only {seen} units on which {slip.key!r} can be told")


def test_blank_and_unreadable_are_not_wrong() -> None:
    """They are said to be just that."""
    blank, odd, listed = practice_unit(28).mark({"common": "", "run": "the left one", "start": ["1"]})

    assert blank.found is Found.BLANK
    assert (odd.found, listed.found) == (Found.UNREADABLE, Found.UNREADABLE)
    assert "this is none of the words asked for" in odd.sentence
    assert "this is not one value" in listed.sentence


def test_an_unknown_name_is_said() -> None:
    """The message lists the names there are."""
    with pytest.raises(InputError, match="there is no answer 'colour'; there are resistance_12"):
        practice_unit(28).mark({"colour": "red"})


def test_the_rise_follows_the_readings_that_were_taken() -> None:
    """A winding read after it has cooled for a while has another rise, and that one is right then."""
    practice = practice_unit(28)
    bench = practice.bench
    for act in ("isolate", "discharge", "disconnect", "zero leads"):
        bench.perform(act)
    for _ in range(40):  # ten minutes of readings: it cools meanwhile
        bench.ohms(1, 2)
        bench.at += 15
    bench.ohms(3, 2)
    bench.let_stand()
    bench.ohms(2, 3)
    (number, tolerance), *_ = solutions(practice.case)["temperature_rise"].expected.numbers

    hot = next(t for t in bench.taken if t.line.on == ("3", "2"))
    assert number == pytest.approx(hot.winding_k - bench.unit.room_k, abs=0.1)  # a contact's 1 mΩ does not grow
    assert bench.unit.arrival_k - bench.unit.room_k - number > tolerance


def read_all(desk: Any) -> None:
    """The safe order, and each pair cold."""
    for act in (desk.isolate, lambda: desk.volts_ac("L", "N"), desk.discharge, desk.disconnect, desk.zero_leads):
        act()
    desk.let_stand()
    for a, b in ((1, 2), (1, 3), (2, 3)):
        desk.ohms(a, b)


def test_compare_and_explain_ask_for_what_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    """No prediction and no readings are said; nothing is worked out from the true unit."""
    desk = practice_desk(28)
    capsys.readouterr()
    desk.compare("")
    desk.compare("12 ohm")
    desk.explain()

    missing = "Still to be read cold, with the connector off: pins 1 and 2; pins 1 and 3; pins 2 and 3."
    assert capsys.readouterr().out.splitlines() == [
        "No prediction yet. Write one between the quote marks, run that cell again, then this one.",
        missing,
        missing,
    ]


def test_compare_and_explain_work_from_what_the_meter_showed(capsys: pytest.CaptureFixture[str]) -> None:
    """Numbers are those of the displays: the two lower ones, their sum against the highest, and the three limits."""
    desk = practice_desk(28)
    read_all(desk)
    low, middle, high = sorted(t.display.value for t in desk.bench.taken if t.line.act == "ohms")
    capsys.readouterr()
    desk.compare("12 ohm")
    desk.explain()
    out = capsys.readouterr().out

    assert f"You predicted 12 Ω. The highest pair, 1 and 3, shows {high:.2f} Ω, and may be off by ±0.054 Ω." in out
    assert f"{low:.3f} Ω + {middle:.3f} Ω, against {high:.2f} Ω for the highest pair:" in out
    assert f": {abs(low + middle - high):.3f} Ω apart." in out
    assert "The sum rule holds." in out
    desk.compare("12")
    assert 'Your prediction cannot be read: "12" has no unit' in capsys.readouterr().out


def test_explain_blames_leads_that_were_not_zeroed(capsys: pytest.CaptureFixture[str]) -> None:
    """With the leads in every reading the rule fails by one lead, and the leads are asked about."""
    desk = practice_desk(28)
    for act in (desk.isolate, desk.discharge, desk.disconnect, desk.let_stand):
        act()
    for a, b in ((1, 2), (1, 3), (2, 3)):
        desk.ohms(a, b)
    desk.explain()

    assert "The sum rule does not hold. Were the leads zeroed?" in capsys.readouterr().out


def test_marks_are_printed_in_words_with_a_sign(capsys: pytest.CaptureFixture[str]) -> None:
    """Right, wrong, blank and unreadable each have their own line, and the right ones are counted."""
    unit = practice_unit(28).bench.unit
    desk = practice_desk(28)
    capsys.readouterr()
    desk.mark(common=unit.common, run=unit.start, start="", verdict="who knows")
    lines = capsys.readouterr().out.splitlines()

    assert lines[0].startswith(f"common: pin {unit.common}. ✓ Right. The highest pair")
    assert lines[1].startswith(f"run: pin {unit.start}. ✗ Wrong. This is the pin of the other winding")
    assert lines[2] == "start: not answered yet"
    assert lines[3].startswith("verdict: cannot be read: this is none of the words")
    assert lines[4] == "1 of 4 right."


def test_the_solution_marked_is_all_right(capsys: pytest.CaptureFixture[str], sample: Sample) -> None:
    """What the solution prints, handed in, is right in every answer."""
    for number in range(sample(small=30, full=300)):
        desk = practice_desk(number)
        capsys.readouterr()
        desk.solution()
        lines = [line.split(": ", 1) for line in capsys.readouterr().out.splitlines()]
        answers = {name: text.split(". ", 1)[0].split(" or ")[0] for name, text in lines}
        found = {mark.name: mark.found for mark in desk.practice.mark(answers)}
        assert set(found.values()) == {Found.RIGHT}, (number, answers, found)
