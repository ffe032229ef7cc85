"""Capacitors alone and together: properties, limit cases by hand, and what is refused."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.capacitor import (
    Capacitor,
    Condition,
    Purpose,
    parallel,
    reactance,
    series,
    series_volts,
    stored_charge,
    stored_energy,
)
from coldwright.electrical.network import Branch, Network, Source
from coldwright.errors import InputError

FARADS = st.floats(1e-7, 1e-3)
SEVERAL = st.lists(FARADS, min_size=1, max_size=5)
GOOD = {"farad": 35e-6, "volts_rated": 440.0}


@given(SEVERAL)
def test_less_than_the_least_in_series_more_than_the_most_in_parallel(farads):
    """Defining property: a row has less than its least, side by side they have more than their greatest."""
    slack = 1 + 1e-12
    assert series(farads) <= min(farads) * slack
    assert parallel(farads) >= max(farads) / slack


@given(SEVERAL, SEVERAL)
def test_groups_may_be_counted_first(some, others):
    """Series of two series is the series of all, and so in parallel."""
    assert series([series(some), series(others)]) == pytest.approx(series(some + others), rel=1e-12)
    assert parallel([parallel(some), parallel(others)]) == pytest.approx(parallel(some + others), rel=1e-12)


@given(SEVERAL, st.floats(1, 500))
def test_a_row_shares_the_voltage_by_equal_charge(farads, volts):
    """In a row each holds the same charge, the voltages add up, and the energies add up to the whole's."""
    each = series_volts(farads, volts)
    assert math.fsum(each) == pytest.approx(volts, rel=1e-12)
    for farad, own in zip(farads, each, strict=True):
        assert stored_charge(farad, own) == pytest.approx(stored_charge(series(farads), volts), rel=1e-12)
    energies = math.fsum(stored_energy(farad, own) for farad, own in zip(farads, each, strict=True))
    assert energies == pytest.approx(stored_energy(series(farads), volts), rel=1e-12)


def test_two_equal_ones_by_hand():
    """Two of 20 µF: 10 µF in series with half the voltage each, 40 µF in parallel."""
    assert series([20e-6, 20e-6]) == pytest.approx(10e-6, rel=1e-12)
    assert parallel([20e-6, 20e-6]) == pytest.approx(40e-6, rel=1e-12)
    assert series_volts([20e-6, 20e-6], 230.0) == pytest.approx((115.0, 115.0), rel=1e-12)


def test_the_small_one_takes_the_voltage_by_hand():
    """10 µF and 30 µF in series on 240 V: 180 V on the small one, 60 V on the large one."""
    assert series_volts([10e-6, 30e-6], 240.0) == pytest.approx((180.0, 60.0), rel=1e-12)


def test_energy_by_hand():
    """100 µF at 200 V holds 20 mC and ½ · 0.0001 · 40000 = 2 J; half the voltage, a quarter of the energy."""
    assert stored_charge(100e-6, 200.0) == pytest.approx(0.020, rel=1e-12)
    assert stored_energy(100e-6, 200.0) == pytest.approx(2.0, rel=1e-12)
    assert stored_energy(100e-6, 100.0) == pytest.approx(0.5, rel=1e-12)


def test_series_and_esr_agree_with_the_network():
    """The nodal solver, held against ngspice in its own tests, sees the same voltages and the same loss.

    Capacitors in a row with their ESR on 230 V, 50 Hz; the watts of one are I²·ESR.
    """
    one, other = Capacitor(60e-6, 330.0, loss_tangent=0.06), Capacitor(180e-6, 165.0, loss_tangent=0.06)
    branches = [
        Branch("one", "a", "m", one.esr(50.0), capacitance=one.farad),
        Branch("other", "m", "b", other.esr(50.0), capacitance=other.farad),
    ]
    solution = Network(branches, [Source("supply", "a", "b", 230.0, 50.0, resistance=1e-9)]).solve(50.0)
    volts = [abs(solution.voltage(*ends)) for ends in (("a", "m"), ("m", "b"))]
    assert volts == pytest.approx(series_volts([one.farad, other.farad], 230.0), rel=1e-9)
    power = solution.power("one")
    assert power.real / -power.imag == pytest.approx(0.06, rel=1e-9)


def test_loss_by_hand():
    """1/(2π) F·Hz make 1 Ω at 1 Hz, so 10 % of loss makes 0.1 Ω."""
    assert reactance(0.05 / math.pi, 10.0) == pytest.approx(1.0, rel=1e-12)
    assert Capacitor(0.05 / math.pi, 100.0, loss_tangent=0.1).esr(10.0) == pytest.approx(0.1, rel=1e-12)


def test_what_drains_it_by_hand():
    """Nothing: inf. A bleed resistor of 15 kΩ: that. With a leak of 15 kΩ besides: half."""
    assert Capacitor(**GOOD).drain_ohm == math.inf
    assert Capacitor(**GOOD, bleed_ohm=15e3).drain_ohm == pytest.approx(15e3, rel=1e-12)
    assert Capacitor(**GOOD, bleed_ohm=15e3, leak_ohm=15e3).drain_ohm == pytest.approx(7.5e3, rel=1e-12)


def test_a_plain_capacitor_is_a_sound_run_capacitor():
    """What is not told is the usual: run, whole, no leak, no bleed resistor."""
    plain = Capacitor(**GOOD)
    assert (plain.purpose, plain.condition, plain.bleed_ohm) == (Purpose.RUN, Condition.OK, None)


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"farad": 0.0}, "the capacitance of the capacitor is 0 µF; it must be above 0 µF and finite"),
        ({"farad": -35e-6}, "the capacitance of the capacitor is -35 µF; it must be above 0 µF and finite"),
        ({"farad": math.nan}, "the capacitance of the capacitor is nan µF; it must be above 0 µF"),
        ({"farad": 35.0}, "35 F; capacitors of motors have less than 0.1 F. Was it given in µF?"),
        ({"volts_rated": 0.0}, "the rated voltage of the capacitor is 0 V; it must be above 0 V and finite"),
        ({"loss_tangent": -0.1}, "the loss tangent of the capacitor is -0.1; it must be zero or more and finite"),
        ({"loss_tangent": math.nan}, "the loss tangent of the capacitor is nan"),
        ({"leak_ohm": 0.0}, "the leak resistance of the capacitor is 0 Ω; it must be above 0 Ω. A shorted one"),
        ({"leak_ohm": -5.0}, "the leak resistance of the capacitor is -5 Ω"),
        ({"bleed_ohm": -15e3}, "the bleed resistor of the capacitor is -15000 Ω; it must be above 0 Ω and finite"),
    ],
)
def test_what_no_capacitor_has(wrong, message):
    """Each value that cannot be is refused by its name, with its value in µF, Ω or V and the rule."""
    with pytest.raises(InputError, match=re.escape(message)):
        Capacitor(**(GOOD | wrong))


@pytest.mark.parametrize("bad", [0.0, -1e-6, math.nan, math.inf])
def test_a_capacitance_that_cannot_be(bad):
    """Everywhere a capacitance of zero, below, nan or inf is refused in µF; in a row by its number."""
    text = re.escape(f"{bad * 1e6:g} µF; it must be above 0 µF and finite")
    for call in (lambda: reactance(bad, 50.0), lambda: stored_energy(bad, 1.0), lambda: stored_charge(bad, 1.0)):
        with pytest.raises(InputError, match=f"^the capacitance is {text}"):
            call()
    for combine in (series, parallel):
        with pytest.raises(InputError, match=f"^capacitance 2 is {text}"):
            combine([1e-6, bad])


def test_other_slips():
    """A frequency of 0, a voltage that is no number and an empty list are refused with the reason."""
    with pytest.raises(
        InputError, match=r"^the frequency is 0 Hz; it must be above 0 Hz and finite\. Direct current does"
    ):
        reactance(1e-6, 0.0)
    with pytest.raises(InputError, match=r"^the voltage on the capacitor is nan V; it must be finite$"):
        stored_energy(1e-6, math.nan)
    with pytest.raises(InputError, match=r"^no capacitor is given; at least one is needed$"):
        series([])
