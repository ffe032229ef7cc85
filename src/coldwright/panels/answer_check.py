"""The line under an answer cell: how each answer was read, at once, and never whether it is right."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from coldwright.answers.forms import ChoiceForm, Form, is_blank, read_answer
from coldwright.bench.sheet import read_sheet
from coldwright.errors import AnswerError, ColdwrightError, SheetError
from coldwright.labs.catalogue import lab
from coldwright.labs.class_folder import SHEET_NAME
from coldwright.labs.question import Answer, Question
from coldwright.panels.words import lines_words, say

NEEDS_READING = "It counts only if your job sheet holds the readings behind it."


def check(lab_name: str, question_name: str, namespace: Mapping[str, object]) -> None:
    """Print how each answer of a question was read; nothing is compared with what is right.

    Parameters
    ----------
    lab_name, question_name : str
        Which check this is [-]
    namespace : mapping
        The notebook's names and values [-]
    """
    try:
        found = lab(lab_name)
        question = found.question(question_name)
    except ColdwrightError as error:
        say(f"This check cell was changed: {error}.")
        return
    say(*check_lines(question, namespace, found.rules))


def check_lines(question: Question, namespace: Mapping[str, object], rules: Mapping[str, str]) -> list[str]:
    """What a check says, line by line.

    Parameters
    ----------
    question : Question
        The question [-]
    namespace : mapping
        The notebook's names and values [-]
    rules : mapping
        What counts as right, for each `needs` of an answer [-]
    """
    found = [f"{question.title}. How your answers were read:"] if question.answers else [f"{question.title}."]
    found += [f"  {answer.name}: {_read(answer, namespace)}" for answer in question.answers]
    needs = {answer.needs: None for answer in question.answers if answer.needs is not None}
    found += [rules[need] for need in needs if need in rules]
    if needs:
        found.append(NEEDS_READING)
    if question.work:
        found.append(_sheet(Path(SHEET_NAME)))
    return found


def _read(answer: Answer, namespace: Mapping[str, object]) -> str:
    if answer.name not in namespace:
        return "not there yet; run the answer cell above first"
    raw = _plain(namespace[answer.name])
    if is_blank(raw):
        return f"not answered yet; {_wanted(answer.form)}"
    if type(raw) not in (str, int, float):
        return f"this is not one value; {_wanted(answer.form)}"
    try:
        shown = read_answer(answer.form, raw).shown  # type: ignore[arg-type]
    except AnswerError as error:
        return f"cannot be read: {error}"
    return f"pin {shown}" if isinstance(answer.form, ChoiceForm) and shown.isdigit() else shown


def _plain(raw: object) -> object:
    """A number of numpy as the plain one it stands for, as marking takes it too."""
    if type(raw).__module__ == "numpy" and hasattr(raw, "item") and getattr(raw, "shape", None) == ():
        return raw.item()
    return raw


def _wanted(form: Form) -> str:
    if isinstance(form, ChoiceForm):
        return f"choose one of {form.example}"
    words = "".join(f' or "{word}"' for word in form.words)
    return f'write a number with its unit, such as "{form.example}"{words}'


def _sheet(path: Path) -> str:
    """How far the job sheet in this folder has got."""
    if not path.exists():
        return "Marked from your job sheet: there is none here yet. Run the cell with the bench above."
    try:
        count = len(read_sheet(path).lines)
    except SheetError as error:
        return f"Marked from your job sheet, but {error}."
    return f"Marked from your job sheet: {lines_words(count)} so far."
