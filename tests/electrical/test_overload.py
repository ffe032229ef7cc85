"""The overload: heat against print and the standard's formula, snap action, fit to a trip curve, what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coldwright.electrical.overload import Overload, OverloadCondition, calibrated
from coldwright.errors import InputError
from tests.electrical.start_device_functions import FUNCTIONS
from tests.published_values import as_printed, load

VALUES = [value for value in load() if value.model == "overload"]
ROOM_K, TRIP_K, RESET_K = 298.15, 388.15, 335.15
OVERLOAD = Overload(0.13, TRIP_K, RESET_K, 2.6, 0.04, shell_share=0.4)
OPEN = replace(OVERLOAD, condition=OverloadCondition.OPEN)
TAU = 65.0  # 2.6 J/K over 0.04 W/K
AMPS, KELVIN, SECONDS = st.floats(0.0, 40.0), st.floats(260.0, 430.0), st.floats(0.0, 600.0)


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_there_are_enough_sources():
    """At least four sources, three of them not from memory."""
    assert len({v.source for v in VALUES}) >= 4
    assert len({v.source for v in VALUES if v.standing != "from memory"}) >= 3


@given(st.floats(1.05, 8.0), st.floats(0.0, 0.98))
def test_trip_time_is_the_standards_formula(over, before):
    """Cold and hot curve of IEC 60255-8: t = τ ln[(I² - Ip²)/(I² - Io²)], Io the ultimate current, Ip the one before.

    As quoted in a handbook on electrical engineering for plants, section 12.7.1, p. 337 (read on a stored page).
    """
    ultimate = OVERLOAD.ultimate_trip_current(ROOM_K, ROOM_K)
    current, earlier = over * ultimate, before * ultimate
    start = OVERLOAD.settles_at(earlier, ROOM_K, ROOM_K)
    wanted = TAU * math.log((current**2 - earlier**2) / (current**2 - ultimate**2))
    assert OVERLOAD.trip_time(current, start, ROOM_K, ROOM_K) == pytest.approx(wanted, rel=1e-9)


@given(KELVIN, AMPS, KELVIN, SECONDS, SECONDS)
def test_two_steps_are_one(start, amps, shell, one, other):
    """Constant current: the step is exact, so a stop on the way changes nothing."""
    in_two = OVERLOAD.heated(OVERLOAD.heated(start, amps, shell, ROOM_K, one), amps, shell, ROOM_K, other)
    assert in_two == pytest.approx(OVERLOAD.heated(start, amps, shell, ROOM_K, one + other), rel=1e-12)


@given(st.floats(0.0, 20.0), st.floats(280.0, 380.0), st.floats(0.0, 1.0))
def test_where_it_settles_the_heat_balances(amps, shell, share):
    """I²R equals what flows to the shell and to the room, each by its share."""
    overload = replace(OVERLOAD, shell_share=share)
    kelvin = overload.settles_at(amps, shell, ROOM_K)
    out = 0.04 * (share * (kelvin - shell) + (1 - share) * (kelvin - ROOM_K))
    assert out == pytest.approx(0.13 * amps**2, rel=1e-9, abs=1e-9)


@given(st.floats(5.5, 40.0), st.floats(290.0, 380.0), st.floats(290.0, 340.0))
def test_after_the_trip_time_it_is_at_its_trip_temperature(amps, start, shell):
    """The trip time is the time it takes."""
    seconds = OVERLOAD.trip_time(amps, start, shell, ROOM_K)
    assert OVERLOAD.heated(start, amps, shell, ROOM_K, seconds) == pytest.approx(TRIP_K, rel=1e-9)


def test_a_strong_current_trips_by_its_heat_alone_by_hand():
    """Adiabatic limit: 2.6 J/K · 90 K / (0.13 Ω · (100 A)²) is 0.18 s, and ten times the amps take a hundredth."""
    assert OVERLOAD.trip_time(100.0, ROOM_K, ROOM_K, ROOM_K) == pytest.approx(0.18, rel=0.002)
    assert OVERLOAD.trip_time(1000.0, ROOM_K, ROOM_K, ROOM_K) == pytest.approx(0.0018, rel=2e-5)


def test_ultimate_trip_current_by_hand():
    """90 K · 0.04 W/K / 0.13 Ω is 27.69 A², the square of 5.262 A: at that it never trips, a little above it does."""
    ultimate = OVERLOAD.ultimate_trip_current(ROOM_K, ROOM_K)
    assert ultimate == pytest.approx(math.sqrt(90 * 0.04 / 0.13), rel=1e-12)
    assert ultimate == pytest.approx(5.262, abs=5e-4)
    assert OVERLOAD.trip_time(ultimate * 0.9999, ROOM_K, ROOM_K, ROOM_K) == math.inf
    assert 9 * TAU < OVERLOAD.trip_time(ultimate * 1.00001, ROOM_K, ROOM_K, ROOM_K) < 12 * TAU


def test_a_hot_shell_by_hand():
    """A shell 50 K above the room takes 0.4 · 50 = 20 K off the 90 K left; one 225 K above takes them all."""
    assert OVERLOAD.ultimate_trip_current(ROOM_K + 50, ROOM_K) == pytest.approx(math.sqrt(70 * 0.04 / 0.13))
    assert OVERLOAD.ultimate_trip_current(ROOM_K + 230, ROOM_K) == 0.0
    assert OVERLOAD.trip_time(0.0, ROOM_K, ROOM_K + 230, ROOM_K) < math.inf


@given(st.floats(5.5, 40.0), st.floats(1.01, 3.0), st.floats(0.0, 60.0))
def test_more_current_and_a_hotter_shell_trip_sooner(amps, factor, hotter):
    """The trip time falls with current, and never rises with the shell's temperature."""
    base = OVERLOAD.trip_time(amps, ROOM_K, ROOM_K, ROOM_K)
    assert OVERLOAD.trip_time(amps * factor, ROOM_K, ROOM_K, ROOM_K) < base
    assert OVERLOAD.trip_time(amps, ROOM_K, ROOM_K + hotter, ROOM_K) <= base


def test_reset_by_hand():
    """From 115 °C to 62 °C in a room of 25 °C: 65 s · ln(90/37) is 57.8 s; in a room of 62 °C never."""
    assert OVERLOAD.reset_time(TRIP_K, ROOM_K, ROOM_K) == pytest.approx(65 * math.log(90 / 37), rel=1e-12)
    assert OVERLOAD.reset_time(TRIP_K, ROOM_K, ROOM_K) == pytest.approx(57.8, abs=0.05)
    assert OVERLOAD.reset_time(TRIP_K, RESET_K, RESET_K) == math.inf
    assert OVERLOAD.reset_time(RESET_K, ROOM_K, ROOM_K) == 0.0


def test_the_clicking_is_trip_and_reset_in_turn():
    """Stepped in time with its own snap action, it clicks as the cycle says, to a step."""
    step, kelvin, is_open, at, clicks = 0.01, ROOM_K, False, 0.0, []
    while len(clicks) < 5:
        kelvin = OVERLOAD.heated(kelvin, 0.0 if is_open else 12.0, ROOM_K, ROOM_K, step)
        at += step
        if OVERLOAD.next_open(is_open, kelvin) != is_open:
            is_open = not is_open
            clicks.append(at)
    closed, opened = OVERLOAD.cycle(12.0, ROOM_K, ROOM_K)
    assert clicks[2] - clicks[1] == pytest.approx(closed, abs=3 * step)
    assert clicks[3] - clicks[2] == pytest.approx(opened, abs=3 * step)
    assert clicks[4] - clicks[3] == pytest.approx(closed, abs=3 * step)


@given(st.booleans(), KELVIN)
def test_it_snaps(is_open, kelvin):
    """Between reset and trip it stays as it was; outside, what it was does not matter."""
    between = RESET_K < kelvin < TRIP_K
    assert OVERLOAD.next_open(is_open, kelvin) == (is_open if between else kelvin >= TRIP_K)


def test_open_for_good():
    """A failed overload is open at any temperature, carries nothing and never resets."""
    assert OPEN.is_open
    assert not OVERLOAD.is_open
    assert OPEN.next_open(False, 250.0)
    assert OPEN.trip_time(0.0, ROOM_K, ROOM_K, ROOM_K) == OPEN.ultimate_trip_current(ROOM_K, ROOM_K) == 0.0
    assert OPEN.reset_time(ROOM_K, ROOM_K, ROOM_K) == math.inf


def test_weak_and_wrong_are_other_numbers():
    """A lower trip temperature trips sooner; a heater of a quarter carries twice the current (by hand: I²R)."""
    weak, larger = replace(OVERLOAD, trip_k=TRIP_K - 30), replace(OVERLOAD, heater_ohm=0.13 / 4)
    assert weak.trip_time(12.0, ROOM_K, ROOM_K, ROOM_K) < OVERLOAD.trip_time(12.0, ROOM_K, ROOM_K, ROOM_K)
    ultimate = OVERLOAD.ultimate_trip_current(ROOM_K, ROOM_K)
    assert larger.ultimate_trip_current(ROOM_K, ROOM_K) == pytest.approx(2 * ultimate, rel=1e-12)
    assert larger.trip_time(24.0, ROOM_K, ROOM_K, ROOM_K) == pytest.approx(
        OVERLOAD.trip_time(12.0, ROOM_K, ROOM_K, ROOM_K), rel=1e-12
    )


@given(st.floats(3.0, 20.0), st.floats(1.1, 5.0), st.floats(1.0, 60.0), st.floats(0.02, 0.98))
def test_a_fitted_overload_goes_through_its_two_points(slow_a, factor, fast_s, share):
    """Two points of a curve come back, from whichever end they are given."""
    fast_a = slow_a * factor
    slow_s = fast_s * factor**2 * (1.02 + 20 * share)  # more heat for the longer trip
    points = [(fast_a, fast_s), (slow_a, slow_s)]
    fitted = calibrated(points, TRIP_K, RESET_K, ROOM_K)
    for amps, seconds in points:
        assume(fitted.ultimate_trip_current(ROOM_K, ROOM_K) < 0.9999 * amps)
        assert fitted.trip_time(amps, ROOM_K, ROOM_K, ROOM_K) == pytest.approx(seconds, rel=1e-5)


@given(st.floats(3.0, 20.0), st.floats(1.05, 6.0), st.floats(1.0, 120.0), st.floats(0.005, 0.2))
def test_a_fitted_overload_keeps_its_ultimate_current(ultimate, factor, seconds, conductance):
    """One point and the ultimate current come back, whatever the conductance that sets the scale."""
    amps = ultimate * factor
    fitted = calibrated([(amps, seconds)], TRIP_K, RESET_K, ROOM_K, ultimate, conductance)
    assert fitted.ultimate_trip_current(ROOM_K, ROOM_K) == pytest.approx(ultimate, rel=1e-9)
    assert fitted.trip_time(amps, ROOM_K, ROOM_K, ROOM_K) == pytest.approx(seconds, rel=1e-9)


def test_fit_by_hand():
    """Twice the ultimate current trips at ln(4/3) of a time constant (by hand): 10 s mean one of 34.76 s."""
    fitted = calibrated([(10.0, 10.0)], TRIP_K, RESET_K, ROOM_K, ultimate_a=5.0)
    assert fitted.time_constant_s == pytest.approx(10 / math.log(4 / 3), rel=1e-12)
    assert fitted.heater_ohm == pytest.approx(90 * 0.04 / 25, rel=1e-12)


TOO_FEW_HEAT = "20 A in 10 s and 10 A in 30 s; more current must trip sooner, and the longer trip must need more heat"


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: replace(OVERLOAD, heater_ohm=-1.0), "heater_ohm of the overload is -1 Ω; it must be above 0 Ω"),
        (lambda: replace(OVERLOAD, heat_capacity_j_per_k=0.0), "heat_capacity_j_per_k of the overload is 0 J/K"),
        (lambda: replace(OVERLOAD, conductance_w_per_k=math.nan), "conductance_w_per_k of the overload is nan W/K"),
        (lambda: replace(OVERLOAD, trip_k=115.0), "the trip temperature of the overload is 115 K; it must be 200 K"),
        (lambda: replace(OVERLOAD, reset_k=62.0), "the reset temperature of the overload is 62 K; it must be 200 K"),
        (
            lambda: replace(OVERLOAD, trip_k=RESET_K, reset_k=TRIP_K),
            "the reset temperature of the overload is 388.15 K and its trip temperature 335.15 K; it must reset below "
            "where it trips. Were they swapped?",
        ),
        (
            lambda: replace(OVERLOAD, shell_share=40.0),
            "shell_share of the overload is 40; it must be from 0 to 1. Was it a percentage?",
        ),
        (lambda: OVERLOAD.settles_at(-1.0, ROOM_K, ROOM_K), "the current in the overload is -1 A"),
        (lambda: OVERLOAD.heated(ROOM_K, 1.0, ROOM_K, ROOM_K, -1.0), "the time that passes is -1 s"),
        (lambda: calibrated([(20.0, 10.0), (10.0, 30.0)], TRIP_K, RESET_K, ROOM_K), TOO_FEW_HEAT),
        (lambda: calibrated([(20.0, 10.0)], TRIP_K, RESET_K, ROOM_K), "1 points of the trip curve; 2 needed without"),
        (
            lambda: calibrated([(20.0, 10.0), (10.0, 99.0)], TRIP_K, RESET_K, ROOM_K, 5.0),
            "2 points of the trip curve; 1 needed with the ultimate current",
        ),
        (
            lambda: calibrated([(4.0, 10.0)], TRIP_K, RESET_K, ROOM_K, 5.0),
            "the ultimate trip current is 5 A and the point's 4 A; a point that trips must lie above it. "
            "Were they swapped?",
        ),
        (lambda: calibrated([(0.0, 9.0)], TRIP_K, RESET_K, ROOM_K, 5.0), "the current of a point of the trip curve is"),
        (
            lambda: calibrated([(9.0, 0.0)], TRIP_K, RESET_K, ROOM_K, 5.0),
            "the time of a point of the trip curve is 0 s",
        ),
        (lambda: calibrated([(9.0, 9.0)], TRIP_K, RESET_K, ROOM_K, 0.0), "the ultimate trip current is 0 A"),
        (lambda: calibrated([(9.0, 9.0)], TRIP_K, RESET_K, 25.0, 5.0), "that the trip curve was taken at is 25 K"),
        (
            lambda: calibrated([(9.0, 9.0)], TRIP_K, RESET_K, 400.0, 5.0),
            "the trip curve was taken at 400 K and the trip temperature is 388.15 K",
        ),
    ],
)
def test_what_is_refused(make, message):
    """Each message names the thing, its value and the rule."""
    with pytest.raises(InputError) as error:
        make()
    assert message in str(error.value)
