"""A class's folder: where everything of one class lies, its secret and its roster.

The folder is an nbgrader course folder; nbgrader's own names for its parts are kept.
"""

from __future__ import annotations

import csv
import io
import json
import os
import re
import tomllib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from coldwright.errors import CourseError
from coldwright.labs.files import write_whole
from coldwright.labs.ticket import new_secret

SETTINGS = "class.toml"
SECRET_NAME = "class_secret"
SHEET_NAME = "job_sheet.jsonl"
NOTEBOOK = "lab"  # nbgrader's notebook id; the file is lab.ipynb
_LEARNER_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.\-]{0,63}")


@dataclass(frozen=True)
class Learner:
    """One row of the roster. `id` names the learner's folder; the names are only shown."""

    id: str
    first_name: str = ""
    last_name: str = ""

    def __post_init__(self) -> None:
        if not _LEARNER_ID.fullmatch(self.id) or self.id.endswith("."):
            raise CourseError(
                f"learner id {self.id[:80]!r}: use letters, digits, - and _ only, 64 at most, since it names a folder"
            )


@dataclass(frozen=True)
class ClassFolder:
    """Paths of one class. `keys` is the folder with the answer keys."""

    root: Path
    course: str
    keys: Path

    @property
    def secret_file(self) -> Path:
        """The class's secret; it stays with the instructor."""
        return self.root / SECRET_NAME

    @property
    def secret(self) -> bytes:
        """The class's secret."""
        try:
            return bytes.fromhex(self.secret_file.read_text(encoding="ascii").strip())
        except (OSError, ValueError):
            raise CourseError(
                f"the class's secret {self.secret_file} cannot be read; without it tickets cannot be checked. "
                "Put the file back from a backup"
            ) from None

    @property
    def learners_file(self) -> Path:
        """The roster."""
        return self.root / "learners.csv"

    @property
    def gradebook_file(self) -> Path:
        """nbgrader's gradebook."""
        return self.root / "gradebook.db"

    def part(self, name: str, learner: str = ".", lab_folder: str = "") -> Path:
        """Folder of one step (source, release, handed_out, submitted, autograded, feedback).

        Parameters
        ----------
        name : str
            Name of the step [-]
        learner : str
            Learner's id, "." for none [-]
        lab_folder : str
            Lab's folder, "" for none [-]
        """
        return self.root / name / learner / lab_folder

    def learners(self) -> tuple[Learner, ...]:
        """The roster, in its order.

        Raises
        ------
        CourseError
            If it cannot be read, has no id column, or names one learner twice.
        """
        return read_roster(self.learners_file)


def read_roster(path: Path) -> tuple[Learner, ...]:
    """The learners of a roster, in its order.

    Parameters
    ----------
    path : Path
        CSV file in UTF-8 with the columns id, first_name, last_name; the names may be missing [-]

    Raises
    ------
    CourseError
        If it cannot be read, has no id column, or names one learner twice, capital letters or not.
    """
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            found = tuple(_roster_lines(path, file))
    except FileNotFoundError:
        raise CourseError(f"there is no roster {path}") from None
    except OSError as error:
        raise CourseError(f"the roster {path} cannot be read: {_plain(error)}") from None
    except (UnicodeDecodeError, csv.Error):
        raise CourseError(f"the roster {path} cannot be read; save it as CSV in UTF-8") from None
    ids = Counter(learner.id.casefold() for learner in found)
    for learner in found:
        if ids[learner.id.casefold()] > 1:
            raise CourseError(
                f"{path}: learner {learner.id!r} stands in it more than once; each needs an id of their own"
            )
    return found


def _roster_lines(path: Path, file: TextIO) -> Iterator[Learner]:
    lines = csv.DictReader(file)
    columns = lines.fieldnames or []
    if any("\0" in column for column in columns):
        raise csv.Error("UTF-16 without a mark at its start")
    if "id" not in columns:
        hint = "; save it with commas between the columns, not semicolons" if ";" in "".join(columns) else ""
        raise CourseError(f"{path}: the first line must name the columns id,first_name,last_name{hint}")
    for line in lines:
        try:
            yield Learner((line["id"] or "").strip(), line.get("first_name") or "", line.get("last_name") or "")
        except CourseError as error:
            raise CourseError(f"{path}, line {lines.line_num}: {error}") from None


def _plain(error: OSError) -> str:
    """Why a file or folder could not be used, in plain words."""
    if isinstance(error, IsADirectoryError):
        return "it is a folder"
    if isinstance(error, FileExistsError | NotADirectoryError):
        return "a file stands in the way"
    if isinstance(error, PermissionError):
        return "you have no right to use this place"
    return (error.strerror or "the system gives no reason").lower()


def make_class(root: Path, course: str, keys: Path, learners: tuple[Learner, ...]) -> ClassFolder:
    """A new class folder with its secret, roster and settings; an existing one is opened and its roster renewed.

    Parameters
    ----------
    root : Path
        Where it goes [-]
    course : str
        Name of the course, as tickets carry it [-]
    keys : Path
        Folder with the answer keys [-]
    learners : tuple of Learner
        The roster [-]

    Raises
    ------
    CourseError
        If it cannot be written there.
    """
    folder = ClassFolder(root.resolve(), course, keys.resolve())
    try:
        _write_class(folder, learners)
    except OSError as error:
        raise CourseError(f"the class folder {root} cannot be made: {_plain(error)}. Choose another folder") from None
    return folder


def _write_class(folder: ClassFolder, learners: tuple[Learner, ...]) -> None:
    folder.root.mkdir(parents=True, exist_ok=True)
    if not folder.secret_file.exists():
        handle = os.open(folder.secret_file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "w", encoding="ascii") as file:
            file.write(new_secret().hex() + "\n")
    roster = io.StringIO(newline="")
    writer = csv.writer(roster)
    writer.writerow(["id", "first_name", "last_name"])
    writer.writerows([each.id, each.first_name, each.last_name] for each in learners)
    write_whole(folder.learners_file, roster.getvalue().encode())
    quoted = {"course": folder.course, "keys": str(folder.keys)}
    lines = [f"{name} = {json.dumps(value, ensure_ascii=False)}\n" for name, value in quoted.items()]
    write_whole(folder.root / SETTINGS, "".join(lines).encode())


def open_class(root: Path) -> ClassFolder:
    """The class folder at a path.

    Parameters
    ----------
    root : Path
        A folder that `make_class` made [-]

    Raises
    ------
    CourseError
        If it is no class folder or its settings cannot be read.
    """
    try:
        settings = tomllib.loads((root / SETTINGS).read_text(encoding="utf-8"))
        return ClassFolder(root.resolve(), str(settings["course"]), Path(settings["keys"]))
    except (FileNotFoundError, NotADirectoryError):
        raise CourseError(f"{root} is no class folder: it has no {SETTINGS}") from None
    except OSError as error:
        raise CourseError(f"{root / SETTINGS} cannot be read: {_plain(error)}") from None
    except (KeyError, tomllib.TOMLDecodeError, UnicodeDecodeError):
        raise CourseError(f"{root / SETTINGS} cannot be read; it must give course and keys") from None
