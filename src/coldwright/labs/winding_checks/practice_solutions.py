"""What is right for every answer of a practice unit, and why.

It comes from the electrical functions, put to what a sound meter shows on the cold unit. It is worked out apart from
the answer key of the lab, and no ticket of a class leads here.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import product

from coldwright.electrical.measured import Measured
from coldwright.electrical.pins import Pattern, PinReadings, Pins, SumRule, sum_rule
from coldwright.electrical.verdict import Finding, judge_windings
from coldwright.electrical.windings import REFERENCE_K, Conductor, resistance_at, temperature_rise
from coldwright.instruments.insulation_tester import limit_of_insulation
from coldwright.instruments.multimeter import OHMS, limit_of_ohms
from coldwright.instruments.thermometer import RANGE as THERMOMETER
from coldwright.labs.question import Expected, Solution
from coldwright.labs.winding_checks.case import PAIR_NAMES, PAIRS, Case
from coldwright.quantities import Kind, show
from coldwright.quantities.constants import ICE_POINT_K

ROOM_LIMIT_K = THERMOMETER.limit(0.0) + THERMOMETER.resolution


def solutions(case: Case) -> dict[str, Solution]:
    """What is right for every answer of a practice unit, with reasons.

    Parameters
    ----------
    case : Case
        The unit and the readings taken on it [-]
    """
    readings = PinReadings({frozenset(pair): _cold(case, pair) for pair in PAIRS})
    insulation = _insulation(case)
    finding = judge_windings(readings, case.unit.room_k, case.unit.plate.windings, insulation)
    return {
        **{name: _pair_solution(case, pair) for name, pair in PAIR_NAMES.items()},
        **_pin_solutions(readings, finding),
        "sum_rule": _sum_solution(readings),
        "meter_limit": _limit_solution(case),
        "resistance_at_20": _at_20_solution(case),
        "temperature_rise": _rise_solution(case),
        "insulation": _insulation_solution(insulation),
        "verdict": Solution(Expected(words=(finding.verdict.value,)), _sentence("; ".join(finding.reasons))),
    }


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:].rstrip(".") + "."


def _ohms(value: float, digits: int = 4) -> str:
    return show(value, Kind.RESISTANCE, "Ω", digits)


def _cold(case: Case, pair: tuple[str, str]) -> Measured:
    ohm = case.cold[pair]
    limit, _ = limit_of_ohms(ohm, case.lead_ohm)
    return Measured(math.inf) if math.isinf(limit) else Measured(ohm, limit)


def _tolerance(case: Case, ohm: float) -> float:
    """The meter's limit at a resistance and one digit of what it shows [Ω]."""
    return sum(limit_of_ohms(ohm, case.lead_ohm))


def _spread(formula: Callable[..., float], *terms: tuple[float, float]) -> tuple[float, float]:
    """A formula's value, and the furthest it gets with each term anywhere within its tolerance."""
    middle = formula(*(value for value, _ in terms))
    corners = product(*((value - off, value + off) for value, off in terms))
    return middle, max(abs(formula(*corner) - middle) for corner in corners)


def _pair_solution(case: Case, pair: tuple[str, str]) -> Solution:
    reading = _cold(case, pair)
    words = f"cold and with the leads zeroed, pins {pair[0]} and {pair[1]} read"
    if reading.is_open:
        in_circuit = _tolerance(case, OHMS[2].full_scale - 1)
        return Solution(Expected(words=("OL",), slip_tolerance=in_circuit), _sentence(f"{words} OL: there is no path"))
    expected = Expected(numbers=((reading.value, _tolerance(case, reading.value)),))
    return Solution(expected, _sentence(f"{words} {_ohms(reading.value)}"))


def _pin_solutions(readings: PinReadings, finding: Finding) -> dict[str, Solution]:
    pins = finding.pins
    known = {"common": pins.common, "run": pins.run, "start": pins.start}
    otherwise = "none" if pins.pattern is Pattern.THREE_EQUAL else "cannot tell"
    reasons = _pin_reasons(readings, pins, finding)
    return {
        role: Solution(Expected(words=(pin or otherwise,)), _sentence(reasons[role])) for role, pin in known.items()
    }


def _pin_reasons(readings: PinReadings, pins: Pins, finding: Finding) -> dict[str, str]:
    roles = ("common", "run", "start")
    if pins.pattern is Pattern.THREE_EQUAL:
        return dict.fromkeys(roles, "three equal windings: an inverter compressor has no common, run or start pin")
    if pins.pattern is Pattern.ONE_PAIR:
        (pair, _) = readings.closed[0]
        between = "; ".join(finding.reasons[:2])
        unknown = f"of pins {' and '.join(sorted(pair))} ohms cannot tell which is which"
        return {role: between if getattr(pins, role) else unknown for role in roles}
    (low, low_r), (middle, middle_r), (high, _) = readings.closed
    return {
        "common": f"the highest pair, {_pair(high)}, leaves out pin {pins.common}",
        "run": f"from common, pin {pins.run} reads less, {_ohms(low_r.value)} on pair {_pair(low)}",
        "start": f"from common, pin {pins.start} reads more, {_ohms(middle_r.value)} on pair {_pair(middle)}",
    }


def _pair(pair: frozenset[str]) -> str:
    return " and ".join(sorted(pair))


def _sum_solution(readings: PinReadings) -> Solution:
    rule = sum_rule(readings)
    if rule.holds is not None:
        word = "holds" if rule.holds else "does not hold"
    else:
        word = "does not apply" if len(readings.closed) == 3 else "cannot be tested"
    return Solution(Expected(words=(word,)), _sentence(rule.reason if rule.holds is None else _sum(readings, rule)))


def _sum(readings: PinReadings, rule: SumRule) -> str:
    low, middle, high = (_ohms(reading.value) for _, reading in readings.closed)
    off, allowed = f"{abs(rule.difference):.3f} Ω", f"{rule.allowance:.3f} Ω"
    return f"{low} + {middle} differs from the highest, {high}, by {off}; the meter allows {allowed} in all"


def _limit_solution(case: Case) -> Solution:
    pair = max((p for p in PAIRS if not _cold(case, p).is_open), key=lambda p: case.cold[p])
    shown = [taken.display for taken in case.cold_readings(pair)]
    reading = shown[-1].measured if shown else _cold(case, pair)
    digit = shown[-1].resolution if shown else limit_of_ohms(reading.value, case.lead_ohm)[1]
    chosen = next(r for r in OHMS if math.isclose(r.resolution, digit))
    reason = (
        f"{chosen.percent:g} % of {_ohms(reading.value)} is {_ohms(reading.value * chosen.percent / 100, 2)}, and "
        f"{chosen.digits} digits of {digit:g} Ω are {_ohms(chosen.digits * digit, 1)}: together "
        f"±{_ohms(reading.limit, 2)}"
    )
    return Solution(Expected(numbers=((reading.limit, 1.1 * digit),)), _sentence(reason))


def _at_20_solution(case: Case) -> Solution:
    ohm, room = case.cold[case.lowest_pair], case.unit.room_k
    value, off = _spread(resistance_at, (ohm, _tolerance(case, ohm)), (room, ROOM_LIMIT_K))
    k, room_c, at_c = Conductor.COPPER.value, room - ICE_POINT_K, REFERENCE_K - ICE_POINT_K
    reason = f"{_ohms(ohm)} × ({k} + {at_c:.0f}) / ({k} + {room_c:.1f}) = {_ohms(value)}"
    return Solution(Expected(numbers=((value, off),)), _sentence(reason))


def _rise_solution(case: Case) -> Solution:
    room = case.unit.room_k
    hot = [(pair, taken.winding_k) for pair, taken in case.rise_readings()]
    if not hot:
        on_arrival = case.unit.pair_resistances(case.unit.arrival_k)
        hot = [(min(on_arrival, key=lambda pair: on_arrival[pair]), case.unit.arrival_k)]
    numbers = []
    for pair, hot_k in hot:
        terms = (case.cold[pair], case.unit.pair_resistances(hot_k)[pair])
        ranges = [(ohm, _tolerance(case, ohm)) for ohm in terms]
        numbers.append(
            _spread(lambda cold, hot, room: temperature_rise(cold, hot, room, room), *ranges, (room, ROOM_LIMIT_K))
        )
    cold_c = room - ICE_POINT_K
    rise = f"{numbers[-1][0]:.1f} K"
    reason = f"hot less cold, over cold, times ({Conductor.COPPER.value} + {cold_c:.1f}), gives a rise of {rise}"
    return Solution(Expected(numbers=tuple(numbers)), _sentence(reason))


def _insulation(case: Case) -> Measured:
    ohm = case.unit.lowest_insulation(case.unit.room_k)
    limit, digit = limit_of_insulation(ohm)
    return Measured(math.inf) if math.isinf(limit) else Measured(ohm, limit + digit)


def _insulation_solution(lowest: Measured) -> Solution:
    if lowest.is_open:
        return Solution(Expected(words=("OL",)), "No pin shows a resistance to the shell that the tester can see.")
    reason = f"the lowest of the three pins reads {show(lowest.value, Kind.RESISTANCE)} to the shell"
    return Solution(Expected(numbers=((lowest.value, lowest.limit),)), _sentence(reason))
