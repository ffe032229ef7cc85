"""The nitrogen test: correction for temperature, and whether a fall is a leak."""

from __future__ import annotations

import math

import pytest
from chemicals.virial import BVirial_Tsonopoulos, CVirial_Orbey_Vera
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.sealed_system.service.standing_pressure import (
    GasLaw,
    HoldFinding,
    HoldReading,
    expected_pressure,
    hold_time,
    hold_verdict,
    smallest_leak_shown,
)

ICE = 273.15
CRITICAL = (126.192, 3395800.0, 0.0372)  # of nitrogen (from memory)
CONSTANT = 8.314462618
STANDINGS = [(1000e3, 25, 15, 966.46e3), (1000e3, 20, 30, 1034.11e3), (2000e3, 30, 10, 1868.05e3)]


def reading(kpa: float, celsius: float, kpa_limit: float = 5.0, kelvin_limit: float = 0.5) -> HoldReading:
    """A reading in the units of the trade."""
    return HoldReading(kpa * 1e3, celsius + ICE, kpa_limit * 1e3, kelvin_limit)


@pytest.mark.parametrize(("start", "at", "to", "by_hand"), STANDINGS)
def test_ideal_gas_by_hand(start, at, to, by_hand):
    """p2 = p1 T2 / T1, worked by hand to 10 Pa."""
    assert expected_pressure(start, at + ICE, to + ICE, GasLaw.IDEAL) == pytest.approx(by_hand, abs=5.0)


@pytest.mark.parametrize(("start", "at", "to", "_by_hand"), STANDINGS)
def test_real_gas_against_a_virial_equation(start, at, to, _by_hand):
    """The virial equation of the library chemicals, solved here at fixed density, agrees within 0.05 %."""

    def third(kelvin: float) -> float:
        found = CVirial_Orbey_Vera(kelvin, *CRITICAL)
        return found[0] if isinstance(found, tuple) else found

    def pressure(density: float, kelvin: float) -> float:
        second = BVirial_Tsonopoulos(kelvin, *CRITICAL)
        return density * CONSTANT * kelvin * (1 + second * density + third(kelvin) * density**2)

    first, last = at + ICE, to + ICE
    density = start / (CONSTANT * first)
    for _ in range(50):
        density *= start / pressure(density, first)

    assert expected_pressure(start, first, last) == pytest.approx(pressure(density, last), rel=5e-4)


def test_real_and_ideal_differ_less_than_a_gauge_can_show():
    """At 10 bar over 10 K the two laws differ by about 1 kPa: below the limit of a class 1 gauge of 16 bar."""
    apart = abs(expected_pressure(1e6, 298.15, 288.15) - expected_pressure(1e6, 298.15, 288.15, GasLaw.IDEAL))

    assert 300.0 < apart < 16e3


@given(
    kpa=st.floats(150.0, 4000.0),
    first=st.floats(-10.0, 45.0),
    last=st.floats(-10.0, 45.0),
    law=st.sampled_from(GasLaw),
)
def test_there_and_back_is_where_it_started(kpa, first, last, law):
    """Warming and cooling again gives the first pressure back."""
    there = expected_pressure(kpa * 1e3, first + ICE, last + ICE, law)

    assert expected_pressure(there, last + ICE, first + ICE, law) == pytest.approx(kpa * 1e3, rel=1e-7)


def test_a_night_that_cools_is_no_leak():
    """10 bar at 25 °C that shows 9.66 bar at 15 °C lost nothing: temperature explains it."""
    verdict = hold_verdict(reading(1000, 25), reading(966, 15))

    assert verdict.finding is HoldFinding.NONE_SHOWN
    assert "no leak is shown" in verdict.sentence


def test_a_fall_beyond_the_limits_is_a_leak():
    """The same night with 9.2 bar is a leak: 45 kPa against a limit below 10 kPa."""
    verdict = hold_verdict(reading(1000, 25), reading(920, 15))

    assert verdict.finding is HoldFinding.LEAK
    assert verdict.fall_pa > 4 * verdict.limit_pa


def test_the_gauge_ratio_slip_would_miss_a_leak():
    """At 2 bar gauge and 30 K less, the ratio of gauge pressures expects 1.80 bar; a tight system shows 1.70 bar."""
    true = expected_pressure(301.325e3, 293.15 + 10, 273.15, GasLaw.IDEAL) - 101.325e3
    slip = 200e3 * 273.15 / 303.15

    assert true == pytest.approx(170.18e3, abs=20.0)  # by hand: 301.325 * 273.15 / 303.15 - 101.325 = 170.181
    assert slip - true > 9e3


def test_a_rise_is_not_called_tight():
    """A pressure that rose by more than the limits asks about settling and the valve."""
    assert hold_verdict(reading(1000, 20), reading(1050, 20)).finding is HoldFinding.ROSE


def test_the_limit_by_hand():
    """At one temperature: root of 5² + 5² + 2 (1000 / 293.15 * 0.5)² kPa = 7.47 kPa."""
    verdict = hold_verdict(reading(1000, 20), reading(1000, 20), GasLaw.IDEAL)

    assert verdict.limit_pa == pytest.approx(math.sqrt(50 + 2 * (1000 / 293.15 * 0.5) ** 2) * 1e3, rel=1e-12)


def test_smallest_leak_by_hand():
    """7 kPa in 3 L at 20 °C is 0.2414 g of nitrogen; over a day 2.79 µg/s. And back again to the day."""
    leak = smallest_leak_shown(7e3, 3e-3, 293.15, 86400.0)

    assert leak * 86400.0 * 1e3 == pytest.approx(0.2414, abs=5e-5)
    assert hold_time(leak, 7e3, 3e-3, 293.15) == pytest.approx(86400.0, rel=1e-12)


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: expected_pressure(1e6, 473.15, 293.15), r"temperature at the start is 200 °C"),
        (lambda: expected_pressure(-1e4, 293.15, 293.15), r"pressure at the start is -10 kPa absolute.*gauge"),
        (lambda: HoldReading(1e6, 293.15, 0.0, 0.5), r"limit of the pressure is 0 Pa.*Every gauge has one"),
        (lambda: HoldReading(1e6, 293.15, 1e3, -1.0), r"limit of the temperature is -1 K"),
        (lambda: hold_time(0.0, 1e3, 3e-3, 293.15), r"the leak is 0 kg/s"),
        (lambda: smallest_leak_shown(1e3, 3.0, 293.15, 60.0), r"volume is 3 m³.*Was it 3 L"),
        (lambda: smallest_leak_shown(1e3, 3e-3, 293.15, -5.0), r"length of the test is -5 s"),
    ],
)
def test_bad_input_is_named(act, message):
    """Each message names the thing and its value."""
    with pytest.raises(InputError, match=message):
        act()
