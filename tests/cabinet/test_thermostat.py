"""Thermostat: hysteresis, rest, the sensor's lag, and where it switches."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.cabinet.thermostat import (
    Thermostat,
    calls,
    check_thermostat,
    crossing_time,
    next_threshold,
    sensor_after,
    sensor_rate,
)
from coldwright.errors import InputError
from tests.cabinet.cabinets import THERMOSTAT

RATES = st.floats(-0.05, 0.05)


def test_between_the_thresholds_it_stays_as_it_is():
    """In at 6 °C, out at 2 °C; at 4 °C it goes on with what it does."""
    assert calls(True, 277.15, 0.0, THERMOSTAT)
    assert not calls(False, 277.15, 1e9, THERMOSTAT)
    assert not calls(True, 275.15, 0.0, THERMOSTAT)
    assert calls(False, 279.15, 1e9, THERMOSTAT)
    assert next_threshold(True, THERMOSTAT) == 275.15
    assert next_threshold(False, THERMOSTAT) == 279.15


def test_no_start_before_the_rest_is_over():
    """However warm, it waits its 180 s after a stop; a stop needs no waiting."""
    assert not calls(False, 300.0, 179.9, THERMOSTAT)
    assert calls(False, 300.0, 180.0, THERMOSTAT)


@given(st.floats(270, 300), st.floats(270, 300), RATES, st.floats(0, 300), st.floats(0, 300), st.floats(10, 600))
def test_two_steps_of_the_sensor_are_one(sensor, air, rate, first, second, lag):
    """The lag is exact for air that changes in a straight line, so that a stop on the way changes nothing."""
    there = sensor_after(sensor, air, rate, first, lag)
    in_two = sensor_after(there, air + rate * first, rate, second, lag)
    assert in_two == pytest.approx(sensor_after(sensor, air, rate, first + second, lag), abs=1e-8)


def test_the_sensor_by_hand():
    """In still air 63 % of the way after one time constant; behind a steady ramp by rate times time constant."""
    assert sensor_after(290.0, 280.0, 0.0, 60.0, 60.0) == pytest.approx(280.0 + 10.0 / math.e, rel=1e-12)
    assert sensor_after(280.0, 280.0, -0.01, 6000.0, 60.0) == pytest.approx(280.0 - 60.0 + 0.6, rel=1e-9)
    assert sensor_after(290.0, 280.0, 0.1, 10.0, 0.0) == 281.0
    assert sensor_rate(290.0, 280.0, 60.0) == pytest.approx(-1 / 6)
    assert sensor_rate(290.0, 280.0, 0.0) == 0.0


def test_crossing_of_a_straight_line_by_hand():
    """From 10 down to 0 in 20 s it passes 4 after 12 s."""
    assert crossing_time(10.0, -0.5, 0.0, -0.5, 20.0, 4.0) == pytest.approx(12.0, rel=1e-9)


@given(st.floats(30.0, 300.0), st.floats(0.2, 0.8), st.floats(5.0, 20.0))
def test_crossing_of_an_exponential(tau, share, step):
    """Of e^(-t/tau) over a step, the crossing is found within the known error of the cubic, h^4/384 of f''''."""
    end = math.exp(-step / tau)
    wanted = 1.0 + share * (end - 1.0)
    bound = tau * (step / tau) ** 4 / 384 / end + 1e-9
    found = crossing_time(1.0, -1.0 / tau, end, -end / tau, step, wanted)
    assert found == pytest.approx(-tau * math.log(wanted), abs=bound)


def test_no_crossing_and_one_at_an_end():
    """Both ends on one side give inf; on the threshold at the beginning 0, at the end the whole step."""
    assert crossing_time(10.0, -0.1, 9.0, -0.1, 10.0, 4.0) == math.inf
    assert crossing_time(4.0, -0.1, 3.0, -0.1, 10.0, 4.0) == 0.0
    assert crossing_time(5.0, -0.1, 4.0, -0.1, 10.0, 4.0) == pytest.approx(10.0, rel=1e-9)


@pytest.mark.parametrize(
    ("thermostat", "message"),
    [
        (
            Thermostat(275.15, 279.15),
            "the thermostat cuts in at 2.0 °C and out at 6.0 °C; it must cut in at least 0.3 K above. Were they "
            "swapped?",
        ),
        (
            Thermostat(6.0, 2.0),
            "the cut-in temperature is 6 K (-267 °C); it must be from -50 °C to 30 °C. Was it in °C? 6 °C is 279.15 K",
        ),
        (
            Thermostat(316.15, 275.15),
            "the cut-in temperature is 316.15 K (43 °C); it must be from -50 °C to 30 °C. Was it °F taken for °C? "
            "43 °F is 6 °C",
        ),
        (Thermostat(279.15, 275.15, -1.0), "the time constant of the sensor is -1 s; it must be from 0 to 3600 s"),
        (Thermostat(279.15, 275.15, 60.0, -3.0), "the rest of the compressor is -3 s; it must be from 0 to 3600 s"),
    ],
)
def test_what_is_refused(thermostat, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        check_thermostat(thermostat)
