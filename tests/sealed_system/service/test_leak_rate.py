"""Leak rate by regression, with its uncertainty."""

from __future__ import annotations

import random

import pytest
from scipy import stats

from coldwright.errors import InputError
from coldwright.sealed_system.service.leak_rate import (
    YEAR_S,
    LeakRate,
    fit_line,
    leak_from_pressures,
    leak_from_weights,
    student_95,
)

DAY = 86400.0
GRAM_A_YEAR = 1e-3 / YEAR_S


@pytest.mark.parametrize("degrees", [*range(1, 31), 60, 120, 500])
def test_student_against_scipy(degrees):
    """The factor agrees with scipy's to nine digits."""
    assert student_95(degrees) == pytest.approx(stats.t.ppf(0.975, degrees), rel=1e-9)


def test_slope_and_error_against_scipy():
    """Fifty random records: slope and standard error agree with scipy's linregress."""
    draw = random.Random(4)
    for _ in range(50):
        x = sorted(draw.uniform(0, 100) for _ in range(draw.randint(3, 30)))
        y = [3 - 0.02 * xi + draw.gauss(0, 0.1) for xi in x]
        found, other = fit_line(x, y), stats.linregress(x, y)

        assert found.slope == pytest.approx(other.slope, rel=1e-9)
        assert found.standard_error == pytest.approx(other.stderr, rel=1e-9)


def test_limit_holds_nineteen_times_in_twenty(sample, figure):
    """Over many drawn records the true rate lies within the limit as often as 95 % says."""
    draw, inside, count = random.Random(9), 0, sample(small=600, full=6000)
    times = [day * DAY for day in range(8)]
    true = 40 * GRAM_A_YEAR
    for _ in range(count):
        masses = [20.0 - true * t + draw.gauss(0, 2e-3) for t in times]
        rate = leak_from_weights(times, masses, 1e-5)
        inside += abs(rate.kg_per_s - true) <= rate.limit_kg_per_s
    figure("leak rate within its 95 % limit", f"{inside / count:.1%}")

    assert inside / count == pytest.approx(0.95, abs=4 * (0.95 * 0.05 / count) ** 0.5)


def test_weights_by_hand():
    """30.000, 29.999 and 29.998 kg a day apart are 1 g a day, 365.25 g a year."""
    rate = leak_from_weights([0, DAY, 2 * DAY], [30.0, 29.999, 29.998], 1e-6)

    assert rate.grams_per_year == pytest.approx(365.25, rel=1e-9)
    assert rate.is_shown


def test_a_coarse_scale_shows_no_leak():
    """Three like readings of a 10 g scale do not prove that nothing leaks: the limit stays."""
    rate = leak_from_weights([0, DAY, 2 * DAY], [30.0, 30.0, 30.0], 0.010)

    assert rate.kg_per_s == pytest.approx(0.0, abs=1e-20)
    assert not rate.is_shown
    # by hand: 10 g / sqrt(12) / sqrt(2 day²) * 12.706 a day
    assert rate.limit_grams_per_year == pytest.approx(10 / 12**0.5 / 2**0.5 * 12.706 * 365.25, rel=1e-4)


def test_pressures_with_a_swing_of_temperature():
    """An ideal gas that loses a known mass while the room swings gives that mass back within 1 %."""
    volume, start, loss = 3e-3, 2e5, 2e-9
    kelvin = [290.0 + 6.0 * (hour % 3) for hour in range(13)]
    times = [hour * 3600.0 for hour in range(13)]
    constant = 8.314462618 / 0.02801348
    first = start * volume / (constant * kelvin[0])
    pressures = [(first - loss * t) * constant * k / volume for t, k in zip(times, kelvin, strict=True)]

    rate = leak_from_pressures(times, pressures, kelvin, volume, 10.0, volume_share=0.0)

    assert rate.kg_per_s == pytest.approx(loss, rel=0.01)
    assert rate.is_shown


def test_the_volume_puts_its_share_on_the_limit():
    """With perfect readings, a volume known to a tenth leaves a tenth of the rate open, and no less."""
    times, kelvin = [0.0, 3600.0, 7200.0], [293.15] * 3
    rate = leak_from_pressures(times, [1e6, 0.99e6, 0.98e6], kelvin, 3e-3, 1e-3)

    assert rate.limit_kg_per_s == pytest.approx(0.1 * rate.kg_per_s, rel=0.01)


def test_a_gain_is_no_leak():
    """A rate below zero is never shown as a leak."""
    assert not LeakRate(-1e-9, 1e-10).is_shown


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: fit_line([0, 1], [1, 1]), r"2 readings.*3 or more"),
        (lambda: fit_line([0, 1, 2], [1, 1]), r"3 times and 2 values"),
        (lambda: fit_line([5, 5, 5], [1, 2, 3]), r"at the same time"),
        (lambda: fit_line([0, 1, float("nan")], [1, 2, 3]), r"no number"),
        (lambda: student_95(0), r"degrees of freedom are 0"),
        (lambda: leak_from_weights([0, 1, 2], [1, -1, 1], 1e-3), r"a weight of the record is -1 kg.*zeroed"),
        (lambda: leak_from_pressures([0, 1, 2], [1e6] * 3, [293.0] * 2, 3e-3, 1e3), r"3 pressures and 2 temperatures"),
        (lambda: leak_from_pressures([0, 1, 2], [1e6] * 3, [473.15] * 3, 3e-3, 1e3), r"is 200 °C"),
        (lambda: leak_from_pressures([0, 1, 2], [1e6] * 3, [293.0] * 3, 3e-3, 1e3, 10.0), r"share.*10;.*per cent"),
    ],
)
def test_bad_records_are_named(act, message):
    """Each message names what is wrong with the record."""
    with pytest.raises(InputError, match=message):
        act()
