"""The demo class as a whole: what each invented learner ends with, here and with nbgrader's own commands."""

from __future__ import annotations

import csv
import html
import json
import os
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from coldwright.cli import main
from coldwright.cli.demo import run_demo
from coldwright.course.demo_class import PROFILES
from coldwright.errors import CourseError
from coldwright.labs.catalogue import lab
from coldwright.marking import sandbox
from coldwright.marking.record import load_marks

ROOT = Path(__file__).parents[2]
LAB = lab("winding_checks")
GRADES = """
    select student.id, base_cell.name, grade.auto_score, grade.needs_manual_grade
    from grade
    join submitted_notebook on grade.notebook_id = submitted_notebook.id
    join submitted_assignment on submitted_notebook.assignment_id = submitted_assignment.id
    join student on submitted_assignment.student_id = student.id
    join base_cell on grade.cell_id = base_cell.id
    order by 1, 2
"""


def grades(folder: Path) -> list[tuple]:
    """Every score in a gradebook."""
    with sqlite3.connect(folder / "gradebook.db") as database:
        return database.execute(GRADES).fetchall()


@pytest.fixture(scope="module")
def demo(tmp_path_factory) -> Path:
    """A demo class, run once for this file."""
    if sandbox.find_sandbox() is None:
        pytest.skip("there is no sandbox on this machine")
    folder = tmp_path_factory.mktemp("demo") / "class"
    assert run_demo(ROOT, folder, as_json=True) == 0
    return folder


def points(folder: Path) -> dict[str, int]:
    """Points of each learner."""
    return {
        profile.id: int(load_marks(folder / "autograded" / profile.id / LAB.folder / "marks.json").points)
        for profile in PROFILES
    }


def test_each_profile_ends_as_it_should(demo):
    """Right gets all, blank none, tricks what a wrong answer gets, each slip is named to who made it."""
    got = points(demo)
    assert got["ada"] == got["ben"] == got["egon"] == 20
    assert got["bea"] == 0
    assert got["cyril"] < 10
    assert got["gil"] == got["hedy"] == got["fritzi"] == 17
    assert got["arno"] < 20
    assert got["dunja"] == 18
    for profile in PROFILES:
        marks = load_marks(demo / "autograded" / profile.id / LAB.folder / "marks.json")
        if profile.slip is not None:
            assert profile.slip in {m.misconception for m in marks.marks}, profile.about
            page = (demo / "feedback" / profile.id / LAB.folder / "lab.html").read_text(encoding="utf-8")
            sentence = next(m.sentence for m in LAB.misconceptions if m.key == profile.slip)
            assert sentence in html.unescape(page)


def test_the_one_with_the_live_circuit_has_the_hazard_on_the_sheet(demo):
    """Ohms on a live circuit is written on the job sheet and costs its point."""
    sheet = (demo / "submitted" / "zoe" / LAB.folder / "job_sheet.jsonl").read_text(encoding="utf-8")
    assert "OHMS_ON_LIVE" in sheet
    marks = load_marks(demo / "autograded" / "zoe" / LAB.folder / "marks.json")
    assert next(m.points for m in marks.marks if m.name == "no_hazard") == 0


def test_stock_nbgrader_gives_the_same_marks(demo, tmp_path):
    """`nbgrader autograde`, `generate_feedback` and `export` on the same hand-ins: the same score in every cell."""
    stock = tmp_path / "stock"
    shutil.copytree(demo, stock)
    shutil.rmtree(stock / "autograded")
    shutil.rmtree(stock / "feedback")
    with sqlite3.connect(stock / "gradebook.db") as database:
        database.execute("update grade set auto_score = null, needs_manual_grade = 1")
    assert grades(stock) != grades(demo)
    here = str(Path(sys.executable).parent)
    env = {**os.environ, "PATH": os.pathsep.join((here, os.environ["PATH"])), "HOME": str(tmp_path)}
    for command in (["autograde", LAB.folder], ["generate_feedback", LAB.folder], ["export"]):
        done = subprocess.run([f"{here}/nbgrader", *command], cwd=stock, env=env, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr[-2000:]
    assert grades(stock) == grades(demo)
    assert len(grades(stock)) == len(PROFILES) * len(LAB.questions)
    exported = (stock / "grades.csv").read_text(encoding="utf-8")
    totals = {line.split(",")[3]: float(line.split(",")[9]) for line in exported.splitlines()[1:]}
    assert totals == {learner: float(score) for learner, score in points(demo).items()}
    for profile in PROFILES:
        page = Path("feedback", profile.id, LAB.folder, "lab.html")
        assert (stock / page).read_text(encoding="utf-8") == (demo / page).read_text(encoding="utf-8")


def test_without_a_sandbox_only_code_waits(tmp_path, monkeypatch, capsys):
    """No sandbox: the three with code wait for a person, everyone else is marked, and how to get one is said."""
    monkeypatch.setattr(sandbox, "find_sandbox", lambda: None)
    assert run_demo(ROOT, tmp_path / "class", as_json=True) == 0
    told = capsys.readouterr()
    learners = {row["learner"]: row for row in json.loads(told.out)["learners"]}
    waiting = {learner for learner, row in learners.items() if row["outcome"] == "needs a person's look"}
    assert waiting == {profile.id for profile in PROFILES if profile.needs_running}
    assert len(learners) == len(PROFILES)
    assert "bubblewrap" in told.err or sys.platform != "linux"
    assert "--trusted" in told.err
    page = (tmp_path / "class" / "feedback" / "egon" / LAB.folder / "lab.html").read_text(encoding="utf-8")
    assert "--trusted" not in page


def test_a_folder_that_is_no_demo_is_left_alone(tmp_path):
    """The demo never deletes a folder that it did not make."""
    (tmp_path / "mine.txt").write_text("work")
    with pytest.raises(CourseError, match="is not empty and holds no demo class; give another folder with --into"):
        run_demo(ROOT, tmp_path)
    assert (tmp_path / "mine.txt").read_text() == "work"


def test_an_instructors_four_commands(tmp_path, capsys):
    """new-class, hand-out, take-in and mark: a class of two, one of them with a hand-in that is no notebook."""
    roster = tmp_path / "learners.csv"
    roster.write_text("id,first_name,last_name\nkim,Kim,Brook\nlou,Lou,Stern\nmax,Max,Lund\n", encoding="utf-8")
    folder = str(tmp_path / "class")
    assert main(["new-class", folder, "--roster", str(roster)]) == 0
    assert main(["hand-out", folder, "winding_checks"]) == 0
    hand_ins = tmp_path / "hand_ins"
    shutil.copytree(Path(folder, "handed_out", "kim", LAB.folder), hand_ins / "kim")
    (hand_ins / "lou").mkdir()
    (hand_ins / "lou" / "lab.ipynb").write_text("not a notebook")
    assert main(["take-in", folder, "winding_checks", str(hand_ins)]) == 1
    capsys.readouterr()
    assert main(["mark", folder, "winding_checks", "--json"]) == 0
    rows = {row["learner"]: row for row in json.loads(capsys.readouterr().out)["learners"]}
    assert rows["kim"]["points"] == 0
    assert "not taken in" in rows["lou"]["sentence"]
    assert rows["max"]["points"] is None
    assert Path(folder, "marks.csv").exists()


@pytest.fixture(scope="module")
def small_class(tmp_path_factory) -> Path:
    """A class of two to whom the lab was handed out; kim handed in an altered ticket, lou nothing."""
    root = tmp_path_factory.mktemp("two")
    (root / "roster.csv").write_text("id,first_name,last_name\nkim,Kim,Brook\nlou,Lou,Stern\n", encoding="utf-8")
    folder = root / "class"
    assert main(["new-class", str(folder), "--roster", str(root / "roster.csv")]) == 0
    assert main(["hand-out", str(folder), LAB.name]) == 0
    shutil.copytree(folder / "handed_out" / "kim" / LAB.folder, root / "hand_ins" / "kim")
    ticket = root / "hand_ins" / "kim" / "ticket.json"
    ticket.write_text(ticket.read_text().replace('"attempt": 1', '"attempt": 2'))
    main(["take-in", str(folder), LAB.name, str(root / "hand_ins")])
    return folder


def told(capsys, *words: object) -> str:
    """What is said by a command that cannot be done."""
    capsys.readouterr()
    assert main([str(word) for word in words]) == 2
    return capsys.readouterr().err


def test_marks_set_by_a_person_reach_every_table(small_class, tmp_path, capsys):
    """A refused hand-in has no points until a person gives some; then table, CSV, JSON and page say so, twice over."""
    folder = tmp_path / "class"
    shutil.copytree(small_class, folder)

    def kim() -> dict:
        capsys.readouterr()
        assert main(["mark", str(folder), LAB.name, "--json"]) == 0
        return json.loads(capsys.readouterr().out)["learners"][0]

    before = kim()
    assert (before["points"], before["final"], before["outcome"]) == (None, False, "refused")
    page = Path(before["feedback"])
    assert "Not marked yet: – / 20 marks" in page.read_text(encoding="utf-8")
    with sqlite3.connect(folder / "gradebook.db") as database:
        database.execute("update grade set manual_score = 1.5, needs_manual_grade = 0")
    for _ in range(2):
        after = kim()
        assert (after["points"], after["final"]) == (1.5 * len(LAB.questions), True)
        assert after["outcome"] == "marked by a person"
    text = page.read_text(encoding="utf-8")
    assert "Your instructor set the marks" in text
    assert "Not marked yet" not in text
    assert "was not marked" not in text
    total = f"{1.5 * len(LAB.questions):g}"
    with (folder / "marks.csv").open(encoding="utf-8-sig", newline="") as file:
        assert [(row["points"], row["final"]) for row in csv.DictReader(file)] == [(total, "yes"), ("", "no")]
    assert main(["mark", str(folder), LAB.name]) == 0
    assert "marked by a person" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("content", "message"),
    [
        ("id,first_name\nada,Zoë\n".encode("latin-1"), "cannot be read; save it as CSV in UTF-8"),
        ("id,first_name\nada,Zoë\n".encode("utf-16"), "cannot be read; save it as CSV in UTF-8"),
        (b"first_name,id\nAda\n", "line 2: learner id '': use letters"),
        (b"id\n" + b"a" * 200_000, "cannot be read; save it as CSV in UTF-8"),
        (b"id;first_name\nada;Ada\n", "save it with commas"),
        (b"id\nada\nADA\n", "learner 'ada' stands in it more than once"),
        (b"id\n", "names nobody; write one line for each learner"),
    ],
)
def test_a_bad_roster_makes_no_class(tmp_path, capsys, content, message):
    """Each slip in a roster is one line with what to do, and nothing is made."""
    (tmp_path / "roster.csv").write_bytes(content)
    assert message in told(capsys, "new-class", tmp_path / "class", "--roster", tmp_path / "roster.csv")
    assert not (tmp_path / "class").exists()


def test_a_class_is_made_in_a_free_place_only(tmp_path, capsys):
    """A class that is there, another folder with things in it and a file are left alone; one learner is one."""
    roster = tmp_path / "roster.csv"
    roster.write_text("id\nada\n", encoding="utf-8")
    assert main(["new-class", str(tmp_path / "class"), "--roster", str(roster)]) == 0
    assert ": 1 learner. Keep" in capsys.readouterr().out
    assert main(["hand-out", str(tmp_path / "class"), LAB.name]) == 0
    assert capsys.readouterr().out.startswith("1 folder in ")
    roster.write_text("id\nben\n", encoding="utf-8")
    kept = (tmp_path / "class" / "learners.csv").read_bytes()
    said = told(capsys, "new-class", tmp_path / "class", "--roster", roster)
    assert "is a class already. To add learners, add a line for each to learners.csv" in said
    assert (tmp_path / "class" / "learners.csv").read_bytes() == kept
    said = told(capsys, "new-class", tmp_path, "--roster", roster)
    assert "is not empty and is no class; choose another folder" in said
    for place in (roster, roster / "class"):
        said = told(capsys, "new-class", place, "--roster", roster)
        assert "cannot be made: a file stands in the way. Choose another folder" in said
    assert roster.read_text() == "id\nben\n"


def test_the_demo_does_not_write_where_a_file_is(tmp_path, capsys):
    """A file in place of the demo's folder, or above it, is said and kept."""
    file = tmp_path / "file"
    file.write_text("mine")
    assert "is a file; give a folder with --into" in told(capsys, "demo", "--into", file)
    assert "give another folder with --into" in told(capsys, "demo", "--into", file / "class")
    assert file.read_text() == "mine"


@pytest.mark.parametrize(
    ("name", "content", "message"),
    [
        ("gradebook.db", b"no database " * 100, "If the file is damaged, put it back from a backup"),
        ("nbgrader_config.py", b"c = get_config(\n", "nbgrader_config.py cannot be run (SyntaxError"),
        ("nbgrader_config.py", b"1 / 0\n", "nbgrader_config.py cannot be run (ZeroDivisionError"),
        ("not_taken_in.json", b"{", "not_taken_in.json is damaged; delete it and take the hand-ins in again"),
        ("not_taken_in.json", b"[1]", "not_taken_in.json is damaged; delete it and take the hand-ins in again"),
        ("not_taken_in.json", b"\xff", "not_taken_in.json is damaged; delete it and take the hand-ins in again"),
    ],
)
def test_a_damaged_file_of_a_class_is_named(small_class, tmp_path, capsys, name, content, message):
    """`mark` says in one line which file is damaged and what to do."""
    folder = tmp_path / "class"
    shutil.copytree(small_class, folder)
    (folder / name).write_bytes(content)
    said = told(capsys, "mark", folder, LAB.name)
    assert message in said
    assert str(folder / name) in said
    assert len(said.splitlines()) == 1


def test_a_slip_in_take_in_is_told_in_plain_words(small_class, tmp_path, capsys):
    """A missing folder of hand-ins and an unknown lab."""
    said = told(capsys, "take-in", small_class, LAB.name, tmp_path / "gone")
    assert "there is no folder" in said
    assert "No such file" not in said
    assert "there is no lab 'wind'; the labs are: safe_isolation" in told(capsys, "mark", small_class, "wind")


def test_bad_words_are_told_and_no_traceback_is_shown(tmp_path, capsys):
    """A folder that is no class, and a lab that does not exist, each give one line and exit code 2."""
    assert main(["mark", str(tmp_path), "winding_checks"]) == 2
    assert "is no class folder" in capsys.readouterr().err
    with pytest.raises(SystemExit) as stopped:
        main(["no-such-command"])
    assert stopped.value.code == 2
