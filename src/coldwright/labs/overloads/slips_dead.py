"""Slips in what is read on the dead unit: winding, overload, earth and insulation."""

from __future__ import annotations

from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName
from coldwright.instruments.multimeter import OHMS
from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.dead import COPPER, hot_by_resistance, hot_numbers, insulation
from coldwright.labs.overloads.slips_live import each, fahrenheit
from coldwright.labs.question import Misconception
from coldwright.quantities.constants import ICE_POINT_K


def opens_hot(case: Case) -> bool:
    """Whether the overload opens hot and closes cold.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return case.fault is not FaultName.OVERLOAD_OPEN and case.truth.heard.clicked


def _rise(case: Case, _name: str) -> tuple[float, ...]:
    return each(hot - case.unit.room_k + ICE_POINT_K for hot, _ in hot_numbers(case))


def _fahrenheit_room(case: Case, _name: str) -> tuple[float, ...]:
    room_f = fahrenheit(case.unit.room_k)
    cold = case.run_ohm(case.unit.room_k)
    return each(case.run_ohm(hot) / cold * (COPPER + room_f) - COPPER + ICE_POINT_K for hot, _ in hot_numbers(case))


def _leads(case: Case, name: str) -> float | tuple[float, ...] | None:
    if name == "winding_hot":
        return _hot_with_leads(case)
    if name == "earth_ohms":
        return None if case.beeps else case.unit.parts.cord.earth_ohm + case.lead_ohm
    overload = case.unit.parts.overload
    assert overload is not None
    return None if overload.is_open else overload.heater_ohm + case.lead_ohm


def _hot_with_leads(case: Case) -> tuple[float, ...]:
    room_k, lead = case.unit.room_k, case.lead_ohm
    read = [t.state.winding_k for t in case.hot(zeroed=False)] or [hot for hot, _ in hot_numbers(case)]
    terms = [(case.run_ohm(room_k) + lead, case.run_ohm(hot_k) + lead, room_k - ICE_POINT_K) for hot_k in read]
    return each(hot_by_resistance(*term) + ICE_POINT_K for term in terms)


def _in_circuit(case: Case, _name: str) -> float | None:
    overload = case.unit.parts.overload
    assert overload is not None
    if not overload.is_open:
        return None
    ohm = UnitCircuit(case.unit.wiring, case.unit.parts, case.unit.arrival).resistance("overload 1", "overload 2")
    return ohm if ohm < OHMS[-1].full_scale else None


def _read_hot(case: Case, _name: str) -> str | None:
    return "OL" if opens_hot(case) else None


def _beeper(case: Case, _name: str) -> tuple[float, ...]:
    return each(t.display.value for t in case.beeps)


def _multimeter(case: Case, _name: str) -> str | None:
    right = insulation(case).expected.numbers
    return "OL" if right and min(value for value, _ in right) > OHMS[-1].full_scale else None


DEAD = (
    Misconception(
        "rise for temperature",
        ("winding_hot",),
        "You gave how much warmer than the room the winding was: add the temperature of the room.",
        _rise,
    ),
    Misconception(
        "degrees Fahrenheit in the formula",
        ("winding_hot",),
        "You put degrees Fahrenheit into the formula: the constant 234.5 goes with degrees Celsius.",
        _fahrenheit_room,
    ),
    Misconception(
        "leads not zeroed",
        ("overload_ohms", "winding_hot", "earth_ohms"),
        "Your reading has the meter's leads in it: touch the tips together and zero them before you read ohms.",
        _leads,
    ),
    Misconception(
        "overload read in its place",
        ("overload_ohms",),
        "You read the way round through fans and windings: take the overload off and read it alone.",
        _in_circuit,
    ),
    Misconception(
        "read while hot",
        ("overload_ohms",),
        "It was open because it was hot: let it cool down and read it again before you condemn it.",
        _read_hot,
    ),
    Misconception(
        "earth by the beeper",
        ("earth_ohms",),
        "You took the beeper's number: it beeps up to 30 Ω and keeps the leads in, so zero the leads and read ohms.",
        _beeper,
    ),
    Misconception(
        "insulation by the multimeter",
        ("insulation",),
        "You read it with the multimeter: its few volts do not show weak insulation, so test at 500 V d.c.",
        _multimeter,
    ),
)
