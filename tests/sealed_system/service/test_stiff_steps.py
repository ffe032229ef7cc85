"""The stepper against closed forms and against scipy."""

from __future__ import annotations

import numpy as np
import pytest

from coldwright.errors import InputError
from coldwright.sealed_system.service.stiff_steps import states_at

FLOOR = np.array([1e-9])


def test_exponential_decay():
    """x' = -x/τ is exp(-t/τ) within the error asked for."""
    found = states_at(lambda x: -x / 50.0, np.array([3.0]), [0.0, 10.0, 100.0], FLOOR, share=1e-4)

    assert found[:, 0] == pytest.approx([3.0, 3.0 * np.exp(-0.2), 3.0 * np.exp(-2.0)], rel=2e-3)


def test_fast_and_slow_together_agree_with_scipy():
    """Two parts, one settles a million times faster: the same as scipy's BDF within 0.5 %."""
    from scipy.integrate import solve_ivp

    def rates(x):
        return np.array([1e3 * (x[1] ** 2 - x[0]), -1e-3 * x[0] * x[1]])

    times = [0.0, 0.01, 1.0, 500.0, 3000.0]
    other = solve_ivp(lambda _t, x: rates(x), (0, 3000), [5.0, 2.0], "BDF", times, rtol=1e-8, atol=1e-10).y.T
    found = states_at(rates, np.array([5.0, 2.0]), times, np.array([1e-6, 1e-6]), share=1e-4)

    assert found == pytest.approx(other, rel=5e-3)


def test_halving_the_error_converges():
    """A tighter share comes nearer to the closed form 1/(1/x0 + t) of x' = -x²."""
    exact = 1 / (1 / 10.0 + 100.0)
    off = [
        abs(states_at(lambda x: -(x**2), np.array([10.0]), [0.0, 100.0], FLOOR, share=s)[-1, 0] - exact)
        for s in (1e-2, 1e-4)
    ]
    assert off[1] < off[0] / 5
    assert off[1] < 1e-3 * exact


def test_nothing_goes_below_zero():
    """What runs out stays at zero."""
    found = states_at(lambda x: np.where(x > 0, -1.0, 0.0), np.array([1.0]), [0.0, 0.5, 5.0], np.array([1e-3]))
    assert np.all(found >= 0)
    assert found[-1, 0] == pytest.approx(0.0, abs=2e-3)


def test_times_must_rise():
    """The message names both times."""
    with pytest.raises(InputError, match=r"^the time 1 s follows 1 s; times must rise$"):
        states_at(lambda x: -x, np.array([1.0]), [0.0, 1.0, 1.0], FLOOR)


def test_a_difference_that_is_all_but_gone_takes_few_steps():
    """Two vessels joined by a wide tube, gas coming into one: the difference is tiny, the steps long all the same."""
    calls = [0]

    def rates(x):
        calls[0] += 1
        flow = 100.0 * (x[0] - x[1])
        return np.array([0.01 - flow * (1.0 if flow > 0 else 0.2), flow * (1.0 if flow > 0 else 0.2)])

    found = states_at(rates, np.array([2000.0, 2000.0]), [0.0, 5000.0], np.array([0.02, 0.02]))
    assert found[-1] == pytest.approx([2025.0, 2025.0], abs=0.01)
    assert calls[0] < 500
