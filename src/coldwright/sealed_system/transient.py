"""A sealed system as time passes: steps of Heun's method whose length follows from their own error."""

from __future__ import annotations

from typing import NamedTuple

from coldwright.refrigerants.kernels import Tables, kernel
from coldwright.sealed_system.balance import at_once
from coldwright.sealed_system.plant import Around, Moment, Plant, State

LONGEST_S, SHORTEST_S = 30.0, 0.25
TOLERATED = 2e-3  # error of one step, in the scales below
PRESSURE_SCALE, SHELL_SCALE, ENTHALPY_SCALE = 1.0, 30.0, 2e4
LEAST_SIDE = 1e-4  # of the charge, on either side


class Step(NamedTuple):
    """A step of time done."""

    state: State
    error: float  # in units of what is tolerated
    after: Moment


class Taken(NamedTuple):
    """A step whose error is tolerated."""

    state: State
    after: Moment
    seconds: float
    length: float  # that a next step may have [s]


@kernel
def _moved(state: State, rates: State, seconds: float, charge: float) -> State:
    """A state carried on along its rates, with some of the charge left on both sides."""
    oil = max(0.0, state.oil_kg + seconds * rates.oil_kg)
    high = state.high_kg + seconds * rates.high_kg
    high = min((1.0 - LEAST_SIDE) * charge - oil, max(LEAST_SIDE * charge, high))
    return State(
        state.log_high + seconds * rates.log_high,
        state.log_low + seconds * rates.log_low,
        high,
        state.shell_k + seconds * rates.shell_k,
        state.return_h + seconds * rates.return_h,
        state.inlet_h + seconds * rates.inlet_h,
        oil,
    )


@kernel
def heun_step(tables: Tables, plant: Plant, around: Around, state: State, before: Moment, seconds: float) -> Step:
    """One step and its error: half the difference of the rates at both ends, times the step.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    around : Around
        What it stands in [-]
    state : State
        At the beginning [-]
    before : Moment
        What flows then [-]
    seconds : float
        Length of the step [s]

    Returns
    -------
    Step
        The new state, the error, and what flows at the end [-]
    """
    a = before.rates
    charge = around.charge_kg
    b = at_once(tables, plant, around, _moved(state, a, seconds, charge)).rates
    half = 0.5
    mean = State(
        half * (a.log_high + b.log_high),
        half * (a.log_low + b.log_low),
        half * (a.high_kg + b.high_kg),
        half * (a.shell_k + b.shell_k),
        half * (a.return_h + b.return_h),
        half * (a.inlet_h + b.inlet_h),
        half * (a.oil_kg + b.oil_kg),
    )
    error = abs(b.log_high - a.log_high) / PRESSURE_SCALE
    error = max(error, abs(b.log_low - a.log_low) / PRESSURE_SCALE)
    error = max(error, abs(b.high_kg - a.high_kg) / charge)
    error = max(error, abs(b.shell_k - a.shell_k) / SHELL_SCALE)
    error = max(error, abs(b.return_h - a.return_h) / ENTHALPY_SCALE)
    error = max(error, abs(b.inlet_h - a.inlet_h) / ENTHALPY_SCALE)
    new = _moved(state, mean, seconds, charge)
    return Step(new, half * seconds * error / TOLERATED, at_once(tables, plant, around, new))


@kernel
def next_length(seconds: float, error: float) -> float:
    """Length of the next step from the last one and its error.

    Parameters
    ----------
    seconds : float
        Length of the last step [s]
    error : float
        Of that step, in units of what is tolerated [-]

    Returns
    -------
    float
        Length [s]
    """
    wanted = seconds * 0.85 / max(0.05, error) ** 0.5
    return min(LONGEST_S, max(SHORTEST_S, min(2.0 * seconds, wanted)))


@kernel
def take_step(
    tables: Tables, plant: Plant, around: Around, state: State, now: Moment, length: float, left: float
) -> Taken:
    """A step as long as its error allows: what is too long is tried again, shorter.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    around : Around
        What it stands in [-]
    state : State
        At the beginning [-]
    now : Moment
        What flows then [-]
    length, left : float
        Length to begin with, and the most that it may be [s]

    Returns
    -------
    Taken
        The step [-]
    """
    while True:
        span = min(length, left)
        done = heun_step(tables, plant, around, state, now, span)
        if done.error <= 1.0 or span <= SHORTEST_S:
            if span == length or done.error > 0.5:
                length = next_length(span, done.error)
            return Taken(done.state, done.after, span, length)
        length = max(SHORTEST_S, min(0.5 * span, next_length(span, done.error)))


@kernel
def advance(
    tables: Tables, plant: Plant, around: Around, state: State, seconds: float, first: float
) -> tuple[State, float]:
    """The state after a span of time, and the length that a next step may have.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    around : Around
        What it stands in, the same all the time [-]
    state : State
        At the beginning [-]
    seconds : float
        How long [s]
    first : float
        Length of the first step [s]

    Returns
    -------
    tuple[State, float]
        State [-] and length of a next step [s]
    """
    passed, length = 0.0, first
    now = at_once(tables, plant, around, state)
    while passed < seconds - 1e-9:
        done = take_step(tables, plant, around, state, now, length, seconds - passed)
        passed += done.seconds
        state, now, length = done.state, done.after, done.length
    return state, length
