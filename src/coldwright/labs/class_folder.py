"""A class's folder: where everything of one class lies, its secret and its roster.

The folder is an nbgrader course folder; nbgrader's own names for its parts are kept.
"""

from __future__ import annotations

import csv
import json
import os
import re
import tomllib
from dataclasses import dataclass
from pathlib import Path

from coldwright.errors import CourseError
from coldwright.labs.ticket import new_secret

SETTINGS = "class.toml"
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
        return self.root / "class_secret"

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
        try:
            with self.learners_file.open(encoding="utf-8-sig", newline="") as file:
                rows = list(csv.DictReader(file))
        except OSError:
            raise CourseError(f"there is no roster {self.learners_file}") from None
        except (UnicodeDecodeError, csv.Error):
            raise CourseError(f"{self.learners_file} cannot be read; save it as CSV in UTF-8") from None
        if rows and "id" not in rows[0]:
            raise CourseError(f"{self.learners_file}: the first line must name the columns id,first_name,last_name")
        found = tuple(
            Learner((r["id"] or "").strip(), r.get("first_name") or "", r.get("last_name") or "") for r in rows
        )
        ids = [learner.id.casefold() for learner in found]
        for learner in found:
            if ids.count(learner.id.casefold()) > 1:
                raise CourseError(f"{self.learners_file}: learner {learner.id!r} stands in it more than once")
        return found


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
    """
    root.mkdir(parents=True, exist_ok=True)
    folder = ClassFolder(root.resolve(), course, keys.resolve())
    if not folder.secret_file.exists():
        handle = os.open(folder.secret_file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "w", encoding="ascii") as file:
            file.write(new_secret().hex() + "\n")
    with folder.learners_file.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(["id", "first_name", "last_name"])
        writer.writerows([each.id, each.first_name, each.last_name] for each in learners)
    quoted = {"course": folder.course, "keys": str(folder.keys)}
    lines = [f"{name} = {json.dumps(value, ensure_ascii=False)}\n" for name, value in quoted.items()]
    (root / SETTINGS).write_text("".join(lines), encoding="utf-8")
    return folder


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
    except FileNotFoundError:
        raise CourseError(f"{root} is no class folder: it has no {SETTINGS}") from None
    except (KeyError, tomllib.TOMLDecodeError, UnicodeDecodeError):
        raise CourseError(f"{root / SETTINGS} cannot be read; it must give course and keys") from None
