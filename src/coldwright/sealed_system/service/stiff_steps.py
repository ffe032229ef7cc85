"""Steps in time for equations in which some things settle in a moment and others in hours."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from coldwright.errors import InputError

Rates = Callable[[np.ndarray], np.ndarray]
_GAMMA = 1.0 - 1.0 / np.sqrt(2.0)
_MOST_STEPS = 20_000


def states_at(
    rates: Rates, start: np.ndarray, times: Sequence[float], floor: np.ndarray, share: float = 1e-3
) -> np.ndarray:
    """States at the times asked for, by a two-stage Rosenbrock method of second order with steps of its own choice.

    Parameters
    ----------
    rates : callable
        Change per second of a state [-]
    start : ndarray
        State at the first time, shape (n,) [any]
    times : sequence of float
        Times, rising [s]
    floor : ndarray
        Error allowed in each part of the state where it is near zero, shape (n,) [any]
    share : float
        Error allowed as a share of each part [-]

    Returns
    -------
    ndarray
        States, none below zero, shape (len(times), n) [any]

    Raises
    ------
    InputError
        If the times do not rise, or it takes too many steps.

    Notes
    -----
    J. G. Verwer et al., ROS2 (from memory); the tests hold it to closed forms and to scipy.
    """
    state, now = np.array(start, dtype=float), times[0]
    found = [state]
    step, steps = 1e-3, 0
    for target in times[1:]:
        if not target > now:
            raise InputError(f"the time {target:g} s follows {now:g} s; times must rise")
        while now < target:
            steps += 1
            if steps > _MOST_STEPS:
                raise InputError(f"no end after {_MOST_STEPS} steps, at {now:g} s; ask for a shorter time")
            tried = min(step, target - now)
            new, error = _one_step(rates, state, tried, floor, share)
            if error <= 1.0:
                state = np.maximum(new, 0.0)
                now = target if tried == target - now else now + tried
            wanted = tried * min(4.0, max(0.2, 0.8 / np.sqrt(max(error, 1e-6))))
            step = max(wanted, step) if error <= 1.0 and tried < step else wanted
        found.append(state)
    return np.array(found)


def _one_step(
    rates: Rates, state: np.ndarray, step: float, floor: np.ndarray, share: float
) -> tuple[np.ndarray, float]:
    here = rates(state)
    matrix = np.linalg.inv(np.eye(state.size) - _GAMMA * step * _slopes(rates, state, here, floor))
    first = matrix @ here
    second = matrix @ (rates(np.maximum(state + step * first, 0.0)) - 2.0 * first)
    new = state + step * (1.5 * first + 0.5 * second)
    off = 0.5 * step * (first + second) / (floor + share * np.maximum(np.abs(state), np.abs(new)))
    below = np.minimum(new, 0.0) / floor
    return new, float(max(np.sqrt(np.mean(off**2)), np.max(-below)))


def _slopes(rates: Rates, state: np.ndarray, here: np.ndarray, floor: np.ndarray) -> np.ndarray:
    slopes = np.empty((state.size, state.size))
    for place in range(state.size):
        moved = state.copy()
        by = 1e-8 * state[place] + 1e-5 * floor[place]
        moved[place] += by
        slopes[:, place] = (rates(moved) - here) / by
    return slopes
