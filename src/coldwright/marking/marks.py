"""What marking hands on: one mark per answer, one outcome per hand-in."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction


class Standing(Enum):
    """How one answer stands once it has been judged."""

    RIGHT = "right"
    WRONG = "wrong"
    NOT_ANSWERED = "not answered"
    UNREADABLE = "could not be read"
    NO_READING = "no reading behind it"
    NOT_COUNTED = "not counted"
    STOPPED = "its code was stopped"
    NEEDS_PERSON = "waits for a person"


class Outcome(Enum):
    """Where a whole hand-in ends; every enrolled learner ends in exactly one."""

    MARKED = "marked"
    MARKED_WITH_NOTICE = "marked, with a notice"
    NEEDS_PERSON = "needs a person's look"
    REFUSED = "refused"


@dataclass(frozen=True)
class Mark:
    """One answer, judged.

    `question` names the check cell (nbgrader's grade cell) that carries the points, `name` the answer inside it.
    `points` is None while the answer waits for a person. `sentence` is what the learner reads; it never holds the
    expected value. `misconception` is the slip's key where exactly one fits.
    """

    question: str
    name: str
    points: Fraction | None
    max_points: Fraction
    standing: Standing
    read_as: str
    sentence: str
    misconception: str | None = None


@dataclass(frozen=True)
class LabMarks:
    """A whole hand-in, judged. `notices` are for learner and instructor, `flags` for the instructor only.

    `missing` names the readings for want of which points for the way of working are not counted.
    """

    outcome: Outcome
    marks: tuple[Mark, ...]
    notices: tuple[str, ...] = field(default=())
    flags: tuple[str, ...] = field(default=())
    missing: tuple[str, ...] = field(default=())

    @property
    def points(self) -> Fraction:
        """Sum of the marks given so far [points]."""
        return sum((mark.points for mark in self.marks if mark.points is not None), Fraction(0))

    @property
    def waiting(self) -> frozenset[str]:
        """Questions of which an answer waits for a person; none of their points count yet."""
        return frozenset(mark.question for mark in self.marks if mark.points is None)

    @property
    def max_points(self) -> Fraction:
        """Most that could be had [points]."""
        return sum((mark.max_points for mark in self.marks), Fraction(0))
