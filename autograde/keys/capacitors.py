"""Answer key of lab 05: what is right, worked out from each learner's own unit.

The instructor's side. Nothing here is handed out, built into a notebook or bound into the sandbox. Tolerances are the
instruments' accuracy plus one digit of what they show, carried through the formula; values that follow from what is
printed on a capacitor count as right to three digits.
"""

from __future__ import annotations

from coldwright.labs.capacitors.case import Case
from coldwright.labs.capacitors.solutions import solutions
from coldwright.labs.question import Expected


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
