"""What a lab is made of: questions and their answers, slips, points for the way of working."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

from coldwright.answers.forms import Form
from coldwright.bench.bench import Bench
from coldwright.bench.replay import Replay
from coldwright.errors import InputError
from coldwright.labs.ticket import Ticket


@dataclass(frozen=True)
class Answer:
    """One name that a learner assigns. `needs` says which reading must stand behind it; None for none."""

    name: str
    form: Form
    points: int
    needs: str | None = None


@dataclass(frozen=True)
class WorkPoint:
    """A point for the way of working, seen on the job sheet."""

    name: str
    points: int
    done: str
    missing: str


@dataclass(frozen=True)
class Question:
    """One check cell: answers, or points for the way of working."""

    name: str
    title: str
    answers: tuple[Answer, ...] = ()
    work: tuple[WorkPoint, ...] = ()

    @property
    def points(self) -> Fraction:
        """Most that can be had [points]."""
        return Fraction(sum(a.points for a in self.answers) + sum(w.points for w in self.work))


@dataclass(frozen=True)
class Misconception:
    """One known slip: what it gives on a true unit, and the sentence a learner reads.

    `value(case, name)` is the number (SI) or word the slip gives for an answer, a tuple where it depends on the reading
    that was used, or None where it gives none.
    """

    key: str
    answers: tuple[str, ...]
    sentence: str
    value: Callable[[Any, str], float | str | tuple[float | str, ...] | None]


@dataclass(frozen=True)
class Expected:
    """What counts as right for one answer: numbers each with its tolerance, or words.

    `slip_tolerance` is that of a number given where a word is right, such as ohms where the meter shows OL.
    """

    numbers: tuple[tuple[float, float], ...] = ()
    words: tuple[str, ...] = ()
    slip_tolerance: float = 0.0

    @property
    def tolerance(self) -> float:
        """Widest tolerance on a number."""
        return max((tolerance for _, tolerance in self.numbers), default=self.slip_tolerance)

    @property
    def right(self) -> tuple[float | str, ...]:
        """Every right answer."""
        return (*(number for number, _ in self.numbers), *self.words)


@dataclass(frozen=True)
class Solution:
    """What is right for one answer, and the reason with its numbers."""

    expected: Expected
    reason: str


Key = Callable[[Any], Mapping[str, Expected]]


@dataclass(frozen=True)
class Lab:
    """One graded lab.

    `open_bench(ticket, path)` puts the ticket's unit on the bench; `make_case(ticket, replay)` gathers the true unit
    and what the replayed job sheet shows; `backed(case, answer)` says whether the reading an answer needs was taken,
    `missing(case)` names the readings that the lab needs and the sheet lacks, and `worked(case)` says which points for
    the way of working were earned. `unfair(case, answer)` says in a sentence what is not fair about the readings taken
    for an answer. `solutions(case)` gives each right answer with its reason, for practice units;
    `how` says for each answer how to get there, and `rules` for each `needs` what counts as right.
    """

    name: str
    number: str
    title: str
    questions: tuple[Question, ...]
    misconceptions: tuple[Misconception, ...]
    open_bench: Callable[[Ticket, Path | None], Bench]
    make_case: Callable[[Ticket, Replay | None], Any]
    backed: Callable[[Any, Answer], bool]
    missing: Callable[[Any], Sequence[str]]
    worked: Callable[[Any], Mapping[str, bool]]
    solutions: Callable[[Any], Mapping[str, Solution]]
    unfair: Callable[[Any, Answer], str] = lambda _case, _answer: ""
    how: Mapping[str, str] = field(default_factory=dict)
    rules: Mapping[str, str] = field(default_factory=dict)

    @property
    def points(self) -> Fraction:
        """Most that can be had [points]."""
        return sum((q.points for q in self.questions), Fraction(0))

    @property
    def folder(self) -> str:
        """Name of the lab's folder and of the nbgrader assignment."""
        return f"{self.number}_{self.name}"

    def question(self, name: str) -> Question:
        """The question of that name.

        Parameters
        ----------
        name : str
            Name of a check cell [-]
        """
        for question in self.questions:
            if question.name == name:
                return question
        names = ", ".join(q.name for q in self.questions)
        raise InputError(f"{self.title} has no question {name!r}; it has {names}")

    def slips(self, case: Any, name: str) -> dict[str, tuple[float | str, ...]]:
        """What each slip can give for one answer of a case; slips that give nothing are left out.

        Parameters
        ----------
        case : object
            What `make_case` gave [-]
        name : str
            Name of an answer [-]
        """
        found = {m.key: m.value(case, name) for m in self.misconceptions if name in m.answers}
        return {
            key: value if isinstance(value, tuple) else (value,)
            for key, value in found.items()
            if value not in (None, ())
        }
