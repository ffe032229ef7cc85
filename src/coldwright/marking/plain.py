"""Reading an answer cell from its syntax tree, without running anything.

Read are assignments of one value: a text, a number, or sums and the like of numbers. A cell with a broken line is read
line by line, so that a slip in one answer leaves the others alone; of what is more than plain nothing is guessed.
"""

from __future__ import annotations

import ast
import re
import warnings
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from itertools import accumulate

from coldwright.marking.inside import ODD, ODD_KINDS, plain_value, wire_value
from coldwright.marking.line_slips import broken_line, set_name
from coldwright.marking.plain_statements import TOO_LONG_NUMBER, PlainStatements

LONGEST_CELL = 20_000  # characters
_MOST_LINES = 500  # of a cell that is read line by line
_MOST_JOINED = 20  # lines in one bracket of such a cell
_DEEPEST = 100  # brackets in brackets
_LONG_NUMBER = re.compile(r"[^=]*=\s*[+-]?[\d_]{41,}\s*(?:#.*)?")


@dataclass(frozen=True)
class Odd:
    """A value that is neither a text nor a finite number of readable length; `kind` says in words what it is."""

    kind: str


Value = str | int | float | Odd


class PlainStanding(Enum):
    """Whether a cell could be read whole without running it."""

    PLAIN = "plain"
    NEEDS_RUNNING = "needs running"
    BROKEN = "cannot be read whole"


@dataclass(frozen=True)
class PlainCell:
    """What an answer cell says.

    `values` holds the wanted names that were found, each as set last. It is empty for a cell that needs running, since
    only the run can tell. Of a broken cell it holds what the lines say that can be read; a name whose last line is
    broken is not in it. `message` is one sentence for the learner on the first line that is broken or needs running.
    """

    values: Mapping[str, Value] = field(default_factory=dict)
    standing: PlainStanding = PlainStanding.PLAIN
    message: str = ""


def value_of_wire(wire: object) -> Value:
    """The value that stands for kind and text, as `wire_value` writes them.

    Parameters
    ----------
    wire : object
        Kind and text; anything else is refused [-]

    Raises
    ------
    ValueError
        If it is not of that form.
    """
    if not isinstance(wire, list | tuple) or len(wire) != 2 or not all(type(part) is str for part in wire):
        raise ValueError("a value is a kind and a text")
    kind, text = wire
    if kind == ODD and text in ODD_KINDS:
        return Odd(text)
    return plain_value(kind, text)


def unindented(source: str) -> str:
    """A cell's source without the indent of its first line, as a notebook runs it.

    Parameters
    ----------
    source : str
        The source [-]
    """
    source = source.removeprefix("\ufeff")
    indent = re.match(r"(?:[ \t]*\n)*([ \t]*)", source)
    blanks = indent[1] if indent else ""
    return re.sub(rf"(?m)^{re.escape(blanks)}", "", source) if blanks else source


def read_plain(source: str, names: Sequence[str]) -> PlainCell:
    """The answers that stand in a cell in plain form.

    Parameters
    ----------
    source : str
        The cell's source, in any state [-]
    names : sequence of str
        The names wanted [-]
    """
    if len(source) > LONGEST_CELL:
        return _refused(f"This cell is longer than {LONGEST_CELL:,} signs; keep only your answers in it.")
    if "\0" in source:
        return _refused("This cell holds a NUL sign, which no keyboard types; clear the cell and type it again.")
    source = unindented(source)
    if source.lstrip().startswith("%%"):
        return _refused("This cell begins with %%, a command to the notebook, which is not carried out here.")
    if max(accumulate((sign in "([{") - (sign in ")]}") for sign in source), default=0) > _DEEPEST:
        return _refused(f"This cell has more than {_DEEPEST} brackets in one another; type the values alone.")
    try:
        found = _read(source, frozenset(names))
    except (RecursionError, MemoryError):
        return _refused("This cell has too much nested in one another; type the values alone.")
    return found


def _refused(message: str) -> PlainCell:
    return PlainCell({}, PlainStanding.BROKEN, message)


def _parse(source: str) -> tuple[list[ast.stmt] | None, int]:
    """The statements, or None and the number of the line that stands in the way."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            return ast.parse(source).body, 0
        except SyntaxError as error:
            return None, error.lineno or 0
        except ValueError:
            return None, 0


def _read(source: str, names: frozenset[str]) -> PlainCell:
    cell = PlainStatements(names)
    body, line_in_the_way = _parse(source)
    if body is not None:
        for statement in body:
            cell.take(statement, statement.lineno)
        if cell.beyond:
            return PlainCell({}, PlainStanding.NEEDS_RUNNING, cell.beyond)
    else:
        lines = re.split(r"\r\n|\r|\n", source)
        if len(lines) > _MOST_LINES:
            return _refused(f"A line is broken in a cell of more than {_MOST_LINES}; keep only your answers in it.")
        _take_lines(cell, lines)
    values = {name: value_of_wire(wire_value(value)) for name, value in cell.known.items() if name in names}
    if not cell.broken and body is not None:
        return PlainCell(values)
    first = min(cell.broken, default=0)
    about = line_in_the_way if line_in_the_way in cell.broken else first
    return PlainCell(values, PlainStanding.BROKEN, cell.broken.get(about, "This cell cannot be read as it stands."))


def _take_lines(cell: PlainStatements, lines: list[str]) -> None:
    """Each line for itself; only lines that an open bracket or text holds together count as one."""
    at = 0
    while at < len(lines):
        line, count = lines[at], _count_joined(lines, at)
        body, _ = _parse("\n".join(lines[at : at + count]))
        if body is not None:
            for statement in body:
                cell.take(statement, at + statement.lineno)
        elif _LONG_NUMBER.fullmatch(line):
            cell.fail(at + 1, f"Line {at + 1} holds a number that is too long to be read whole.", [])
            cell.known[set_name(line) or ""] = TOO_LONG_NUMBER
        else:
            cell.fail(at + 1, broken_line(at + 1, line), [set_name(line)])
        at += count


def _count_joined(lines: list[str], at: int) -> int:
    """How many lines from here are read as one: as few as can be read, and one if none can."""
    line = lines[at]
    if len(re.findall(r"[(\[{]", line)) <= len(re.findall(r"[)\]}]", line)) and not re.search("\"{3}|'{3}", line):
        return 1
    most = min(_MOST_JOINED, len(lines) - at)
    return next((n for n in range(1, most + 1) if _parse("\n".join(lines[at : at + n]))[0] is not None), 1)
