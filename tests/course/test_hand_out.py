"""Handing out: each learner's folder, work that is never lost, attempts, and runs that change nothing."""

import csv
from pathlib import Path

import pytest

from coldwright.course.build import build
from coldwright.course.hand_out import hand_out
from coldwright.errors import CourseError
from coldwright.labs.class_folder import SHEET_NAME, ClassFolder, Learner, make_class
from coldwright.labs.question import Lab
from coldwright.labs.ticket import check_ticket, read_ticket
from tests.course.small_course import LAB, LESSON, lab_script, write_sources


class Class:
    """A class of two with the small course; its releases are plain copies, counted."""

    def __init__(self, root: Path) -> None:
        self.sources, self.course = root / "sources", root / "course"
        self.folder = make_class(root / "class", "small", root, (Learner("ana"), Learner("ben")))
        self.releases = 0
        self.said: list[str] = []
        self.rebuild()

    def rebuild(self, lab_text: str | None = None) -> None:
        """Build the course, from another lab script if one is given."""
        build(write_sources(self.sources, LESSON, lab_text), self.course)

    def release(self, folder: ClassFolder, lab: Lab) -> None:
        """Stands for nbgrader's release: the source with one mark more, so that the two can be told apart."""
        self.releases += 1
        target = folder.part("release", ".", lab.folder)
        target.mkdir(parents=True, exist_ok=True)
        text = (folder.part("source", ".", lab.folder) / "lab.ipynb").read_text(encoding="utf-8")
        (target / "lab.ipynb").write_text(text + "\n", encoding="utf-8")

    def hand_out(self, *learners: str, **attempts: int) -> list[Path]:
        """Hand out to those named, or to all."""
        self.said.clear()
        who = learners or None
        return hand_out(self.folder, LAB, self.course, self.release, who, attempts, self.said.append)

    def place(self, learner: str) -> Path:
        """A learner's folder."""
        return self.folder.part("handed_out", learner, LAB.folder)

    def rows(self) -> list[list[str]]:
        """The record of what was handed out, without its first line."""
        with (self.folder.root / "handed_out.csv").open(encoding="utf-8", newline="") as file:
            head, *rows = csv.reader(file)
        assert head == ["learner", "lab", "attempt"]
        return rows


@pytest.fixture
def small_class(tmp_path: Path) -> Class:
    """A class of two, nothing handed out yet."""
    return Class(tmp_path)


def state(root: Path) -> dict[str, tuple[bytes, int]]:
    """Every file under a folder with what it holds and when it was written."""
    return {str(p.relative_to(root)): (p.read_bytes(), p.stat().st_mtime_ns) for p in root.rglob("*") if p.is_file()}


def test_each_learner_gets_the_release_and_a_ticket_of_their_own(small_class: Class) -> None:
    """The notebook is the released one, the ticket is genuine and the learner's, no two units are the same."""
    folders = small_class.hand_out()

    assert folders == [small_class.place("ana"), small_class.place("ben")]
    release = small_class.folder.part("release", ".", LAB.folder) / "lab.ipynb"
    for learner in ("ana", "ben"):
        assert (small_class.place(learner) / "lab.ipynb").read_bytes() == release.read_bytes()
        ticket = read_ticket(small_class.place(learner) / "ticket.json")
        check_ticket(small_class.folder.secret, ticket, "small", LAB.name, learner)
    seeds = {read_ticket(folder / "ticket.json").seed for folder in folders}
    assert len(seeds) == 2
    assert small_class.rows() == [["ana", LAB.folder, "1"], ["ben", LAB.folder, "1"]]
    assert small_class.said == ["ana: handed out", "ben: handed out"]


def test_a_run_that_is_repeated_changes_nothing(small_class: Class) -> None:
    """Handing out again writes no file and makes no release."""
    small_class.hand_out()
    before = state(small_class.folder.root)

    small_class.hand_out()

    assert state(small_class.folder.root) == before
    assert small_class.releases == 1
    assert small_class.said == ["ana: has it already", "ben: has it already"]


@pytest.mark.parametrize("work", ["notebook", "sheet"])
def test_work_is_left_alone_also_when_the_lab_changes(small_class: Class, work: str) -> None:
    """A changed notebook or a job sheet stays as it is while the attempt is the same; the others get the new lab."""
    small_class.hand_out()
    place = small_class.place("ana")
    if work == "notebook":
        (place / "lab.ipynb").write_text("my answers", encoding="utf-8")
    else:
        (place / SHEET_NAME).write_text("a reading\n", encoding="utf-8")
    before = state(place)
    small_class.rebuild(lab_script().replace("the lab", "the lab, second edition"))

    small_class.hand_out()

    assert state(place) == before
    assert "second edition" in (small_class.place("ben") / "lab.ipynb").read_text(encoding="utf-8")
    assert small_class.said == ["ana: there is work in the folder; it was left as it is", "ben: handed out"]
    assert small_class.releases == 2


def test_a_lost_ticket_is_put_back_beside_work(small_class: Class) -> None:
    """A learner who lost the ticket gets the same one again, and keeps their notebook."""
    small_class.hand_out()
    place = small_class.place("ana")
    ticket = (place / "ticket.json").read_bytes()
    (place / "ticket.json").unlink()
    (place / "lab.ipynb").write_text("my answers", encoding="utf-8")

    small_class.hand_out("ana")

    assert (place / "ticket.json").read_bytes() == ticket
    assert (place / "lab.ipynb").read_text(encoding="utf-8") == "my answers"


def test_a_new_attempt_gives_a_new_unit_and_sets_the_old_work_aside(small_class: Class) -> None:
    """With attempt 2 the ticket draws another unit, the work of attempt 1 is whole elsewhere, others keep theirs."""
    small_class.hand_out()
    first = read_ticket(small_class.place("ana") / "ticket.json")
    (small_class.place("ana") / SHEET_NAME).write_text("a reading\n", encoding="utf-8")

    small_class.hand_out(ana=2)

    second = read_ticket(small_class.place("ana") / "ticket.json")
    assert (second.attempt, second.seed != first.seed) == (2, True)
    assert not (small_class.place("ana") / SHEET_NAME).exists()
    aside = small_class.folder.root / "handed_out_before" / "ana" / LAB.folder / "attempt_1"
    assert sorted(path.name for path in aside.iterdir()) == [SHEET_NAME, "lab.ipynb", "ticket.json"]
    assert small_class.rows()[-1] == ["ana", LAB.folder, "2"]
    assert small_class.said[0].startswith("ana: attempt 2 handed out; the folder of attempt 1 is now handed_out_before")
    assert small_class.said[1] == "ben: has it already"

    small_class.hand_out("ana")
    assert read_ticket(small_class.place("ana") / "ticket.json") == second


def test_a_run_that_was_cut_off_is_gone_on_with(small_class: Class) -> None:
    """Where the folder of attempt 2 was written but not its record, the next run completes the record alone."""
    small_class.hand_out()
    record = (small_class.folder.root / "handed_out.csv").read_bytes()
    small_class.hand_out(ana=2)
    (small_class.folder.root / "handed_out.csv").write_bytes(record)
    before = state(small_class.folder.root / "handed_out")

    small_class.hand_out(ana=2)

    assert state(small_class.folder.root / "handed_out") == before
    assert small_class.rows()[-1] == ["ana", LAB.folder, "2"]


def test_a_release_that_failed_is_made_again(small_class: Class) -> None:
    """A release that broke off does not count as made: nothing is handed out, and the next run makes it."""

    def broken(_folder: ClassFolder, _lab: Lab) -> None:
        raise CourseError("no release today")

    with pytest.raises(CourseError, match="no release today"):
        hand_out(small_class.folder, LAB, small_class.course, broken)
    assert not (small_class.folder.root / "handed_out").exists()

    small_class.hand_out()
    assert small_class.releases == 1


def test_what_cannot_be_handed_out_is_said(small_class: Class, tmp_path: Path) -> None:
    """An unknown learner, an attempt that is over, a lab that is not built, a release without a notebook."""
    small_class.hand_out(ana=3)

    with pytest.raises(CourseError, match="learner 'zoe' is not on the roster"):
        small_class.hand_out("zoe")
    with pytest.raises(CourseError, match="learner 'zoe' is not on the roster"):
        small_class.hand_out(zoe=2)
    with pytest.raises(CourseError, match="attempt of 'ana' is 2, but attempt 3 is out already; give a later one"):
        small_class.hand_out(ana=2)
    with pytest.raises(CourseError, match="lab 03_winding_checks is not built in"):
        hand_out(small_class.folder, LAB, tmp_path / "nowhere", small_class.release)
    other = make_class(tmp_path / "other", "small", tmp_path, (Learner("ana"),))
    with pytest.raises(CourseError, match="nbgrader made no release of 03_winding_checks"):
        hand_out(other, LAB, small_class.course, lambda _folder, _lab: None)
    (small_class.folder.root / "handed_out.csv").write_text("learner,lab,attempt\nana,03_winding_checks,two\n")
    with pytest.raises(CourseError, match=r"handed_out\.csv or .* is damaged; put both back from a backup"):
        small_class.hand_out()
