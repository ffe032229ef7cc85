"""Tests of a capacitor: an independent integrator, the network, properties, cases by hand, refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from coldwright.electrical.capacitor import Capacitor
from coldwright.electrical.capacitor_tests import (
    capacitance_under_load,
    loss_angle,
    loss_tangent,
    meter_reading,
    meter_time,
    microfarad_factor,
)
from coldwright.electrical.measured import Measured
from coldwright.electrical.network import Branch, Network, Source
from coldwright.errors import InputError

SHARES = st.floats(0.0, 0.3)


def test_the_usual_factors():
    """2652 at 60 Hz and 3183 at 50 Hz (the trade's figures, common practice): 10⁶/(2πf) with the rest cut off."""
    assert math.floor(microfarad_factor(60.0)) == 2652
    assert math.floor(microfarad_factor(50.0)) == 3183


@pytest.mark.parametrize(("hertz", "tangent"), [(60.0, 0.0), (50.0, 0.0), (50.0, 0.1)])
def test_under_load_finds_what_sits_in_the_circuit(hertz, tangent):
    """In a circuit solved by the network the test finds the capacitor; a loss of 0.1 reads 0.5 % low, as the notes say.

    Independent of the formula: the solver is held against ngspice in its own tests.
    """
    true = Capacitor(35e-6, 440.0, loss_tangent=tangent)
    branches = [
        Branch("winding", "a", "m", 9.0, 0.03),
        Branch("capacitor", "m", "b", true.esr(hertz), capacitance=true.farad),
    ]
    solution = Network(branches, [Source("supply", "a", "b", 230.0, hertz)]).solve(hertz)
    volts, amps = abs(solution.voltage("m", "b")), abs(solution.current("capacitor"))
    found = capacitance_under_load(Measured(volts), Measured(amps), Measured(hertz)).value
    assert found == pytest.approx(true.farad / math.hypot(1.0, tangent), rel=1e-9)
    assert found == pytest.approx(true.farad, rel=0.0051 if tangent else 1e-9)
    watts = max(0.0, solution.power("capacitor").real)  # rounding of the solver may stand below zero
    assert loss_tangent(watts, volts, amps) == pytest.approx(tangent, abs=1e-9)


@given(st.floats(50, 500), SHARES, st.floats(0.1, 20), SHARES, st.sampled_from([50.0, 60.0]), st.floats(0, 0.01))
def test_no_corner_of_the_limits_is_outside(volts, volt_share, amps, amp_share, hertz, hertz_share):
    """Every corner of the three readings' limits gives a capacitance within the limit, and one of them reaches it."""
    readings = [Measured(v, v * s) for v, s in ((volts, volt_share), (amps, amp_share), (hertz, hertz_share))]
    found = capacitance_under_load(*readings)
    corners = [
        i / (2 * math.pi * f * v)
        for v in (volts * (1 - volt_share), volts * (1 + volt_share))
        for i in (amps * (1 - amp_share), amps * (1 + amp_share))
        for f in (hertz * (1 - hertz_share), hertz * (1 + hertz_share))
    ]
    off = max(abs(corner - found.value) for corner in corners)
    assert off == pytest.approx(found.limit, rel=1e-9, abs=1e-15)


def test_under_load_by_hand():
    """At 50/π Hz 2πf is 100: 1 A at 100 V is 100 µF; a tenth more amps 110 µF, a fifth fewer volts 125 µF."""
    volts, amps, hertz = Measured(100.0), Measured(1.0), Measured(50.0 / math.pi)
    assert capacitance_under_load(volts, amps, hertz).value == pytest.approx(100e-6, rel=1e-12)
    assert capacitance_under_load(volts, Measured(1.0, 0.1), hertz).limit == pytest.approx(10e-6, rel=1e-9)
    assert capacitance_under_load(Measured(100.0, 20.0), amps, hertz).limit == pytest.approx(25e-6, rel=1e-9)


def test_loss_by_the_triangle_of_3_4_5():
    """3 W of 5 VA leave 4 var: tangent 3/4; no watts, no angle."""
    assert loss_tangent(3.0, 5.0, 1.0) == pytest.approx(0.75, rel=1e-12)
    assert loss_angle(3.0, 5.0, 1.0) == pytest.approx(math.asin(0.6), rel=1e-12)
    assert loss_tangent(0.0, 230.0, 2.0) == 0.0


@pytest.mark.parametrize("leak", [math.inf, 50e3, 25e3])
def test_meter_time_is_that_of_an_integrator(leak):
    """SciPy's ODE solver, given C·dv/dt = I - v/R, reaches the meter's 1 V at the same time (100 µA into 100 µF)."""

    def reached(_t, v):
        return v[0] - 1.0

    reached.terminal = True
    there = solve_ivp(
        lambda _t, v: [(100e-6 - v[0] / leak) / 100e-6], (0, 10), [0.0], events=reached, rtol=1e-10, atol=1e-12
    )
    assert meter_time(100e-6, 100e-6, 1.0, leak) == pytest.approx(there.t_events[0][0], rel=1e-7)


def test_meter_by_hand():
    """100 µA bring 100 µF to 1 V in 1 s; a leak that takes half of it at the end makes 2·ln 2 = 1.386 times as much.

    A leak of 10 kΩ takes all of it at 1 V: the meter never gets there.
    """
    assert meter_time(100e-6, 100e-6, 1.0) == pytest.approx(1.0, rel=1e-12)
    assert meter_reading(100e-6, 100e-6, 1.0) == pytest.approx(100e-6, rel=1e-12)
    assert meter_reading(100e-6, 100e-6, 1.0, 20e3) == pytest.approx(2 * math.log(2) * 100e-6, rel=1e-12)
    assert meter_reading(100e-6, 100e-6, 1.0, 10e3) == math.inf


@given(st.floats(1e-6, 1e-3), st.floats(1.02e4, 1e9))
def test_a_leak_never_reads_low(farad, leak):
    """The leakier, the more such a meter shows, and next to no leak shows the truth."""
    shown = meter_reading(farad, 100e-6, 1.0, leak)
    assert farad * (1 - 1e-12) <= shown <= meter_reading(farad, 100e-6, 1.0, 0.99 * leak) * (1 + 1e-12)
    assert meter_reading(farad, 100e-6, 1.0, 1e12) == pytest.approx(farad, rel=1e-7)


@pytest.mark.parametrize(
    ("which", "message"),
    [
        (0, r"^the voltage across the capacitor is 0 V; it must be above 0 V and finite\. Does the motor run"),
        (1, r"^the current through the capacitor is 0 A; it must be above 0 A and finite\. An open capacitor draws"),
        (2, r"^the frequency is 0 Hz; it must be above 0 Hz and finite\. With direct current"),
    ],
)
def test_a_reading_of_zero(which, message):
    """No volts, no amps or no hertz are refused with what is likely behind it."""
    readings = [Measured(230.0), Measured(2.0), Measured(50.0)]
    readings[which] = Measured(0.0)
    with pytest.raises(InputError, match=message):
        capacitance_under_load(*readings)


def test_refused():
    """Over range, limits as large as the reading, too many watts, no hertz and a short are refused by name."""
    with pytest.raises(InputError, match=r"^the voltage across the capacitor is inf V"):
        capacitance_under_load(Measured(math.inf), Measured(2.0), Measured(50.0))
    with pytest.raises(
        InputError, match=r"is 0\.2 ± 0\.3 A; its limit must be smaller than the reading\. Take a finer"
    ):
        capacitance_under_load(Measured(230.0), Measured(0.2, 0.3), Measured(50.0))
    with pytest.raises(InputError, match=r"^the frequency is -50 Hz; it must be above 0 Hz"):
        microfarad_factor(-50.0)
    for watts in (460.0, -1.0, math.nan):
        with pytest.raises(
            InputError, match=rf"^the power in the capacitor is {watts:g} W; .*, 460 VA\. Was the power"
        ):
            loss_tangent(watts, 230.0, 2.0)
    with pytest.raises(InputError, match=r"^the current of the meter is 0 A; it must be above 0 A"):
        meter_time(100e-6, 0.0, 1.0)
    with pytest.raises(InputError, match=r"^the capacitance is 0 µF"):
        meter_time(0.0, 1e-4, 1.0)
    with pytest.raises(InputError, match=r"^the leak resistance is 0 Ω; it must be above 0 Ω\. A short has no"):
        meter_reading(100e-6, 100e-6, 1.0, 0.0)
