"""The bench: acts on one unit, each written on the job sheet, and readings that are taken once in one state.

Every act takes simulated seconds from a fixed list, never the clock's. Doing again what is already done changes
nothing and is not written twice, so a cell that is run again leaves the job sheet as it was. A reading taken again
after the state has changed is a new reading: a whole notebook that is run again can add a few such lines.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from coldwright.bench.acts import Told
from coldwright.bench.draw import Draw
from coldwright.bench.hazards import Hazard
from coldwright.bench.sheet import SheetHeader, SheetLine, chained, header_chain, header_text, line_text, read_sheet
from coldwright.bench.sheet_file import SheetFile
from coldwright.errors import SheetError
from coldwright.instruments.display import Display, Error

SAFE_VOLTS = 50.0  # a capacitor below this is taken as safe to touch (US National Electrical Code 460.6, from memory)
Reader = Callable[[], tuple[Display, tuple[Hazard, ...]]]


class Bench(ABC):
    """One unit, one job. What can be done to the unit is for the kinds of bench that build on this.

    Parameters
    ----------
    seed : bytes
        Where each instrument stands within its accuracy is drawn from it [-]
    header : SheetHeader
        Whose job it is [-]
    """

    seconds: Mapping[str, int]
    unit: Any

    def __init__(self, seed: bytes, header: SheetHeader) -> None:
        self.header = header
        self._draw = Draw(seed)
        self.at = 0
        self._known: dict[tuple[str, ...], Told] = {}
        self.lines: list[SheetLine] = []
        self.taken: list[Any] = []
        self._file: SheetFile | None = None

    @abstractmethod
    def perform(self, act: str, on: tuple[str, ...] = ()) -> Told:
        """Do an act by the name it has on the job sheet.

        Parameters
        ----------
        act : str
            Name of the act [-]
        on : tuple of str
            What it is done on [-]

        Raises
        ------
        BenchError
            If there is no such act or it cannot be done on these.
        """

    @abstractmethod
    def look(self) -> str:
        """What a person standing at the bench sees."""

    @property
    def hazards(self) -> list[tuple[int, Hazard]]:
        """Hazards so far, with the number of the line."""
        return [(line.n, Hazard[name]) for line in self.lines for name in line.hazards]

    def sheet_text(self) -> str:
        """The job sheet as its file holds it."""
        return header_text(self.header) + "".join(line_text(line) for line in self.lines)

    # ------------------------------------------------- for the kinds of bench

    @abstractmethod
    def _take(self, line: SheetLine, display: Display, before: Any) -> Any:
        """A reading with the state it was taken in; `before` is what `_state` gave before it."""

    def _still_shows(self, _key: tuple[str, ...]) -> bool:
        """Whether a reading that was taken before, with no act between, is still what shows."""
        return True

    @abstractmethod
    def _state(self) -> Any:
        """What of the state goes with a reading."""

    def _pass(self, seconds: int) -> None:
        """Let simulated time pass."""
        self.at += seconds

    def _error(self, name: str) -> Error:
        """Where an instrument stands within its accuracy: at most 0.7 of it, so that rounding stays inside too."""
        between = self._draw.between
        return Error(between(f"gain {name}", -0.7, 0.7), between(f"offset {name}", -0.7, 0.7))

    def _reading(self, key: tuple[str, ...], read: Reader, words: str) -> Told:
        known = self._known.get(key)
        if known is not None and self._still_shows(key):
            return known
        before = self._state()
        display, hazards = read()
        told = self._did(key[0], f"{words}: {display.text}", hazards, on=key[1:], display=display, changed=False)
        self._known[key] = told
        self.taken.append(self._take(self.lines[-1], display, before))
        return told

    def _did(
        self,
        act: str,
        text: str,
        hazards: tuple[Hazard, ...] = (),
        on: tuple[str, ...] = (),
        display: Display | None = None,
        changed: bool = True,
    ) -> Told:
        if changed or Hazard.METER_RUINED in hazards:
            self._known.clear()
        self._pass(self.seconds[act])
        before = self.lines[-1].chain if self.lines else header_chain(self.header)
        shown = display.text if display is not None else ""
        names = tuple(hazard.name for hazard in hazards)
        line = chained(before, len(self.lines) + 1, self.at, act, on, shown, names)
        if self._file is not None:
            self._file.append(line_text(line))
        self.lines.append(line)
        return Told(text, display, hazards)

    def _open(self, path: Path) -> None:
        """Go on with the job sheet of a file, or begin it."""
        if path.exists():
            sheet = read_sheet(path)
            if sheet.header != self.header:
                raise SheetError(f"the job sheet {path.name} belongs to another job, learner or version")
            for line in sheet.lines:
                self.perform(line.act, line.on)
                if self.lines[-1:] != [line]:
                    raise SheetError(f"line {line.n + 1} of {path.name} is not what this unit shows")
        self._file = SheetFile(path, self.sheet_text())
