"""How long a start takes to work out, beside scipy's general solver on the same equations, in one run.

    python docs/benchmarks/start_transient_against_scipy.py

A capacitor-start motor of 1/4 hp runs up to 75 % of the field's speed, its start winding opens at the next zero of its
current, and it runs on. scipy is given our own right-hand side, with that zero as an event, at three tolerances. Prints
times, their ratio and both final speeds. Exit 1 if the speeds are more than 1 rpm apart.
"""

from __future__ import annotations

import math
import statistics
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp

from coldwright.electrical.motor import synchronous_speed
from coldwright.electrical.motor_transient import _Machine, _switched, opens_at_speed, start
from coldwright.electrical.motor_types import Load, MotorParameters, MotorType, StartCircuit

RUNS = 5
SECONDS = 1.5
VOLTS = 110.0
LOAD = Load(0.0, 0.8 / 180.0**2)
CIRCUIT = StartCircuit(MotorType.CAPACITOR_START, start_farad=180e-6)
MOTOR = MotorParameters(2.02, 2.79, 4.12, 2.12, 66.8, 7.14, 3.22, 1.18, 60.0, 4, 1.46e-2, 24.0, 13.0)
CUT_OUT = 0.75 * synchronous_speed(MOTOR)
RPM = 30.0 / math.pi
WITHIN_RPM = 1.0


def ours() -> float:
    """Mean speed over the last cycle by the package [rad/s]."""
    return start(MOTOR, VOLTS, CIRCUIT, LOAD, opens_at_speed(CUT_OUT), SECONDS).settled()[0]


def scipys(tolerance: float) -> float:
    """The same by scipy's RK45 [rad/s]."""
    closed, opened = (
        _Machine(MOTOR, VOLTS, series, LOAD, 0.0) for series in (CIRCUIT.starting(60.0), CIRCUIT.running(60.0))
    )

    def current_zero(_time: float, state: np.ndarray) -> float:
        return closed.currents(state)[1] if state[4] >= CUT_OUT else 1.0

    current_zero.terminal = True  # type: ignore[attr-defined]
    settings = {"rtol": tolerance, "atol": tolerance * 1e-2}
    first = solve_ivp(closed.slope, (0.0, SECONDS), np.zeros(6), events=current_zero, **settings)
    i_q = closed.currents(first.y[:, -1])[3]
    begun = _switched(tuple(first.y[:, -1]), 0.0, i_q, opened)
    last = np.linspace(SECONDS - 1.0 / 60.0, SECONDS, 169)[:-1]
    second = solve_ivp(opened.slope, (first.t[-1], SECONDS), begun, t_eval=last, **settings)
    return float(second.y[4].mean())


def timed(solver: object, *arguments: float) -> tuple[float, float]:
    """Median wall time [s] and the speed found [rad/s]."""
    times = []
    for _ in range(RUNS):
        began = time.perf_counter()
        speed = solver(*arguments)  # type: ignore[operator]
        times.append(time.perf_counter() - began)
    return statistics.median(times), speed


def main() -> int:
    """Print the table; 0 if the speeds agree."""
    own_time, own_speed = timed(ours)
    print(f"{'ours, steps of 0.1 ms':<28} {own_time * 1000:7.0f} ms           {own_speed * RPM:9.3f} rpm")
    good = True
    for tolerance in (1e-4, 1e-6, 1e-8):
        taken, speed = timed(scipys, tolerance)
        good &= abs(speed - own_speed) * RPM < WITHIN_RPM
        name = f"scipy RK45, rtol {tolerance:g}"
        print(f"{name:<28} {taken * 1000:7.0f} ms  {taken / own_time:5.1f} × ours {speed * RPM:9.3f} rpm")
    print("same final speed" if good else f"final speeds are more than {WITHIN_RPM:g} rpm apart")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
