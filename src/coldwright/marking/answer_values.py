"""What stands in the answer cells, as plain values for the judge.

Plain cells are read without running anything. Cells that are more than that run together in one sandboxed process, in
the order of the notebook. Where there is no sandbox their answers, and only theirs, wait for a person.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coldwright.answers.forms import Form, NumberForm
from coldwright.errors import SandboxError
from coldwright.labs.question import Answer, Lab, Question
from coldwright.marking import inside
from coldwright.marking.collect import AnswerCell
from coldwright.marking.judge import Raw, Unread
from coldwright.marking.marks import Standing
from coldwright.marking.plain import Odd, PlainCell, PlainStanding, Value, read_plain
from coldwright.marking.sandbox import CellRun, CellToRun, Limits, RunStatus, run_cells

NO_SANDBOX = (
    "This answer is worked out in code, and there is no sandbox here to run it in; your instructor will look at it."
)
OWN_CELL = "Only the answer cells are run here, so put all that this answer needs into its own cell."
NOT_REACHED = "This answer was not worked out, because the code in an answer cell before it was stopped."
NO_VALUE = "The code in this cell ran, but left no value under this name."
TOO_LONG = "This value is too long to be read whole; your instructor will look at it."


def answers_of(
    cells: Sequence[AnswerCell],
    lab: Lab,
    limits: Limits | None = None,
    trusted: bool = False,
    flags: list[str] | None = None,
) -> dict[str, Raw]:
    """The value of every answer of a lab, or why there is none.

    Parameters
    ----------
    cells : sequence of AnswerCell
        The answer cells, in the order of the notebook [-]
    lab : Lab
        The lab [-]
    limits : Limits, optional
        Limits of the sandbox; its own ones by default [-]
    trusted : bool
        Run code also where there is no sandbox [-]
    flags : list of str, optional
        Takes in, for the instructor, why code was not run, and how it can be [-]

    Returns
    -------
    dict of str to value
        By name. A name set in several cells has the value that it has at its own check cell.
    """
    every = [answer.name for question in lab.questions for answer in question.answers]
    read = [read_plain(cell.source, every) for cell in cells]
    runs: dict[str, CellRun] | None
    try:
        runs = _runs(cells, read, lab, limits or Limits(), trusted)
    except SandboxError as error:
        runs = None
        if flags is not None:
            flags.append(f"Code was not run: {error}")
    so_far: dict[str, Value] = {}
    answers: dict[str, Raw] = {}
    for cell, plain in zip(cells, read, strict=True):
        question = lab.question(cell.question)
        if plain.standing is PlainStanding.NEEDS_RUNNING:
            answers |= _from_run(question, None if runs is None else runs[cell.grade_id])
            continue
        so_far |= plain.values
        for answer in question.answers:
            broken = plain.standing is PlainStanding.BROKEN and answer.name not in plain.values
            found = Unread(Standing.UNREADABLE, plain.message) if broken else _raw(so_far.get(answer.name), answer.form)
            answers[answer.name] = found
    return answers


def _runs(
    cells: Sequence[AnswerCell], read: Sequence[PlainCell], lab: Lab, limits: Limits, trusted: bool
) -> dict[str, CellRun]:
    """What the cells gave that had to run, by id."""
    to_run: list[CellToRun] = []
    given: dict[str, Value] = {}
    for cell, plain in zip(cells, read, strict=True):
        if plain.standing is PlainStanding.NEEDS_RUNNING:
            names = tuple(answer.name for answer in lab.question(cell.question).answers)
            to_run.append(CellToRun(cell.grade_id, cell.source, names, dict(given)))
        else:
            given |= {name: value for name, value in plain.values.items() if not isinstance(value, Odd)}
    return {run.id: run for run in run_cells(to_run, limits, trusted)} if to_run else {}


def _from_run(question: Question, run: CellRun | None) -> Mapping[str, Raw]:
    return {answer.name: _run_value(run, answer) for answer in question.answers}


def _run_value(run: CellRun | None, answer: Answer) -> Raw:
    if run is None:
        return Unread(Standing.NEEDS_PERSON, NO_SANDBOX)
    if run.status is RunStatus.STOPPED:
        return Unread(Standing.STOPPED, run.message)
    if run.status is RunStatus.NOT_RUN:
        return Unread(Standing.STOPPED, NOT_REACHED)
    if answer.name in run.values:
        return _raw(run.values[answer.name], answer.form)
    if run.status is RunStatus.ERROR:
        return Unread(Standing.UNREADABLE, f"{run.message} {OWN_CELL}")
    return Unread(Standing.UNREADABLE, NO_VALUE)


def _raw(value: Value | None, form: Form) -> Raw:
    if not isinstance(value, Odd):
        return value
    if value.kind == inside.NOTHING:
        return None
    if value.kind == inside.TOO_LONG:
        return Unread(Standing.NEEDS_PERSON, TOO_LONG)
    wanted = f'such as "{form.example}"' if isinstance(form, NumberForm) else f"one of {form.example}"
    return Unread(Standing.UNREADABLE, f"This is {value.kind}; type one value in quotes, {wanted}.")
