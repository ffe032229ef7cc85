"""The lesson on capacitors: it runs blank and filled in, and its outcomes are what print and hand say."""

import re
import shutil
from pathlib import Path

import nbformat
import pytest
from nbformat import NotebookNode

from coldwright.course.build import build
from coldwright.course.people.capacitors_work import answers_from, work
from coldwright.course.readability import reading_grades
from coldwright.labs.catalogue import lab
from coldwright.labs.practice import practice_unit
from tests.notebooks.run_notebook import SOURCES, WIDGET, data, filled, printed, run, streams

TOPIC = "05_capacitors"
CAUTIONS = ("Isolate", "Prove it dead", "Discharge", "burst", "flammable", "Local codes", "live")
WORK = "from coldwright.course.people.capacitors_work import work\n\nwork(desk.bench)\ndesk"


@pytest.fixture(scope="module")
def lesson(tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """The lesson as handed out."""
    folder = tmp_path_factory.mktemp("course")
    shutil.copytree(SOURCES / TOPIC, folder / "sources" / TOPIC)
    build(folder / "sources", folder / "course")
    return nbformat.read(folder / "course" / TOPIC / "lesson.ipynb", as_version=4)


@pytest.fixture(scope="module")
def blank(lesson: NotebookNode, tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """The lesson run from top to bottom by nobody."""
    return run(filled(lesson, {}, {}), tmp_path_factory.mktemp("lesson"))


def test_the_cautions_stand_at_the_top(lesson: NotebookNode) -> None:
    """Before the first code cell, in the trade's words, with local codes and licensed practice first."""
    first = next(n for n, cell in enumerate(lesson.cells) if cell.cell_type == "code")
    text = "\n".join(cell.source for cell in lesson.cells[:first])

    assert [word for word in CAUTIONS if word not in text] == []
    assert "licensed practice come first" in text
    assert "O*NET task lists, CC BY 4.0" in text


def test_no_cell_defines_or_installs(lesson: NotebookNode) -> None:
    """What is worth testing lives in the package."""
    code = "\n".join(cell.source for cell in lesson.cells if cell.cell_type == "code")

    assert not re.search(r"(?m)^\s*(def|class|lambda|!|%)", code)


def test_the_text_is_plain(figure, tmp_path: Path) -> None:
    """Lesson and lab stay at or below school grade 9."""
    shutil.copytree(SOURCES / TOPIC, tmp_path / TOPIC)
    grades = reading_grades(tmp_path)
    for name, grade in grades.items():
        figure(f"reading grade of {name}", f"{grade:.1f}")
    assert set(grades) == {f"{TOPIC}/lesson.py", f"{TOPIC}/lab.py"}
    assert max(grades.values()) <= 9


def test_it_runs_without_a_person(blank: NotebookNode) -> None:
    """Panels come up, blank answers are asked for, and nothing is written to the error stream."""
    assert streams(blank) == {"stdout"}
    assert all(WIDGET in data(blank, cell) for cell in ("desk", "odd-desk", "practice-desk"))
    assert "capacitance: not answered yet" in printed(blank, "desk-mark")


def test_its_numbers_are_those_of_print_and_hand(blank: NotebookNode) -> None:
    """10⁶/(2πf) is 2652.58 and 3183.10; Fitzgerald's example gives 176 µF (companion); 6 and 12 µF in series make 4 µF
    and share 450 V as 300 and 150 V.
    """
    factors = printed(blank, "factors")
    assert "60 Hz: µF = 2653" in factors
    assert "50 Hz: µF = 3183" in factors
    assert printed(blank, "sizing-example") == "For 90° between the currents: 176 µF\n"
    together = printed(blank, "together")
    assert "Side by side: 18 µF. In a row: 4 µF." in together
    assert "the 6 µF one has 300 V across it, the 12 µF one 150 V" in together
    assert "So 90° is not where the torque is highest." in data(blank, "figure")["text/plain"]
    assert "Verdict: GOOD" in printed(blank, "real-unit")


def test_the_units_it_names_are_what_it_says() -> None:
    """Unit 12 is a good run capacitor on 120 V; 24 leaks, 41 has the wrong voltage, 43 is good and has a bleed."""
    found = {n: practice_unit(lab("capacitors"), n).case.job for n in (12, 24, 41, 43)}

    assert (found[12].component, found[12].ending, found[12].unit.cooler.volts) == ("run capacitor", "", 120.0)
    assert (found[24].ending, found[41].ending, found[43].ending) == ("LEAKY", "WRONG_VOLTAGE", "")
    assert found[43].came.bleed_ohm == 15000.0


def test_predict_measure_compare_and_mark(lesson: NotebookNode, tmp_path: Path) -> None:
    """A person predicts 120 V, measures, reads the volts last: both stand side by side, and the answers are right."""
    unit = practice_unit(lab("capacitors"), 12)
    answers = answers_from(work(unit.bench))
    names = ("capacitance", "resistance_across", "under_load", "volts_in_service")
    marked = f"desk.mark({', '.join(f'{name}={answers[name]!r}' for name in names)})"
    done = run(filled(lesson, {"prediction": 'predicted = "120 V"', "desk-mark": marked}, {"desk": WORK}), tmp_path)

    said = printed(done, "compare")
    assert "120 V" in said
    assert answers["volts_in_service"] in said
    assert "4 of 4 right." in printed(done, "desk-mark")


def test_a_held_rotor_is_left_to_the_maker():
    """Where readings with the rotor held are spoken of, the lesson says whose they are and that nobody is to try it."""
    text = (Path(__file__).parents[2] / "source_notebooks" / "05_capacitors" / "lesson.py").read_text(encoding="utf-8")
    section = " ".join(text.split("## Three sizes for one motor")[1].split("# %%")[0].replace("#", " ").split())
    for words in (
        "from the maker or from a test bench",
        "Do not try this on a sealed unit",
        "Never bridge the overload",
    ):
        assert words in section
