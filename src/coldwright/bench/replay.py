"""Replay: every act of a job sheet done again on the same unit, and what it shows compared digit by digit."""

from __future__ import annotations

import re
from dataclasses import dataclass

from coldwright.bench.bench import Bench
from coldwright.bench.sheet import Sheet
from coldwright.errors import BenchError, InputError


@dataclass(frozen=True)
class Replay:
    """How a sheet replays. `bench` is the bench after the last good line; `first_bad` the first line that fails."""

    bench: Bench
    first_bad: int | None = None
    reason: str = ""

    @property
    def holds(self) -> bool:
        """Whether every line is what the unit gives."""
        return self.first_bad is None


def same_digits(one: str, other: str) -> bool:
    """Whether two displays agree within one of the last digit shown.

    Parameters
    ----------
    one, other : str
        Text of two displays [-]
    """
    if one == other:
        return True
    number = r"(-?\d+)(?:\.(\d+))?"
    a, b = re.fullmatch(number + r"( .*)", one), re.fullmatch(number + r"( .*)", other)
    if a is None or b is None or a[3] != b[3] or len(a[2] or "") != len(b[2] or ""):
        return False
    return abs(int(a[1] + (a[2] or "")) - int(b[1] + (b[2] or ""))) <= 1


def replay(sheet: Sheet, fresh: Bench) -> Replay:
    """Do every act of a sheet again and compare.

    Parameters
    ----------
    sheet : Sheet
        The sheet, its chain already checked [-]
    fresh : Bench
        A bench with the same unit and seed on which nothing has been done [-]

    Returns
    -------
    Replay
        Stops at the first line that the unit would not give.
    """
    for line in sheet.lines:
        number = line.n + 1
        before = len(fresh.lines)
        try:
            fresh.perform(line.act, line.on)
        except (BenchError, InputError) as error:
            return Replay(fresh, number, str(error))
        if len(fresh.lines) != before + 1:
            return Replay(fresh, number, f"'{line.act}' would not have been written here: it was already done")
        mine = fresh.lines[-1]
        if not same_digits(line.shown, mine.shown):
            return Replay(fresh, number, f"'{line.act}' on {' and '.join(line.on)} would not show {line.shown[:40]!r}")
        if (line.at, line.hazards) != (mine.at, mine.hazards):
            return Replay(fresh, number, f"'{line.act}' has another time or other hazards than the bench gives")
    return Replay(fresh)
