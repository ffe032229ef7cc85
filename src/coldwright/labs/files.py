"""Writing a file whole or not at all, and telling whether it changed."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path


def digest(data: bytes) -> str:
    """SHA-256 of what a file holds, in hex digits.

    Parameters
    ----------
    data : bytes
        What it holds [-]
    """
    return hashlib.sha256(data).hexdigest()


def file_digest(path: Path) -> str | None:
    """SHA-256 of a file; None if there is none.

    Parameters
    ----------
    path : Path
        The file [-]
    """
    try:
        return digest(path.read_bytes())
    except FileNotFoundError:
        return None


def write_whole(path: Path, data: bytes) -> None:
    """Write a file beside its place, then move it there: whoever looks finds the old one or the new one, whole.

    Parameters
    ----------
    path : Path
        Where it goes; missing folders are made [-]
    data : bytes
        What it holds [-]
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    try:
        with part.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
    finally:
        part.unlink(missing_ok=True)
