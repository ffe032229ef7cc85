"""Recovery over time: nothing is lost, limit cases by hand, and each choice helps in the direction it should."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from coldwright.errors import InputError
from coldwright.refrigerants.saturation import dew_pressure, latent_heat
from coldwright.refrigerants.states import state_pt
from coldwright.sealed_system.service.gas_flow import Hose
from coldwright.sealed_system.service.recovery_columns import saturation_columns
from coldwright.sealed_system.service.recovery_time import (
    Moment,
    RecoverySystem,
    Work,
    at_rest,
    run_recovery,
)
from coldwright.sealed_system.service.recovery_way import Bag, ColdCylinder, RecoveryMachine

ROOM = 298.15
CHARGE = 0.120
SYSTEM = RecoverySystem("R-134a", 1.5e-3)
NO_OIL = replace(SYSTEM, oil_kg=0.0)
HOSE = Hose(1.5, 4.8e-3)
WIDE = Hose(0.5, 20e-3)
MACHINE = RecoveryMachine(3e-4, 30e3)
OWN = RecoveryMachine(1.7e-4, 20e3)
WAYS = {
    "machine": Work(ROOM, MACHINE, HOSE),
    "bag": Work(ROOM, Bag(), HOSE),
    "bag and own compressor": Work(ROOM, Bag(), HOSE, OWN),
    "cold cylinder": Work(ROOM, ColdCylinder(2e-3, 258.15), HOSE),
}


def run(work: Work, seconds: float = 900.0, system: RecoverySystem = SYSTEM, step: float = 5.0) -> Moment:
    """How a run from rest ends."""
    return run_recovery(system, work, at_rest(system, CHARGE, ROOM), seconds, step).last


@pytest.mark.parametrize("name", WAYS)
def test_no_mass_is_lost(name):
    """What is free, in the oil and recovered is the charge at every moment, and none of it is negative."""
    for moment in run_recovery(SYSTEM, WAYS[name], at_rest(SYSTEM, CHARGE, ROOM), 900.0, 5.0).moments:
        assert moment.free_kg + moment.in_oil_kg + moment.recovered_kg == pytest.approx(CHARGE, rel=1e-12)
        assert min(moment.free_kg, moment.in_oil_kg, moment.recovered_kg) >= 0.0


def test_rest_is_the_vapour_pressure_of_the_room():
    """With liquid left the pressure at rest is the saturation pressure, and shut in it stays there."""
    start = at_rest(SYSTEM, CHARGE, ROOM)

    assert start.pressure_pa == pytest.approx(dew_pressure("R-134a", ROOM), rel=1e-3)
    assert run_recovery(SYSTEM, Work(ROOM), start, 600.0).last.pressure_pa == pytest.approx(start.pressure_pa, rel=1e-9)


def test_columns_hold_between_their_points():
    """Halfway between two rows, pressure and latent heat are those of the equation of state within 0.1 %."""
    columns = saturation_columns("R-134a")
    for kelvin in (214.4, 249.4, 296.9, 336.9):
        pressure = dew_pressure("R-134a", kelvin)
        assert columns.pressure(kelvin) == pytest.approx(pressure, rel=1e-3)
        assert columns.latent_heat(kelvin) == pytest.approx(latent_heat("R-134a", pressure), rel=1e-3)


def test_vapour_between_ideal_and_saturated_against_the_equation_of_state():
    """At 100 kPa and 300 kPa, 25 °C, vapour of R-134a is within 1 % of the equation of state, and back again."""
    columns = saturation_columns("R-134a")
    for pressure in (1e5, 3e5):
        density = columns.vapour_density_at(pressure, ROOM)
        assert density == pytest.approx(state_pt("R-134a", pressure, ROOM).density_kg_per_m3, rel=1e-2)
        assert columns.vapour_pressure_of(density, ROOM) == pytest.approx(pressure, rel=1e-9)


def test_vapour_alone_is_pumped_down_exponentially():
    """No oil, no liquid, a wide hose: p - pu falls as exp(-S t / V), by hand."""
    start = at_rest(NO_OIL, 0.010, ROOM)
    end = run_recovery(NO_OIL, Work(ROOM, MACHINE, WIDE), start, 10.0, 0.02).last
    by_hand = 30e3 + (start.pressure_pa - 30e3) * math.exp(-MACHINE.displacement_m3_per_s * 10.0 / 1.5e-3)

    assert end.pressure_pa == pytest.approx(by_hand, rel=0.04)  # Z is 0.97 at first


def test_a_bag_stops_at_air_pressure():
    """Without oil, a bag leaves the volume full of vapour at air pressure: V times its density, and no less."""
    end = run(WAYS["bag"], 3600.0, NO_OIL)
    left = 1.5e-3 * 101325.0 * 0.102032 / (8.314462618 * ROOM)  # ideal gas, by hand

    assert end.pressure_pa == pytest.approx(101325.0, rel=1e-3)
    assert end.free_kg == pytest.approx(left, rel=0.03)  # Z of this vapour is 0.98


def test_boiling_cools_by_its_latent_heat():
    """No warmth from the room, no oil: the metal gives what boiled took, but for the change of latent heat."""
    insulated = replace(NO_OIL, room_w_per_k=1e-9)
    start = at_rest(insulated, CHARGE, ROOM)
    end = run_recovery(insulated, WAYS["machine"], start, 5.0, 0.1).last
    heat = end.recovered_kg * latent_heat("R-134a", start.pressure_pa)

    assert end.temperature_k < ROOM - 1.0
    assert insulated.metal_j_per_k * (ROOM - end.temperature_k) == pytest.approx(heat, rel=0.05)


def test_the_pressure_comes_back_after_the_hose_is_shut():
    """Oil lets go late: shut after a quarter of an hour, the pressure rises; without oil it does not."""
    for system, rises in ((SYSTEM, True), (NO_OIL, False)):
        shut = run(WAYS["machine"], 900.0, system)
        later = run_recovery(system, Work(ROOM), shut, 1800.0, 5.0).last
        assert (later.pressure_pa > 1.15 * shut.pressure_pa) is rises


@pytest.mark.parametrize(
    ("better", "worse", "seconds"),
    [
        (WAYS["machine"], Work(ROOM, MACHINE, Hose(1.5, 4.8e-3, 1e-3)), 30.0),
        (Work(ROOM, Bag(), Hose(0.5, 4.8e-3)), Work(ROOM, Bag(), Hose(3.0, 3e-3)), 10.0),
        (WAYS["bag and own compressor"], WAYS["bag"], 600.0),
        (WAYS["machine"], WAYS["bag"], 600.0),
        (Work(ROOM, Bag(), HOSE, shell_heated=True), WAYS["bag"], 600.0),
        (Work(ROOM, ColdCylinder(2e-3, 248.15), HOSE), WAYS["cold cylinder"], 600.0),
    ],
    ids=["no core", "short wide hose", "compressor", "active", "heated shell", "colder cylinder"],
)
def test_what_helps_helps(better, worse, seconds):
    """Hose and core count in the first half minute; compressor, machine, warm oil and cold cylinder in ten minutes."""
    assert run(better, seconds).recovered_kg > 1.02 * run(worse, seconds).recovered_kg


def test_a_warm_room_helps():
    """At 32 °C more comes out than at 12 °C, from the same charge."""
    amounts = []
    for kelvin in (285.15, 305.15):
        start = at_rest(SYSTEM, CHARGE, kelvin)
        amounts.append(run_recovery(SYSTEM, Work(kelvin, Bag(), HOSE), start, 600.0, 5.0).last.recovered_kg)

    assert amounts[1] > 1.01 * amounts[0]


@pytest.mark.parametrize("name", ["bag", "bag and own compressor"])
def test_halving_the_step_changes_little(name):
    """Half the step moves what came out by less than 0.5 %."""
    whole, half = (run(WAYS[name], 300.0, step=step).recovered_kg for step in (2.0, 1.0))

    assert whole == pytest.approx(half, rel=5e-3)


def test_time_until_a_share_is_out():
    """The time until 80 % lies within the run; the time until all of it is never reached."""
    found = run_recovery(SYSTEM, WAYS["bag and own compressor"], at_rest(SYSTEM, CHARGE, ROOM), 900.0)
    reached = found.time_until(0.8 * CHARGE)

    assert reached is not None
    assert 0.0 < reached < 900.0
    assert found.time_until(CHARGE) is None


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: at_rest(SYSTEM, -0.1, ROOM), r"charge is -100 g"),
        (lambda: at_rest(SYSTEM, 0.1, 473.15), r"temperature of the room is 200 °C"),
        (lambda: Work(ROOM, Bag()), r"a way without a hose"),
        (lambda: Work(25.0), r"Was it 25 °C, typed where kelvin"),
        (lambda: RecoverySystem("R-134a", 3.0), r"volume is 3 m³.*Was it 3 L"),
        (lambda: RecoverySystem("R-134a", 3e-3, oil_kg=-1.0), r"oil is -1 kg"),
        (lambda: RecoverySystem("R-134a", 3e-3, oil_share=20.0), r"share in the oil is 20;.*per cent"),
        (lambda: RecoveryMachine(0.0, 3e4), r"displacement of the machine is 0"),
        (lambda: Bag(5e5), r"air pressure is 500 kPa absolute"),
        (lambda: ColdCylinder(2e-3, 473.15), r"temperature of the cylinder is 200 °C"),
        (lambda: run_recovery(SYSTEM, Work(ROOM), at_rest(SYSTEM, 0.1, ROOM), -1.0), r"length of the run is -1 s"),
        (lambda: at_rest(replace(SYSTEM, refrigerant="R-999"), 0.1, ROOM), r"R-999"),
    ],
)
def test_bad_input_is_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
