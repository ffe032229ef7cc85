"""Numbers drawn from a seed by name."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.bench.draw import Draw

SEEDS = st.binary(min_size=1, max_size=32)


@given(SEEDS, st.text(max_size=20))
def test_a_draw_depends_on_seed_and_name_only(seed, name):
    """The same seed and name give the same number, whatever was drawn before, from 0 up to but not 1."""
    fresh, used = Draw(seed), Draw(seed)
    used.fraction("something else")
    assert fresh.fraction(name) == used.fraction(name)
    assert 0 <= fresh.fraction(name) < 1


def test_another_name_or_seed_is_another_number():
    """A hundred names, and a hundred seeds, give a hundred numbers each."""
    assert len({Draw(b"seed").fraction(str(n)) for n in range(100)}) == 100
    assert len({Draw(str(n).encode()).fraction("name") for n in range(100)}) == 100


@given(SEEDS, st.floats(-1e6, 1e6), st.floats(0, 1e6))
def test_between_stays_between(seed, low, span):
    """A number between two ends lies between them."""
    assert low <= Draw(seed).between("x", low, low + span) <= low + span


@given(SEEDS, st.lists(st.integers(), min_size=1, max_size=8, unique=True))
def test_order_keeps_every_item(seed, items):
    """A drawn order has every item once, and a choice is one of them."""
    assert sorted(Draw(seed).order("x", items)) == sorted(items)
    assert Draw(seed).one_of("x", items) in items


def test_draws_are_spread_evenly():
    """Of 4000 draws each tenth holds near 400 (five standard deviations, about 95, either way)."""
    counts = [0] * 10
    draw = Draw(b"spread")
    for n in range(4000):
        counts[int(draw.fraction(str(n)) * 10)] += 1
    assert counts == [pytest.approx(400, abs=95)] * 10
