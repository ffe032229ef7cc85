"""Collect: the notebook rebuilt from the master, with the hand-in's answer cells in it and nothing else.

Only the sources of answer cells are taken, whatever state the notebook came back in. They are looked for by cell id and
nbgrader's id, then by the names they assign, then by their place above the check cell. Outputs, metadata, attachments,
the kernel's name, check cells and texts are the master's own.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from nbformat.notebooknode import NotebookNode

from coldwright.labs.question import Lab, Question
from coldwright.marking.plain import LONGEST_CELL

MOST_CELLS = 2_000
CODE = "code"


@dataclass(frozen=True)
class AnswerCell:
    """One answer cell: the question it belongs to, its nbgrader id and its source."""

    question: str
    grade_id: str
    source: str


@dataclass(frozen=True)
class Collected:
    """The rebuilt notebook, its answer cells in order, and notices for learner and instructor."""

    notebook: NotebookNode
    cells: tuple[AnswerCell, ...]
    notices: tuple[str, ...]


@dataclass(frozen=True)
class HandedCell:
    """What is looked at of a cell that came back. `id` and `grade_id` are "" where there is none."""

    place: int
    id: str
    grade_id: str
    kind: str
    source: str


def answer_id(question: str) -> str:
    """nbgrader's id of a question's answer cell.

    Parameters
    ----------
    question : str
        Name of the question [-]
    """
    return f"answer_{question}"


def check_id(question: str) -> str:
    """nbgrader's id of a question's check cell, which carries the points.

    Parameters
    ----------
    question : str
        Name of the question [-]
    """
    return f"check_{question}"


def _text(value: object) -> str:
    """A source as one clean text: parts joined, halves of characters replaced, too long ones cut.

    One character more than may be read is kept of a long one, so that it is refused as too long and not read in part.
    """
    if isinstance(value, list):
        value = "".join(part for part in value if isinstance(part, str))
    if not isinstance(value, str):
        return ""
    return value[: LONGEST_CELL + 1].encode("utf-8", "replace").decode("utf-8")


def _handed(notebook: Mapping[str, Any]) -> Iterator[HandedCell]:
    cells = notebook.get("cells")
    for place, cell in enumerate(cells[:MOST_CELLS] if isinstance(cells, list) else ()):
        if not isinstance(cell, Mapping):
            continue
        metadata = cell.get("metadata")
        nbgrader = metadata.get("nbgrader") if isinstance(metadata, Mapping) else None
        grade_id = nbgrader.get("grade_id") if isinstance(nbgrader, Mapping) else None
        cell_id, kind = cell.get("id"), cell.get("cell_type")
        yield HandedCell(
            place,
            cell_id if isinstance(cell_id, str) else "",
            grade_id if isinstance(grade_id, str) else "",
            kind if isinstance(kind, str) else "",
            _text(cell.get("source")),
        )


def _assigned(source: str, names: tuple[str, ...]) -> int:
    """How many of the names a source assigns, by its look; it need not be right Python."""
    return sum(bool(re.search(rf"^[ \t]*{re.escape(name)}[ \t]*(?::[^=\n]*)?=(?!=)", source, re.M)) for name in names)


class _Matcher:
    """Finds the cell that counts for each question."""

    def __init__(self, master: NotebookNode, handed_in: Mapping[str, Any], lab: Lab) -> None:
        answers = [answer_id(name) for name in _names(lab)]
        own = {_grade_id(cell): cell for cell in master.cells if _grade_id(cell) in answers}
        masters = {cell.get("id", "") for cell in master.cells} | {_grade_id(cell) for cell in master.cells}
        self.blank = {grade_id: cell["source"].strip() for grade_id, cell in own.items()}
        self.by_id = {cell["id"]: grade_id for grade_id, cell in own.items() if cell.get("id")}
        self.handed = tuple(_handed(handed_in))
        self.strange = {c.place for c in self.handed if not {c.id, c.grade_id} & (masters - {""})}
        self.notices: list[str] = []

    def find(self, question: Question) -> HandedCell | None:
        """The cell that counts for a question; None if there is none any more."""
        grade_id = answer_id(question.name)
        same = [cell for cell in self.handed if self.by_id.get(cell.id, cell.grade_id) == grade_id]
        own = self._choose(question, same)
        if own is not None and self._is_filled(question, own):
            found: HandedCell | None = own
        elif own is not None:
            found = self._by_names(question, "stood in another cell; they were read from there") or own
        else:
            lost = "stood in a cell that had lost its mark; it was found"
            found = self._by_names(question, f"{lost} by the names in it")
            found = found or self._by_place(question, f"{lost} by its place above the check")
        self._tell(question, found)
        return found

    def _tell(self, question: Question, found: HandedCell | None) -> None:
        name = f"The answer cell for '{question.title}'"
        if found is None:
            self.notices.append(f"{name} is not in the notebook any more, so nothing is answered there.")
        elif found.kind != CODE:
            self.notices.append(f"{name} had been turned into text; it was read anyway.")

    def _is_filled(self, question: Question, cell: HandedCell) -> bool:
        return cell.source.strip() not in ("", self.blank.get(answer_id(question.name), ""))

    def _choose(self, question: Question, cells: list[HandedCell]) -> HandedCell | None:
        """The last cell that was filled in, of several that could be meant."""
        if not cells:
            return None
        if len({cell.source.strip() for cell in cells}) > 1:
            self.notices.append(
                f"A copy of the answer cell for '{question.title}' was found; the last one you filled in counts."
            )
        return next((cell for cell in reversed(cells) if self._is_filled(question, cell)), cells[-1])

    def _by_names(self, question: Question, how: str) -> HandedCell | None:
        names = tuple(answer.name for answer in question.answers)
        counts = {cell: _assigned(cell.source, names) for cell in self.handed if cell.place in self.strange}
        most = max(counts.values(), default=0)
        found = self._choose(question, [cell for cell, count in counts.items() if count == most > 0])
        if found is None or not self._is_filled(question, found):
            return None
        return self._claim(question, found, how)

    def _by_place(self, question: Question, how: str) -> HandedCell | None:
        checks = [cell for cell in self.handed if check_id(question.name) in (cell.grade_id, cell.id.replace("-", "_"))]
        above = [cell for cell in self.handed if checks and cell.place == checks[0].place - 1]
        if not above or above[0].place not in self.strange or not above[0].source.strip():
            return None
        return self._claim(question, above[0], how)

    def _claim(self, question: Question, cell: HandedCell, how: str) -> HandedCell:
        self.strange.discard(cell.place)
        self.notices.append(f"The answers for '{question.title}' {how}.")
        return cell


def _names(lab: Lab) -> list[str]:
    return [question.name for question in lab.questions if question.answers]


def _grade_id(cell: NotebookNode) -> str:
    return str(cell.metadata.get("nbgrader", {}).get("grade_id", ""))


def collect(master: NotebookNode, handed_in: Mapping[str, Any], lab: Lab) -> Collected:
    """The notebook to mark, rebuilt from the master with the answers of the hand-in.

    Parameters
    ----------
    master : NotebookNode
        The notebook as it was released [-]
    handed_in : NotebookNode or mapping
        What came back, in any state [-]
    lab : Lab
        The lab [-]

    Returns
    -------
    Collected
        A deleted answer cell stands as the master has it, that is not answered.
    """
    matcher = _Matcher(master, handed_in, lab)
    found = {answer_id(q.name): matcher.find(q) for q in lab.questions if q.answers}
    notebook = copy.deepcopy(master)
    for cell in notebook.cells:
        handed = found.get(_grade_id(cell))
        if handed is not None:
            cell["source"] = handed.source
    return Collected(notebook, answer_cells(notebook, lab), tuple(matcher.notices))


def answer_cells(notebook: NotebookNode, lab: Lab) -> tuple[AnswerCell, ...]:
    """The answer cells of a rebuilt notebook, in its order.

    Parameters
    ----------
    notebook : NotebookNode
        A notebook that `collect` gave, or the master [-]
    lab : Lab
        The lab [-]
    """
    questions = {answer_id(name): name for name in _names(lab)}
    ids = [(_grade_id(cell), cell["source"]) for cell in notebook.cells]
    return tuple(AnswerCell(questions[grade_id], grade_id, source) for grade_id, source in ids if grade_id in questions)
