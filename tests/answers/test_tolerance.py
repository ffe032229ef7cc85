"""Right within a tolerance, its edges, and when a slip may be named."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coldwright.answers.tolerance import one_slip, same, separable_slips, within
from coldwright.errors import InputError

MAGNITUDES = st.floats(-9, 9).map(lambda power: 10.0**power)
SIGNS = st.sampled_from([-1.0, 1.0])
SHARES = st.floats(1e-4, 0.5)


@given(MAGNITUDES, SIGNS, SHARES)
def test_the_edge_counts_on_both_sides_at_every_magnitude(size, sign, share):
    """Exactly on the edge is right, a little outside is not: from a billionth to a billion, below and above."""
    target, tolerance = sign * size, size * share
    for side in (-1, 1):
        assert within(target + side * tolerance, target, tolerance)
        assert within(target + side * tolerance * 0.999, target, tolerance)
        assert not within(target + side * tolerance * 1.001, target, tolerance)


@pytest.mark.parametrize("tolerance", [1e-12, 0.001, 1.0, 1e9])
def test_the_edge_round_a_target_of_zero(tolerance):
    """Round zero the edge is the tolerance itself, on both sides."""
    for side in (-1, 1):
        assert within(side * tolerance, 0.0, tolerance)
        assert not within(side * tolerance * 1.001, 0.0, tolerance)
    assert within(-0.0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("value", "target", "tolerance"), [(0.3, 0.1 + 0.2, 0.0), (4.13, 4.10, 0.03), (1.15, 1.10, 0.05)]
)
def test_decimal_edges_are_not_lost_to_binary(value, target, tolerance):
    """What is on the edge in decimal digits is right although its binary fraction is a hair off."""
    assert within(value, target, tolerance)


@pytest.mark.parametrize("odd", [math.nan, math.inf, -math.inf])
def test_inf_and_nan_are_never_right(odd):
    """An infinite or undefined number is within nothing, not even of itself."""
    assert not within(odd, 5.0, 1.0)
    assert not within(5.0, odd, 1.0)
    assert not within(odd, odd, 1.0)
    assert not within(odd, 5.0, math.inf)


@pytest.mark.parametrize("bad", [-0.1, math.nan])
def test_a_tolerance_that_cannot_be(bad):
    """A tolerance below zero, or nan, is refused with its value."""
    with pytest.raises(InputError, match=rf"^the tolerance is {bad}; it must be zero or more$"):
        within(1.0, 1.0, bad)


def test_words_are_equal_or_not():
    """A word counts as itself only, whatever the tolerance; never as a number."""
    assert same("OL", "OL", 0.0)
    assert not same("OL", "ol", 99.0)
    assert not same("5", 5.0, 99.0)
    assert same(5.0, 5.5, 0.5)


def test_a_slip_is_named():
    """A number that only one slip gives names it."""
    slips = {"leads": [4.7], "hot": [5.6]}
    assert one_slip(4.72, [4.1], 0.05, slips) == "leads"
    assert one_slip(5.60, [4.1], 0.05, slips) == "hot"
    assert one_slip(9.0, [4.1], 0.05, slips) is None


def test_right_is_never_a_slip():
    """What is within tolerance of a right answer shows no slip, even where a slip gives the same."""
    assert one_slip(4.1, [4.1], 0.05, {"same": [4.1]}) is None
    assert one_slip(4.15, [4.1], 0.05, {"near": [4.19]}) is None


def test_bands_that_touch_claim_nothing():
    """Nearer to a right answer or another slip than twice the tolerance nothing is claimed; further off it is."""
    assert one_slip(4.2, [4.1], 0.05, {"near": [4.2]}) is None
    assert one_slip(4.201, [4.1], 0.05, {"clear": [4.201]}) == "clear"
    assert one_slip(5.0, [4.1], 0.05, {"a": [5.0], "b": [5.1]}) is None
    assert one_slip(5.0, [4.1], 0.05, {"a": [5.0], "b": [5.101]}) == "a"


def test_each_right_answer_counts():
    """With several right answers a slip must stand clear of every one."""
    assert separable_slips([1.0, 9.0], 0.5, {"a": [5.0], "b": [8.5], "c": [0.2]}) == ("a",)


def test_a_slip_with_several_values():
    """Any of a slip's values names it; one of them near a right answer spoils it all."""
    assert one_slip(7.0, [1.0], 0.1, {"a": [5.0, 7.0]}) == "a"
    assert one_slip(7.0, [1.0], 0.1, {"a": [1.05, 7.0]}) is None
    assert separable_slips([1.0], 0.1, {"none": []}) == ()


def test_words_as_slips():
    """Words tell slips apart too: a wrong pin names the slip that gives it, unless two do."""
    assert one_slip("3", ["1"], 0.0, {"swapped": ["3"]}) == "swapped"
    assert one_slip("3", ["1"], 0.0, {"swapped": ["3"], "guessed": ["3"]}) is None
    assert one_slip(4.0, ["OL"], 0.1, {"ohms for OL": [4.0]}) == "ohms for OL"


@given(
    st.floats(0.1, 100),
    st.floats(0.001, 5),
    st.dictionaries(st.text(max_size=3), st.lists(st.floats(0.1, 100), max_size=2), max_size=4),
    st.floats(0.1, 100),
)
def test_a_claim_is_never_in_doubt(target, tolerance, slips, given_number):
    """Whenever a slip is claimed, the number is within it, is not right, and is within no other slip."""
    claimed = one_slip(given_number, [target], tolerance, slips)
    if claimed is None:
        return
    assert any(within(given_number, value, tolerance) for value in slips[claimed])
    assert not within(given_number, target, tolerance)
    for key, values in slips.items():
        if key != claimed:
            assert not any(within(given_number, value, tolerance) for value in values)


@given(st.floats(0.1, 100), st.floats(0.001, 1), st.floats(2.01, 50), st.floats(-1, 1))
def test_a_clear_slip_is_always_claimed(target, tolerance, distance, inside):
    """A lone slip further off than twice the tolerance is claimed for every number within its band."""
    slip = target + distance * tolerance
    number = slip + inside * tolerance
    assume(not within(number, target, tolerance))
    assert one_slip(number, [target], tolerance, {"lone": [slip]}) == "lone"
