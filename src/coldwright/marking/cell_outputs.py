"""Marks written in nbgrader's own forms: outputs of check cells and comments on answer cells.

A check cell shows its points as its result, which is how nbgrader reads part marks; one that waits for a person shows
an error, so that no tool that looks at outputs alone can take it for full marks. Scores do not come from outputs.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from html import escape

from nbformat.notebooknode import NotebookNode
from nbformat.v4 import new_output

from coldwright.labs.question import Lab
from coldwright.marking.collect import answer_id, check_id
from coldwright.marking.marks import LabMarks, Mark, Standing

SIGNS = {
    Standing.RIGHT: "✓",
    Standing.WRONG: "✗",
    Standing.NOT_ANSWERED: "–",
    Standing.UNREADABLE: "?",
    Standing.NO_READING: "✗",
    Standing.NOT_COUNTED: "–",
    Standing.STOPPED: "✗",
    Standing.NEEDS_PERSON: "…",
}
NO_RESPONSE = "No response."
GAP = "&emsp;"  # nbgrader's grading page puts columns edge to edge
HEADS = ("answer", "read as", "points", "", "why")


def points_of(marks: Iterable[Mark]) -> float | None:
    """Sum of some marks as nbgrader keeps it [points]; None while one of them waits for a person.

    Parameters
    ----------
    marks : iterable of Mark
        Marks of one check cell [-]
    """
    given = [mark.points for mark in marks]
    return None if None in given else float(sum((points for points in given if points is not None), Fraction(0)))


def by_check(marks: LabMarks, lab: Lab) -> dict[str, tuple[Mark, ...]]:
    """Marks gathered by the nbgrader id of their check cell.

    Parameters
    ----------
    marks : LabMarks
        Marks of a hand-in [-]
    lab : Lab
        The lab [-]
    """
    return {check_id(q.name): tuple(m for m in marks.marks if m.question == q.name) for q in lab.questions}


def _points(mark: Mark) -> str:
    return f"{'waits' if mark.points is None else mark.points} / {mark.max_points}"


def line(mark: Mark) -> str:
    """One mark in words.

    Parameters
    ----------
    mark : Mark
        A mark [-]
    """
    read = f" (read as {mark.read_as})" if mark.read_as else ""
    return f"{SIGNS[mark.standing]} {mark.name}{read}: {mark.standing.value}, {_points(mark)}. {mark.sentence}"


def _table(marks: Sequence[Mark]) -> str:
    rows = [
        (mark.name, mark.read_as, _points(mark), f"{SIGNS[mark.standing]} {mark.standing.value}", mark.sentence)
        for mark in marks
    ]
    head = "".join(f"<th>{escape(text)}{GAP}</th>" for text in HEADS)
    body = "".join("<tr>" + "".join(f"<td>{escape(text)}{GAP}</td>" for text in row) + "</tr>" for row in rows)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def check_outputs(marks: Sequence[Mark]) -> list[NotebookNode]:
    """Outputs of one check cell: a table of its answers, and its points or that it waits.

    Parameters
    ----------
    marks : sequence of Mark
        Marks of the check cell [-]
    """
    points = points_of(marks)
    words = "\n".join(line(mark) for mark in marks)
    table = new_output("display_data", data={"text/plain": words, "text/html": _table(marks)})
    if points is None:
        waits = new_output("error", ename="Waits", evalue="a person has to look at this before it is marked")
        return [table, waits]
    return [table, new_output("execute_result", data={"text/plain": repr(points)}, execution_count=1)]


def write_outputs(notebook: NotebookNode, marks: LabMarks, lab: Lab) -> None:
    """Write the outputs of every check cell into a notebook.

    Parameters
    ----------
    notebook : NotebookNode
        A notebook rebuilt from the master [-]
    marks : LabMarks
        Its marks [-]
    lab : Lab
        The lab [-]
    """
    checks = by_check(marks, lab)
    for cell in notebook.cells:
        if cell.cell_type == "code":
            found = checks.get(cell.metadata.get("nbgrader", {}).get("grade_id", ""))
            cell["outputs"] = [] if found is None else check_outputs(found)
            cell["execution_count"] = None if found is None else 1


def comments(marks: LabMarks, lab: Lab) -> dict[str, str]:
    """What stands as comment on each answer cell, by its nbgrader id; notices go with the first.

    Parameters
    ----------
    marks : LabMarks
        Marks of a hand-in [-]
    lab : Lab
        The lab [-]
    """
    found: dict[str, str] = {}
    for question in lab.questions:
        if question.answers:
            names = {answer.name for answer in question.answers}
            own = [mark for mark in marks.marks if mark.question == question.name and mark.name in names]
            blank = all(mark.standing is Standing.NOT_ANSWERED for mark in own)
            said = NO_RESPONSE if blank else "\n".join(line(mark) for mark in own)
            found[answer_id(question.name)] = said if found else "\n".join((*marks.notices, *_missing(marks), said))
    return found


def _missing(marks: LabMarks) -> list[str]:
    return [f"Missing on the job sheet: {reading}." for reading in marks.missing]
