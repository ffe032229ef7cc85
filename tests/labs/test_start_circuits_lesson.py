"""The lesson on start circuits: it runs from top to bottom, its example comes out as printed, its units are as told."""

from __future__ import annotations

import re
from pathlib import Path

import nbformat
import pytest
from nbformat import NotebookNode

from coldwright.appliance.unit_faults import FaultName
from coldwright.labs.start_circuits.unit import drawn_condition
from coldwright.labs.ticket import practice_ticket
from tests.notebooks.run_notebook import data, filled, printed, run, streams

LESSON = Path(__file__).parents[2] / "course" / "04_start_circuits" / "lesson.ipynb"
WORK = """desk.do("inspect", "relay")
desk.do("inrush", "cord")
desk.do("isolate")
desk.do("wait", "5 min")
desk.do("inrush", "cord L")"""
ANSWERS = 'desk.mark(at_rest="closed", part="relay", wrong="contact stuck open")'
UNITS = {
    18: (FaultName.RELAY_STUCK_OPEN, "Tarn 11"),
    35: (FaultName.PTC_OPEN, "Tarn 12"),
    49: (FaultName.SEIZED, "Tarn 21"),
    13: (FaultName.RELAY_WELDED, "Tarn 24"),
    39: (FaultName.LOW_SUPPLY, "Tarn 14"),
    19: (FaultName.RELAY_WELDED, "Tarn 25"),
}


@pytest.fixture(scope="module")
def lesson() -> NotebookNode:
    return nbformat.read(LESSON, as_version=4)


@pytest.fixture(scope="module")
def worked(lesson: NotebookNode, tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """The lesson with a prediction, the readings of its steps and one wrong answer."""
    sources = {"prediction": 'predicted = "16 A"', "hunt": ANSWERS}
    return run(filled(lesson, sources, {"desk": WORK}), tmp_path_factory.mktemp("lesson"))


def test_it_runs_with_nothing_on_stderr(worked: NotebookNode) -> None:
    """Every cell runs; only stdout is written to."""
    assert set(streams(worked)) == {"stdout"}


def test_the_printed_example_comes_out(worked: NotebookNode) -> None:
    """Kosow, Examples 10-1 and 10-3, as a textbook companion has them: 9.77 A, 7.66 A, 2.34 times the torque."""
    said = printed(worked, "split-example")
    assert re.findall(r"\d+\.\d\d", said) == ["9.77", "7.66", "2.34"]


def test_the_prediction_is_held_against_the_clamp(worked: NotebookNode) -> None:
    """16 A predicted; the run winding alone takes less, and far more than the 1.8 A of running."""
    found = re.search(r"shows ([0-9.]+) A", printed(worked, "compare"))
    assert found is not None, printed(worked, "compare")
    assert 1.8 * 3 < float(found[1]) < 16 * 0.8


def test_answers_are_marked_with_the_sentence_of_the_slip(worked: NotebookNode) -> None:
    """The right part counts; a current relay thought closed at rest reads why not."""
    said = " ".join(printed(worked, "hunt").split())
    assert "2 of 3 right." in said
    assert "a current relay closes only while its coil carries the locked-rotor amps" in said


def test_the_figure_has_its_words_and_the_real_relay_its_verdict(worked: NotebookNode) -> None:
    """The relay of the figure suits; so does the one of the invented readings."""
    assert "This relay suits the motor." in data(worked, "relay-figure")["text/plain"]
    assert "Verdict: the relay suits the motor." in printed(worked, "real-unit")


def test_the_units_named_in_the_text_are_what_it_says(lesson: NotebookNode) -> None:
    """Each numbered unit has the fault that its text hints at."""
    text = "\n".join(cell.source for cell in lesson.cells)
    for number, condition in UNITS.items():
        assert re.search(rf"\b{number}\b", text)
        assert drawn_condition(practice_ticket("start_circuits", number).seed_bytes) == condition
