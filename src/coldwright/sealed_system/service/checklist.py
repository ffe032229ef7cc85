"""Checklists of work at a real bench, kept as data, that a person signs step by step.

The course teaches what stands on them. It cannot see a flame or a joint: only a person at the bench can sign.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib import resources

from coldwright.errors import InputError

NAMES = ("brazing", "burnout", "process_tube")


@dataclass(frozen=True)
class Step:
    """One step: what to do or see, why, and whether work stops here until it is signed."""

    key: str
    text: str
    why: str
    hold: bool = False


@dataclass(frozen=True)
class Checklist:
    """A list with its title, the cautions that open it, where it comes from, and its steps in order."""

    name: str
    title: str
    cautions: tuple[str, ...]
    standing: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Signature:
    """That a person at the bench saw a step done: who, and on what day (year-month-day)."""

    step: str
    person: str
    day: str

    def __post_init__(self) -> None:
        if not self.person.strip():
            raise InputError(f"step {self.step!r} is signed by nobody; the person at the bench signs with a name")
        try:
            date.fromisoformat(self.day)
        except ValueError:
            raise InputError(
                f"step {self.step!r} is signed on {self.day!r}; the day is written year-month-day, as 2025-03-09"
            ) from None


@cache
def checklist(name: str) -> Checklist:
    """A checklist by its name.

    Parameters
    ----------
    name : str
        One of `NAMES` [-]

    Returns
    -------
    Checklist
        With all its steps
    """
    if name not in NAMES:
        raise InputError(f"there is no checklist {name!r}; there are {', '.join(NAMES)}")
    file = resources.files("coldwright.sealed_system.service").joinpath("data", f"{name}.toml")
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    steps = tuple(Step(**step) for step in data["step"])
    return Checklist(name, data["title"], tuple(data["cautions"]), data["standing"], steps)


def open_steps(which: Checklist, signed: Sequence[Signature]) -> tuple[Step, ...]:
    """Steps that nobody has signed yet, in order; none when the list is done.

    Parameters
    ----------
    which : Checklist
        The list [-]
    signed : sequence of Signature
        Signatures so far, in the order in which they were given [-]

    Returns
    -------
    tuple of Step
        What is still open

    Raises
    ------
    InputError
        If a signature is for no step of the list, comes twice, or passes over a step at which work stops.
    """
    left = {step.key: step for step in which.steps}
    for signature in signed:
        if signature.step not in {step.key for step in which.steps}:
            raise InputError(f"{signature.step!r} is no step of the list {which.title!r}")
        if signature.step not in left:
            raise InputError(f"step {signature.step!r} is signed twice; once is enough, by the one who saw it")
        for step in which.steps:
            if step.key == signature.step:
                break
            if step.hold and step.key in left:
                raise InputError(
                    f"step {signature.step!r} is signed before {step.key!r}, at which work stops: {step.text}. "
                    "Was it done and not signed?"
                )
        del left[signature.step]
    return tuple(left.values())
