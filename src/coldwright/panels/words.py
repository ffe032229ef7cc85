"""The bench in words: what stands beside the drawing, and what a person reads who does not see it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from inspect import signature
from textwrap import fill
from typing import Protocol

from coldwright.bench.acts import Told
from coldwright.bench.bench import Bench
from coldwright.bench.hazards import Hazard
from coldwright.bench.sheet import SheetLine
from coldwright.errors import ColdwrightError

TERMINAL_WORDS = {
    "L": "L (line)",
    "N": "N (neutral)",
    "earth": "earth",
    "1": "pin 1",
    "2": "pin 2",
    "3": "pin 3",
    "shell": "shell",
    "cap a": "capacitor a",
    "cap b": "capacitor b",
}
NO_READING = "no reading"
WITH_A_CHOICE = ("fit", "add", "add liquid", "weigh in")  # done on the first, and which or how much the second says


LINE = 100  # columns; a notebook breaks longer lines inside a word


def say(*texts: str) -> None:
    """Print texts with their lines broken between words.

    Parameters
    ----------
    *texts : str
        What to print; each may hold several lines [-]
    """
    for line in "\n".join(texts).split("\n"):
        indent = line[: len(line) - len(line.lstrip())] + "    "
        print(fill(line, LINE, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False))


class Study(Protocol):
    """What is said of a real unit, in lines."""

    @property
    def lines(self) -> Sequence[str]:
        """The lines."""


def say_study(study: Callable[..., Study], typed: Mapping[str, object]) -> None:
    """Print what a study makes of what was typed, or in one line what is still missing or cannot be.

    Parameters
    ----------
    study : callable
        It takes texts by name [-]
    typed : mapping of str to object
        What was typed, by name [-]
    """
    known = signature(study).parameters
    for name in typed:
        if name not in known:
            say(f"⚠ there is no entry {name!r}; there are {', '.join(known)}")
            return
    try:
        say(*study(**typed).lines)
    except ColdwrightError as error:
        say(f"⚠ {error}")


def clock(seconds: int) -> str:
    """Simulated time as hours and minutes, such as "12:04:30".

    Parameters
    ----------
    seconds : int
        Time since the job began [s]
    """
    return f"{seconds // 3600}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"


def hazard_words(hazards: tuple[str, ...]) -> str:
    """Hazards of a line of the job sheet, in words; empty for none.

    Parameters
    ----------
    hazards : tuple of str
        Names as they stand on the sheet [-]
    """
    return "; ".join(f"⚠ HAZARD: {Hazard[name].value}" for name in hazards)


def line_cells(line: SheetLine) -> tuple[str, str, str, str, str]:
    """Number, time, act, what showed and hazards of one line of the job sheet.

    Parameters
    ----------
    line : SheetLine
        The line [-]
    """
    joint = ": " if line.act in WITH_A_CHOICE else " to "
    on = joint.join(TERMINAL_WORDS.get(place, place) for place in line.on)
    return str(line.n), clock(line.at), f"{line.act}, {on}" if on else line.act, line.shown, hazard_words(line.hazards)


def tips_words(tips: tuple[str, str]) -> str:
    """Where the two tips are.

    Parameters
    ----------
    tips : tuple of str
        Terminal of the red tip and of the black one [-]
    """
    red, black = (TERMINAL_WORDS.get(tip, tip) for tip in tips)
    return f"The red tip (R) is on {red}, the black tip (B) on {black}."


def display_text(told: Told | None) -> str:
    """What the instrument shows after the last act.

    Parameters
    ----------
    told : Told, optional
        What came of the last act [-]
    """
    return NO_READING if told is None or told.display is None else told.display.text


def bench_text(bench: Bench, tips: tuple[str, str] | None = None, told: Told | None = None) -> str:
    """All of the bench as text: how it looks, the tips, the display, what was just done, the job sheet.

    Parameters
    ----------
    bench : Bench
        The bench [-]
    tips : tuple of str, optional
        Where the tips are [-]
    told : Told, optional
        What came of the last act [-]
    """
    parts = [bench.look()]
    if tips is not None:
        parts.append(tips_words(tips))
    parts.append(f"Display: {display_text(told)}")
    if told is not None:
        parts.append(repr(told))
    rows = [" | ".join(cell for cell in line_cells(line) if cell) for line in bench.lines]
    return "\n".join([*parts, f"Job sheet, {lines_words(len(rows))}:", *rows])


def lines_words(count: int) -> str:
    """A number of lines in words.

    Parameters
    ----------
    count : int
        How many [-]
    """
    return f"{count} line" if count == 1 else f"{count} lines"
