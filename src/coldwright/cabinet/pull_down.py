"""Pull-down: how air and food cool from a warm start, with the thermostat; and the closed form for one body."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from coldwright.cabinet.air import CabinetNumbers, air_rates, air_step, heat_gain, respiration, time_constants
from coldwright.cabinet.checks import KILOWATTS, MINUTES, check_between, check_temperature
from coldwright.cabinet.thermostat import (
    Thermostat,
    calls,
    check_thermostat,
    crossing_time,
    next_threshold,
    sensor_after,
    sensor_rate,
)

Line = Callable[[float], float]
MOST_STEP_S, MOST_RUN_S = 300.0, 30 * 86400.0
_LEAST_S = 1e-6


class Start(NamedTuple):
    """Temperatures of air, product and sensor [K], and whether the compressor runs, at the beginning."""

    air_k: float
    product_k: float
    sensor_k: float
    running: bool = True


@dataclass(frozen=True)
class Run:
    """What came of it, at the end of each step: times [s], temperatures [K], whether it ran, and sums.

    All arrays have shape (n,). Sums count from the start: heat taken out, heat that came in or was made inside [J],
    electric energy [J], time that it ran [s]. `starts` does not count a compressor that runs at the beginning.
    """

    time_s: np.ndarray
    air_k: np.ndarray
    product_k: np.ndarray
    sensor_k: np.ndarray
    running: np.ndarray
    taken_j: np.ndarray
    gained_j: np.ndarray
    energy_j: np.ndarray
    running_s: np.ndarray
    starts: int

    def time_to(self, product_k: float) -> float:
        """Time at which the product first falls to a temperature, inf if it does not [s].

        Parameters
        ----------
        product_k : float
            Temperature to reach [K]
        """
        return _first_below(self.time_s, self.product_k, product_k)

    def air_time_to(self, air_k: float) -> float:
        """Time at which the air first falls to a temperature, inf if it does not [s].

        Parameters
        ----------
        air_k : float
            Temperature to reach [K]
        """
        return _first_below(self.time_s, self.air_k, air_k)


def capacity_line(watts: float, at_k: float, per_k: float = 0.0) -> Line:
    """Capacity against the cabinet's air as a straight line, never below zero; stands in for a sealed system.

    Parameters
    ----------
    watts : float
        Heat taken out with the air at `at_k` [W]
    at_k : float
        Temperature of the air there [K]
    per_k : float
        How much more for each kelvin that the air is warmer [W/K]

    Returns
    -------
    callable
        Watts as a function of the air's temperature in kelvin [-]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    check_between("the capacity", watts, "W", 1.0, 20000.0, KILOWATTS)
    check_between("the growth of the capacity", per_k, "W/K", 0.0, 1000.0, KILOWATTS)
    check_temperature("the air that the capacity is given at", at_k)
    return lambda air_k: max(0.0, watts + per_k * (air_k - at_k))


def run(
    heat: CabinetNumbers,
    room_k: float,
    start: Start,
    capacity: Line,
    seconds: float,
    thermostat: Thermostat | None = None,
    input_w: Line | float = 0.0,
    step_s: float = 10.0,
) -> Run:
    """Cabinet over a time, the compressor switched by the thermostat at the very moment its sensor gets there.

    Parameters
    ----------
    heat : CabinetNumbers
        The cabinet [-]
    room_k : float
        Temperature of the room [K]
    start : Start
        State at the beginning [-]
    capacity : callable
        Watts taken out while it runs, as a function of the air's temperature in kelvin [-]
    seconds : float
        How long [s]
    thermostat : Thermostat or None
        The thermostat; with None the compressor stays as it is at the start [-]
    input_w : callable or float
        Electric power while it runs, as a function of the air's temperature or constant [W]
    step_s : float
        Longest step [s]

    Returns
    -------
    Run
        The record, its first entry the start [-]

    Raises
    ------
    InputError
        If a value is outside its span, or the step is too long for the cabinet.
    """
    _check_run(heat, room_k, start, seconds, thermostat, step_s)
    power = input_w if callable(input_w) else _constant(input_w)
    air, product, sensor, running = start
    stopped_s = math.inf
    now = taken = gained = energy = running_s = 0.0
    starts = 0
    rows = [(now, air, product, sensor, float(running), taken, gained, energy, running_s)]
    while now < seconds - _LEAST_S:
        if thermostat is not None and calls(running, sensor, stopped_s + _LEAST_S, thermostat) != running:
            running = not running
            stopped_s = 0.0
            starts += running
        step = min(step_s, seconds - now)
        resting = 0.0 if thermostat is None or running else thermostat.rest_s - stopped_s
        if resting > _LEAST_S:
            step = min(step, resting)
        watts = _settled_capacity(heat, room_k, air, product, capacity, step) if running else 0.0
        end = _stepped(heat, room_k, air, product, sensor, watts, step, thermostat)
        if thermostat is not None and resting <= _LEAST_S:
            step, end = _cut_short(heat, room_k, (air, product, sensor), end, watts, step, running, thermostat)
        middle = 0.5 * (air + end[0])
        on = step if running else 0.0
        taken, energy, running_s = taken + watts * step, energy + power(middle) * on, running_s + on
        gained += 0.5 * step * (_gain(heat, room_k, air, product) + _gain(heat, room_k, end[0], end[1]))
        (air, product, sensor), now = end, now + step
        stopped_s += step
        rows.append((now, air, product, sensor, float(running), taken, gained, energy, running_s))
    columns = np.array(rows).T
    times, airs, products, sensors, ran, took, came, used, on_s = columns
    return Run(times, airs, products, sensors, ran > 0.5, took, came, used, on_s, starts)


def _constant(watts: float) -> Line:
    check_between("the electric power", watts, "W", 0.0, 20000.0, KILOWATTS)
    return lambda _air_k: watts


def _settled_capacity(
    heat: CabinetNumbers, room_k: float, air: float, product: float, capacity: Line, step: float
) -> float:
    """Capacity in the middle of the step, so that the error is of the second power of the step."""
    rate = air_rates(air, product, room_k, capacity(air), heat)[0]
    return capacity(air + 0.5 * step * rate)


def _stepped(
    heat: CabinetNumbers,
    room_k: float,
    air: float,
    product: float,
    sensor: float,
    watts: float,
    step: float,
    thermostat: Thermostat | None,
) -> tuple[float, float, float]:
    new_air, new_product = air_step(air, product, room_k, watts, heat, step)
    lag = 0.0 if thermostat is None else thermostat.sensor_s
    return new_air, new_product, sensor_after(sensor, air, (new_air - air) / step, step, lag)


def _cut_short(
    heat: CabinetNumbers,
    room_k: float,
    before: tuple[float, float, float],
    after: tuple[float, float, float],
    watts: float,
    step: float,
    running: bool,
    thermostat: Thermostat,
) -> tuple[float, tuple[float, float, float]]:
    """The step up to the moment of switching, and the state then; the whole step where nothing switches."""
    threshold = next_threshold(running, thermostat)
    if (after[2] > threshold) if running else (after[2] < threshold):
        return step, after
    rates = [_sensor_rate(heat, room_k, state, watts, thermostat.sensor_s) for state in (before, after)]
    part = max(_LEAST_S, crossing_time(before[2], rates[0], after[2], rates[1], step, threshold))
    if part >= step:
        return step, after
    air, product, _ = _stepped(heat, room_k, *before, watts, part, thermostat)
    return part, (air, product, threshold)


def _sensor_rate(
    heat: CabinetNumbers, room_k: float, state: tuple[float, float, float], watts: float, lag: float
) -> float:
    air, product, sensor = state
    return sensor_rate(sensor, air, lag) if lag > 0.0 else air_rates(air, product, room_k, watts, heat)[0]


def _gain(heat: CabinetNumbers, room_k: float, air: float, product: float) -> float:
    return heat_gain(air, room_k, heat) + respiration(product, heat)


def _check_run(
    heat: CabinetNumbers, room_k: float, start: Start, seconds: float, thermostat: Thermostat | None, step_s: float
) -> None:
    check_temperature("the room", room_k)
    for name, kelvin in zip(("air", "food", "sensor"), start[:3], strict=True):
        check_temperature(f"the temperature of the {name} at the start", kelvin, 223.15, 373.15)
    check_between("the time to run", seconds, "s", 1.0, MOST_RUN_S, MINUTES)
    shortest = time_constants(heat)[0]
    check_between("the step", step_s, "s", 1e-3, min(MOST_STEP_S, shortest))
    if thermostat is not None:
        check_thermostat(thermostat)


def _first_below(times: np.ndarray, values: np.ndarray, wanted: float) -> float:
    below = np.flatnonzero(values <= wanted)
    if not below.size:
        return math.inf
    i = int(below[0])
    if i == 0:
        return float(times[0])
    share = (values[i - 1] - wanted) / (values[i - 1] - values[i])
    return float(times[i - 1] + share * (times[i] - times[i - 1]))
