"""Compartments and room classes: the rule's limits, and what is refused."""

from __future__ import annotations

import re

import pytest

from coldwright.cabinet.compartments import COMPARTMENTS, compartment, suits_room
from coldwright.errors import InputError


@pytest.mark.parametrize(("kind", "factor"), [("fresh food", 1.0), ("1-star", 1.5), ("2-star", 1.8), ("3-star", 2.1)])
def test_factor_of_the_rule(kind, factor):
    """r_c as Regulation (EU) 2019/2016, annex IV, table 3 prints it."""
    assert compartment(kind).factor == pytest.approx(factor, abs=1e-12)


def test_each_target_lies_within_its_limits():
    """Where the rule gives a lowest and a highest temperature, the target is between."""
    with_limits = [kind for kind in COMPARTMENTS.values() if kind.least_c is not None and kind.most_c is not None]
    assert len(with_limits) == 5
    assert all(kind.least_c <= kind.target_c <= kind.most_c for kind in with_limits)


@pytest.mark.parametrize(
    ("letters", "celsius", "suits"),
    [("N", 32, True), ("N", 33, False), ("SN", 10, True), ("N", 10, False), ("SN-T", 43, True), ("st", 38, True)],
)
def test_room_classes(letters, celsius, suits):
    """SN 10 to 32, N 16 to 32, ST 16 to 38, T 16 to 43 °C, ends included: IEC 62552, from memory."""
    assert suits_room(letters, celsius + 273.15) is suits


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: compartment("garage"), "there is no kind of compartment 'garage'; there are pantry, wine,"),
        (lambda: suits_room("X", 298.15), "the class 'X' is not known; there are SN, N, ST, T, or a span"),
        (lambda: suits_room("N", 25.0), "the room is 25 K (-248 °C); it must be from -50 °C to 60 °C. Was it in °C?"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value and rule."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()
