"""The marks table for a terminal: as wide as it is, and with nothing in it that drives it."""

from __future__ import annotations

import re
import shutil
import unicodedata
from collections.abc import Sequence

from coldwright.marking.table import Row, show_points

HEADS = ("learner", "marks", "outcome", "what went wrong")
LONGEST_LEARNER, SHORTEST_LEARNER = 28, 12
NARROWEST_SENTENCE = 12
BETWEEN = 2  # blanks between two columns

_BIDI = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")


def _clean(text: str) -> str:
    """A text that moves no cursor, breaks no line and turns no text round."""
    text = _BIDI.sub("", text)
    return "".join(" " if unicodedata.category(c) in ("Cc", "Zl", "Zp", "Cs") else c for c in text)


def _width(text: str) -> int:
    """How many columns a text takes in a terminal [-]."""
    wide = sum(1 + (unicodedata.east_asian_width(c) in "WF") for c in text)
    return wide - sum(1 for c in text if unicodedata.category(c) in ("Mn", "Me", "Cf"))


def _fit(text: str, width: int) -> str:
    """A text cut to a width and filled up to it."""
    text = _clean(text)
    if _width(text) > width:
        while text and _width(text) > width - 1:
            text = text[:-1]
        text += "…"
    return text + " " * (width - _width(text))


def _cells(row: Row) -> tuple[str, str, str, str]:
    points = "–" if row.points is None else show_points(row.points)
    learner = f"{row.learner}  {row.name}" if row.name else row.learner
    so_far = "" if row.final or row.points is None else " so far"
    return learner, f"{points} / {show_points(row.max_points)}{so_far}", row.outcome, row.sentence


def marks_table(rows: Sequence[Row], width: int | None = None) -> str:
    """The table for a terminal, each learner on a line, a sentence that is wider than its column on more.

    Where a terminal is too narrow the sentence is left out, then the outcome; learner and marks stay.

    Parameters
    ----------
    rows : sequence of Row
        The lines [-]
    width : int, optional
        Columns of the terminal; asked from it by default [-]
    """
    width = width or shutil.get_terminal_size((120, 24)).columns
    told = list(map(_cells, rows))
    table = [HEADS, *told]
    widths = _widths(table, width)
    rule = ["-" * each for each in widths]
    lines = [_line(HEADS, widths), _line(rule, widths), *(line for row in told for line in _lines(row, widths))]
    return "\n".join(_fit(line, width).rstrip() for line in lines)


def _lines(row: Sequence[str], widths: Sequence[int]) -> list[str]:
    """A row in lines: the last column goes on below where it is wider than its place."""
    columns = list(row[: len(widths)])
    told = _wrapped(columns[-1], widths[-1]) if len(widths) == len(HEADS) else columns[-1:]
    rows = [[*columns[:-1], told[0]], *([""] * (len(columns) - 1) + [more] for more in told[1:])]
    return [_line(each, widths) for each in rows]


def _line(columns: Sequence[str], widths: Sequence[int]) -> str:
    return (" " * BETWEEN).join(map(_fit, columns, widths))


def _wrapped(text: str, width: int) -> list[str]:
    """A text in lines of a width, broken between words; a word wider than that is left for `_fit` to cut."""
    lines = [""]
    for word in _clean(text).split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and _width(longer) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _widths(table: Sequence[Sequence[str]], width: int) -> list[int]:
    """Widths of the columns that there is room for [-]."""
    learner, points, outcome = (max(_width(_clean(line[column])) for line in table) for column in range(3))
    learner = min(learner, LONGEST_LEARNER)
    short = min(learner, max(width // 5, SHORTEST_LEARNER))
    sentence = width - short - points - outcome - 3 * BETWEEN
    if sentence >= NARROWEST_SENTENCE:
        return [short, points, outcome, sentence]
    shown = [points, outcome] if short + points + outcome + 2 * BETWEEN <= width else [points]
    room = width - sum(shown) - len(shown) * BETWEEN
    return [min(learner, max(room, SHORTEST_LEARNER)), *shown]
