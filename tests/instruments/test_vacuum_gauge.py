"""The vacuum gauge: accuracy, ranges, what pressure and oil do to it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.instruments.display import Error
from coldwright.instruments.service_events import ServiceEvent
from coldwright.instruments.vacuum_gauge import VacuumGauge, limit_of_vacuum_gauge

MICRON = 101_325.0 / 760_000  # mm of mercury by its older definition, within 1e-7 of the other
STAND = st.floats(-0.7, 0.7)


@given(st.floats(1.0, 22_000.0), STAND, STAND)
def test_the_truth_lies_within_the_limit(microns, gain, offset):
    """Wherever the gauge stands, the true pressure is within ± of what it shows."""
    shown, events = VacuumGauge(Error(gain, offset)).read(microns * MICRON)
    assert events == ()
    assert abs(shown.value - microns * MICRON) <= shown.limit * (1 + 1e-6)


@pytest.mark.parametrize(
    ("microns", "text"),
    [(512.3, "512 microns (68.3 Pa)"), (2344.0, "2340 microns (312 Pa)"), (17_546.0, "17500 microns (2.33e+03 Pa)")],
)
def test_what_it_says(microns, text):
    """Steps of 1, 10 and 100 microns by range; 1 micron is 0.1333 Pa."""
    assert VacuumGauge().read(microns * MICRON)[0].text == text


def test_limits_by_hand():
    """500 microns: 50 + 2; 5000: 500 + 20; above range none."""
    assert limit_of_vacuum_gauge(500 * MICRON) == (pytest.approx(52 * MICRON), pytest.approx(MICRON))
    assert limit_of_vacuum_gauge(5000 * MICRON) == (pytest.approx(520 * MICRON), pytest.approx(10 * MICRON))
    assert limit_of_vacuum_gauge(30_000 * MICRON) == (math.inf, math.inf)


def test_above_its_range_it_shows_no_number():
    """At the air it says so, and stands it."""
    gauge = VacuumGauge()
    shown, events = gauge.read(101_325.0)
    assert (shown.text, shown.value, events) == ("above range", math.inf, ())
    assert gauge.read(500 * MICRON)[0].value == pytest.approx(500 * MICRON)


def test_pressure_ruins_it_for_good():
    """Joined to a system under 5 bar it shows dashes from then on; told once."""
    gauge = VacuumGauge()
    shown, events = gauge.read(5e5)
    assert (shown.text, events) == ("----", (ServiceEvent.VACUUM_SENSOR_RUINED,))
    gauge.clean()
    again, events = gauge.read(50.0)
    assert (again.text, events) == ("----", ())
    assert math.isnan(again.value)


def test_oil_makes_it_read_too_high_until_it_is_cleaned():
    """An oiled sensor is off by more than its limit, upward; cleaning brings it back."""
    gauge = VacuumGauge()
    shown, events = gauge.read(300 * MICRON, oil_splashes=True)
    assert events == (ServiceEvent.VACUUM_SENSOR_OILED,)
    assert shown.value - 300 * MICRON > shown.limit
    assert gauge.read(300 * MICRON, oil_splashes=True)[1] == ()
    gauge.clean()
    assert gauge.read(300 * MICRON)[0].value == pytest.approx(300 * MICRON, rel=1e-6)


def test_a_negative_pressure_is_refused():
    """The message names the pressure and the likely slip."""
    with pytest.raises(InputError, match=r"^the absolute pressure is -95000 Pa; .* Was it a gauge pressure\?$"):
        VacuumGauge().read(-95_000.0)
