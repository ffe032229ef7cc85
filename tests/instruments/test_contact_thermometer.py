"""The clip probe: lag, pull of the air, and when it may be read."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.instruments.contact_thermometer import (
    LAG_S,
    Contact,
    ContactThermometer,
    contact_limit,
    seen_temperature,
    time_to_settle,
)
from coldwright.instruments.display import Error
from coldwright.instruments.service_events import ServiceEvent

KELVIN = st.floats(240.0, 370.0)


@given(KELVIN, KELVIN, st.sampled_from(Contact), st.floats(-0.7, 0.7))
def test_once_it_stands_still_the_truth_lies_within_the_limit(surface, air, contact, offset):
    """Settled, the true temperature of the pipe is within ± of what is shown, the contact allowed for."""
    probe = ContactThermometer(error=Error(0.0, offset))
    probe.settle(surface, air, 100 * LAG_S, contact)
    shown, events = probe.read(surface, air, contact)
    assert events == ()
    # the accuracy of the thermometer shifts the reading from which the contact is worked out by a little
    assert abs(shown.value - surface) <= shown.limit * (1 + contact.value)


@pytest.mark.parametrize(("pipe_k", "side"), [(268.15, 1), (343.15, -1)])
def test_cold_pipes_read_too_warm_and_hot_ones_too_cold(pipe_k, side):
    """By hand, air at 25 °C: a clip is off by 6 % of the way, a loose one by 25 %, an insulated one by 2 %."""
    away = 298.15 - pipe_k
    for contact, share in ((Contact.INSULATED, 0.02), (Contact.CLIPPED, 0.06), (Contact.LOOSE, 0.25)):
        assert seen_temperature(pipe_k, 298.15, contact) == pytest.approx(pipe_k + share * away)
        assert side * (seen_temperature(pipe_k, 298.15, contact) - pipe_k) > 0


def test_pipe_and_air_alike_leave_no_contact_error():
    """At the temperature of the air any contact is good."""
    assert contact_limit(298.15, 298.15, Contact.LOOSE) == 0
    assert seen_temperature(298.15, 298.15, Contact.LOOSE) == 298.15


@given(KELVIN, KELVIN, st.floats(0, 100), st.floats(0, 100))
def test_waiting_twice_is_waiting_once(surface, air, one, other):
    """The lag is of first order: two waits are one of their sum."""
    twice, once = ContactThermometer(), ContactThermometer()
    twice.settle(surface, air, one)
    twice.settle(surface, air, other)
    once.settle(surface, air, one + other)
    assert twice.probe_k == pytest.approx(once.probe_k, rel=1e-12)


def test_after_one_lag_a_third_is_left():
    """By definition: after the time constant 1/e of the way is left."""
    probe = ContactThermometer(probe_k=293.15)
    end = seen_temperature(273.15, 293.15, Contact.CLIPPED)
    probe.settle(273.15, 293.15, LAG_S)
    assert probe.probe_k - end == pytest.approx((293.15 - end) / math.e)


def test_read_too_soon_is_told():
    """Before it stands still the reading is told to be on its way; after the time to settle it is not."""
    probe = ContactThermometer(probe_k=293.15)
    probe.settle(263.15, 293.15, 10.0)
    assert probe.read(263.15, 293.15)[1] == (ServiceEvent.PROBE_NOT_SETTLED,)
    probe.settle(263.15, 293.15, time_to_settle(30.0))
    assert probe.read(263.15, 293.15)[1] == ()


def test_time_to_settle_by_hand():
    """30 K to 0.1 K is ln 300 = 5.7 lags; already there takes no time."""
    assert time_to_settle(30.0) == pytest.approx(LAG_S * math.log(300))
    assert time_to_settle(0.05) == 0


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda p: p.settle(5.0, 298.15, 1.0), r"^the temperature of the surface is 5 K; .* Was it typed in °C\?$"),
        (lambda p: p.settle(280.0, 25.0, 1.0), r"^the temperature of the air is 25 K; .* Was it typed in °C\?$"),
        (lambda p: p.settle(280.0, 298.15, -1.0), r"^the time on the pipe is -1 s; it must be zero or more$"),
        (lambda _p: time_to_settle(10.0, 0.0), r"^the probe is to come within 0 K; that must be above zero"),
        (lambda _p: time_to_settle(10.0, 0.1, 0.0), r"^the lag of the probe is 0 s; it must be above zero$"),
    ],
)
def test_what_is_refused(act, message):
    """Each message names the thing, its value, the rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        act(ContactThermometer())
