"""Answer key of lab 04: what is right, worked out from each learner's own unit and the replayed readings on it.

The instructor's side. Nothing here is handed out, built into a notebook or bound into the sandbox. Tolerances are the
instruments' accuracy plus one digit of what they show, carried through the formula.
"""

from __future__ import annotations

from coldwright.labs.question import Expected
from coldwright.labs.start_circuits.case import StartCase
from coldwright.labs.start_circuits.solutions import solutions


def key(case: StartCase) -> dict[str, Expected]:
    """What is right for every answer of one case.

    Parameters
    ----------
    case : StartCase
        The learner's unit and replayed readings [-]

    Returns
    -------
    dict of str to Expected
        Numbers in SI.
    """
    return {name: solution.expected for name, solution in solutions(case).items()}
