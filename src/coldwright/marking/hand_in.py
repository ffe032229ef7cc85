"""One hand-in judged: its ticket, its job sheet and its answers."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import nbformat
from nbformat.notebooknode import NotebookNode

from coldwright.bench import MODEL_VERSION
from coldwright.bench.sheet import LONGEST_SHEET
from coldwright.errors import CourseError, SandboxError
from coldwright.labs import ticket as tickets
from coldwright.labs.class_folder import NOTEBOOK, SHEET_NAME, ClassFolder
from coldwright.labs.question import Lab
from coldwright.marking import sandbox
from coldwright.marking.answer_values import answers_of
from coldwright.marking.collect import AnswerCell, collect
from coldwright.marking.handed_notebook import read_handed_in
from coldwright.marking.judge import judge, load_key
from coldwright.marking.marks import LabMarks, Mark, Outcome, Standing
from coldwright.marking.ticket_check import last_attempt, ticket_of

NOTEBOOK_NAME = f"{NOTEBOOK}.ipynb"
KNOWN_FILES = (NOTEBOOK_NAME, tickets.FILE_NAME, SHEET_NAME)
NO_TICKET = "No ticket was handed in; your instructor's copy of it was used."
REFUSED = "This hand-in was not marked: {}. Ask your instructor."
STRANGE_TICKET = "The ticket with this hand-in is not yours; your instructor will look at it."


def master_path(class_folder: ClassFolder, lab: Lab) -> Path:
    """The released notebook of a lab, from which hand-ins are rebuilt.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    """
    return class_folder.part("release", ".", lab.folder) / NOTEBOOK_NAME


def read_master(class_folder: ClassFolder, lab: Lab) -> NotebookNode:
    """The released notebook of a lab.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]

    Raises
    ------
    CourseError
        If the lab was not handed out from this class folder.
    """
    path = master_path(class_folder, lab)
    try:
        return nbformat.read(path, as_version=4)
    except FileNotFoundError:
        raise CourseError(f"the lab {lab.folder} was not handed out in this class: there is no {path}") from None


def waiting(lab: Lab, outcome: Outcome, sentence: str, notices: Sequence[str], flags: Sequence[str] = ()) -> LabMarks:
    """Marks of a hand-in in which every answer waits for a person.

    Parameters
    ----------
    lab : Lab
        The lab [-]
    outcome : Outcome
        Refused, or needs a person [-]
    sentence : str
        What stands at every answer [-]
    notices : sequence of str
        For learner and instructor [-]
    flags : sequence of str
        For the instructor [-]
    """
    marks = []
    for question in lab.questions:
        parts = [(a.name, a.points) for a in question.answers] + [(w.name, w.points) for w in question.work]
        for name, points in parts:
            marks.append(Mark(question.name, name, None, Fraction(points), Standing.NEEDS_PERSON, "", sentence))
    return LabMarks(outcome, tuple(marks), tuple(notices), tuple(flags))


def _sheet(folder: Path) -> str | None:
    """Text of the job sheet; None without one. What is no text is kept readable, so that the judge names the line."""
    path = folder / SHEET_NAME
    if not path.is_file() or path.is_symlink():
        return None
    with path.open("rb") as file:
        return file.read(4 * LONGEST_SHEET + 4).decode("utf-8", "replace")


def judge_answers(
    cells: Sequence[AnswerCell],
    notices: Sequence[str],
    folder: Path,
    learner: str,
    lab: Lab,
    class_folder: ClassFolder,
    trusted: bool = False,
) -> LabMarks:
    """Marks of answer cells that were collected, with the ticket and job sheet beside them.

    Parameters
    ----------
    cells : sequence of AnswerCell
        The answer cells, in the order of the notebook [-]
    notices : sequence of str
        Notices so far [-]
    folder : Path
        The folder that was handed in [-]
    learner : str
        Whose hand-in it is [-]
    lab : Lab
        The lab [-]
    class_folder : ClassFolder
        The class [-]
    trusted : bool
        Run code also where there is no sandbox [-]
    """
    key = load_key(class_folder.keys, lab)
    checked = ticket_of(folder, learner, lab, class_folder)
    if checked.belongs_to:
        flag = f"The ticket belongs to the learner {checked.belongs_to!r}."
        return waiting(lab, Outcome.NEEDS_PERSON, STRANGE_TICKET, (*notices, STRANGE_TICKET), (flag,))
    if checked.ticket is None:
        return refuse(lab, checked.refused, notices)
    flags: list[str] = []
    answers = answers_of(cells, lab, trusted=trusted, flags=flags)
    marks = judge(lab, key, answers, checked.ticket, _sheet(folder))
    found = [*notices, *((NO_TICKET,) if checked.was_missing else ())]
    found += [*marks.notices, *_code_notices(marks)]
    noticed = Outcome.MARKED_WITH_NOTICE if found and marks.outcome is Outcome.MARKED else marks.outcome
    return replace(marks, outcome=noticed, notices=tuple(dict.fromkeys(found)), flags=(*marks.flags, *flags))


def _code_notices(marks: LabMarks) -> list[str]:
    stopped = any(mark.standing is Standing.STOPPED for mark in marks.marks)
    return ["Code in an answer cell was stopped; the other answers were marked."] if stopped else []


def judge_hand_in(
    folder: Path, learner: str, lab: Lab, class_folder: ClassFolder, trusted: bool = False
) -> tuple[LabMarks, NotebookNode]:
    """Marks of one hand-in, and its notebook rebuilt from the master.

    Parameters
    ----------
    folder : Path
        What was handed in: notebook, ticket and job sheet [-]
    learner : str
        Whose hand-in it is [-]
    lab : Lab
        The lab [-]
    class_folder : ClassFolder
        The class [-]
    trusted : bool
        Run code also where there is no sandbox [-]
    """
    master = read_master(class_folder, lab)
    handed_in, refused = read_handed_in(folder / NOTEBOOK_NAME)
    collected = collect(master, handed_in, lab)
    if refused:
        return refuse(lab, refused), collected.notebook
    marks = judge_answers(collected.cells, collected.notices, folder, learner, lab, class_folder, trusted)
    return marks, collected.notebook


def refuse(lab: Lab, reason: str, notices: Sequence[str] = ()) -> LabMarks:
    """Marks of a hand-in that cannot be taken in: none given, all wait.

    Parameters
    ----------
    lab : Lab
        The lab [-]
    reason : str
        Why, as the end of a sentence [-]
    notices : sequence of str
        Notices so far [-]
    """
    sentence = REFUSED.format(reason)
    return waiting(lab, Outcome.REFUSED, sentence, (*notices, sentence))


def code_can_run() -> bool:
    """Whether this machine has a sandbox that holds; one that was tried is not tried again."""
    found = sandbox.find_sandbox()
    return found is not None and _holds(found)


@cache
def _holds(_: sandbox.Sandbox) -> bool:
    try:
        sandbox.sandbox_that_holds()
    except SandboxError:
        return False
    return True


def fingerprint(
    folder: Path, learner: str, lab: Lab, class_folder: ClassFolder, trusted: bool, sandboxed: bool | None = None
) -> str:
    """Short text that changes with anything the marks of a hand-in come from.

    Parameters
    ----------
    folder : Path
        What was handed in [-]
    learner : str
        Whose hand-in it is [-]
    lab : Lab
        The lab [-]
    class_folder : ClassFolder
        The class [-]
    trusted : bool
        Whether code runs without a sandbox [-]
    sandboxed : bool, optional
        Whether there is a sandbox; this machine is asked by default [-]
    """
    runs = "trusted" if trusted else code_can_run() if sandboxed is None else sandboxed
    digest = hashlib.sha256(repr((MODEL_VERSION, learner, runs, last_attempt(class_folder, lab, learner))).encode())
    files = [folder / name for name in KNOWN_FILES]
    for path in (
        *files,
        master_path(class_folder, lab),
        class_folder.keys / f"{lab.name}.py",
        class_folder.secret_file,
    ):
        with_link = path.is_file() and not path.is_symlink()
        content = hashlib.sha256(path.read_bytes()).hexdigest() if with_link else "none"
        digest.update(f"{path.name} {content}\n".encode())
    return digest.hexdigest()[:32]
