"""The charging scale: accuracy, tare, drift, hose pull, strain."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import BenchError, InputError
from coldwright.instruments.display import Error
from coldwright.instruments.scale import HOSE_PULL_KG, Scale, charged_limit, drift_limit
from coldwright.instruments.service_events import ServiceEvent

STAND = st.floats(-0.7, 0.7)
HOUR = 3600.0


@given(st.floats(0, 49), STAND, STAND, st.floats(-1, 1), st.floats(0, 3 * HOUR))
def test_the_truth_lies_within_the_limit(load, gain, offset, drift, at):
    """Untared, wherever the scale stands and however it drifts, the true mass is within ±."""
    shown, events = Scale(Error(gain, offset), drift).read(load, at)
    assert events == ()
    assert abs(shown.value - load) <= shown.limit + 1e-9


@given(st.floats(1, 20), st.floats(0.001, 0.3), STAND, STAND, st.floats(-1, 1), st.floats(0, HOUR), st.floats(0, HOUR))
def test_a_charge_is_within_its_limit(cylinder, charge, gain, offset, drift, at, seconds):
    """Taring before and reading after, the charge is within the limit of a difference; the zero cancels."""
    scale = Scale(Error(gain, offset), drift)
    scale.tare(cylinder, at)
    shown = scale.read(cylinder - charge, at + seconds)[0]
    assert abs(-shown.value - charge) <= charged_limit(charge, seconds) + 1e-9


def test_tared_it_shows_nothing():
    """What is on it counts as zero, and 80 g out shows as -80 g."""
    scale = Scale()
    assert scale.tare(8.2, 0.0).text == "0 g"
    assert scale.read(8.12, 10.0)[0].text == "-80 g"


def test_a_hose_that_pulls_shows_grams_that_are_none():
    """A pull of 10 g shows, is told, and only the limit with a moved hose covers it."""
    scale = Scale()
    scale.tare(8.2, 0.0)
    shown, events = scale.read(8.2, 10.0, hose_pull_kg=HOSE_PULL_KG)
    assert (shown.text, events) == ("10 g", (ServiceEvent.HOSE_PULLS,))
    assert charged_limit(0.0, 10.0) < 0.010 <= charged_limit(0.0, 10.0, hose_moved=True)


def test_limits_by_hand():
    """80 g in half an hour: 0.05 % is 0.04 g, one step 1 g, drift 1 g. Drift: 2 g an hour."""
    assert charged_limit(0.080, 0.5 * HOUR) == pytest.approx(0.00204)
    assert drift_limit(HOUR) == pytest.approx(0.002)


def test_too_much_load():
    """Above its range it says OVER; above its strength it is strained, told once, and cannot be tared."""
    scale = Scale()
    assert scale.read(60.0, 0.0)[0].text == "OVER"
    shown, events = scale.read(80.0, 1.0)
    assert (shown.text, events) == ("OVER", (ServiceEvent.SCALE_STRAINED,))
    assert math.isnan(shown.value)
    after = scale.read(1.0, 2.0)[0]
    assert abs(after.value - 1.0) > after.limit
    with pytest.raises(BenchError, match=r"^this scale was strained and shows nothing that can be trusted"):
        scale.tare(1.0, 3.0)


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda s: s.read(-1.0, 20.0), r"^the mass on the scale is -1 kg; it must be zero or more and finite$"),
        (lambda s: s.read(1.0, 5.0), r"^the scale is read at 5 s but was tared at 10 s; time goes on$"),
        (lambda _s: drift_limit(-1.0), r"^the time between two readings is -1 s; it must be zero or more"),
    ],
)
def test_what_is_refused(act, message):
    """Each message names the thing, its value and the rule."""
    scale = Scale()
    scale.tare(1.0, 10.0)
    with pytest.raises(InputError, match=message):
        act(scale)
