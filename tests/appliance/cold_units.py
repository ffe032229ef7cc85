"""Units with their cold side, for tests."""

from dataclasses import replace

from coldwright.appliance.cold_faults import ColdFault, ColdFaultName
from coldwright.appliance.cold_unit import ColdUnit, with_cold_side
from coldwright.appliance.cooler import cooler
from coldwright.appliance.operation import Operation
from coldwright.appliance.state import UnitState
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_faults import FaultName, UnitFault

ROOM_K = 298.15


def cold_unit(
    model: str,
    fault: ColdFaultName = ColdFaultName.NONE,
    electric: FaultName = FaultName.NONE,
    room_k: float = ROOM_K,
    size: float = 0.5,
) -> ColdUnit:
    """A model with its cold side, long at rest in a room of 25 °C, as the plate says but for its faults."""
    plate = cooler(model)
    unit = BenchUnit(plate, plate.parts, UnitFault(electric, 0.5), room_k, arrival_state(room_k))
    return with_cold_side(unit, ColdFault(fault, size))


def operation(unit: ColdUnit) -> Operation:
    """What runs it."""
    return Operation(unit.wiring, unit.parts, unit.room_k)


def plugged(unit: ColdUnit, **changes: object) -> UnitState:
    """Its state just plugged in."""
    return operation(unit).settled(replace(unit.arrival, plugged=True, **changes))
