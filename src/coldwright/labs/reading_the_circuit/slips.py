"""The known slips in reading a circuit, each as a function of the true unit."""

from __future__ import annotations

import math
from collections.abc import Callable

from coldwright.appliance.unit_faults import FaultName
from coldwright.electrical.measured import Measured
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.limits import Limits, reading_limits
from coldwright.labs.question import Misconception
from coldwright.labs.reading_the_circuit.case import ACROSS_FAN, Case
from coldwright.labs.reading_the_circuit.joint import ENDS, Drop
from coldwright.labs.reading_the_circuit.solutions import (
    contact_words,
    ohms_limit,
    solutions,
    supply_volts,
    volts_limit,
)

F = FaultName
Value = Callable[[Case, str], float | str | tuple[float | str, ...] | None]
SEIZED = (F.CONDENSER_FAN_SEIZED, F.EVAPORATOR_FAN_SEIZED)
OPEN_FANS = (F.CONDENSER_FAN_OPEN, F.EVAPORATOR_FAN_OPEN)
MOST_VALUES = 2000
NO_DEFROST_HEAT = (F.TERMINATOR_OPEN, F.TIMER_STUCK_COOLING)


def _word_if(applies: Callable[[Case], bool], word: str) -> Value:
    return lambda case, _name: word if applies(case) else None


def _fault(*names: FaultName) -> Callable[[Case], bool]:
    return lambda case: case.fault in names


def _timer_skipped(case: Case, name: str) -> str | None:
    if not case.frost_free:
        return None
    return "overload 1" if name == "after_thermostat" else "thermostat"


def _parallel(case: Case, _name: str) -> tuple[float, ...] | None:
    """Ohms of the fan still wired: as they were read, or as it came in."""
    old = case.before_new("condenser fan")
    wired = case.base.readings(
        "ohms", *ACROSS_FAN, when=lambda t: "condenser fan" not in t.state.removed and old(t) and not t.plugged
    )
    return tuple(case.circuit(taken).resistance(*ACROSS_FAN) for taken in wired) or (
        case.came_in.resistance(*ACROSS_FAN),
    )


def _heater_ohm(case: Case) -> float | None:
    defrost = case.unit.parts.defrost
    return None if defrost is None or case.fault is F.HEATER_OPEN else defrost.heater_ohm


def _worked_out(case: Case, name: str, worked: list[Limits]) -> tuple[float, ...]:
    """Values that cover all that the readings allow of a slip, no further apart than the answer's own tolerance."""
    low, high = min(w.value - w.worst for w in worked), max(w.value + w.worst for w in worked)
    step = 2 * solutions(case)[name].expected.tolerance
    count = min(MOST_VALUES, math.ceil((high - low) / step))
    return tuple(low + (number + 0.5) * (high - low) / count for number in range(count))


def _supply(case: Case) -> list[Measured]:
    return [Measured(volts, volts_limit(volts)) for volts in supply_volts(case)]


def _heater(formula: Callable[[float, float], float]) -> Value:
    """A formula of supply volts and the heater's ohms."""

    def value(case: Case, name: str) -> tuple[float, ...] | None:
        ohm = _heater_ohm(case)
        if ohm is None:
            return None
        heater = Measured(ohm, ohms_limit(case, ohm))
        return _worked_out(case, name, [reading_limits(formula, volts, heater) for volts in _supply(case)])

    return value


def _amps(drop: Drop) -> Measured:
    return Measured(drop.amps, sum(limit_of_clamp(drop.amps)))


def _no_load(_case: Case, _name: str) -> float:
    return 0.0


def _to_neutral(case: Case, name: str) -> tuple[float, ...]:
    return _worked_out(case, name, [reading_limits(lambda v: v, volts) for volts in _supply(case)])


def _whole_load(case: Case, name: str) -> tuple[float, ...]:
    pairs = [(volts, _amps(drop)) for drop in case.poor.loaded for volts in _supply(case)]
    return _worked_out(case, name, [reading_limits(lambda v, i: v * i, *pair) for pair in pairs])


def _other_end(case: Case, _name: str) -> tuple[str, ...] | None:
    """The good ends of the wire that can be answered, where it has more than two ends, so that a third one tells."""
    others = case.poor.others
    return tuple(end for end in others if end in ENDS) if len(others) > 1 else None


def _volts_over_amps(case: Case, name: str) -> tuple[float, ...]:
    pairs = [(Measured(drop.volts, volts_limit(drop.volts)), _amps(drop)) for drop in case.poor.loaded]
    return _worked_out(case, name, [reading_limits(lambda v, i: v / i, *pair) for pair in pairs])


def _backwards(case: Case, _name: str) -> str | None:
    if not case.frost_free:
        return None
    return "closed" if case.fault is F.TERMINATOR_OPEN else "open"


def _other_contact(case: Case, _name: str) -> str | None:
    if not case.frost_free:
        return None
    return "timer 4" if case.unit.arrival.timer_defrost else "timer 2"


MISCONCEPTIONS = (
    Misconception(
        "timer skipped",
        ("after_thermostat", "fan_path"),
        "You went past the defrost timer: on this cooler its contact lies between the thermostat and the fans.",
        _timer_skipped,
    ),
    Misconception(
        "wrong side of the switch",
        ("after_thermostat",),
        "You took the wire on the other side of the thermostat: terminal 1 is on the supply, 2 feeds the loads.",
        _word_if(lambda _case: True, "door switch 1"),
    ),
    Misconception(
        "door switch put in the fan's path",
        ("fan_path",),
        "You put the door switch in the path of the fan: on this cooler it feeds the lamp and nothing else.",
        _word_if(lambda case: not case.frost_free, "thermostat and door switch"),
    ),
    Misconception(
        "no volts taken for a dead part",
        ("thermostat_contact",),
        "You took 0 V across the switch for an open one: a closed switch that works has next to no volts across it.",
        _word_if(lambda case: contact_words(case) == ("closed",), "open"),
    ),
    Misconception(
        "supply volts taken for good",
        ("thermostat_contact",),
        "You took supply volts across the switch for a good sign: they stand there because the switch is open.",
        _word_if(lambda case: contact_words(case) == ("open",), "closed"),
    ),
    Misconception(
        "no supply behind the reading",
        ("thermostat_contact",),
        "You read 0 V as closed, but no supply gets to this switch: volts across it tell nothing without supply.",
        _word_if(_fault(F.CORD_OPEN), "closed"),
    ),
    Misconception(
        "parallel path",
        ("fan_ohms",),
        "You read the fan while it was still wired: the ohms of the parts beside it come in, so take it off first.",
        _parallel,
    ),
    Misconception(
        "timer contact mixed up",
        ("timer_joins",),
        "You named the open way: the contact is the one that reads near zero, and kilohms are the timer's own motor.",
        _other_contact,
    ),
    Misconception(
        "terminator the wrong way round",
        ("terminator_cold",),
        "You have the terminator the wrong way round: a sound one is closed when cold and opens when it gets warm.",
        _backwards,
    ),
    Misconception(
        "volts over ohms for watts",
        ("heater_watts",),
        "You divided volts by ohms, and that gives amps: multiply them by the volts once more to get watts.",
        _heater(lambda volts, ohm: volts / ohm),
    ),
    Misconception(
        "volts times ohms for watts",
        ("heater_watts",),
        "You multiplied volts by ohms, which gives nothing of use: watts are volts times volts, divided by ohms.",
        _heater(lambda volts, ohm: volts * ohm),
    ),
    Misconception(
        "heater taken for not there",
        ("heater_watts",),
        "The heater is there, but open: no current, so 0 W.",
        _word_if(_fault(F.HEATER_OPEN), "none"),
    ),
    Misconception(
        "other end of the wire",
        ("joint",),
        "You named another end of the wire: read each end to a third terminal on the same line, for the poor one shows "
        "volts to both others.",
        _other_end,
    ),
    Misconception(
        "drop read without load",
        ("joint_volts",),
        "You read the joint with no current in it: a poor joint shows its volts only while a load draws current.",
        _no_load,
    ),
    Misconception(
        "drop read to neutral",
        ("joint_volts",),
        "You gave the supply volts: put one tip on each side of the joint and read what is lost in it.",
        _to_neutral,
    ),
    Misconception(
        "watts of the whole load",
        ("joint_watts",),
        "You took the supply volts times the amps, which is what the load takes: use the volts across the joint.",
        _whole_load,
    ),
    Misconception(
        "volts over amps for watts",
        ("joint_watts",),
        "You divided volts by amps, and that gives the ohms of the joint: for watts multiply them.",
        _volts_over_amps,
    ),
    Misconception(
        "stuck timer named as thermostat",
        ("component",),
        "You blamed the thermostat, but it is closed: the timer behind it stays at defrost and keeps the rest off.",
        _word_if(_fault(F.TIMER_STUCK_DEFROST), "thermostat"),
    ),
    Misconception(
        "heater blamed for no heat",
        ("component",),
        "You blamed the heater, but its ohms are good: something in front of it keeps the current away.",
        _word_if(_fault(*NO_DEFROST_HEAT), "heater"),
    ),
    Misconception(
        "lamp blamed for the dark",
        ("component",),
        "You blamed the lamp, but its filament is whole: its switch does not close when the door is open.",
        _word_if(_fault(F.DOOR_SWITCH_OPEN), "lamp"),
    ),
    Misconception(
        "compressor blamed for no cold",
        ("component",),
        "You blamed the compressor, but no current gets to it: read from the supply onward until the volts stop.",
        _word_if(_fault(F.THERMOSTAT_OPEN, F.THERMOSTAT_DRIFTED, F.CORD_OPEN), "compressor"),
    ),
    Misconception(
        "seized fan called open",
        ("wrong",),
        "You called the fan open, but its winding reads its ohms and draws current: its shaft is stuck.",
        _word_if(_fault(*SEIZED), "open"),
    ),
    Misconception(
        "open fan called seized",
        ("wrong",),
        "You called the fan seized, but no current flows in it: its winding reads OL when it is taken off.",
        _word_if(_fault(*OPEN_FANS), "seized"),
    ),
    Misconception(
        "drifted thermostat called stuck",
        ("wrong",),
        "You called the thermostat stuck, but it does close in a warmer cabinet: it works at the wrong temperature.",
        _word_if(_fault(F.THERMOSTAT_DRIFTED), "stuck open"),
    ),
)
