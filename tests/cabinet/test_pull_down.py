"""Pull-down: closed form of one body, heat balance, halved steps, switching, and what is refused."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from coldwright.cabinet.air import product_heat
from coldwright.cabinet.cabinet import cabinet_numbers
from coldwright.cabinet.one_body import lumped_time
from coldwright.cabinet.pull_down import Run, Start, capacity_line, run
from coldwright.cabinet.thermostat import Thermostat
from coldwright.errors import InputError
from tests.cabinet.cabinets import COOLER, INSIDE, ROOM, THERMOSTAT, one_body

HEAT = cabinet_numbers(COOLER, ROOM, INSIDE)
WARM = Start(298.15, 298.15, 298.15)
LINE = capacity_line(150.0, 277.15, 3.0)
DAY = 86400.0


def a_day(step_s: float) -> Run:
    """The small cooler from warm, a day long."""
    return run(HEAT, 298.15, WARM, LINE, DAY, THERMOSTAT, lambda air: 100.0 + 0.5 * (air - 277.15), step_s)


@pytest.fixture(scope="module")
def day() -> Run:
    """At steps of 10 s."""
    return a_day(10.0)


@pytest.mark.parametrize("step_s", [10.0, 60.0])
def test_constant_capacity_is_the_closed_form(step_s):
    """From 25 °C to 5 °C with 60 W against 1.2 W/K and 4 W inside: tau ln[(T0 - T)/(T1 - T)], within a second."""
    record = run(one_body(1.2, 60000.0, 4.0), 298.15, WARM, capacity_line(60.0, 277.15), 10 * 3600.0, step_s=step_s)
    settles = 298.15 - 56.0 / 1.2
    by_hand = 50000.0 * math.log((298.15 - settles) / (278.15 - settles))
    assert record.air_time_to(278.15) == pytest.approx(by_hand, abs=1.0)
    assert lumped_time(298.15, 278.15, 298.15, 1.2, 60000.0, 56.0) == pytest.approx(by_hand, rel=1e-12)


def test_a_capacity_line_is_a_larger_conductance():
    """Capacity a + b (T - T1) acts as b more W/K: the closed form with UA + b, within a second."""
    record = run(one_body(1.2, 60000.0), 298.15, WARM, capacity_line(60.0, 278.15, 2.0), 10 * 3600.0, step_s=10.0)
    both = 1.2 + 2.0
    settles = (1.2 * 298.15 + 2.0 * 278.15 - 60.0) / both
    by_hand = 60000.0 / both * math.log((298.15 - settles) / (278.15 - settles))
    assert record.air_time_to(278.15) == pytest.approx(by_hand, abs=1.0)


def test_the_heat_adds_up(day):
    """What came in less what was taken out is what is stored at the end, to 1e-6 of what was taken out."""
    stored = HEAT.air_j_per_k * (day.air_k[-1] - 298.15)
    stored += product_heat(day.product_k[-1], HEAT) - product_heat(298.15, HEAT)
    assert day.gained_j[-1] - day.taken_j[-1] == pytest.approx(stored, abs=1e-6 * day.taken_j[-1])


def test_halving_the_step_changes_a_day_by_less_than_one_per_cent(figure):
    """Energy of a day at 30 s, 10 s and 5 s: the issue asks for 1 %; located switching keeps it below 0.05 %."""
    joules = [a_day(step).energy_j[-1] for step in (30.0, 15.0, 10.0, 5.0)]
    figure("cabinet: energy of a day, 10 s against 5 s", f"{100 * abs(joules[2] / joules[3] - 1):.4f} %")
    assert joules[0] == pytest.approx(joules[1], rel=5e-4)
    assert joules[2] == pytest.approx(joules[3], rel=5e-4)


def test_it_switches_at_the_thresholds(day):
    """Whenever it stops the sensor is at cut-out, whenever it starts at cut-in, to a thousandth of a kelvin."""
    change = np.flatnonzero(np.diff(day.running.astype(int)))
    stops = change[day.running[change]]
    starts = change[~day.running[change]]
    assert len(stops) > 10
    assert day.sensor_k[stops] == pytest.approx(THERMOSTAT.cut_out_k, abs=1e-3)
    assert day.sensor_k[starts] == pytest.approx(THERMOSTAT.cut_in_k, abs=1e-3)
    assert day.starts == len(starts)


def test_the_air_swings_wider_than_the_thermostat(day):
    """The sensor lags: the air falls below cut-out and rises above cut-in; the product swings less than the air."""
    settled = day.time_s > 0.5 * DAY
    air, product = day.air_k[settled], day.product_k[settled]
    assert air.min() < THERMOSTAT.cut_out_k
    assert air.max() > THERMOSTAT.cut_in_k
    assert np.ptp(product) < np.ptp(air)


def test_the_product_is_later_than_the_air(day):
    """Air at 5 °C says nothing of the food: the product takes hours longer."""
    assert day.time_to(278.15) > 3 * day.air_time_to(278.15)


def test_the_rest_is_kept():
    """A thermostat with a narrow band and a rest of 20 min never starts sooner after a stop."""
    narrow = Thermostat(277.65, 277.15, 10.0, 1200.0)
    record = run(HEAT, 298.15, Start(277.5, 277.5, 277.5), LINE, 6 * 3600.0, narrow)
    change = np.flatnonzero(np.diff(record.running.astype(int)))
    times = record.time_s[change]
    off = [b - a for i, a, b in zip(change, times, times[1:], strict=False) if record.running[i]]
    assert len(off) >= 3
    assert min(off) == pytest.approx(1200.0, abs=1e-3)


def test_too_little_capacity_never_gets_there():
    """Where the load is above the capacity the time is inf, in the record as in the closed form."""
    record = run(one_body(1.2, 60000.0), 298.15, WARM, capacity_line(10.0, 277.15), DAY, step_s=60.0)
    assert record.air_time_to(278.15) == math.inf
    assert lumped_time(298.15, 278.15, 298.15, 1.2, 60000.0, 10.0) == math.inf


def test_a_stopped_compressor_lets_it_warm_up():
    """Without a thermostat a compressor that stands stays so, and the air comes to the room's temperature."""
    record = run(one_body(), 298.15, Start(278.15, 278.15, 278.15, False), LINE, DAY, step_s=60.0)
    assert not record.running.any()
    assert record.air_k[-1] == pytest.approx(298.15, abs=1e-5)
    assert record.energy_j[-1] == 0.0


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: capacity_line(0.15, 277.15),
            "the capacity is 0.15 W; it must be from 1 to 20000 W. Was it in kW? 0.15 kW is 150 W",
        ),
        (
            lambda: run(HEAT, 77.0, WARM, LINE, DAY),
            "the room is 77 K (-196 °C); it must be from -50 °C to 60 °C. Was it in °F? 77 °F is 298.15 K",
        ),
        (lambda: run(HEAT, 298.15, WARM, LINE, 0.5), "the time to run is 0.5 s; it must be from 1 to 2.592e+06 s. Was"),
        (
            lambda: run(HEAT, 298.15, WARM, LINE, DAY, step_s=600.0),
            "the step is 600 s; it must be from 0.001 to 300 s",
        ),
        (
            lambda: run(HEAT, 298.15, WARM, LINE, DAY, input_w=-1.0),
            "the electric power is -1 W; it must be from 0 to 20000 W",
        ),
        (
            lambda: run(HEAT, 298.15, Start(25.0, 298.15, 298.15), LINE, DAY),
            "the temperature of the air at the start is 25 K (-248 °C)",
        ),
        (lambda: lumped_time(298.15, 278.15, 298.15, 0.0, 6e4, 60.0), "the conductance is 0 W/K; it must be from"),
        (lambda: lumped_time(298.15, 278.15, 298.15, 1.0, 0.0, 60.0), "the heat capacity is 0 J/K; it must be from"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()
