"""A class's folder: its roster, secret and settings, and what is said of each when it is wrong."""

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import CourseError
from coldwright.labs.class_folder import SETTINGS, ClassFolder, Learner, make_class, open_class, read_roster

LEARNERS = (Learner("ada", "Ada", "Ampère"), Learner("ben-2", "Ben, Jr.", 'O\'Hm "quoted"'))


def made(root: Path, learners: tuple[Learner, ...] = LEARNERS, course: str = "cold 26") -> ClassFolder:
    """A class folder in a new place."""
    return make_class(root / "class", course, root / "keys", learners)


def with_roster(root: Path, text: str | bytes) -> ClassFolder:
    """A class folder whose roster someone wrote by hand."""
    folder = made(root)
    folder.learners_file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return folder


def test_a_class_is_opened_as_it_was_made(tmp_path):
    """Course, keys and roster come back, in order, names with commas and quotes included."""
    folder = made(tmp_path)
    again = open_class(folder.root)
    assert again == folder
    assert again.learners() == LEARNERS
    assert again.secret == folder.secret


@given(
    st.text(
        st.characters(blacklist_categories=("Cs", "Cc")) | st.sampled_from("\"\\'\t=€🙂\u202e"), min_size=1, max_size=40
    ),
    st.text(st.characters(blacklist_categories=("Cs", "Cc")), max_size=40),
)
def test_any_course_name_and_learner_name_survives(tmp_path_factory, course, name):
    """Quotes, backslashes, emoji and right-to-left marks in names are read back equal."""
    folder = made(tmp_path_factory.mktemp("any"), (Learner("ada", name, name),), course)
    again = open_class(folder.root)
    assert again.course == course
    assert again.learners() == (Learner("ada", name, name),)


def test_the_secret_stays_when_a_class_is_made_again(tmp_path):
    """A second call renews the roster and keeps the secret, so that tickets stay good."""
    first = made(tmp_path).secret
    again = made(tmp_path, (Learner("new"),))
    assert again.secret == first
    assert [each.id for each in again.learners()] == ["new"]
    assert len(first) == 32


@pytest.mark.skipif(sys.platform == "win32", reason="file modes are not those of Windows")
def test_the_secret_is_for_its_owner_only(tmp_path):
    """Nobody else on the machine can read the secret."""
    mode = stat.S_IMODE(os.stat(made(tmp_path).secret_file).st_mode)
    assert mode == 0o600


def test_a_secret_that_is_gone_or_broken(tmp_path):
    """Without its secret a class cannot check tickets: the message says so and where to get it."""
    folder = made(tmp_path)
    folder.secret_file.write_text("not hex", encoding="ascii")
    with pytest.raises(
        CourseError, match=r"class_secret cannot be read; without it tickets cannot be checked\. Put the"
    ):
        _ = folder.secret
    folder.secret_file.unlink()
    with pytest.raises(CourseError, match="class_secret cannot be read"):
        _ = folder.secret


@pytest.mark.parametrize("good", ["ada", "A1", "a.b", "a-b_c", "7", "a" * 64])
def test_ids_that_name_a_folder(good):
    """Letters, digits, - _ and a dot within are fine."""
    assert Learner(good).id == good


@pytest.mark.parametrize(
    "bad", ["", " ", ".", "..", ".a", "-a", "a.", "a/b", "a\\b", "a b", "a\n", "é", "a" * 65, "a:b", "~a", "a\0", "=a"]
)
def test_ids_that_name_no_folder(bad):
    """Whatever could leave the folder, hide in it or not be a folder's name is refused, shown with its marks."""
    with pytest.raises(CourseError, match=r"^learner id '.*': use letters, digits, - and _ only, 64 at most"):
        Learner(bad)


def test_a_roster_from_a_spreadsheet(tmp_path):
    """A byte order mark, Windows line ends, blanks round an id, an empty line and missing names are no trouble."""
    folder = with_roster(tmp_path, "\ufeffid,first_name\r\n ada ,Ada\r\n\r\nben\r\n")
    assert folder.learners() == (Learner("ada", "Ada", ""), Learner("ben", "", ""))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("name\nada\n", r"learners\.csv: the first line must name the columns id,first_name,last_name$"),
        (
            "id;first_name\nada;Ada\n",
            r"id,first_name,last_name; save it with commas between the columns, not semicolons$",
        ),
        (
            "id\nada\nben\nada\n",
            r"learners\.csv: learner 'ada' stands in it more than once; each needs an id of their own$",
        ),
        ("id\nada\nADA\n", r"learners\.csv: learner 'ada' stands in it more than once; each needs an id of their own$"),
        ("id\n../eve\n", r"learners\.csv, line 2: learner id '\.\./eve': use letters"),
        ("first_name,id\nAda\n", r"learners\.csv, line 2: learner id '': use letters"),
        ("", r"learners\.csv: the first line must name the columns id,first_name,last_name$"),
        ("id,first_name\nada,Zoë\n".encode("utf-16"), r"learners\.csv cannot be read; save it as CSV in UTF-8$"),
        ("id,first_name\nada,Ada\n".encode("utf-16-le"), r"learners\.csv cannot be read; save it as CSV in UTF-8$"),
        (b"id,first_name\nada,Andr\xe9\n", r"learners\.csv cannot be read; save it as CSV in UTF-8$"),
        ("id\n" + "a" * 200_000 + "\n", r"learners\.csv cannot be read; save it as CSV in UTF-8$"),
    ],
)
def test_a_roster_that_cannot_be(tmp_path, text, message):
    """Each thing that can be wrong in a roster has its own message; two ids that differ in case only are one folder."""
    with pytest.raises(CourseError, match=message):
        with_roster(tmp_path, text).learners()


def test_a_place_where_no_class_can_be_made(tmp_path):
    """A file in the way is said in plain words, whether it is the folder itself or one above it."""
    (tmp_path / "file").write_text("mine")
    for place in (tmp_path / "file", tmp_path / "file" / "class"):
        with pytest.raises(CourseError, match=r"cannot be made: a file stands in the way\. Choose another folder$"):
            make_class(place, "c", tmp_path, LEARNERS)
    assert (tmp_path / "file").read_text() == "mine"


def test_settings_and_roster_are_written_whole(tmp_path, monkeypatch):
    """Where the disk is full, the roster and the settings that stood there still stand."""
    folder = made(tmp_path)

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CourseError, match=r"cannot be made: no space left on device"):
        made(tmp_path, (Learner("new"),), "other")
    again = open_class(folder.root)
    assert (again.course, again.learners()) == (folder.course, LEARNERS)


def test_no_roster(tmp_path):
    """A roster that is not there is named, and so is a folder in its place."""
    with pytest.raises(CourseError, match=r"^the roster .* cannot be read: it is a folder$"):
        read_roster(tmp_path)
    folder = made(tmp_path)
    folder.learners_file.unlink()
    with pytest.raises(CourseError, match=r"^there is no roster .*learners\.csv$"):
        folder.learners()


def test_a_roster_of_nobody(tmp_path):
    """A class without learners yet is a class."""
    assert made(tmp_path, ()).learners() == ()


def test_a_folder_that_is_no_class(tmp_path):
    """Any other folder, or a file, is told by what it lacks; broken settings by what they must give."""
    (tmp_path / "file").write_text("")
    with pytest.raises(CourseError, match=rf"file is no class folder: it has no {SETTINGS}$"):
        open_class(tmp_path / "file")
    with pytest.raises(CourseError, match=rf"is no class folder: it has no {SETTINGS}$"):
        open_class(tmp_path)
    for broken in (b"course = ", b"course = 'x'\n", b"\xff\xfe"):
        (tmp_path / SETTINGS).write_bytes(broken)
        with pytest.raises(CourseError, match=rf"{SETTINGS} cannot be read; it must give course and keys$"):
            open_class(tmp_path)


def test_where_things_lie(tmp_path):
    """The folder's parts have nbgrader's names and order: step, learner, lab."""
    folder = made(tmp_path)
    assert (
        folder.part("submitted", "ada", "03_winding_checks") == folder.root / "submitted" / "ada" / "03_winding_checks"
    )
    assert folder.part("source", lab_folder="03_winding_checks") == folder.root / "source" / "03_winding_checks"
    assert folder.gradebook_file.name == "gradebook.db"
