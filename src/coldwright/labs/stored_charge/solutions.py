"""What is right for every answer of lab 01, worked out from the true unit and the readings, and why."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from coldwright.electrical.capacitor import stored_energy
from coldwright.electrical.measured import Measured
from coldwright.instruments.limits import Limits, reading_limits
from coldwright.instruments.meter_ranges import OHMS, limit_of_ohms
from coldwright.labs.question import Expected, Solution
from coldwright.labs.stored_charge.case import Case
from coldwright.labs.stored_charge.formulas import SAFE_V, USES, formulas, lead_of
from coldwright.labs.stored_charge.unit import (
    BLEED_WITHIN,
    BUS,
    IN_ORDER,
    LEAKY,
    LOW,
    MISSING,
    OPEN,
    START,
    TOLERANCE,
    TOO_HIGH,
    Job,
)
from coldwright.labs.stored_charge.van import EMPTY_V, FIT, PULSE_FACTOR, SLOW, WEAK, WITHIN_S, farads, ohms
from coldwright.labs.unit_case import DEAD_BELOW_V
from coldwright.quantities import Kind, show

NEVER = "never"


def solutions(case: Case) -> dict[str, Solution]:
    """What is right for every answer, with reasons.

    Parameters
    ----------
    case : Case
        The learner's unit and replayed readings [-]
    """
    return {
        "volts_left": _left(case),
        **{name: _number(case, name) for name in USES if name != "time_alone"},
        "lead": _lead(case),
        "ohms_across": _across(case),
        "time_alone": _alone(case),
        "condition": _condition(case),
        "energy_two": _two(case.job),
    }


def three_digits(value: float) -> float:
    """Half of the third digit of a value: what rounding to three digits leaves open.

    Parameters
    ----------
    value : float
        Value above zero [any]
    """
    return float(0.5 * 10.0 ** (math.floor(math.log10(value)) - 2))


def _volts(value: float) -> str:
    return show(value, Kind.VOLTAGE, "V", 4)


def _left(case: Case) -> Solution:
    shown = case.volts_left
    signs = {-1.0 for t in case.left if t.display.value < 0} | {1.0}
    numbers = tuple((sign * volts.value, volts.limit) for volts in shown for sign in sorted(signs, reverse=True))
    last = shown[-1].value
    why = "Next to nothing is left across it." if last < DEAD_BELOW_V else f"{_volts(last)} are left across it."
    if last > SAFE_V:
        why += f" That is above {SAFE_V:.0f} V: it bites."
    elif last < DEAD_BELOW_V and case.job.condition in (MISSING, OPEN) and case.job.store == START:
        why += " The relay closed its contact as the power went, and the windings emptied it. Do not count on that."
    return Solution(Expected(numbers=numbers), why)


def _worked(case: Case, name: str) -> Iterator[tuple[Limits, tuple[Measured, ...]]]:
    """The result for every set of readings that an answer can rest on."""
    uses, formula = USES[name], formulas(case.job)[name]
    pools = {"V": case.peaks, "C": case.farads, "R": [m for m in case.ohms if not m.is_open]}

    def of(*values: float) -> float:
        held = dict(zip(uses, values, strict=True))
        return formula(held["V"], held.get("C", 1e-6), held.get("R", 1.0))

    for readings in product(*(pools[letter] for letter in uses)):
        yield reading_limits(of, *readings), readings


def _number(case: Case, name: str) -> Solution:
    found = list(_worked(case, name))
    numbers = tuple((limits.value, limits.worst + three_digits(limits.value)) for limits, _ in found)
    limits, readings = found[-1]
    return Solution(Expected(numbers=numbers), _why(case, name, limits.value, *(m.value for m in readings)))


def _why(case: Case, name: str, result: float, volts: float, farad: float = 0.0, ohm: float = 0.0) -> str:
    job, peak, c = case.job, _volts(volts), show(farad, Kind.CAPACITANCE, digits=4)
    weak, slow = lead_of(job, WEAK).ohm, lead_of(job, SLOW).ohm
    rms = _volts(volts / math.sqrt(2))
    source = {START: "printed on it", BUS: "of the supply"}.get(job.store, "across it at work")
    heat = {START: f"Plan for the {rms} RMS printed on it", BUS: f"On the bus stand {peak} d.c."}.get(
        job.store, f"At work there are {rms} RMS across it"
    )
    return {
        "peak_volts": f"√2 × {rms} {source} = {peak}.",
        "charge": f"{c} × {peak} = {show(result, Kind.CHARGE, 'mC', 4)}.",
        "energy": f"½ × {c} × ({peak})² = {show(result, Kind.ENERGY, 'J', 4)}.",
        "low_lead_watts": f"({peak})² / {ohms(weak)} = {show(result, Kind.POWER, 'W', 4)} at the first moment.",
        "high_lead_time": f"{ohms(slow)} × {c} × ln({volts:.1f} / {EMPTY_V:.0f}) = {show(result, Kind.TIME, 's', 4)}.",
        "bleed_ohm": f"60 s / ({c} × ln({volts:.1f} / {SAFE_V:.0f})) = {show(result, Kind.RESISTANCE, digits=4)}.",
        "bleed_watts": f"{heat}; squared over {ohms(job.offered_ohm)} that is {show(result, Kind.POWER, 'W', 3)}.",
        "time_alone": f"{show(ohm, Kind.RESISTANCE, digits=4)} × {c} × ln({volts:.1f} / {SAFE_V:.0f}) = "
        f"{show(result, Kind.TIME, 's', 4)}.",
    }[name]


def _lead(case: Case) -> Solution:
    formula, parts = formulas(case.job), []
    volts, farad = case.peaks[-1].value, case.farads[-1].value
    for letter, lead in case.job.leads.items():
        watts = volts**2 / lead.ohm
        seconds = formula["high_lead_time"](volts, farad, 0.0) * lead.ohm / lead_of(case.job, SLOW).ohm
        first = f"{show(watts, Kind.POWER, 'W')} at first where {PULSE_FACTOR * lead.watts:g} W may be"
        worth = f"{first}, {show(seconds, Kind.TIME, 's')} to {EMPTY_V:.0f} V"
        parts.append(f"{letter}: {worth}")
    letter = next(letter for letter, lead in case.job.leads.items() if lead.worth == FIT)
    why = f"{'; '.join(parts)}. Only {letter} stands it and is done within {WITHIN_S:.0f} s. A screwdriver never."
    return Solution(Expected(words=(letter,)), why)


def _across(case: Case) -> Solution:
    readings = case.ohms
    shown = [m for m in readings if not m.is_open]
    if not shown:
        in_circuit = sum(limit_of_ohms(599.0))
        return Solution(
            Expected(words=("OL",), slip_tolerance=in_circuit), "No path across it that the meter sees: OL."
        )
    what = {LEAKY: "a leak", TOO_HIGH: "far too many ohms", OPEN: "the rectifiers of the board alone"}.get(
        case.job.condition, "its bleed resistor"
    )
    return Solution(
        Expected(numbers=tuple((m.value, m.limit) for m in shown)),
        f"Across it the meter reads {show(shown[-1].value, Kind.RESISTANCE, digits=4)}: {what}.",
    )


def _alone(case: Case) -> Solution:
    if all(m.is_open for m in case.ohms):
        top = OHMS[-1].full_scale
        why = f"Nothing across it that the meter can see, up to {top / 1e6:.0f} MΩ: it never empties by itself."
        return Solution(Expected(words=(NEVER,)), why)
    return _number(case, "time_alone")


def _condition(case: Case) -> Solution:
    job, condition = case.job, case.job.condition
    bleed, ohm = job.makers_bleed_ohm, case.ohms[-1]
    reads = "OL" if ohm.is_open else show(ohm.value, Kind.RESISTANCE, digits=3)
    fitted = _fitted(job)
    held = show(case.farads[-1].value, Kind.CAPACITANCE, digits=3)
    edge = "" if job.store == BUS else f", where {TOLERANCE[job.store][0]} of {farads(job.marked[0])} is allowed"
    there = "" if job.store == BUS else "The bleed resistor is there, but "
    reason = {
        IN_ORDER: f"It holds {held}{edge}, and reads {reads} where {fitted}",
        MISSING: f"A look shows no bleed resistor, and across it stands {reads}; {fitted}",
        OPEN: f"{there}across it stands {reads} where {fitted}",
        TOO_HIGH: f"Across it stand {reads} where {fitted}",
        LEAKY: f"Across it stand {reads}, {_less_than(bleed)}",
        LOW: f"It holds only {held}{edge}",
    }[condition]
    words = (OPEN, MISSING) if job.store == BUS and condition == OPEN else (condition,)
    return Solution(Expected(words=words), f"{reason[0].upper()}{reason[1:]}.")


def _fitted(job: Job) -> str:
    """What the ohms across it are held against."""
    if job.store == BUS:
        sound, burnt = (show(ohm, Kind.RESISTANCE) for ohm in job.sheet_ohm)
        return f"its sheet has {sound} ±{100 * BLEED_WITHIN:.0f} %, and {burnt} once burnt open"
    bleed = job.makers_bleed_ohm
    return f"the maker fits {'no bleed resistor' if bleed is None else f'{ohms(bleed)} ±{100 * BLEED_WITHIN:.0f} %'}"


def _less_than(bleed: float | None) -> str:
    """What a leak is held against."""
    if bleed is None:
        return "where the maker fits no bleed resistor and a good one shows OL"
    return f"far less than the {ohms(bleed)} that the maker fits"


def _two(job: Job) -> Solution:
    pair = job.pair
    joules = stored_energy(pair.farad, pair.volts)
    made = show(pair.farad, Kind.CAPACITANCE, "µF", 4)
    how = "Side by side they add up to" if pair.in_parallel else "In series product over sum is"
    why = f"{how} {made}; ½ × {made} × ({pair.volts:.0f} V)² = {show(joules, Kind.ENERGY, 'J', 4)}."
    return Solution(Expected(numbers=((joules, three_digits(joules)),)), why)
