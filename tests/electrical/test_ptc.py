"""The PTC: its curve, its heat against print, against a general solver and by hand, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.electrical.heating import time_to
from coldwright.electrical.ptc import CRACKED_FACTOR, Ptc, PtcCondition
from coldwright.errors import InputError
from tests.electrical.start_device_functions import FUNCTIONS
from tests.published_values import as_printed, load

VALUES = [value for value in load() if value.model == "start device"]
ROOM_K = 298.15
PTC = Ptc(5.0, 393.15, 0.16, 12000.0, 1.7, 0.022)
OPEN, CRACKED = (replace(PTC, condition=each) for each in (PtcCondition.OPEN, PtcCondition.CRACKED))
KELVIN, WATTS, SECONDS = st.floats(250.0, 500.0), st.floats(0.0, 500.0), st.floats(0.0, 600.0)


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_there_are_enough_sources():
    """At least three sources, two of them not from memory, and every function of the list has a value."""
    assert len({v.source for v in VALUES}) >= 3
    assert len({v.source for v in VALUES if v.standing != "from memory"}) >= 2
    assert {v.function for v in load() if v.model in ("start device", "overload")} == set(FUNCTIONS)


def test_cold_and_hot_ends_by_hand():
    """Far below the switch temperature it has its cold resistance, far above the highest one."""
    assert PTC.resistance(273.15) == pytest.approx(5.0, rel=1e-6)
    assert PTC.resistance(600.0) == pytest.approx(12000.0, rel=1e-6)
    assert PTC.resistance(0.0) == pytest.approx(5.0, rel=1e-12)
    assert PTC.resistance(1e6) == pytest.approx(12000.0, rel=1e-12)


@given(KELVIN)
def test_warmer_is_never_less(kelvin):
    """The resistance never falls as the disc warms, in any condition that conducts."""
    for disc in (PTC, CRACKED):
        assert disc.resistance(kelvin + 1.0) >= disc.resistance(kelvin)


@given(st.floats(1.5, 60.0), st.floats(0.05, 0.3), st.floats(2.5, 1e4))
def test_steepest_in_the_middle_by_hand(cold, steepness, ratio):
    """Half way up in logarithm the slope is s · ln(ratio) / 4: the slope of the logistic curve at its middle."""
    disc = Ptc(cold, 393.15, steepness, cold * ratio, 1.7, 0.022)
    middle = disc.temperature_at(cold * math.sqrt(ratio))
    slope = (math.log(disc.resistance(middle + 1e-3)) - math.log(disc.resistance(middle - 1e-3))) / 2e-3
    assert slope == pytest.approx(steepness * math.log(ratio) / 4, rel=1e-5)


@given(st.floats(330.0, 450.0))
def test_temperature_from_resistance_undoes_the_curve(kelvin):
    """The temperature found for a resistance is the one it was worked out for, cracked or not."""
    for disc in (PTC, CRACKED):
        assert disc.temperature_at(disc.resistance(kelvin)) == pytest.approx(kelvin, rel=1e-7)


@given(KELVIN)
def test_failed_discs(kelvin):
    """Open has no path; cracked has a fixed multiple of a good disc."""
    assert OPEN.resistance(kelvin) == math.inf
    assert CRACKED.resistance(kelvin) == pytest.approx(CRACKED_FACTOR * PTC.resistance(kelvin), rel=1e-12)


@given(KELVIN, WATTS, SECONDS, SECONDS)
def test_two_steps_are_one(start, watts, one, other):
    """Constant watts: the step is exact, so a stop on the way changes nothing."""
    in_two = PTC.heated(PTC.heated(start, watts, one, ROOM_K), watts, other, ROOM_K)
    assert in_two == pytest.approx(PTC.heated(start, watts, one + other, ROOM_K), rel=1e-12)


def test_a_short_step_keeps_all_its_heat_by_hand():
    """Adiabatic limit: 300 W for 1 ms into 1.7 J/K is 0.1765 K."""
    assert PTC.heated(ROOM_K, 300.0, 1e-3, ROOM_K) - ROOM_K == pytest.approx(0.3 / 1.7, rel=1e-4)


@given(st.floats(320.0, 450.0), st.floats(0.05, 0.95))
def test_cooling_time_is_the_time_it_takes(hot, share):
    """After the cooling time it is at the wanted temperature."""
    wanted = ROOM_K + share * (hot - ROOM_K)
    seconds = PTC.cooling_time(hot, wanted, ROOM_K)
    assert PTC.heated(hot, 0.0, seconds, ROOM_K) == pytest.approx(wanted, rel=1e-12)


@pytest.mark.parametrize("wanted", [ROOM_K, ROOM_K - 10.0, 410.0])
def test_what_cooling_never_reaches(wanted):
    """Not the room's own temperature, nothing below it, nothing above the start."""
    assert PTC.cooling_time(400.0, wanted, ROOM_K) == math.inf
    assert PTC.cooling_time(400.0, 400.0, ROOM_K) == 0.0
    assert time_to(300.0, 310.0, 300.0, 1.0) == math.inf


def _solver(volts: float, seconds: float, disc: Ptc = PTC, start: float = ROOM_K, switch: bool = False):
    from scipy.integrate import solve_ivp

    def slope(_t, kelvin):
        heat = volts**2 / disc.resistance(kelvin[0])
        return [(heat - disc.conductance_w_per_k * (kelvin[0] - ROOM_K)) / disc.heat_capacity_j_per_k]

    def reached(_t, kelvin):
        return kelvin[0] - disc.switch_k

    options = {"method": "Radau", "rtol": 1e-9, "atol": 1e-9, "events": reached if switch else None}
    return solve_ivp(slope, (0.0, seconds), [start], **options)


@pytest.mark.parametrize("volts", [7.0, 15.0, 60.0, 120.0])
def test_switch_time_against_a_general_solver(volts):
    """The integral agrees with scipy's solver on the same heat balance (independent library)."""
    solved = _solver(volts, 600.0, switch=True)
    assert PTC.switch_time(volts, ROOM_K, ROOM_K) == pytest.approx(solved.t_events[0][0], rel=1e-5)


def test_switch_time_without_loss_by_hand():
    """Hard on, the loss is nothing: 1.7 J/K · 95 K · 5 Ω / (1000 V)² is 0.81 ms, a little more as the curve bends."""
    least = 1.7 * 95 * 5 / 1000.0**2
    assert least < PTC.switch_time(1000.0, ROOM_K, ROOM_K) < 1.1 * least


def test_too_few_volts_never_switch_it_by_hand():
    """At the switch temperature 10 Ω must make more than 0.022 · 95 = 2.09 W: that takes more than 4.572 V."""
    assert PTC.switch_time(4.57, ROOM_K, ROOM_K) == math.inf
    assert PTC.switch_time(4.58, ROOM_K, ROOM_K) < math.inf
    assert PTC.switch_time(60.0, 400.0, ROOM_K) == 0.0
    assert OPEN.switch_time(120.0, ROOM_K, ROOM_K) == math.inf


@given(st.floats(0.0, 300.0))
def test_holding_balances(volts):
    """In service U²/R equals the loss to the air; makers draw the same balance as an operating curve."""
    kelvin = PTC.holding_temperature(volts, ROOM_K)
    assert volts**2 / PTC.resistance(kelvin) == pytest.approx(0.022 * (kelvin - ROOM_K), rel=1e-4, abs=1e-6)
    assert PTC.holding_watts(volts, ROOM_K) == pytest.approx(0.022 * (kelvin - ROOM_K), rel=1e-12)


def test_holding_takes_few_watts_by_hand():
    """At 120 V it stands somewhat above 120 °C: 0.022 W/K times some 100 K to 130 K."""
    assert 0.022 * 100 < PTC.holding_watts(120.0, ROOM_K) < 0.022 * 130
    assert OPEN.holding_watts(120.0, ROOM_K) == 0.0


@pytest.mark.parametrize(("volts", "seconds", "within"), [(60.0, 0.1, 0.5), (10.0, 5.0, 0.5), (30.0, 200.0, 0.01)])
def test_steps_at_constant_volts_against_a_general_solver(volts, seconds, within):
    """Short steps follow scipy's solver within 0.5 K, long ones end on its steady state within 0.01 K."""
    end = _solver(volts, seconds).y[0][-1] if seconds < 100 else _solver(volts, 3000.0).y[0][-1]
    kelvin = ROOM_K
    for _ in range(10):
        kelvin = PTC.heated_at(kelvin, volts, seconds / 10, ROOM_K)
    assert kelvin == pytest.approx(end, abs=within)


@given(KELVIN, st.floats(0.0, 250.0), st.floats(0.1, 1e4))
def test_long_steps_do_not_swing(start, volts, seconds):
    """A step at constant volts never passes the temperature where the heat balances."""
    holds = PTC.holding_temperature(volts, ROOM_K)
    end = PTC.heated_at(start, volts, seconds, ROOM_K)
    assert min(start, holds) - 1e-4 <= end <= max(start, holds) + 1e-4


def test_restart_by_hand():
    """With a time constant of 77.27 s, 150 °C falls to 120 °C in 77.27 · ln(125/95) = 21.2 s; not before."""
    wait = 1.7 / 0.022 * math.log(125 / 95)
    assert wait == pytest.approx(21.2, abs=0.05)
    assert PTC.restart_wait(423.15, ROOM_K) == pytest.approx(wait, rel=1e-9)
    assert not PTC.lets_restart(423.15, wait - 0.1, ROOM_K)
    assert PTC.lets_restart(423.15, wait + 0.1, ROOM_K)


def test_some_discs_never_let_it_restart():
    """Cracked, open, or in air above its switch temperature; a cold good one lets it at once."""
    assert CRACKED.restart_wait(423.15, ROOM_K) == OPEN.restart_wait(423.15, ROOM_K) == math.inf
    assert PTC.restart_wait(423.15, 400.0) == math.inf
    assert PTC.restart_wait(ROOM_K, ROOM_K) == 0.0
    assert CRACKED.restart_wait(423.15, ROOM_K, 40.0) == pytest.approx(PTC.restart_wait(423.15, ROOM_K, 10.0))
    assert PTC.restart_wait(423.15, ROOM_K, 30.0) < PTC.restart_wait(423.15, ROOM_K)


def test_an_open_disc_stays_cool():
    """No current, no heat: whatever product of infinite ohms and no amps is handed in."""
    assert OPEN.heated(ROOM_K, math.nan, 60.0, ROOM_K) == ROOM_K


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: replace(PTC, cold_ohm=0.0), "cold_ohm of the PTC is 0 Ω; it must be above 0 Ω and finite"),
        (lambda: replace(PTC, steepness_per_k=-0.1), "steepness_per_k of the PTC is -0.1 1/K; it must be above 0 1/K"),
        (lambda: replace(PTC, heat_capacity_j_per_k=math.nan), "heat_capacity_j_per_k of the PTC is nan J/K"),
        (lambda: replace(PTC, conductance_w_per_k=math.inf), "conductance_w_per_k of the PTC is inf W/K"),
        (lambda: replace(PTC, switch_k=120.0), "the switch temperature of the PTC is 120 K; it must be 200 K or more"),
        (
            lambda: replace(PTC, most_ohm=10.0),
            "most_ohm of the PTC is 10 Ω and cold_ohm 5 Ω; a PTC that switches more than doubles its resistance. "
            "Was it kΩ?",
        ),
        (lambda: PTC.temperature_at(5.0), "the resistance is 5 Ω; the PTC goes from 5 Ω to 12000 Ω"),
        (lambda: OPEN.temperature_at(50.0), "the resistance is 50 Ω; the PTC is open"),
        (lambda: PTC.heated(ROOM_K, -1.0, 1.0, ROOM_K), "the heat in the PTC is -1 W; it must be zero or more"),
        (lambda: PTC.heated(ROOM_K, 1.0, -1.0, ROOM_K), "the time that passes is -1 s; it must be zero or more"),
        (lambda: PTC.heated_at(ROOM_K, -1.0, 1.0, ROOM_K), "the voltage on the PTC is -1 V"),
        (lambda: PTC.heated_at(ROOM_K, 1.0, math.nan, ROOM_K), "the time that passes is nan s"),
        (lambda: PTC.switch_time(math.nan, ROOM_K, ROOM_K), "the voltage on the PTC is nan V"),
        (lambda: PTC.holding_watts(-1.0, ROOM_K), "the voltage on the PTC is -1 V"),
        (
            lambda: PTC.lets_restart(ROOM_K, 0.0, ROOM_K, 0.0),
            "the highest resistance that the motor starts with is 0 Ω; it must be above 0 Ω",
        ),
    ],
)
def test_what_is_refused(make, message):
    """Each message names the thing, its value and the rule."""
    with pytest.raises(InputError) as error:
        make()
    assert message in str(error.value)
