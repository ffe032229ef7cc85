"""Ranges, accuracy and rounding of what an instrument shows."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.measured import Measured
from coldwright.instruments.display import Display, Error, Range, decimals, pick_range, show
from coldwright.instruments.insulation_tester import RANGES as INSULATION
from coldwright.instruments.multimeter import OHMS, VOLTS_AC, VOLTS_DC
from coldwright.instruments.thermometer import RANGE as THERMOMETER

ALL = [*OHMS, *VOLTS_AC, *VOLTS_DC, *INSULATION, THERMOMETER]
STAND = st.floats(-0.7, 0.7)


def plain(value: float, _range: Range) -> str:
    """A number as it is."""
    return repr(value)


@given(st.sampled_from(ALL), st.floats(-1, 1), STAND, STAND)
def test_shown_lies_within_the_accuracy_of_the_truth(chosen, share, gain, offset):
    """Wherever an instrument stands within 0.7 of its accuracy, rounding included, the truth is within the limit."""
    true = share * chosen.full_scale
    shown = show(true, chosen, Error(gain, offset), plain)
    assert abs(shown.value - true) <= chosen.limit(shown.value) + 1e-9 * chosen.full_scale
    assert shown.limit == chosen.limit(shown.value)


@given(st.sampled_from(ALL), st.floats(-1, 1), STAND, STAND)
def test_only_whole_digits_are_shown(chosen, share, gain, offset):
    """What is shown is a whole number of the range's digit."""
    shown = show(share * chosen.full_scale, chosen, Error(gain, offset), plain).value / chosen.resolution
    assert shown == pytest.approx(round(shown), abs=1e-6)


def test_accuracy_by_hand():
    """±(2 % + 3 digits of 0.01) at 5.00 is 0.13; at nothing shown the digits are left; the sign does not matter."""
    chosen = Range(10.0, 0.01, 2.0, 3)
    assert chosen.limit(5.0) == pytest.approx(0.13)
    assert chosen.limit(-5.0) == pytest.approx(0.13)
    assert chosen.limit(0.0) == pytest.approx(0.03)


def test_error_by_hand():
    """All of +2 % and all of -3 digits of 0.01 turn 5.00 into 5.07."""
    shown = show(5.0, Range(10.0, 0.01, 2.0, 3), Error(1.0, -1.0), plain)
    assert shown.value == pytest.approx(5.07)


def test_a_zero_is_taken_off_before_rounding():
    """5.004 less a zero of 0.5 is 4.504, shown as 4.50: rounded once."""
    assert show(5.004, Range(10.0, 0.01, 0.0, 0), Error(), plain, zero=0.5).value == pytest.approx(4.50)
    assert show(5.004, Range(10.0, 0.01, 0.0, 0), Error(), plain, zero=0.498).value == pytest.approx(4.51)


@pytest.mark.parametrize("ranges", [OHMS, VOLTS_AC, VOLTS_DC, INSULATION], ids=["ohms", "a.c.", "d.c.", "insulation"])
def test_the_lowest_range_that_fits_is_taken(ranges):
    """Just below its full scale a range still shows; at it the next one takes over; past the last there is none."""
    for low, high in zip(ranges, (*ranges[1:], None), strict=True):
        assert pick_range(ranges, math.nextafter(low.full_scale, 0)) is low
        assert pick_range(ranges, -math.nextafter(low.full_scale, 0)) is low
        assert pick_range(ranges, low.full_scale) is high
    assert pick_range(ranges, math.inf) is None


@pytest.mark.parametrize("chosen", [*OHMS, *VOLTS_AC, *VOLTS_DC])
def test_the_multimeter_has_6000_counts(chosen):
    """Each range of the multimeter shows 6000 digits."""
    assert chosen.full_scale / chosen.resolution == pytest.approx(6000)


@pytest.mark.parametrize(("resolution", "places"), [(0.001, 3), (0.01, 2), (0.1, 1), (1.0, 0), (10.0, 0), (1000.0, 0)])
def test_decimal_places(resolution, places):
    """As many places as the digit has."""
    assert decimals(resolution) == places


def test_a_negative_remainder_measures_as_zero():
    """A zeroed meter may show a little less than nothing; as a measured resistance that is zero."""
    assert Display("-0.002 Ω", -0.002, 0.003, 0.001).measured == Measured(0.0, 0.003)
    assert Display("OL", math.inf, 0.0, 1e4).measured.is_open
    assert str(Display("OL", math.inf, 0.0, 1e4)) == "OL"
