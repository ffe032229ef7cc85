"""Duty, cycles and a day: closed forms, and what is refused."""

from __future__ import annotations

import math
import re

import pytest

from coldwright.cabinet.energy import day_of, whole_cycles
from coldwright.cabinet.one_body import cycle_times, duty
from coldwright.cabinet.pull_down import Run, Start, capacity_line, run
from coldwright.cabinet.thermostat import Thermostat
from coldwright.errors import InputError
from tests.cabinet.cabinets import one_body

QUICK = Thermostat(279.15, 275.15, 0.0, 0.0)
HEAT = one_body(1.2, 30000.0, 4.0)
TAU = 30000.0 / 1.2
WARM_END, COLD_END = 298.15 + 4.0 / 1.2, 298.15 + (4.0 - 60.0) / 1.2


@pytest.fixture(scope="module")
def cycling() -> Run:
    """One body between 2 °C and 6 °C, 60 W of cold and 40 W of power while it runs."""
    start = Start(279.15, 279.15, 279.15)
    return run(HEAT, 298.15, start, capacity_line(60.0, 277.15), 86400.0, QUICK, 40.0)


def test_cycles_are_the_closed_form(cycling):
    """Seconds on and off, duty and starts of the record are those of tau ln[...] for one body, within 0.1 %."""
    on, off = cycle_times(279.15, 275.15, WARM_END, COLD_END, TAU)
    assert on == pytest.approx(TAU * math.log((279.15 - COLD_END) / (275.15 - COLD_END)), rel=1e-12)
    day = day_of(cycling)
    assert day.duty == pytest.approx(on / (on + off), rel=1e-3)
    assert day.starts == pytest.approx(86400.0 / (on + off), rel=1e-3)


def test_duty_is_load_over_capacity(cycling):
    """Over whole cycles what is taken out is what comes in: duty is the mean load at the mean air over the capacity."""
    day = day_of(cycling)
    load = 1.2 * (298.15 - day.air_k) + 4.0
    assert day.duty == pytest.approx(duty(load, 60.0), rel=2e-3)


def test_energy_is_duty_times_watts(cycling):
    """Constant 40 W while it runs: kWh a day are 0.96 times the duty."""
    day = day_of(cycling)
    assert day.kwh == pytest.approx(0.96 * day.duty, rel=1e-9)
    assert day.coldest_air_k == pytest.approx(275.15, abs=1e-3)
    assert day.air_k == pytest.approx(277.15, abs=0.1)


def test_whole_cycles_begin_and_end_with_a_start(cycling):
    """Sensor at cut-in at both ends, and nothing before what is left out."""
    began, ended = whole_cycles(cycling, 3600.0)
    assert began >= 3600.0
    for time in (began, ended):
        at = int(abs(cycling.time_s - time).argmin())
        assert cycling.air_k[at] == pytest.approx(279.15, abs=1e-3)


def test_one_that_never_stops_is_read_as_it_is():
    """No starts: the whole record, duty 1."""
    record = run(HEAT, 298.15, Start(298.15, 298.15, 298.15), capacity_line(20.0, 277.15), 86400.0, QUICK, 40.0)
    day = day_of(record, 3600.0)
    assert (day.duty, day.starts) == (pytest.approx(1.0), 0.0)
    assert day.kwh == pytest.approx(0.96, rel=1e-9)


def test_a_cabinet_that_cannot_reach_a_threshold():
    """Too little capacity never cuts out, a cold room never cuts in."""
    assert cycle_times(279.15, 275.15, WARM_END, 276.15, TAU)[0] == math.inf
    assert cycle_times(279.15, 275.15, 278.15, COLD_END, TAU)[1] == math.inf


def test_duty_by_hand():
    """30 W against 120 W is a quarter of the time; 150 W against 120 W cannot be held."""
    assert duty(30.0, 120.0) == 0.25
    assert duty(150.0, 120.0) > 1.0


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: duty(30.0, 0.12),
            "the capacity is 0.12 W; it must be from 1 to 20000 W. Was it in kW? 0.12 kW is 120 W",
        ),
        (lambda: duty(-1.0, 120.0), "the heat load is -1 W; it must be from 0 to 20000 W"),
        (
            lambda: cycle_times(275.15, 279.15, WARM_END, COLD_END, TAU),
            "the thermostat cuts in at 2.0 °C and out at 6.0 °C; it must cut in above. Were they swapped?",
        ),
        (lambda: cycle_times(279.15, 275.15, WARM_END, COLD_END, 0.0), "the time constant is 0 s; it must be from 1"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()


def test_too_short_a_record_is_refused(cycling):
    """An hour or more must be left."""
    with pytest.raises(InputError, match=r"^the record ends at 24\.0 h and is to be read from 23\.5 h on; an hour"):
        day_of(cycling, 23.5 * 3600.0)
