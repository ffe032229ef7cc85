"""The marks table, as CSV and as data. It is the instructor's, so flags may stand in it.

In the CSV a text that a spreadsheet could take for a formula gets a ' in front (each part of it that would stand in a
cell of its own if the file were split in another way, too). `read_csv` takes it off again, so every text comes back as
it was. The file is UTF-8 with a byte order mark, without which a spreadsheet program may take it for another encoding.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from coldwright.labs.files import write_whole
from coldwright.labs.question import Lab
from coldwright.marking.marks import Outcome
from coldwright.marking.what_went_wrong import what_went_wrong

if TYPE_CHECKING:
    from coldwright.marking.intake import Refusal
    from coldwright.marking.mark_class import Result

NOTHING_HANDED_IN = "nothing handed in"
NOT_TAKEN_IN = "not taken in"
BY_PERSON = "marked by a person"
PERSON_SAID = "A person set the marks that waited."
COLUMNS = ("learner", "name", "points", "max_points", "final", "outcome", "sentence", "notices", "feedback")
LARGEST_DENOMINATOR = 500  # six decimals tell such fractions apart

_FORMULA = "=+\\-@＝＋－＠\t\r"
_WOULD_RUN = re.compile(rf"(^|[;,|\t\r\n])( *'*)(?=[{_FORMULA}])")
_MADE_INERT = re.compile(rf"(^|[;,|\t\r\n])( *'*)'(?=[{_FORMULA}])")


@dataclass(frozen=True)
class Row:
    """One learner's line. `points` is None where no marks were given, `feedback` where there is no page.

    `final` says that marks were given and none of them waits for a person.
    """

    learner: str
    name: str
    points: Fraction | None
    max_points: Fraction
    outcome: str
    sentence: str
    notices: tuple[str, ...] = ()
    feedback: Path | None = None
    final: bool = True


def row_of(result: Result, lab: Lab, feedback: Path | None = None, refusal: Refusal | None = None) -> Row:
    """The line of one learner's result.

    Parameters
    ----------
    result : Result
        What marking gave [-]
    lab : Lab
        The lab [-]
    feedback : Path, optional
        The learner's feedback page [-]
    refusal : Refusal, optional
        Why the hand-in was not taken in [-]
    """
    name = " ".join(part for part in (result.learner.first_name, result.learner.last_name) if part)
    marks, notices = result.marks, result.marks.notices if result.marks else ()
    outcome = result.outcome.value if result.outcome else NOTHING_HANDED_IN
    sentence = what_went_wrong(marks) if marks else result.reason
    points, final = _points(result)
    if final and result.outcome in (Outcome.NEEDS_PERSON, Outcome.REFUSED):
        outcome, sentence = BY_PERSON, PERSON_SAID
    if refusal is not None and refusal.handed_in:
        reason = f"The hand-in was not taken in: {refusal.reason}."
        if marks is None and points is None:
            outcome, sentence = NOT_TAKEN_IN, reason
        else:
            notices = (*notices, f"{reason} The one before it was marked.")
    return Row(result.learner.id, name, points, lab.points, outcome, sentence, notices, feedback, final)


def _points(result: Result) -> tuple[Fraction | None, bool]:
    """Points of a hand-in, None where nothing is marked yet, and whether they are final."""
    if result.held is not None:
        return (result.held.points if result.held.scored else None), not result.held.waiting
    if result.marks is None:
        return None, False
    given = [
        mark.points
        for mark in result.marks.marks
        if mark.question not in result.marks.waiting and mark.points is not None
    ]
    return (sum(given, Fraction(0)) if given else None), not result.marks.waiting


def show_points(points: Fraction) -> str:
    """Points as a person reads them: whole, or with two decimals.

    Parameters
    ----------
    points : Fraction
        Some points [points]
    """
    return str(points) if points.denominator == 1 else f"{float(points):.2f}"


def inert(text: str) -> str:
    """A text that no spreadsheet takes for a formula.

    Parameters
    ----------
    text : str
        Any text [-]
    """
    return _WOULD_RUN.sub(r"\1\2'", text)


def _as_it_was(text: str) -> str:
    return _MADE_INERT.sub(r"\1\2", text)


def _decimal(points: Fraction | None) -> str:
    if points is None:
        return ""
    return str(points) if points.denominator == 1 else f"{float(points):.6f}".rstrip("0")


def write_csv(path: Path, rows: Sequence[Row]) -> None:
    """Write the table as CSV; a file that was there is replaced whole.

    Parameters
    ----------
    path : Path
        The file [-]
    rows : sequence of Row
        The lines [-]
    """
    text = io.StringIO()
    writer = csv.writer(text, quoting=csv.QUOTE_ALL)
    writer.writerow(COLUMNS)
    for row in rows:
        texts = (row.outcome, row.sentence, "\n".join(row.notices), str(row.feedback or ""))
        points = (_decimal(row.points), _decimal(row.max_points), "yes" if row.final else "no")
        writer.writerow((inert(row.learner), inert(row.name), *points, *map(inert, texts)))
    write_whole(path, text.getvalue().encode("utf-8-sig", "replace"))


def read_csv(path: Path) -> list[Row]:
    """The lines of a table that `write_csv` wrote.

    Parameters
    ----------
    path : Path
        The file [-]
    """
    with path.open(encoding="utf-8-sig", newline="") as file:
        return [_row(row) for row in csv.DictReader(file)]


def _row(line: Mapping[str, str]) -> Row:
    text = {name: _as_it_was(value) for name, value in line.items()}
    points = {name: Fraction(line[name]).limit_denominator(LARGEST_DENOMINATOR) for name in COLUMNS[2:4] if line[name]}
    return Row(
        text["learner"],
        text["name"],
        points.get("points"),
        points["max_points"],
        text["outcome"],
        text["sentence"],
        tuple(text["notices"].split("\n")) if text["notices"] else (),
        Path(text["feedback"]) if text["feedback"] else None,
        text["final"] == "yes",
    )


def _number(points: Fraction | None) -> int | float | None:
    if points is None:
        return None
    return points.numerator if points.denominator == 1 else float(points)


def as_json(lab: Lab, rows: Sequence[Row], places: Mapping[str, Path] | None = None) -> str:
    """The table as JSON.

    Parameters
    ----------
    lab : Lab
        The lab [-]
    rows : sequence of Row
        The lines [-]
    places : mapping of str to Path, optional
        Where things lie [-]
    """
    data = {
        "lab": lab.name,
        "title": lab.title,
        "learners": [
            {
                "learner": row.learner,
                "name": row.name,
                "points": _number(row.points),
                "max_points": _number(row.max_points),
                "final": row.final,
                "outcome": row.outcome,
                "sentence": row.sentence,
                "notices": list(row.notices),
                "feedback": str(row.feedback) if row.feedback else None,
            }
            for row in rows
        ],
        "places": {what: str(path) for what, path in (places or {}).items()},
    }
    return json.dumps(data, indent=1, ensure_ascii=True)
