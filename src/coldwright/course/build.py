"""Building the notebooks: percent scripts in, nbgrader notebooks out; the same sources give the same bytes."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from coldwright.course.percent_script import ScriptCell, read_script
from coldwright.course.start_page import PAGE, start_page
from coldwright.course.syllabus import TOPICS, topic
from coldwright.errors import CourseError, InputError
from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.files import write_whole
from coldwright.labs.question import Lab, Question

KINDS = ("lesson", "lab")
METADATA = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}


def build(source_dir: Path, course_dir: Path) -> list[Path]:
    """Every file of the course, built; nothing is written if one of the scripts is wrong.

    Parameters
    ----------
    source_dir : Path
        Folder with NN_topic/lesson.py and lab.py [-]
    course_dir : Path
        Folder that gets NN_topic/lesson.ipynb and lab.ipynb, and the start page [-]

    Returns
    -------
    list of Path
        What was built, in the order of the course [-]

    Raises
    ------
    CourseError
        If a script is wrong; the message names file and line.
    """
    built = _built(source_dir)
    for name, data in built.items():
        path = course_dir / name
        if not path.is_file() or path.read_bytes() != data:
            write_whole(path, data)
    return [course_dir / name for name in built]


def check_built(source_dir: Path, course_dir: Path) -> list[str]:
    """How a course folder differs from what the sources build, one sentence each; empty if it does not.

    Parameters
    ----------
    source_dir : Path
        Folder with the scripts [-]
    course_dir : Path
        Folder with what was built [-]
    """
    built = _built(source_dir)
    found = []
    for name, data in built.items():
        path = course_dir / name
        if not path.is_file():
            found.append(f"{name} is missing; build the course")
        elif path.read_bytes() != data:
            found.append(f"{name} is stale: the source builds something else; build the course")
    there = sorted(p.relative_to(course_dir) for p in course_dir.rglob("*.ipynb"))
    extra = [p.as_posix() for p in there if p.as_posix() not in built and ".ipynb_checkpoints" not in p.parts]
    return [*found, *(f"{name} is extra: no source builds it; delete it" for name in extra)]


def scripts(source_dir: Path) -> list[Path]:
    """Every lesson and lab script, in the order of the course.

    Parameters
    ----------
    source_dir : Path
        Folder with the scripts [-]

    Raises
    ------
    CourseError
        If there is none, or one that belongs to no topic.
    """
    for path in source_dir.glob("*/*.py"):
        topic(path.parent.name)
        if path.stem not in KINDS:
            raise CourseError(f"{path.parent.name}/{path.name}: a topic has lesson.py and lab.py, nothing else")
    wanted = (source_dir / each.folder / f"{kind}.py" for each in TOPICS for kind in KINDS)
    found = [path for path in wanted if path.is_file()]
    if not found:
        raise CourseError(f"there is no lesson.py or lab.py in a topic's folder under {source_dir}")
    return found


def _built(source_dir: Path) -> dict[str, bytes]:
    found = scripts(source_dir)
    notebooks = {f"{path.parent.name}/{path.stem}.ipynb": _notebook(path) for path in found}
    page = start_page({f"{path.parent.name}/{path.stem}" for path in found})
    return {PAGE: page.encode(), **notebooks}


def _notebook(path: Path) -> bytes:
    import nbformat

    cells = read_script(path)
    folder, kind = path.parent.name, path.stem
    lab = _lab_of(path, cells)
    made: list[dict[str, Any]] = []
    ids: set[str] = set()
    for position, cell in enumerate(cells, 1):
        done = _cell(cell, lab, f"{folder.replace('_', '-')}-{kind}-{position}")
        if done["id"] in ids:
            raise CourseError(f"{cell.where}: the cell id {done['id']!r} is there twice; give each cell its own key")
        ids.add(done["id"])
        made.append(done)
    notebook = nbformat.from_dict({"cells": made, "metadata": METADATA, "nbformat": 4, "nbformat_minor": 5})
    nbformat.validate(notebook)
    return str(nbformat.writes(notebook)).rstrip("\n").encode() + b"\n"


def _lab_of(path: Path, cells: Sequence[ScriptCell]) -> Lab | None:
    marked = [cell for cell in cells if cell.answer or cell.check]
    if path.stem != "lab":
        if marked:
            raise CourseError(f"{marked[0].where}: answer and check cells belong in lab.py")
        return None
    try:
        lab = find_lab(path.parent.name)
    except InputError as error:
        raise CourseError(f"{path.parent.name}/{path.name}: {error}") from None
    for question in lab.questions:
        _check_question(f"{path.parent.name}/{path.name}", question, cells)
    return lab


def _check_question(name: str, question: Question, cells: Sequence[ScriptCell]) -> None:
    answers = [n for n, cell in enumerate(cells) if cell.answer == question.name]
    checks = [n for n, cell in enumerate(cells) if cell.check == question.name]
    if not checks:
        raise CourseError(f'{name}: question {question.name!r} has no check cell; add # %% check="{question.name}"')
    if question.answers and not answers:
        raise CourseError(f'{name}: question {question.name!r} has no answer cell; add # %% answer="{question.name}"')
    if answers and answers[0] > checks[0]:
        raise CourseError(f"{cells[checks[0]].where}: the check of {question.name!r} stands before its answer cell")


def _cell(cell: ScriptCell, lab: Lab | None, spare_id: str) -> dict[str, Any]:
    made: dict[str, Any] = {
        "cell_type": "code" if cell.is_code else "markdown",
        "id": cell.key or spare_id,
        "metadata": {"jupyter": {"source_hidden": True}} if cell.hidden else {},
        "source": cell.source,
    }
    if cell.is_code:
        made |= {"execution_count": None, "outputs": []}
    for role in ("answer", "check"):
        name = cell.markers.get(role)
        if name is not None and lab is not None:
            question = _question(cell, lab, name)
            made["id"] = f"{role}-{name.replace('_', '-')}"
            made["metadata"]["nbgrader"] = _graded(f"{role}_{name}", question if role == "check" else None)
            if role == "answer":
                _check_answer(cell, question)
            else:
                made["source"] = check_source(lab, question)
    return made


def check_source(lab: Lab, question: Question) -> str:
    """What a check cell holds.

    Parameters
    ----------
    lab : Lab
        The lab [-]
    question : Question
        The question that the cell checks [-]
    """
    return f'from coldwright.panels import check\n\ncheck("{lab.name}", "{question.name}", globals())'


def _graded(grade_id: str, checked: Question | None) -> dict[str, Any]:
    """nbgrader's own metadata: a check cell carries the points, an answer cell none."""
    found: dict[str, Any] = {
        "grade": checked is not None,
        "grade_id": grade_id,
        "locked": checked is not None,
        "schema_version": 3,
        "solution": checked is None,
        "task": False,
    }
    if checked is not None:
        points = checked.points
        found["points"] = int(points) if points.denominator == 1 else float(points)
    return found


def _question(cell: ScriptCell, lab: Lab, name: str) -> Question:
    try:
        return lab.question(name)
    except InputError as error:
        raise CourseError(f"{cell.where}: {error}") from None


def _check_answer(cell: ScriptCell, question: Question) -> None:
    try:
        given = dict(_assigned(cell.source))
    except SyntaxError as error:
        raise CourseError(f"{cell.where}: the answer cell is no Python: {error.msg}") from None
    for answer in question.answers:
        if answer.name not in given:
            raise CourseError(f'{cell.where}: the answer cell {question.name!r} must hold {answer.name} = ""')
        value = given[answer.name]
        if not (isinstance(value, ast.Constant) and value.value == ""):
            raise CourseError(f'{cell.where}: {answer.name} must be left blank, as {answer.name} = ""')


def _assigned(source: str) -> Iterator[tuple[str, ast.expr]]:
    for statement in ast.parse(source).body:
        if isinstance(statement, ast.Assign):
            for target in statement.targets:
                if isinstance(target, ast.Name):
                    yield target.id, statement.value
