"""The desk of a practice unit: as many as wanted, each answer said to be right or wrong, and why."""

from __future__ import annotations

import secrets

from coldwright.answers.forms import is_blank
from coldwright.electrical.pins import PinReadings, sum_rule
from coldwright.errors import AnswerError
from coldwright.instruments.display import Display
from coldwright.labs.winding_checks.case import PAIRS
from coldwright.labs.winding_checks.practice import (
    NUMBERS,
    Found,
    Practice,
    PracticeMark,
    practice_unit,
)
from coldwright.labs.winding_checks.practice_solutions import solutions
from coldwright.panels.desk import Desk, show_errors_as_messages
from coldwright.panels.words import say
from coldwright.quantities import Kind, read, show

Readings = dict[tuple[str, str], Display]


class PracticeDesk(Desk):
    """A practice unit on the bench. What is said here of right and wrong is never said of a lab's unit.

    Parameters
    ----------
    practice : Practice
        The practice unit with its bench [-]
    """

    def __init__(self, practice: Practice) -> None:
        super().__init__(practice.bench)
        self.practice = practice

    @property
    def number(self) -> int:
        """Number of the unit; the same number gives the same unit."""
        return self.practice.number

    def mark(self, **answers: object) -> None:
        """Print for each answer how it was read, whether it is right, and why; names are those of the lab.

        Parameters
        ----------
        **answers : object
            What was typed, by the answer's name [-]
        """
        marks = self.practice.mark(answers)
        right = sum(mark.found is Found.RIGHT for mark in marks)
        say(*map(_mark_line, marks), f"{right} of {len(marks)} right.")

    def solution(self) -> None:
        """Print every right answer of this unit, with the reason."""
        for name, found in solutions(self.practice.case).items():
            shown = found.expected.words or [_as_answer(name, number) for number, _ in found.expected.numbers]
            say(f"{name}: {' or '.join(shown)}. {found.reason}")

    def compare(self, predicted: str) -> None:
        """Print what was predicted for the highest pair beside what the meter showed.

        Parameters
        ----------
        predicted : str
            Such as "16 ohm"; blank for no prediction yet [-]
        """
        if is_blank(predicted):
            say("No prediction yet. Write one between the quote marks, run that cell again, then this one.")
        elif readings := self._cold_readings():
            say(compared(predicted, readings))

    def explain(self) -> None:
        """Print what the readings of the three pairs add up to."""
        if readings := self._cold_readings():
            say(*explained(readings))

    def _cold_readings(self) -> Readings:
        """Last cold reading of each pair; empty while one is missing, which is said."""
        case = self.practice.case
        taken = {pair: case.cold_readings(pair) for pair in PAIRS}
        missing = [f"{a} and {b}" for (a, b), found in taken.items() if not found]
        if missing:
            say(f"Still to be read cold, with the connector off: pins {'; pins '.join(missing)}.")
            return {}
        return {pair: found[-1].display for pair, found in taken.items()}


def practice_desk(number: int | None = None) -> PracticeDesk:
    """A practice unit on the bench; the number is printed, so that the same unit can be had again.

    Parameters
    ----------
    number : int, optional
        Number of the unit, 0 to 999999; a new one if left out [-]
    """
    show_errors_as_messages()
    found = practice_unit(secrets.randbelow(NUMBERS) if number is None else number)
    say(f"Practice unit {found.number}. To have the same one again: practice_desk({found.number})")
    return PracticeDesk(found)


def new_practice() -> PracticeDesk:
    """Another practice unit, with another number each time."""
    return practice_desk()


def compared(predicted: str, readings: Readings) -> str:
    """A prediction for the highest pair beside what the meter showed.

    Parameters
    ----------
    predicted : str
        Such as "16 ohm" [-]
    readings : dict of tuple to Display
        What the meter showed on each pair of pins [-]
    """
    try:
        guess = read(predicted, Kind.RESISTANCE)
    except AnswerError as error:
        return f"Your prediction cannot be read: {error}"
    closed = [pair for pair in readings if not readings[pair].measured.is_open]
    if not closed:
        return "Every pair shows OL, so there is nothing to compare."
    pair = max(closed, key=lambda each: readings[each].value)
    shown = readings[pair]
    off, limit = (show(value, Kind.RESISTANCE, "Ω", 2) for value in (abs(guess.value - shown.value), shown.limit))
    return (
        f"You predicted {guess.number} {guess.unit}. The highest pair, {' and '.join(pair)}, shows {shown.text}, "
        f"and may be off by ±{limit}. The two are {off} apart."
    )


def explained(readings: Readings) -> list[str]:
    """The sum rule on three cold readings, in lines.

    Parameters
    ----------
    readings : dict of tuple to Display
        What the meter showed on each pair of pins [-]
    """
    lines = [f"Pins {a} and {b}: {_with_limit(display)}" for (a, b), display in readings.items()]
    pins = PinReadings({frozenset(pair): display.measured for pair, display in readings.items()})
    rule = sum_rule(pins)
    if rule.holds is None:
        return [*lines, f"The sum rule: {rule.reason}."]
    low, middle, high = (show(r.value, Kind.RESISTANCE, "Ω", 4) for _, r in pins.closed)
    off, allowed = f"{abs(rule.difference):.3f} Ω", f"{rule.allowance:.3f} Ω"
    words = "The sum rule holds." if rule.holds else "The sum rule does not hold. Were the leads zeroed?"
    between = " and ".join(sorted(pins.closed[-1][0]))
    return [
        *lines,
        f"{low} + {middle}, against {high} for the highest pair: {off} apart. The meter allows {allowed} in all.",
        words,
        f"The highest pair is {between}. Which pin does it leave out?",
    ]


def _with_limit(display: Display) -> str:
    return display.text if display.measured.is_open else f"{display.text} ± {display.limit:.3f} Ω"


def _as_answer(name: str, number: float) -> str:
    if name == "temperature_rise":
        return show(number, Kind.TEMPERATURE_DIFFERENCE)
    return show(number, Kind.RESISTANCE, digits=4)


def _mark_line(mark: PracticeMark) -> str:
    if mark.found is Found.BLANK:
        return f"{mark.name}: not answered yet"
    if mark.found is Found.UNREADABLE:
        return f"{mark.name}: cannot be read: {mark.sentence}"
    sign = "✓ Right" if mark.found is Found.RIGHT else "✗ Wrong"
    shown = f"pin {mark.shown}" if mark.shown.isdigit() else mark.shown
    return f"{mark.name}: {shown}. {sign}. {mark.sentence}"
