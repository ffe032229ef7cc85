"""Practice on any lab: a unit for any number, and for each answer whether it is right, and why.

No ticket of a class leads here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Any

from coldwright.answers.forms import Form, Given, is_blank, read_answer
from coldwright.answers.tolerance import one_slip, within
from coldwright.bench.bench import Bench
from coldwright.bench.replay import Replay
from coldwright.errors import AnswerError, InputError
from coldwright.labs.question import Expected, Lab, Solution
from coldwright.labs.ticket import practice_ticket

NUMBERS = 1_000_000


class Found(Enum):
    """What came of one answer."""

    RIGHT = "right"
    WRONG = "wrong"
    UNREADABLE = "cannot be read"
    BLANK = "not answered yet"


@dataclass(frozen=True)
class PracticeMark:
    """One answer: how it was read, whether it is right, and the sentence that says why. `slip` names a known slip."""

    name: str
    found: Found
    shown: str = ""
    sentence: str = ""
    slip: str | None = None


@dataclass(frozen=True)
class Practice:
    """One practice unit on the bench."""

    lab: Lab
    number: int
    bench: Bench

    @property
    def case(self) -> Any:
        """The unit with the readings that were taken on it so far."""
        return self.lab.make_case(practice_ticket(self.lab.name, self.number), Replay(self.bench))

    @property
    def forms(self) -> dict[str, Form]:
        """Form of each answer."""
        return {answer.name: answer.form for question in self.lab.questions for answer in question.answers}

    def mark(self, answers: Mapping[str, object]) -> tuple[PracticeMark, ...]:
        """Each answer with whether it is right, and why.

        Parameters
        ----------
        answers : mapping
            What was typed, by the names that the lab uses [-]

        Raises
        ------
        InputError
            If a name is none of the lab's.
        """
        for name in answers:
            if name not in self.forms:
                raise InputError(f"there is no answer {name!r}; there are {', '.join(self.forms)}")
        case = self.case
        right = self.lab.solutions(case)
        return tuple(self._mark(case, name, raw, right[name]) for name, raw in answers.items())

    def _mark(self, case: Any, name: str, raw: object, right: Solution) -> PracticeMark:
        if is_blank(raw):
            return PracticeMark(name, Found.BLANK)
        try:
            given = read_answer(self.forms[name], raw)  # type: ignore[arg-type]  # it says what is wrong with other types
        except AnswerError as error:
            return PracticeMark(name, Found.UNREADABLE, sentence=str(error))
        if _is_right(given, right.expected):
            return PracticeMark(name, Found.RIGHT, given.shown, right.reason)
        value = given.word if given.word is not None else given.number
        assert value is not None
        slip = one_slip(value, right.expected.right, right.expected.tolerance, self.lab.slips(case, name))
        sentence = next((m.sentence for m in self.lab.misconceptions if m.key == slip), self.lab.how[name])
        return PracticeMark(name, Found.WRONG, given.shown, sentence, slip)


def practice_unit(lab: Lab, number: int) -> Practice:
    """The practice unit of a number; the same number gives the same unit.

    Parameters
    ----------
    lab : Lab
        The lab [-]
    number : int
        From 0 up to 999999 [-]

    Raises
    ------
    InputError
        If it is no such number.
    """
    if type(number) is not int or not 0 <= number < NUMBERS:
        raise InputError(f"the number of a practice unit is {number!r}; give a whole number from 0 to {NUMBERS - 1}")
    return Practice(lab, number, lab.open_bench(practice_ticket(lab.name, number), None))


def _is_right(given: Given, expected: Expected) -> bool:
    if given.number is None:
        return given.word in expected.words
    return any(within(given.number, number, tolerance) for number, tolerance in expected.numbers)
