"""Answer key of lab 03: what is right, worked out from each learner's own unit.

The instructor's side. Nothing here is handed out, built into a notebook or bound into the sandbox. Tolerances are the
instrument's accuracy plus one digit of what it shows, carried through the formula.
"""

from __future__ import annotations

from coldwright.appliance.faults import FaultKind
from coldwright.electrical.verdict import Verdict
from coldwright.electrical.windings import Conductor, resistance_at
from coldwright.instruments.insulation_tester import limit_of_insulation
from coldwright.instruments.multimeter import limit_of_ohms
from coldwright.instruments.thermometer import RANGE as THERMOMETER
from coldwright.labs.question import Expected
from coldwright.labs.winding_checks.case import PAIR_NAMES, Case

ZERO_K = Conductor.COPPER.zero_resistance_k
THERMOMETER_LIMIT_K = THERMOMETER.limit(0.0) + THERMOMETER.resolution

IN_CIRCUIT_BELOW_OHM = 599.0  # what an open pair can read through the fan with the connector on; top of that range

VERDICTS = {
    FaultKind.NONE: Verdict.GOOD,
    FaultKind.OPEN_RUN: Verdict.OPEN_WINDING,
    FaultKind.OPEN_START: Verdict.OPEN_WINDING,
    FaultKind.OPEN_PROTECTOR: Verdict.OPEN_PROTECTOR,
    FaultKind.SHORTED_RUN: Verdict.SHORTED_TURNS,
    FaultKind.SHORTED_START: Verdict.SHORTED_TURNS,
    FaultKind.GROUNDED: Verdict.GROUNDED,
}
LEFT_OUT = {FaultKind.OPEN_RUN: "run", FaultKind.OPEN_START: "start", FaultKind.OPEN_PROTECTOR: "common"}


def key(case: Case) -> dict[str, Expected]:
    """What is right for every answer of one case.

    Parameters
    ----------
    case : Case
        The learner's unit and replayed readings [-]

    Returns
    -------
    dict of str to Expected
        Numbers in SI.
    """
    return {
        **_pairs(case),
        **_pins(case),
        "sum_rule": Expected(words=(_sum_rule(case),)),
        "meter_limit": _meter_limit(case),
        "resistance_at_20": _at_20(case),
        "temperature_rise": _rise(case),
        "insulation": _insulation(case),
        "verdict": Expected(words=(VERDICTS[case.unit.fault.kind].value,)),
    }


def _ohm_limit(case: Case, resistance: float) -> float:
    limit, digit = limit_of_ohms(resistance, case.lead_ohm)
    return limit + digit


def _pairs(case: Case) -> dict[str, Expected]:
    answers = {}
    for name, pair in PAIR_NAMES.items():
        ohm = case.cold[pair]
        shows = limit_of_ohms(ohm)[0] != float("inf")
        number = Expected(numbers=((ohm, _ohm_limit(case, ohm)),))
        answers[name] = (
            number if shows else Expected(words=("OL",), slip_tolerance=_ohm_limit(case, IN_CIRCUIT_BELOW_OHM))
        )
    return answers


def _pins(case: Case) -> dict[str, Expected]:
    unit = case.unit
    names = {"common": unit.common, "run": unit.run, "start": unit.start}
    if unit.plate.is_inverter:
        return {role: Expected(words=("none",)) for role in names}
    left_out = LEFT_OUT.get(unit.fault.kind)
    if left_out is None:
        return {role: Expected(words=(pin,)) for role, pin in names.items()}
    return {role: Expected(words=(pin if role == left_out else "cannot tell",)) for role, pin in names.items()}


def _sum_rule(case: Case) -> str:
    if case.unit.plate.is_inverter:
        return "does not apply"
    return "cannot be tested" if case.unit.fault.kind in LEFT_OUT else "holds"


def _meter_limit(case: Case) -> Expected:
    pair, ohm = max(((p, r) for p, r in case.cold.items() if limit_of_ohms(r)[0] != float("inf")), key=lambda i: i[1])
    readings = case.cold_readings(pair)
    if readings:
        limit, digit = readings[-1].display.limit, readings[-1].display.resolution
    else:
        limit, digit = limit_of_ohms(ohm, case.lead_ohm)
    return Expected(numbers=((limit, 1.1 * digit),))


def _at_20(case: Case) -> Expected:
    ohm, room = case.cold[case.lowest_pair], case.unit.room_k
    right = resistance_at(ohm, room)
    relative = _ohm_limit(case, ohm) / ohm + THERMOMETER_LIMIT_K / (room - ZERO_K)
    return Expected(numbers=((right, right * relative),))


def _rise(case: Case) -> Expected:
    room = case.unit.room_k
    readings = [(pair, taken.winding_k) for pair, taken in case.rise_readings()]
    if not readings:
        on_arrival = case.unit.pair_resistances(case.unit.arrival_k)
        readings = [(min(on_arrival, key=lambda pair: on_arrival[pair]), case.unit.arrival_k)]
    numbers = []
    for pair, hot_k in readings:
        cold, hot = case.cold[pair], case.unit.pair_resistances(hot_k)[pair]
        spread = (hot_k - ZERO_K) * (_ohm_limit(case, hot) / hot + _ohm_limit(case, cold) / cold)
        numbers.append((hot_k - room, spread + THERMOMETER_LIMIT_K * (hot / cold)))
    return Expected(numbers=tuple(numbers))


def _insulation(case: Case) -> Expected:
    ohm = case.unit.lowest_insulation(case.unit.room_k)
    limit, digit = limit_of_insulation(ohm)
    return Expected(words=("OL",)) if limit == float("inf") else Expected(numbers=((ohm, limit + digit),))
