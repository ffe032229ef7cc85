"""Parameters from a nameplate: what it gives back, a known motor found again, a published test, typing errors."""

from __future__ import annotations

import math
from dataclasses import replace
from random import Random

import pytest

from coldwright.electrical.motor import currents, running
from coldwright.electrical.motor_curves import curves, locked_rotor
from coldwright.electrical.motor_estimate import WATTS_PER_HP, MotorPlate, estimate
from coldwright.electrical.motor_types import MotorType, StartCircuit
from coldwright.errors import InputError
from tests.electrical.motors import QUARTER_HP
from tests.published_values import as_printed

BARE = StartCircuit(MotorType.RESISTANCE_START)
PLATE = MotorPlate(120.0, 60.0, WATTS_PER_HP / 5, 2.6, 20.0, 2, 3450.0)
UNITS = [
    ("120 V 1/8 hp", MotorPlate(120.0, 60.0, WATTS_PER_HP / 8, 1.9, 14.0, 2), 3.5, 9.0, BARE),
    ("120 V 1/5 hp", PLATE, 2.2, 6.5, BARE),
    (
        "120 V 1/4 hp 4-pole",
        MotorPlate(120.0, 60.0, WATTS_PER_HP / 4, 4.4, 23.0, 4, 1725.0),
        1.6,
        5.0,
        StartCircuit(MotorType.CAPACITOR_START, start_farad=161e-6),
    ),
    ("230 V 90 W", MotorPlate(230.0, 50.0, 90.0, 0.85, 6.5, 2, 2850.0), 16.0, 32.0, BARE),
    (
        "230 V 186 W",
        MotorPlate(230.0, 50.0, 186.0, 1.5, 10.0, 2, 2850.0),
        8.0,
        17.0,
        StartCircuit(MotorType.CAPACITOR_START_CAPACITOR_RUN, start_farad=60e-6, run_farad=4e-6),
    ),
    (
        "120 V 120 W",
        MotorPlate(120.0, 60.0, 120.0, 1.5, 9.0, 2, 3450.0),
        4.2,
        10.0,
        StartCircuit(MotorType.PERMANENT_CAPACITOR, run_farad=12e-6),
    ),
]


@pytest.mark.parametrize(("plate", "run", "start", "circuit"), [u[1:] for u in UNITS], ids=[u[0] for u in UNITS])
def test_the_nameplate_comes_back(plate, run, start, circuit):
    """By the curves: locked-rotor amps within 3 %, rated amps and watts within 10 %; the windings as measured."""
    found = estimate(plate, run, start, circuit)
    motor, hertz = found.params, plate.frequency_hz
    assert (motor.run_ohm, motor.start_ohm, motor.poles) == (run, start, plate.poles)
    held = locked_rotor(motor, plate.volts, circuit.starting(hertz))
    assert abs(held.line_current) == pytest.approx(plate.locked_rotor_amps, rel=0.03)
    speed = (1.0 - plate.rated_slip) * 4.0 * math.pi * hertz / plate.poles
    rated = curves(motor, plate.volts, circuit.running(hertz), [speed])
    assert abs(rated.line_current[0]) == pytest.approx(plate.rated_amps, rel=0.10)
    assert rated.shaft_torque[0] * speed == pytest.approx(plate.rated_w, rel=0.10)
    assert held.torque > 0


def test_the_nameplate_comes_back_over_many_units(sample):
    """Resistance-start units drawn in the range of small hermetics: each has a motor that fits its nameplate."""
    draw = Random(3)
    for _ in range(sample(small=40, full=400)):
        volts, hertz = draw.choice([(120.0, 60.0), (230.0, 50.0)])
        watts = draw.uniform(80.0, 190.0)
        amps = watts / volts / draw.uniform(0.40, 0.60)
        locked = amps * draw.uniform(5.0, 8.0)
        run = volts / locked * draw.uniform(0.3, 0.45)
        plate = MotorPlate(volts, hertz, watts, amps, locked, draw.choice([2, 4]))
        found = estimate(plate, run, run * draw.uniform(1.8, 3.0), BARE)
        held = locked_rotor(found.params, volts, 0j)
        assert abs(held.line_current) == pytest.approx(locked, rel=0.03)
        rated, _ = currents(found.params, volts, plate.rated_slip)
        assert abs(rated) == pytest.approx(amps, rel=0.10)


def test_a_known_motor_is_found_again():
    """From the nameplate that Fitzgerald's motor would carry, its rotor and magnetising values come back within 12 %.

    Rated values are the example's (companion); locked-rotor amps by hand from the two standstill impedances.
    """
    rotor = 66.8j * (4.12 + 2.12j) / (4.12 + 68.92j)
    run, branch = 2.02 + 2.79j + rotor, 7.14 + 3.22j + 1.18**2 * rotor - 14.737j
    locked = abs(110.0 / run + 110.0 / branch)
    plate = MotorPlate(110.0, 60.0, 147.0, 3.605, locked, 4, 1710.0)
    circuit = StartCircuit(MotorType.CAPACITOR_START, start_farad=180e-6)
    motor = estimate(plate, 2.02, 7.14, circuit, turns_ratio=1.18).params
    for name in ("rotor_ohm", "magnetising_ohm"):
        assert getattr(motor, name) == pytest.approx(getattr(QUARTER_HP, name), rel=0.12)
    shared = QUARTER_HP.run_leakage_ohm + QUARTER_HP.rotor_leakage_ohm
    assert motor.run_leakage_ohm + motor.rotor_leakage_ohm == pytest.approx(shared, rel=0.25)


@pytest.mark.parametrize("run_ohm", [0.8, 1.2, 1.6, 2.0])
def test_watts_taken_in_are_those_of_a_published_test(run_ohm):
    """1/3 hp, 115 V, 5.35 A, 1750 rpm takes 400 W (Kosow, Table 10-2 by Example 10-4, companion): within 6 %.

    Windings and locked-rotor amps are not given there; the watts hardly depend on them, so that a range is tried.
    """
    plate = MotorPlate(115.0, 60.0, WATTS_PER_HP / 3, 5.35, 28.0, 4, 1750.0)
    circuit = StartCircuit(MotorType.CAPACITOR_START, start_farad=200e-6)
    motor = estimate(plate, run_ohm, 3.0 * run_ohm, circuit).params
    taken = running(motor, 115.0, plate.rated_slip).input_w + motor.core_loss_w
    assert taken == as_printed("400", within=24.0, because="losses are shared out by rule of thumb")


def test_every_estimate_is_said():
    """A slip or a turns ratio that was given is not called an estimate; one that was not is."""
    told = estimate(PLATE, 2.2, 6.5, BARE, turns_ratio=0.9)
    guessed = estimate(replace(PLATE, rated_rpm=None), 2.2, 6.5, BARE)
    assert not any("slip" in s or "turns, for" in s for s in told.sentences)
    assert "Rated slip is 4.2%, usual at 60 Hz (common practice, no source)." in guessed.sentences
    assert any(s.startswith("The start winding has 0.8 of the run winding's turns, for res") for s in guessed.sentences)
    assert all(s.endswith(".") for s in guessed.sentences)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            {"volts": 12.0},
            r"^the voltage on the nameplate is 12 V; it must lie from 90 V to 480 V\. Is a digit missing",
        ),
        ({"volts": 1200.0}, r"^the voltage on the nameplate is 1200 V; it must lie from 90 V to 480 V"),
        (
            {"frequency_hz": 0.0},
            r"^the frequency on the nameplate is 0 Hz; it must be 50 Hz or 60 Hz\. Was it left out",
        ),
        ({"poles": 3}, r"^the number of poles on the nameplate is 3 poles; it must be 2, 4, 6 or 8\. Were pairs"),
        ({"rated_w": -1.0}, r"^the rated power on the nameplate is -1 W; it must be above 0 W and finite$"),
        ({"rated_w": math.nan}, r"^the rated power on the nameplate is nan W; it must be above 0 W and finite$"),
        ({"rated_amps": 0.0}, r"^the rated current on the nameplate is 0 A; it must be above 0 A and finite$"),
        (
            {"locked_rotor_amps": 2.0},
            r"^the locked-rotor current on the nameplate is 2 A; it must be above the rated current of 2\.6 A and "
            r"finite\. Were the two swapped\?$",
        ),
        (
            {"rated_w": 1491.0},
            r"^the rated power on the nameplate is 1491 W; it must be at most 0\.9 of volts times amps, here 312 VA\. ",
        ),
        (
            {"rated_rpm": 3700.0},
            r"^the rated speed on the nameplate is 3700 rpm; it must lie below the field's 3600 rpm and at most",
        ),
        ({"rated_rpm": 345.0}, r"^the rated speed on the nameplate is 345 rpm; it must lie below"),
        (
            {"poles": 4},
            r"^the rated speed on the nameplate is 3450 rpm; it must lie below the field's 1800 rpm .* poles",
        ),
    ],
)
def test_a_typing_error_on_the_nameplate(change, message):
    """Each is refused with the thing, its value and the rule."""
    with pytest.raises(InputError, match=message):
        replace(PLATE, **change)


def test_windings_that_do_not_belong():
    """Resistances swapped or not positive, and windings that no motor of this nameplate has, are named."""
    with pytest.raises(InputError, match=r"^the start winding reads 2\.2 Ω and the run winding 6\.5 Ω; .* swapped\?$"):
        estimate(PLATE, 6.5, 2.2, BARE)
    with pytest.raises(InputError, match=r"^the resistance of the run winding is -2\.2 Ω; it must be above 0 Ω"):
        estimate(PLATE, -2.2, 6.5, BARE)
    with pytest.raises(
        InputError, match=r"^the resistance of the start winding is inf Ω; it must be above 0 Ω and fin"
    ):
        estimate(PLATE, 2.2, math.inf, BARE)
    with pytest.raises(
        InputError,
        match=r"^the locked-rotor current on the nameplate is 20 A; the nearest motor .* must belong together",
    ):
        estimate(PLATE, 22.0, 65.0, BARE)
