"""Handing a lab out: one folder for each learner, with the notebook and their own ticket."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from coldwright.errors import CourseError
from coldwright.labs.class_folder import NOTEBOOK, SHEET_NAME, ClassFolder
from coldwright.labs.files import digest, file_digest, write_whole
from coldwright.labs.question import Lab
from coldwright.labs.ticket import FILE_NAME, Ticket, issue_ticket

NOTEBOOK_FILE = f"{NOTEBOOK}.ipynb"
RECORD = "handed_out.csv"
COLUMNS = ["learner", "lab", "attempt"]
DIGESTS = "notebooks_given.json"
BEFORE = "handed_out_before"

Say = Callable[[str], None]
Release = Callable[[ClassFolder, Lab], object]


def hand_out(
    class_folder: ClassFolder,
    lab: Lab,
    course_dir: Path,
    release: Release,
    learners: Iterable[str] | None = None,
    attempts: Mapping[str, int] | None = None,
    progress: Say | None = None,
) -> list[Path]:
    """Folders that the learners get, made or brought up to date; a run that is repeated changes nothing.

    Work in a folder (a job sheet, a changed notebook) is never written over. A new attempt gives a new ticket, and so a
    new unit; the folder of the attempt before is set aside.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    course_dir : Path
        The course as built [-]
    release : callable
        Makes nbgrader's release from its source, in place of an older one; called only where there is none for this
        notebook yet [-]
    learners : iterable of str, optional
        Ids of those who get it; everyone on the roster if left out [-]
    attempts : mapping of str to int, optional
        Number of the attempt by learner's id; the one they are at, at first 1, if left out [-]
    progress : callable, optional
        Is told what was done, one line for each learner [-]

    Raises
    ------
    CourseError
        If a learner is not on the roster, an attempt is already over, or the lab is not built.
    """
    say = progress or (lambda _: None)
    wanted = _wanted(class_folder, learners, attempts or {})
    record = _Record.read(class_folder)
    tickets = [_ticket(class_folder, lab, each, (attempts or {}).get(each), record) for each in wanted]
    notebook = _released(class_folder, lab, course_dir, release, record)
    folders = []
    for ticket in tickets:
        folder = class_folder.part("handed_out", ticket.learner, lab.folder)
        say(f"{ticket.learner}: {_give(class_folder, lab, folder, ticket, notebook, record)}")
        folders.append(folder)
    return folders


@dataclass
class _Record:
    """What was handed out so far: learner, lab and attempt, oldest first; digests of what was given and released."""

    root: Path
    rows: list[tuple[str, str, int]] = field(default_factory=list)
    given: dict[str, str] = field(default_factory=dict)
    released: dict[str, str] = field(default_factory=dict)

    @classmethod
    def read(cls, class_folder: ClassFolder) -> _Record:
        found = cls(class_folder.root)
        table, digests = found.root / RECORD, found.root / DIGESTS
        try:
            if table.exists():
                with table.open(encoding="utf-8", newline="") as file:
                    for row in csv.DictReader(file):
                        found.rows.append((row["learner"], row["lab"], int(row["attempt"])))
            if digests.exists():
                known = json.loads(digests.read_text(encoding="utf-8"))
                found.given, found.released = dict(known["given"]), dict(known["released"])
        except (ValueError, KeyError, TypeError):
            raise CourseError(f"{table} or {digests} is damaged; put both back from a backup") from None
        return found

    def last_attempt(self, learner: str, lab_folder: str) -> int | None:
        return next((number for who, which, number in self.rows[::-1] if (who, which) == (learner, lab_folder)), None)

    def add_attempt(self, learner: str, lab_folder: str, attempt: int) -> None:
        if self.last_attempt(learner, lab_folder) != attempt:
            self.rows.append((learner, lab_folder, attempt))
            lines = [COLUMNS, *([who, which, str(number)] for who, which, number in self.rows)]
            write_whole(self.root / RECORD, "".join(",".join(line) + "\n" for line in lines).encode())

    def save_digests(self) -> None:
        known = {"given": self.given, "released": self.released}
        write_whole(self.root / DIGESTS, (json.dumps(known, indent=1, sort_keys=True) + "\n").encode())


def _wanted(class_folder: ClassFolder, learners: Iterable[str] | None, attempts: Mapping[str, int]) -> list[str]:
    roster = [learner.id for learner in class_folder.learners()]
    wanted = roster if learners is None else list(dict.fromkeys(learners))
    for each in (*wanted, *attempts):
        if each not in roster:
            raise CourseError(f"learner {each!r} is not on the roster {class_folder.learners_file}")
    return wanted


def _ticket(class_folder: ClassFolder, lab: Lab, learner: str, attempt: int | None, record: _Record) -> Ticket:
    last = record.last_attempt(learner, lab.folder)
    if attempt is not None and last is not None and attempt < last:
        raise CourseError(f"attempt of {learner!r} is {attempt}, but attempt {last} is out already; give a later one")
    number = (last or 1) if attempt is None else attempt
    return issue_ticket(class_folder.secret, class_folder.course, lab.name, learner, number)


def _released(class_folder: ClassFolder, lab: Lab, course_dir: Path, release: Release, record: _Record) -> bytes:
    try:
        built = (course_dir / lab.folder / NOTEBOOK_FILE).read_bytes()
    except OSError:
        raise CourseError(f"lab {lab.folder} is not built in {course_dir}; run the command `build` first") from None
    target = class_folder.part("release", ".", lab.folder) / NOTEBOOK_FILE
    if record.released.get(lab.folder) != digest(built) or not target.exists():
        write_whole(class_folder.part("source", ".", lab.folder) / NOTEBOOK_FILE, built)
        release(class_folder, lab)
        if not target.exists():
            raise CourseError(f"nbgrader made no release of {lab.folder}: {target} is missing")
        record.released[lab.folder] = digest(built)
        record.save_digests()
    return target.read_bytes()


def _give(class_folder: ClassFolder, lab: Lab, folder: Path, ticket: Ticket, notebook: bytes, record: _Record) -> str:
    """What was done with one learner's folder, in words."""
    name, attempt = f"{ticket.learner}/{lab.folder}", ticket.attempt
    last = record.last_attempt(ticket.learner, lab.folder) or attempt
    ticket_file, text = folder / FILE_NAME, ticket.text().encode()
    same_ticket = file_digest(ticket_file) == digest(text)
    done = "handed out"
    if folder.exists() and last != attempt and not same_ticket:
        aside = _set_aside(class_folder, ticket.learner, lab, last)
        done = f"attempt {attempt} handed out; the folder of attempt {last} is now {aside}"
    elif _has_work(folder, notebook, record.given.get(name)):
        if not ticket_file.exists():
            write_whole(ticket_file, text)
        record.add_attempt(ticket.learner, lab.folder, attempt)
        return "there is work in the folder; it was left as it is"
    elif same_ticket and file_digest(folder / NOTEBOOK_FILE) == digest(notebook):
        done = "has it already"
    if done != "has it already":
        write_whole(folder / NOTEBOOK_FILE, notebook)
        write_whole(ticket_file, text)
    if record.given.get(name) != digest(notebook):
        record.given[name] = digest(notebook)
        record.save_digests()
    record.add_attempt(ticket.learner, lab.folder, attempt)
    return done


def _has_work(folder: Path, notebook: bytes, given: str | None) -> bool:
    now = file_digest(folder / NOTEBOOK_FILE)
    return (folder / SHEET_NAME).exists() or now not in (None, given, digest(notebook))


def _set_aside(class_folder: ClassFolder, learner: str, lab: Lab, attempt: int) -> Path:
    place = class_folder.part(BEFORE, learner, lab.folder)
    place.mkdir(parents=True, exist_ok=True)
    number = 1
    while (target := place / f"attempt_{attempt}{f'_{number}' if number > 1 else ''}").exists():
        number += 1
    class_folder.part("handed_out", learner, lab.folder).rename(target)
    return target.relative_to(class_folder.root)
