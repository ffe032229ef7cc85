"""Which readings stand behind an answer, which ones the lab needs, and which points for working were earned."""

from __future__ import annotations

from dataclasses import replace

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_acts import UnitTaken
from coldwright.labs.question import Answer
from coldwright.labs.reading_the_circuit.case import (
    ACROSS_DOOR_SWITCH,
    ACROSS_THERMOSTAT,
    OUTLET_PAIR,
    Case,
)
from coldwright.labs.reading_the_circuit.joint import LOADED_A
from coldwright.labs.reading_the_circuit.unit import faulty_component
from coldwright.labs.unit_case import proof_after_repair, proved_dead
from coldwright.quantities.constants import ICE_POINT_K

F = FaultName
PROOF = ("earth", "insulation", "polarity")
WORK = ("no_hazard", "proved_dead", "proof", "works", "economy")
DRIFTED_CLOSES_BELOW_K = ICE_POINT_K + 19.5  # above this a drifted thermostat is closed, one that is stuck open is not
MOST_TIMES_BEST = 2
TIMER_PAIRS = (("timer 1", "timer 2"), ("timer 1", "timer 4"))


# ------------------------------------------------------------------------- what stands behind an answer


def _timer(case: Case, after_hand: bool = False) -> list[UnitTaken]:
    """Ohms of the timer's contacts; before it was turned by hand, or after."""
    turned = case.base.first(("advance timer",))
    first = turned if turned is not None else len(case.base.lines) + 1
    old = case.before_new("defrost timer")
    return [t for pair in TIMER_PAIRS for t in case.dead(*pair, when=old) if (t.line.n > first) is after_hand]


def _terminator(case: Case, cold: bool) -> list[UnitTaken]:
    old = case.before_new("terminator")
    return case.dead("terminator 1", "terminator 2", when=lambda t: t.state.terminator_closed is cold and old(t))


def _across_switch(case: Case, pair: tuple[str, str]) -> list[UnitTaken]:
    """Ohms, continuity or live volts across a switch that came in."""
    old = case.before_new(case.unit.wiring.owner(pair[0]).name)
    return case.dead(*pair, when=old) + case.live_volts(pair, when=lambda t: t.plugged and old(t))


def _cord(case: Case) -> list[UnitTaken]:
    old = case.before_new("cord")
    live = case.live_volts(
        ("cord L", "cord N"), ("cord L", "plug L"), ("cord L", "outlet L"), when=lambda t: t.plugged and old(t)
    )
    return case.dead("plug L", "cord L", when=old) + live


def _fan_watched(case: Case, fan: str) -> bool:
    """Whether a fan was looked at or its current read with the plug in, before it was changed."""
    old, ends = case.before_new(fan), case.unit.wiring.component(fan).terminals
    looks = case.base.readings("inspect", fan, when=lambda t: t.plugged and old(t))
    return bool(looks) or any(case.base.has("clamp", end, when=lambda t: t.plugged and old(t)) for end in ends)


def decided(case: Case) -> bool:
    """Whether the readings stand on the sheet that tell this unit's fault from every other.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    fault, component = case.fault, faulty_component(case.unit)
    if fault is F.CORD_OPEN:
        return bool(_cord(case))
    if fault in (F.THERMOSTAT_OPEN, F.THERMOSTAT_DRIFTED):
        warm = [t for t in _across_switch(case, ACROSS_THERMOSTAT) if t.state.cabinet_k > DRIFTED_CLOSES_BELOW_K]
        return any(t.state.knob_on for t in warm)
    if fault is F.THERMOSTAT_CLOSED:
        return any(not t.state.knob_on for t in _across_switch(case, ACROSS_THERMOSTAT))
    if fault in (F.DOOR_SWITCH_OPEN, F.DOOR_SWITCH_CLOSED):
        wanted = fault is F.DOOR_SWITCH_OPEN
        return any(t.state.door_open is wanted for t in _across_switch(case, ACROSS_DOOR_SWITCH))
    if fault in (F.TIMER_STUCK_COOLING, F.TIMER_STUCK_DEFROST):
        return bool(_timer(case, after_hand=True))
    if fault in (F.TERMINATOR_OPEN, F.TERMINATOR_CLOSED):
        return bool(_terminator(case, cold=fault is F.TERMINATOR_OPEN))
    if fault is F.LOOSE_CONNECTION:
        return bool(case.poor.volts_read)
    seized = fault in (F.CONDENSER_FAN_SEIZED, F.EVAPORATOR_FAN_SEIZED)
    return bool(case.off(component)) and (not seized or _fan_watched(case, component))


def _insulated(case: Case) -> bool:
    return proof_after_repair(_without_board(case).base)["insulation"]


def backed(case: Case, answer: Answer) -> bool:
    """Whether the reading that an answer needs stands on the job sheet.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    answer : Answer
        An answer of the lab [-]
    """
    if answer.needs is None:
        return True
    if answer.needs in ("timer", "terminator", "heater", "heater and supply") and not case.frost_free:
        return True
    return {
        "thermostat volts": lambda: bool(case.thermostat_readings),
        "door switch volts": lambda: bool(case.door_switch_readings),
        "fan off": lambda: bool(case.off("condenser fan")),
        "timer": lambda: bool(_timer(case)),
        "terminator": lambda: bool(_terminator(case, cold=True)),
        "heater": lambda: bool(case.off("heater")),
        "heater and supply": lambda: bool(case.off("heater") and case.supply_readings),
        "joint": lambda: bool(case.poor.volts_read),
        "joint and amps": lambda: bool(case.poor.both_read),
        "fault": lambda: decided(case),
        "insulation": lambda: _insulated(case),
    }[answer.needs]()


def missing(case: Case) -> tuple[str, ...]:
    """Readings that the lab needs and the job sheet lacks, in words.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    wanted = [
        ("the volts of the supply", bool(case.supply_readings)),
        ("volts across the thermostat, plugged in", bool(case.thermostat_readings)),
        ("volts across the door switch, plugged in and door shut", bool(case.door_switch_readings)),
        ("ohms of the condenser fan, taken off", bool(case.off("condenser fan"))),
        ("volts across the poor joint, with a load on", bool(case.poor.volts_read)),
        ("amps in the poor joint, under the same load", bool(case.poor.both_read)),
        ("a reading that tells what is wrong", decided(case)),
        ("insulation of L and N to the metal, after the repair", _insulated(case)),
    ]
    if case.frost_free:
        wanted += [
            ("ohms of the timer's contacts, as it came in", bool(_timer(case))),
            ("ohms of the terminator, cold", bool(_terminator(case, cold=True))),
            ("ohms of the heater, taken off", bool(case.off("heater"))),
        ]
    return tuple(words for words, there in wanted if not there)


# ------------------------------------------------------------------------- points for the way of working


def _without_board(case: Case) -> Case:
    """The case with the return of an inverter board left out: it comes off only for the insulation test."""
    lines = tuple(line for line in case.base.lines if (line.act, line.on) != ("put back", ("board",)))
    return Case(replace(case.base, lines=lines))


def works(case: Case) -> bool:
    """Whether the right part was fitted and then shown to work: its current, or for a heater or terminator its ohms.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    component = faulty_component(case.unit)
    fits = [line.n for line in case.base.lines if line.act == "fit" and line.on[0] == component and not line.hazards]
    if not fits:
        return False
    ends = case.unit.wiring.component(component).terminals

    def shows(taken: UnitTaken) -> bool:
        return taken.line.n > fits[-1] and taken.plugged and taken.display.value > LOADED_A

    if component in ("heater", "terminator") and case.dead(*ends, when=lambda t: t.line.n > fits[-1]):
        return True
    return any(case.base.has("clamp", end, when=shows) for end in ends)


def is_free(taken: UnitTaken) -> bool:
    """Whether a reading is for safety, or a look: it does not count against economy.

    Parameters
    ----------
    taken : UnitTaken
        The reading [-]
    """
    if taken.act in ("inspect", "listen", "temperature", "insulation"):
        return True
    if taken.act.startswith("volts"):
        return not taken.plugged or set(taken.on) <= {*OUTLET_PAIR, "outlet E"}
    return "plug E" in taken.on or set(taken.on) == {"plug L", "thermostat 1"}


def counted(case: Case) -> int:
    """How many readings count against economy.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return sum(not is_free(taken) for taken in case.base.taken)


def best(case: Case) -> int:
    """Readings of the shortest way: one for each reading that the lab needs, two for the fault, two to find the joint.

    Parameters
    ----------
    case : Case
        The unit [-]

    Returns
    -------
    int
        Supply volts, being for safety, are not counted [-]
    """
    switches, fan, fault, joint, amps, proof = 2, 1, 2, 2, 1, 1
    return switches + fan + fault + joint + amps + proof + (3 if case.frost_free else 0)


def worked(case: Case) -> dict[str, bool]:
    """Which points for the way of working were earned; none unless every needed reading was taken.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if missing(case):
        return dict.fromkeys(WORK, False)
    repaired = faulty_component(case.unit) in dict(case.base.fitted)
    proof = proof_after_repair(_without_board(case).base)
    return {
        "no_hazard": not case.base.hazards,
        "proved_dead": proved_dead(case.base, fully=True),
        "proof": repaired and all(proof[name] for name in PROOF),
        "works": works(case),
        "economy": counted(case) <= MOST_TIMES_BEST * best(case),
    }
