"""The learner's own copy: updates that never touch work, and a course folder that never changes."""

import errno
import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest

from coldwright.course import study
from coldwright.course.build import build
from coldwright.course.study import course_folder, own_copy
from coldwright.errors import CourseError
from coldwright.labs import files
from coldwright.labs.ticket import issue_ticket, practice_ticket, read_ticket
from tests.course.small_course import LAB, LESSON, write_sources

LESSON_FILE = f"{LAB.folder}/lesson.ipynb"
LAB_FILE = f"{LAB.folder}/lab.ipynb"
BESIDE = f"{LAB.folder}/lesson (new version).ipynb"


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """The small course, built."""
    build(write_sources(tmp_path / "sources"), tmp_path / "course")
    return tmp_path / "course"


def edition(course: Path, number: int) -> bytes:
    """Build another edition of the lesson; gives what its notebook holds."""
    build(write_sources(course.parent / "sources", LESSON + f"# %%\nedition = {number}\n"), course)
    return (course / LESSON_FILE).read_bytes()


def contents(folder: Path) -> dict[str, str]:
    """Digest of every file under a folder."""
    found = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in found}


def test_the_first_start_copies_every_notebook_and_the_start_page(course: Path, tmp_path: Path) -> None:
    """The copy holds the same bytes as the course, a practice ticket, the course's own record, and nothing else."""
    report = own_copy(course, tmp_path / "mine")

    mine = contents(tmp_path / "mine")
    given = contents(course)
    assert {name: mine[name] for name in given} == given
    assert set(mine) - set(given) == {f"{LAB.folder}/ticket.json", ".coldwright/handed_out.json"}
    assert report.lines[0] == f"Your copy of the course is in {tmp_path / 'mine'}"
    assert report.lines[1:] == [f"New: START.md, {LAB_FILE}, {LESSON_FILE}"]


def test_a_start_without_news_changes_nothing_and_says_little(course: Path, tmp_path: Path) -> None:
    """The second start leaves every file as it is and only says where the copy lies."""
    own_copy(course, tmp_path / "mine")
    before = contents(tmp_path / "mine")

    report = own_copy(course, tmp_path / "mine")

    assert contents(tmp_path / "mine") == before
    assert len(report.lines) == 1


def test_an_untouched_file_is_brought_up_to_date(course: Path, tmp_path: Path) -> None:
    """A lesson that the learner did not change is replaced by the new edition, and the next one too."""
    own_copy(course, tmp_path / "mine")
    for number in (2, 3):
        newest = edition(course, number)
        report = own_copy(course, tmp_path / "mine")
        assert (tmp_path / "mine" / LESSON_FILE).read_bytes() == newest
        assert report.lines[1:] == [f"Brought up to date: {LESSON_FILE}"]


def test_work_stays_and_the_new_version_is_put_beside_it_once(course: Path, tmp_path: Path) -> None:
    """A changed lesson is kept; the new edition stands beside it, and is not put back once the learner deletes it."""
    own_copy(course, tmp_path / "mine")
    (tmp_path / "mine" / LESSON_FILE).write_text("my notes", encoding="utf-8")
    newest = edition(course, 2)

    report = own_copy(course, tmp_path / "mine")

    assert (tmp_path / "mine" / LESSON_FILE).read_text(encoding="utf-8") == "my notes"
    assert (tmp_path / "mine" / BESIDE).read_bytes() == newest
    assert report.lines[1:] == [f"{LESSON_FILE} has your work in it and was left alone. The new version is {BESIDE}"]
    (tmp_path / "mine" / BESIDE).unlink()
    assert len(own_copy(course, tmp_path / "mine").lines) == 1
    assert not (tmp_path / "mine" / BESIDE).exists()


def test_a_new_version_that_the_learner_works_in_is_kept_too(course: Path, tmp_path: Path) -> None:
    """A third edition replaces the second beside the work, unless there is work in that one as well."""
    mine = tmp_path / "mine"
    own_copy(course, mine)
    (mine / LESSON_FILE).write_text("my notes", encoding="utf-8")
    edition(course, 2)
    own_copy(course, mine)
    third = edition(course, 3)
    own_copy(course, mine)
    assert (mine / BESIDE).read_bytes() == third

    (mine / BESIDE).write_text("more notes", encoding="utf-8")
    fourth = edition(course, 4)
    report = own_copy(course, mine)

    assert (mine / BESIDE).read_text(encoding="utf-8") == "more notes"
    assert (mine / LAB.folder / "lesson (new version 2).ipynb").read_bytes() == fourth
    assert report.lines[-1].endswith("lesson (new version 2).ipynb")


def test_a_deleted_file_is_put_back(course: Path, tmp_path: Path) -> None:
    """What the learner deleted comes back in its newest edition."""
    own_copy(course, tmp_path / "mine")
    (tmp_path / "mine" / LESSON_FILE).unlink()
    newest = edition(course, 2)

    report = own_copy(course, tmp_path / "mine")

    assert (tmp_path / "mine" / LESSON_FILE).read_bytes() == newest
    assert report.lines[1:] == [f"Was gone, and is back: {LESSON_FILE}"]


def test_nothing_a_learner_does_changes_the_course(course: Path, tmp_path: Path) -> None:
    """Whatever is written, deleted or added in the copy, the course's own files stay the same, byte for byte."""
    own_copy(course, tmp_path / "mine")
    before = contents(course)

    for path in [path for path in (tmp_path / "mine").rglob("*") if path.is_file()]:
        with path.open("ab") as file:
            file.write(b"scribble")
    (tmp_path / "mine" / "notes.txt").write_text("mine", encoding="utf-8")
    own_copy(course, tmp_path / "mine")
    shutil.rmtree(tmp_path / "mine" / LAB.folder)
    own_copy(course, tmp_path / "mine")

    assert contents(course) == before
    assert (tmp_path / "mine" / "notes.txt").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("spoilt", [b"", b"not json", b"[]", b'{"given": {}}', None])
def test_a_spoilt_record_costs_no_work(course: Path, tmp_path: Path, spoilt: bytes | None) -> None:
    """With its record spoilt or gone the copy takes what differs for work, and keeps it."""
    mine = tmp_path / "mine"
    own_copy(course, mine)
    (mine / LESSON_FILE).write_text("my notes", encoding="utf-8")
    record = mine / ".coldwright" / "handed_out.json"
    if spoilt is None:
        record.unlink()
    else:
        record.write_bytes(spoilt)

    own_copy(course, mine)

    assert (mine / LESSON_FILE).read_text(encoding="utf-8") == "my notes"
    assert (mine / BESIDE).read_bytes() == (course / LESSON_FILE).read_bytes()
    newest = edition(course, 2)
    own_copy(course, mine)
    assert (mine / BESIDE).read_bytes() == newest


@pytest.mark.parametrize("survives", range(6))
def test_an_update_cut_off_anywhere_is_made_good(
    course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, survives: int
) -> None:
    """Cut off before any of its writes, an update leaves whole files, and the next one ends as if nothing happened."""
    mine, smooth = tmp_path / "mine", tmp_path / "smooth"
    for folder in (mine, smooth):
        own_copy(course, folder)
        (folder / LAB_FILE).write_text("my answers", encoding="utf-8")
        (folder / LAB.folder / "ticket.json").unlink()
    text = (course.parent / "sources" / LAB.folder / "lab.py").read_text(encoding="utf-8")
    build(
        write_sources(course.parent / "sources", LESSON + "# %%\nx = 2\n", text.replace("the lab", "lab two")), course
    )
    left = [survives]

    def cut(source: Path, target: Path) -> None:
        if left[0] == 0:
            raise InterruptedError(errno.EINTR, "cut off")
        left[0] -= 1
        Path(source).rename(target)

    with monkeypatch.context() as patched:
        patched.setattr(files.os, "replace", cut)
        if survives < 4:  # the lesson, the lab beside the work, the ticket, the record
            with pytest.raises(CourseError, match="cannot be kept"):
                own_copy(course, mine)
        else:
            own_copy(course, mine)
    own_copy(course, mine)
    own_copy(course, smooth)

    unlike = {f"{LAB.folder}/ticket.json", ".coldwright/handed_out.json"}  # each copy has a practice unit of its own
    first, second = contents(mine), contents(smooth)
    assert set(first) == set(second)
    assert {k: v for k, v in first.items() if k not in unlike} == {k: v for k, v in second.items() if k not in unlike}
    records = [json.loads((folder / ".coldwright" / "handed_out.json").read_text()) for folder in (mine, smooth)]
    assert (records[0]["given"], records[0]["beside"]) == (records[1]["given"], records[1]["beside"])


def test_a_practice_ticket_stays_the_same(course: Path, tmp_path: Path) -> None:
    """A learner practises on one unit: the ticket comes back the same once deleted; two copies get two units."""
    for folder in ("mine", "other"):
        own_copy(course, tmp_path / folder)
    ticket_file = tmp_path / "mine" / LAB.folder / "ticket.json"
    ticket = read_ticket(ticket_file)
    number = json.loads((tmp_path / "mine" / ".coldwright" / "handed_out.json").read_text())["practice"][LAB.folder]

    ticket_file.unlink()
    own_copy(course, tmp_path / "mine")

    assert read_ticket(ticket_file) == ticket == practice_ticket(LAB.name, number)


def test_an_instructors_ticket_is_kept(course: Path, tmp_path: Path) -> None:
    """A ticket that an instructor gave is never replaced by one for practice."""
    own_copy(course, tmp_path / "mine")
    ticket_file = tmp_path / "mine" / LAB.folder / "ticket.json"
    given = issue_ticket(b"0123456789abcdef", "small", LAB.name, "ana").text()
    ticket_file.write_text(given, encoding="utf-8")

    own_copy(course, tmp_path / "mine")

    assert ticket_file.read_text(encoding="utf-8") == given


def test_a_place_that_cannot_hold_a_copy_is_refused(course: Path, tmp_path: Path) -> None:
    """A file, the course itself, a folder in it or around it, and a course that is not built: each is said."""
    (tmp_path / "file").write_text("x", encoding="utf-8")

    with pytest.raises(CourseError, match=r"file is a file; your copy of the course needs a folder"):
        own_copy(course, tmp_path / "file")
    for place in (course, course / "mine", course.parent):
        with pytest.raises(CourseError, match="holds the course's own files; choose another folder for your copy"):
            own_copy(course, place)
    with pytest.raises(CourseError, match=r"there is no built course in .*; run the command `build` first"):
        own_copy(tmp_path / "nothing", tmp_path / "mine")
    with pytest.raises(CourseError, match=r"your copy of the course cannot be kept in .*file/mine: Not a directory"):
        own_copy(course, tmp_path / "file" / "mine")


def test_a_full_disk_is_said(course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the disk is full the message says so, and no half-written file is left."""

    def full(_number: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(files.os, "fsync", full)

    with pytest.raises(CourseError, match=r"cannot be kept in .*mine: the disk is full"):
        own_copy(course, tmp_path / "mine")
    assert list((tmp_path / "mine").iterdir()) == []


def as_plain_user(call: Callable[[], object]) -> str:
    """What a call raised, run by a child process that is nobody in particular."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            if os.geteuid() == 0:
                os.setgroups([])
                os.setgid(65534)
                os.setuid(65534)
            call()
            os.write(writing, b"nothing")
        except BaseException as error:
            os.write(writing, f"{type(error).__name__}: {error}".encode())
        finally:
            os._exit(0)
    os.close(writing)
    os.waitpid(child, 0)
    with os.fdopen(reading, encoding="utf-8") as pipe:
        return pipe.read()


@pytest.mark.skipif(os.name != "posix", reason="rights of another kind")
def test_a_folder_without_the_right_to_write_is_said(tmp_path: Path) -> None:
    """A plain user without the right to write in the folder reads that, not a traceback."""
    with tempfile.TemporaryDirectory() as place:
        Path(place).chmod(0o755)
        course, locked = Path(place) / "course", Path(place) / "locked"
        build(write_sources(tmp_path / "sources"), course)
        locked.mkdir(mode=0o555)

        said = as_plain_user(lambda: own_copy(course, locked))

    assert said == f"CourseError: your copy of the course cannot be kept in {locked}: you may not write there"


def test_where_the_copy_lies(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """What the learner asks for comes first, then the setting, then a folder in the home folder."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    monkeypatch.delenv(study.FOLDER_SETTING, raising=False)
    assert course_folder() == tmp_path / "coldwright-course"
    assert course_folder("~/here") == tmp_path / "here"

    monkeypatch.setenv(study.FOLDER_SETTING, str(tmp_path / "set"))
    assert course_folder() == tmp_path / "set"
    assert course_folder(str(tmp_path / "asked")) == tmp_path / "asked"
    with pytest.raises(CourseError, match="your home folder cannot be found; name a folder with --folder"):
        course_folder("~nobody-of-that-name/course")
