"""What the readings of a job sheet prove: which faults they leave possible, and how many of them were paid for."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_acts import SECONDS, UnitTaken
from coldwright.labs.start_circuits.economy import can_meet, left_open
from coldwright.labs.start_circuits.readings import AFTER_RUN, FIRST, LATER, Diagnostic, Shows, looks, sound
from coldwright.labs.start_circuits.remedies import FOUND
from coldwright.labs.start_circuits.table import COLD_AGAIN_S, COLD_FROM_S, COLD_TO_S, RUN_FROM_S, table
from coldwright.labs.unit_case import UnitCase

STARTS = ("plug in", "inrush", "lowest volts")
PAID = ("ohms", "continuity", "capacitance", "start test", "amps ac")
PROOF = ("plug E", "cabinet metal", "shell", "thermostat 1")


def shown_by(taken: UnitTaken, model: str) -> Shows | None:
    """What a reading of the sheet shows, in the terms of the table; None where it shows nothing of use.

    Parameters
    ----------
    taken : UnitTaken
        The reading [-]
    model : str
        The model, for what its plate says [-]
    """
    text, value = taken.display.text, taken.display.value
    if taken.act == "listen":
        return Shows(word=sound({part.rpartition(" at ")[0] for part in text.split("; ")}))
    if taken.act == "inspect":
        return Shows(word=looks(model, text))
    if taken.act == "start test":
        words = ("starts", "does not start", "nothing")
        return Shows(word=next((word for word in words if text.startswith(word)), "stopped"))
    if math.isinf(value):
        return Shows(word="OL")
    leaves = taken.display.limit + taken.display.resolution
    return None if math.isnan(value) else Shows(value - leaves, value + leaves)


@dataclass(frozen=True)
class Before:
    """What went before a reading: how long it stood unplugged before its last start, and had power after that."""

    rested_s: float = math.inf
    ran_s: float = 0.0


def answers_to(test: Diagnostic, taken: UnitTaken, before: Before) -> bool:
    """Whether a reading was taken as a diagnostic test asks for.

    Parameters
    ----------
    test : Diagnostic
        The test [-]
    taken : UnitTaken
        The reading [-]
    before : Before
        What went before it [-]
    """
    state = taken.state
    if taken.act != test.act or sorted(taken.on) != sorted(test.on) or not taken.sound:
        return False
    if test.act in ("inspect", "volts ac"):
        return test.act == "inspect" or not state.plugged
    if test.act in ("listen", "inrush"):
        as_asked = not state.removed and (test.act == "inrush" or state.plugged)
        return as_asked and before.rested_s >= COLD_FROM_S and test.when in ("", _after(before.rested_s))
    if not set(test.off) <= state.removed or state.plugged:
        return False
    return test.when in ("", ptc_when(state.rested_s, before.ran_s))


def _after(rested_s: float) -> str:
    return FIRST if rested_s >= COLD_AGAIN_S else LATER


def ptc_when(rested_s: float, ran_s: float) -> str:
    """What the ohms of a PTC are to be held against; empty while even a good one may still be hot.

    Parameters
    ----------
    rested_s : float
        How long it has been without power [s]
    ran_s : float
        How long it had power before that [s]
    """
    if rested_s < COLD_FROM_S:
        return ""
    return AFTER_RUN if rested_s <= COLD_TO_S and ran_s >= RUN_FROM_S else _after(rested_s)


def mended_at(case: UnitCase) -> float:
    """Line on which the part that failed was fitted new; inf where it was not, or where there is none.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    """
    component = FOUND[case.unit.fault.name][2]
    fits = (line.n for line in case.lines if line.act == "fit" and line.on[:1] == (component,) and not line.hazards)
    return next(fits, math.inf)


def evidence(case: UnitCase) -> frozenset[FaultName]:
    """Faults that the readings before the repair leave possible.

    A reading that the true fault cannot show was taken under other conditions than the table's, such as with the
    thermostat open; it proves nothing and is passed over.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    """
    model, until = case.unit.cooler.model, mended_at(case)
    rows = table(model)
    found = []
    for taken in (t for t in case.taken if t.line.n < until):
        show = shown_by(taken, model)
        if show is None:
            continue
        before = before_reading(case, taken)
        for test, row in rows.items():
            if answers_to(test, taken, before) and can_meet(row[case.unit.fault.name], (show,)):
                found.append((test, show))
    return left_open(model, found)


def before_reading(case: UnitCase, taken: UnitTaken) -> Before:
    """What went before a reading.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    taken : UnitTaken
        A reading, or the act of plugging in itself [-]
    """
    lines = [line for line in case.lines if line.n <= taken.line.n]
    start = next((line for line in reversed(lines) if line.act in STARTS and not line.hazards), None)
    if start is None:
        return Before()
    earlier = [line for line in lines if line.n < start.n]
    pulled = next((line for line in reversed(earlier) if line.act == "isolate"), None)
    stopped_at = taken.line.at - SECONDS[taken.act] - taken.state.rested_s
    ran_s = stopped_at - (start.at - SECONDS[start.act])
    return Before(math.inf if pulled is None else start.at - pulled.at, ran_s)


def paid_readings(case: UnitCase) -> int:
    """How many paid readings were taken before the repair; proofs to earth and of polarity are free.

    Parameters
    ----------
    case : UnitCase
        The unit and its job sheet [-]
    """
    until = mended_at(case)
    return sum(t.act in PAID and t.line.n < until and not set(t.on) & set(PROOF) for t in case.taken)
