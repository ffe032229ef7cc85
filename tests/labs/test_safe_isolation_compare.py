"""A reading against limits and against another reading: cases by hand, limit cases, and each message."""

from __future__ import annotations

import math

import pytest

from coldwright.electrical.measured import Measured
from coldwright.errors import InputError
from coldwright.labs.safe_isolation.compare import Against, against_limits, against_plate, readings_agree


@pytest.mark.parametrize(
    ("shown", "found"),
    [
        (100.0, Against.WITHIN),
        (92.0, Against.WITHIN),  # 92 - 2 = 90: the edge itself is inside
        (91.9, Against.CANNOT_TELL),
        (88.0, Against.CANNOT_TELL),  # 88 + 2 = 90
        (87.9, Against.LOW),
        (108.0, Against.WITHIN),
        (108.1, Against.CANNOT_TELL),
        (112.1, Against.HIGH),
        (math.inf, Against.HIGH),
    ],
)
def test_three_answers_and_their_edges_by_hand(shown, found):
    """Limits 90 and 110, ±2: inside from 92 to 108, outside below 88 and above 112 (ISO 14253-1, from memory)."""
    assert against_limits(Measured(shown, 2.0), 90.0, 110.0) is found
    assert against_plate(Measured(shown, 2.0), 100.0, 0.1) is found


def test_without_a_limit_there_are_two_answers():
    """Limit case: a reading without ± is within or out, never left open."""
    shown = [against_limits(Measured(value, 0.0), 90.0, 110.0) for value in (89.999, 90.0, 110.0, 110.001)]
    assert shown == [Against.LOW, Against.WITHIN, Against.WITHIN, Against.HIGH]


def test_a_limit_wider_than_the_band_never_says_within():
    """Defining property: a meter coarser than the band cannot prove a value inside it."""
    found = {against_limits(Measured(float(value), 11.0), 90.0, 110.0) for value in range(60, 140)}
    assert found == {Against.LOW, Against.CANNOT_TELL, Against.HIGH}


def test_two_readings_with_limits_three_and_four():
    """3 and 4 make 5 by the root of squares and 7 added: 5 apart agrees, 7.1 differs, between them it is open."""
    found = [readings_agree(Measured(100.0, 3.0), Measured(100.0 + apart, 4.0)) for apart in (0.0, 5.0, 6.0, 7.0, 7.1)]
    assert found == [True, True, None, None, False]


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        (lambda: against_limits(Measured(1.0), 2.0, 1.0), "the lower limit is 2 and the upper 1; lower must be below"),
        (lambda: against_plate(Measured(1.0), 0.0, 0.1), "the plate value is 0; it must be above zero"),
        (lambda: against_plate(Measured(1.0), 120.0, 10.0), "the tolerance is 10; it must be above 0 and below 1"),
        (lambda: readings_agree(Measured(math.inf), Measured(1.0)), "a reading is over range; two numbers are needed"),
    ],
)
def test_bad_input_is_named(asked, message):
    """Each message names the thing and the rule."""
    with pytest.raises(InputError, match=message):
        asked()
