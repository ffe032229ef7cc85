"""Every graded lab of the course, by name. A lab is loaded when it is asked for."""

from __future__ import annotations

from functools import cache
from importlib import import_module

from coldwright.errors import InputError
from coldwright.labs.question import Lab

NUMBERS = {
    "safe_isolation": "00",
    "stored_charge": "01",
    "reading_the_circuit": "02",
    "winding_checks": "03",
    "start_circuits": "04",
    "capacitors": "05",
    "overloads": "06",
}


@cache
def _load(name: str) -> Lab:
    loaded: Lab = import_module(f"coldwright.labs.{name}").LAB
    return loaded


def all_labs() -> tuple[Lab, ...]:
    """Every lab, in the order of the course."""
    return tuple(_load(name) for name in NUMBERS)


def lab(name: str) -> Lab:
    """The lab of that name or folder.

    Parameters
    ----------
    name : str
        Such as `winding_checks` or `03_winding_checks` [-]

    Raises
    ------
    InputError
        If there is none; the message lists those there are.
    """
    for known, number in NUMBERS.items():
        if name in (known, f"{number}_{known}"):
            return _load(known)
    raise InputError(f"there is no lab {name!r}; the labs are: {', '.join(NUMBERS)}")
