"""What is right for every answer of a unit, within what the instruments allow, and the reason with its numbers."""

from __future__ import annotations

import math

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_acts import UnitTaken
from coldwright.electrical.measured import Measured
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.insulation_tester import limit_of_insulation
from coldwright.instruments.limits import reading_limits
from coldwright.instruments.meter_ranges import INPUT_OHM, Function, limit_of, limit_of_ohms
from coldwright.instruments.power_meter import Quantity, limit_of_power_meter
from coldwright.labs.question import Expected, Solution
from coldwright.labs.reading_the_circuit.case import (
    ACROSS_DOOR_SWITCH,
    ACROSS_FAN,
    ACROSS_THERMOSTAT,
    OUTLET_PAIR,
    Case,
)
from coldwright.labs.reading_the_circuit.fault_words import WHY, WRONG
from coldwright.labs.reading_the_circuit.joint import Drop
from coldwright.labs.reading_the_circuit.unit import faulty_component
from coldwright.quantities import Kind, show

F = FaultName
NONE, NO_WATTS = "none", "0 W"
OPEN_ABOVE = 0.5  # of the rated volts: a switch that shows more is open


def volts_limit(volts: float) -> float:
    """What the meter allows on volts a.c., and one digit more [V].

    Parameters
    ----------
    volts : float
        True volts [V]
    """
    return sum(limit_of(Function.VOLTS_AC, volts))


def ohms_limit(case: Case, ohm: float) -> float:
    """What the meter allows on ohms, leads zeroed, and one digit more [Ω].

    Parameters
    ----------
    case : Case
        The unit, for the leads of its meter [-]
    ohm : float
        True ohms [Ω]
    """
    return sum(limit_of_ohms(ohm, case.base.lead_ohm))


def read_volts(case: Case, readings: list[UnitTaken], pair: tuple[str, str]) -> list[float]:
    """True volts of each reading; without one, what shows on being plugged in, and at the outlet what shows before [V].

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    readings : list of UnitTaken
        Readings of volts a.c. [-]
    pair : tuple of str
        Where they are read [-]
    """
    usual = case.came_in if pair == OUTLET_PAIR else case.plugged_in
    return [case.true_volts(taken) for taken in readings] or [usual.ac_voltage(*pair, INPUT_OHM)]


def contact_words(case: Case) -> tuple[str, ...]:
    """What the volts across the thermostat tell of its contact.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if case.fault is F.CORD_OPEN:
        return ("cannot tell",)
    volts = read_volts(case, case.thermostat_readings, ACROSS_THERMOSTAT)
    return tuple(dict.fromkeys("open" if v > OPEN_ABOVE * case.unit.cooler.volts else "closed" for v in volts))


def supply_volts(case: Case) -> list[float]:
    """True volts of the supply at each of its readings [V].

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return read_volts(case, case.supply_readings, OUTLET_PAIR)


def right_joints(case: Case) -> tuple[str, ...]:
    """Terminals that name the poor joint: both, where the wire has but two ends.

    Parameters
    ----------
    case : Case
        The unit [-]
    """
    poor = case.poor
    return (poor.terminal, *poor.others) if len(poor.others) == 1 else (poor.terminal,)


def solutions(case: Case) -> dict[str, Solution]:
    """What is right for every answer of one case, and why.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return {
        **_trace(case),
        "door_switch_volts": _volts(case, case.door_switch_readings, ACROSS_DOOR_SWITCH),
        "thermostat_contact": _contact(case),
        "fan_ohms": _fan(case),
        **_defrost(case),
        **_joint(case),
        "component": _words((faulty_component(case.unit),), f"The {faulty_component(case.unit)}: {WHY[case.fault]}."),
        "wrong": _words(WRONG[case.fault], f"The fault is {WRONG[case.fault][0]}: {WHY[case.fault]}."),
        "insulation": _insulation(case),
    }


def _words(words: tuple[str, ...], reason: str) -> Solution:
    return Solution(Expected(words=words), reason)


def _trace(case: Case) -> dict[str, Solution]:
    nets = case.unit.wiring.nets.values()
    after = next(tuple(t for t in net if t != "thermostat 2") for net in nets if "thermostat 2" in net)
    path = "thermostat and timer" if case.frost_free else "thermostat"
    return {
        "after_thermostat": _words(after, f"One net joins thermostat 2 with {', '.join(after)}."),
        "fan_path": _words((path,), f"From cord L the way to condenser fan 1 goes through these: {path}."),
    }


def _volts(case: Case, readings: list[UnitTaken], pair: tuple[str, str]) -> Solution:
    volts = read_volts(case, readings, pair)
    shown = " or ".join(dict.fromkeys(f"{v:.3g} V" for v in volts))
    reason = f"With the door shut there stand {shown} across it: supply volts if it is open, next to none if closed."
    if case.fault is F.CORD_OPEN:
        reason = f"{shown} stand across it, for no supply gets to it: this tells nothing of the switch."
    return Solution(Expected(numbers=tuple((v, volts_limit(v)) for v in volts)), reason)


def _contact(case: Case) -> Solution:
    words = contact_words(case)
    volts = read_volts(case, case.thermostat_readings, ACROSS_THERMOSTAT)
    why = {
        "cannot tell": "no supply gets to it, so there would be no volts across it either way",
        "open": "an open switch has the supply across it",
        "closed": "a closed switch has next to no volts across it",
    }
    return _words(words, f"Across it stand {' or '.join(f'{v:.3g} V' for v in volts)}: {why[words[0]]}.")


def _fan(case: Case) -> Solution:
    wired = case.came_in.resistance(*ACROSS_FAN)
    slip = ohms_limit(case, wired) if math.isfinite(wired) else 0.0
    if case.fault is F.CONDENSER_FAN_OPEN:
        reason = f"Taken off it reads OL; the {wired:.3g} Ω while wired are those of the parts beside it."
        return Solution(Expected(words=("OL",), slip_tolerance=slip), reason)
    ohm = case.unit.parts.fans["condenser fan"].winding_ohm
    reason = f"Its winding alone has {ohm:.4g} Ω; wired, {wired:.3g} Ω show through the parts beside it."
    return Solution(Expected(numbers=((ohm, ohms_limit(case, ohm)),)), reason)


def _defrost(case: Case) -> dict[str, Solution]:
    defrost = case.unit.parts.defrost
    if defrost is None:
        names = ("timer_joins", "terminator_cold", "heater_ohms", "heater_watts")
        return dict.fromkeys(names, _words((NONE,), "This cooler has no defrost timer, heater or terminator."))
    joins = "timer 2" if case.unit.arrival.timer_defrost else "timer 4"
    cold = "open" if case.fault is F.TERMINATOR_OPEN else "closed"
    found = {
        "timer_joins": _words((joins,), f"Timer 1 to {joins} reads near zero; the other way shows kilohms or OL."),
        "terminator_cold": _words((cold,), f"Cold it is {cold}; a sound one closes cold and opens warm."),
    }
    if math.isinf(defrost.heater_ohm):
        nothing = sum(limit_of_power_meter(Quantity.WATTS, 0.0))
        return found | {
            "heater_ohms": _words(("OL",), "The heater is open: the meter finds no path."),
            "heater_watts": Solution(
                Expected(((0.0, nothing),), (NO_WATTS,)), "No current flows in an open heater: 0 W."
            ),
        }
    ohm, limit = defrost.heater_ohm, ohms_limit(case, defrost.heater_ohm)
    watts = []
    for volts in supply_volts(case):
        found_w = reading_limits(lambda v, r: v * v / r, Measured(volts, volts_limit(volts)), Measured(ohm, limit))
        watts.append((found_w.value, found_w.worst))
    at = f"{supply_volts(case)[-1]:.1f} V"
    return found | {
        "heater_ohms": Solution(Expected(numbers=((ohm, limit),)), f"Taken off it has {ohm:.4g} Ω."),
        "heater_watts": Solution(
            Expected(numbers=tuple(watts)),
            f"At {at} it draws {watts[-1][0] ** 0.5 / ohm**0.5:.3g} A, so volts times amps are {watts[-1][0]:.4g} W.",
        ),
    }


def drop_watts(drop: Drop) -> tuple[float, float]:
    """Watts lost in the joint, and how far off they can be [W].

    Parameters
    ----------
    drop : Drop
        Volts and amps [-]
    """
    volts = Measured(drop.volts, volts_limit(drop.volts))
    amps = Measured(drop.amps, sum(limit_of_clamp(drop.amps)))
    found = reading_limits(lambda v, i: v * i, volts, amps)
    return found.value, found.worst


def _which_end(here: str, others: tuple[str, ...]) -> str:
    if len(others) == 1:
        return f"Volts stand between {here} and {others[0]}, the two ends of one wire, and across no other joint."
    return f"From {here} to {others[0]} and to {others[1]} volts stand, and none between those two: so it is {here}."


def _joint(case: Case) -> dict[str, Solution]:
    drops, loaded = case.poor.drops, case.poor.loaded
    here, there = case.poor.terminal, case.poor.others[0]
    names = right_joints(case)
    last = loaded[-1]
    watts = [drop_watts(drop) for drop in loaded]
    return {
        "joint": _words(names, _which_end(here, case.poor.others)),
        "joint_volts": Solution(
            Expected(numbers=tuple((d.volts, volts_limit(d.volts)) for d in drops)),
            f"From {here} to {there}, with {drops[-1].amps:.3g} A flowing: {drops[-1].volts:.3g} V.",
        ),
        "joint_watts": Solution(
            Expected(numbers=tuple(watts)),
            f"{last.volts:.3g} V times {last.amps:.3g} A are {watts[-1][0]:.3g} W.",
        ),
    }


def _insulation(case: Case) -> Solution:
    readings = [
        taken
        for plug in ("plug L", "plug N")
        for metal in ("cabinet metal", "shell")
        for taken in case.base.readings("insulation", plug, metal)
    ]
    circuits = [(case.circuit(taken), taken.on) for taken in readings] or [
        (case.came_in, (plug, "cabinet metal")) for plug in ("plug L", "plug N")
    ]
    ohms = [circuit.resistance(*on) for circuit, on in circuits]
    lowest = min(ohms)
    if math.isinf(limit_of_insulation(lowest)[0]):
        return _words(("OL",), "From L and from N to the metal the tester sees no path.")
    reason = f"The lower of the two reads {show(lowest, Kind.RESISTANCE)}, far above the 2 MΩ that condemn it."
    return Solution(Expected(numbers=((lowest, sum(limit_of_insulation(lowest))),)), reason)
