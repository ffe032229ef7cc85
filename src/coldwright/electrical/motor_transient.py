r"""A motor's start in time: currents, torque and speed by a two-axis (dq) model that stands still with the stator.

Run winding on the d axis, start winding on the q axis, the cage as two coils on the same axes. With flux linkages
:math:`\lambda` and the rotor's electrical speed :math:`\omega_r` (forward is from q to d):

.. math:: \dot\lambda_r = v - R_r i_r, \quad \dot\lambda_s = v - v_C - R_s i_s, \quad \dot v_C = i_s / C

.. math:: \dot\lambda_d = -R_2 i_d + \omega_r \lambda_q, \quad \dot\lambda_q = -R_2 i_q - \omega_r \lambda_d, \quad
          T = (p/2)(\lambda_d i_q - \lambda_q i_d)

It is the same machine as in `motor`: left to run, it settles on that module's phasors.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from coldwright.electrical.motor import drag_torque
from coldwright.electrical.motor_types import Load, MotorParameters, StartCircuit
from coldwright.errors import InputError
from coldwright.quantities.checks import check_number, check_positive

LONGEST_STEP_S = 1e-4
MOST_SECONDS = 60.0
STABLE = 2.5  # rate times step that the method still follows; it breaks at 2.78
State = tuple[float, float, float, float, float, float]
"""Flux linkages of run, start, rotor d, rotor q [Wb]; speed [rad/s]; volts on the capacitor [V]."""
Rule = Callable[[float, float, float, bool], bool]
"""Whether the start device conducts, from time [s], speed [rad/s], coil amps over the last half cycle, and as it is."""


def opens_at_speed(speed: float) -> Rule:
    """Rule of a start device that opens once and for all at a speed, as a centrifugal switch does.

    Parameters
    ----------
    speed : float
        Mechanical speed [rad/s]

    Returns
    -------
    Rule
        To hand to `start` [-]
    """
    return lambda _time, now, _amps, closed: closed and now < speed


def current_relay(pick_up_a: float, drop_out_a: float) -> Rule:
    """Rule of a relay whose coil lies in the run winding: closes at one current, opens at a lower one.

    Parameters
    ----------
    pick_up_a : float
        Coil current that pulls the contact in, RMS [A]
    drop_out_a : float
        Coil current at which it falls back, RMS [A]

    Returns
    -------
    Rule
        To hand to `start` [-]
    """
    if not 0 < drop_out_a < pick_up_a:
        raise InputError(
            f"the relay drops out at {drop_out_a:g} A and picks up at {pick_up_a:g} A; drop-out must be above 0 A and "
            "below pick-up. Were they swapped?"
        )
    return lambda _time, _speed, amps, closed: amps >= (drop_out_a if closed else pick_up_a)


class _Machine:
    """The equations with their constants worked out; `closed` says whether the start winding carries current."""

    def __init__(self, params: MotorParameters, volts: float, series: complex | None, load: Load, phase: float) -> None:
        omega = 2.0 * math.pi * params.frequency_hz
        a, mutual = params.turns_ratio, params.magnetising_ohm / omega
        self.rotor_self = params.rotor_leakage_ohm / omega + mutual
        self.closed = series is not None
        outside = series or 0j
        self.elastance = max(-outside.imag, 0.0) * omega  # one over the capacitance; 0 without a capacitor
        added = max(outside.imag, 0.0) / omega
        run_self = params.run_leakage_ohm / omega + mutual
        start_self = params.start_leakage_ohm / omega + a * a * mutual + added
        self.start_self, self.start_mutual = start_self, a * mutual
        det_d = run_self * self.rotor_self - mutual * mutual
        det_q = start_self * self.rotor_self - self.start_mutual**2
        self.run_inverse = (self.rotor_self / det_d, mutual / det_d, run_self / det_d)
        self.start_inverse = (self.rotor_self / det_q, self.start_mutual / det_q, start_self / det_q)
        self.run_ohm, self.start_ohm = params.run_ohm, params.start_ohm + outside.real
        self.params, self.load = params, load
        self.peak, self.omega, self.phase = math.sqrt(2.0) * volts, omega, phase
        self.pairs = params.poles / 2.0

    def fastest(self) -> float:
        """About the highest rate at which the start branch changes [1/s]."""
        own = self.start_inverse[0]
        return max(self.start_ohm * own, math.sqrt(self.elastance * own)) if self.closed else 0.0

    def currents(self, state: State) -> tuple[float, float, float, float]:
        """Currents of run, start, rotor d and rotor q."""
        run, start, rotor_d, rotor_q, _, _ = state
        own, cross, other = self.run_inverse
        i_run, i_d = own * run - cross * rotor_d, other * rotor_d - cross * run
        if not self.closed:
            return i_run, 0.0, i_d, rotor_q / self.rotor_self
        own, cross, other = self.start_inverse
        return i_run, own * start - cross * rotor_q, i_d, other * rotor_q - cross * start

    def torque(self, state: State, i_d: float, i_q: float) -> float:
        """Torque in the air gap."""
        return self.pairs * (state[2] * i_q - state[3] * i_d)

    def acceleration(self, speed: float, torque: float) -> float:
        """Drag and load brake either way; at standstill they hold up to their size."""
        free = torque - drag_torque(self.params, speed)
        brake = self.load.torque(speed)
        if speed == 0.0 and abs(free) <= brake:
            return 0.0
        way = speed if speed != 0.0 else free
        return (free - math.copysign(brake, way)) / self.params.inertia_kg_m2

    def slope(self, time: float, state: State) -> State:
        """Rate of change of each state."""
        _, _, rotor_d, rotor_q, speed, volts = state
        i_run, i_start, i_d, i_q = self.currents(state)
        supply = self.peak * math.sin(self.omega * time + self.phase)
        turning, rotor_ohm = self.pairs * speed, self.params.rotor_ohm
        return (
            supply - self.run_ohm * i_run,
            supply - volts - self.start_ohm * i_start if self.closed else 0.0,
            turning * rotor_q - rotor_ohm * i_d,
            -turning * rotor_d - rotor_ohm * i_q,
            self.acceleration(speed, self.torque(state, i_d, i_q)),
            self.elastance * i_start,
        )

    def step(self, time: float, state: State, seconds: float) -> State:
        """One step of the classical fourth-order Runge-Kutta method."""
        half = 0.5 * seconds
        k1 = self.slope(time, state)
        k2 = self.slope(time + half, _moved(state, k1, half))
        k3 = self.slope(time + half, _moved(state, k2, half))
        k4 = self.slope(time + seconds, _moved(state, k3, seconds))
        sixth = seconds / 6.0
        new = [s + sixth * (a + 2.0 * (b + c) + d) for s, a, b, c, d in zip(state, k1, k2, k3, k4, strict=True)]
        if state[4] * new[4] < 0 and abs(self.torque(state, *self.currents(state)[2:])) <= self.load.constant:
            new[4] = 0.0  # the load catches the rotor where it turns round
        return new[0], new[1], new[2], new[3], new[4], new[5]


def _moved(state: State, slope: State, seconds: float) -> State:
    a, b, c, d, e, f = state
    p, q, r, s, t, u = slope
    return (a + seconds * p, b + seconds * q, c + seconds * r, d + seconds * s, e + seconds * t, f + seconds * u)


@dataclass(frozen=True)
class Start:
    """A start in time, arrays of one length: s, rad/s, N·m, A, A, V, A over the last half cycle, closed or not."""

    time: np.ndarray
    speed: np.ndarray
    torque: np.ndarray
    run_current: np.ndarray
    start_current: np.ndarray
    capacitor_volts: np.ndarray
    coil_rms: np.ndarray
    closed: np.ndarray
    half_cycle: int

    @property
    def opened_at(self) -> float | None:
        """Time at which the start device opened for the first time [s], if it did."""
        opened = np.flatnonzero(~self.closed)
        return float(self.time[opened[0]]) if opened.size else None

    def settled(self) -> tuple[float, float, float]:
        """Mean speed and RMS current of run and start winding over the last cycle.

        Returns
        -------
        tuple of float
            Speed, run current, start current [rad/s, A, A]
        """
        last = slice(-2 * self.half_cycle, None)
        run, start = (math.sqrt(float(np.mean(i[last] ** 2))) for i in (self.run_current, self.start_current))
        return float(np.mean(self.speed[last])), run, start


def start(
    params: MotorParameters,
    volts: float,
    circuit: StartCircuit,
    load: Load,
    rule: Rule,
    seconds: float,
    closed: bool = True,
    phase: float = 0.0,
) -> Start:
    """Run-up of a motor from standstill, step by step.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    volts : float
        Supply, RMS, positive [V]
    circuit : StartCircuit
        What feeds the start winding, while starting and after [-]
    load : Load
        What hangs on the shaft [-]
    rule : Rule
        Whether the start device conducts: `opens_at_speed`, `current_relay` or one's own [-]
    seconds : float
        How long to go on, at most 60 [s]
    closed : bool
        Whether the start device conducts as the supply comes on [-]
    phase : float
        Angle of the supply's sine as it comes on [rad]

    Returns
    -------
    Start
        Arrays of shape (n,) [-]

    Raises
    ------
    InputError
        If the voltage or the time is out of range, or the start branch is too stiff.

    Notes
    -----
    Fixed step of at most 0.1 ms, a whole number of them to the half cycle. Opening waits for the current's zero. A
    circuit that keeps its run capacitor keeps the voltage on it. No saturation: the first current peaks of a real motor
    are higher.
    """
    _check(volts, seconds)
    frequency = params.frequency_hz
    half_cycle = math.ceil(0.5 / frequency / LONGEST_STEP_S)
    width = 0.5 / frequency / half_cycle
    machines = {
        True: _Machine(params, volts, circuit.starting(frequency), load, phase),
        False: _Machine(params, volts, circuit.running(frequency), load, phase),
    }
    if max(machine.fastest() for machine in machines.values()) * width > STABLE:
        raise InputError(
            f"the start winding has {circuit.starting(frequency):.3g} Ω in series: too much for this model; above some "
            "400 Ω, or below 0.1 µF, take it as open"
        )
    state: State = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    squares, total, before = [0.0] * half_cycle, 0.0, 0.0
    rows = []
    for number in range(round(seconds / width) + 1):
        time, machine = number * width, machines[closed]
        i_run, i_start, i_d, i_q = machine.currents(state)
        slot = number % half_cycle
        total += i_run * i_run - squares[slot]
        squares[slot] = i_run * i_run
        amps = math.sqrt(max(total, 0.0) / half_cycle)
        rows.append((time, state[4], machine.torque(state, i_d, i_q), i_run, i_start, state[5], amps, closed))
        wanted = rule(time, state[4], amps, closed)
        if wanted is not closed and (wanted or i_start * before <= 0.0):
            state, closed = _switched(state, i_start, i_q, machines[wanted]), wanted
        before = i_start
        state = machines[closed].step(time, state, width)
    time_s, speed, made, run, branch, on_capacitor, coil, held = np.array(rows).T
    return Start(time_s, speed, made, run, branch, on_capacitor, coil, held.astype(bool), half_cycle)


def _switched(state: State, start_current: float, rotor_current: float, onto: _Machine) -> State:
    """The start winding's flux with the same currents in the other circuit."""
    run, _, rotor_d, rotor_q, speed, volts = state
    flux = onto.start_self * start_current + onto.start_mutual * rotor_current
    return run, flux, rotor_d, rotor_q, speed, volts


def _check(volts: float, seconds: float) -> None:
    check_positive("the supply of the motor", volts, "V")
    check_number("the time of the start", seconds)
    if not 0 < seconds <= MOST_SECONDS:
        raise InputError(
            f"a start of {seconds:g} s is asked for; it must be above 0 s and at most {MOST_SECONDS:g} s. "
            "Are they milliseconds?"
        )
