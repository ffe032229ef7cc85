"""Which leaks matter."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.sealed_system.service.leak_concern import Concern, concern, same_hole, years_until_lost
from coldwright.sealed_system.service.leak_rate import YEAR_S, LeakRate

GRAM_A_YEAR = 1e-3 / YEAR_S


def grams_a_year(grams: float, limit: float = 0.0) -> LeakRate:
    """A rate in the trade's unit."""
    return LeakRate(grams * GRAM_A_YEAR, limit * GRAM_A_YEAR)


def test_years_by_hand():
    """4 g a year out of 80 g takes two years to lose a tenth."""
    assert years_until_lost(4 * GRAM_A_YEAR, 0.080) == pytest.approx(2.0, rel=1e-12)


@pytest.mark.parametrize(
    ("rate", "expected"),
    [
        (grams_a_year(0.5, 0.1), Concern.NEGLIGIBLE),
        (grams_a_year(4.0, 1.0), Concern.WITHIN_ITS_LIFE),
        (grams_a_year(50.0, 5.0), Concern.WITHIN_A_YEAR),
        (grams_a_year(5000.0, 5.0), Concern.GROSS),
        (grams_a_year(5.0, 20.0), Concern.NOT_SHOWN),
        (grams_a_year(-30.0, 35.0), Concern.NOT_SHOWN),
    ],
)
def test_concern_by_the_time_a_tenth_lasts(rate, expected):
    """Ten years of life, a year and a day part the cases of an 80 g unit; a rate that is not shown is not judged."""
    assert concern(rate, 0.080) is expected


@given(st.floats(0.01, 1e6), st.floats(1.01, 100.0))
def test_a_larger_leak_never_matters_less(grams, factor):
    """Concern does not fall as a sure rate grows."""
    order = [Concern.NEGLIGIBLE, Concern.WITHIN_ITS_LIFE, Concern.WITHIN_A_YEAR, Concern.GROSS]
    small, large = (order.index(concern(grams_a_year(g), 0.080)) for g in (grams, grams * factor))

    assert large >= small


def test_same_hole_same_gas_by_hand():
    """Twice the pressure over vacuum, the same gas: four times the leak."""
    assert same_hole(1e-9, (2e5, 1e3), (4e5, 2e3), 1.0, 1.0) == pytest.approx(4e-9, rel=1e-12)


def test_nitrogen_to_refrigerant_by_hand():
    """R-134a through the same hole: 102.03 / 28.01 over 1.16 / 1.76 (viscosities from memory) is 5.53 times as much."""
    found = same_hole(1e-9, (6e5, 1e5), (6e5, 1e5), 102.03 / 28.01, 1.16 / 1.76)

    assert found == pytest.approx(5.53e-9, rel=1e-3)


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: years_until_lost(-1e-9, 0.08), r"leak rate is -1e-09 kg/s.*loss counts as positive"),
        (lambda: years_until_lost(1e-9, 80.0), r"charge is 80000 g.*80 g, typed where kilograms"),
        (lambda: years_until_lost(1e-9, 0.08, 10.0), r"share lost is 10;.*per cent"),
        (lambda: same_hole(1e-9, (1e5, 1e5), (6e5, 1e5), 1.0, 1.0), r"100 kPa absolute, not above.*gauge"),
    ],
)
def test_bad_input_is_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
