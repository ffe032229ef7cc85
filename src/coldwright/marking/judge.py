"""The judge: answers, ticket and job sheet in; one mark per answer with its sentence out.

Runs no learner code. What was typed comes in as plain values; what is right is worked out from the learner's own unit.
"""

from __future__ import annotations

import importlib.util
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from coldwright.answers.forms import Given, is_blank, read_answer
from coldwright.answers.tolerance import one_slip, within
from coldwright.bench import MODEL_VERSION
from coldwright.bench.replay import Replay, replay
from coldwright.bench.sheet import parse_sheet
from coldwright.errors import AnswerError, CourseError, SheetError
from coldwright.labs.question import Answer, Expected, Key, Lab, Question
from coldwright.labs.ticket import Ticket
from coldwright.marking.marks import LabMarks, Mark, Outcome, Standing


@dataclass(frozen=True)
class Unread:
    """An answer whose value is not known, and why: odd, stopped, broken, or waiting for a person."""

    standing: Standing
    sentence: str


Raw = str | int | float | Unread | None

NO_READING = "No reading stands behind this answer: take it on the bench, so that it is on your job sheet."
WRONG = "This is not right for your unit."
RIGHT = "Right."
NOT_ANSWERED = "Not answered."
NOT_COUNTED = "Not counted: readings are missing (above)."
TORN = "The last line of your job sheet was cut off, so that act does not count."
SHEET_WAITS = "The job sheet needs a person's look first."


def load_key(keys: Path, lab: Lab) -> Key:
    """The answer key of a lab, from the instructor's folder of keys.

    Parameters
    ----------
    keys : Path
        Folder with one file per lab [-]
    lab : Lab
        The lab [-]

    Raises
    ------
    CourseError
        If there is no key for it.
    """
    path = keys / f"{lab.name}.py"
    spec = importlib.util.spec_from_file_location(f"coldwright_key_{lab.name}", path)
    if spec is None or spec.loader is None or not path.is_file():
        raise CourseError(f"there is no answer key {path}; keys stand in the folder that class.toml names")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    found: Key = module.key
    return found


def judge(lab: Lab, key: Key, answers: Mapping[str, Raw], ticket: Ticket, sheet_text: str | None) -> LabMarks:
    """Marks of one hand-in.

    Parameters
    ----------
    lab : Lab
        The lab [-]
    key : callable
        Its answer key [-]
    answers : mapping
        What was typed, by name; a missing name is not answered [-]
    ticket : Ticket
        The learner's own ticket, checked [-]
    sheet_text : str, optional
        The job sheet as handed in; None for none [-]

    Returns
    -------
    LabMarks
        Needs a person where the sheet does not replay or an answer waits; else marked.
    """
    notices: list[str] = []
    flags: list[str] = []
    replayed, doubt = _replay(lab, ticket, sheet_text, notices, flags)
    case = lab.make_case(ticket, replayed)
    expected = key(case)
    lacking = tuple(lab.missing(case))
    marks: list[Mark] = []
    for question in lab.questions:
        marks += [_mark(lab, case, question, a, answers.get(a.name), expected[a.name], doubt) for a in question.answers]
        marks += _work_marks(lab, case, question, doubt, lacking)
    waits = doubt or any(mark.points is None for mark in marks)
    outcome = Outcome.NEEDS_PERSON if waits else Outcome.MARKED_WITH_NOTICE if notices else Outcome.MARKED
    waiting_for = lacking if any(mark.standing is Standing.NOT_COUNTED for mark in marks) else ()
    return LabMarks(outcome, tuple(marks), tuple(notices), tuple(flags), waiting_for)


def _replay(
    lab: Lab, ticket: Ticket, sheet_text: str | None, notices: list[str], flags: list[str]
) -> tuple[Replay | None, bool]:
    """The replayed sheet, and whether a person must look at it."""
    if sheet_text is None:
        notices.append("No job sheet was handed in, so no reading counts.")
        return None, False
    try:
        sheet = parse_sheet(sheet_text)
    except SheetError as error:
        flags.append(f"Job sheet: {error}")
        notices.append("Your job sheet cannot be read as the bench wrote it; your instructor will look at it.")
        return None, True
    if sheet.torn:
        notices.append(TORN)
        flags.append("Job sheet: the last line was cut off while it was written, or by hand.")
    if sheet.header.model != MODEL_VERSION or ticket.model != MODEL_VERSION:
        flags.append(
            f"Job sheet and ticket come from version {sheet.header.model} and {ticket.model} of the simulation; this "
            f"is version {MODEL_VERSION}. It cannot be replayed and must not be held against the learner."
        )
        notices.append("Your job sheet was made with another version of the course; your instructor will look at it.")
        return None, True
    if sheet.header != ticket.header:
        flags.append("Job sheet: line 1 names another ticket, learner or lab.")
        notices.append("Your job sheet belongs to another ticket; your instructor will look at it.")
        return None, True
    found = replay(sheet, lab.open_bench(ticket, None))
    if not found.holds:
        flags.append(f"Job sheet: line {found.first_bad}: {found.reason}.")
        notices.append("A line of your job sheet is not what your unit gives; your instructor will look at it.")
        return None, True
    return found, False


def _mark(lab: Lab, case: Any, question: Question, answer: Answer, raw: Raw, expected: Expected, doubt: bool) -> Mark:
    def made(standing: Standing, sentence: str, points: int | None, shown: str = "", slip: str | None = None) -> Mark:
        given = None if points is None else Fraction(points)
        return Mark(question.name, answer.name, given, Fraction(answer.points), standing, shown, sentence, slip)

    if isinstance(raw, Unread):
        waits = raw.standing is Standing.NEEDS_PERSON
        return made(raw.standing, raw.sentence, None if waits else 0)
    if raw is None or is_blank(raw):
        return made(Standing.NOT_ANSWERED, NOT_ANSWERED, 0)
    try:
        given = read_answer(answer.form, raw)
    except AnswerError as error:
        return made(Standing.UNREADABLE, _sentence(str(error)), 0, str(raw)[:40])
    backed, fits = lab.backed(case, answer), _is_right(given, expected)
    if fits and backed:
        return made(Standing.RIGHT, RIGHT, answer.points, given.shown)
    if fits and doubt:
        return made(Standing.NEEDS_PERSON, SHEET_WAITS, None, given.shown)
    slip = None if fits else _slip(lab, case, answer.name, given, expected)
    if slip is not None:
        sentence = next(m.sentence for m in lab.misconceptions if m.key == slip)
        return made(Standing.WRONG, sentence, 0, given.shown, slip)
    if backed or doubt:
        return made(Standing.WRONG, lab.unfair(case, answer) or WRONG, 0, given.shown)
    return made(Standing.NO_READING, lab.unfair(case, answer) or NO_READING, 0, given.shown)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:].rstrip(".") + "."


def _is_right(given: Given, expected: Expected) -> bool:
    if given.word is not None:
        return given.word in expected.words
    assert given.number is not None
    return any(within(given.number, number, tolerance) for number, tolerance in expected.numbers)


def _slip(lab: Lab, case: Any, name: str, given: Given, expected: Expected) -> str | None:
    value = given.word if given.word is not None else given.number
    assert value is not None
    return one_slip(value, expected.right, expected.tolerance, lab.slips(case, name))


def _work_marks(lab: Lab, case: Any, question: Question, doubt: bool, lacking: tuple[str, ...]) -> list[Mark]:
    if not question.work:
        return []
    earned = lab.worked(case)
    marks = []
    for point in question.work:
        most = Fraction(point.points)
        if doubt:
            marks.append(Mark(question.name, point.name, None, most, Standing.NEEDS_PERSON, "", SHEET_WAITS))
        elif earned[point.name]:
            marks.append(Mark(question.name, point.name, most, most, Standing.RIGHT, "", point.done))
        elif lacking:
            marks.append(Mark(question.name, point.name, Fraction(0), most, Standing.NOT_COUNTED, "", NOT_COUNTED))
        else:
            marks.append(Mark(question.name, point.name, Fraction(0), most, Standing.WRONG, "", point.missing))
    return marks
