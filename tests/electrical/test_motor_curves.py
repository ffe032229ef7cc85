"""Start circuits, curves against speed, locked rotor and speed at a load: by hand, by properties and by scipy."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar

from coldwright.electrical.motor import currents, drag_torque, slip_of, synchronous_speed, torque
from coldwright.electrical.motor_curves import (
    curves,
    locked_rotor,
    run_up,
    speed_at_load,
    starting,
    torque_range,
)
from coldwright.electrical.motor_types import Load, MotorType, StartCircuit, capacitor_impedance
from coldwright.errors import InputError
from tests.electrical.motors import QUARTER_HP

FULL = synchronous_speed(QUARTER_HP)
SPEEDS = np.linspace(0.0, FULL, 400)
TWO_VALUE = StartCircuit(MotorType.CAPACITOR_START_CAPACITOR_RUN, start_farad=150e-6, run_farad=20e-6)


def _shaft(speed: float, series: complex | None) -> float:
    slip = slip_of(QUARTER_HP, speed)
    return torque(QUARTER_HP, slip, *currents(QUARTER_HP, 110.0, slip, series)) - drag_torque(QUARTER_HP, speed)


def test_capacitors_by_hand():
    """1 A through C microfarads at 1 V: the reactance is 2652.58 Ω·µF at 60 Hz and 3183.10 Ω·µF at 50 Hz."""
    assert capacitor_impedance(1e-6, 60.0) == pytest.approx(-2652.5824j, rel=1e-7)
    assert capacitor_impedance(1e-6, 50.0) == pytest.approx(-3183.0989j, rel=1e-7)
    assert capacitor_impedance(1e-6, 60.0, loss=0.1) == pytest.approx(265.25824 - 2652.5824j, rel=1e-7)


def test_what_each_type_has_in_series():
    """Side by side, capacitors add; the start capacitor leaves, the run capacitor stays, a bare winding opens."""
    series = 0.0 - 2652.5824j / 170
    assert TWO_VALUE.starting(60.0) == pytest.approx(series, rel=1e-7)
    assert TWO_VALUE.running(60.0) == pytest.approx(-2652.5824j / 20, rel=1e-7)
    bare = StartCircuit(MotorType.RESISTANCE_START, added_ohm=5.0)
    assert (bare.starting(60.0), bare.running(60.0)) == (5.0, None)
    once = StartCircuit(MotorType.CAPACITOR_START, start_farad=100e-6)
    assert (once.starting(60.0), once.running(60.0)) == (pytest.approx(-26.525824j, rel=1e-7), None)
    always = StartCircuit(MotorType.PERMANENT_CAPACITOR, run_farad=20e-6)
    assert always.starting(60.0) == always.running(60.0) == pytest.approx(-132.62912j, rel=1e-7)


@given(st.floats(0.5, 20), st.floats(0.5, 20), st.floats(0.5, 20), st.floats(-30, 20))
def test_the_torque_product_is_the_motors_torque(run_r, run_x, start_r, start_x):
    """I_r·I_s·sin(angle) is the imaginary part of I_s times the conjugate of I_r, and currents are volts over ohms."""
    at_rest = starting(complex(run_r, run_x), complex(start_r, start_x), 110.0)
    run, start = 110.0 / complex(run_r, run_x), 110.0 / complex(start_r, start_x)
    assert at_rest.torque_product == pytest.approx((start * run.conjugate()).imag, rel=1e-9, abs=1e-9)
    assert at_rest.line_current == pytest.approx(run + start, rel=1e-12)


def test_equal_windings_start_nothing():
    """Two windings of one angle: currents in phase, no torque (limit by hand)."""
    at_rest = starting(3 + 4j, 6 + 8j, 100.0)
    assert (abs(at_rest.run_current), abs(at_rest.start_current)) == pytest.approx((20.0, 10.0), rel=1e-12)
    assert at_rest.torque_product == pytest.approx(0.0, abs=1e-9)


def test_locked_rotor_is_the_curve_at_standstill():
    """Held, currents are volts over the standstill impedances, and the torque is 4·a·Re(Z_f)·product/ω."""
    series = TWO_VALUE.starting(60.0)
    rotor = 66.8j * (4.12 + 2.12j) / (4.12 + 68.92j)
    at_rest = starting(2.02 + 2.79j + rotor, 7.14 + 3.22j + 1.18**2 * rotor + series, 110.0)
    held = locked_rotor(QUARTER_HP, 110.0, series)
    assert (held.run_current, held.start_current) == pytest.approx(
        (at_rest.run_current, at_rest.start_current), rel=1e-9
    )
    assert held.line_current == held.run_current + held.start_current
    assert held.torque == pytest.approx(4 * 1.18 * 0.5 * rotor.real * at_rest.torque_product / (60 * math.pi), rel=1e-9)
    assert locked_rotor(QUARTER_HP, 110.0, None).torque == 0.0


def test_torque_goes_with_the_square_of_the_volts():
    """Half the voltage, half the current, a quarter of the torque, at every speed."""
    full, half = (curves(QUARTER_HP, volts, 3 - 14.5j, SPEEDS) for volts in (110.0, 55.0))
    np.testing.assert_allclose(half.run_current, full.run_current / 2, rtol=1e-12)
    np.testing.assert_allclose(half.air_gap_torque, full.air_gap_torque / 4, rtol=1e-12, atol=1e-12)
    np.testing.assert_allclose(full.line_current, full.run_current + full.start_current, rtol=1e-12)


def test_a_balanced_run_capacitor_gives_a_steady_field():
    """With the capacitor and turns that make I_s = j·I_r/a, the run winding sees half of a balanced two-phase motor.

    Equal ohms for equal turns, and two supplies a quarter cycle apart, make the unsymmetrical equations the textbook
    polyphase circuit: torque = 2·I²·R_2/(s·ω) with I in the rotor branch (defining property).
    """
    motor = replace(QUARTER_HP, turns_ratio=1.0, start_ohm=2.02, start_leakage_ohm=2.79)
    for slip in (0.05, 0.3, 1.0):
        rotor = 4.12 / slip + 2.12j
        run = 110.0 / (2.02 + 2.79j + 66.8j * rotor / (rotor + 66.8j))
        inner = run * 66.8j / (rotor + 66.8j)
        by_hand = 2 * abs(inner) ** 2 * 4.12 / slip / FULL
        assert torque(motor, slip, run, 1j * run) == pytest.approx(by_hand, rel=1e-9)


def test_a_run_up_changes_circuit_where_the_device_opens():
    """Below the speed the curve is that of the start circuit, from it on that of the running circuit."""
    open_above = 0.75 * FULL
    whole = run_up(QUARTER_HP, 110.0, TWO_VALUE, open_above, SPEEDS)
    below = np.less(SPEEDS, open_above)
    for series, where in ((TWO_VALUE.starting(60.0), below), (TWO_VALUE.running(60.0), ~below)):
        part = curves(QUARTER_HP, 110.0, series, SPEEDS)
        np.testing.assert_array_equal(whole.start_current[where], part.start_current[where])
        np.testing.assert_array_equal(whole.shaft_torque[where], part.shaft_torque[where])


@pytest.mark.parametrize("series", [None, -132.6j, 3 - 14.5j])
def test_breakdown_torque_is_scipys_maximum(series):
    """The highest torque lies where scipy's bounded search finds it, to the curve's spacing."""
    found = minimize_scalar(lambda w: -_shaft(w, series), bounds=(0.5 * FULL, 0.999 * FULL), method="bounded")
    peak = torque_range(curves(QUARTER_HP, 110.0, series, SPEEDS))
    assert peak.breakdown == pytest.approx(-found.fun, rel=1e-4)
    assert peak.breakdown_speed == pytest.approx(found.x, abs=FULL / 200)


def test_pull_up_is_the_lowest_on_the_way():
    """The run winding alone gives nothing at standstill; no point on the way to breakdown lies below the pull-up."""
    alone = torque_range(curves(QUARTER_HP, 110.0, None, SPEEDS))
    assert (alone.pull_up, alone.pull_up_speed) == (0.0, 0.0)
    helped = curves(QUARTER_HP, 110.0, 3 - 14.5j, SPEEDS)
    ranged = torque_range(helped)
    on_the_way = helped.shaft_torque[helped.speed <= ranged.breakdown_speed]
    assert ranged.pull_up == on_the_way.min() > 0


@pytest.mark.parametrize("load", [Load(0.5), Load(1.5), Load(0.0, 0.8 / 180**2), Load(0.3, 1e-5)])
@pytest.mark.parametrize("series", [None, -132.6j])
def test_speed_at_a_load_is_scipys_root(load, series):
    """The speed found is the one that scipy's root finder gives on the stable branch."""
    found = brentq(lambda w: _shaft(w, series) - load.torque(w), 0.85 * FULL, FULL - 1e-9, xtol=1e-12)
    assert speed_at_load(QUARTER_HP, 110.0, load, series) == pytest.approx(found, abs=1e-8)


def test_a_load_above_the_motors_torque_stalls():
    """The message gives what the load asks, what the motor can give and the volts."""
    with pytest.raises(
        InputError,
        match=r"^the load asks for 9 N·m at full speed; the motor gives 0\.\d+ N·m at most at 60 V and stalls",
    ):
        speed_at_load(QUARTER_HP, 60.0, Load(9.0))


@pytest.mark.parametrize(
    ("kind", "kept", "message"),
    [
        (MotorType.CAPACITOR_START, {}, r"^a capacitor-start motor needs a start capacitor; check"),
        (MotorType.PERMANENT_CAPACITOR, {}, r"^a permanent capacitor motor needs a run capacitor; check"),
        (MotorType.RESISTANCE_START, {"run_farad": 1e-5}, r"^a resistance-start motor has no run capacitor; check"),
        (
            MotorType.RESISTANCE_START,
            {"added_ohm": -1.0},
            r"^the resistance added to the start winding is -1 Ω; it must",
        ),
    ],
)
def test_a_circuit_that_is_not_its_type(kind, kept, message):
    """A capacitor missing or too many, or a negative resistance, is refused by name."""
    with pytest.raises(InputError, match=message):
        StartCircuit(kind, **kept)


def test_values_that_cannot_be():
    """0 µF, 0 Hz, a negative loss, a driving load and a winding of 0 Ω are refused with the rule."""
    with pytest.raises(InputError, match=r"^the capacitance is 0 µF; it must be above 0 µF and finite\. An open capac"):
        capacitor_impedance(0.0, 60.0)
    with pytest.raises(InputError, match=r"^the frequency at a capacitor is 0 Hz; it must be above 0 Hz and finite$"):
        capacitor_impedance(1e-6, 0.0)
    with pytest.raises(InputError, match=r"^the loss of a capacitor is -0\.1; it must be zero or more and finite$"):
        capacitor_impedance(1e-6, 60.0, -0.1)
    with pytest.raises(
        InputError, match=r"^the constant part of the load is -1 N·m; it must be zero or more and finite$"
    ):
        Load(-1.0)
    with pytest.raises(InputError, match=r"^the square part of the load is nan N·m·s²; it must be zero or more"):
        Load(0.0, math.nan)
    with pytest.raises(InputError, match=r"^the impedance of the start winding is 0 Ω; it must be above 0 Ω$"):
        starting(1 + 1j, 0j, 110.0)
