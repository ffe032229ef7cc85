"""What is right for the answers read on the dead unit: winding, overload, earth and insulation."""

from __future__ import annotations

import math

from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.bench.unit_acts import INSULATED_ABOVE_OHM
from coldwright.electrical.windings import Conductor
from coldwright.instruments.insulation_tester import limit_of_insulation
from coldwright.instruments.multimeter import limit_of_ohms
from coldwright.instruments.thermometer import limit_of_temperature
from coldwright.labs.overloads.amps import Number, shown, spread
from coldwright.labs.overloads.case import Case
from coldwright.labs.question import Expected, Solution
from coldwright.quantities import Kind, show
from coldwright.quantities.constants import ICE_POINT_K

NEW_ONE = "the new compressor must show at least 2 MΩ"
COPPER = Conductor.COPPER.value
OPEN_WORDS = ("OL",)
IN_CIRCUIT_BELOW_OHM = 599.0  # what an open overload can read through the rest of the unit; top of that range


def ohm_limit(case: Case, ohm: float) -> float:
    """What the meter allows on a resistance read with zeroed leads, and one digit more [Ω].

    Parameters
    ----------
    case : Case
        The unit, for the leads [-]
    ohm : float
        Resistance [Ω]
    """
    return sum(limit_of_ohms(ohm, case.lead_ohm))


def hot_by_resistance(cold_ohm: float, hot_ohm: float, room_c: float) -> float:
    """Temperature of a copper winding from its resistance, hot and cold [°C].

    Parameters
    ----------
    cold_ohm, hot_ohm : float
        Resistance at room temperature and hot [Ω]
    room_c : float
        Temperature of the room [°C]
    """
    return hot_ohm / cold_ohm * (COPPER + room_c) - COPPER


def hot_numbers(case: Case) -> list[Number]:
    """Temperatures of the winding at each hot reading, or on arrival, with limits [K].

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    room_k = case.unit.room_k
    room = (room_k - ICE_POINT_K, sum(limit_of_temperature()))
    cold = case.run_ohm(room_k)
    found = []
    read = case.hot() or case.hot(zeroed=False)
    for winding_k in dict.fromkeys(t.state.winding_k for t in read) or [case.unit.arrival.winding_k]:
        hot = case.run_ohm(winding_k)
        terms = ((cold, ohm_limit(case, cold)), (hot, ohm_limit(case, hot)), room)
        found.append((winding_k, spread(hot_by_resistance, *terms)[1]))
    return found


def winding_hot(case: Case) -> Solution:
    """Temperature of the winding at the hot reading.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    numbers = hot_numbers(case)
    hot_k, _ = numbers[-1]
    cold, hot, room_c = case.run_ohm(case.unit.room_k), case.run_ohm(hot_k), case.unit.room_k - ICE_POINT_K
    reason = (
        f"{show(hot, Kind.RESISTANCE, 'Ω', 4)} / {show(cold, Kind.RESISTANCE, 'Ω', 4)} × ({COPPER} + {room_c:.1f}) − "
        f"{COPPER} = {hot_k - ICE_POINT_K:.1f} °C."
    )
    return Solution(Expected(numbers=tuple(numbers)), reason)


def overload_ohms(case: Case) -> Solution:
    """Ohms of the overload that came with the unit, off it and cold.

    Parameters
    ----------
    case : Case
        The unit [-]
    """
    overload = case.unit.parts.overload
    assert overload is not None
    if overload.is_open:
        limit = ohm_limit(case, IN_CIRCUIT_BELOW_OHM)
        return Solution(
            Expected(words=OPEN_WORDS, slip_tolerance=limit), "Off the unit, cold, it shows OL: it is open."
        )
    ohm = overload.heater_ohm
    reason = f"Off the unit and cold it is closed: its heater is {show(ohm, Kind.RESISTANCE, 'Ω', 3)}."
    return Solution(Expected(numbers=((ohm, ohm_limit(case, ohm)),)), reason)


def earth(case: Case) -> Solution:
    """Ohms from the plug's earth pin to bare metal.

    Parameters
    ----------
    case : Case
        The unit [-]
    """
    ohm = case.unit.parts.cord.earth_ohm
    reason = f"The earth conductor of the cord has {show(ohm, Kind.RESISTANCE, 'Ω', 3)}, the meter's leads zeroed."
    return Solution(Expected(numbers=((ohm, ohm_limit(case, ohm)),)), reason)


def insulation(case: Case) -> Solution:
    """Lowest insulation resistance of the plug's two poles to metal.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    read = shown(case.proof("insulation", "plug L")) + shown(case.proof("insulation", "plug N"))
    if not read:
        circuit = UnitCircuit(case.unit.wiring, case.unit.parts, case.unit.arrival)
        true = min(circuit.resistance(pin, "cabinet metal") for pin in ("plug L", "plug N"))
        read = [(true, sum(limit_of_insulation(true)))]
    lowest = min(value for value, _ in read)
    if math.isinf(lowest) or math.isinf(limit_of_insulation(lowest)[0]):
        return Solution(Expected(words=OPEN_WORDS), "Neither pole shows a resistance that the tester can see.")
    numbers = tuple((value, limit) for value, limit in read if value == lowest)
    verdict = f"{show(lowest, Kind.RESISTANCE, digits=4)}: above 2 MΩ."
    if lowest < INSULATED_ABOVE_OHM:
        verdict = f"{show(lowest, Kind.RESISTANCE, digits=4)}, below 2 MΩ, as it came in; {NEW_ONE}."
    return Solution(Expected(numbers=numbers), f"The lower one is {verdict}")
