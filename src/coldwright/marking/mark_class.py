"""Marking a class: every enrolled learner ends in exactly one result, and no hand-in stops the others.

Each hand-in goes through nbgrader's own autograde with the class's configuration. A hand-in that was judged, and of
which nothing has changed since, is not judged again; so a run that was stopped goes on where it was. One that waits is
judged again where there is a sandbox now and was none, or the other way round. Each result comes with what the
gradebook holds, so that marks set by a person count.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from coldwright.errors import CourseError
from coldwright.labs.class_folder import ClassFolder, Learner
from coldwright.labs.question import Lab
from coldwright.marking.bridge import OURS
from coldwright.marking.cell_outputs import by_check, points_of
from coldwright.marking.gradebook import Held, enrol, held_for, hold_marks, open_gradebook, scores
from coldwright.marking.hand_in import NOTEBOOK_NAME, fingerprint, read_master, waiting
from coldwright.marking.judge import load_key
from coldwright.marking.marks import LabMarks, Outcome
from coldwright.marking.nbgrader_runs import LOG_NAME, autograde, generate_feedback, load_config, nbgrader_log
from coldwright.marking.record import FILE_NAME, Record, load_record
from coldwright.marking.ticket_check import last_attempt

NOTHING_HANDED_IN = "Nothing was handed in."
FAILED = f"Marking stopped at this hand-in, so a person has to look at it; {LOG_NAME} says why."

Progress = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Result:
    """Where one enrolled learner ended. `marks` is None where there are none, and `reason` says why.

    `outcome` is None only where nothing was handed in. `again` tells a hand-in marked in this run from one that was
    marked before and left as it was. `held` is what the gradebook holds after it; None where there is nothing.
    """

    learner: Learner
    outcome: Outcome | None
    marks: LabMarks | None = None
    reason: str = ""
    again: bool = True
    held: Held | None = None


def _silent(done: int, of: int, learner: str) -> None:
    pass


def mark_class(
    class_folder: ClassFolder,
    lab: Lab,
    learners: Sequence[str] | None = None,
    trusted: bool = False,
    progress: Progress = _silent,
    again: bool = False,
) -> list[Result]:
    """Results of a class, in the order of the roster.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    learners : sequence of str, optional
        Ids of the learners to mark; all by default [-]
    trusted : bool
        Run learners' code also where there is no sandbox [-]
    progress : callable
        Told how many hand-ins are done, of how many, and whose was the last [-]
    again : bool
        Mark also what was marked before and has not changed [-]

    Raises
    ------
    CourseError
        If the class cannot be marked at all: no release, key, secret or roster, or an unknown learner.
    """
    wanted = _wanted(class_folder, learners)
    _check_class(class_folder, lab)
    results = []
    with nbgrader_log(class_folder) as log:
        config = load_config(class_folder, trusted)
        enrol(class_folder)
        trusts = bool(config.JudgeAnswers.trusted)

        def run(learner: str) -> bool:
            return autograde(class_folder, lab, learner, config, log)

        for number, learner in enumerate(wanted, start=1):
            results.append(_mark_one(class_folder, lab, learner, trusts, again, run))
            progress(number, len(wanted), learner.id)
    return _with_held(class_folder, lab, results)


def _with_held(class_folder: ClassFolder, lab: Lab, results: Sequence[Result]) -> list[Result]:
    """The results with what the gradebook holds for those that went through nbgrader."""
    with open_gradebook(class_folder) as gradebook:
        return [
            replace(each, held=held_for(gradebook, lab, each.learner.id))
            if each.marks is not None or each.reason == FAILED
            else each
            for each in results
        ]


def _wanted(class_folder: ClassFolder, ids: Sequence[str] | None) -> list[Learner]:
    roster = class_folder.learners()
    unknown = sorted(set(ids or ()) - {learner.id for learner in roster})
    if unknown:
        raise CourseError(f"{class_folder.learners_file} has no learner {', '.join(unknown)}; check the spelling")
    return [learner for learner in roster if ids is None or learner.id in ids]


def _check_class(class_folder: ClassFolder, lab: Lab) -> None:
    """Raise at once what would fail for every hand-in."""
    read_master(class_folder, lab)
    load_key(class_folder.keys, lab)
    last_attempt(class_folder, lab, "")
    assert class_folder.secret


def _mark_one(
    class_folder: ClassFolder, lab: Lab, learner: Learner, trusted: bool, again: bool, run: Callable[[str], bool]
) -> Result:
    handed_in = class_folder.part("submitted", learner.id, lab.folder)
    if not handed_in.is_dir() or not any(handed_in.iterdir()):
        return Result(learner, None, None, NOTHING_HANDED_IN)
    if not (handed_in / NOTEBOOK_NAME).exists():
        return Result(learner, Outcome.REFUSED, None, f"There is no {NOTEBOOK_NAME} in the hand-in.")
    before = whole_record(class_folder, lab, learner.id, trusted)
    if before is not None and not again:
        return Result(learner, before.marks.outcome, before.marks, again=False)
    found = whole_record(class_folder, lab, learner.id, trusted) if run(learner.id) else None
    if found is None:
        hold_marks(class_folder, lab, learner.id, waiting(lab, Outcome.NEEDS_PERSON, FAILED, (FAILED,)))
        return Result(learner, Outcome.NEEDS_PERSON, None, FAILED)
    return Result(learner, found.marks.outcome, found.marks)


def whole_record(class_folder: ClassFolder, lab: Lab, learner: str, trusted: bool) -> Record | None:
    """The record of a hand-in, if all of it was written and nothing it comes from has changed; else None.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]
    trusted : bool
        Whether code runs without a sandbox [-]
    """
    folder = class_folder.part("autograded", learner, lab.folder)
    handed_in = class_folder.part("submitted", learner, lab.folder)
    try:
        record = load_record(folder / FILE_NAME)
    except CourseError:
        return None
    waits = record.marks.outcome is Outcome.NEEDS_PERSON
    sandboxes = (None,) if waits else (True, False)  # what is marked stays so on a machine without a sandbox
    now = {fingerprint(handed_in, learner, lab, class_folder, trusted, each) for each in sandboxes}
    if record.fingerprint not in now or _notebook_fingerprint(folder / NOTEBOOK_NAME) != record.fingerprint:
        return None
    with open_gradebook(class_folder) as gradebook:
        kept = scores(gradebook, lab, learner)
    return record if kept == _scores(record.marks, lab) else None


def _scores(marks: LabMarks, lab: Lab) -> Mapping[str, float | None]:
    return {check: points_of(found) for check, found in by_check(marks, lab).items()}


def _notebook_fingerprint(path: Path) -> str:
    """The fingerprint in an autograded notebook; "" if it is not there or was written in part."""
    try:
        return str(json.loads(path.read_text(encoding="utf-8"))["metadata"][OURS]["fingerprint"])
    except (OSError, ValueError, KeyError, TypeError):
        return ""


def feedback_class(
    class_folder: ClassFolder, lab: Lab, learners: Sequence[str] | None = None, progress: Progress = _silent
) -> dict[str, Path | None]:
    """Feedback pages of the learners whose hand-in was marked, by id; None where a page could not be made.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    learners : sequence of str, optional
        Ids of the learners; all by default [-]
    progress : callable
        Told how many pages are done, of how many, and whose was the last [-]
    """
    marked = [
        learner.id
        for learner in _wanted(class_folder, learners)
        if (class_folder.part("autograded", learner.id, lab.folder) / FILE_NAME).is_file()
    ]
    pages: dict[str, Path | None] = {}
    with nbgrader_log(class_folder) as log:
        config = load_config(class_folder)
        for number, learner in enumerate(marked, start=1):
            pages[learner] = generate_feedback(class_folder, lab, learner, config, log)
            progress(number, len(marked), learner)
    return pages
