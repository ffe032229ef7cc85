"""The start in time: it settles on the phasors, agrees with scipy on equations written another way, obeys its relay."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from coldwright.electrical.motor import currents, drag_torque, slip_of, synchronous_speed
from coldwright.electrical.motor_curves import locked_rotor, speed_at_load
from coldwright.electrical.motor_transient import current_relay, opens_at_speed, start
from coldwright.electrical.motor_types import Load, MotorParameters, MotorType, StartCircuit
from coldwright.errors import InputError
from tests.electrical.motors import QUARTER_HP, SMALL, TWO_POLE

RPM = 30.0 / math.pi
KINDS = {
    "resistance": lambda _uf: StartCircuit(MotorType.RESISTANCE_START),
    "capacitor": lambda uf: StartCircuit(MotorType.CAPACITOR_START, start_farad=uf, start_loss=0.05),
    "two-value": lambda uf: StartCircuit(
        MotorType.CAPACITOR_START_CAPACITOR_RUN, start_farad=uf, run_farad=uf / 8, start_loss=0.05
    ),
    "permanent": lambda uf: StartCircuit(MotorType.PERMANENT_CAPACITOR, run_farad=uf / 5),
}
FAN = Load(0.0, 0.8 / 180.0**2)
MOTORS = [
    (QUARTER_HP, 110.0, 180e-6, Load(0.1, 2e-5), 4.0),
    (TWO_POLE, 240.0, 90e-6, Load(0.3, 1.2e-5), 2.0),
    (SMALL, 230.0, 40e-6, Load(0.02, 3e-6), 2.0),
]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("motor", "volts", "farad", "load", "seconds"), MOTORS, ids=["1/4 hp", "two-pole", "small"])
def test_a_start_settles_on_the_phasors(motor, volts, farad, load, seconds, kind, figure):
    """Speed within 1 rpm and currents within 1 % of the phasor solution, for all types, on three motors."""
    circuit = KINDS[kind](farad)
    run = start(motor, volts, circuit, load, opens_at_speed(0.72 * synchronous_speed(motor)), seconds)
    speed, run_amps, start_amps = run.settled()
    series = circuit.running(motor.frequency_hz)
    there = speed_at_load(motor, volts, load, series)
    by_phasor = currents(motor, volts, slip_of(motor, there), series)
    figure(f"start against phasors, {volts:g} V {kind}: rpm off", f"{(speed - there) * RPM:.3f}")
    assert run.opened_at is not None
    assert speed * RPM == pytest.approx(there * RPM, abs=1.0)
    assert run_amps == pytest.approx(abs(by_phasor[0]), rel=0.01)
    assert start_amps == pytest.approx(abs(by_phasor[1]), rel=0.01)


def _scipy_start(motor: MotorParameters, volts: float, farad: float, load: Load, seconds: float) -> np.ndarray:
    """Speed, run and start current at the end: currents as states, a mass matrix, scipy's own steps."""
    omega, a = 2 * math.pi * motor.frequency_hz, motor.turns_ratio
    m, rotor = motor.magnetising_ohm / omega, (motor.rotor_leakage_ohm + motor.magnetising_ohm) / omega
    own_run = motor.run_leakage_ohm / omega + m
    own_start = motor.start_leakage_ohm / omega + a * a * m
    inductance = np.array([[own_run, 0, m, 0], [0, own_start, 0, a * m], [m, 0, rotor, 0], [0, a * m, 0, rotor]])
    turned = np.array([[0, 0, 0, 0], [0, 0, 0, 0], [0, -a * m, 0, -rotor], [m, 0, rotor, 0]])
    ohms = np.array([motor.run_ohm, motor.start_ohm, motor.rotor_ohm, motor.rotor_ohm])
    inverse, pairs = np.linalg.inv(inductance), motor.poles / 2

    def slope(time: float, state: np.ndarray) -> np.ndarray:
        amps, speed, charge = state[:4], state[4], state[5]
        supply = math.sqrt(2) * volts * math.sin(omega * time)
        driving = np.array([supply, supply - charge / farad, 0, 0])
        change = inverse @ (driving - ohms * amps - pairs * speed * turned @ amps)
        made = pairs * m * (amps[0] * amps[3] - a * amps[1] * amps[2])
        braking = drag_torque(motor, speed) + load.torque(speed)
        return np.array([*change, (made - braking) / motor.inertia_kg_m2, amps[1]])

    done = solve_ivp(slope, (0, seconds), np.zeros(6), rtol=1e-8, atol=1e-10)
    return done.y[[4, 0, 1], -1]


@pytest.mark.parametrize(("motor", "volts", "farad"), [(QUARTER_HP, 110.0, 180e-6), (SMALL, 230.0, 40e-6)])
def test_the_start_is_scipys(motor, volts, farad):
    """In mid run-up, speed and momentary currents are those of scipy's solver with currents as states."""
    circuit = StartCircuit(MotorType.PERMANENT_CAPACITOR, run_farad=farad)
    ours = start(motor, volts, circuit, FAN, lambda *_: True, 0.2)
    speed, run, branch = _scipy_start(motor, volts, farad, FAN, float(ours.time[-1]))
    assert ours.speed[-1] == pytest.approx(speed, rel=1e-5)
    assert ours.run_current[-1] == pytest.approx(run, abs=1e-4 * np.ptp(ours.run_current))
    assert ours.start_current[-1] == pytest.approx(branch, abs=1e-4 * np.ptp(ours.start_current))


def test_a_load_that_is_too_high_holds_the_rotor():
    """The rotor stays at rest to the last digit, and both currents are those of the locked rotor."""
    circuit = StartCircuit(MotorType.RESISTANCE_START)
    run = start(QUARTER_HP, 110.0, circuit, Load(20.0), opens_at_speed(100.0), 1.5)
    held = locked_rotor(QUARTER_HP, 110.0, 0j)
    assert not run.speed.any()
    assert run.opened_at is None
    assert run.settled() == pytest.approx((0.0, abs(held.run_current), abs(held.start_current)), rel=1e-3)
    assert run.torque[-2 * run.half_cycle :].mean() == pytest.approx(held.torque, rel=1e-3)


def test_an_open_start_winding_only_hums():
    """With the start device never closed the mean torque is zero: nothing turns, the run winding draws locked amps."""
    circuit = StartCircuit(MotorType.CAPACITOR_START, start_farad=180e-6)
    run = start(QUARTER_HP, 110.0, circuit, Load(0.05), lambda *_: False, 0.5, closed=False)
    assert not run.torque.any()
    assert not run.start_current.any()
    assert run.settled()[1] == pytest.approx(abs(locked_rotor(QUARTER_HP, 110.0, None).run_current), rel=1e-3)


def test_the_way_out_is_free_at_the_currents_zero():
    """The start device opens where its current passes zero: what is cut off is less than one step's change of it."""
    circuit = StartCircuit(MotorType.CAPACITOR_START, start_farad=180e-6)
    run = start(QUARTER_HP, 110.0, circuit, FAN, opens_at_speed(130.0), 1.5)
    last = int(np.flatnonzero(run.closed)[-1])
    per_step = 2 * math.pi * 60 * float(run.time[1]) * np.abs(run.start_current[:last]).max()
    assert abs(run.start_current[last]) < per_step
    assert run.speed[last] >= 130.0
    assert not run.start_current[last + 1 :].any()
    assert np.ptp(run.capacitor_volts[last + 1 :]) == 0.0
    assert abs(run.capacitor_volts[last + 1]) > 50.0


def test_the_coil_current_is_the_rms_of_the_last_half_cycle():
    """Once settled it stands within 1 % of the run current's RMS by numpy, and it starts from nothing."""
    run = start(QUARTER_HP, 110.0, StartCircuit(MotorType.RESISTANCE_START), Load(20.0), opens_at_speed(1.0), 0.5)
    assert run.coil_rms[0] == 0.0
    assert run.coil_rms[-1] == pytest.approx(run.settled()[1], rel=0.01)


RELAYED = StartCircuit(MotorType.CAPACITOR_START, start_farad=180e-6)


def test_a_relay_of_the_right_rating_starts_the_motor():
    """Drop-out at the current of 78 % speed, pick-up half-way to the locked current: in, out once, and it runs."""
    locked = abs(locked_rotor(QUARTER_HP, 110.0, RELAYED.starting(60.0)).run_current)
    drop_out = abs(currents(QUARTER_HP, 110.0, 0.22, RELAYED.starting(60.0))[0])
    rule = current_relay(0.5 * (locked + drop_out), drop_out)
    run = start(QUARTER_HP, 110.0, RELAYED, FAN, rule, 1.5, closed=False)
    changes = np.flatnonzero(np.diff(run.closed.astype(int)))
    assert [bool(run.closed[n + 1]) for n in changes] == [True, False]
    assert run.time[changes[0]] < 1.0 / 60.0
    assert run.settled()[0] > 0.9 * synchronous_speed(QUARTER_HP)


def test_a_relay_that_picks_up_too_high_never_starts():
    """Pick-up above the locked-rotor current: the contact stays open and the motor hums."""
    run = start(QUARTER_HP, 110.0, RELAYED, FAN, current_relay(40.0, 7.0), 0.5, closed=False)
    assert not run.closed.any()
    assert not run.speed.any()


def test_a_relay_that_drops_out_too_low_never_lets_go():
    """Drop-out below the running current: the start winding stays in."""
    run = start(QUARTER_HP, 110.0, RELAYED, FAN, current_relay(9.0, 1.0), 1.5, closed=False)
    assert run.closed[-1]
    assert run.settled()[2] > 1.0


def test_low_volts_do_not_pull_the_relay_in():
    """At half the voltage half the current: a relay that pulls in at 60 % of the locked-rotor current does not."""
    full = abs(locked_rotor(QUARTER_HP, 110.0, None).run_current)
    rule = current_relay(0.6 * full * math.sqrt(1.5), 0.3 * full)  # the first half cycle's offset allowed for
    assert start(QUARTER_HP, 110.0, RELAYED, FAN, rule, 0.2, closed=False).closed.any()
    assert not start(QUARTER_HP, 55.0, RELAYED, FAN, rule, 0.2, closed=False).closed.any()


def test_a_permanent_capacitor_takes_no_notice_of_the_rule():
    """Nothing is switched in a permanent-capacitor motor, so that opening changes no current."""
    circuit = StartCircuit(MotorType.PERMANENT_CAPACITOR, run_farad=40e-6)
    opened = start(QUARTER_HP, 110.0, circuit, FAN, opens_at_speed(20.0), 0.5)
    never = start(QUARTER_HP, 110.0, circuit, FAN, lambda *_: True, 0.5)
    assert opened.opened_at is not None
    np.testing.assert_allclose(opened.start_current, never.start_current, atol=1e-9)


def test_twice_the_inertia_takes_twice_as_long():
    """With neither load nor loss a heavy rotor's run-up goes with its inertia (limit: torque by speed alone)."""
    times = []
    for inertia in (0.1, 0.2):
        motor = replace(QUARTER_HP, inertia_kg_m2=inertia, core_loss_w=0.0, friction_w=0.0)
        times.append(start(motor, 110.0, RELAYED, Load(), opens_at_speed(100.0), 9.0).opened_at)
    assert times[1] / times[0] == pytest.approx(2.0, rel=0.01)


def test_steps_are_at_most_a_tenth_of_a_millisecond():
    """At 60 Hz and 50 Hz a whole number of steps makes the half cycle, none longer than 0.1 ms."""
    for motor in (QUARTER_HP, SMALL):
        run = start(motor, 110.0, StartCircuit(MotorType.RESISTANCE_START), FAN, lambda *_: True, 0.05)
        assert run.time[1] <= 1e-4
        assert run.time[1] * run.half_cycle == pytest.approx(0.5 / motor.frequency_hz, rel=1e-12)


def test_what_is_refused():
    """No volts, milliseconds for seconds, a start branch too stiff, a relay turned round: each by name and rule."""
    bare = StartCircuit(MotorType.RESISTANCE_START)
    with pytest.raises(InputError, match=r"^the supply of the motor is 0 V; it must be above 0 V and finite$"):
        start(QUARTER_HP, 0.0, bare, FAN, lambda *_: True, 0.1)
    with pytest.raises(InputError, match=r"^a start of 500 s is asked for; .* at most 60 s\. Are they milliseconds\?$"):
        start(QUARTER_HP, 110.0, bare, FAN, lambda *_: True, 500.0)
    with pytest.raises(InputError, match=r"^the start winding has 5e\+03.* Ω in series: too much for this model; "):
        start(QUARTER_HP, 110.0, replace(bare, added_ohm=5000.0), FAN, lambda *_: True, 0.1)
    with pytest.raises(InputError, match=r"^the relay drops out at 9 A and picks up at 7 A; .* Were they swapped\?$"):
        current_relay(7.0, 9.0)
