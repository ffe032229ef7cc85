"""Lesson and lab on safe isolation: they run blank and filled in, and their outcomes are what print and hand say."""

import re
import shutil
from pathlib import Path

import nbformat
import pytest
from nbformat import NotebookNode

from coldwright.course.build import build
from coldwright.course.people.safe_isolation import right
from coldwright.course.readability import reading_grades
from coldwright.labs.catalogue import lab
from coldwright.labs.practice import practice_unit
from coldwright.labs.ticket import issue_ticket
from coldwright.marking.judge import judge, load_key
from tests.notebooks.run_notebook import ROOT, SOURCES, WIDGET, data, filled, printed, run, streams

LAB = lab("safe_isolation")
KEY = load_key(ROOT / "autograde" / "keys", LAB)
CAUTIONS = (
    "Isolate",
    "Prove it dead",
    "Discharge",
    "Never ohms on a live wire",
    "No earth",
    "flammable",
    "Local codes",
)
MEASURES = """desk.do("volts ac", "outlet L", "outlet N")
desk.do("volts ac", "cord L", "cord N")
desk.do("volts ac low impedance", "door switch 2", "cord N")
desk.do("volts ac", "door switch 2", "cord N")"""
WORK = "from coldwright.course.people.safe_isolation import right\n\nright(desk.bench)\ndesk"


@pytest.fixture(scope="module")
def sources(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """This topic's scripts alone."""
    folder = tmp_path_factory.mktemp("sources")
    shutil.copytree(SOURCES / LAB.folder, folder / LAB.folder)
    return folder


@pytest.fixture(scope="module")
def built(sources: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, NotebookNode]:
    """Lesson and lab as handed out."""
    folder = tmp_path_factory.mktemp("course")
    build(sources, folder)
    return {name: nbformat.read(folder / LAB.folder / f"{name}.ipynb", as_version=4) for name in ("lesson", "lab")}


@pytest.fixture(scope="module")
def done(built: dict[str, NotebookNode], tmp_path_factory: pytest.TempPathFactory) -> NotebookNode:
    """The lesson run by a person who predicts 0 V and takes the four readings."""
    changed = {"prediction": 'predicted = "0 V"'}
    return run(filled(built["lesson"], changed, {"desk": MEASURES}), tmp_path_factory.mktemp("lesson"))


def test_the_cautions_stand_at_the_top(built: dict[str, NotebookNode]) -> None:
    """Before the first code cell, in the trade's words, with local codes and licensed practice first."""
    cells = built["lesson"].cells
    first = next(n for n, cell in enumerate(cells) if cell.cell_type == "code")
    text = "\n".join(cell.source for cell in cells[:first])

    assert [word for word in CAUTIONS if word not in text] == []
    assert "licensed practice come first" in text
    assert text.count("O*NET task lists, CC BY 4.0") == 1


def test_the_text_is_plain(sources: Path, figure) -> None:
    """Lesson and lab stay at or below school grade 9."""
    grades = reading_grades(sources)
    for name, grade in grades.items():
        figure(f"reading grade of {name}", f"{grade:.1f}")
    assert len(grades) == 2
    assert max(grades.values()) <= 9


def test_the_lesson_runs_and_compares(done: NotebookNode) -> None:
    """Panels come up, the prediction stands beside the ghost, and nothing is written to the error stream."""
    assert streams(done) == {"stdout"}
    assert all(WIDGET in data(done, cell) for cell in ("desk", "practice-desk"))
    compared = printed(done, "compare")
    assert "You predicted 0 V." in compared
    assert "more than the instrument may be off" in compared
    shown = re.search(r"shows ([0-9.]+) V a\.c\.", compared)
    assert shown is not None
    assert float(shown[1]) > 100


def test_its_numbers_are_those_of_print_and_hand(done: NotebookNode) -> None:
    """Bell's Example 6-2 gives 0.22 V (companion); 1.2 and 1.7 V are 2.9 V at worst and √4.33 = 2.08 V likely."""
    assert "± 0.22 V" in printed(done, "bell")
    ranges = printed(done, "range-example")
    assert "200 V range: ± 1.6 V" in ranges  # 1.416 + 0.2
    assert "600 V range: ± 3.4 V" in ranges  # 1.416 + 2
    assert "Worst case ±2.9 V, likely ±2.1 V" in printed(done, "two-limits")
    assert "So the low input tells a ghost from a live wire." in data(done, "ghost-figure")["text/plain"]
    assert printed(done, "category").startswith("Do NOT use it: wall outlet and fixed wiring: CAT III")
    assert "Verdict: CANNOT TELL" in printed(done, "real-reading")  # 108 V lies inside 108.9 ± 1.389 V


def test_the_unit_it_names_is_what_it_says() -> None:
    """Unit 26 has a supply of about 218 V, lamp out, door shut, plugged in and off, and a floating wire."""
    unit = practice_unit(LAB, 26).case.unit

    assert unit.parts.supply.volts == pytest.approx(218.0, abs=0.5)
    assert unit.arrival.plugged
    assert not unit.arrival.knob_on
    assert not unit.arrival.door_open
    assert unit.arrival.removed == frozenset({"lamp"})


def test_the_labs_table_of_marks_and_headings_are_those_of_the_lab(built: dict[str, NotebookNode]) -> None:
    """Each question stands in the table with its points, and under its own heading in the same order."""
    text = "\n".join(cell.source for cell in built["lab"].cells if cell.cell_type == "markdown")
    rows = dict(line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| "))
    rows.pop("Question")
    headings = [line for line in text.splitlines() if line.startswith("## ") and line[3].isdigit()]

    assert rows == {question.title: str(question.points) for question in LAB.questions}
    assert headings == [f"## {n}. {question.title}" for n, question in enumerate(LAB.questions, 1)]


def test_answer_cells_name_the_forms_that_are_read(built: dict[str, NotebookNode]) -> None:
    """Every word that an answer may be stands in the comment of its cell."""
    cells = {cell.id: cell.source for cell in built["lab"].cells}
    for question in LAB.questions:
        for answer in question.answers:
            source = cells[f"answer-{question.name.replace('_', '-')}"]
            for word in getattr(answer.form, "choices", None) or answer.form.words:  # type: ignore[union-attr]
                assert f'"{word}"' in source, (answer.name, word)


def test_the_lab_runs_with_a_persons_answers(built: dict[str, NotebookNode], tmp_path: Path) -> None:
    """Readings on the notebook's own desk, answers typed in: each is read back, and the judge gives 20 of 20."""
    ticket = issue_ticket(b"a secret for the tests", "a course", LAB.name, "ada")
    (tmp_path / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    answers = right(LAB.open_bench(ticket, None))  # type: ignore[arg-type]
    cells = {
        f"answer-{q.name.replace('_', '-')}": "\n".join(f'{a.name} = "{answers[a.name]}"' for a in q.answers)
        for q in LAB.questions
        if q.answers
    }

    ran = run(filled(built["lab"], cells, {"desk": WORK}), tmp_path)

    sheet = (tmp_path / "job_sheet.jsonl").read_text(encoding="utf-8")
    for question in LAB.questions:
        said = printed(ran, f"check-{question.name.replace('_', '-')}")
        assert said
        assert not any(word in said for word in ("not answered", "cannot be read", "not there yet", "✓", "✗"))
    assert judge(LAB, KEY, dict(answers), ticket, sheet).points == 20
    assert judge(LAB, KEY, dict(answers), ticket, None).points < 10
