"""An invented learner and what they leave behind, and how it gets into the notebook they hand in."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Work:
    """What a person leaves: answers by name, code by question, and what else was done to the notebook or sheet."""

    answers: Mapping[str, str] = field(default_factory=dict)
    cells: Mapping[str, str] = field(default_factory=dict)
    copies: tuple[str, ...] = ()
    deletes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Profile:
    """One invented learner. `works(bench, spare)` does the work; `spare` is the same unit off the record.

    `slip` names the misconception shown, `needs_running` says that an answer is code, `plugged` that the unit must
    arrive plugged in.
    """

    id: str
    first_name: str
    last_name: str
    about: str
    works: Callable[[Any, Any], Work]
    slip: str | None = None
    needs_running: bool = False
    plugged: bool = False


def fill_source(source: str, answers: Mapping[str, str]) -> str:
    """An answer cell with the answers filled in where its empty quotes stand.

    Parameters
    ----------
    source : str
        Source of the cell as handed out [-]
    answers : mapping of str to str
        Answers by name [-]
    """

    def fill(match: re.Match[str]) -> str:
        text = answers.get(match["name"])
        return match[0] if text is None else f'{match["name"]} = "{text}"'

    return re.sub(r'^(?P<name>\w+) = ""', fill, source, flags=re.MULTILINE)


def fill_notebook(notebook: dict[str, Any], work: Work) -> dict[str, Any]:
    """A notebook, as parsed JSON, with a person's work in it.

    Parameters
    ----------
    notebook : dict
        The notebook as handed out; left as it is [-]
    work : Work
        What the person did [-]
    """
    cells = []
    for cell in notebook["cells"]:
        grade_id = str(cell["metadata"].get("nbgrader", {}).get("grade_id", ""))
        question = grade_id.removeprefix("answer_") if grade_id.startswith("answer_") else None
        if question is None:
            cells.append(cell)
            continue
        source = "".join(cell["source"])
        filled = {**cell, "source": work.cells.get(question) or fill_source(source, work.answers)}
        cells += [filled] * (0 if question in work.deletes else 2 if question in work.copies else 1)
    return {**notebook, "cells": cells}
