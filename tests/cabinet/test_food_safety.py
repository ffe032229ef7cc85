"""Safe temperatures: verdicts at and round the limits, with the thermometer's limit, and what is refused."""

from __future__ import annotations

import re

import pytest

from coldwright.cabinet.food_safety import Safety, cold_holding, cooling_rule, time_below
from coldwright.errors import InputError

HOUR = 3600.0


def kelvin(*celsius: float) -> list[float]:
    """The same in kelvin."""
    return [c + 273.15 for c in celsius]


def hours(*numbers: float) -> list[float]:
    """The same in seconds."""
    return [n * HOUR for n in numbers]


@pytest.mark.parametrize(
    ("celsius", "limit", "safety"),
    [
        (5.0, 0.0, Safety.SAFE),
        (5.1, 0.0, Safety.UNSAFE),
        (4.0, 0.5, Safety.SAFE),
        (4.8, 0.5, Safety.CANNOT_TELL),
        (5.4, 0.5, Safety.CANNOT_TELL),
        (5.6, 0.5, Safety.UNSAFE),
    ],
)
def test_cold_holding_at_5_c(celsius, limit, safety):
    """5 °C (41 °F) or below is safe, FDA Food Code 3-501.16; the thermometer's limit may leave it open."""
    verdict = cold_holding(celsius + 273.15, limit)
    assert verdict.safety is safety
    assert "the rule is 5 °C (41 °F) or below" in verdict.reason


def test_both_stages_in_time():
    """57 °C to 21 °C in 2 h and to 5 °C in 6 h in all passes, FDA Food Code 3-501.14."""
    verdict = cooling_rule(hours(0, 2, 6), kelvin(57, 21, 5))
    assert (verdict.safety, verdict.reason) == (Safety.SAFE, "21 °C after 2.0 h; 5 °C after 6.0 h")


def test_a_slow_first_stage_fails_though_the_whole_is_in_time():
    """21 °C after 3 h is too late, even if 5 °C comes within 6 h."""
    verdict = cooling_rule(hours(0, 3, 5), kelvin(57, 21, 5))
    assert verdict.safety is Safety.UNSAFE
    assert verdict.reason == "21 °C took 3.0 h; the rule allows 2.0 h. Discard the food"


def test_not_cold_after_six_hours_fails():
    """A record that ends above 5 °C after 7 h fails without waiting for the end."""
    verdict = cooling_rule(hours(0, 1.5, 7), kelvin(57, 21, 8))
    assert verdict.reason == "5 °C is not reached after 7.0 h; the rule allows 6.0 h. Discard the food"


def test_a_record_that_is_too_short_cannot_tell():
    """Stopped after 4 h at 8 °C: it may still be in time."""
    verdict = cooling_rule(hours(0, 1.5, 4), kelvin(57, 21, 8))
    assert verdict.safety is Safety.CANNOT_TELL
    assert verdict.reason == "whether 5 °C is reached within 6.0 h cannot be told from this record"


def test_the_thermometer_s_limit_can_decide():
    """21.5 °C after 2 h with a limit of 1 K may be 20.5 °C: it cannot be told."""
    verdict = cooling_rule(hours(0, 2, 5), kelvin(57, 21.5, 3), limit_k=1.0)
    assert verdict.safety is Safety.CANNOT_TELL


def test_time_counts_from_57_c():
    """From 77 °C the clock of the rule starts where the food falls through 57 °C: halfway in the first hour here."""
    assert time_below(hours(0, 1, 2), kelvin(77, 37, 21), 294.15, 330.15) == pytest.approx(1.5 * HOUR)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: cooling_rule(hours(0, 1), kelvin(57)),
            "the record has 2 times and 1 temperatures; it needs two or more",
        ),
        (lambda: cooling_rule(hours(0, 2, 1), kelvin(60, 30, 20)), "the times of the record do not rise"),
        (
            lambda: cooling_rule(hours(0, 2), kelvin(40, 5)),
            "the record begins at 40.0 °C; the cooling rule counts from 57 °C (135 °F). Was it °F taken for °C",
        ),
        (
            lambda: cooling_rule([0.0, 0.5], kelvin(57, 5)),
            "the length of the record is 0.5 s; it must be from 1 to 604800 s. Was it in min? 0.5 min is 30 s",
        ),
        (
            lambda: cold_holding(41.0),
            "the temperature of the food is 41 K (-232 °C); it must be from -50 °C to 110 °C. Was it in °C? 41 °C is",
        ),
        (lambda: cold_holding(278.0, -1.0), "the limit of the thermometer is -1 K; it must be from 0 to 10 K"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()
