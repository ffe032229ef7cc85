"""One unit: its electrical side, its sealed system and its cabinet go together.

Directions from physics and the trade (common practice, no source) unless said otherwise; every number compared with is
another part of the same unit's own or a limit by hand.
"""

from dataclasses import replace

import pytest

from coldwright.appliance.cold_faults import ColdFaultName
from coldwright.appliance.cold_parts import plate_charge
from coldwright.appliance.cold_side import around_of, moment_of
from coldwright.appliance.cold_unit import with_cold_side
from coldwright.appliance.cooler import cooler
from coldwright.appliance.drive import drive_of
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName, UnitFault
from coldwright.electrical.motor import synchronous_speed
from coldwright.errors import InputError
from coldwright.sealed_system.design import design_around
from coldwright.sealed_system.engine import engine_of
from coldwright.sealed_system.outcome import settled
from tests.appliance.cold_units import ROOM_K, cold_unit, operation, plugged

HOUR_S = 3600.0
MODELS = ("Tarn 11", "Tarn 22", "Tarn 14", "Tarn 26")


def now(unit, state):
    """What flows in the unit's sealed system, and what its circuit does."""
    drive = drive_of(UnitCircuit(unit.wiring, unit.parts, state))
    return moment_of(unit.parts, unit.parts.cold, unit.room_k, state, drive), drive


@pytest.mark.parametrize("model", MODELS)
def test_the_design_point_is_the_plates(model):
    """With the plate's charge, a room of 25 °C and 4 °C inside: the compressor asks for the model's working torque, and
    superheat and subcooling are the design's."""
    unit = cold_unit(model)
    cold = unit.parts.cold
    end = settled(engine_of(cold.refrigerant), cold.plant, design_around(cold.plate_charge_kg))
    motor = unit.parts.motor
    asked = unit.parts.load.working_nm * 0.96 * synchronous_speed(motor)
    assert end.moment.shaft_w == pytest.approx(asked, rel=0.005)
    assert end.moment.superheat_k == pytest.approx(10.0, abs=0.1)
    assert end.moment.subcooling_k == pytest.approx(7.0, abs=0.1)


@pytest.mark.parametrize("model", MODELS)
def test_one_motor_two_accounts(model):
    """Running for an hour, watts at the plug less fans and cord are those of the sealed system's motor line, to 4 %."""
    unit = cold_unit(model)
    state = operation(unit).advance(plugged(unit), HOUR_S).state
    moment, drive = now(unit, state)
    fans = sum(fan.watts for fan in unit.parts.fans.values())
    assert drive.plug_w - fans == pytest.approx(moment.watts, rel=0.04)


@pytest.mark.parametrize("electric", [FaultName.RELAY_STUCK_OPEN, FaultName.SEIZED, FaultName.CORD_OPEN])
def test_a_compressor_that_cannot_start_moves_no_refrigerant(electric):
    """Pressures stay equal and the cabinet stays as warm as the room."""
    unit = cold_unit("Tarn 11", electric=electric)
    state = operation(unit).advance(plugged(unit), HOUR_S).state
    moment, _ = now(unit, state)
    assert moment.discharge_pa == pytest.approx(moment.suction_pa, rel=0.01)
    assert state.cabinet_k > ROOM_K - 0.1


def test_high_pressure_raises_the_current():
    """A fouled condenser: more discharge pressure, more amps at the plug, a hotter shell than the healthy unit."""
    shown = {}
    for fault in (ColdFaultName.NONE, ColdFaultName.CONDENSER_FOULED):
        unit = cold_unit("Tarn 22", fault, size=1.0)
        state = operation(unit).advance(plugged(unit), HOUR_S).state
        moment, _ = now(unit, state)
        amps = UnitCircuit(unit.wiring, unit.parts, state).ac_current("plug L")
        shown[fault] = (moment.discharge_pa, abs(amps), state.shell_k)
    healthy, fouled = shown.values()
    assert all(more > less for more, less in zip(fouled, healthy, strict=True))
    assert fouled[1] > 1.05 * healthy[1]


@pytest.mark.parametrize("model", ["Tarn 13", "Tarn 22", "Tarn 26"])
def test_a_low_torque_start_fails_against_unequal_pressure(model):
    """Started after half a minute it does not run at once, after ten minutes it does (common practice, no source)."""
    unit = cold_unit(model)
    run = operation(unit)
    stopped = replace(run.advance(plugged(unit), HOUR_S).state, plugged=False)
    soon = run.advance(replace(run.advance(run.settled(stopped), 30.0).state, plugged=True), 5.0).state
    later = run.advance(replace(run.advance(run.settled(stopped), 600.0).state, plugged=True), 5.0).state
    assert soon.speed < 0.5 * synchronous_speed(unit.parts.motor)
    assert later.speed > 0.9 * synchronous_speed(unit.parts.motor)


def test_the_thermostat_keeps_its_band():
    """From a warm start the air comes into the band and stays within 0.6 K of it for the rest of half a day."""
    unit = cold_unit("Tarn 11")
    run, state = operation(unit), plugged(unit)
    state = run.advance(state, 3 * HOUR_S).state
    switch = unit.parts.thermostat
    for _ in range(54):
        state = run.advance(state, 600.0).state
        assert switch.open_k - 0.6 < state.cabinet_k < switch.close_k + 0.6


def test_the_end_of_time_is_the_steady_balance():
    """With the thermostat stuck closed the unit ends where the balance of the same surroundings lies, to 0.5 %."""
    unit = cold_unit("Tarn 11", electric=FaultName.THERMOSTAT_CLOSED)
    state = operation(unit).advance(plugged(unit), 30 * HOUR_S).state
    moment, drive = now(unit, state)
    cold = unit.parts.cold
    end = settled(engine_of(cold.refrigerant), cold.plant, around_of(unit.parts, cold, unit.room_k, state, drive))
    for name in ("discharge_pa", "suction_pa", "watts", "evaporator_w", "flow"):
        assert getattr(moment, name) == pytest.approx(getattr(end.moment, name), rel=0.005), name


def test_a_door_left_open_warms_the_cabinet():
    """The same hour with the door open ends warmer."""
    unit = cold_unit("Tarn 11")
    run = operation(unit)
    shut, open_ = (run.advance(plugged(unit, door_open=door), HOUR_S).state.cabinet_k for door in (False, True))
    assert open_ > shut + 2.0


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("R-134a", 'write name and grams such as "R-134a, 85 g"'),
        ("85 g", "write name and grams"),
        ("R-999, 85 g", "R-999"),
        ("R-134a, 3 oz", "write name and grams"),
    ],
)
def test_a_plates_line_is_read_or_refused(line, message):
    """A line that is not name and grams is refused with the form it must have."""
    with pytest.raises(InputError, match=message):
        plate_charge(line)


def test_a_plates_line_by_hand():
    """85 g is 0.085 kg, and the name is the usual one."""
    assert plate_charge("R134a, 85 g") == ("R-134a", pytest.approx(0.085))


def test_an_inverter_compressor_is_refused():
    """Its speed is not worked out, so it has no cold side."""
    plate = cooler("Tarn 18")
    unit = BenchUnit(plate, plate.parts, UnitFault(FaultName.NONE, 0.5), ROOM_K, arrival_state(ROOM_K))
    with pytest.raises(InputError, match="inverter"):
        with_cold_side(unit)


def test_a_start_leaves_the_evaporator_as_it_was():
    """In the first fifth of a second nothing has flowed yet: the evaporator is as warm as before, by hand."""
    unit = cold_unit("Tarn 11")
    before = plugged(unit)
    assert operation(unit).advance(before, 0.2).state.evaporator_k == before.evaporator_k
