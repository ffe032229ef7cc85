"""Every graded lab of the course, by name."""

from __future__ import annotations

from coldwright.errors import InputError
from coldwright.labs.question import Lab
from coldwright.labs.winding_checks import LAB as WINDING_CHECKS

LABS = (WINDING_CHECKS,)


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
    for found in LABS:
        if name in (found.name, found.folder):
            return found
    raise InputError(f"there is no lab {name!r}; the labs are: {', '.join(each.name for each in LABS)}")
