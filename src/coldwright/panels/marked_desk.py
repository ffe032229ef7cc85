"""A desk on a practice unit, whatever its bench: answers marked at once, and the solution."""

from __future__ import annotations

from coldwright.answers.forms import NumberForm
from coldwright.labs.practice import Found, Practice, PracticeMark
from coldwright.panels.desk import Desk
from coldwright.panels.words import say
from coldwright.quantities import Kind, show

UNSEEN = 0.1  # of the tolerance, which holds several digits: less is lost in the last one


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
        for name, found in self.practice.lab.solutions(self.practice.case).items():
            shown = found.expected.words or [self._as_answer(name, *each) for each in found.expected.numbers]
            say(f"{name}: {' or '.join(dict.fromkeys(shown))}. {found.reason}")

    def _as_answer(self, name: str, number: float, tolerance: float) -> str:
        """A number in SI as an answer shows it; nought where no instrument would show it."""
        number = number if abs(number) > UNSEEN * tolerance else 0.0
        form = self.practice.forms[name]
        kind = form.kind if isinstance(form, NumberForm) else Kind.RATIO
        if kind is Kind.RESISTANCE and abs(number) < 1:
            return show(number, kind, "Ω")  # a meter has no milliohms, and the reasons name none
        return show(number, kind) if kind is Kind.TEMPERATURE_DIFFERENCE else show(number, kind, digits=4)


def _mark_line(mark: PracticeMark) -> str:
    if mark.found is Found.BLANK:
        return f"{mark.name}: not answered yet"
    if mark.found is Found.UNREADABLE:
        return f"{mark.name}: cannot be read: {mark.sentence}"
    sign = "✓ Right" if mark.found is Found.RIGHT else "✗ Wrong"
    shown = f"pin {mark.shown}" if mark.shown.isdigit() else mark.shown
    return f"{mark.name}: {shown}. {sign}. {mark.sentence}"
