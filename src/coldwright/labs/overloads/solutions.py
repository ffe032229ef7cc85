"""What is right for every answer on one cooler, and why: from its true parts and from what its job sheet shows.

Tolerances are what the instruments allow and one digit more, carried through the formula by its corners.
"""

from __future__ import annotations

from coldwright.appliance.unit_faults import FaultName
from coldwright.labs.overloads.amps import NO_CLICK, NOT_DONE, average, start, trip, ultimate
from coldwright.labs.overloads.amps import spans as both_spans
from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.dead import earth, insulation, overload_ohms, winding_hot
from coldwright.labs.overloads.heard import ROUNDED_S
from coldwright.labs.question import Expected, Solution

FAULTS = {
    FaultName.NONE: "no fault",
    FaultName.OVERLOAD_OPEN: "overload open",
    FaultName.OVERLOAD_WEAK: "overload weak",
    FaultName.OVERLOAD_WRONG: "overload of the wrong rating",
    FaultName.SEIZED: "seized rotor",
    FaultName.RELAY_STUCK_OPEN: "start device open",
    FaultName.PTC_OPEN: "start device open",
    FaultName.RELAY_WELDED: "start device stays closed",
    FaultName.START_WINDING_OPEN: "start winding open",
    FaultName.GROUNDED: "grounded winding",
    FaultName.LOW_SUPPLY: "low supply",
    FaultName.CONDENSER_FAN_OPEN: "condenser fan",
    FaultName.CONDENSER_FAN_SEIZED: "condenser fan",
}
REMEDIES = {
    "no fault": "leave it as it is",
    "overload open": "fit a new overload",
    "overload weak": "fit a new overload",
    "overload of the wrong rating": "fit a new overload",
    "seized rotor": "change the compressor",
    "start device open": "fit a new start device",
    "start device stays closed": "fit a new start device",
    "start winding open": "change the compressor",
    "grounded winding": "change the compressor",
    "low supply": "have the supply put right",
    "condenser fan": "fit a new condenser fan",
}
WHY = {
    "no fault": "it runs at the plate's amps, nothing lets go, the supply, the windings and the fan are in order",
    "overload open": "off the unit and cold it still shows OL, so it will never close again",
    "overload weak": "the amps are right and the start device lets go, yet it opens far below its sheet's temperature",
    "overload of the wrong rating": "its label names far fewer locked-rotor amps than the plate of this compressor",
    "seized rotor": "both windings read, the supply is right, and with the devices bypassed it still does not start",
    "start device open": "with the devices bypassed the compressor starts, so the start device kept it from starting",
    "start device stays closed": "off the unit, cold, its contact still shows a path, so the start winding stays on",
    "start winding open": "from common to start the meter shows OL, cold and with everything off the pins",
    "grounded winding": "a pin shows less than 2 MΩ to the shell",
    "low supply": "the outlet gives far less than the plate's volts",
    "condenser fan": "its blades stand still while the compressor has power",
}


def solutions(case: Case) -> dict[str, Solution]:
    """What is right for every answer of a unit, with reasons.

    Parameters
    ----------
    case : Case
        The unit and the readings taken on it [-]
    """
    fault = FAULTS[case.fault]
    fits = case.fault is not FaultName.OVERLOAD_WRONG
    return {
        "sound": _sound(case),
        "on_seconds": _seconds(case, on=True),
        "off_seconds": _seconds(case, on=False),
        "average_watts": average(case),
        "start_amps": start(case),
        "trip_estimate": trip(case),
        "ultimate_amps": ultimate(case),
        "winding_hot": winding_hot(case),
        "overload_ohms": overload_ohms(case),
        "overload_rating": _word(
            "fits" if fits else "does not fit",
            f"the plate says locked rotor {case.unit.plate.locked_a:.0f} A; the overload's label must say so too",
        ),
        "start_test": _start_test(case),
        "fault": _word(fault, WHY[fault]),
        "remedy": _word(REMEDIES[fault], f"what is wrong: {fault}"),
        "earth_ohms": earth(case),
        "insulation": insulation(case),
    }


def _word(word: str, reason: str) -> Solution:
    return Solution(Expected(words=(word,)), f"{reason[:1].upper()}{reason[1:]}.")


def _sound(case: Case) -> Solution:
    words = case.truth.heard.words | (case.heard.words if case.heard.spans else frozenset())
    return Solution(Expected(words=tuple(sorted(words))), f"Heard over a quarter of an hour: it {' or '.join(words)}.")


def _start_test(case: Case) -> Solution:
    read = {t.display.text.partition(",")[0] for t in case.sheet.readings("start test")}
    if case.fault is FaultName.GROUNDED and not read:
        reason = "A pin shows less than 2 MΩ to the shell: a start would put mains on a grounded motor."
        return Solution(Expected(words=(NOT_DONE,)), reason)
    words = tuple(sorted(read)) or (case.truth.start_test,)
    return Solution(Expected(words=words), f"On the test cord, devices bypassed: it {' or '.join(words)}.")


def _seconds(case: Case, on: bool) -> Solution:
    spans = [seconds for seconds, _ in both_spans(case)[0 if on else 1]]
    if not spans:
        return Solution(Expected(words=(NO_CLICK,)), "The overload does not click, so there is no time to give.")
    what = "With power on the compressor" if on else "Silent"
    told = ", ".join(f"{s:.0f} s" for s in sorted({round(s) for s in spans}))
    words = () if case.truth.heard.clicked else (NO_CLICK,)  # it may begin to click only later
    reason = f"{what} from click to click: {told}, each end heard to the nearest {ROUNDED_S:.0f} s."
    return Solution(Expected(numbers=tuple((s, ROUNDED_S) for s in spans), words=words), reason)
