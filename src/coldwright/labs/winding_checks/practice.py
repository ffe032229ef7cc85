"""Practice on winding checks: a unit for any number, and for each answer whether it is right, and why.

What is right stands in `practice_solutions`. No ticket of a class leads here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from coldwright.answers.forms import Given, is_blank, read_answer
from coldwright.answers.tolerance import one_slip, within
from coldwright.bench.bench import Bench
from coldwright.errors import AnswerError, InputError
from coldwright.labs.question import Expected
from coldwright.labs.ticket import practice_ticket
from coldwright.labs.winding_checks.case import PAIR_NAMES, Case
from coldwright.labs.winding_checks.lab import LAB
from coldwright.labs.winding_checks.practice_solutions import Solution, solutions
from coldwright.labs.winding_checks.unit import draw_lead, draw_unit, open_bench

FORMS = {answer.name: answer.form for question in LAB.questions for answer in question.answers}
NUMBERS = 1_000_000
HOW = {
    "common": "Look for the pair that reads highest: the pin it leaves out is common.",
    "run": "From common, the lower of the two readings goes to run.",
    "start": "From common, the higher of the two readings goes to start.",
    "sum_rule": "Add the two lower readings, compare with the highest, and allow for the limits of all three.",
    "meter_limit": "Take the percentage of the reading, then add three of the last digit that the meter shows.",
    "resistance_at_20": "Multiply the reading by (234.5 + 20) and divide by (234.5 + the winding's temperature in °C).",
    "temperature_rise": "Take hot less cold, divide by cold, and multiply by (234.5 + the room's temperature in °C).",
    "insulation": "Test all three pins to the shell and give the lowest reading.",
    "verdict": "Go through it in order: insulation, open paths, sum rule, then each winding against the maker's value.",
} | dict.fromkeys(PAIR_NAMES, "Read it cold, with the connector off and the leads zeroed.")


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

    number: int
    bench: Bench

    @property
    def case(self) -> Case:
        """The unit with the readings that were taken on it so far."""
        seed = practice_ticket(LAB.name, self.number).seed_bytes
        return Case(draw_unit(seed), draw_lead(seed), tuple(self.bench.taken))

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
            if name not in FORMS:
                raise InputError(f"there is no answer {name!r}; there are {', '.join(FORMS)}")
        case = self.case
        right = solutions(case)
        return tuple(_mark(case, name, raw, right[name]) for name, raw in answers.items())


def practice_unit(number: int) -> Practice:
    """The practice unit of a number; the same number gives the same unit.

    Parameters
    ----------
    number : int
        From 0 up to 999999 [-]

    Raises
    ------
    InputError
        If it is no such number.
    """
    if type(number) is not int or not 0 <= number < NUMBERS:
        raise InputError(f"the number of a practice unit is {number!r}; give a whole number from 0 to {NUMBERS - 1}")
    return Practice(number, open_bench(practice_ticket(LAB.name, number)))


def _mark(case: Case, name: str, raw: object, right: Solution) -> PracticeMark:
    if is_blank(raw):
        return PracticeMark(name, Found.BLANK)
    try:
        given = read_answer(FORMS[name], raw)  # type: ignore[arg-type]  # it says what is wrong with other types
    except AnswerError as error:
        return PracticeMark(name, Found.UNREADABLE, sentence=str(error))
    if _is_right(given, right.expected):
        return PracticeMark(name, Found.RIGHT, given.shown, right.reason)
    value = given.word if given.word is not None else given.number
    assert value is not None
    slip = one_slip(value, right.expected.right, right.expected.tolerance, LAB.slips(case, name))
    sentence = next((m.sentence for m in LAB.misconceptions if m.key == slip), HOW[name])
    return PracticeMark(name, Found.WRONG, given.shown, sentence, slip)


def _is_right(given: Given, expected: Expected) -> bool:
    if given.number is None:
        return given.word in expected.words
    return any(within(given.number, number, tolerance) for number, tolerance in expected.numbers)
