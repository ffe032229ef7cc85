"""A healthy cooler starts again from hot once its pressures are equal: on every model, at its least volts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coldwright.appliance.cooler import Cooler, cooler, coolers
from coldwright.appliance.drive import drive_of
from coldwright.appliance.operation import Operation
from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import arrival_state
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.electrical.start_relays import CurrentRelay
from coldwright.labs.unit_draw import TOLERANCE
from coldwright.quantities.constants import ICE_POINT_K

MOTORS = [each.model for each in coolers() if each.parts.motor is not None]
RELAYS = [each.model for each in coolers() if isinstance(each.parts.start_device, CurrentRelay)]
KITCHEN_K = ICE_POINT_K + 30
REST_S = 600.0  # common practice, no source: five to ten minutes until the pressures are equal


def worst(plate: Cooler) -> Parts:
    """Healthy parts that take the fewest amps at the start: least volts, most ohms."""
    motor, supply = plate.parts.motor, plate.parts.supply
    assert motor is not None
    more = 1 + TOLERANCE
    return replace(
        plate.parts,
        supply=replace(supply, volts=plate.volts * (1 - TOLERANCE)),
        motor=replace(motor, run_ohm=motor.run_ohm * more, start_ohm=motor.start_ohm * more),
    )


@pytest.mark.parametrize("model", MOTORS)
@pytest.mark.parametrize("winding_c", [70, 110])
def test_ten_minutes_after_it_ran_hot_it_runs_again(model: str, winding_c: int) -> None:
    """Plug pulled from a hot run, ten minutes of rest, plugged in: it runs, and its start device has let go."""
    plate = cooler(model)
    unit = Operation(plate.wiring, worst(plate), KITCHEN_K)
    ran = replace(
        arrival_state(KITCHEN_K), winding_k=ICE_POINT_K + winding_c, shell_k=ICE_POINT_K + 70, pressure=1.0, ptc_k=400.0
    )
    rested = unit.advance(ran, REST_S).state
    started = unit.advance(unit.settled(replace(rested, plugged=True)), 10.0).state
    assert started.speed > 0, model
    assert not started.contact_closed


@pytest.mark.parametrize("model", RELAYS)
def test_a_current_relay_pulls_in_on_the_run_winding_alone_hot(model: str) -> None:
    """Its definition: pick-up below the locked run winding's amps at 100 °C, drop-out above the running amps."""
    plate = cooler(model)
    relay = plate.parts.start_device
    assert isinstance(relay, CurrentRelay)
    stands = replace(arrival_state(KITCHEN_K), plugged=True, winding_k=ICE_POINT_K + 100, contact_closed=False)
    assert drive_of(UnitCircuit(plate.wiring, worst(plate), stands)).coil_a > relay.pick_up_a
    unit = Operation(plate.wiring, plate.parts, KITCHEN_K)
    runs = unit.advance(replace(arrival_state(KITCHEN_K), plugged=True), 600.0).state
    assert drive_of(UnitCircuit(plate.wiring, plate.parts, runs)).coil_a < relay.drop_out_a
