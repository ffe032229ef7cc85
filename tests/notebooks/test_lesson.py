"""The lesson of winding checks: it runs blank and filled in, and its outcomes are what physics and print say."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from nbformat import NotebookNode

from coldwright.appliance.faults import FaultKind
from coldwright.course.readability import reading_grades
from coldwright.labs.catalogue import lab
from coldwright.labs.practice import practice_unit
from tests.notebooks.run_notebook import SOURCES, TOPIC, WIDGET, data, filled, printed, run, streams

SAFE = [
    "desk.isolate()",
    'desk.volts_ac("L", "N")',
    "desk.discharge()",
    "desk.disconnect()",
    "desk.zero_leads()",
    "desk.let_stand()",
    "desk.ohms(1, 2)",
    "desk.ohms(1, 3)",
    "desk.ohms(2, 3)",
]
CAUTIONS = ("Isolate", "Prove it dead", "Discharge", "blow out", "vacuum", "flammable", "Local codes")
PANELS = ("desk", "odd-case-desk", "practice-desk")


@pytest.fixture(scope="module")
def blank(lesson: NotebookNode, tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """The lesson run from top to bottom by nobody."""
    return run(filled(lesson, {}, {}), tmp_path_factory.mktemp("lesson"))


@pytest.fixture(scope="module")
def worked(lesson: NotebookNode, tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """The lesson run by a person who predicts 12 ohm, measures in the safe order, and swaps run and start."""
    unit = practice_unit(lab("winding_checks"), 28).bench.unit
    answers = f'desk.mark(common="{unit.common}", run="{unit.start}", start="{unit.run}", sum_rule="holds")'
    sources = {"prediction": 'predicted = "12 ohm"', "pins": answers}
    return run(filled(lesson, sources, {"desk": "\n".join(SAFE)}), tmp_path_factory.mktemp("lesson"))


def test_the_cautions_stand_at_the_top(lesson: NotebookNode) -> None:
    """Before the first code cell, in the trade's words, with local codes and licensed practice first."""
    first = next(n for n, cell in enumerate(lesson.cells) if cell.cell_type == "code")
    text = "\n".join(cell.source for cell in lesson.cells[:first])

    assert [word for word in CAUTIONS if word not in text] == []
    assert "licensed practice come first" in text


def test_no_cell_defines_or_installs(lesson: NotebookNode) -> None:
    """What is worth testing lives in the package."""
    code = "\n".join(cell.source for cell in lesson.cells if cell.cell_type == "code")

    assert not re.search(r"(?m)^\s*(def|class|lambda|!|%)", code)


def test_the_text_is_plain(figure: Callable[[str, Any], None]) -> None:
    """Lesson and lab stay at or below school grade 9."""
    grades = {name: grade for name, grade in reading_grades(SOURCES).items() if name.startswith(TOPIC)}
    for name, grade in grades.items():
        figure(f"reading grade of {name}", f"{grade:.1f}")
    assert set(grades) == {f"{TOPIC}/lesson.py", f"{TOPIC}/lab.py"}
    assert max(grades.values()) <= 9


def test_it_runs_without_a_person(blank: NotebookNode) -> None:
    """Panels come up with their text; blank answers are asked for; nothing is written to the error stream."""
    assert streams(blank) == {"stdout"}
    for cell_id in PANELS:
        assert WIDGET in data(blank, cell_id)
        assert data(blank, cell_id)["text/plain"].startswith("Compressor ")
    assert printed(blank, "desk") == "Practice unit 28. To have the same one again: practice_desk(28)\n"
    assert printed(blank, "compare").startswith("No prediction yet.")
    assert printed(blank, "explain").startswith("Still to be read cold, with the connector off: pins 1 and 2;")
    assert printed(blank, "pins").splitlines()[-1] == "0 of 4 right."
    assert printed(blank, "odd-case-verdict").splitlines()[-1] == "0 of 2 right."
    assert printed(blank, "practice-mark").count("not answered yet") == 7


def test_the_printed_example_comes_out(blank: NotebookNode) -> None:
    """The book prints 59.59 K with 0.00426 per °C; k = 234.5 gives 0.06 K less. 11.60 Ω · 254.5 / 269.5 is 10.95 Ω."""
    found = re.search(r"is ([0-9.]+) K warmer than the room", printed(blank, "rise-example"))

    assert found is not None
    assert float(found[1]) == pytest.approx(59.59, abs=0.1)
    assert printed(blank, "at-20") == f"11.60 Ω at 35 °C is {11.60 * 254.5 / 269.5:.2f} Ω at 20 °C.\n"


def test_the_figure_has_its_words(blank: NotebookNode) -> None:
    """The picture, its label and the text say that heat hides shorted turns."""
    shown = data(blank, "shorted-figure")

    assert "Heat hides it" in shown["text/plain"]
    assert '<img style="width:100%;height:auto" alt="Resistance from 0 °C to 120 °C.' in shown["text/html"]


def test_the_real_unit_of_the_example_gets_its_verdict(blank: NotebookNode) -> None:
    """2.31 Ω at 72 °F lies below 3.0 Ω - 7 %, and the sum rule holds: shorted turns; pin 1 is common."""
    text = printed(blank, "real-unit")

    assert "Verdict on the windings: SHORTED TURNS." in text
    assert "common is pin 1, run is pin 2, start is pin 3" in text
    assert "Sum rule: holds: 2.310 Ω + 8.970 Ω against 11.28 Ω, 0.000 Ω apart" in text
    low = 3.0 * 0.93 * (234.5 + (72 - 32) * 5 / 9) / 254.5
    assert f"the maker allows {low:.2f} Ω to" in text


def test_a_person_who_measures_can_compare_and_explain(worked: NotebookNode) -> None:
    """Prediction, readings, sum rule and marks come from what that person did."""
    compared = printed(worked, "compare")
    found = re.fullmatch(
        r"You predicted 12 Ω. The highest pair, (\d) and (\d), shows ([0-9.]+) Ω, and may be off by ±([0-9.]+) Ω. "
        r"The two are ([0-9.]+) Ω apart.\n",
        compared,
    )
    unit = practice_unit(lab("winding_checks"), 28).bench.unit

    assert found is not None, compared
    assert {found[1], found[2]} == {unit.run, unit.start}
    true_ohm = max(unit.pair_resistances(unit.room_k).values())
    assert float(found[3]) == pytest.approx(true_ohm, abs=float(found[4]))
    assert float(found[5]) == pytest.approx(abs(12 - float(found[3])), abs=0.0051)
    assert "The sum rule holds." in printed(worked, "explain")
    lines = printed(worked, "pins").splitlines()
    assert [("✓" in line, "✗" in line) for line in lines[:4]] == [
        (True, False),
        (False, True),
        (False, True),
        (True, False),
    ]
    assert all("This is the pin of the other winding" in line for line in lines[1:3])
    assert lines[4] == "2 of 4 right."


def test_the_units_named_in_the_text_are_what_it_says(lesson: NotebookNode) -> None:
    """Unit 28 is sound, plugged in and of 2.90 Ω and 8.60 Ω; units 6, 8, 21 and 13 have their traps."""
    text = "\n".join(cell.source for cell in lesson.cells)
    units = {number: practice_unit(lab("winding_checks"), number).bench.unit for number in (28, 6, 8, 21, 13)}

    assert all(f"**Unit {number}, " in text for number in (6, 8, 21, 13))
    data_sheet = units[28].plate.windings
    assert f"run winding {data_sheet.run:.2f} Ω, start winding {data_sheet.start:.2f} Ω" in text
    assert (units[28].fault.kind, units[28].under_vacuum, units[28].protector_tripped) == (FaultKind.NONE, False, False)
    assert units[6].protector_tripped
    assert units[8].fault.kind is FaultKind.GROUNDED
    assert units[21].fault.kind is FaultKind.SHORTED_RUN
    assert (units[13].plate.is_inverter, units[13].fault.kind) == (True, FaultKind.NONE)
    assert not any(units[number].under_vacuum for number in units)
