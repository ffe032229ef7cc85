"""Where hand-ins stand: each whole or not at all, and none lost when a later one comes."""

from __future__ import annotations

import os
import re
import secrets
import shutil
from collections.abc import Iterable, Mapping
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from coldwright.labs.class_folder import ClassFolder

TIMESTAMP = "timestamp.txt"  # nbgrader's name for it
TIME_FORM = "%Y-%m-%d %H:%M:%S UTC"
COMING_IN = "submitted_part"  # hand-ins that are being written
BEFORE = "submitted_before"


def stored(target: Path, names: Iterable[str]) -> dict[str, bytes]:
    """What stands in a place now, by name.

    Parameters
    ----------
    target : Path
        Folder of a hand-in [-]
    names : iterable of str
        Files to look for [-]
    """
    return {name: (target / name).read_bytes() for name in names if (target / name).is_file()}


def time_of(target: Path) -> datetime | None:
    """When a hand-in was received; None where that is not known.

    Parameters
    ----------
    target : Path
        Folder of a hand-in [-]
    """
    try:
        text = (target / TIMESTAMP).read_text(encoding="ascii").strip()
        return datetime.strptime(text, TIME_FORM).replace(tzinfo=UTC)
    except (OSError, ValueError):
        return None


def store(
    class_folder: ClassFolder, learner: str, lab_folder: str, files: Mapping[str, bytes], received: datetime
) -> Path | None:
    """Put a hand-in in its place in one move; gives where the former one went, None without one.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    learner : str
        Learner's id [-]
    lab_folder : str
        Lab's folder [-]
    files : mapping of str to bytes
        Contents by name [-]
    received : datetime
        Time of receipt in UTC [-]
    """
    coming = class_folder.root / COMING_IN
    coming.mkdir(exist_ok=True)
    for half_done in coming.glob(f"{learner}~{lab_folder}~*"):
        shutil.rmtree(half_done, ignore_errors=True)
    part = coming / f"{learner}~{lab_folder}~{secrets.token_hex(4)}"
    target = class_folder.part("submitted", learner, lab_folder)
    try:
        part.mkdir()
        for name, content in {**files, TIMESTAMP: received.strftime(TIME_FORM).encode()}.items():
            _write(part / name, content)
        target.parent.mkdir(parents=True, exist_ok=True)
        before = _set_aside(class_folder.part(BEFORE, learner, lab_folder), target) if target.exists() else None
        os.replace(part, target)
        return before
    finally:
        shutil.rmtree(part, ignore_errors=True)
        with suppress(OSError):  # others may be coming in
            coming.rmdir()


def _write(path: Path, content: bytes) -> None:
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _set_aside(folder: Path, target: Path) -> Path:
    time = time_of(target)
    name = re.sub("[: ]", "-", time.strftime(TIME_FORM)) if time else "no-time"
    folder.mkdir(parents=True, exist_ok=True)
    number = 1
    while (place := folder / (name if number == 1 else f"{name}-{number}")).exists():
        number += 1
    os.replace(target, place)
    return place
