"""The gauge set: accuracy of span, zero at the place, over-range, strain, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import BenchError, InputError
from coldwright.instruments.display import Error
from coldwright.instruments.gauge_set import (
    HIGH_DIGITS,
    HIGH_NEEDLE,
    LOW_DIGITS,
    LOW_NEEDLE,
    Gauge,
    GaugeSet,
    absolute_limits,
)
from coldwright.instruments.service_events import ServiceEvent

AIR_PA = 101_325.0
HIGH_UP_PA = 79_500.0  # some 2000 m up (ICAO standard atmosphere, from memory)
SCALES = (LOW_NEEDLE, HIGH_NEEDLE, LOW_DIGITS, HIGH_DIGITS)


class Side:
    """A refrigerant side with two ports at fixed pressures."""

    def __init__(self, low_pa: float, high_pa: float) -> None:
        self.pascal = {"process tube": low_pa, "discharge": high_pa}

    def ports(self) -> tuple[str, ...]:
        """Its ports."""
        return tuple(self.pascal)

    def pressure_pa(self, port: str) -> float:
        """Pressure at a port."""
        return self.pascal[port]


@given(st.sampled_from(SCALES), st.floats(0.0, 1.0), st.floats(-1.0, 1.0), st.floats(75e3, 105e3))
def test_the_truth_lies_within_the_limit(scale, share, offset, room):
    """Wherever the gauge stands in its class, the true pressure above the room is within ± of what it shows."""
    gauge = Gauge(scale, Error(0.0, offset), zeroed_at_pa=room)
    most = scale.high_pa - scale.limit_pa
    above = max(scale.low_pa, -room) + share * (most - max(scale.low_pa, -room))
    shown, events = gauge.show(above + room, room)
    assert events == ()
    assert abs(shown.value - above) <= shown.limit * (1 + 1e-9)


@pytest.mark.parametrize(("scale", "bar"), [(LOW_NEEDLE, 11 * 0.016 + 0.05), (HIGH_NEEDLE, 35 * 0.016 + 0.25)])
def test_the_limit_is_a_share_of_the_span(scale, bar):
    """Class 1.6 by hand: 1.6 % of the span (11 bar, 35 bar), and half a step of the needle."""
    assert scale.limit_pa == pytest.approx(bar * 1e5)


def test_open_to_the_air_it_shows_zero_anywhere():
    """A needle shows 0 at any height; digits do once they are zeroed there, and are off by the air until then."""
    assert Gauge(LOW_NEEDLE).show(HIGH_UP_PA, HIGH_UP_PA)[0].value == 0
    digits = Gauge(LOW_DIGITS)
    assert digits.show(HIGH_UP_PA, HIGH_UP_PA)[0].value == pytest.approx(HIGH_UP_PA - AIR_PA, abs=500)
    assert digits.zero(HIGH_UP_PA, HIGH_UP_PA) == ()
    assert digits.show(HIGH_UP_PA, HIGH_UP_PA)[0].text == "0.00 bar gauge (0 psig)"


def test_zeroed_under_pressure_it_reads_too_low():
    """Zeroed with 2 bar on it, 3 bar shows as 1 bar, and the act is told."""
    digits = Gauge(LOW_DIGITS)
    assert digits.zero(AIR_PA + 2e5, AIR_PA) == (ServiceEvent.ZEROED_UNDER_PRESSURE,)
    assert digits.show(AIR_PA + 3e5, AIR_PA)[0].value == pytest.approx(1e5)


@pytest.mark.parametrize(
    ("above", "text"),
    [(0.7e5, "0.70 bar gauge (10 psig)"), (-0.5e5, "-0.50 bar gauge (14.8 inHg vacuum)")],
)
def test_what_it_says(above, text):
    """By hand: 0.7 bar is 10.2 psi; 0.5 bar below is 50 000/3386.39 = 14.8 inches of mercury."""
    assert Gauge(LOW_NEEDLE).show(AIR_PA + above, AIR_PA)[0].text == text


def test_above_the_scale():
    """The needle stands at its stop and digits say OL; the value is inf; below the strain nothing is broken."""
    gauge = Gauge(LOW_NEEDLE)
    shown, events = gauge.show(AIR_PA + 12e5, AIR_PA)
    assert (shown.text, shown.value, events) == ("needle at its stop", math.inf, (ServiceEvent.GAUGE_OVER_RANGE,))
    assert Gauge(LOW_DIGITS).show(AIR_PA + 45e5, AIR_PA)[0].text == "OL"
    assert gauge.show(AIR_PA, AIR_PA)[0].value == 0


def test_too_much_pressure_bends_it_for_good():
    """Past the strain it reads high at zero too, by 2 % of the span, beyond its limit; told once."""
    gauge = Gauge(LOW_NEEDLE)
    assert gauge.show(AIR_PA + 25e5, AIR_PA)[1] == (ServiceEvent.GAUGE_BENT, ServiceEvent.GAUGE_OVER_RANGE)
    assert gauge.show(AIR_PA + 25e5, AIR_PA)[1] == (ServiceEvent.GAUGE_OVER_RANGE,)
    shown = gauge.show(AIR_PA + 1e5, AIR_PA)[0]
    assert shown.value == pytest.approx(1e5 + 0.02 * 11e5, abs=5e3)


def test_a_set_reads_its_ports():
    """Each gauge reads where its hose is; a hose that hangs free shows the air."""
    side = Side(AIR_PA + 0.7e5, AIR_PA + 10e5)
    gauges = GaugeSet(low_port="process tube")
    assert gauges.read_low(side, AIR_PA)[0].value == pytest.approx(0.7e5)
    assert gauges.read_high(side, AIR_PA)[0].value == 0
    gauges.high_port = "discharge"
    assert gauges.read_high(side, AIR_PA)[0].value == pytest.approx(10e5)


def test_absolute_pressure_with_its_limit():
    """Gauge plus room, limits added; a needle at its stop gives no number."""
    shown = Gauge(LOW_NEEDLE).show(AIR_PA + 1e5, AIR_PA)[0]
    assert absolute_limits(shown, AIR_PA, 500.0) == (pytest.approx(AIR_PA + 1e5), shown.limit + 500.0)
    assert math.isnan(absolute_limits(Gauge(LOW_NEEDLE).show(1.5e6, AIR_PA)[0], AIR_PA, 0.0)[0])


def test_what_cannot_be_done():
    """No such port, zeroing a needle, a negative absolute pressure: each says what to do or what it may have been."""
    with pytest.raises(BenchError, match=r"^there is no port 'suction' here; a hose fits process tube, discharge$"):
        Gauge(LOW_NEEDLE).read(Side(1e5, 1e5), "suction", AIR_PA)
    with pytest.raises(BenchError, match=r"^this gauge has a needle; open to the air it must stand at 0"):
        Gauge(LOW_NEEDLE).zero(AIR_PA, AIR_PA)
    with pytest.raises(InputError, match=r"^the absolute pressure is -50000 Pa; .* Was it a gauge pressure\?$"):
        Gauge(LOW_NEEDLE).show(-5e4, AIR_PA)
