"""Answer key of lab 06: what is right, worked out from each learner's own unit.

The instructor's side. Nothing here is handed out, built into a notebook or bound into the sandbox. Tolerances are what
the instruments allow and one digit more, carried through the formulas.
"""

from __future__ import annotations

from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.solutions import solutions
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
