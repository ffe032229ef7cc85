"""Running answer cells that are more than plain values: one fresh process per hand-in, in a jail, values out.

What comes back are values that the learner claims, read strictly as data. Learner code shares a process with the
program that writes them and could write records itself. It changes nothing by that but the values of its own answers,
which it may set to anything anyway: what is right is decided elsewhere.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from functools import cache
from typing import Any

from coldwright.errors import SandboxError
from coldwright.marking import child, jail
from coldwright.marking.child import Limits
from coldwright.marking.inside import LONGEST_TEXT, wire_value
from coldwright.marking.plain import Odd, Value, unindented, value_of_wire

_HINTS = {
    "NameError": 'If you mean a word, put it in quotes, such as "B".',
    "MemoryError": "The code asked for more memory than it may use.",
    "EOFError": "input() cannot ask anybody here; set the value in the cell.",
    "SystemExit": "The code called exit.",
}
_HOW_TO_GET = {
    "linux": 'Get one with "apt install bubblewrap" (Debian, Ubuntu) or "dnf install bubblewrap" (Fedora)',
    "darwin": "There is none for macOS: mark these hand-ins on a Linux machine",
    "win32": "There is none for Windows: mark these hand-ins on a Linux machine",
}
_ACCEPT = "or accept the risk with --trusted: the code then runs as a program of yours, with your rights"


@dataclass(frozen=True)
class CellToRun:
    """An answer cell to run: its id and source, the names wanted from it, and plain values of cells before it."""

    id: str
    source: str
    names: Sequence[str]
    given: Mapping[str, Value] = field(default_factory=dict)


class RunStatus(Enum):
    """How the run of one cell ended."""

    RAN = "ran"
    ERROR = "ended with an error"
    STOPPED = "was stopped"
    NOT_RUN = "was not reached"


@dataclass(frozen=True)
class CellRun:
    """What one cell gave. `message` is for the learner; `limit` names the limit that was met, if one was."""

    id: str
    status: RunStatus
    values: Mapping[str, Value] = field(default_factory=dict)
    message: str = ""
    limit: str | None = None


def run_cells(cells: Sequence[CellToRun], limits: Limits | None = None, trusted: bool = False) -> list[CellRun]:
    """What each cell of one hand-in gave, run in order in one process and one namespace.

    A value in `given` is set before its cell where it is new or has changed since the cell before. A cell that ends
    with an error or is stopped takes nothing from those before it; after one that is stopped no cell is run.

    Parameters
    ----------
    cells : sequence of CellToRun
        The cells [-]
    limits : Limits, optional
        What the code may use [-]
    trusted : bool
        Run as an ordinary process without a sandbox; time and memory are limited where the system can [-]

    Returns
    -------
    list of CellRun
        One for each cell.

    Raises
    ------
    SandboxError
        If there is no sandbox that holds, or it did not start.
    """
    used = None if trusted or not cells else sandbox_that_holds().jail
    return _run(cells, limits or Limits(), used)


@dataclass(frozen=True)
class Sandbox:
    """The sandbox of this machine."""

    jail: jail.Jail

    def canary(self) -> list[tuple[str, bool]]:
        """What a hostile probe tried inside, and whether it was blocked.

        Raises
        ------
        SandboxError
            If the sandbox did not start.
        """
        from coldwright.marking.probe import canary  # it runs cells, so it stands above this module

        return canary(self)

    def run(self, cells: Sequence[CellToRun], limits: Limits) -> list[CellRun]:
        """What each cell gave, as `run_cells`, without trying the sandbox out first.

        Parameters
        ----------
        cells : sequence of CellToRun
            The cells [-]
        limits : Limits
            What the code may use [-]
        """
        return _run(cells, limits, self.jail)


def find_sandbox() -> Sandbox | None:
    """The sandbox that this machine offers, not yet tried; None if there is none."""
    found = jail.find_jail()
    return None if found is None else Sandbox(found)


def sandbox_that_holds() -> Sandbox:
    """The sandbox of this machine, tried out with the hostile probe, once per process.

    Raises
    ------
    SandboxError
        If there is none, it did not start, or something was not blocked.
    """
    sandbox = find_sandbox()
    if sandbox is None:
        how = _HOW_TO_GET.get(sys.platform, "There is none for this system: mark these hand-ins on a Linux machine")
        raise SandboxError(f"there is no sandbox on this machine, so code in answers is not run. {how}, {_ACCEPT}")
    _try_out(sandbox)
    return sandbox


@cache
def _try_out(sandbox: Sandbox) -> None:
    leaks = [what for what, blocked in sandbox.canary() if not blocked]
    if leaks:
        raise SandboxError(
            f"the sandbox on this machine does not hold, so code in answers is not run. Not blocked: "
            f"{', '.join(leaks)}. Mark these hand-ins on another machine, {_ACCEPT}"
        )


def _run(cells: Sequence[CellToRun], limits: Limits, used: jail.Jail | None) -> list[CellRun]:
    if not cells:
        return []
    runs: list[CellRun] = []

    def take(line: bytes) -> bool:
        runs.append(_cell_run(line, len(runs), cells[len(runs)]))
        return len(runs) < len(cells)

    ended = child.run(_job(cells, limits, used), limits, used, take)
    if ended.not_started is not None:
        raise SandboxError(
            f"the process for code in answers did not start: {_clean(ended.not_started)}. Is the machine overloaded, "
            f"or are user namespaces switched off for ordinary users? Ask who looks after it, {_ACCEPT}"
        )
    if len(runs) < len(cells):
        runs.append(CellRun(cells[len(runs)].id, RunStatus.STOPPED, message=ended.message, limit=ended.limit))
    return runs + [CellRun(cell.id, RunStatus.NOT_RUN) for cell in cells[len(runs) :]]


def _job(cells: Sequence[CellToRun], limits: Limits, used: jail.Jail | None) -> dict[str, Any]:
    parts: list[dict[str, Any]] = []
    before: dict[str, tuple[str, str]] = {}
    for cell in cells:
        given = {name: wire_value(value) for name, value in cell.given.items() if not isinstance(value, Odd)}
        new = {name: wire for name, wire in given.items() if before.get(name) != wire}
        before = given
        parts.append({"source": unindented(cell.source), "names": list(cell.names), "given": new})
    return {
        "paths": jail.package_folders(),
        "user": None if used is None else jail.free_user(),
        "strict": used is not None,
        "limits": child.resource_limits(limits),
        "cells": parts,
    }


def _cell_run(line: bytes, number: int, cell: CellToRun) -> CellRun:
    """The record of one cell; ValueError if it is not exactly of the form that the program inside writes."""
    try:
        record = json.loads(line.decode("ascii"))
        ours = {"cell", "error", "line", "text", "values"}
        if type(record) is not dict or set(record) != ours or record["cell"] != number:
            raise ValueError("not a record of this cell")
        name, at, text, wires = record["error"], record["line"], record["text"], record["values"]
        if type(name) is not str or type(at) is not int or type(text) is not str or type(wires) is not dict:
            raise ValueError("a part of the record has another type")
        if not set(wires) <= set(cell.names):
            raise ValueError("a name that nobody asked for")
        values = {known: value_of_wire(wires[known]) for known in cell.names if known in wires}
    except RecursionError:
        raise ValueError("too deep for a record") from None
    if not name:
        return CellRun(cell.id, RunStatus.RAN, values)
    limit = "memory" if name == "MemoryError" else None
    return CellRun(cell.id, RunStatus.ERROR, values, _error_message(name, at, text), limit)


def _error_message(name: str, line: int, text: str) -> str:
    name = name if name.isidentifier() and len(name) <= 60 else "Error"
    where = f" on line {line}" if 0 < line <= 20_000 else ""
    what = f": {_clean(text).rstrip('. ')}" if text else ""
    hint = f" {_HINTS[name]}" if name in _HINTS else ""
    return f"{name}{where}{what}.{hint}"


def _clean(text: str) -> str:
    """A text that is safe to show: signs that print, and not too many."""
    return "".join(sign if sign.isprintable() else " " for sign in text[:LONGEST_TEXT])
