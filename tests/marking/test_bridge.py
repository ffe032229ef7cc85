"""From what stands in a hand-in to marks, cell outputs and gradebook."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction

import nbformat
import pytest
from nbgrader.utils import determine_grade
from traitlets.config import Config

from coldwright.errors import CourseError, SandboxError
from coldwright.labs.class_folder import SHEET_NAME
from coldwright.labs.ticket import FILE_NAME, issue_ticket
from coldwright.marking import answer_values
from coldwright.marking.answer_values import NO_SANDBOX, answers_of
from coldwright.marking.cell_outputs import check_outputs, comments, line, points_of
from coldwright.marking.collect import AnswerCell
from coldwright.marking.hand_in import NO_TICKET, STRANGE_TICKET, fingerprint, judge_hand_in
from coldwright.marking.judge import Unread
from coldwright.marking.marks import Mark, Outcome, Standing
from coldwright.marking.nbgrader_config import CONFIG_TEXT, configure, is_trusted, write_class_config
from coldwright.marking.record import load_marks, save_marks
from coldwright.marking.sandbox import Limits, find_sandbox
from tests.marking.small_class import KEYS, LAB, SmallClass, cell, filled, master_notebook

ANSWERS = [answer.name for question in LAB.questions for answer in question.answers]
needs_jail = pytest.mark.skipif(find_sandbox() is None, reason="there is no bubblewrap on this machine")
MADE_WORSE = {"resistance_12": "9999 ohm"}


@pytest.fixture(scope="module")
def small(tmp_path_factory):
    """A class of two with the lab released."""
    made = SmallClass(tmp_path_factory.mktemp("class"), "ada", "ben")
    made.release()
    return made


@pytest.fixture
def no_sandbox(monkeypatch):
    """A machine on which learners' code cannot be run safely."""

    def refuse(*_):
        raise SandboxError("there is no sandbox on this machine")

    monkeypatch.setattr(answer_values, "run_cells", refuse)


def judged(small, learner="ada"):
    """Marks of what lies in a learner's folder."""
    return judge_hand_in(small.submitted(learner), learner, LAB, small.folder)[0]


def cells(**sources):
    """Answer cells of some questions, in the lab's order."""
    return [
        AnswerCell(question.name, f"answer_{question.name}", sources[question.name])
        for question in LAB.questions
        if question.name in sources
    ]


# ------------------------------------------------------------------ answer cells to values


@pytest.mark.usefixtures("no_sandbox")
def test_plain_cells_are_read_without_running_anything():
    """Literals come out as they were typed, blank and missing ones included."""
    found = answers_of(cells(pins='common = "1"\nrun = 2\nstart = ""'), LAB)

    assert (found["common"], found["run"], found["start"]) == ("1", 2, "")


def test_the_value_at_its_own_check_cell_counts():
    """A name set again in a later cell keeps the value it had at its own check; one set earlier is carried on."""
    found = answers_of(
        cells(pairs='verdict = "good"\nrun = "1"', pins='run = "2"', sum_rule='run = "3"', verdict=""), LAB
    )

    assert found["run"] == "2"
    assert found["verdict"] == "good"


@needs_jail
def test_code_is_run_with_the_plain_values_of_the_cells_before():
    """A cell that works something out sees what was typed above it, and its values come out plain."""
    found = answers_of(
        cells(pairs="resistance_12 = 4.0", at_20='resistance_at_20 = f"{resistance_12 / 2:.1f} ohm"'), LAB
    )

    assert found == {**found, "resistance_12": 4.0, "resistance_at_20": "2.0 ohm"}


@pytest.mark.usefixtures("no_sandbox")
def test_without_a_sandbox_only_answers_worked_out_in_code_wait():
    """The others are judged as ever."""
    found = answers_of(cells(pins='common = "1"', at_20='resistance_at_20 = str(2) + " ohm"'), LAB)

    assert found["common"] == "1"
    assert found["resistance_at_20"] == Unread(Standing.NEEDS_PERSON, NO_SANDBOX)


@needs_jail
def test_code_that_never_ends_is_stopped_and_what_was_plain_is_kept():
    """The sentence says that it did not end; a cell that had to run after it was not reached."""
    sources = {"pins": 'common = "1"', "at_20": "while True:\n    pass", "verdict": "verdict = str('good')"}

    found = answers_of(cells(**sources), LAB, Limits(wall_s=1))

    assert found["common"] == "1"
    assert found["resistance_at_20"].standing is Standing.STOPPED
    assert "did not end in time" in found["resistance_at_20"].sentence
    assert found["verdict"].standing is Standing.STOPPED


@needs_jail
def test_an_error_in_code_names_the_error_and_says_what_runs_here():
    """A name from a cell of the learner's own is not known, since only answer cells are run."""
    found = answers_of(cells(at_20="resistance_at_20 = str(mine)"), LAB)["resistance_at_20"]

    assert found.standing is Standing.UNREADABLE
    assert "mine" in found.sentence
    assert "Only the answer cells are run here" in found.sentence


def test_a_broken_cell_leaves_the_others_alone():
    """What cannot be read as Python is told, and the answers of other cells stand."""
    found = answers_of(cells(pins="common = (((", verdict='verdict = "good"'), LAB)

    assert found["common"].standing is Standing.UNREADABLE
    assert found["verdict"] == "good"


@needs_jail
@pytest.mark.parametrize(
    ("typed", "standing"),
    [
        ("[1, 2]", Standing.UNREADABLE),
        ("True", Standing.UNREADABLE),
        ("float('nan')", Standing.UNREADABLE),
        ("'4' * 5_000", Standing.NEEDS_PERSON),
        ("'" + "4" * 5_000 + "'", Standing.NEEDS_PERSON),
    ],
)
def test_what_is_not_one_value_is_never_cut_or_guessed(typed, standing):
    """Odd values are named as such; one too long to be read whole waits for a person."""
    assert answers_of(cells(verdict=f"verdict = {typed}"), LAB)["verdict"].standing is standing


def test_none_is_not_answered():
    """`x = None` is how some people leave a blank."""
    assert answers_of(cells(verdict="verdict = None"), LAB)["verdict"] is None


# ------------------------------------------------------------------ hand-ins to marks


def test_right_work_earns_all_and_blank_nothing(small):
    """The lab's points in full with readings behind them, none for a notebook as it was handed out."""
    small.hand_in("ada")
    full = judged(small)
    folder = small.hand_in("ada", master_notebook())
    (folder / SHEET_NAME).unlink()
    blank = judged(small)

    assert (full.outcome, full.points) == (Outcome.MARKED, LAB.points)
    assert (blank.outcome, blank.points) == (Outcome.MARKED_WITH_NOTICE, 0)
    assert {m.standing for m in blank.marks if m.name in ANSWERS} == {Standing.NOT_ANSWERED}


def test_a_missing_ticket_is_issued_again_from_the_record(small):
    """The unit of the last try on record is marked against, and it is said; without a record it is the first try."""
    folder = small.hand_in("ada")
    (folder / FILE_NAME).unlink()
    first = judged(small)
    second = small.work("ada", attempt=2)
    record = small.folder.root / "handed_out.csv"
    record.write_text(f"learner,lab,attempt\nben,{LAB.folder},3\nada,{LAB.folder},1\nada,{LAB.folder},2\n")
    try:
        (folder / "lab.ipynb").write_text(nbformat.writes(filled(second.answers)))
        (folder / SHEET_NAME).write_text(second.sheet)
        again = judged(small)
    finally:
        record.unlink()

    assert (first.outcome, first.points, first.notices) == (Outcome.MARKED_WITH_NOTICE, LAB.points, (NO_TICKET,))
    assert (again.outcome, again.points, again.notices) == (Outcome.MARKED_WITH_NOTICE, LAB.points, (NO_TICKET,))


def test_an_altered_ticket_is_refused_and_nothing_is_marked(small):
    """With the seed of another unit in it the signature no longer fits."""
    folder = small.hand_in("ada")
    ticket = json.loads((folder / FILE_NAME).read_text())
    (folder / FILE_NAME).write_text(json.dumps({**ticket, "seed": "0" * 32}))
    found = judged(small)

    assert found.outcome is Outcome.REFUSED
    assert all(mark.points is None for mark in found.marks)
    assert found.max_points == LAB.points
    assert found.notices == (
        "This hand-in was not marked: the ticket was altered, or another class issued it. Ask your instructor.",
    )


@pytest.mark.parametrize(
    ("ticket", "reason"),
    [
        (
            lambda s: issue_ticket(b"another secret of 32 bytes......", s.folder.course, LAB.name, "ada"),
            "another class",
        ),
        (lambda s: issue_ticket(s.folder.secret, s.folder.course, "another_lab", "ada"), "for the lab 'another_lab'"),
        (lambda s: issue_ticket(s.folder.secret, "another course", LAB.name, "ada"), "for the course 'another course'"),
    ],
)
def test_a_ticket_of_another_class_lab_or_course_is_refused(small, ticket, reason):
    """The reason says which."""
    (small.hand_in("ada") / FILE_NAME).write_text(ticket(small).text())
    found = judged(small)

    assert found.outcome is Outcome.REFUSED
    assert reason in found.notices[0]


def test_a_ticket_of_an_earlier_try_is_refused(small):
    """Once a second try was handed out, the first one's unit is not marked any more."""
    small.hand_in("ada")
    record = small.folder.root / "handed_out.csv"
    record.write_text(f"learner,lab,attempt\nada,{LAB.folder},1\nada,{LAB.folder},2\n")
    try:
        found = judged(small)
    finally:
        record.unlink()

    assert found.outcome is Outcome.REFUSED
    assert "the ticket is for try 1, and the last one handed out was try 2" in found.notices[0]


def test_another_learners_whole_hand_in_waits_for_a_person(small):
    """Nothing of it is marked; who it belongs to is for the instructor only."""
    small.hand_in("ben")
    for path in small.submitted("ben").iterdir():
        small.submitted("ada").mkdir(parents=True, exist_ok=True)
        (small.submitted("ada") / path.name).write_bytes(path.read_bytes())
    found = judged(small)

    assert found.outcome is Outcome.NEEDS_PERSON
    assert all(mark.points is None for mark in found.marks)
    assert found.notices == (STRANGE_TICKET,)
    assert found.flags == ("The ticket belongs to the learner 'ben'.",)
    assert "ben" not in str((found.notices, found.marks))


@pytest.mark.usefixtures("no_sandbox")
def test_without_a_sandbox_a_hand_in_waits_and_the_instructor_is_told_why(small):
    """Only the answer worked out in code has no marks; all others have theirs."""
    right = small.work("ada").answers
    notebook = filled(right)
    cell(notebook, "answer-verdict").source = f"verdict = str({right['verdict']!r})"
    small.hand_in("ada", notebook)
    found = judged(small)

    assert found.outcome is Outcome.NEEDS_PERSON
    assert [mark.name for mark in found.marks if mark.points is None] == ["verdict"]
    assert found.points == LAB.points - 3
    assert found.flags == ("Code was not run: there is no sandbox on this machine",)


@needs_jail
def test_stopped_code_gets_what_an_honest_wrong_answer_gets(small):
    """Same points, and a notice."""
    right = dict(small.work("ada").answers)
    small.hand_in("ada", filled({**right, "verdict": "no such verdict"}))
    wrong = judged(small)
    notebook = filled(right)
    cell(notebook, "answer-verdict").source = "while True:\n    pass"
    small.hand_in("ada", notebook)
    stopped = judged(small)

    assert stopped.points == wrong.points == LAB.points - 3
    assert stopped.outcome is Outcome.MARKED_WITH_NOTICE
    assert stopped.notices == ("Code in an answer cell was stopped; the other answers were marked.",)


FORGED = {
    "a text that says it equals everything": """
class Sly(str):
    __eq__ = lambda self, other: True
    __hash__ = str.__hash__
verdict = Sly("zz")
""",
    "other builtins": "import builtins as b\nb.abs = lambda x: 0\nb.float = lambda x: 0.0\nverdict = str('zz')",
    "a score in the output": "print('3.0')\nfrom sys import stderr\nstderr.write('3.0')\nverdict = str('zz')",
    "records of its own": """
import json, os
for fd in range(3, 20):
    try:
        os.write(fd, json.dumps({"points": 20, "verdict": "full"}).encode() + b"\\n")
    except OSError:
        pass
""",
    "leaving at once": "import os\nos._exit(0)",
    "reading the key": "verdict = open('/etc/passwd').read()",
}


@needs_jail
@pytest.mark.parametrize("source", FORGED.values(), ids=FORGED.keys())
def test_a_forged_answer_gets_what_an_honest_wrong_answer_gets(small, source):
    """The lab less the verdict's three points, and every other mark as it was."""
    right = dict(small.work("ada").answers)
    small.hand_in("ada", filled({**right, "verdict": "zz"}))
    wrong = judged(small)
    notebook = filled(right)
    cell(notebook, "answer-verdict").source = source
    small.hand_in("ada", notebook)
    forged = judged(small)

    assert forged.points == wrong.points == LAB.points - 3
    assert [m for m in forged.marks if m.name != "verdict"] == [m for m in wrong.marks if m.name != "verdict"]


def test_no_notice_sentence_or_flag_holds_an_expected_value(small):
    """A learner who is wrong everywhere is told nothing of the right numbers."""
    right = small.work("ada").answers
    small.hand_in("ada", filled({name: "7777 ohm" if "ohm" in value else "zz" for name, value in right.items()}))
    found = judged(small)
    said = str((found.notices, found.flags, [(m.sentence, m.read_as) for m in found.marks]))

    assert found.points < LAB.points
    for value in right.values():
        if any(c.isdigit() for c in value) and len(value) > 2:
            assert value.split()[0] not in said


# ------------------------------------------------------------------ marks to nbgrader's forms


def a_mark(points, most=1, standing=Standing.RIGHT, **more):
    """One mark of the pins."""
    given = None if points is None else Fraction(points)
    return Mark("pins", "common", given, Fraction(most), standing, more.get("read_as", ""), more.get("sentence", "So."))


@pytest.mark.parametrize("points", ["0", "1/3", "2", "3"])
def test_nbgrader_reads_the_same_points_from_a_check_cell(points):
    """What nbgrader would make of the outputs alone is the judge's score, thirds included."""
    check = cell(master_notebook(), "check-pins")
    check.outputs = check_outputs([a_mark(points, 3)])

    assert determine_grade(check) == (float(Fraction(points)), 3.0)


def test_a_check_cell_that_waits_can_never_be_taken_for_full_marks():
    """It shows an error, which nbgrader reads as none; the score itself stays open."""
    check = cell(master_notebook(), "check-pins")
    marks = [a_mark(1), a_mark(None, standing=Standing.NEEDS_PERSON)]
    check.outputs = check_outputs(marks)

    assert points_of(marks) is None
    assert determine_grade(check) == (0, 3.0)


def test_thirds_add_up():
    """Three thirds are one point, not a little less."""
    assert points_of([a_mark("1/3")] * 3) == 1.0


def test_what_a_learner_typed_is_inert_in_the_table():
    """Text that looks like a script stays text."""
    outputs = check_outputs([a_mark(0, standing=Standing.UNREADABLE, read_as="<script>alert(1)</script>")])

    assert "<script" not in outputs[0].data["text/html"]
    assert "&lt;script&gt;" in outputs[0].data["text/html"]


def test_comments_say_every_answer_and_no_response_where_nothing_was_typed(small):
    """One comment on each answer cell; notices stand at the first."""
    notebook = filled(small.work("ada").answers)
    cell(notebook, "answer-verdict").source = 'verdict = ""'
    (small.hand_in("ada", notebook) / FILE_NAME).unlink()
    marks = judged(small)
    found = comments(marks, LAB)

    assert found["answer_verdict"] == "No response."
    assert found["answer_pairs"].startswith(NO_TICKET)
    assert [line(mark) for mark in marks.marks if mark.question == "pins"] == found["answer_pins"].split("\n")
    assert "answer_safe_order" not in found


# ------------------------------------------------------------------ record and configuration


def test_marks_saved_and_loaded_are_equal(small, tmp_path):
    """Everything of the marks is kept, thirds and waiting ones included."""
    small.hand_in("ada", filled({**small.work("ada").answers, **MADE_WORSE}))
    marks = judged(small)
    marks = replace(marks, marks=(*marks.marks, a_mark("1/3"), a_mark(None)), notices=("<&> ½",), flags=("one",))

    save_marks(tmp_path / "marks.json", marks)

    assert load_marks(tmp_path / "marks.json") == marks
    assert [path.name for path in tmp_path.iterdir()] == ["marks.json"]


@pytest.mark.parametrize("text", ["", "{}", '{"format": 1', '{"format": 1, "marks": 3}', "[]"])
def test_a_record_written_in_part_is_told(tmp_path, text):
    """It says what to do."""
    (tmp_path / "marks.json").write_text(text)

    with pytest.raises(CourseError, match=r"marks.json cannot be read; mark the lab again"):
        load_marks(tmp_path / "marks.json")


def test_a_fingerprint_changes_with_whatever_marks_come_from(small):
    """With the notebook, the sheet, the ticket, the try, the trust in code and a sandbox; trusted code needs none."""
    folder = small.hand_in("ada")

    def now(trusted=False, sandboxed=True):
        return fingerprint(folder, "ada", LAB, small.folder, trusted, sandboxed)

    seen = [now(), now(trusted=True), now(sandboxed=False)]
    assert now(trusted=True, sandboxed=False) == seen[1]
    assert fingerprint(folder, "ada", LAB, small.folder, False) in (seen[0], seen[2])
    for name in ("lab.ipynb", SHEET_NAME, FILE_NAME):
        (folder / name).write_text((folder / name).read_text() + "\n")
        seen.append(now())

    assert len(set(seen)) == len(seen)
    assert now() == seen[-1]


def test_code_is_trusted_only_where_the_class_or_the_variable_says_so(small, monkeypatch):
    """The setting is true or false and nothing else."""
    settings = small.folder.root / "class.toml"
    before = settings.read_text()
    text = before.replace("trusted = true\n", "")
    settings.write_text(text)
    monkeypatch.delenv("COLDWRIGHT_TRUSTED", raising=False)
    assert not is_trusted(small.folder)
    monkeypatch.setenv("COLDWRIGHT_TRUSTED", "1")
    assert is_trusted(small.folder)
    monkeypatch.delenv("COLDWRIGHT_TRUSTED")
    try:
        settings.write_text(text + "trusted = true\n")
        assert is_trusted(small.folder)
        settings.write_text(text + 'trusted = "no"\n')
        with pytest.raises(CourseError, match="trusted is 'no'; it must be true or false"):
            is_trusted(small.folder)
    finally:
        settings.write_text(before)


def test_the_configuration_never_runs_a_notebook(small):
    """No step that starts a kernel is in any list."""
    config = Config()
    configure(config, small.folder.root)
    steps = [
        *config.Autograde.sanitize_preprocessors,
        *config.Autograde.autograde_preprocessors,
        *config.GenerateAssignment.preprocessors,
        *config.GenerateFeedback.preprocessors,
    ]

    assert not [step for step in steps if "xecute" in step]
    assert config.CourseDirectory.root == str(small.folder.root)


def test_a_class_config_is_the_one_that_instructors_are_given_and_is_kept(small):
    """What an instructor adds to it is not overwritten."""
    path = write_class_config(small.folder)
    assert path.read_text() == CONFIG_TEXT == (KEYS.parent / "nbgrader_config.py").read_text()

    path.write_text(CONFIG_TEXT + "# mine\n")
    try:
        assert write_class_config(small.folder).read_text() == CONFIG_TEXT + "# mine\n"
    finally:
        path.unlink()
