"""What each known slip of lab 01 gives on a true unit."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from itertools import product

from coldwright.electrical.capacitor import parallel, series, stored_energy
from coldwright.electrical.capacitor_discharge import IN_ONE_MINUTE
from coldwright.labs.stored_charge.case import DEAD_BELOW_V, Case
from coldwright.labs.stored_charge.formulas import USES, Worked, formulas, lead_of
from coldwright.labs.stored_charge.unit import BUS, IN_ORDER, LEAKY, LOW, MISSING, OPEN, RUN, START, TOO_HIGH
from coldwright.labs.stored_charge.van import SLOW, WEAK

Value = Callable[[Case, str], float | str | tuple[float, ...] | None]
LN_TO_LG = math.log(10)


def each(case: Case, name: str, worked: Worked) -> tuple[float, ...]:
    """What a formula gives for every set of readings that an answer can rest on.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    name : str
        Name of the answer [-]
    worked : callable
        Takes peak volts, farads and ohms [-]
    """
    ohms = [m.value for m in case.ohms if not m.is_open] if "R" in USES[name] else [1.0]
    farads = [m.value for m in case.farads] if "C" in USES[name] else [1e-6]
    return tuple(worked(v, c, r) for v, c, r in product([m.value for m in case.peaks], farads, ohms))


def _formula(case: Case, name: str) -> Worked:
    return formulas(case.job)[name]


def _no_charge(case: Case, _name: str) -> float | None:
    """Nothing, where something is left."""
    return 0.0 if all(volts.value > DEAD_BELOW_V for volts in case.volts_left) else None


def _rms(case: Case, name: str) -> tuple[float, ...] | None:
    """The RMS volts in place of their peak; across a capacitor at work they are right for heat."""
    if name == "bleed_watts" and case.job.store != BUS:
        return None
    worked = _formula(case, name)
    return each(case, name, lambda v, c, r: worked(v / math.sqrt(2), c, r))


def _peak_at_work(case: Case, name: str) -> tuple[float, ...] | None:
    """Peak volts for the heat of a resistor on alternating volts."""
    if case.job.store == BUS:
        return None
    worked = _formula(case, name)
    return each(case, name, lambda v, c, r: worked(v * math.sqrt(2), c, r))


def _half(case: Case, name: str) -> float | tuple[float, ...]:
    """C·V² without the half."""
    if name == "energy_two":
        return 2 * _two(case)
    return each(case, name, lambda v, c, _r: c * v**2)


def _not_squared(case: Case, name: str) -> float | tuple[float, ...]:
    """½·C·V with the volts not squared."""
    if name == "energy_two":
        return 0.5 * case.job.pair.farad * case.job.pair.volts
    return each(case, name, lambda v, c, _r: 0.5 * c * v)


def _thousand(case: Case, name: str) -> tuple[float, ...]:
    """Microfarads taken for nanofarads, or for millifarads."""
    worked = _formula(case, name)
    return tuple(value * factor for value in each(case, name, worked) for factor in (1e-3, 1e3))


def _joules(case: Case, _name: str) -> tuple[float, ...]:
    """The energy where watts are asked for."""
    return each(case, "energy", _formula(case, "energy"))


def _time_constant(case: Case, name: str) -> tuple[float, ...]:
    """R·C taken for the time to the safe voltage."""
    if name == "high_lead_time":
        ohm = lead_of(case.job, SLOW).ohm
        return each(case, name, lambda _v, c, _r: c * ohm)
    if name == "bleed_ohm":
        return each(case, name, lambda _v, c, _r: IN_ONE_MINUTE.seconds / c)
    return each(case, name, lambda _v, c, r: c * r)


def _log_ten(case: Case, name: str) -> tuple[float, ...]:
    """The logarithm to ten in place of the natural one."""
    worked = _formula(case, name)
    factor = LN_TO_LG if name == "bleed_ohm" else 1 / LN_TO_LG
    return tuple(value * factor for value in each(case, name, worked))


def _in_circuit(case: Case, _name: str) -> tuple[float, ...] | None:
    """Ohms with the windings still beside it; None where nothing hangs on it."""
    if case.job.store == BUS:
        return None
    read = tuple(t.display.value for t in case.wired_ohms if math.isfinite(t.display.value))
    there = case.ohm_in_circuit
    changed = math.isfinite(there) and there < 0.5 * case.job.ohm_across
    return (read or (there,)) if changed else None


def _two(case: Case) -> float:
    return stored_energy(case.job.pair.farad, case.job.pair.volts)


def _series(case: Case, _name: str) -> float | None:
    """Product over sum where the two add up."""
    pair = case.job.pair
    return stored_energy(series((pair.p_farad, pair.q_farad)), pair.volts) if pair.in_parallel else None


def _parallel(case: Case, _name: str) -> float | None:
    """The sum where the two are in a row."""
    pair = case.job.pair
    return None if pair.in_parallel else stored_energy(parallel((pair.p_farad, pair.q_farad)), pair.volts)


def _lead(worth: str) -> Value:
    """The letter of a lead that is not fit."""
    return lambda case, _name: next(letter for letter, lead in case.job.leads.items() if lead.worth == worth)


def _says(word: str, *conditions: str, stores: tuple[str, ...] = (START, RUN, BUS)) -> Value:
    """A slip that says a word in some conditions."""
    return lambda case, _name: word if case.job.condition in conditions and case.job.store in stores else None


VALUES: Mapping[str, Value] = {
    "plug out taken for empty": _no_charge,
    "RMS for peak": _rms,
    "peak for the heat": _peak_at_work,
    "half forgotten": _half,
    "volts not squared": _not_squared,
    "a thousand off in the capacitance": _thousand,
    "joules for watts": _joules,
    "time constant taken for safe": _time_constant,
    "logarithm to ten": _log_ten,
    "ohms in circuit": _in_circuit,
    "series for parallel": _series,
    "parallel for series": _parallel,
    "screwdriver": lambda _case, _name: "screwdriver",
    "lead too weak": _lead(WEAK),
    "lead too slow": _lead(SLOW),
    "bleed resistor trusted": _says(IN_ORDER, MISSING, OPEN, TOO_HIGH),
    "leak not seen": _says(IN_ORDER, LEAKY),
    "low value not seen": _says(IN_ORDER, LOW),
    "bleed resistor taken for a leak": _says(LEAKY, IN_ORDER, TOO_HIGH, stores=(START, BUS)),
    "open taken for missing": _says(MISSING, OPEN, stores=(START,)),
    "missing taken for open": _says(OPEN, MISSING, stores=(START,)),
    "none fitted taken for missing": _says(MISSING, IN_ORDER, stores=(RUN,)),
}
