"""A small class for the tests of marking: a notebook with the course's cells, tickets, and hand-ins in any state."""

from __future__ import annotations

import copy
import json
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from nbformat import NotebookNode, writes
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook

from coldwright.course.learners import Habits, answers_from, take_readings
from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.class_folder import SETTINGS, SHEET_NAME, ClassFolder, Learner, make_class
from coldwright.labs.question import Question
from coldwright.labs.ticket import FILE_NAME, issue_ticket
from coldwright.marking.sandbox import find_sandbox

LAB = find_lab("winding_checks")
KEYS = Path(__file__).resolve().parents[2] / "autograde" / "keys"


def _nbgrader(grade_id: str, **flags: Any) -> dict[str, Any]:
    plain = {"grade": False, "solution": False, "locked": False, "task": False, "schema_version": 3}
    return {"nbgrader": {**plain, "grade_id": grade_id, **flags}}


def answer_source(question: Question, values: Mapping[str, str] | None = None) -> str:
    """An answer cell's text: one assignment for each answer."""
    return "\n".join(f'{a.name} = "{(values or {}).get(a.name, "")}"' for a in question.answers)


def master_notebook() -> NotebookNode:
    """The notebook as the course's agreements fix its cells."""
    cells = [
        new_markdown_cell("# Winding checks", id="intro"),
        new_code_cell("from coldwright.panels import check", id="start"),
    ]
    for question in LAB.questions:
        dashed = question.name.replace("_", "-")
        if question.answers:
            metadata = _nbgrader(f"answer_{question.name}", solution=True)
            cells.append(new_code_cell(answer_source(question), id=f"answer-{dashed}", metadata=metadata))
        source = f'from coldwright.panels import check\n\ncheck("{LAB.name}", "{question.name}", globals())'
        metadata = _nbgrader(f"check_{question.name}", grade=True, locked=True, points=int(question.points))
        cells.append(new_code_cell(source, id=f"check-{dashed}", metadata=metadata))
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    return new_notebook(cells=cells, metadata={"kernelspec": kernel})


def cell(notebook: NotebookNode, cell_id: str) -> NotebookNode:
    """The cell of that id."""
    return next(each for each in notebook.cells if each.id == cell_id)


def filled(values: Mapping[str, str]) -> NotebookNode:
    """The notebook with these answers typed in."""
    notebook = master_notebook()
    for question in LAB.questions:
        if question.answers:
            cell(notebook, f"answer-{question.name.replace('_', '-')}").source = answer_source(question, values)
    return notebook


@dataclass(frozen=True)
class Work:
    """What a person who works the right way comes to: answers and the job sheet's text."""

    answers: Mapping[str, str]
    sheet: str


@cache
def right_work(secret: bytes, course: str, learner: str, attempt: int = 1) -> Work:
    """The right way through the lab on a learner's own unit."""
    ticket = issue_ticket(secret, course, LAB.name, learner, attempt)
    bench = LAB.open_bench(ticket, None)
    notes = take_readings(bench, Habits())
    return Work(answers_from(bench, notes), bench.sheet_text())


class SmallClass:
    """A class folder with hand-ins."""

    def __init__(self, root: Path, *ids: str) -> None:
        self.folder: ClassFolder = make_class(root, "course of tests", KEYS, tuple(Learner(i, i.title()) for i in ids))
        self.trusted = find_sandbox() is None  # the code in these hand-ins is our own
        if self.trusted:
            with (root / SETTINGS).open("a", encoding="utf-8") as file:
                file.write("trusted = true\n")
        source = self.folder.part("source", ".", LAB.folder)
        source.mkdir(parents=True)
        (source / "lab.ipynb").write_text(writes(master_notebook()), encoding="utf-8")

    def release(self) -> None:
        """The release folder as nbgrader makes it of this notebook, less checksums and gradebook."""
        shutil.copytree(self.folder.part("source", ".", LAB.folder), self.folder.part("release", ".", LAB.folder))

    def work(self, learner: str, attempt: int = 1) -> Work:
        """The right work of a learner."""
        return right_work(self.folder.secret, self.folder.course, learner, attempt)

    def submitted(self, learner: str) -> Path:
        """Where a learner's hand-in lies."""
        return self.folder.part("submitted", learner, LAB.folder)

    def autograded(self, learner: str) -> Path:
        """Where nbgrader puts the marked hand-in."""
        return self.folder.part("autograded", learner, LAB.folder)

    def hand_in(self, learner: str, notebook: NotebookNode | str | None = None) -> Path:
        """Hand in a learner's right work, with another notebook where one is given."""
        folder = self.submitted(learner)
        folder.mkdir(parents=True, exist_ok=True)
        work = self.work(learner)
        given = filled(work.answers) if notebook is None else notebook
        text = given if isinstance(given, str) else json.dumps(copy.deepcopy(given))
        (folder / "lab.ipynb").write_text(text, encoding="utf-8")
        ticket = issue_ticket(self.folder.secret, self.folder.course, LAB.name, learner)
        (folder / FILE_NAME).write_text(ticket.text(), encoding="utf-8")
        (folder / SHEET_NAME).write_text(work.sheet, encoding="utf-8")
        (folder / "timestamp.txt").write_text("2026-02-03 08:00:00 UTC", encoding="utf-8")
        return folder
