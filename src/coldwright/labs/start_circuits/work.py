"""Which readings the lab needs, which answer each of them backs, and which points for working were earned."""

from __future__ import annotations

from collections.abc import Callable

from coldwright.labs.question import Answer
from coldwright.labs.start_circuits.case import LINE, OUTLET, PINS, RUNNING, StartCase
from coldwright.labs.start_circuits.economy import CLOSE, SLACK
from coldwright.labs.start_circuits.evidence import STARTS
from coldwright.labs.unit_case import proof_after_repair, proved_dead


def missing(case: StartCase) -> tuple[str, ...]:
    """Readings that the lab needs and the job sheet lacks, in words.

    Parameters
    ----------
    case : StartCase
        The unit and its job sheet [-]
    """
    found = []
    if not case.found("inrush", LINE):
        found.append("the start amps of one wire of the cord, as found")
    if case.left_open != {case.fault}:
        found.append("readings that leave only one fault possible")
    found += [f"the start amps at {pin}, as you leave it" for pin in PINS.values() if not case.left("inrush", pin)]
    if not case.base.has("volts ac", *OUTLET) or not case.left("lowest volts"):
        found.append("volts at the outlet with the plug out, and the lowest volts at a start")
    if not all(_ran_or_not(case, wire) for wire in RUNNING.values()):
        found.append("running amps of the cord and of the start winding, or two minutes of listening")
    return tuple(found)


def _ran_or_not(case: StartCase, wire: str) -> bool:
    return bool(case.running(wire)) or (not case.runs and bool(case.left("listen")))


def backed(case: StartCase, answer: Answer) -> bool:
    """Whether the reading that an answer needs stands on the job sheet.

    Parameters
    ----------
    case : StartCase
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    if answer.needs is None:
        return True
    checks: dict[str, Callable[[], bool]] = {
        "as found": lambda: bool(case.found("inrush", LINE)),
        "evidence": lambda: case.left_open == {case.fault},
        "start amps": lambda: bool(case.left("inrush", PINS[answer.name])),
        "running amps": lambda: _ran_or_not(case, RUNNING[answer.name]),
        "sag": lambda: case.base.has("volts ac", *OUTLET) and bool(case.left("lowest volts")),
    }
    return checks[answer.needs]()


def worked(case: StartCase) -> dict[str, bool]:
    """Which points for the way of working were earned; none unless every needed reading was taken.

    Parameters
    ----------
    case : StartCase
        The unit and its job sheet [-]
    """
    names = ("proved_dead", "no_hazard", "economy", "best_test", "proof", "repaired")
    if missing(case):
        return dict.fromkeys(names, False)
    last = case.base.last(("fit", "put back")) or 0
    tried = any(line.n > last and line.act in STARTS and not line.hazards for line in case.base.lines)
    wanted = {case.component} - {""}
    return {
        "proved_dead": proved_dead(case.base, fully=True),
        "no_hazard": not case.base.hazards,
        "economy": case.paid <= case.best + SLACK,
        "best_test": case.paid <= case.best + CLOSE,
        "proof": all(proof_after_repair(case.base).values()),
        "repaired": {name for name, _ in case.base.fitted} == wanted and tried,
    }
