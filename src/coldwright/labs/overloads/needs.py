"""Which readings the lab on overloads needs, and which points for the way of working were earned."""

from __future__ import annotations

from coldwright.appliance.unit_faults import FaultName
from coldwright.labs.overloads.case import Case
from coldwright.labs.question import Answer
from coldwright.labs.unit_case import proof_after_repair, proved_dead, zeroed

LONG_ENOUGH = 2  # times two minutes without a click, before one may say that it does not click
POINTS = ("no_hazard", "proved_dead", "zeroed", "proof")


def _found(case: Case) -> dict[str, bool]:
    """For each need, whether the reading stands on the sheet."""
    clicks = case.truth.heard.clicked or case.heard.clicked
    on, off = bool(case.watts(on=True)), bool(case.watts(on=False))
    silent = len(case.listened) >= LONG_ENOUGH
    spans = bool(case.heard.on and case.heard.off)
    return {
        "listening": spans if clicks else silent,
        "watts": (on and off) if clicks else on or off,
        "start": bool(case.start_amps),
        "shell": bool(case.shell_on_arrival) and case.sheet.has("temperature", "room"),
        "winding": bool(case.hot() and case.cold) and case.sheet.has("temperature", "room"),
        "overload": bool(case.overload_apart),
        "label": case.sheet.did("inspect", "overload"),
        "start test": case.sheet.has("start test"),
        "earth": bool(case.proof("ohms", "plug E")),
        "insulation": bool(case.proof("insulation", "plug L") and case.proof("insulation", "plug N")),
    }


WORDS = {
    "listening": "minutes of listening from click to click, or four without a click",
    "watts": "watts with the compressor on, and off if it clicks",
    "start": "amps at the start, on hold, or with the clamp while it hums",
    "shell": "the shell's temperature before you pulled the plug, and the room's",
    "winding": "ohms of the run winding alone, hot and after 12 hours, and the room's temperature",
    "overload": "ohms of the overload, off the unit and cold",
    "label": "a look at the overload",
    "start test": "the start test",
    "earth": "ohms from the plug's earth pin to metal, after the last part went in",
    "insulation": "insulation of plug L and plug N to metal, after the last part went in",
}


def missing(case: Case) -> tuple[str, ...]:
    """Readings that the lab needs and the job sheet lacks, in words.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return tuple(WORDS[need] for need, there in _found(case).items() if not there)


def backed(case: Case, answer: Answer) -> bool:
    """Whether the reading that an answer needs stands on the job sheet.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    if answer.needs is None:
        return True
    found = _found(case)
    return found["listening"] and found["watts"] if answer.needs == "watts" else found[answer.needs]


def worked(case: Case) -> dict[str, bool]:
    """Which points for the way of working were earned; none unless every needed reading was taken.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if missing(case):
        return dict.fromkeys(POINTS, False)
    lively = case.fault is not FaultName.LOW_SUPPLY  # a poor supply cannot show a meter the full rated volts
    return {
        "no_hazard": not case.sheet.hazards,
        "proved_dead": proved_dead(case.sheet, fully=lively),
        "zeroed": zeroed(case.sheet),
        "proof": all(proof_after_repair(case.sheet).values()),
    }
