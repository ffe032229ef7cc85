"""Charge and discharge: an independent integrator, properties, cases by hand, limits of the standards, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from coldwright.electrical.capacitor import stored_energy
from coldwright.electrical.capacitor_discharge import (
    IN_ONE_MINUTE,
    PLUG_PINS,
    DischargeLimit,
    bleed_resistance,
    charging_volts,
    discharge_curve,
    discharge_resistor,
    keeps,
    time_to_fall,
    volts_left,
    within_protective_limits,
)
from coldwright.errors import InputError

FARADS = st.floats(1e-6, 5e-4)
OHMS = st.floats(1e2, 1e6)
VOLTS = st.floats(60.0, 600.0)


def test_the_curve_is_that_of_an_integrator():
    """SciPy's general ODE solver, given only C·dv/dt = -v/R, draws the same curve."""
    seconds = np.linspace(0.0, 6.0, 25)
    there = solve_ivp(lambda _t, v: -v / (15e3 * 108e-6), (0, 6), [325.0], t_eval=seconds, rtol=1e-10, atol=1e-10)
    assert discharge_curve(325.0, 108e-6, 15e3, seconds) == pytest.approx(there.y[0], rel=1e-7)


@given(VOLTS, FARADS, OHMS)
def test_the_resistor_takes_all_the_energy(volts, farad, ohm):
    """Watts summed over the whole discharge are the energy that was stored (trapezium rule over 20 time constants)."""
    seconds = np.linspace(0.0, 20.0 * ohm * farad, 4001)
    watts = discharge_curve(volts, farad, ohm, seconds) ** 2 / ohm
    resistor = discharge_resistor(volts, farad, ohm)
    assert float(np.trapezoid(watts, seconds)) == pytest.approx(resistor.energy_j, rel=1e-4)
    assert watts[0] == pytest.approx(resistor.peak_w, rel=1e-12)
    assert resistor.energy_j == pytest.approx(stored_energy(farad, volts), rel=1e-12)


@given(VOLTS, FARADS, OHMS, st.floats(0.05, 0.95))
def test_time_and_voltage_undo_each_other(volts, farad, ohm, share):
    """After the time to fall to a voltage, that voltage is left."""
    seconds = time_to_fall(volts, share * volts, farad, ohm)
    assert volts_left(volts, farad, ohm, seconds) == pytest.approx(share * volts, rel=1e-9)


@given(VOLTS, FARADS, st.sampled_from([PLUG_PINS, IN_ONE_MINUTE]))
def test_the_bleed_resistance_just_keeps_the_limit(volts, farad, limit):
    """A hundredth less keeps the limit, a hundredth more does not."""
    ohm = bleed_resistance(volts, farad, limit)
    assert keeps(limit, volts, farad, 0.99 * ohm)
    assert not keeps(limit, volts, farad, 1.01 * ohm)


def test_powers_of_two_by_hand():
    """R·C = 1 s: after ln 2 = 0.693 s half is left, after twice that a quarter; charging mirrors it."""
    assert volts_left(320.0, 1e-5, 1e5, math.log(2)) == pytest.approx(160.0, rel=1e-12)
    assert volts_left(320.0, 1e-5, 1e5, 2 * math.log(2)) == pytest.approx(80.0, rel=1e-12)
    assert charging_volts(320.0, 1e-5, 1e5, math.log(2)) == pytest.approx(160.0, rel=1e-12)
    assert time_to_fall(320.0, 40.0, 1e-5, 1e5) == pytest.approx(3 * math.log(2), rel=1e-12)


def test_ends_by_hand():
    """At once all is left; with no resistor all stays; what is safe already takes no time; inf where nothing drains."""
    assert volts_left(325.0, 35e-6, 15e3, 0.0) == 325.0
    assert volts_left(325.0, 35e-6, math.inf, 3600.0) == 325.0
    assert time_to_fall(30.0, 34.0, 35e-6, 15e3) == 0.0
    assert time_to_fall(325.0, 34.0, 35e-6, math.inf) == math.inf
    assert bleed_resistance(30.0, 35e-6) == math.inf


@pytest.mark.parametrize(("rms", "kilohm"), [(230.0, 12.65), (120.0, 17.77)])
def test_bleeder_of_35_microfarad_across_the_pins(rms, kilohm):
    """IEC 60335-1, 22.5 by hand: t/(C·ln(V̂/34)) with 1 s and 35 µF is 12.65 kΩ at 230 V, 17.77 kΩ at 120 V."""
    assert bleed_resistance(math.sqrt(2) * rms, 35e-6) / 1e3 == pytest.approx(kilohm, abs=0.005)


def test_what_a_resistor_must_stand_by_hand():
    """A 10 kΩ resistor on 400 V: 16 W at the first moment; across 230 V all the time 5.29 W."""
    resistor = discharge_resistor(400.0, 50e-6, 10e3, service_volts=230.0)
    assert (resistor.peak_w, resistor.energy_j) == (pytest.approx(16.0), pytest.approx(4.0))
    assert resistor.standing_w == pytest.approx(5.29)
    assert discharge_resistor(400.0, 50e-6, 10e3).standing_w == 0.0


@pytest.mark.parametrize(
    ("volts", "farad", "may"),
    [
        (325.0, 0.1e-6, True),  # 8.1.4: up to 450 V peak not more than 0.1 µF
        (325.0, 0.11e-6, False),
        (500.0, 0.089e-6, True),  # 45 µC from 450 V: 44.5 µC
        (500.0, 0.091e-6, False),  # 45.5 µC
        (20e3, 1.7e-9, True),  # 350 mJ above 15 kV: 0.34 J
        (20e3, 1.8e-9, False),  # 0.36 J
        (450.0, 0.1e-6, True),  # 0.1 µF at 450 V is 45 µC: the two limits meet
    ],
)
def test_limits_of_8_1_4_by_hand(volts, farad, may):
    """IEC 60335-1, 8.1.4 (read quoted), each limit just kept and just broken."""
    assert within_protective_limits(volts, farad) is may


def test_refused():
    """Negative time, resistance and voltage, a short, and zero volts are refused by name with the rule."""
    with pytest.raises(InputError, match=r"^the time is -1 s; it must be zero or more and finite$"):
        volts_left(325.0, 35e-6, 15e3, -1.0)
    with pytest.raises(InputError, match=r"^the time is nan s"):
        discharge_curve(325.0, 35e-6, 15e3, np.array([0.0, math.nan]))
    for bad in (0.0, -15e3, math.nan):
        with pytest.raises(InputError, match=rf"^the resistance is {bad:g} Ω; it must be above 0 Ω\. A dead short"):
            volts_left(325.0, 35e-6, bad, 1.0)
    with pytest.raises(InputError, match=r"^the resistance is 0 Ω; it must be above 0 Ω and finite$"):
        discharge_resistor(325.0, 35e-6, 0.0)
    with pytest.raises(InputError, match=r"^the capacitance is 0 µF; it must be above 0 µF and finite$"):
        volts_left(325.0, 0.0, 15e3, 1.0)
    with pytest.raises(InputError, match=r"^the voltage at the beginning is 0 V; it must be above 0 V"):
        time_to_fall(0.0, 34.0, 35e-6, 15e3)
    with pytest.raises(InputError, match=r"^the voltage to fall to is 0 V; .* It never falls to nothing"):
        time_to_fall(325.0, 0.0, 35e-6, 15e3)
    with pytest.raises(InputError, match=r"^the time of the limit is 0 s; it must be above 0 s"):
        bleed_resistance(325.0, 35e-6, DischargeLimit(34.0, 0.0, "none"))
    with pytest.raises(InputError, match=r"^the voltage in service is -1 V; it must be zero or more and finite$"):
        discharge_resistor(325.0, 35e-6, 15e3, service_volts=-1.0)
    with pytest.raises(InputError, match=r"^the voltage on the capacitor is -1 V; it must be zero or more"):
        within_protective_limits(-1.0, 1e-6)
