"""The record of one judged hand-in: `marks.json` beside the autograded notebook.

Feedback page, marks table and class report read it. It holds no expected value. `fingerprint` says what was marked and
with what, so that a run that goes on after a stop can tell what is done from what is half done.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from coldwright.errors import CourseError
from coldwright.labs.files import write_whole
from coldwright.marking.marks import LabMarks, Mark, Outcome, Standing

FILE_NAME = "marks.json"
FORMAT = 1


@dataclass(frozen=True)
class Record:
    """Marks with the fingerprint of what they were given for."""

    marks: LabMarks
    fingerprint: str = ""


def _mark_data(mark: Mark) -> dict[str, Any]:
    return {
        "question": mark.question,
        "name": mark.name,
        "points": None if mark.points is None else str(mark.points),
        "max_points": str(mark.max_points),
        "standing": mark.standing.value,
        "read_as": mark.read_as,
        "sentence": mark.sentence,
        "misconception": mark.misconception,
    }


def _mark(data: dict[str, Any]) -> Mark:
    points = data["points"]
    return Mark(
        question=data["question"],
        name=data["name"],
        points=None if points is None else Fraction(points),
        max_points=Fraction(data["max_points"]),
        standing=Standing(data["standing"]),
        read_as=data["read_as"],
        sentence=data["sentence"],
        misconception=data["misconception"],
    )


def save_marks(path: Path, marks: LabMarks, fingerprint: str = "") -> None:
    """Write the marks of one hand-in.

    Parameters
    ----------
    path : Path
        The file; its folder must be there [-]
    marks : LabMarks
        The marks [-]
    fingerprint : str
        What was marked, and with what [-]
    """
    data = {
        "format": FORMAT,
        "fingerprint": fingerprint,
        "outcome": marks.outcome.value,
        "points": str(marks.points),
        "max_points": str(marks.max_points),
        "marks": [_mark_data(mark) for mark in marks.marks],
        "notices": list(marks.notices),
        "flags": list(marks.flags),
        "missing": list(marks.missing),
    }
    write_whole(path, (json.dumps(data, indent=1, ensure_ascii=True) + "\n").encode())


def load_record(path: Path) -> Record:
    """The marks of one hand-in with their fingerprint.

    Parameters
    ----------
    path : Path
        The file [-]

    Raises
    ------
    CourseError
        If there is none, or it is not whole.
    """
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        if data["format"] != FORMAT:
            raise CourseError(f"{path} has format {data['format']}; this version reads {FORMAT}. Mark the lab again")
        marks = tuple(_mark(each) for each in data["marks"])
        notices, flags, missing = tuple(data["notices"]), tuple(data["flags"]), tuple(data.get("missing", ()))
        found = LabMarks(Outcome(data["outcome"]), marks, notices, flags, missing)
        return Record(found, str(data["fingerprint"]))
    except FileNotFoundError:
        raise CourseError(f"there are no marks {path}; mark the lab first") from None
    except (OSError, ValueError, KeyError, TypeError):
        raise CourseError(f"the marks {path} cannot be read; mark the lab again") from None


def load_marks(path: Path) -> LabMarks:
    """The marks of one hand-in.

    Parameters
    ----------
    path : Path
        The file [-]

    Raises
    ------
    CourseError
        If there is none, or it is not whole.
    """
    return load_record(path).marks
