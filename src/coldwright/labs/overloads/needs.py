"""Which readings the lab on overloads needs, and which points for the way of working were earned."""

from __future__ import annotations

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_acts import METAL
from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.evidence import listened, proves, repaired, stayed_dead
from coldwright.labs.question import Answer
from coldwright.labs.unit_case import proof_after_repair, proved_dead, zeroed

POINTS = ("no_hazard", "proved_dead", "zeroed", "proof", "repaired")


def _found(case: Case) -> dict[str, bool]:
    """For each need, whether the reading stands on the sheet; who finds it grounded need not start it any more."""
    clicks = case.truth.heard.clicked or case.heard.clicked
    on, off = bool(case.watts(on=True)), bool(case.watts(on=False))
    grounded = case.found_grounded is not None
    return {
        "listening": listened(case),
        "watts": (on and off) if clicks else on or off,
        "start": grounded or bool(case.start_amps),
        "shell": bool(case.shell_on_arrival) and case.sheet.has("temperature", "room"),
        "winding": bool((case.hot() or case.hot(zeroed=False)) and case.cold) and case.sheet.has("temperature", "room"),
        "overload": bool(case.overload_apart),
        "label": bool(case.labels),
        "start test": grounded or case.sheet.has("start test"),
        "evidence": proves(case),
        "earth": bool(case.proof("ohms", "plug E")),
        "insulation": bool(case.proof("insulation", "plug L") and case.proof("insulation", "plug N")),
    }


WORDS = {
    "listening": "minutes of listening from click to click, or ten without a click",
    "watts": "watts with the compressor on, and off if it clicks",
    "start": "amps at the start, on hold, or with the clamp while it hums",
    "shell": "the shell's temperature before you pulled the plug, and the room's",
    "winding": "ohms of the run winding alone, hot and after 12 hours, and the room's temperature",
    "overload": "ohms of the overload, off the unit and cold",
    "label": "a look at the overload",
    "start test": "the start test",
    "evidence": "the reading that proves what is wrong: supply, insulation, overload, start device, rotor or fan",
    "earth": "ohms from the plug's earth pin to metal, after the last part went in",
    "insulation": "insulation of plug L and plug N to metal, after the last part went in",
}
NOT_ZEROED = "You read it, but the leads were not zeroed; read it again."
UNFAIR = {
    "winding": "You read it, but not alone, or not both hot and cold; read it again.",
    "overload": "You read it, but not off the unit and cold; read it again.",
    "earth": "You read it, but not with all parts in after the work; read it again.",
    "insulation": "You read it, but not with all parts in after the work; read it again.",
}
READ_ON = {
    "winding": ("ohms", (("pin C", "pin R"),)),
    "overload": ("ohms", (("overload 1", "overload 2"),)),
    "earth": ("ohms", tuple(("plug E", metal) for metal in METAL)),
    "insulation": ("insulation", tuple((pin, metal) for pin in ("plug L", "plug N") for metal in METAL)),
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


def unfair(case: Case, answer: Answer) -> str:
    """What is not fair about the readings that were taken for an answer, in a sentence; "" where nothing is.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    if answer.needs not in READ_ON:
        return ""
    act, places = READ_ON[answer.needs]
    if not any(case.sheet.has(act, *ends) for ends in places):
        return ""
    if not backed(case, answer):
        return UNFAIR[answer.needs]
    counted = {
        "winding": [*case.hot(), *case.hot(zeroed=False), *case.cold],
        "overload": case.overload_apart,
        "earth": case.proof("ohms", "plug E"),
    }.get(answer.needs, [])
    return NOT_ZEROED if any(not taken.zeroed for taken in counted) else ""


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
        "proof": _proof(case),
        "repaired": repaired(case),
    }


def _proof(case: Case) -> bool:
    """Whether the unit was proved safe, or left dead where only another compressor can make it safe."""
    proofs = proof_after_repair(case.sheet)
    if case.fault is FaultName.GROUNDED:
        return proofs["earth"] and proofs["polarity"] and stayed_dead(case)
    return all(proofs.values())
