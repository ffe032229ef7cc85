"""What each known slip of safe isolation and the meter gives on a true unit."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from coldwright.electrical.measured import Measured
from coldwright.instruments.display import pick_range
from coldwright.instruments.meter_ranges import BEEPS_BELOW_OHM, OHMS, VOLTS_AC, limit_of_ohms
from coldwright.instruments.misuse import ratings
from coldwright.labs.safe_isolation.case import Case
from coldwright.labs.safe_isolation.compare import Against
from coldwright.labs.safe_isolation.solutions import fan_word, solutions
from coldwright.labs.safe_isolation.unit import FAN_TOLERANCE, NOTHING, OLD_METER, PLATE_TOLERANCE, old_reading
from coldwright.labs.unit_case import EARTHED_BELOW_OHM

Given = float | str | tuple[float, ...] | None
METER = VOLTS_AC[-1]
ROOT = math.sqrt(2)


def _leads(case: Case, name: str) -> Given:
    if name in ("fan_ohm", "fan"):
        return _fan_with_leads(case, name)
    shown = case.earth_ohm + case.base.lead_ohm
    if name == "earth_ohm":
        return shown if math.isfinite(shown) else None
    return "poor" if case.job.earth == "good" and shown > EARTHED_BELOW_OHM else None


def _fan_with_leads(case: Case, name: str) -> Given:
    """The fan's reading with the leads in it, or the verdict that follows from it where that is another one."""
    ohm = case.fan_ohm + case.base.lead_ohm
    if name == "fan_ohm":
        return ohm
    shown = [t.display.measured for t in case.fan_readings if not t.zeroed] or [Measured(ohm, limit_of_ohms(ohm)[0])]
    word = fan_word(shown[-1], case.job.fan_plate_ohm)
    return None if word in solutions(case)["fan"].expected.words else word


def _no_digits(case: Case, _name: str) -> Given:
    return tuple(shown * METER.percent / 100 for shown, _, _ in case.supply_shown)


def _of_range(_case: Case, _name: str) -> Given:
    return METER.limit(METER.full_scale)


def _ghost_live(case: Case, _name: str) -> Given:
    return None if case.wire_is_live else "live"


def _low_input(case: Case, _name: str) -> Given:
    return case.wire_low_volts


def _added(case: Case, _name: str) -> Given:
    other = old_reading(case.job.old_volts)[1]
    return tuple(limit + other for _, limit, _ in case.supply_shown)


def _larger_alone(case: Case, _name: str) -> Given:
    other = old_reading(case.job.old_volts)[1]
    return tuple(max(limit, other) for _, limit, _ in case.supply_shown)


def _times(factor: float) -> Callable[[Case, str], Given]:
    """What the meter showed times a factor."""
    return lambda case, _name: tuple(factor * shown for shown, _, _ in case.supply_shown)


def _rated(case: Case, name: str) -> Given:
    return case.rated_volts * (ROOT if name == "peak_volts" else 1.0)


def _most_volts(case: Case, _name: str) -> Given:
    meters = case.job.lettered
    letter = max(meters, key=lambda each: ratings(meters[each])[0][1])
    return None if case.job.suits(letter) else letter


def _highest_category(case: Case, _name: str) -> Given:
    meters = case.job.lettered
    letter = max(meters, key=lambda each: ratings(meters[each])[0][0])
    return None if case.job.suits(letter) else letter


def _zero_once(case: Case, _name: str) -> Given:
    return None if case.job.lacks == NOTHING else NOTHING


def _limit_left_out(case: Case, name: str) -> Given:
    """The verdict by the bare number, where the reading cannot tell."""
    if solutions(case)[name].expected.words != (Against.CANNOT_TELL.value,):
        return None
    if name == "fan":
        shown = case.fan_readings[-1].display.value if case.fan_readings else case.fan_ohm
        return "agrees" if abs(shown / case.job.fan_plate_ohm - 1) <= FAN_TOLERANCE else "differs"
    shown = case.supply_shown[-1][0]
    return Against.WITHIN.value if shown >= case.rated_volts * (1 - PLATE_TOLERANCE) else Against.LOW.value


def _plate_exact(case: Case, name: str) -> Given:
    """What is inside its tolerance called wrong, since it is not the number on the plate."""
    right = solutions(case)[name].expected.words
    if name == "fan":
        return "differs" if right == ("agrees",) else None
    if right != (Against.WITHIN.value,):
        return None
    return Against.LOW.value if case.supply_shown[-1][0] < case.rated_volts else Against.HIGH.value


def _must_be_equal(case: Case, _name: str) -> Given:
    return "differ" if solutions(case)["meters"].expected.words == ("agree",) else None


def _beep(case: Case, _name: str) -> Given:
    beeps = case.earth_ohm + case.base.lead_ohm < BEEPS_BELOW_OHM
    return "good" if case.job.earth == "poor" and beeps else None


def _in_place(case: Case, _name: str) -> Given:
    shown = case.fan_in_place_ohm
    return shown if shown < OHMS[-1].full_scale else None


def _one_range_off(case: Case, name: str, step: int) -> Given:
    """The range above the right one, or below it, and its digit; none where there is no such range."""
    chosen = pick_range(OLD_METER, case.supply_shown[-1][0])
    assert chosen is not None
    number = OLD_METER.index(chosen) + step
    if number >= len(OLD_METER):
        return None
    other = OLD_METER[number]
    return f"{other.full_scale:g} V" if name == "old_range" else other.resolution


def _range_too_high(case: Case, name: str) -> Given:
    return _one_range_off(case, name, 1)


def _range_too_low(case: Case, name: str) -> Given:
    return _one_range_off(case, name, -1)


VALUES: Mapping[str, Callable[[Case, str], Given]] = {
    "leads not zeroed": _leads,
    "digits forgotten": _no_digits,
    "percent of the range": _of_range,
    "ghost taken for live": _ghost_live,
    "low input for the high one": _low_input,
    "limits added": _added,
    "larger limit alone": _larger_alone,
    "peak for RMS": _times(ROOT),
    "RMS for peak": _times(1.0),
    "peak to peak": _times(2 * ROOT),
    "rated for measured": _rated,
    "category by the volts alone": _most_volts,
    "volts left out of the rating": _highest_category,
    "0 V once is dead": _zero_once,
    "limit left out of the verdict": _limit_left_out,
    "plate value taken as exact": _plate_exact,
    "two readings must be equal": _must_be_equal,
    "a beep is enough": _beep,
    "fan read in place": _in_place,
    "range higher than needed": _range_too_high,
    "range below the reading": _range_too_low,
}
