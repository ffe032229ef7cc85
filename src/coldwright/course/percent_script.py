"""Reading a percent script: its cells, their markers, and where in the file each stands."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from coldwright.errors import CourseError

MARKERS = ("key", "answer", "check", "hide")
_CELL_START = re.compile(r"# %%(\s|$)")
_KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_QUESTION = re.compile(r"[a-z0-9]+(_[a-z0-9]+)*")
_INSTALL = re.compile(
    r"(?m)^\s*(?:[!%].*\binstall\b|.*\b(?:pip3?|conda|mamba|apt|apt-get)\s+install\b|import\s+pip\b"
    r"|.*[\"']pip3?[\"']|.*\bmicropip\b)"
)


@dataclass(frozen=True)
class ScriptCell:
    """One cell. `where` names file and line for a message; `is_code` is False for Markdown."""

    where: str
    is_code: bool
    source: str
    markers: Mapping[str, str] = field(default_factory=dict)

    @property
    def answer(self) -> str | None:
        """Question that this cell answers."""
        return self.markers.get("answer")

    @property
    def check(self) -> str | None:
        """Question that this cell checks."""
        return self.markers.get("check")

    @property
    def key(self) -> str | None:
        """The author's name for the cell."""
        return self.markers.get("key")

    @property
    def hidden(self) -> bool:
        """Whether its source is folded away at first."""
        return self.markers.get("hide") == "true"


def read_script(path: Path) -> list[ScriptCell]:
    """The cells of a percent script, each checked for itself.

    Parameters
    ----------
    path : Path
        The script [-]

    Raises
    ------
    CourseError
        If it cannot be read or a cell's markers do not fit; the message names file and line.
    """
    name = f"{path.parent.name}/{path.name}"
    try:
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    except (OSError, UnicodeDecodeError) as error:
        raise CourseError(f"{name} cannot be read: {error}") from None
    starts = [number for number, line in enumerate(lines) if _CELL_START.match(line)]
    first = starts[0] if starts else len(lines)
    for number, line in enumerate(lines[:first], 1):
        if line.strip() and not line.startswith("#"):
            raise CourseError(f"{name}, line {number}: text stands before the first cell; begin the cell with # %%")
    if not starts:
        raise CourseError(f"{name} has no cell; a cell begins with a line # %%")
    parsed = _parse("".join(lines[first:]))
    exact = len(parsed) == len(starts)  # not so where a string holds a line like a cell's first
    places = [f"line {start + 1}" for start in starts] if exact else [f"cell {n}" for n in range(1, len(parsed) + 1)]
    cells = [ScriptCell(f"{name}, {place}", *cell) for place, cell in zip(places, parsed, strict=True)]
    for cell in cells:
        _check(cell)
    return cells


def _parse(text: str) -> list[tuple[bool, str, dict[str, str]]]:
    import jupytext

    cells = jupytext.reads(text, fmt="py:percent").cells
    layout = {"lines_to_next_cell", "lines_to_end_of_cell_marker"}  # jupytext's own notes on blank lines
    return [
        (
            cell.cell_type == "code",
            cell.source.strip("\n"),
            {str(k): str(v) for k, v in cell.metadata.items() if k not in layout},
        )
        for cell in cells
    ]


def _check(cell: ScriptCell) -> None:
    unknown = [marker for marker in cell.markers if marker not in MARKERS]
    if unknown:
        raise CourseError(f"{cell.where}: marker {unknown[0]!r} is not known; there are {', '.join(MARKERS)}")
    if sum(marker in cell.markers for marker in ("key", "answer", "check")) > 1:
        raise CourseError(f"{cell.where}: give one of key, answer and check, not two of them")
    if cell.key is not None and not (_KEY.fullmatch(cell.key) and len(cell.key) <= 60):
        raise CourseError(f"{cell.where}: key {cell.key!r} must be small letters, digits and single -, 60 at most")
    for question in (cell.answer, cell.check):
        if question is not None and not _QUESTION.fullmatch(question):
            raise CourseError(f"{cell.where}: {question!r} is no name of a question, such as sum_rule")
    if cell.markers.get("hide", "true") not in ("true", "false"):
        raise CourseError(f'{cell.where}: hide is {cell.markers["hide"]!r}; write hide="true" or leave it out')
    if not cell.is_code and (cell.answer or cell.check or cell.hidden):
        raise CourseError(f"{cell.where}: answer, check and hide are for code cells; this one is Markdown")
    if cell.is_code and _INSTALL.search(cell.source):
        raise CourseError(f"{cell.where}: a cell must not install anything; what a lesson needs is set up before it")
    if cell.check and cell.source:
        raise CourseError(f"{cell.where}: leave the check cell {cell.check!r} empty; the build writes it")
