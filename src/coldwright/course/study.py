"""The learner's own copy of the course: made, and brought up to date without touching their work."""

from __future__ import annotations

import errno
import json
import os
import secrets
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from coldwright.course.start_page import PAGE
from coldwright.errors import CourseError
from coldwright.labs.catalogue import all_labs
from coldwright.labs.class_folder import NOTEBOOK
from coldwright.labs.files import digest, file_digest, write_whole
from coldwright.labs.ticket import FILE_NAME, practice_ticket

FOLDER_NAME = "coldwright-course"
FOLDER_SETTING = "COLDWRIGHT_COURSE_FOLDER"
PRIVATE = ".coldwright"
RECORD = "handed_out.json"
PRACTICE_NUMBERS = 1_000_000


@dataclass
class UpdateReport:
    """What was done to a copy, by file name; `kept` also names the new version put beside."""

    folder: Path
    new: list[str] = field(default_factory=list)
    replaced: list[str] = field(default_factory=list)
    put_back: list[str] = field(default_factory=list)
    kept: list[tuple[str, str]] = field(default_factory=list)

    @property
    def lines(self) -> list[str]:
        """The report in words."""
        found = [f"Your copy of the course is in {self.folder}"]
        if self.new:
            found.append(f"New: {', '.join(self.new)}")
        if self.replaced:
            found.append(f"Brought up to date: {', '.join(self.replaced)}")
        if self.put_back:
            found.append(f"Was gone, and is back: {', '.join(self.put_back)}")
        found += [f"{name} has your work in it and was left alone. The new version is {new}" for name, new in self.kept]
        return found


@dataclass
class _Record:
    """Digests of each file as it was given and as it was last put beside; the number of each practice ticket."""

    given: dict[str, str] = field(default_factory=dict)
    beside: dict[str, str] = field(default_factory=dict)
    practice: dict[str, int] = field(default_factory=dict)


def course_folder(chosen: str | None = None) -> Path:
    """Where a learner's own copy lies.

    Parameters
    ----------
    chosen : str, optional
        What the learner asked for; else the setting COLDWRIGHT_COURSE_FOLDER, else a folder in the home folder [-]
    """
    named = chosen or os.environ.get(FOLDER_SETTING)
    try:
        return (Path(named).expanduser() if named else Path.home() / FOLDER_NAME).absolute()
    except RuntimeError:
        raise CourseError(
            f"your home folder cannot be found; name a folder with --folder or {FOLDER_SETTING}"
        ) from None


def own_copy(course_dir: Path, home_folder: Path) -> UpdateReport:
    """Make or update a learner's own copy; the report says what was done.

    A file that the learner left as it was given is replaced by a newer one. One that they changed stays, and the newer
    one is put beside it, once. One that they deleted is put back. Nothing else is touched.

    Parameters
    ----------
    course_dir : Path
        The course as built [-]
    home_folder : Path
        Where the copy lies [-]

    Raises
    ------
    CourseError
        If there is no course, or the copy cannot be written there.
    """
    folder, course = home_folder.absolute(), course_dir.resolve()
    if folder.resolve() == course or folder.resolve() in course.parents or course in folder.resolve().parents:
        raise CourseError(f"{folder} holds the course's own files; choose another folder for your copy")
    if folder.exists() and not folder.is_dir():
        raise CourseError(f"{folder} is a file; your copy of the course needs a folder. Name another with --folder")
    try:
        return _update(course, folder)
    except OSError as error:
        reason = {
            errno.ENOSPC: "the disk is full",
            errno.EACCES: "you may not write there",
            errno.EPERM: "you may not write there",
            errno.EROFS: "you may not write there",
        }.get(error.errno or 0, error.strerror or "it does not work")
        raise CourseError(f"your copy of the course cannot be kept in {folder}: {reason}") from None


def _update(course: Path, folder: Path) -> UpdateReport:
    record_file = folder / PRIVATE / RECORD
    record, report = _read_record(record_file), UpdateReport(folder)
    for source in _course_files(course):
        _update_file(folder, source.relative_to(course).as_posix(), source.read_bytes(), record, report)
    for lab in all_labs():
        if (folder / lab.folder / f"{NOTEBOOK}.ipynb").exists():
            number = record.practice.setdefault(lab.folder, secrets.randbelow(PRACTICE_NUMBERS))
            ticket = folder / lab.folder / FILE_NAME
            if not ticket.exists():
                write_whole(ticket, practice_ticket(lab.name, number).text().encode())
    write_whole(record_file, (json.dumps(vars(record), indent=1, sort_keys=True) + "\n").encode())
    return report


def _course_files(course: Path) -> list[Path]:
    notebooks = [path for path in sorted(course.glob("[0-9][0-9]_*/*.ipynb")) if path.stem in ("lesson", "lab")]
    page = course / PAGE
    if not notebooks or not page.is_file():
        raise CourseError(f"there is no built course in {course}; run the command `build` first")
    return [page, *notebooks]


def _update_file(folder: Path, name: str, data: bytes, record: _Record, report: UpdateReport) -> None:
    path, newest = folder / name, digest(data)
    now, given = file_digest(path), record.given.get(name)
    if now not in (None, given, newest):
        if newest not in (given, record.beside.get(name)):
            report.kept.append((name, _put_beside(path, data, record.beside.get(name))))
            record.beside[name] = newest
        return
    if now != newest:
        write_whole(path, data)
        done = report.replaced if now else report.put_back if given else report.new
        done.append(name)
    record.given[name] = newest


def _put_beside(path: Path, data: bytes, last: str | None) -> str:
    """Name of the file that now holds the new version; one that the learner changed is not written over."""
    number = 1
    while True:
        words = "new version" if number == 1 else f"new version {number}"
        target = path.with_name(f"{path.stem} ({words}){path.suffix}")
        now = file_digest(target)
        if now in (None, last, digest(data)):
            write_whole(target, data)
            return f"{path.parent.name}/{target.name}" if path.name != PAGE else target.name
        number += 1


def _read_record(path: Path) -> _Record:
    """What is on record; nothing where it is missing or spoilt, and then every file that differs counts as work."""
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
        return _Record(
            _texts(found["given"]), _texts(found["beside"]), {k: int(v) for k, v in found["practice"].items()}
        )
    except (FileNotFoundError, ValueError, KeyError, TypeError, AttributeError):
        return _Record()


def _texts(found: dict[Any, Any]) -> dict[str, str]:
    return {str(name): str(value) for name, value in found.items()}
