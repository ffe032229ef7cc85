"""A notebook that came back, read whatever wrote it and made clean: cells, their ids and sources, nothing else.

Outputs, widget state, attachments and all metadata but nbgrader's ids are dropped. What had to be overlooked goes into
the clean notebook as short words, so that marking can tell the learner; `intake_notices` reads them back.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from enum import Enum
from typing import Any

from coldwright.errors import HandInError
from coldwright.labs.question import Lab
from coldwright.marking.collect import answer_id, check_id

OURS = "coldwright"
INTAKE = "intake"
KINDS = ("code", "markdown", "raw")
CELL_ID = re.compile(r"[A-Za-z0-9_-]{1,64}")
CHECK_CALL = re.compile(r"""\bcheck\(\s*["'](\w{1,64})["']""")
AGAIN = "open it, save it and hand it in again"


class Noticed(Enum):
    """What had to be overlooked, as the learner reads it."""

    ENCODING = "Your notebook was saved in another text form (UTF-16, or with a mark at its start); it was read anyway."
    OLD_FORM = "Your notebook was saved in an old form; it was brought up to date."
    OTHER_FORM = "Your notebook was saved in a form that this course does not know; its cells were read anyway."
    NAME = "Your notebook did not have the name lab.ipynb; it was taken in under that name."
    PLACE = "Your notebook lay in a folder inside your hand-in; it was found there."
    OTHERS = "There were other notebooks in your hand-in; only the one with the answers of this lab was taken."


def parse_notebook(content: bytes, name: str) -> tuple[dict[str, Any], list[Noticed]]:
    """A notebook as plain data with a list of cells, and what had to be overlooked.

    Parameters
    ----------
    content : bytes
        The file's content [-]
    name : str
        What to call it in messages [-]

    Raises
    ------
    HandInError
        If it is no notebook, or not a whole one.
    """
    encoding = json.detect_encoding(content)
    noticed = [] if encoding == "utf-8" else [Noticed.ENCODING]
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError:
        raise HandInError(f"{name} is not the text of a notebook; {AGAIN}") from None
    found = _parse(text, name)
    if "worksheets" in found:
        found = _upgrade(found, name)
        noticed.append(Noticed.OLD_FORM)
    elif not (isinstance(found.get("nbformat"), int) and found["nbformat"] <= 4):
        noticed.append(Noticed.OTHER_FORM)
    cells = found.get("cells")
    if not isinstance(cells, list) or not any(isinstance(cell, dict) for cell in cells):
        raise HandInError(f"{name} has no cells, so it is no notebook that can be marked; {AGAIN}")
    return found, noticed


def _parse(text: str, name: str) -> dict[str, Any]:
    if not text.strip():
        raise HandInError(f"{name} is empty; {AGAIN}")
    if "\0" in text:
        raise HandInError(f"{name} holds zero bytes, so it was damaged on its way; {AGAIN}")
    if re.search(r"^<{7} ", text, re.MULTILINE):
        raise HandInError(f"{name} holds marks of two versions put together (<<<<<<<); settle them and {AGAIN}")
    try:
        found = json.loads(text)
    except RecursionError:
        raise HandInError(f"{name} is nested too deep to be a notebook; {AGAIN}") from None
    except json.JSONDecodeError as error:
        cut = error.pos >= len(text.rstrip()) or error.msg.startswith("Unterminated")
        what = "is cut off before its end" if cut else f"is not a notebook or was damaged in line {error.lineno}"
        raise HandInError(f"{name} {what}; {AGAIN}") from None
    except ValueError:
        raise HandInError(f"{name} holds a number too long for a notebook; {AGAIN}") from None
    if not isinstance(found, dict):
        raise HandInError(f"{name} is not a notebook; {AGAIN}")
    return found


def _upgrade(found: dict[str, Any], name: str) -> dict[str, Any]:
    import nbformat

    try:
        for sheet in found["worksheets"]:
            for cell in sheet["cells"]:
                cell["outputs"] = []
        version = found.get("nbformat")
        old = {**found, "nbformat": version if version in (2, 3) else 3}
        upgraded = dict(nbformat.convert(nbformat.from_dict(old), 4))
        for number, cell in enumerate(upgraded["cells"]):  # the conversion draws ids at random
            cell["id"] = f"upgraded-{number}"
        return upgraded
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError, nbformat.ValidationError):
        raise HandInError(f"{name} is of an old form and cannot be read; {AGAIN}") from None


def _source(cell: Mapping[str, Any]) -> str:
    value = cell.get("source")
    if isinstance(value, list):
        value = "".join(part for part in value if isinstance(part, str))
    return value.encode("utf-8", "replace").decode("utf-8") if isinstance(value, str) else ""


def _nbgrader(cell: Mapping[str, Any]) -> dict[str, Any]:
    metadata = cell.get("metadata")
    ours = metadata.get("nbgrader") if isinstance(metadata, Mapping) else None
    if not isinstance(ours, Mapping):
        return {}
    return {key: value for key, value in ours.items() if isinstance(value, str | bool | int) and len(str(key)) < 100}


def belongs(notebook: Mapping[str, Any], lab: Lab) -> bool:
    """Whether a notebook is that of a lab.

    Its check cells name the lab. Where all of them are gone, an answer cell known by its id counts, or the answers of
    two questions assigned in one cell each.

    Parameters
    ----------
    notebook : mapping
        A notebook that was parsed [-]
    lab : Lab
        The lab [-]
    """
    cells = [cell for cell in notebook["cells"] if isinstance(cell, Mapping)]
    sources = [_source(cell) for cell in cells]
    named = {name for source in sources for name in CHECK_CALL.findall(source)}
    if named:
        return lab.name in named
    asked = [question for question in lab.questions if question.answers]
    ids = {made(question.name) for question in lab.questions for made in (answer_id, check_id)}
    ids |= {each.replace("_", "-") for each in ids}
    if any(cell.get("id") in ids or _nbgrader(cell).get("grade_id") in ids for cell in map(_hashable, cells)):
        return True
    found = [question for question in asked if any(_assigns_all(source, question.answers) for source in sources)]
    return len(found) >= 2


def _hashable(cell: Mapping[str, Any]) -> Mapping[str, Any]:
    return cell if isinstance(cell.get("id"), str) else {**cell, "id": None}


def _assigns_all(source: str, answers: Sequence[Any]) -> bool:
    return all(re.search(rf"^[ \t]*{re.escape(a.name)}[ \t]*=(?!=)", source, re.MULTILINE) for a in answers)


def clean_notebook(notebook: Mapping[str, Any], noticed: Sequence[Noticed]) -> str:
    """A notebook's clean text (nbformat 4.5). Ids that stand twice are left as they are.

    Parameters
    ----------
    notebook : mapping
        A notebook that was parsed [-]
    noticed : sequence of Noticed
        What had to be overlooked [-]
    """
    cells = [cell for cell in notebook["cells"] if isinstance(cell, Mapping)]
    clean = {
        "cells": [_clean_cell(cell, number) for number, cell in enumerate(cells)],
        "metadata": {
            OURS: {INTAKE: [each.name for each in noticed]},
            "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
            "language_info": {"name": "python"},
        },
        "nbformat": 4,
        "nbformat_minor": 5,
    }
    return json.dumps(clean, indent=1, ensure_ascii=True) + "\n"


def _clean_cell(cell: Mapping[str, Any], number: int) -> dict[str, Any]:
    kind, cell_id, nbgrader = cell.get("cell_type"), cell.get("id"), _nbgrader(cell)
    clean: dict[str, Any] = {
        "cell_type": kind if kind in KINDS else "raw",
        "id": cell_id if isinstance(cell_id, str) and CELL_ID.fullmatch(cell_id) else f"handed-in-{number}",
        "metadata": {"nbgrader": nbgrader} if nbgrader else {},
        "source": _source(cell),
    }
    return {**clean, "execution_count": None, "outputs": []} if kind == "code" else clean


def intake_notices(notebook: Mapping[str, Any]) -> list[str]:
    """What intake overlooked in a notebook, as sentences; only intake's own sentences come out.

    Parameters
    ----------
    notebook : mapping
        A notebook out of `submitted` [-]
    """
    metadata = notebook.get("metadata")
    ours = metadata.get(OURS) if isinstance(metadata, Mapping) else None
    words = ours.get(INTAKE) if isinstance(ours, Mapping) else None
    return [each.value for each in Noticed if isinstance(words, list) and each.name in words]
