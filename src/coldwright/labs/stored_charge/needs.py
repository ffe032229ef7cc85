"""Which readings of lab 01 stand behind which answer, what is still missing, and the points for the way of working."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.bench.hazards import Hazard
from coldwright.labs.question import Answer
from coldwright.labs.stored_charge.case import Case
from coldwright.labs.stored_charge.unit import BUS, START, WORDS
from coldwright.labs.unit_case import case_has, proved_dead

TOUCHES = ("take off", "ohms", "continuity", "capacitance", "insulation")
WORK_POINTS = ("no_hazard", "proved_dead", "read_first", "emptied")


def _peak(case: Case) -> bool:
    return case.label_read if case.job.store == START else bool(case.at_work)


def _farads(case: Case) -> bool:
    return case.job.store == BUS or bool(case.farad_readings)


NEEDS: dict[str, Callable[[Case], bool]] = {
    "left": lambda case: bool(case.left),
    "peak": _peak,
    "stored": lambda case: _peak(case) and _farads(case),
    "ohms": lambda case: bool(case.ohm_readings),
    "alone": lambda case: _peak(case) and _farads(case) and bool(case.ohm_readings),
    "tests": lambda case: _farads(case) and bool(case.ohm_readings) and case.label_read,
}


def missing(case: Case) -> tuple[str, ...]:
    """Readings that the lab needs and the job sheet lacks, in words.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    name = WORDS[case.job.store]
    found = {
        f"volts d.c. across the {name} with the plug out, before it is discharged": NEEDS["left"](case),
        f"a look at what is printed on the {name}": case.label_read,
        f"volts a.c. {'of the supply' if case.job.store == BUS else f'across the {name} while it runs'}": (
            case.job.store == START or _peak(case)
        ),
        f"the capacitance of the {name}, off the unit": _farads(case),
        f"ohms across the {name}, plug out": NEEDS["ohms"](case),
    }
    return tuple(words for words, done in found.items() if not done)


def backed(case: Case, answer: Answer) -> bool:
    """Whether the readings that an answer needs stand on the job sheet.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    return answer.needs is None or NEEDS[answer.needs](case)


def worked(case: Case) -> dict[str, bool]:
    """Which points for the way of working were earned; none unless every needed reading was taken.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if missing(case):
        return dict.fromkeys(WORK_POINTS, False)
    first = case.sheet.first(TOUCHES) or len(case.sheet.lines) + 1
    no_shock = not case_has(case.sheet.hazards, Hazard.TOUCHED_CHARGED)
    return {
        "no_hazard": not case.sheet.hazards,
        "proved_dead": proved_dead(case.sheet, fully=True),
        "read_first": any(t.line.n < first for t in case.left),
        "emptied": no_shock and any(t.line.n < first for t in case.empty),
    }
