"""The desk in a notebook: one unit on the bench, its panel, and the same acts by name."""

from __future__ import annotations

import secrets
import sys
from abc import ABC, abstractmethod
from pathlib import Path
from typing import Any, Protocol

from coldwright.bench import MODEL_VERSION
from coldwright.bench.acts import Told
from coldwright.bench.bench import Bench
from coldwright.bench.cold_bench import ColdBench
from coldwright.bench.compressor_bench import CompressorBench
from coldwright.bench.unit_bench import UnitBench
from coldwright.errors import BenchError, ColdwrightError, SheetError, TicketError
from coldwright.labs.catalogue import lab
from coldwright.labs.class_folder import SHEET_NAME
from coldwright.labs.question import Lab
from coldwright.labs.ticket import FILE_NAME, Ticket, practice_ticket, read_ticket
from coldwright.panels.words import bench_text, lines_words, say

PRACTICE_NUMBERS = 1_000_000
ASIDE = "job_sheet (set aside {number}).jsonl"

_open_benches: dict[Path, Bench] = {}


class Panel(Protocol):
    """What a desk asks of a panel."""

    @property
    def widget(self) -> Any:
        """What is shown."""

    def text(self) -> str:
        """All that it shows, as text."""

    def refresh(self) -> None:
        """Bring it up to date with the bench."""

    def show(self, told: Told) -> None:
        """Show what came of an act that was done elsewhere.

        Parameters
        ----------
        told : Told
            What came of it [-]
        """


class Desk(ABC):
    """One unit on the bench. Shown in a notebook, it is the panel.

    Parameters
    ----------
    bench : Bench
        The bench [-]
    """

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self._panel: Panel | None = None

    @abstractmethod
    def _make_panel(self) -> Panel:
        """The panel of this kind of bench."""

    @property
    def panel(self) -> Panel:
        """The panel over this bench."""
        if self._panel is None:
            self._panel = self._make_panel()
        return self._panel

    def __repr__(self) -> str:
        return bench_text(self.bench) if self._panel is None else self._panel.text()

    def _repr_mimebundle_(self, **_wanted: Any) -> dict[str, Any]:
        """The panel, with all of it as text for where no panel can be shown."""
        self.panel.refresh()
        bundle = self.panel.widget._repr_mimebundle_()
        return {**bundle, "text/plain": self.panel.text()}

    def _did(self, told: Told) -> Told:
        if self._panel is not None:
            self._panel.show(told)
        return told

    def do(self, act: str, *on: str | int) -> Told:
        """Do an act by the name it has on the job sheet.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str or int
            What it is done on [-]
        """
        return self._did(self.bench.perform(act, tuple(map(str, on))))


def open_desk(lab_name: str = "winding_checks", folder: Path | None = None) -> Desk:
    """The desk of a lab's notebook, on the ticket and the job sheet that lie beside it.

    Without a ticket one for practice is made. A job sheet that does not fit is set aside under another name. Both are
    said in print.

    Parameters
    ----------
    lab_name : str
        Name of the lab [-]
    folder : Path, optional
        The lab's folder; the current one if left out [-]

    Raises
    ------
    TicketError
        If the ticket cannot be read or is for another lab.
    BenchError
        If the folder cannot be written.
    """
    show_errors_as_messages()
    found = lab(lab_name)
    place = (folder or Path.cwd()).resolve()
    try:
        ticket, said = _ticket(found, place)
        bench, more = _bench(found, ticket, place / SHEET_NAME)
    except OSError as error:
        raise BenchError(
            f"the files of this lab cannot be written in its folder ({error.strerror}); copy the folder to where you "
            "may write, and open the notebook there"
        ) from None
    say(*said, *more, f"The job sheet is {SHEET_NAME}: {lines_words(len(bench.lines))} so far.")
    return desk_for(bench)


def desk_for(bench: Bench) -> Desk:
    """The desk that fits a kind of bench.

    Parameters
    ----------
    bench : Bench
        The bench [-]
    """
    if isinstance(bench, CompressorBench):
        from coldwright.panels.compressor_desk import CompressorDesk

        return CompressorDesk(bench)
    if isinstance(bench, ColdBench):
        from coldwright.panels.cold_desk import ColdDesk

        return ColdDesk(bench)
    from coldwright.panels.unit_desk import UnitDesk

    assert isinstance(bench, UnitBench)
    return UnitDesk(bench)


def _ticket(found: Lab, place: Path) -> tuple[Ticket, list[str]]:
    path, said = place / FILE_NAME, []
    if not path.exists():
        ticket = practice_ticket(found.name, secrets.randbelow(PRACTICE_NUMBERS))
        path.write_text(ticket.text(), encoding="utf-8")
        said.append(f"There was no {FILE_NAME} here, so one for practice was made.")
    ticket = read_ticket(path)
    if ticket.lab != found.name:
        raise TicketError(
            f"{FILE_NAME} is for the lab {ticket.lab!r}, but this notebook is {found.name!r}; copy the ticket from "
            "the folder you were given for this lab"
        )
    if ticket.learner == "practice" and not ticket.signature:
        said.append(
            "This is a unit for practice and earns no marks. If your instructor gave you a ticket, put it into this "
            "folder and run this cell again."
        )
    else:
        said.append(f"Ticket of {ticket.learner}, attempt {ticket.attempt}.")
    if ticket.model != MODEL_VERSION:
        said.append(
            f"The ticket was made with version {ticket.model} of the simulation, this is version {MODEL_VERSION}. "
            "Tell your instructor; it is not held against you."
        )
    return ticket, said


def _bench(found: Lab, ticket: Ticket, sheet: Path) -> tuple[Bench, list[str]]:
    known = _open_benches.get(sheet)
    if known is not None and known.header == ticket.header and _stands_as_written(known, sheet):
        return known, []
    said = []
    try:
        bench = found.open_bench(ticket, sheet)
    except (SheetError, BenchError) as error:
        aside = _set_aside(sheet)
        said.append(
            f"The job sheet that was here does not fit: {error}. It is kept as '{aside.name}'; nothing is lost."
        )
        said.append("A new job sheet was begun. If you do not know why, tell your instructor.")
        bench = found.open_bench(ticket, sheet)
    _open_benches[sheet] = bench
    return bench, said


def _stands_as_written(bench: Bench, sheet: Path) -> bool:
    try:
        return sheet.read_text(encoding="utf-8") == bench.sheet_text()
    except (OSError, UnicodeDecodeError):
        return False


def _set_aside(sheet: Path) -> Path:
    number = 1
    while (aside := sheet.with_name(ASIDE.format(number=number))).exists():
        number += 1
    return sheet.rename(aside)


def show_errors_as_messages() -> None:
    """In a notebook, show an error that coldwright raises as its one message, without the way it took."""
    if "IPython" not in sys.modules:
        return
    from IPython import get_ipython

    shell = get_ipython()
    if shell is not None:
        shell.set_custom_exc((ColdwrightError, SyntaxError), _show_message)


def _show_message(shell: Any, kind: type[BaseException], error: BaseException, *_way: Any, **_more: Any) -> None:
    words = f"⚠ {error}"
    if isinstance(error, SyntaxError):
        words = (
            f"⚠ Line {error.lineno or 1} of this cell cannot be read, so the cell did not run. An answer looks like "
            'this: run = "2", with straight quotes at both ends and one = sign'
        )
    shell._showtraceback(kind, error, [words])
