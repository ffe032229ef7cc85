"""Lesson and lab on overloads as they are built: the lesson runs as it is, the lab worked right earns twenty."""

import shutil
from pathlib import Path

import nbformat
import pytest
from nbformat import NotebookNode

from coldwright.course.build import build
from coldwright.course.people.overloads import right
from coldwright.labs.catalogue import lab
from coldwright.labs.ticket import issue_ticket
from coldwright.marking.judge import judge, load_key
from tests.notebooks.run_notebook import ROOT, SOURCES, WIDGET, data, filled, printed, run, streams

TOPIC = "06_overloads"
LAB = lab("overloads")
WORK = """from coldwright.course.people.overloads import right

right(desk.bench)
desk"""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder of the topic, built from its sources alone."""
    sources, folder = tmp_path_factory.mktemp("sources"), tmp_path_factory.mktemp("course")
    shutil.copytree(SOURCES / TOPIC, sources / TOPIC)
    build(sources, folder)
    return folder / TOPIC


@pytest.fixture(scope="module")
def lab_notebook(built: Path) -> NotebookNode:
    """The lab as handed out."""
    return nbformat.read(built / "lab.ipynb", as_version=4)


def test_the_table_of_marks_is_that_of_the_lab(lab_notebook: NotebookNode) -> None:
    """Each question stands in it with its points, and its heading bears its number."""
    text = next(cell.source for cell in lab_notebook.cells if cell.id == "job")
    rows = dict(line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| "))
    rows.pop("Question")
    headings = [cell.source.split("\n")[0] for cell in lab_notebook.cells if cell.source.startswith("## ")]

    assert rows == {question.title: str(question.points) for question in LAB.questions}
    numbered = [heading for heading in headings if heading[3].isdigit()]
    assert numbered == [f"## {n}. {question.title}" for n, question in enumerate(LAB.questions, 1)]


def test_answer_cells_name_the_words_that_are_read(lab_notebook: NotebookNode) -> None:
    """Every word that an answer may be stands in the comments of its cell."""
    cells = {cell.id: cell.source for cell in lab_notebook.cells}
    for question in LAB.questions:
        for answer in question.answers:
            source = cells[f"answer-{question.name.replace('_', '-')}"]
            for word in getattr(answer.form, "choices", None) or answer.form.words:
                assert f'"{word}"' in source, (answer.name, word)


def test_who_works_the_lab_right_gets_twenty(lab_notebook: NotebookNode, tmp_path: Path) -> None:
    """Readings on the notebook's own desk, answers typed in: each is read back, and the judge gives 20 of 20."""
    ticket = issue_ticket(b"a secret for the tests", "a course", LAB.name, "ada")
    (tmp_path / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    spare = LAB.open_bench(ticket, None)
    answers = right(spare)
    cells = {
        f"answer-{q.name.replace('_', '-')}": "\n".join(f'{a.name} = "{answers[a.name]}"' for a in q.answers)
        for q in LAB.questions
        if q.answers
    }

    done = run(filled(lab_notebook, cells, {"desk": WORK}), tmp_path)

    sheet = (tmp_path / "job_sheet.jsonl").read_text(encoding="utf-8")
    assert sheet == spare.sheet_text()
    assert WIDGET in data(done, "desk")
    for question in LAB.questions:
        said = printed(done, f"check-{question.name.replace('_', '-')}")
        assert not any(word in said for word in ("not answered", "cannot be read", "✓", "✗")), said
    key = load_key(ROOT / "autograde" / "keys", LAB)
    assert judge(LAB, key, answers, ticket, sheet).points == 20


def test_the_lesson_runs_from_top_to_bottom(built: Path, tmp_path: Path) -> None:
    """Nothing goes to the error stream; desks come up, the example and the real unit's verdict are printed."""
    done = run(nbformat.read(built / "lesson.ipynb", as_version=4), tmp_path)

    assert streams(done) == {"stdout"}
    assert WIDGET in data(done, "desk")
    assert "No prediction yet." in printed(done, "compare")
    assert "= 25.8 kW" in printed(done, "square-example")
    assert "image/png;base64" in data(done, "trip-figure")["text/html"]
    assert "Verdict: FITS" in printed(done, "real-unit")
    said = printed(done, "practice-solution")
    assert all(f"{answer.name}: " in said for question in LAB.questions for answer in question.answers)
