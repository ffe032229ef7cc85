"""Reading what a learner handed in, from a folder or a zip file, without trusting a name or a size in it.

Nothing is unpacked or written. Only the few files that a lab knows are read, each up to a limit.
"""

from __future__ import annotations

import os
import re
import stat
import struct
import unicodedata
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from coldwright.bench.sheet import LONGEST_SHEET
from coldwright.errors import HandInError
from coldwright.labs.class_folder import SHEET_NAME
from coldwright.labs.ticket import FILE_NAME as TICKET_NAME
from coldwright.marking.handed_notebook import LARGEST

MEGABYTE = 1_000_000
LIMITS = {".ipynb": LARGEST, TICKET_NAME: 10_000, SHEET_NAME: 4 * LONGEST_SHEET}  # bytes
LARGEST_ZIP = 50 * MEGABYTE
LARGEST_UNPACKED = 200 * MEGABYTE
MOST_FILES = 2_000
MOST_NOTEBOOKS = 10
LONGEST_NAME = 150
DEEPEST = 20
LONGEST_DIRECTORY = MOST_FILES * 400  # bytes of a zip file's list of contents
IGNORED = ("__MACOSX", "__pycache__")
RESERVED = re.compile(r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³])", re.IGNORECASE)
DAMAGED = "the zip file is damaged; pack it again and hand it in again"


@dataclass(frozen=True)
class HandedFile:
    """One file that a lab knows, with its place in the hand-in."""

    parts: tuple[str, ...]
    content: bytes

    @property
    def name(self) -> str:
        """Its name in lower case, by which it is known."""
        return self.parts[-1].casefold()

    @property
    def is_notebook(self) -> bool:
        """Whether it looks like a notebook."""
        return self.name.endswith(".ipynb")

    @property
    def shown(self) -> str:
        """Its place, fit to stand in a message."""
        return shown("/".join(self.parts))


@dataclass(frozen=True)
class HandIn:
    """What was found. `zips` names zip files inside, which are not opened."""

    files: tuple[HandedFile, ...]
    zips: tuple[str, ...] = ()


def shown(name: str) -> str:
    """A name fit to stand in a message: no control characters, not too long.

    Parameters
    ----------
    name : str
        Any name [-]
    """
    clean = "".join("?" if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp") else c for c in name)
    return clean if len(clean) <= 60 else f"{clean[:59]}…"


def read_hand_in(source: Path) -> HandIn:
    """The known files of a hand-in.

    Parameters
    ----------
    source : Path
        A learner's folder or zip file [-]

    Raises
    ------
    HandInError
        If something in it cannot be right: links, devices, odd names, locked or oversized files.
    """
    try:
        mode = source.lstat().st_mode
        if stat.S_ISDIR(mode):
            return _from_folder(source)
        if not stat.S_ISREG(mode):
            raise HandInError(f"{shown(source.name)} is a link or a device; hand in the folder itself")
        return _from_zip(source)
    except FileNotFoundError:
        raise HandInError(f"there is no {shown(source.name)}") from None
    except OSError as error:
        raise HandInError(f"{shown(source.name)} cannot be read: {error.strerror}") from None


def _check_name(name: str) -> None:
    if any(unicodedata.category(c) == "Cc" for c in name):
        raise HandInError(f"the name {shown(name)!r} holds a line break or another control character; rename it")
    if len(name) > LONGEST_NAME:
        raise HandInError(f"the name {shown(name)!r} is {len(name)} characters long; the most is {LONGEST_NAME}")
    if RESERVED.fullmatch(name.split(".")[0].rstrip(" ")):
        raise HandInError(f"the name {shown(name)!r} is kept for a device on some systems; rename it")


def _is_ignored(part: str) -> bool:
    return part in IGNORED or part.startswith(".")


def _limit(parts: tuple[str, ...]) -> int | None:
    """How many bytes of a file may be read [bytes]; None for a file that no lab knows."""
    if len(parts) > 2 or any(map(_is_ignored, parts)):
        return None
    name = parts[-1].casefold()
    return LIMITS.get(".ipynb" if name.endswith(".ipynb") else name)


def _too_large(parts: tuple[str, ...], limit: int) -> HandInError:
    most = f"{limit // MEGABYTE} MB" if limit >= MEGABYTE else f"{limit // 1000} kB"
    return HandInError(f"{shown(parts[-1])} is larger than {most}; clear its outputs, save it and hand it in again")


def _counted(found: list[HandedFile], zips: list[str]) -> HandIn:
    if sum(file.is_notebook for file in found) > MOST_NOTEBOOKS:
        raise HandInError(f"there are more than {MOST_NOTEBOOKS} notebooks in it; leave only the one that counts")
    return HandIn(tuple(found), tuple(zips))


def _walk(folder: Path, parts: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Path | None]]:
    """Every file with its place; a folder comes as None."""
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda each: each.name):
            here = (*parts, entry.name)
            _check_name(entry.name)
            mode = entry.stat(follow_symlinks=False).st_mode
            if stat.S_ISDIR(mode):
                if len(here) > DEEPEST:
                    raise HandInError(f"there are more than {DEEPEST} folders inside each other")
                yield here, None
                if not _is_ignored(entry.name):
                    yield from _walk(Path(entry.path), here)
            elif stat.S_ISREG(mode):
                yield here, Path(entry.path)
            else:
                raise HandInError(f"{shown(entry.name)!r} is a link or a device; put the file itself there")


def _from_folder(folder: Path) -> HandIn:
    found: list[HandedFile] = []
    zips: list[str] = []
    for number, (parts, path) in enumerate(_walk(folder)):
        if number >= MOST_FILES:
            raise HandInError(f"there are more than {MOST_FILES} files in it; hand in only the lab's folder")
        limit = _limit(parts)
        if path is None:
            continue
        if limit is not None:
            found.append(HandedFile(parts, _read(path, parts, limit)))
        elif parts[-1].casefold().endswith(".zip"):
            zips.append(shown(parts[-1]))
    return _counted(found, zips)


def _read(path: Path, parts: tuple[str, ...], limit: int) -> bytes:
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    with os.fdopen(os.open(path, flags), "rb") as file:
        content = file.read(limit + 1)
    if len(content) > limit:
        raise _too_large(parts, limit)
    return content


def _check_directory(source: Path) -> None:
    """Refuse a zip file whose list of contents is too long to be read, before anything reads it."""
    size = source.stat().st_size
    if size > LARGEST_ZIP:
        raise HandInError(f"the zip file has {size // MEGABYTE} MB; the most is {LARGEST_ZIP // MEGABYTE} MB")
    with source.open("rb") as file:
        file.seek(max(0, size - 66_000))
        tail = file.read()
    end = tail.rfind(b"PK\x05\x06")
    if end < 0 or len(tail) < end + 22:
        raise HandInError(f"{shown(source.name)} is neither a folder nor a whole zip file")
    length = int.from_bytes(tail[end + 12 : end + 16], "little")
    if b"PK\x06\x07" in tail or length > LONGEST_DIRECTORY:
        raise HandInError(f"there are more than {MOST_FILES} files in the zip file, or it is of an unusual kind")


def _zip_parts(info: zipfile.ZipInfo) -> tuple[str, ...]:
    name = info.orig_filename.replace("\\", "/")
    if name.startswith("/") or re.match(r"[A-Za-z]:", name):
        raise HandInError(f"the zip file holds {shown(name)!r}, which names a place outside it")
    parts = tuple(part for part in name.split("/") if part not in ("", "."))
    if ".." in parts:
        raise HandInError(f"the zip file holds {shown(name)!r}, which leads out of it")
    for part in parts:
        _check_name(part)
    if stat.S_IFMT(info.external_attr >> 16) not in (0, stat.S_IFREG, stat.S_IFDIR):
        raise HandInError(f"{shown(name)!r} in the zip file is a link or a device; put the file itself there")
    if info.flag_bits & 0x1:
        raise HandInError("the zip file is locked with a password; hand it in again without one")
    return parts


def _from_zip(source: Path) -> HandIn:
    _check_directory(source)
    try:
        with zipfile.ZipFile(source) as archive:
            infos = archive.infolist()
            if len(infos) > MOST_FILES:
                raise HandInError(f"there are more than {MOST_FILES} files in the zip file")
            named = [(_zip_parts(info), info) for info in infos]
            total = sum(info.file_size for info in infos)
            if total > LARGEST_UNPACKED:
                most = LARGEST_UNPACKED // MEGABYTE
                raise HandInError(f"the zip file unpacks to {total // MEGABYTE} MB; the most is {most} MB")
            files = [(parts, info) for parts, info in named if parts and info.orig_filename[-1] not in "/\\"]
            found = [_from_entry(archive, parts, info) for parts, info in files if _limit(parts) is not None]
    except (zipfile.BadZipFile, zlib.error, struct.error, EOFError, ValueError, OverflowError, RuntimeError):
        raise HandInError(DAMAGED) from None
    zips = [shown(parts[-1]) for parts, _ in files if parts[-1].casefold().endswith(".zip")]
    return _counted(found, zips)


def _from_entry(archive: zipfile.ZipFile, parts: tuple[str, ...], info: zipfile.ZipInfo) -> HandedFile:
    limit = _limit(parts)
    assert limit is not None
    if info.file_size > limit:
        raise _too_large(parts, limit)
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise HandInError("the zip file is packed in an unusual way; pack it again with your system's own command")
    with archive.open(info) as file:
        content = file.read(limit + 1)
    if len(content) > limit:
        raise _too_large(parts, limit)
    return HandedFile(parts, content)
