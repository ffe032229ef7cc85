"""The line under an answer cell: how each answer was read, at once, and never whether it is right."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from coldwright.answers.forms import ChoiceForm, Form, is_blank, read_answer
from coldwright.bench.sheet import read_sheet
from coldwright.errors import AnswerError, ColdwrightError, SheetError
from coldwright.instruments.display import Range
from coldwright.instruments.insulation_tester import RANGES as INSULATION
from coldwright.instruments.multimeter import OHMS
from coldwright.instruments.thermometer import RANGE as THERMOMETER
from coldwright.labs.catalogue import lab
from coldwright.labs.class_folder import SHEET_NAME
from coldwright.labs.question import Answer, Question
from coldwright.panels.words import lines_words, say


def _rule(chosen: Range) -> str:
    return f"±({chosen.percent:g} % of the reading + {chosen.digits} digits)"


_AFTER_FORMULA = (
    f"Counts as right within what the meter, {_rule(OHMS[0])}, and the thermometer, ±{THERMOMETER.limit(0.0):g} °C, "
    "leave open in the formula."
)
TOLERANCES = {
    "pair": f"Counts as right within what the meter allows, {_rule(OHMS[0])}, and one digit more.",
    "lowest pair": _AFTER_FORMULA,
    "hot and cold": _AFTER_FORMULA,
    "insulation": f"Counts as right within what the tester allows, {_rule(INSULATION[0])} up to 200 MΩ and "
    f"{_rule(INSULATION[-1])} above, and one digit more.",
}
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
        question = lab(lab_name).question(question_name)
    except ColdwrightError as error:
        say(f"This check cell was changed: {error}.")
        return
    say(*check_lines(question, namespace))


def check_lines(question: Question, namespace: Mapping[str, object]) -> list[str]:
    """What a check says, line by line.

    Parameters
    ----------
    question : Question
        The question [-]
    namespace : mapping
        The notebook's names and values [-]
    """
    found = [f"{question.title}. How your answers were read:"] if question.answers else [f"{question.title}."]
    found += [f"  {answer.name}: {_read(answer, namespace)}" for answer in question.answers]
    needs = {answer.needs: None for answer in question.answers if answer.needs is not None}
    found += [TOLERANCES[need] for need in needs if need in TOLERANCES]
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
