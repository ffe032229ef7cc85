"""Answer key of lab 01: what is right, worked out from each learner's own unit.

The instructor's side. Nothing here is handed out, built into a notebook or bound into the sandbox. Tolerances are the
meter's accuracy plus one digit of what it shows, carried through the formula, and half of the third digit for rounding.
"""

from __future__ import annotations

from coldwright.labs.question import Expected
from coldwright.labs.stored_charge.case import Case
from coldwright.labs.stored_charge.solutions import solutions


def key(case: Case) -> dict[str, Expected]:
    """What is right for every answer of one case.

    Parameters
    ----------
    case : Case
        The learner's unit and replayed readings [-]

    Returns
    -------
    dict of str to Expected
        Numbers in SI.
    """
    return {name: solution.expected for name, solution in solutions(case).items()}
