"""The motor by phasors: limit cases by hand, defining properties, an independent circuit, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.motor import (
    air_gap_power,
    currents,
    drag_torque,
    field_impedances,
    running,
    slip_of,
    synchronous_speed,
    torque,
    winding_impedance,
)
from coldwright.errors import InputError
from tests.electrical.motors import QUARTER_HP

SLIPS = st.floats(-0.5, 2.5)
AMPS = st.complex_numbers(min_magnitude=0.01, max_magnitude=50.0, allow_nan=False, allow_infinity=False)
RATIOS = st.floats(0.4, 2.0)


def _parallel(a: complex, b: complex) -> complex:
    return a * b / (a + b)


@pytest.mark.parametrize(("hertz", "poles", "rpm"), [(60, 2, 3600), (60, 4, 1800), (50, 2, 3000), (50, 4, 1500)])
def test_the_field_turns_at_120_f_over_p(hertz, poles, rpm):
    """120 times the frequency over the poles, in turns a minute."""
    motor = replace(QUARTER_HP, frequency_hz=float(hertz), poles=poles)
    assert synchronous_speed(motor) * 30 / math.pi == pytest.approx(rpm, rel=1e-12)
    assert slip_of(motor, 0.0) == 1.0
    assert slip_of(motor, synchronous_speed(motor)) == pytest.approx(0.0, abs=1e-15)
    assert slip_of(motor, -synchronous_speed(motor)) == pytest.approx(2.0, rel=1e-12)


def test_at_standstill_the_run_winding_is_a_transformer():
    """Held, the rotor is the short-circuited secondary of a transformer; the two halves make one whole."""
    held = 2.02 + 2.79j + _parallel(66.8j, 4.12 + 2.12j)
    assert winding_impedance(QUARTER_HP, 1.0)[0][0] == pytest.approx(held, rel=1e-12)


def test_at_standstill_nothing_passes_from_winding_to_winding():
    """At right angles and with a still rotor, neither winding sees the other."""
    (_, run_start), (start_run, start) = winding_impedance(QUARTER_HP, 1.0)
    assert abs(run_start) < 1e-12
    assert abs(start_run) < 1e-12
    assert start == pytest.approx(7.14 + 3.22j + 1.18**2 * _parallel(66.8j, 4.12 + 2.12j), rel=1e-12)


def test_at_the_fields_speed_the_forward_rotor_is_open():
    """No slip, no rotor current: half of the magnetising reactance is left of the forward field."""
    forward, backward = field_impedances(QUARTER_HP, 0.0)
    assert forward == pytest.approx(33.4j, rel=1e-12)
    assert backward == pytest.approx(0.5 * _parallel(66.8j, 2.06 + 2.12j), rel=1e-12)


@given(SLIPS)
def test_turning_the_other_way_swaps_the_fields(slip):
    """What is forward for one way of turning is backward for the other."""
    there, back = field_impedances(QUARTER_HP, slip), field_impedances(QUARTER_HP, 2.0 - slip)
    assert there == pytest.approx(back[::-1], rel=1e-9)


@given(SLIPS, AMPS, RATIOS)
def test_a_quarter_cycle_ahead_leaves_only_the_forward_field(slip, run, ratio):
    """With I_s = j·I_r/a the backward field vanishes, and the run winding sees a balanced motor's Z_1 + 2·Z_f."""
    motor = replace(QUARTER_HP, turns_ratio=ratio)
    start = 1j * run / ratio
    (rr, rs), _ = winding_impedance(motor, slip)
    whole = 2.02 + 2.79j + 2.0 * field_impedances(motor, slip)[0]
    assert (rr * run + rs * start) / run == pytest.approx(whole, rel=1e-9)
    forward, backward = air_gap_power(motor, slip, run, start)
    assert backward == pytest.approx(0.0, abs=1e-12 * abs(run) ** 2)
    assert forward == pytest.approx(4.0 * abs(run) ** 2 * field_impedances(motor, slip)[0].real, rel=1e-9)


@given(SLIPS, AMPS, AMPS)
def test_watts_in_are_winding_loss_and_air_gap_power(slip, run, start):
    """What enters at the terminals and is not lost in the windings crosses the air gap."""
    (rr, rs), (sr, ss) = winding_impedance(QUARTER_HP, slip)
    power = ((rr * run + rs * start) * run.conjugate() + (sr * run + ss * start) * start.conjugate()).real
    lost = 2.02 * abs(run) ** 2 + 7.14 * abs(start) ** 2
    assert power == pytest.approx(lost + sum(air_gap_power(QUARTER_HP, slip, run, start)), rel=1e-9, abs=1e-9)


@given(AMPS, AMPS)
def test_torque_at_standstill_follows_the_sine(run, start):
    """Held, the torque is 4·a·Re(Z_f)·I_r·I_s·sin(angle)/ω: none in phase, most a quarter cycle apart."""
    field = 0.5 * _parallel(66.8j, 4.12 + 2.12j).real
    sine = abs(run) * abs(start) * math.sin(np.angle(start) - np.angle(run))
    by_hand = 4.0 * 1.18 * field * sine / (2.0 * math.pi * 30.0)
    assert torque(QUARTER_HP, 1.0, run, start) == pytest.approx(by_hand, rel=1e-9, abs=1e-9)


@given(SLIPS, AMPS)
def test_the_run_winding_alone_pulls_both_ways_alike(slip, run):
    """One winding alone has no way of its own: torque at one speed is that at the opposite speed, turned round."""
    one, other = (torque(QUARTER_HP, s, run, 0j) for s in (slip, 2.0 - slip))
    assert one == pytest.approx(-other, rel=1e-9, abs=1e-12)
    assert torque(QUARTER_HP, 1.0, run, 0j) == 0.0


@given(st.floats(0.001, 1.999))
def test_currents_solve_the_two_windings_by_numpy(slip):
    """Currents agree with numpy's linear solver on the same two equations."""
    series = 3.0 - 14.5j
    (rr, rs), (sr, ss) = winding_impedance(QUARTER_HP, slip)
    solved = np.linalg.solve(np.array([[rr, rs], [sr, ss + series]]), np.array([110.0, 110.0]))
    assert currents(QUARTER_HP, 110.0, slip, series) == pytest.approx(tuple(solved), rel=1e-9)


def test_an_open_start_winding_leaves_the_run_winding_alone():
    """Without a start branch no start current flows; with a megohm in series next to none."""
    run, none = currents(QUARTER_HP, 110.0, 0.05)
    assert none == 0
    assert run == pytest.approx(110.0 / winding_impedance(QUARTER_HP, 0.05)[0][0], rel=1e-12)
    assert currents(QUARTER_HP, 110.0, 0.05, 1e6 + 0j)[0] == pytest.approx(run, rel=1e-4)


def test_given_resistances_take_the_place_of_the_motors():
    """Ohms that are handed in stand on the diagonal and nowhere else."""
    plain, hot = winding_impedance(QUARTER_HP, 0.05), winding_impedance(QUARTER_HP, 0.05, run_ohm=3.0, start_ohm=9.0)
    assert hot[0][0] - plain[0][0] == pytest.approx(0.98, rel=1e-9)
    assert hot[1][1] - plain[1][1] == pytest.approx(1.86, rel=1e-9)
    assert (hot[0][1], hot[1][0]) == (plain[0][1], plain[1][0])


def test_arrays_give_the_same_as_one_slip_at_a_time():
    """An array of slips gives arrays of the same numbers."""
    slips = np.linspace(0.0, 2.0, 7)
    together = currents(QUARTER_HP, 110.0, slips, 3.0 - 14.5j)
    for number, slip in enumerate(slips):
        one = currents(QUARTER_HP, 110.0, float(slip), 3.0 - 14.5j)
        assert (together[0][number], together[1][number]) == pytest.approx(one, rel=1e-12)


@given(st.floats(0.01, 1.0))
def test_running_adds_up(slip):
    """Mechanical power is the part 1 - s of the gap power's difference; the shaft has that less both losses."""
    run = running(QUARTER_HP, 110.0, slip)
    assert run.mechanical_w == pytest.approx((1 - slip) * (run.forward_gap_w - run.backward_gap_w), rel=1e-12)
    assert run.input_w == pytest.approx(2.02 * abs(run.current) ** 2 + run.forward_gap_w + run.backward_gap_w, rel=1e-9)
    if slip < 0.5:
        assert run.shaft_w == pytest.approx(run.mechanical_w - 37.0, rel=1e-9, abs=1e-9)
    assert 0 <= run.efficiency < 1


def test_drag_is_constant_watts_and_vanishes_at_standstill():
    """37 W at any speed above half of the field's; no torque at standstill; the same size either way."""
    full = synchronous_speed(QUARTER_HP)
    for part in (0.6, 0.95):
        assert drag_torque(QUARTER_HP, part * full) * part * full == pytest.approx(37.0, rel=1e-12)
    assert drag_torque(QUARTER_HP, 0.0) == 0.0
    assert drag_torque(QUARTER_HP, -0.3 * full) == -drag_torque(QUARTER_HP, 0.3 * full)
    assert drag_torque(QUARTER_HP, 0.5 * full) == pytest.approx(drag_torque(QUARTER_HP, 0.500001 * full), rel=1e-5)


@pytest.mark.parametrize(
    ("name", "value", "message"),
    [
        ("run_ohm", -2.0, r"^run_ohm of the motor is -2 Ω; it must be above 0 Ω and finite$"),
        ("magnetising_ohm", 0.0, r"^magnetising_ohm of the motor is 0 Ω; it must be above 0 Ω"),
        ("turns_ratio", 0.0, r"^turns_ratio of the motor is 0 start turns per run turn; it must be above 0"),
        ("frequency_hz", 0.0, r"^frequency_hz of the motor is 0 Hz; it must be above 0 Hz"),
        ("inertia_kg_m2", math.nan, r"^inertia_kg_m2 of the motor is nan kg·m²; it must be above 0"),
        ("core_loss_w", -1.0, r"^core_loss_w of the motor is -1 W; it must be zero or more and finite$"),
        ("friction_w", math.inf, r"^friction_w of the motor is inf W; it must be zero or more"),
        ("poles", 1, r"^the motor has 1 poles; they must be 2, 4, 6 or 8\. Were pairs of poles counted\?$"),
    ],
)
def test_a_motor_that_cannot_be(name, value, message):
    """Each value out of its range is refused by name, value, unit and rule."""
    with pytest.raises(InputError, match=message):
        replace(QUARTER_HP, **{name: value})


def test_running_refuses_no_voltage_and_a_speed_for_a_slip():
    """A dead supply and a slip that is a percentage are refused with the rule."""
    with pytest.raises(InputError, match=r"^the supply of the motor is 0 V; it must be above 0 V and finite$"):
        running(QUARTER_HP, 0.0, 0.05)
    with pytest.raises(
        InputError, match=r"^the slip is 5; a running motor's lies above 0 and at most at 1\. Is it a sp"
    ):
        running(QUARTER_HP, 110.0, 5.0)
