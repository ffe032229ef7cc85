"""The judge's marks in nbgrader's gradebook, one transaction for each hand-in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from fractions import Fraction

from nbgrader.api import Gradebook, MissingEntry, SubmittedNotebook
from sqlalchemy.exc import SQLAlchemyError

from coldwright.errors import CourseError
from coldwright.labs.class_folder import NOTEBOOK, ClassFolder
from coldwright.labs.question import Lab
from coldwright.marking.cell_outputs import by_check, comments, points_of
from coldwright.marking.marks import LabMarks


@dataclass(frozen=True)
class Held:
    """What the gradebook holds for one hand-in, a person's scores included.

    `points` is nbgrader's total less a late penalty. `scored` and `waiting` name check cells: those with a score, and
    those that still ask for a person.
    """

    points: Fraction
    scored: frozenset[str]
    waiting: frozenset[str]


def exact(points: float) -> Fraction:
    """Points of the gradebook as the fraction that they stand for.

    Parameters
    ----------
    points : float
        As nbgrader keeps them [points]
    """
    return Fraction(points).limit_denominator(1000)


def database_url(class_folder: ClassFolder) -> str:
    """Where nbgrader finds the gradebook of a class.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    """
    return f"sqlite:///{class_folder.gradebook_file}"


@contextmanager
def open_gradebook(class_folder: ClassFolder, url: str = "") -> Iterator[Gradebook]:
    """The gradebook of a class, closed again at the end; what was not committed is lost.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    url : str
        Another database than the class's own; "" for its own [-]

    Raises
    ------
    CourseError
        If it cannot be read or written.
    """
    try:
        with Gradebook(url or database_url(class_folder), class_folder.course) as gradebook:
            yield gradebook
    except SQLAlchemyError as error:
        reason = getattr(error, "orig", None) or type(error).__name__
        raise CourseError(
            f"the gradebook {class_folder.gradebook_file} cannot be used ({reason}). Is it open in another program? "
            "Close that. If the file is damaged, put it back from a backup"
        ) from error


def enrol(class_folder: ClassFolder) -> None:
    """Put the whole roster into the gradebook, with names as they stand there now.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    """
    with open_gradebook(class_folder) as gradebook:
        known = {each.id: (each.first_name, each.last_name) for each in gradebook.students}
        for learner in class_folder.learners():
            if known.get(learner.id) != (learner.first_name, learner.last_name):
                names = {"first_name": learner.first_name, "last_name": learner.last_name}
                gradebook.update_or_create_student(learner.id, **names)


def write_marks(gradebook: Gradebook, lab: Lab, learner: str, marks: LabMarks) -> None:
    """Write one hand-in's scores and comments; all of it or nothing.

    A check cell that waits has no score and asks for a person. A score given by hand stays and asks for a look, as
    nbgrader itself does.

    Parameters
    ----------
    gradebook : Gradebook
        An open gradebook [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]
    marks : LabMarks
        Marks of the hand-in [-]
    """
    checks = by_check(marks, lab)
    texts = comments(marks, lab)
    handed_in: SubmittedNotebook = gradebook.find_submission_notebook(NOTEBOOK, lab.folder, learner)
    try:
        for grade in handed_in.grades:
            if grade.name in checks:
                grade.auto_score = points_of(checks[grade.name])
                grade.needs_manual_grade = grade.auto_score is None or grade.manual_score is not None
        for comment in handed_in.comments:
            if comment.name in texts:
                comment.auto_comment = texts[comment.name]
        gradebook.db.commit()
    except BaseException:
        gradebook.db.rollback()
        raise


def hold_marks(class_folder: ClassFolder, lab: Lab, learner: str, marks: LabMarks) -> None:
    """Take back what the gradebook held for a hand-in that could not be marked, as far as it can be reached.

    Where no score of the judge stands and a person gave some, nothing is left to take back.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]
    marks : LabMarks
        Marks that all wait [-]
    """
    with suppress(MissingEntry, CourseError), open_gradebook(class_folder) as gradebook:
        grades = gradebook.find_submission_notebook(NOTEBOOK, lab.folder, learner).grades
        judged = any(grade.auto_score is not None for grade in grades)
        if judged or not any(grade.manual_score is not None for grade in grades):
            write_marks(gradebook, lab, learner, marks)


def _handed_in(gradebook: Gradebook, lab: Lab, learner: str) -> SubmittedNotebook | None:
    try:
        return gradebook.find_submission_notebook(NOTEBOOK, lab.folder, learner)
    except MissingEntry:
        return None


def scores(gradebook: Gradebook, lab: Lab, learner: str) -> Mapping[str, float | None]:
    """The judge's scores in the gradebook, by nbgrader id of the check cell; empty without a hand-in.

    Parameters
    ----------
    gradebook : Gradebook
        An open gradebook [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]
    """
    handed_in = _handed_in(gradebook, lab, learner)
    return {} if handed_in is None else {grade.name: grade.auto_score for grade in handed_in.grades}


def held_for(gradebook: Gradebook, lab: Lab, learner: str) -> Held | None:
    """What the gradebook holds for one hand-in; None without one.

    Parameters
    ----------
    gradebook : Gradebook
        An open gradebook [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]
    """
    handed_in = _handed_in(gradebook, lab, learner)
    if handed_in is None:
        return None
    grades = list(handed_in.grades)
    scored = {grade.name for grade in grades if grade.manual_score is not None or grade.auto_score is not None}
    asked = {grade.name for grade in grades if grade.needs_manual_grade or grade.name not in scored}
    total = sum((exact(grade.score) for grade in grades), Fraction(0))
    return Held(total - exact(handed_in.late_submission_penalty or 0), frozenset(scored), frozenset(asked))
