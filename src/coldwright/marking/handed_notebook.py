"""Reading a notebook that came back, whatever state it is in.

Nothing here raises because of what a file holds: either cells come out, or the reason why there are none.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import nbformat

LARGEST = 20_000_000  # bytes; a notebook of this course without outputs has some 30,000
NOTHING: Mapping[str, Any] = {"cells": []}


def read_handed_in(path: Path) -> tuple[Mapping[str, Any], str]:
    """A notebook as plain data, and "" or why it cannot be read.

    Parameters
    ----------
    path : Path
        The file [-]
    """
    if path.is_symlink():
        return NOTHING, f"{path.name} is a link, not a file"
    if not path.is_file():
        return NOTHING, f"there is no {path.name} in it"
    with path.open("rb") as file:
        content = file.read(LARGEST + 1)
    if len(content) > LARGEST:
        return NOTHING, f"{path.name} is larger than {LARGEST // 1_000_000} MB"
    found = _parse(content)
    if found is None:
        return NOTHING, f"{path.name} cannot be read as a notebook; it is damaged or cut off"
    return found, ""


def _parse(content: bytes) -> Mapping[str, Any] | None:
    wide = content[:2] in (b"\xff\xfe", b"\xfe\xff")
    try:
        found = json.loads(content.decode("utf-16" if wide else "utf-8-sig"))
        if isinstance(found, dict) and "worksheets" in found:
            found = nbformat.convert(nbformat.from_dict(found), 4)
    except (ValueError, RecursionError, KeyError, TypeError, AttributeError, nbformat.ValidationError):
        return None
    return found if isinstance(found, dict) and isinstance(found.get("cells"), list) else None
