"""The insulation tester and the thermometer: accuracy, ranges, and when no test is made."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.instruments.display import Error
from coldwright.instruments.insulation_tester import REFUSES_ABOVE_V, TEST_VOLTS, InsulationTester, limit_of_insulation
from coldwright.instruments.thermometer import read_temperature
from tests.instruments.circuits import Between

STAND = st.floats(-0.7, 0.7)


@given(st.floats(0, 999e6), STAND, STAND)
def test_insulation_is_within_the_accuracy(ohm, gain, offset):
    """Wherever the tester stands, the truth is within ±(% + digits) of what it shows."""
    shown = InsulationTester(lambda _range: Error(gain, offset)).read(Between(ohm), "1", "shell")
    assert abs(shown.value - ohm) <= shown.limit * (1 + 1e-9)


@pytest.mark.parametrize(
    ("ohm", "text"),
    [
        (0.0, "0.000 MΩ"),
        (0.25e6, "0.250 MΩ"),
        (2e6, "2.00 MΩ"),
        (25e6, "25.0 MΩ"),
        (250e6, "250 MΩ"),
        (999e6, "999 MΩ"),
        (1000e6, "> 1000 MΩ"),
        (math.inf, "> 1000 MΩ"),
    ],
)
def test_what_the_tester_says(ohm, text):
    """Megohms on the lowest range that fits, and a plain word past the last."""
    assert InsulationTester().read(Between(ohm), "1", "shell").text == text


@given(st.floats(REFUSES_ABOVE_V + 0.01, 400), st.booleans())
def test_a_voltage_stops_the_test(volts, alternating):
    """Above 30 V, live or charged, no test is made: no number is shown."""
    circuit = Between(1e8, alternating_v=volts) if alternating else Between(1e8, direct_v=-volts)
    shown = InsulationTester().read(circuit, "1", "shell")
    assert shown.text == "voltage on the circuit, no test"
    assert math.isnan(shown.value)


def test_a_small_voltage_does_not_stop_it():
    """At 30 V it still tests; it tests with 500 V."""
    assert InsulationTester().read(Between(1e8, direct_v=REFUSES_ABOVE_V), "1", "shell").text == "100.0 MΩ"
    assert TEST_VOLTS == 500.0


def test_limits_by_hand():
    """100 MΩ: ±(3 % + 5 digits of 0.1 MΩ) is 3.5 MΩ; 500 MΩ: ±(5 % + 5 digits of 1 MΩ) is 30 MΩ; past it, none."""
    assert limit_of_insulation(100e6) == (pytest.approx(3.5e6), 1e5)
    assert limit_of_insulation(500e6) == (pytest.approx(30e6), 1e6)
    assert limit_of_insulation(1e9) == (math.inf, math.inf)


@given(st.floats(243.15, 423.15), STAND, STAND)
def test_temperature_is_within_half_a_kelvin(kelvin, gain, offset):
    """Wherever the thermometer stands, the truth is within ±0.5 K."""
    shown = read_temperature(kelvin, Error(gain, offset))
    assert abs(shown.value - kelvin) <= 0.5 + 1e-9
    assert shown.limit == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("kelvin", "text"), [(273.15, "0.0 °C"), (295.55, "22.4 °C"), (263.15, "-10.0 °C"), (383.15, "110.0 °C")]
)
def test_what_the_thermometer_says(kelvin, text):
    """Degrees Celsius to a tenth."""
    assert read_temperature(kelvin, Error()).text == text
