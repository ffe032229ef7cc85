"""Limits of a result from several readings, and what a meter takes away from what it measures."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.measured import Measured
from coldwright.errors import InputError
from coldwright.instruments.limits import ammeter_share, reading_limits, voltmeter_share

SIZE, LIMIT, SHARE = st.floats(1, 100), st.floats(0, 0.5), st.floats(-1, 1)
OHM = st.floats(1e-3, 1e7)


@given(SIZE, SIZE, LIMIT, LIMIT, SHARE, SHARE)
def test_a_sum_is_never_further_off_than_the_worst_case(a, b, la, lb, sa, sb):
    """For a sum the worst case is the sum of the limits, the likely one their root of squares; no truth is outside."""
    found = reading_limits(lambda x, y: x + y, Measured(a, la), Measured(b, lb))
    assert found.value == pytest.approx(a + b)
    assert found.worst == pytest.approx(la + lb, abs=1e-9)
    assert found.likely == pytest.approx(math.hypot(la, lb), abs=1e-9)
    assert abs((a + sa * la) + (b + sb * lb) - found.value) <= found.worst + 1e-9


@given(st.lists(st.tuples(SIZE, LIMIT), min_size=1, max_size=5))
def test_likely_lies_between_the_largest_effect_and_the_worst_case(readings):
    """The root of squares is at least the largest single effect and at most the sum of all."""
    found = reading_limits(lambda *x: math.fsum(x), *(Measured(v, limit) for v, limit in readings))
    assert max(limit for _, limit in readings) - 1e-9 <= found.likely <= found.worst + 1e-9


def test_one_reading_times_three():
    """Limit case by hand: three times 5 ± 0.2 is 15 ± 0.6, by either rule; no limit gives none."""
    found = reading_limits(lambda x: 3 * x, Measured(5.0, 0.2))
    assert (found.worst, found.likely) == (pytest.approx(0.6), pytest.approx(0.6))
    assert reading_limits(lambda x: 3 * x, Measured(5.0)).worst == 0


def test_three_and_four_make_five():
    """By hand: limits of 3 and 4 give 7 at worst and 5 by the root of squares, and a minus changes nothing."""
    found = reading_limits(lambda x, y: x - y, Measured(100.0, 3.0), Measured(40.0, 4.0))
    assert (found.value, found.worst, found.likely) == (pytest.approx(60), pytest.approx(7), pytest.approx(5))


@pytest.mark.parametrize(
    ("readings", "message"),
    [
        ((), r"^there is no reading to work with; give at least one$"),
        (
            (Measured(1.0), Measured(math.inf)),
            r"^reading 2 is over range; a result needs a number\. Is the path open",
        ),
        ((Measured(1.0), Measured(0.0)), r"^the result cannot be worked out from 1, 0 \(.*\); is one of them zero\?$"),
    ],
)
def test_what_gives_no_result(readings, message):
    """Each message names the reading and the rule."""
    with pytest.raises(InputError, match=message):
        reading_limits(lambda *x: x[0] / x[1], *readings)


@given(OHM, OHM)
def test_what_a_meter_takes_away(circuit, meter):
    """A share lies between 0 and 1; a meter as large as the circuit halves; the two kinds mirror each other."""
    assert 0 < voltmeter_share(circuit, meter) <= 1
    assert voltmeter_share(circuit, circuit) == pytest.approx(0.5)
    assert voltmeter_share(circuit, meter) + ammeter_share(circuit, meter) == pytest.approx(1.0)


def test_perfect_meters_take_nothing():
    """Limit cases: a voltmeter on a source without resistance, an ammeter without resistance."""
    assert voltmeter_share(0.0, 10e6) == 1.0
    assert ammeter_share(5.0, 0.0) == 1.0


@pytest.mark.parametrize(
    ("share", "values", "message"),
    [
        (voltmeter_share, (-1.0, 1e6), r"^the resistance of the circuit is -1 Ω; it must be zero or more"),
        (voltmeter_share, (1.0, 0.0), r"^the input resistance of the voltmeter is 0 Ω; it must be above 0 Ω$"),
        (ammeter_share, (5.0, -0.1), r"^the resistance of the ammeter is -0\.1 Ω; it must be zero or more"),
        (ammeter_share, (0.0, 0.1), r"^the resistance of the path is 0 Ω; .* Is the meter across the supply\?$"),
    ],
)
def test_resistances_that_cannot_be(share, values, message):
    """Each message names the resistance and the rule."""
    with pytest.raises(InputError, match=message):
        share(*values)
