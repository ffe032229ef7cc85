"""The job sheet: every act and reading in order, each line chained to the one before.

A sheet is a text file of JSON lines. The first says whose job it is. The chain shows that lines stand in the order
they were written; it is no secret, and whether the readings are those of the unit is found by replay.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any

from coldwright.errors import SheetError

FORMAT = 1
LONGEST_SHEET = 2_000_000  # characters; a long job is some 30,000
LONGEST_LINE = 2_000


@dataclass(frozen=True)
class SheetHeader:
    """Whose job a sheet records, and with which model."""

    lab: str
    learner: str
    ticket: str
    model: str
    format: int = FORMAT


@dataclass(frozen=True)
class SheetLine:
    """One act: its number, simulated time, what was done on what, what showed, and the hazards it met."""

    n: int
    at: int
    act: str
    on: tuple[str, ...]
    shown: str
    hazards: tuple[str, ...]
    chain: str


def _digest(before: str, body: Mapping[str, Any]) -> str:
    text = before + json.dumps(body, sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def header_chain(header: SheetHeader) -> str:
    """The chain's first link.

    Parameters
    ----------
    header : SheetHeader
        Whose job it is [-]
    """
    return _digest("", asdict(header))


def chained(
    before: str, n: int, at: int, act: str, on: tuple[str, ...], shown: str, hazards: tuple[str, ...]
) -> SheetLine:
    """A line with its link to the line before.

    Parameters
    ----------
    before : str
        Link of the line before [-]
    n : int
        Number of the line, from 1 [-]
    at : int
        Simulated time at the end of the act [s]
    act : str
        What was done [-]
    on : tuple of str
        What it was done on [-]
    shown : str
        What an instrument showed [-]
    hazards : tuple of str
        Names of the hazards met [-]
    """
    body = {"n": n, "at": at, "act": act, "on": list(on), "shown": shown, "hazards": list(hazards)}
    return SheetLine(n, at, act, on, shown, hazards, _digest(before, body))


def line_text(line: SheetLine) -> str:
    """One line of the file.

    Parameters
    ----------
    line : SheetLine
        The line [-]
    """
    return json.dumps(asdict(line), ensure_ascii=False) + "\n"


def header_text(header: SheetHeader) -> str:
    """First line of the file.

    Parameters
    ----------
    header : SheetHeader
        Whose job it is [-]
    """
    return json.dumps(asdict(header), ensure_ascii=False) + "\n"


@dataclass(frozen=True)
class Sheet:
    """A whole job sheet. `torn` says that a last line was cut off and left out."""

    header: SheetHeader
    lines: tuple[SheetLine, ...]
    torn: bool = False


def _object(text: str, number: int, wanted: set[str]) -> dict[str, Any]:
    if len(text) > LONGEST_LINE:
        raise SheetError(
            f"line {number} of the job sheet is {len(text)} characters long; the bench writes none so long"
        )
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        raise SheetError(f"line {number} of the job sheet cannot be read; it was changed or cut off") from None
    if not isinstance(found, dict) or set(found) != wanted:
        raise SheetError(f"line {number} of the job sheet is not a line that the bench writes")
    return found


def _is_text_list(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(item, str) for item in value)


def parse_sheet(text: str) -> Sheet:
    """A job sheet from its text, its form and chain checked.

    A last line that was cut off while being written (no line end, not readable) is left out.

    Parameters
    ----------
    text : str
        Whole text of the file [-]

    Raises
    ------
    SheetError
        If a line cannot be read, is out of order or does not hang on the one before; the message gives its number.
    """
    if len(text) > LONGEST_SHEET:
        raise SheetError(f"the job sheet is {len(text)} characters long; no job is longer than {LONGEST_SHEET}")
    rows = text.split("\n")
    torn = rows.pop()
    if torn:
        try:
            json.loads(torn)
        except (ValueError, RecursionError):
            pass
        else:
            rows.append(torn)
            torn = ""
    if not rows:
        raise SheetError("the job sheet is empty; open the notebook's bench once to begin it")
    names = {f.name for f in fields(SheetHeader)}
    head = _object(rows[0], 1, names)
    if not all(isinstance(head[name], str) for name in names - {"format"}) or head["format"] != FORMAT:
        raise SheetError("line 1 of the job sheet does not say whose job it is")
    header = SheetHeader(**head)
    chain = header_chain(header)
    lines: list[SheetLine] = []
    for number, row in enumerate(rows[1:], start=2):
        line = _line(row, number)
        expected = chained(chain, line.n, line.at, line.act, line.on, line.shown, line.hazards)
        if line.n != number - 1 or line.chain != expected.chain:
            raise SheetError(
                f"line {number} of the job sheet does not hang on the line before; it was changed or moved"
            )
        lines.append(line)
        chain = line.chain
    return Sheet(header, tuple(lines), torn=bool(torn))


def _line(row: str, number: int) -> SheetLine:
    found = _object(row, number, {f.name for f in fields(SheetLine)})
    whole = all(type(found[name]) is int for name in ("n", "at"))
    texts = all(isinstance(found[name], str) for name in ("act", "shown", "chain"))
    if not (whole and texts and _is_text_list(found["on"]) and _is_text_list(found["hazards"])):
        raise SheetError(f"line {number} of the job sheet is not a line that the bench writes")
    return SheetLine(**{**found, "on": tuple(found["on"]), "hazards": tuple(found["hazards"])})


def read_sheet(path: Path) -> Sheet:
    """A job sheet from a file.

    Parameters
    ----------
    path : Path
        The file [-]

    Raises
    ------
    SheetError
        If there is no such file, it is no text, or `parse_sheet` refuses it.
    """
    try:
        if path.stat().st_size > LONGEST_SHEET * 4:
            raise SheetError(f"the job sheet {path.name} is too large to be one")
        return parse_sheet(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise SheetError(f"there is no job sheet {path.name}") from None
    except (OSError, UnicodeDecodeError):
        raise SheetError(f"the job sheet {path.name} cannot be read as text") from None
