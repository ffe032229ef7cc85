"""The unit that a ticket draws for reading the circuit: one fault behind the complaint, and one poor joint.

Every unit has a poor joint, so that everyone hunts for a voltage drop. Where the complaint itself comes from a loose
joint there is no other. A new part brings new joints, so the poor joint is never at the part that has to be changed.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from coldwright.appliance.cooler import coolers
from coldwright.appliance.operation import Operation
from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_faults import FaultName, UnitFault
from coldwright.appliance.wiring import Wiring
from coldwright.bench.draw import Draw
from coldwright.bench.unit_bench import UnitBench
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_draw import drawn_lead, drawn_unit
from coldwright.quantities.constants import ICE_POINT_K

F = FaultName
COMMON = (
    F.CORD_OPEN,
    F.THERMOSTAT_OPEN,
    F.THERMOSTAT_CLOSED,
    F.THERMOSTAT_DRIFTED,
    F.DOOR_SWITCH_OPEN,
    F.DOOR_SWITCH_CLOSED,
    F.CONDENSER_FAN_OPEN,
    F.CONDENSER_FAN_SEIZED,
    F.EVAPORATOR_FAN_OPEN,
    F.EVAPORATOR_FAN_SEIZED,
    F.LOOSE_CONNECTION,
)
DEFROST = (F.TIMER_STUCK_COOLING, F.TIMER_STUCK_DEFROST, F.HEATER_OPEN, F.TERMINATOR_OPEN, F.TERMINATOR_CLOSED)
FAULTS = COMMON + 4 * DEFROST  # half of the units are frost-free: so each fault is about as frequent as any other

TOO_WARM = "It is too warm inside. The lamp lights."
LIGHT = "Something is wrong with the light inside."
ONE_FAN = "It cools poorly. One fan is not to be heard any more."
ICE = "It cools poorly. The evaporator is one block of ice."
COMPLAINTS = {
    F.CORD_OPEN: "Nothing works: no light, no sound.",
    F.THERMOSTAT_OPEN: TOO_WARM,
    F.THERMOSTAT_DRIFTED: TOO_WARM,
    F.TIMER_STUCK_DEFROST: TOO_WARM,
    F.THERMOSTAT_CLOSED: "It never stops, and the food freezes.",
    F.DOOR_SWITCH_OPEN: LIGHT,
    F.DOOR_SWITCH_CLOSED: LIGHT,
    F.CONDENSER_FAN_OPEN: ONE_FAN,
    F.CONDENSER_FAN_SEIZED: ONE_FAN,
    F.EVAPORATOR_FAN_OPEN: ONE_FAN,
    F.EVAPORATOR_FAN_SEIZED: ONE_FAN,
    F.LOOSE_CONNECTION: "It cools poorly, and there is a smell of hot plastic.",
    F.TIMER_STUCK_COOLING: ICE,
    F.HEATER_OPEN: ICE,
    F.TERMINATOR_OPEN: ICE,
    F.TERMINATOR_CLOSED: "There is a smell of hot plastic at the evaporator after each defrost.",
}
COMPONENTS = {
    F.CORD_OPEN: "cord",
    F.THERMOSTAT_OPEN: "thermostat",
    F.THERMOSTAT_CLOSED: "thermostat",
    F.THERMOSTAT_DRIFTED: "thermostat",
    F.DOOR_SWITCH_OPEN: "door switch",
    F.DOOR_SWITCH_CLOSED: "door switch",
    F.CONDENSER_FAN_OPEN: "condenser fan",
    F.CONDENSER_FAN_SEIZED: "condenser fan",
    F.EVAPORATOR_FAN_OPEN: "evaporator fan",
    F.EVAPORATOR_FAN_SEIZED: "evaporator fan",
    F.TIMER_STUCK_COOLING: "defrost timer",
    F.TIMER_STUCK_DEFROST: "defrost timer",
    F.HEATER_OPEN: "heater",
    F.TERMINATOR_OPEN: "terminator",
    F.TERMINATOR_CLOSED: "terminator",
}
JOINTS = ("cord N", "thermostat 1", "thermostat 2")  # the fans' current flows through these
POOR_OHM = (0.1, 0.2)  # at 120 V; a compressor still starts through it
SUPPLY_SHARE = (0.99, 1.04)  # of the rated volts
ROOM_C = (21.0, 30.0)  # above what a drifted thermostat closes at
CABINET_C = (8.0, 9.4)  # a sound thermostat and a cold terminator are closed here, a drifted thermostat is open


def is_frost_free(wiring: Wiring) -> bool:
    """Whether a wiring has a defrost timer.

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]
    """
    return any(component.name == "defrost timer" for component in wiring.components)


PLAIN_MODELS = tuple(c.model for c in coolers() if not is_frost_free(c.wiring))
FROST_FREE_MODELS = tuple(c.model for c in coolers() if is_frost_free(c.wiring))
MODELS = PLAIN_MODELS + FROST_FREE_MODELS * (len(PLAIN_MODELS) // len(FROST_FREE_MODELS))


def joint_places(wiring: Wiring) -> tuple[str, ...]:
    """Terminals at which the poor joint may be.

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]
    """
    return (*JOINTS, *(terminal for terminal in ("overload 1", "board L") if terminal in wiring.terminals))


def faulty_component(unit: BenchUnit) -> str:
    """Name of the component that has to be changed: where a joint is loose, the one it is at.

    Parameters
    ----------
    unit : BenchUnit
        The unit [-]
    """
    if unit.fault.name is F.LOOSE_CONNECTION:
        return unit.wiring.owner(unit.fault.terminal).name
    return COMPONENTS[unit.fault.name]


def poor_joint(unit: BenchUnit) -> str:
    """Terminal of the joint that is poor.

    Parameters
    ----------
    unit : BenchUnit
        The unit [-]
    """
    return next(iter(unit.parts.loose))


def _starts_well(draw: Draw, unit: BenchUnit) -> Parts:
    """Parts with the plate's windings on a full supply, so that a poor joint alone never keeps it from starting."""
    plate = unit.cooler
    supply = replace(unit.healthy.supply, volts=plate.volts * draw.between("full supply", *SUPPLY_SHARE))
    return replace(unit.healthy, motor=plate.parts.motor, supply=supply)


def draw_unit(seed: bytes) -> BenchUnit:
    """The cooler that a seed draws.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]

    Returns
    -------
    BenchUnit
        Unplugged, its cabinet cooler than the room, with the fault behind its complaint and a poor joint elsewhere.
    """
    draw = Draw(seed)
    unit = drawn_unit(seed, MODELS, FAULTS)
    room_k = ICE_POINT_K + draw.between("warm room", *ROOM_C)
    fault, healthy = UnitFault(unit.fault.name, unit.fault.size), _starts_well(draw, unit)
    if fault.name is F.LOOSE_CONNECTION:
        fault = replace(fault, terminal=draw.one_of("joint", JOINTS))
    else:
        changed = COMPONENTS[fault.name]
        places = [t for t in joint_places(unit.wiring) if unit.wiring.owner(t).name != changed]
        ohm = draw.between("poor joint", *POOR_OHM) * unit.cooler.volts / 120.0
        healthy = replace(healthy, loose={draw.one_of("joint", places): ohm})
    unit = replace(
        unit,
        healthy=healthy,
        fault=fault,
        room_k=room_k,
        complaint=COMPLAINTS[fault.name],
    )
    came = arrival_state(room_k, ICE_POINT_K + draw.between("cool cabinet", *CABINET_C))
    settled = Operation(unit.wiring, unit.parts, room_k, unit.phase).advance(came, 1.0).state
    return replace(unit, arrival=replace(settled, at_s=0.0))


def open_bench(ticket: Ticket, path: Path | None = None) -> UnitBench:
    """The ticket's unit on the bench.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    path : Path, optional
        Job sheet to go on with, or to begin [-]
    """
    seed = ticket.seed_bytes
    return UnitBench(draw_unit(seed), seed, drawn_lead(seed), ticket.header, path)
