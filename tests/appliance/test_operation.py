"""A unit as time passes: starts, locked rotors, trips, heat and charge, against what the models and the trade say."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from coldwright.appliance.cooler import Cooler, cooler, coolers
from coldwright.appliance.operation import Operation
from coldwright.appliance.unit import arrival_state, plate_of
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName, UnitFault, with_fault
from coldwright.electrical.motor import synchronous_speed
from coldwright.electrical.motor_curves import speed_at_load
from coldwright.electrical.motor_types import Load

ROOM_K = 298.15
MOTORS = [each.model for each in coolers() if each.parts.motor is not None]


def run(plate: Cooler, seconds: float, fault: FaultName = FaultName.NONE, **state):
    """What a span of time leaves of a unit that was just plugged in."""
    parts = with_fault(plate.parts, UnitFault(fault, 0.5, "overload 1"))
    began = replace(arrival_state(ROOM_K), plugged=True, **state)
    return Operation(plate.wiring, parts, ROOM_K).advance(began, seconds, "cord L")


@pytest.mark.parametrize("model", MOTORS)
def test_a_healthy_unit_starts_within_two_seconds_and_goes_on_running(model):
    """Every model starts on its own device, lets the start winding go, and has not tripped after five minutes."""
    plate = cooler(model)
    started = run(plate, 2.0).state
    assert started.speed > 0.9 * synchronous_speed(plate.parts.motor)
    later = run(plate, 300.0)
    assert later.state.speed > 0.9 * synchronous_speed(plate.parts.motor)
    assert not later.state.overload_open
    if plate.parts.run_capacitor is None:
        through = UnitCircuit(plate.wiring, plate.parts, later.state).component_current("compressor second")
        assert abs(through) < 0.1


@pytest.mark.parametrize("model", ["Tarn 11", "Tarn 21", "Tarn 14", "Tarn 24", "Tarn 13"])
def test_running_speed_is_where_torque_meets_load(model):
    """Once settled, the speed is that of the motor model on its own for the same volts, resistances and load.

    The model on its own is checked against textbooks in tests/electrical/test_motor.py.
    """
    plate = cooler(model)
    settled = run(plate, 900.0, knob_on=True).state
    motor = plate.parts.motor
    hot = 1 + (settled.winding_k - 293.15) / (234.5 + 20.0)
    circuit = UnitCircuit(plate.wiring, plate.parts, settled)
    volts = abs(circuit.component_voltage("pin C", "pin R"))
    warm = replace(motor, run_ohm=motor.run_ohm * hot)
    load = plate.parts.load
    asked = load.equal_nm + (load.working_nm - load.equal_nm) * settled.pressure
    alone = speed_at_load(replace(warm, core_loss_w=0.0), volts, Load(asked))
    rpm = 60 / (2 * math.pi)
    assert settled.speed * rpm == pytest.approx(alone * rpm, abs=3.0)


def test_a_seized_rotor_trips_and_tries_again():
    """It hums, the overload opens within half a minute, closes after cooling, and it hums again, on and on."""
    heard = [event.words for event in run(cooler("Tarn 11"), 400.0, FaultName.SEIZED).events]
    assert heard[0] == "hums"
    assert heard.count("click from the compressor") >= 6
    assert "runs" not in heard


def test_first_trip_comes_when_the_overload_model_says():
    """With a locked rotor the first trip is within 5 % of the overload's own trip time at the mean current."""
    plate = cooler("Tarn 11")
    passed = run(plate, 60.0, FaultName.SEIZED)
    trip = next(event.at_s for event in passed.events if "click" in event.words)
    square = [amps**2 for at, amps, _ in passed.samples if at < trip]
    amps = math.sqrt(sum(square) / len(square))
    fans = sum(fan.amps for fan in plate.parts.fans.values())
    assert trip == pytest.approx(plate.parts.overload.trip_time(amps - fans, ROOM_K, ROOM_K, ROOM_K), rel=0.25)


@pytest.mark.parametrize(
    ("model", "fault"),
    [
        ("Tarn 11", FaultName.RELAY_STUCK_OPEN),
        ("Tarn 11", FaultName.RELAY_WRONG),
        ("Tarn 11", FaultName.START_WINDING_OPEN),
        ("Tarn 22", FaultName.PTC_OPEN),
        ("Tarn 13", FaultName.START_SWITCH_OPEN),
        ("Tarn 14", FaultName.START_CAPACITOR_OPEN),
        ("Tarn 26", FaultName.RUN_CAPACITOR_OPEN),
    ],
)
def test_without_its_start_winding_it_hums_and_does_not_start(model, fault):
    """A single winding makes no torque at standstill (revolving fields): locked rotor until the overload opens."""
    passed = run(cooler(model), 120.0, fault)
    assert passed.state.speed == 0
    assert {event.words for event in passed.events} >= {"hums", "click from the compressor"}


@pytest.mark.parametrize("fault", [FaultName.RELAY_WELDED, FaultName.RELAY_UPSIDE_DOWN])
def test_a_start_winding_that_stays_in_trips_the_overload(fault):
    """It starts and runs, but with far more than its running amps, and the overload opens within a minute."""
    passed = run(cooler("Tarn 11"), 60.0, fault)
    words = [event.words for event in passed.events]
    assert words.index("runs") < words.index("click from the compressor")
    amps = [amps for at, amps, _ in passed.samples if 5 < at < 15]
    assert min(amps) > 3 * plate_of(cooler("Tarn 11")).running_a


@pytest.mark.parametrize(
    "fault",
    [FaultName.CORD_OPEN, FaultName.THERMOSTAT_OPEN, FaultName.OVERLOAD_OPEN, FaultName.RELAY_COIL_OPEN],
)
def test_an_open_path_is_silent(fault):
    """No current, no sound."""
    passed = run(cooler("Tarn 11"), 60.0, fault)
    assert {event.words for event in passed.events} == {"silence"}


def test_low_supply_does_not_pull_the_relay_in():
    """At two thirds of the volts the locked-rotor amps stay below pick-up, and it hums."""
    plate = cooler("Tarn 11")
    passed = run(plate, 5.0, FaultName.LOW_SUPPLY)
    assert passed.state.speed == 0
    assert max(amps for _, amps, _ in passed.samples) < plate.parts.start_device.pick_up_a


def test_a_hot_ptc_does_not_let_it_start_again_at_once():
    """Started again after ten seconds the PTC is still hot and pressures are up: it hums. Cool, it starts."""
    plate = cooler("Tarn 22")
    work = Operation(plate.wiring, plate.parts, ROOM_K)
    ran = run(plate, 300.0).state
    for rest, starts in ((10.0, False), (600.0, True)):
        off = work.advance(replace(ran, plugged=False), rest).state
        again = work.advance(replace(off, plugged=True), 3.0).state
        assert (again.speed > 0) is starts, rest


def test_supply_sags_while_it_starts():
    """While the rotor is locked the plug has the supply less amps times the ohms of the house wiring, as phasors."""
    plate = cooler("Tarn 11")
    samples = run(plate, 2.0).samples
    lowest = min(volts for _, _, volts in samples)
    most = max(amps for _, amps, _ in samples)
    assert plate.volts - most * plate.parts.supply.wiring_ohm <= lowest < plate.volts - 0.5 * most * 0.35


def test_start_capacitor_keeps_part_of_the_peak_when_the_contact_opens():
    """Without bleed resistor the charge stays: `phase` times the peak of the volts it had."""
    plate = cooler("Tarn 14")
    bare = replace(plate.parts, start_capacitor=replace(plate.parts.start_capacitor, bleed_ohm=None))
    began = replace(arrival_state(ROOM_K), plugged=True)
    held = Operation(plate.wiring, bare, ROOM_K, phase=0.5).advance(began, 30.0).state.start_capacitor_v
    full = Operation(plate.wiring, bare, ROOM_K, phase=1.0).advance(began, 30.0).state.start_capacitor_v
    assert full == pytest.approx(2 * held, rel=1e-6)
    assert 0.5 * plate.volts < full < 3 * math.sqrt(2) * plate.volts


def test_bleed_resistor_empties_it_by_the_time_constant():
    """V = V0 exp(-t/RC) with the bleed resistor alone across the capacitor."""
    plate = cooler("Tarn 14")
    state = replace(arrival_state(ROOM_K), start_capacitor_v=150.0)
    after = Operation(plate.wiring, plate.parts, ROOM_K).advance(state, 3.0).state.start_capacitor_v
    capacitor = plate.parts.start_capacitor
    assert after == pytest.approx(150.0 * math.exp(-3.0 / (capacitor.bleed_ohm * capacitor.farad)), rel=1e-3)


def test_run_capacitor_empties_through_the_windings_at_once():
    """It lies across the windings: the plug pulled, nothing is left after a second."""
    plate = cooler("Tarn 26")
    work = Operation(plate.wiring, plate.parts, ROOM_K)
    ran = run(plate, 10.0).state
    pulled = work.switched(ran, replace(ran, plugged=False))
    assert abs(pulled.run_capacitor_v) > 50
    assert work.advance(pulled, 1.0).state.run_capacitor_v == 0


def test_inverter_bus_charges_to_the_peak_and_stays_when_unplugged():
    """√2 times the supply on the bus while plugged in; then down by its bleed resistor, 2 MΩ of rectifier beside it."""
    plate = cooler("Tarn 28")
    live = run(plate, 5.0).state
    assert live.bus_v == pytest.approx(math.sqrt(2) * 230.0, rel=0.01)
    off = Operation(plate.wiring, plate.parts, ROOM_K).advance(replace(live, plugged=False), 30.0).state
    board = plate.parts.board
    beside = 1 / (1 / board.bleed_ohm + 1 / 2e6)
    assert off.bus_v == pytest.approx(live.bus_v * math.exp(-30.0 / (beside * board.bus_farad)), rel=0.02)


def test_thermostat_cycles_between_its_two_temperatures():
    """Over a day the cabinet stays between cut-out and cut-in, within a step of the simulation."""
    plate = cooler("Tarn 11")
    work = Operation(plate.wiring, plate.parts, ROOM_K)
    state = run(plate, 3 * 3600.0).state
    seen = []
    for _ in range(12):
        state = work.advance(state, 1800.0).state
        seen.append(state.cabinet_k)
    thermostat = plate.parts.thermostat
    assert thermostat.open_k - 0.5 < min(seen) <= max(seen) < thermostat.close_k + 0.5


def test_energy_is_watts_times_seconds():
    """The lamp alone for an hour: its watts times 3600 s."""
    plate = cooler("Tarn 11")
    passed = run(plate, 3600.0, knob_on=False, door_open=True)
    watts = UnitCircuit(plate.wiring, plate.parts, passed.state).power()[0]
    assert passed.state.energy_j == pytest.approx(watts * 3600.0, rel=1e-6)


def test_time_in_one_span_or_in_two_is_the_same():
    """Splitting a span at a moment when nothing switches changes nothing that a meter would show."""
    plate = cooler("Tarn 22")
    whole = run(plate, 60.0).state
    work = Operation(plate.wiring, plate.parts, ROOM_K)
    half = work.advance(run(plate, 30.0).state, 30.0).state
    assert half.speed == pytest.approx(whole.speed, rel=1e-3)
    assert half.winding_k == pytest.approx(whole.winding_k, abs=0.05)
    assert half.ptc_k == pytest.approx(whole.ptc_k, abs=0.5)


def test_plate_and_unit_agree():
    """What the plate says is what a settled healthy unit takes, compressor alone, at rated volts."""
    for model in MOTORS:
        plate = plate_of(cooler(model))
        assert 0.3 < plate.running_a < plate.locked_a / 3
        assert 80 < plate.watts < 400


@pytest.mark.parametrize("model", ["Tarn 15", "Tarn 25", "Tarn 26", "Tarn 17", "Tarn 27"])
def test_a_run_capacitor_earns_its_place(model):
    """Running, the healthy unit draws fewer amps than with the run capacitor low, and fewer than with it open."""
    plate = cooler(model)
    drawn = []
    for fault in (FaultName.NONE, FaultName.RUN_CAPACITOR_LOW, FaultName.RUN_CAPACITOR_OPEN):
        parts = with_fault(plate.parts, UnitFault(fault, 0.5))
        state = Operation(plate.wiring, parts, ROOM_K).advance(run(plate, 300.0).state, 60.0).state
        drawn.append(UnitCircuit(plate.wiring, parts, state).ac_current("pin C"))
    assert drawn == sorted(drawn)
    assert drawn[0] < 0.9 * drawn[2]
