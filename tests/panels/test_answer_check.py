"""The line under an answer: how it was read, never whether it is right, and never a traceback."""

import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.labs.catalogue import lab
from coldwright.labs.class_folder import SHEET_NAME
from coldwright.labs.ticket import practice_ticket
from coldwright.panels import check

LAB = lab("winding_checks")
NAMES = [answer.name for question in LAB.questions for answer in question.answers]


def said(capsys: pytest.CaptureFixture[str], question: str, **answers: Any) -> list[str]:
    """What a check prints."""
    check("winding_checks", question, answers)
    return capsys.readouterr().out.splitlines()


@pytest.mark.parametrize(
    ("question", "name", "typed", "line"),
    [
        ("pairs", "resistance_12", "4.20 ohm", "resistance_12: 4.20 Ω"),
        ("pairs", "resistance_12", "4,2 kohm", "resistance_12: 4.2 kΩ"),
        ("pairs", "resistance_12", "over range", "resistance_12: OL"),
        ("pins", "run", "2", "run: pin 2"),
        ("pins", "run", 2, "run: pin 2"),
        ("pins", "run", "Pin 2", "run: pin 2"),
        ("pins", "run", "can't tell", "run: cannot tell"),
        ("sum_rule", "sum_rule", "It holds", "sum_rule: holds"),
        ("rise", "temperature_rise", "99 °F", "temperature_rise: 99 °F"),
        ("verdict", "verdict", "earth fault", "verdict: grounded"),
    ],
)
def test_it_says_how_an_answer_was_read(
    capsys: pytest.CaptureFixture[str], question: str, name: str, typed: object, line: str
) -> None:
    """The value comes back in the course's own spelling, with its unit."""
    assert f"  {line}" in said(capsys, question, **{name: typed})


@pytest.mark.parametrize(
    ("question", "name", "typed", "line"),
    [
        ("pairs", "resistance_12", "", 'not answered yet; write a number with its unit, such as "4.2 ohm" or "OL"'),
        ("pins", "run", "", 'not answered yet; choose one of "1", "2", "3", "none", "cannot tell"'),
        ("pairs", "resistance_12", [4.2], 'this is not one value; write a number with its unit, such as "4.2 ohm"'),
        ("pins", "run", True, "this is not one value; choose one of"),
        ("pins", "run", "the left one", "cannot be read: this is none of the words asked for; choose one of"),
        ("pairs", "resistance_12", 4.2, 'cannot be read: "4.2" has no unit'),
        ("pairs", "resistance_12", "5 K", "cannot be read: "),
    ],
)
def test_it_says_which_form_is_missing(
    capsys: pytest.CaptureFixture[str], question: str, name: str, typed: object, line: str
) -> None:
    """Blank, odd and unreadable answers get the form that is wanted, with an example."""
    assert any(text.startswith(f"  {name}: {line}") for text in said(capsys, question, **{name: typed}))


def test_an_answer_cell_that_was_not_run_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    """A name that is not there yet is no NameError."""
    assert "  verdict: not there yet; run the answer cell above first" in said(capsys, "verdict")


def test_a_number_of_numpy_counts_as_the_plain_one(capsys: pytest.CaptureFixture[str]) -> None:
    """As marking takes it, so the check does."""
    import numpy as np

    assert "  run: pin 2" in said(capsys, "pins", run=np.int64(2))


def test_it_never_says_whether_an_answer_is_right(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever the unit, each word of the verdict gets the same line, itself; pins likewise."""
    outputs = []
    for number in (5, 6, 8, 21):
        folder = tmp_path / str(number)
        folder.mkdir()
        (folder / "ticket.json").write_text(practice_ticket(LAB.name, number).text(), encoding="utf-8")
        monkeypatch.chdir(folder)
        verdicts = ("good", "open winding", "open internal protector", "shorted turns", "grounded")
        outputs.append([said(capsys, "verdict", verdict=word) for word in verdicts])
        assert [lines[1:] for lines in outputs[-1]] == [[f"  verdict: {word}"] for word in verdicts]
        outputs[-1] += [said(capsys, "pins", common=pin, run=pin, start=pin) for pin in "123"]
        text = " ".join(line for lines in outputs[-1] for line in lines).casefold()
        assert not any(word in text for word in ("right", "wrong", "correct", "✓", "✗"))
    assert all(output == outputs[0] for output in outputs)


def test_the_tolerance_rule_and_the_need_for_readings_are_shown(capsys: pytest.CaptureFixture[str]) -> None:
    """Where a reading is asked for, the meter's accuracy and the need for the reading are said; else not."""
    pairs, verdict = "\n".join(said(capsys, "pairs")), "\n".join(said(capsys, "verdict"))

    assert "±(0.2 % of the reading + 3 digits)" in pairs
    assert "It counts only if your job sheet holds the readings behind it." in pairs
    assert "±" not in verdict
    assert "±(3 % of the reading + 5 digits) up to 200 MΩ" in "\n".join(said(capsys, "insulation"))
    for question in ("at_20", "rise"):
        assert "the thermometer, ±0.5 °C" in "\n".join(said(capsys, question))


def test_safe_order_counts_the_lines_of_the_job_sheet(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No sheet, one line, two lines, a spoilt sheet: each is said, none raises."""
    monkeypatch.chdir(tmp_path)
    assert "there is none here yet" in said(capsys, "safe_order")[-1]

    bench = LAB.open_bench(practice_ticket(LAB.name, 6), tmp_path / SHEET_NAME)
    bench.isolate()
    assert said(capsys, "safe_order")[-1] == "Marked from your job sheet: 1 line so far."
    bench.volts_ac("L", "N")
    assert said(capsys, "safe_order")[-1] == "Marked from your job sheet: 2 lines so far."

    (tmp_path / SHEET_NAME).write_text("{}\n", encoding="utf-8")
    assert said(capsys, "safe_order")[-1].startswith("Marked from your job sheet, but line 1 of the job sheet is not")


def test_a_changed_check_cell_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """A question or lab that does not exist gives one sentence."""
    check("winding_checks", "colour", {})
    assert capsys.readouterr().out.startswith("This check cell was changed: Winding checks has no question 'colour'")
    check("knitting", "pins", {})
    assert capsys.readouterr().out.startswith("This check cell was changed: there is no lab 'knitting'")


class Liar:
    """An object that fails at every question."""

    def __repr__(self) -> str:
        raise RuntimeError("repr")

    def __eq__(self, other: object) -> bool:
        raise RuntimeError("eq")

    __hash__ = None  # type: ignore[assignment]


ODD = st.one_of(
    st.text(max_size=200), st.floats(), st.integers(), st.none(), st.booleans(), st.lists(st.text()), st.builds(Liar)
)


@given(value=ODD)
def test_it_never_raises(value: object) -> None:
    """Whatever stands in an answer cell, the check prints and goes on."""
    for question in LAB.questions:
        check("winding_checks", question.name, dict.fromkeys(NAMES, value))


def test_a_check_takes_less_than_a_fifth_of_a_second(figure: Any) -> None:
    """The limit that the course promises, for every question of the lab."""
    check("winding_checks", "pairs", {})  # what is loaded once
    answers = {**dict.fromkeys(NAMES, "4.2 ohm"), "run": "1"}
    longest = 0.0
    for question in LAB.questions:
        started = time.perf_counter()
        check("winding_checks", question.name, answers)
        longest = max(longest, time.perf_counter() - started)
    figure("longest self-check of an answer", f"{longest * 1000:.1f} ms")
    assert longest < 0.2


def test_importing_the_panels_loads_no_widgets_and_no_figures() -> None:
    """A lab's first line stays light."""
    heavy = ("ipywidgets", "IPython", "matplotlib", "CoolProp", "pint", "nbgrader", "nbconvert")
    program = f"import sys, coldwright.panels\nprint([name for name in {heavy!r} if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"


def test_the_names_of_the_room_are_all_there() -> None:
    """Every name that the room offers can be had, and none other."""
    import coldwright.panels as room

    assert all(callable(getattr(room, name)) for name in room.__all__)
    with pytest.raises(AttributeError, match="has no attribute 'gauge'"):
        _ = room.gauge  # type: ignore[attr-defined]
