"""A class marked by our command and by nbgrader's own: same marks, and no hand-in stops another."""

from __future__ import annotations

import csv
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from nbgrader.api import MissingEntry

from coldwright.errors import CourseError
from coldwright.labs.ticket import FILE_NAME
from coldwright.marking import bridge, mark_class, sandbox
from coldwright.marking.gradebook import open_gradebook, scores
from coldwright.marking.mark_class import FAILED, NOTHING_HANDED_IN, feedback_class, whole_record
from coldwright.marking.marks import Outcome
from coldwright.marking.nbgrader_config import write_class_config
from coldwright.marking.nbgrader_runs import release
from coldwright.marking.record import load_marks
from tests.marking.small_class import LAB, SmallClass, cell, filled, master_notebook

FULL = float(LAB.points)


def odd_notebook(small, learner):
    """Right answers in a notebook with a copied and a deleted cell, forged points and forged outputs."""
    notebook = filled(small.work(learner).answers)
    copied = json.loads(json.dumps(cell(notebook, "answer-pins")))
    notebook.cells.append(type(notebook)(copied | {"id": "copy"}))
    notebook.cells.remove(cell(notebook, "answer-verdict"))
    check = cell(notebook, "check-verdict")
    check.source, check.metadata.nbgrader.points = "3", 300
    return notebook


@pytest.fixture(scope="module")
def small(tmp_path_factory):
    """A class of six: right, odd notebook, broken file, code that works it out, altered ticket, nothing handed in."""
    made = SmallClass(tmp_path_factory.mktemp("class"), "ada", "ben", "cem", "dov", "eva", "fay")
    release(made.folder, LAB)
    made.hand_in("ada")
    made.hand_in("ben", odd_notebook(made, "ben"))
    made.hand_in("cem", '{"cells": [')
    right = made.work("dov").answers
    worked_out = filled(right)
    cell(worked_out, "answer-verdict").source = f"verdict = str({right['verdict']!r})"
    made.hand_in("dov", worked_out)
    ticket = made.hand_in("eva") / FILE_NAME
    ticket.write_text(ticket.read_text().replace('"attempt": 1', '"attempt": 2'))
    return made


def marked(small, **options):
    """Results by learner."""
    return {result.learner.id: result for result in mark_class.mark_class(small.folder, LAB, **options)}


def in_gradebook(small):
    """Score and whether a person is wanted, by learner, as nbgrader has them."""
    with open_gradebook(small.folder) as gradebook:
        found = {}
        for learner in small.folder.learners():
            try:
                handed_in = gradebook.find_submission(LAB.folder, learner.id)
            except MissingEntry:
                continue
            found[learner.id] = (handed_in.score, handed_in.needs_manual_grade)
        return found


def test_every_learner_ends_in_one_outcome_and_the_gradebook_agrees(small):
    """A broken file, an altered ticket and an absent learner stop nobody; progress is told for each."""
    told = []
    found = marked(small, progress=lambda done, of, learner: told.append((done, of, learner)), again=True)

    assert {learner: result.outcome for learner, result in found.items()} == {
        "ada": Outcome.MARKED,
        "ben": Outcome.MARKED_WITH_NOTICE,
        "cem": Outcome.REFUSED,
        "dov": Outcome.MARKED,
        "eva": Outcome.REFUSED,
        "fay": None,
    }
    assert found["fay"].reason == NOTHING_HANDED_IN
    assert (found["ada"].marks.points, found["dov"].marks.points) == (LAB.points, LAB.points)
    assert found["ben"].marks.points == LAB.points - 3
    assert "cannot be read as a notebook" in found["cem"].marks.notices[0]
    assert in_gradebook(small) == {
        "ada": (FULL, False),
        "ben": (FULL - 3, False),
        "cem": (0.0, True),
        "dov": (FULL, False),
        "eva": (0.0, True),
    }
    assert told == [(n, 6, learner) for n, learner in enumerate(("ada", "ben", "cem", "dov", "eva", "fay"), start=1)]


def test_no_score_stands_where_a_person_has_to_look(small):
    """nbgrader never shows a zero that nobody gave."""
    marked(small)

    with open_gradebook(small.folder) as gradebook:
        assert set(scores(gradebook, LAB, "eva").values()) == {None}
        grades = gradebook.find_submission_notebook("lab", LAB.folder, "eva").grades
        assert all(grade.needs_manual_grade for grade in grades)
        comment = gradebook.find_comment("answer_pairs", "lab", LAB.folder, "eva").comment
    assert "the ticket was altered" in comment


def test_the_marked_notebook_is_the_masters_with_marks_in_it(small):
    """A deleted cell stands blank, forged points and sources are gone, and each check shows its points."""
    marked(small)
    notebook = json.loads((small.autograded("ben") / "lab.ipynb").read_text())
    by_id = {each["id"]: each for each in notebook["cells"]}

    assert list(by_id) == [each.id for each in master_notebook().cells]
    assert by_id["check-verdict"]["metadata"]["nbgrader"]["points"] == 3
    assert by_id["check-verdict"]["outputs"][1]["data"]["text/plain"] == ["0.0"]
    assert by_id["check-pins"]["outputs"][1]["data"]["text/plain"] == ["3.0"]


def test_marking_again_gives_the_same_marks(small):
    """What is unchanged is left as it is, unless asked; asked, the same marks come out."""
    first = marked(small)
    second = marked(small)
    third = marked(small, again=True)

    assert not any(second[learner].again for learner in ("ada", "ben", "cem", "dov", "eva"))
    for learner, result in first.items():
        assert second[learner].marks == result.marks == third[learner].marks


def test_a_changed_hand_in_is_marked_anew(small):
    """A better hand-in replaces the marks of the one before."""
    small.hand_in("ben")
    try:
        found = marked(small)
    finally:
        small.hand_in("ben", odd_notebook(small, "ben"))

    assert found["ben"].again
    assert found["ben"].marks.points == LAB.points
    assert not found["ada"].again


def stop_before_marks(small):
    (small.autograded("ada") / "marks.json").unlink()


def stop_in_the_notebook(small):
    path = small.autograded("ada") / "lab.ipynb"
    text = path.read_text()
    path.unlink()
    path.write_text(text[: len(text) // 2])


def stop_before_the_second_pass(small):
    path = small.autograded("ada") / "lab.ipynb"
    notebook = json.loads(path.read_text())
    del notebook["metadata"]["coldwright"]["fingerprint"]
    path.unlink()
    path.write_text(json.dumps(notebook))


def stop_before_the_gradebook(small):
    with open_gradebook(small.folder) as gradebook:
        for grade in gradebook.find_submission_notebook("lab", LAB.folder, "ada").grades:
            grade.auto_score = None
        gradebook.db.commit()


@pytest.mark.parametrize(
    "stop", [stop_before_marks, stop_in_the_notebook, stop_before_the_second_pass, stop_before_the_gradebook]
)
def test_a_run_that_was_killed_goes_on(small, stop):
    """Whatever was left half done is done again, and ends as it would have; the others are left alone."""
    before = marked(small)["ada"].marks
    stop(small)
    assert whole_record(small.folder, LAB, "ada", trusted=small.trusted) is None

    found = marked(small)

    assert found["ada"].again
    assert not found["ben"].again
    assert found["ada"].marks == before == load_marks(small.autograded("ada") / "marks.json")
    assert in_gradebook(small)["ada"] == (FULL, False)


def test_a_killed_process_leaves_nothing_that_is_taken_for_whole(small):
    """A run killed for real between gradebook and record ends the same when it is run again."""
    kill = (
        "import os, signal, sys; from pathlib import Path\n"
        "from coldwright.labs.catalogue import lab; from coldwright.labs.class_folder import open_class\n"
        "from coldwright.marking import bridge; from coldwright.marking.mark_class import mark_class\n"
        "bridge.save_marks = lambda *_: os.kill(os.getpid(), signal.SIGKILL)\n"
        "mark_class(open_class(Path(sys.argv[1])), lab('winding_checks'), ['ada'], again=True)\n"
    )
    done = subprocess.run([sys.executable, "-c", kill, str(small.folder.root)], capture_output=True, check=False)
    assert done.returncode == -9, done.stderr.decode()
    assert whole_record(small.folder, LAB, "ada", trusted=small.trusted) is None

    assert marked(small)["ada"].marks.points == LAB.points


def test_one_hand_in_that_cannot_be_marked_does_not_stop_the_others(small, monkeypatch):
    """An error of our own costs no one a mark: that learner waits for a person, the gradebook too."""
    good = bridge.judge_answers

    def fails_for_ada(cells, notices, folder, learner, *rest):
        if learner == "ada":
            raise RuntimeError("out of order")
        return good(cells, notices, folder, learner, *rest)

    marked(small)
    monkeypatch.setattr(bridge, "judge_answers", fails_for_ada)
    found = marked(small, again=True)
    held = in_gradebook(small)
    monkeypatch.undo()

    assert (found["ada"].outcome, found["ada"].reason) == (Outcome.NEEDS_PERSON, FAILED)
    assert found["dov"].marks.points == LAB.points
    assert held["ada"] == (0.0, True)
    assert "out of order" in (small.folder.root / "nbgrader.log").read_text()
    assert marked(small)["ada"].marks.points == LAB.points


def test_a_score_given_by_hand_stays(small):
    """Marking again neither takes it away nor hides that it should be looked at."""
    marked(small)

    def set_by_hand(score):
        with open_gradebook(small.folder) as gradebook:
            gradebook.find_grade("check_verdict", "lab", LAB.folder, "ben").manual_score = score
            gradebook.db.commit()

    set_by_hand(2.0)
    try:
        marked(small, again=True)
        assert in_gradebook(small)["ben"] == (FULL - 1, True)
    finally:
        set_by_hand(None)
        marked(small, again=True)


def set_by_hand(small, learner, points, checks=None):
    """Give points for check cells as nbgrader's grading page does; None takes them back."""
    with open_gradebook(small.folder) as gradebook:
        for grade in gradebook.find_submission_notebook("lab", LAB.folder, learner).grades:
            if checks is None or grade.name in checks:
                grade.manual_score = points
                grade.needs_manual_grade = points is None and grade.auto_score is None
        gradebook.db.commit()


@pytest.fixture
def by_hand(small):
    """Eva's and cem's hand-ins wait; a person gives one point for each of eva's check cells, for one of cem's."""
    marked(small)
    set_by_hand(small, "eva", 1.0)
    set_by_hand(small, "cem", 1.0, ["check_verdict"])
    yield small
    for learner in ("eva", "cem"):
        set_by_hand(small, learner, None)


def test_marks_of_a_person_reach_the_result_and_stay(by_hand):
    """The queue gets empty: a hand-in that a person marked is not judged again and asks for nobody."""
    for _ in range(2):
        found = marked(by_hand)
        assert not found["eva"].again
        assert found["eva"].held.points == len(LAB.questions)
        assert not found["eva"].held.waiting
        assert in_gradebook(by_hand)["eva"] == (len(LAB.questions), False)
    assert (found["cem"].held.points, found["cem"].held.scored) == (1, {"check_verdict"})
    assert len(found["cem"].held.waiting) == len(LAB.questions) - 1
    assert (found["ada"].held.points, found["ada"].held.waiting) == (LAB.points, frozenset())
    assert found["fay"].held is None


@pytest.fixture
def strange(small):
    """Ada hands in ben's ticket, so that the hand-in needs a person."""
    ticket = small.submitted("ada") / FILE_NAME
    own = ticket.read_bytes()
    ticket.write_bytes((small.submitted("ben") / FILE_NAME).read_bytes())
    yield small
    set_by_hand(small, "ada", None)
    ticket.write_bytes(own)
    marked(small)


def test_one_that_needs_a_person_leaves_the_queue_and_comes_back_when_it_changes(strange):
    """Marked by a person it stays out of the queue; a changed hand-in brings it back, with the person's points."""
    assert marked(strange)["ada"].outcome is Outcome.NEEDS_PERSON
    set_by_hand(strange, "ada", 2.0)
    for _ in range(2):
        found = marked(strange)["ada"]
        assert (found.again, found.held.waiting) == (False, frozenset())
        assert in_gradebook(strange)["ada"] == (2.0 * len(LAB.questions), False)
    notebook = strange.submitted("ada") / "lab.ipynb"
    notebook.write_text(notebook.read_text() + "\n")
    found = marked(strange)["ada"]
    assert found.again
    assert len(found.held.waiting) == len(LAB.questions)
    assert in_gradebook(strange)["ada"] == (2.0 * len(LAB.questions), True)


def test_a_hand_in_that_keeps_failing_stays_as_a_person_marked_it(small, monkeypatch):
    """Where our own error comes back in each run, the marks that a person gave for it are not put in doubt again."""

    def fails(*_):
        raise RuntimeError("out of order")

    monkeypatch.setattr(bridge, "judge_answers", fails)
    try:
        assert marked(small, learners=["ada"], again=True)["ada"].held.scored == frozenset()
        set_by_hand(small, "ada", 2.0)
        held = marked(small, learners=["ada"])["ada"].held
        assert (held.points, held.waiting) == (2 * len(LAB.questions), frozenset())
    finally:
        monkeypatch.undo()
        set_by_hand(small, "ada", None)
        marked(small)


def test_what_waits_is_judged_again_once_there_is_a_sandbox(small, monkeypatch):
    """Without one code waits, and is not judged again in vain; with one it is. What was marked stays without one."""
    if small.trusted:
        pytest.skip("there is no sandbox on this machine")
    with monkeypatch.context() as without:
        without.setattr(sandbox, "find_sandbox", lambda: None)
        first = marked(small, again=True)
        second = marked(small)
    assert [each["dov"].outcome for each in (first, second)] == [Outcome.NEEDS_PERSON] * 2
    assert not second["dov"].again

    third = marked(small)
    assert (third["dov"].again, third["dov"].outcome) == (True, Outcome.MARKED)
    assert not third["ada"].again
    monkeypatch.setattr(sandbox, "find_sandbox", lambda: None)
    fourth = marked(small)["dov"]
    assert (fourth.again, fourth.outcome) == (False, Outcome.MARKED)


def test_files_that_no_one_asked_for_do_not_travel_on(small):
    """A link to a file of the instructor's, or forged marks, never reach the folder that feedback is made from."""
    folder = small.hand_in("ada")
    (folder / "notes.txt").symlink_to(small.folder.secret_file)
    (folder / "marks.json").write_text("{}")
    try:
        marked(small, again=True)
    finally:
        (folder / "notes.txt").unlink()
        (folder / "marks.json").unlink()

    names = {path.name for path in small.autograded("ada").iterdir()}
    assert names == {"lab.ipynb", "marks.json", "ticket.json", "job_sheet.jsonl", "timestamp.txt"}
    assert load_marks(small.autograded("ada") / "marks.json").points == LAB.points


def test_a_class_that_cannot_be_marked_at_all_says_so_at_once(tmp_path):
    """Before the first hand-in: nothing released, or a learner who is not on the roster."""
    other = SmallClass(tmp_path / "class", "ada")
    with pytest.raises(CourseError, match=r"the lab 03_winding_checks was not handed out in this class"):
        mark_class.mark_class(other.folder, LAB)
    with pytest.raises(CourseError, match=r"has no learner zoe; check the spelling"):
        mark_class.mark_class(other.folder, LAB, ["zoe"])


def nbgrader(folder: Path, *words: str) -> None:
    """One of nbgrader's own commands in the class folder, as an instructor runs it."""
    here = str(Path(sys.executable).parent)
    environment = os.environ | {"PATH": os.pathsep.join((here, os.environ["PATH"])), "HOME": str(folder)}
    done = subprocess.run(
        [sys.executable, "-m", "nbgrader", *words],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr


@pytest.fixture(scope="module")
def stock(small, tmp_path_factory):
    """The same class with the same hand-ins, marked by nbgrader's own commands with the class's configuration."""
    made = SmallClass(tmp_path_factory.mktemp("stock"), *(learner.id for learner in small.folder.learners()))
    made.folder.secret_file.write_bytes(small.folder.secret_file.read_bytes())
    shutil.copytree(small.folder.root / "submitted", made.folder.root / "submitted")
    write_class_config(made.folder)
    nbgrader(made.folder.root, "generate_assignment", LAB.folder)
    nbgrader(made.folder.root, "autograde", LAB.folder)
    return made


def test_nbgraders_own_commands_give_the_same_marks(small, stock):
    """generate_assignment, autograde and export against our command: records, gradebook and exported table."""
    ours = marked(small, again=True)
    nbgrader(stock.folder.root, "export")

    assert in_gradebook(stock) == in_gradebook(small)
    for learner in ("ada", "ben", "cem", "dov", "eva"):
        assert load_marks(stock.autograded(learner) / "marks.json") == ours[learner].marks
    with (stock.folder.root / "grades.csv").open() as file:
        exported = {row["student_id"]: float(row["score"]) for row in csv.DictReader(file)}
    assert exported == {learner: score for learner, (score, _) in in_gradebook(small).items()}


def test_nbgraders_own_feedback_leaves_the_instructors_notes_out(stock):
    """generate_feedback makes each learner's page, and the record with its flags is not copied beside it."""
    nbgrader(stock.folder.root, "generate_feedback", LAB.folder)

    for learner in ("ada", "ben", "cem", "dov", "eva"):
        names = {path.name for path in stock.folder.part("feedback", learner, LAB.folder).iterdir()}
        assert "lab.html" in names
        assert "marks.json" not in names


def test_feedback_is_made_for_those_who_were_marked(small):
    """A page for each hand-in, none for a learner without one, and the instructor's notes stay out of its folder."""
    marked(small)
    pages = feedback_class(small.folder, LAB)

    assert set(pages) == {"ada", "ben", "cem", "dov", "eva"}
    assert all(page is not None and page.is_file() for page in pages.values())
    assert not list(small.folder.root.joinpath("feedback").rglob("marks.json"))
