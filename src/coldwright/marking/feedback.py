"""The learner's feedback page: one HTML file with no script in it that asks for nothing from anywhere.

nbgrader's `generate_feedback` writes it: `FeedbackPage` gathers the page as plain texts and numbers, the template
escapes every one of them. Expected values and the instructor's flags never get as far as the page.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

from nbconvert.exporters.exporter import ResourcesDict
from nbconvert.preprocessors import Preprocessor
from nbformat.notebooknode import NotebookNode
from traitlets import Bool

from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.class_folder import Learner
from coldwright.labs.files import write_whole
from coldwright.labs.question import Lab
from coldwright.marking.cell_outputs import SIGNS
from coldwright.marking.collect import answer_id, check_id
from coldwright.marking.gradebook import exact
from coldwright.marking.hand_in import REFUSED
from coldwright.marking.marks import LabMarks, Mark, Standing
from coldwright.marking.nbgrader_config import FEEDBACK_TEMPLATE, TEMPLATES
from coldwright.marking.record import FILE_NAME, load_marks
from coldwright.marking.table import show_points

OURS = "coldwright"
TEMPLATE_FILE = "index.html.j2"
LONGEST_TYPED = 1_500
LONGEST_LINE = 400
LONGEST_READ = 80
TONES = {
    Standing.RIGHT: "right",
    Standing.NEEDS_PERSON: "waits",
    Standing.NOT_ANSWERED: "none",
    Standing.NOT_COUNTED: "none",
}
BY_HAND = "marked by your instructor"
WILL_LOOK, HAS_LOOKED = "your instructor will look at it", "your instructor looked at it"
WAS_REFUSED = "This hand-in could not be marked by the program: {}. Your instructor marked it."


@dataclass(frozen=True)
class GivenByHand:
    """What the gradebook holds beyond the judge's marks.

    `points` are those of a check cell that a person marked or changed, by question; `comments` what they wrote there;
    `typed` the answer cells as handed in. `total` is None where the judge's own sum stands.
    """

    points: Mapping[str, Fraction] = field(default_factory=dict)
    comments: Mapping[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)
    total: Fraction | None = None
    penalty: Fraction = Fraction(0)


def _text(text: str, most: int = LONGEST_LINE) -> str:
    """A text without control characters, cut where it is too long."""
    clean = "".join("�" if unicodedata.category(c) in ("Cc", "Cs") and c not in "\n\t" else c for c in text)
    return clean if len(clean) <= most else f"{clean[:most]}… (cut)"


def _answer(mark: Mark, is_work: bool, by_hand: bool) -> dict[str, Any]:
    waits = mark.points is None
    word, tone, sign = mark.standing.value, TONES.get(mark.standing, "wrong"), SIGNS[mark.standing]
    if is_work:
        word = "done" if mark.standing is Standing.RIGHT else "not done" if mark.standing is Standing.WRONG else word
    if waits and by_hand:
        word, tone, sign = BY_HAND, "none", "–"
    said = mark.sentence.rstrip(".")
    if said.casefold().startswith(f"{word}:"):
        word = said
    is_said = said.casefold() == word.casefold() or (waits and by_hand)
    return {
        "name": _text(mark.name.replace("_", " ") if is_work else mark.name, LONGEST_READ),
        "read_as": _text(mark.read_as, LONGEST_READ),
        "points": "–" if mark.points is None else show_points(mark.points),
        "max_points": show_points(mark.max_points),
        "sign": sign,
        "word": word[:1].upper() + word[1:],
        "tone": tone,
        "sentence": "" if is_said else _text(mark.sentence),
    }


def _sum(marks: Iterable[Mark]) -> Fraction | None:
    """Points of a question [points]; None while one of its answers waits."""
    points = [mark.points for mark in marks]
    return None if None in points else sum((each for each in points if each is not None), Fraction(0))


def _settled(notice: str) -> str:
    """A notice as it reads once a person has marked what waited."""
    before, after = REFUSED.split("{}")
    if notice.startswith(before) and notice.endswith(after):
        return WAS_REFUSED.format(notice[len(before) : -len(after)])
    return notice.replace(WILL_LOOK, HAS_LOOKED)


def page_of(marks: LabMarks, lab: Lab, learner: Learner, given: GivenByHand | None = None) -> dict[str, Any]:
    """Everything that stands on a page, as texts.

    Parameters
    ----------
    marks : LabMarks
        The hand-in, judged [-]
    lab : Lab
        The lab [-]
    learner : Learner
        Whose it is [-]
    given : GivenByHand, optional
        What a person added [-]
    """
    given = given or GivenByHand()
    questions: list[dict[str, Any]] = []
    total, any_marked = Fraction(0), False
    for question in lab.questions:
        own = [mark for mark in marks.marks if mark.question == question.name]
        work = {point.name for point in question.work}
        by_hand = question.name in given.points
        points = given.points[question.name] if by_hand else _sum(own)
        total += points or 0
        any_marked = any_marked or by_hand or (bool(own) and points is not None)
        questions.append(
            {
                "title": question.title,
                "points": "–" if points is None else show_points(points),
                "max_points": show_points(question.points),
                "waits": points is None,
                "by_hand": by_hand,
                "reads": bool(question.answers),
                "comment": _text(given.comments.get(question.name, ""), LONGEST_TYPED),
                "typed": _text(given.typed.get(question.name, ""), LONGEST_TYPED),
                "answers": [_answer(mark, mark.name in work, by_hand) for mark in own],
            }
        )
    waiting = any(question["waits"] for question in questions)
    notices = marks.notices if waiting or not marks.waiting else map(_settled, marks.notices)
    name = " ".join(part for part in (learner.first_name, learner.last_name) if part)
    return {
        "title": f"{lab.number} {lab.title}",
        "name": _text(name or learner.id, LONGEST_READ),
        "id": _text(learner.id, LONGEST_READ),
        "points": show_points(total if given.total is None else given.total) if any_marked else "",
        "max_points": show_points(lab.points),
        "waits": waiting,
        "penalty": show_points(given.penalty) if given.penalty else "",
        "notices": [_text(notice) for notice in notices],
        "missing": [_text(reading) for reading in marks.missing],
        "questions": questions,
    }


def write_feedback(marks: LabMarks, lab: Lab, learner: Learner, path: Path, given: GivenByHand | None = None) -> None:
    """Write a feedback page without nbgrader, from the same template.

    Parameters
    ----------
    marks : LabMarks
        The hand-in, judged [-]
    lab : Lab
        The lab [-]
    learner : Learner
        Whose it is [-]
    path : Path
        The page to write [-]
    given : GivenByHand, optional
        What a person added [-]
    """
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    folder = str(TEMPLATES / FEEDBACK_TEMPLATE)
    environment = Environment(loader=FileSystemLoader(folder), autoescape=True, undefined=StrictUndefined)
    page = page_of(marks, lab, learner, given)
    html = environment.get_template(TEMPLATE_FILE).render(resources={OURS: page})
    write_whole(path, html.encode("utf-8", "replace"))


class FeedbackPage(Preprocessor):
    """Puts the page's texts where the template finds them; runs after nbgrader's GetGrades."""

    enabled = Bool(True, help="Gather the feedback page.").tag(config=True)

    def preprocess(self, nb: NotebookNode, resources: ResourcesDict) -> tuple[NotebookNode, ResourcesDict]:
        """The notebook as it came; the page goes on in the resources.

        Parameters
        ----------
        nb : NotebookNode
            An autograded notebook [-]
        resources : ResourcesDict
            nbconvert's resources, with nbgrader's names in them [-]
        """
        about = resources["nbgrader"]
        lab = find_lab(about["assignment"])
        marks = load_marks(Path(resources["metadata"]["path"]) / FILE_NAME)
        learner, given = _from_gradebook(about, lab, _typed(nb, lab))
        resources[OURS] = page_of(marks, lab, learner, given)
        return nb, resources


def _typed(nb: NotebookNode, lab: Lab) -> dict[str, str]:
    """What stands in the answer cells, by question."""
    questions = {answer_id(question.name): question.name for question in lab.questions}
    ids = [(str(cell.metadata.get("nbgrader", {}).get("grade_id", "")), cell.source) for cell in nb.cells]
    return {questions[grade_id]: source for grade_id, source in ids if grade_id in questions}


def _from_gradebook(about: Mapping[str, Any], lab: Lab, typed: Mapping[str, str]) -> tuple[Learner, GivenByHand]:
    """Name, and what a person changed or wrote, out of nbgrader's gradebook."""
    from nbgrader.api import Gradebook

    with Gradebook(about["db_url"]) as gradebook:
        student = gradebook.find_student(about["student"])
        learner = Learner(student.id, student.first_name or "", student.last_name or "")
        handed_in = gradebook.find_submission_notebook(about["notebook"], about["assignment"], about["student"])
        changed = {
            g.name: g.score
            for g in handed_in.grades
            if g.manual_score is not None or (g.extra_credit and g.auto_score is not None)
        }
        comments = {comment.name: comment.manual_comment or "" for comment in handed_in.comments}
    names = [question.name for question in lab.questions]
    return learner, GivenByHand(
        points={name: exact(changed[check_id(name)]) for name in names if check_id(name) in changed},
        comments={name: comments[answer_id(name)] for name in names if answer_id(name) in comments},
        typed=typed,
        total=exact(about["score"]),
        penalty=exact(about["late_penalty"]),
    )
