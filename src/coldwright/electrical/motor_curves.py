"""What a motor does against speed, by phasors: currents and torque, locked rotor, speed at a load, highest torque."""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import Any, cast

import numpy as np

from coldwright.electrical.motor import currents, drag_torque, slip_of, synchronous_speed, torque
from coldwright.electrical.motor_types import Load, MotorParameters, StartCircuit
from coldwright.errors import InputError
from coldwright.quantities.checks import check_phasor

POINTS = 400  # speeds at which a curve is looked through for its highest and lowest torque
HALVINGS = 60  # of an interval of speed: far below what a float can tell apart


@dataclass(frozen=True)
class Curves:
    """Arrays of one length against speed in rad/s: currents in A as RMS phasors, torques in N·m."""

    speed: np.ndarray
    run_current: np.ndarray
    start_current: np.ndarray
    air_gap_torque: np.ndarray
    shaft_torque: np.ndarray

    @property
    def line_current(self) -> np.ndarray:
        """Current that both windings draw together."""
        return self.run_current + self.start_current


def curves(params: MotorParameters, volts: float, start_impedance: complex | None, speeds: np.ndarray) -> Curves:
    """Currents and torque against speed with one start circuit.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    volts : float
        Supply, RMS [V]
    start_impedance : complex, optional
        In series with the start winding; none is open [Ω]
    speeds : ndarray
        Mechanical speeds, shape (n,) [rad/s]

    Returns
    -------
    Curves
        Arrays of shape (n,) [-]
    """
    speeds = np.asarray(speeds, dtype=float)
    slips = cast(Any, slip_of(params, cast(Any, speeds)))
    run, start = currents(params, volts, slips, start_impedance)
    gap = torque(params, slips, run, start)
    drag = np.array([drag_torque(params, float(speed)) for speed in speeds])
    return Curves(speeds, *map(np.asarray, (run, start, gap, gap - drag)))


def run_up(
    params: MotorParameters, volts: float, circuit: StartCircuit, open_above: float, speeds: np.ndarray
) -> Curves:
    """Currents and torque against speed through a start: the start circuit up to a speed, the running one above it.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    volts : float
        Supply, RMS [V]
    circuit : StartCircuit
        What feeds the start winding [-]
    open_above : float
        Speed at which the start device opens [rad/s]
    speeds : ndarray
        Mechanical speeds, shape (n,) [rad/s]

    Returns
    -------
    Curves
        Arrays of shape (n,) [-]
    """
    before = curves(params, volts, circuit.starting(params.frequency_hz), speeds)
    after = curves(params, volts, circuit.running(params.frequency_hz), speeds)
    closed = before.speed < open_above
    names = ("run_current", "start_current", "air_gap_torque", "shaft_torque")
    return Curves(before.speed, *(np.where(closed, getattr(before, n), getattr(after, n)) for n in names))


@dataclass(frozen=True)
class Starting:
    """Currents at standstill in A, the angle by which the start current leads in rad, and I_r·I_s·sin of it in A²."""

    run_current: complex
    start_current: complex
    line_current: complex
    angle: float
    torque_product: float


def starting(run_impedance: complex, start_impedance: complex, volts: float) -> Starting:
    """Currents at standstill and the product that the starting torque follows.

    Parameters
    ----------
    run_impedance : complex
        Run winding at standstill [Ω]
    start_impedance : complex
        Start winding at standstill with all that lies in series with it [Ω]
    volts : float
        Supply, RMS [V]

    Returns
    -------
    Starting
        Currents, angle and product [-]

    Raises
    ------
    InputError
        If an impedance is zero.

    References
    ----------
    .. [1] C. I. Hubert, *Electric Machines*, Examples 6.1 and 6.2 (read in a textbook companion).
    """
    for name, impedance in (("run", run_impedance), ("start", start_impedance)):
        check_phasor(f"the impedance of the {name} winding", impedance, "Ω")
        if not abs(impedance) > 0:
            raise InputError(f"the impedance of the {name} winding is {abs(impedance):g} Ω; it must be above 0 Ω")
    run, start = volts / run_impedance, volts / start_impedance
    angle = cmath.phase(start * run.conjugate())
    return Starting(run, start, run + start, angle, abs(run) * abs(start) * math.sin(angle))


@dataclass(frozen=True)
class LockedRotor:
    """Currents in A and torque in N·m with the rotor held."""

    run_current: complex
    start_current: complex
    line_current: complex
    torque: float


def locked_rotor(params: MotorParameters, volts: float, start_impedance: complex | None) -> LockedRotor:
    """Currents and torque with the rotor held.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    volts : float
        Supply, RMS [V]
    start_impedance : complex, optional
        In series with the start winding; none is open [Ω]

    Returns
    -------
    LockedRotor
        Currents and torque [-]
    """
    run, start = currents(params, volts, 1.0, start_impedance)
    return LockedRotor(run, start, run + start, torque(params, 1.0, run, start))


@dataclass(frozen=True)
class TorqueRange:
    """Highest torque of the shaft, and the lowest on the way up to it; N·m, and rad/s where they lie."""

    breakdown: float
    breakdown_speed: float
    pull_up: float
    pull_up_speed: float


def torque_range(curve: Curves) -> TorqueRange:
    """Breakdown and pull-up torque of a curve that begins at standstill.

    Parameters
    ----------
    curve : Curves
        Torque against rising speed, from 0 up to the field's speed [-]

    Returns
    -------
    TorqueRange
        To the nearest point of the curve [-]

    Notes
    -----
    Breakdown is taken as the highest torque above half the highest speed of the curve: with a start circuit in, the
    torque at standstill may be higher still.
    """
    shaft, speed = curve.shaft_torque, curve.speed
    upper = int(np.searchsorted(speed, 0.5 * speed[-1]))
    top = upper + int(np.argmax(shaft[upper:]))
    low = int(np.argmin(shaft[: top + 1]))
    return TorqueRange(float(shaft[top]), float(speed[top]), float(shaft[low]), float(speed[low]))


def speed_at_load(params: MotorParameters, volts: float, load: Load, start_impedance: complex | None = None) -> float:
    """Highest speed at which the motor carries a load.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    volts : float
        Supply, RMS [V]
    load : Load
        What hangs on the shaft [-]
    start_impedance : complex, optional
        In series with the start winding; none is open [Ω]

    Returns
    -------
    float
        Mechanical speed [rad/s]

    Raises
    ------
    InputError
        If the motor carries this load at no speed: it stalls.
    """

    def left_over(speed: float) -> float:
        slip = slip_of(params, speed)
        made = torque(params, slip, *currents(params, volts, slip, start_impedance))
        return made - drag_torque(params, speed) - load.torque(speed)

    speeds = np.linspace(0.0, synchronous_speed(params), POINTS)
    curve = curves(params, volts, start_impedance, speeds)
    spare = curve.shaft_torque - load.torque(cast(Any, speeds))
    carried = np.flatnonzero(spare > 0)
    if carried.size == 0:
        most = torque_range(curve).breakdown
        raise InputError(
            f"the load asks for {load.torque(float(speeds[-1])):.3g} N·m at full speed; the motor gives "
            f"{most:.3g} N·m at most at {volts:g} V and stalls. Is the supply low, or the load too high?"
        )
    low, high = float(speeds[carried[-1]]), float(speeds[min(carried[-1] + 1, POINTS - 1)])
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if left_over(middle) > 0 else (low, middle)
    return low
