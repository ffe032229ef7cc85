"""Which pin is which, and the sum rule: every pattern, and where nothing may be claimed."""

from __future__ import annotations

import math
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.measured import Measured
from coldwright.electrical.pins import Pattern, PinReadings, Pins, all_equal, identify_pins, sum_rule
from coldwright.errors import InputError

OPEN = Measured(math.inf)
PINS = ("1", "2", "3")


def three(ab: float, bc: float, ac: float, limit: float = 0.03) -> PinReadings:
    """Readings of pins 1-2, 2-3 and 1-3, each with the same limit."""
    return PinReadings.of(*(OPEN if math.isinf(v) else Measured(v, limit) for v in (ab, bc, ac)))


def wound(common: str, run: str, start: str, run_ohm: float, start_ohm: float, limit: float = 0.03) -> PinReadings:
    """What a sound single-phase compressor reads."""
    return PinReadings(
        {
            frozenset((common, run)): Measured(run_ohm, limit),
            frozenset((common, start)): Measured(start_ohm, limit),
            frozenset((run, start)): Measured(run_ohm + start_ohm, limit),
        }
    )


@pytest.mark.parametrize("order", list(permutations(PINS)))
def test_pins_are_found_wherever_they_are(order):
    """Run 3 Ω and start 8 Ω: common is opposite the 11 Ω, start is on the 8 Ω, in every order of the pins."""
    common, run, start = order
    assert identify_pins(wound(common, run, start, 3.0, 8.0)) == Pins(Pattern.TWO_IN_SERIES, common, run, start)


@given(st.floats(0.5, 100), st.floats(1.2, 20), st.sampled_from(list(permutations(PINS))))
def test_pins_are_found_for_every_pair_of_windings(run_ohm, ratio, order):
    """Whatever the resistances, as long as the start winding stands clear of the run winding."""
    common, run, start = order
    readings = wound(common, run, start, run_ohm, run_ohm * ratio, limit=run_ohm * 0.01)
    assert identify_pins(readings) == Pins(Pattern.TWO_IN_SERIES, common, run, start)
    assert sum_rule(readings).holds is True


def test_windings_that_read_nearly_alike_are_not_told_apart():
    """5.00 Ω and 5.05 Ω within ±0.03 Ω each: common is sure, run and start are not."""
    pins = identify_pins(wound("2", "1", "3", 5.0, 5.05))
    assert pins == Pins(Pattern.TWO_IN_SERIES, common="2")


def test_run_and_start_are_told_apart_just_outside_the_limits():
    """5.00 Ω and 5.07 Ω within ±0.03 Ω each do not touch: run and start are known."""
    assert identify_pins(wound("2", "1", "3", 5.0, 5.07)).run == "1"


def test_the_highest_pair_must_stand_clear():
    """If the two highest readings touch, common is not claimed."""
    assert identify_pins(three(1.0, 9.0, 9.05)) == Pins(Pattern.TWO_IN_SERIES)


def test_three_equal_is_an_inverter_compressor():
    """Three readings within each other's limits are recognised; no pin is named and the rule is not for them."""
    readings = three(6.80, 6.82, 6.78)
    assert all_equal(readings)
    assert identify_pins(readings) == Pins(Pattern.THREE_EQUAL)
    rule = sum_rule(readings)
    assert rule.holds is None
    assert math.isnan(rule.difference)
    assert "not for these" in rule.reason


def test_equal_means_every_two_of_the_three():
    """A chain of neighbours that touch is not enough: the outer two must touch as well."""
    assert not all_equal(three(6.80, 6.85, 6.90))


@pytest.mark.parametrize(
    ("readings", "left_out"),
    [(three(8.0, math.inf, math.inf), "3"), (three(math.inf, 8.0, math.inf), "1"), (three(math.inf, math.inf, 8), "2")],
)
def test_one_pair_leaves_one_pin_out(readings, left_out):
    """With one pair reading only the pin that it leaves out is known."""
    assert identify_pins(readings) == Pins(Pattern.ONE_PAIR, left_out=left_out)


def test_no_pair_reads():
    """Three OL readings name no pin."""
    assert identify_pins(three(math.inf, math.inf, math.inf)) == Pins(Pattern.NO_PAIR)


def test_two_pairs_alone_are_impossible():
    """If 1-2 and 2-3 have a path then 1-3 has one too: two readings and one OL are a slip, not a fault."""
    assert identify_pins(three(3.0, 8.0, math.inf)) == Pins(Pattern.IMPOSSIBLE)


def test_the_rule_cannot_be_tried_with_a_pair_missing():
    """With a pair OL there is nothing to add up."""
    rule = sum_rule(three(3.0, math.inf, math.inf))
    assert rule.holds is None
    assert rule.reason == "a pair does not read, so there is nothing to add up"


def test_allowance_is_the_sum_of_the_three_limits():
    """3 + 8 against 11.09 Ω: off by 0.09 Ω, and three times ±0.03 Ω just allows it."""
    rule = sum_rule(three(3.0, 8.0, 11.09))
    assert rule.difference == pytest.approx(-0.09, abs=1e-12)
    assert rule.allowance == pytest.approx(0.09, abs=1e-12)
    assert sum_rule(three(3.0, 8.0, 11.08)).holds is True
    assert sum_rule(three(3.0, 8.0, 11.10)).holds is False
    assert "+0.090" in sum_rule(three(3.0, 8.0, 10.91)).reason


@given(st.floats(1, 50), st.floats(60, 100), st.floats(0.2, 2))
def test_leads_left_in_break_the_rule_by_one_lead(run_ohm, start_ohm, lead):
    """Leads stand twice in the sum and once in the whole: the rule is off by one lead, unless the lead is given."""
    with_leads = three(run_ohm + lead, run_ohm + start_ohm + lead, start_ohm + lead, limit=0.01)
    rule = sum_rule(with_leads)
    assert rule.difference == pytest.approx(lead, abs=1e-9)
    assert rule.holds is False
    told = sum_rule(with_leads, lead=Measured(lead, 0.005))
    assert told.difference == pytest.approx(0.0, abs=1e-9)
    assert told.allowance == pytest.approx(0.035, abs=1e-12)
    assert told.holds is True


@given(st.floats(1, 50), st.floats(60, 100), st.floats(0.1, 1.0), st.booleans())
def test_shorted_turns_keep_the_rule(run_ohm, start_ohm, remaining, in_run):
    """Whatever share of a winding is left, it reads the same from both sides: the rule cannot find shorted turns."""
    run, start = (run_ohm * remaining, start_ohm) if in_run else (run_ohm, start_ohm * remaining)
    assert sum_rule(wound("1", "2", "3", run, start, limit=1e-6)).holds in (True, None)


def test_readings_are_found_by_pair_in_either_order():
    """Reading between two pins does not depend on the order; each pair knows the pin it leaves out."""
    readings = three(3.0, 8.0, 11.0)
    assert readings.between("2", "1") == readings.between("1", "2") == Measured(3.0, 0.03)
    assert readings.opposite(frozenset(("1", "2"))) == "3"
    assert [r.value for _, r in readings.closed] == [3.0, 8.0, 11.0]


def test_a_pair_that_was_not_read():
    """Asking for a pair that is not there names it and the pins that are."""
    with pytest.raises(
        InputError, match=r"^there is no reading between pin 1 and pin 9; the pins are \('1', '2', '3'\)$"
    ):
        three(3.0, 8.0, 11.0).between("1", "9")


@pytest.mark.parametrize(
    ("pairs", "got"),
    [
        ({frozenset("12"): Measured(1)}, r"got 1 reading\(s\) over 2 pin\(s\)"),
        ({frozenset("12"): Measured(1), frozenset("34"): Measured(1)}, r"got 2 reading\(s\) over 4 pin\(s\)"),
        ({frozenset("12"): Measured(1), frozenset("23"): Measured(1)}, r"got 2 reading\(s\) over 3 pin\(s\)"),
        ({frozenset("1"): Measured(1), frozenset("12"): Measured(1), frozenset("23"): Measured(1)}, r"got 3 reading"),
    ],
)
def test_three_readings_are_needed(pairs, got):
    """Anything but one reading for each pair of three pins is refused with what came."""
    with pytest.raises(InputError, match=rf"^three readings are needed, one for each pair of three pins; {got}"):
        PinReadings(pairs)
