"""What is right for every answer of lab 05, worked out from the true unit and the readings, and why."""

from __future__ import annotations

import math

from coldwright.electrical.capacitor import parallel, series, series_volts
from coldwright.instruments.meter_ranges import OHMS, Function, limit_of, limit_of_ohms
from coldwright.labs.capacitors.at_work import SIZES, size, under_load, volts_in_service
from coldwright.labs.capacitors.case import Case
from coldwright.labs.capacitors.shelf import BLEED, microfarads
from coldwright.labs.capacitors.unit import CONDITIONS, TOLERANCE, Job
from coldwright.labs.question import Expected, Solution
from coldwright.quantities import Kind, show


def solutions(case: Case) -> dict[str, Solution]:
    """What is right for every answer, with reasons.

    Parameters
    ----------
    case : Case
        The learner's unit and replayed readings [-]
    """
    return {
        "capacitance": _capacitance(case),
        "resistance_across": _resistance(case),
        **_class(case.job),
        "condition": _condition(case),
        "part": _part(case.job),
        "owners_spare": _owners(case.job),
        **_pair(case.job),
        **{name: size(case.job, name) for name in SIZES},
        "under_load": under_load(case),
        "volts_in_service": volts_in_service(case),
    }


def three_digits(value: float) -> float:
    """Half of the third digit of a value: what rounding to three digits leaves open.

    Parameters
    ----------
    value : float
        Value above zero [any]
    """
    return float(0.5 * 10.0 ** (math.floor(math.log10(value)) - 2))


def _farads(value: float, digits: int = 4) -> str:
    return show(value, Kind.CAPACITANCE, "µF", digits)


def _ohms(value: float, digits: int = 4) -> str:
    return show(value, Kind.RESISTANCE, "Ω" if value < 1e3 else None, digits)


def _capacitance(case: Case) -> Solution:
    """An open one shows nothing and a shorted one OL; then what shows counts beside the word."""
    job = case.job
    if job.ending == "OPEN":
        nought = sum(limit_of(Function.CAPACITANCE, 0.0))
        reason = "Off the unit the meter finds no capacitance, and ohms find no short: it is open."
        return Solution(Expected(numbers=((0.0, nought),), words=("open",)), reason)
    if job.ending == "SHORTED":
        reason = "Off the unit the meter shows OL, for a short never charges, and the ohms are next to none: shorted."
        return Solution(Expected(words=("shorted", "OL")), reason)
    farad = job.came.farad
    off = sum(limit_of(Function.CAPACITANCE, farad))
    reason = f"Off the unit the meter reads {_farads(farad)}, give or take {_farads(off, 2)}."
    return Solution(Expected(numbers=((farad, off),)), reason)


def _resistance(case: Case) -> Solution:
    job = case.job
    ohm = job.ohm_across
    limit, digit = limit_of_ohms(ohm, job.lead_ohm) if math.isfinite(ohm) else (math.inf, math.inf)
    if math.isinf(limit):
        at_top = sum(limit_of_ohms(OHMS[-1].full_scale * 0.99))
        return Solution(Expected(words=("OL",), slip_tolerance=at_top), "No path across it that the meter sees: OL.")
    why = {
        "SHORTED": "that is a short",
        "LEAKY": "that is a leak, far below any bleed resistor",
    }.get(job.ending, "that is its bleed resistor")
    return Solution(Expected(numbers=((ohm, limit + digit),)), f"Across it the meter reads {_ohms(ohm)}: {why}.")


def _class(job: Job) -> dict[str, Solution]:
    marked = job.plate[0]
    lowest, highest = job.tolerance.band(marked)
    words = f"{TOLERANCE[job.purpose]} of {microfarads(marked)}"
    return {
        name: Solution(
            Expected(numbers=((value, three_digits(value)),)),
            f"The {which} that {words} allows is {_farads(value, 3)}.",
        )
        for name, value, which in (("lowest_allowed", lowest, "least"), ("highest_allowed", highest, "most"))
    }


def _condition(case: Case) -> Solution:
    job = case.job
    marked, volts = job.unit.parts.marked[job.field]
    plate, plate_v = job.plate
    lowest, highest = (_farads(value, 3) for value in job.tolerance.band(plate))
    reads = _farads(job.came.farad, 3)
    ohm = _ohms(job.ohm_across, 3) if math.isfinite(job.ohm_across) else "OL"
    reason = {
        "": f"It reads {reads}, inside {lowest} to {highest}, no leak, and its label fits the nameplate",
        "OPEN": f"No capacitance, and {ohm} across it: no path inside",
        "SHORTED": f"{ohm} across it: a short",
        "LOW": f"It reads {reads}, below the least of {lowest}",
        "LEAKY": f"The capacitance is right, but {ohm} across it lets current through",
        "WRONG_VALUE": f"It is marked {microfarads(marked)} and reads {reads}; the nameplate says {microfarads(plate)}",
        "WRONG_VOLTAGE": f"It is marked {volts:.0f} V; the nameplate asks for {plate_v:.0f} V",
    }[job.ending]
    return Solution(Expected(words=(CONDITIONS[job.ending],)), f"{reason}.")


def _part(job: Job) -> Solution:
    if not job.ending:
        return Solution(Expected(words=("none",)), "It is good, so it stays.")
    against = "; ".join(f"{letter}: {_against(job, letter)}" for letter in job.shelf if job.reasons(letter))
    return Solution(Expected(words=(job.fitting,)), f"Spare {job.fitting} fits. {against}.")


def _owners(job: Job) -> Solution:
    spare = job.shelf[job.owners]
    return Solution(Expected(words=(spare.breaks,)), f"Spare {job.owners}: {_against(job, job.owners)}.")


def _against(job: Job, letter: str) -> str:
    """Why a spare does not fit, with a bleed resistor written as on a part."""
    if job.shelf[letter].breaks != BLEED:
        return job.reasons(letter)[0]
    assert job.made.bleed_ohm is not None
    return f"it has no bleed resistor; the maker's one has {job.made.bleed_ohm / 1e3:g} kΩ across its terminals"


def _pair(job: Job) -> dict[str, Solution]:
    pair, volts = job.pair, job.plate[1]
    both = (pair.p_farad, pair.q_farad)
    p, q = (microfarads(farad) for farad in both)
    if pair.in_parallel:
        made, on_p = parallel(both), volts
        how, why = f"In parallel, {p} + {q}", f"In parallel each has the whole {volts:.0f} V"
    else:
        made, on_p = series(both), series_volts(both, volts)[0]
        how, why = f"In series, {p} × {q} over their sum", f"In series P has {volts:.0f} V × {q} / ({p} + {q})"
    return {
        "made_up": Solution(
            Expected(numbers=((made, three_digits(made)),)),
            f"{how}, makes {_farads(made, 3)}, the value on the nameplate.",
        ),
        "volts_on_p": Solution(
            Expected(numbers=((on_p, three_digits(on_p)),)), f"{why}, so P must stand {show(on_p, Kind.VOLTAGE, 'V')}."
        ),
    }
