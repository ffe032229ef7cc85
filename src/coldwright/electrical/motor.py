"""Single-phase induction motor with a run and a start winding: impedances, currents, torque and power by phasors.

Two windings stand at right angles on a cage rotor. Each sets up a field that turns forward and one that turns backward
(double revolving field). The convention is that of Fitzgerald, Kingsley and Umans, chapter 9: rotor and magnetising
values are those of the whole run winding, and each of the two fields takes half of them. Forward is the way the motor
turns when the start winding's current leads. RMS phasors, supply at angle zero, inductive is +j.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.electrical.motor_types import MotorParameters
from coldwright.errors import InputError
from coldwright.quantities.checks import check_number, check_positive

Impedances = tuple[tuple[complex, complex], tuple[complex, complex]]


@dataclass(frozen=True)
class Running:
    """A motor on its run winding alone at one speed; watts, A, N·m, the rest shares of one."""

    current: complex
    power_factor: float
    input_w: float
    forward_gap_w: float
    backward_gap_w: float
    mechanical_w: float
    shaft_w: float
    shaft_torque: float
    efficiency: float


def synchronous_speed(params: MotorParameters) -> float:
    """Speed of the turning field.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]

    Returns
    -------
    float
        Mechanical speed of the field [rad/s]
    """
    return 4.0 * math.pi * params.frequency_hz / params.poles


def slip_of(params: MotorParameters, speed: float) -> float:
    """Slip of the rotor behind the forward field.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    speed : float
        Mechanical speed, forward positive [rad/s]

    Returns
    -------
    float
        1 at standstill, 0 at the speed of the field [1]
    """
    return 1.0 - speed / synchronous_speed(params)


def field_impedances(params: MotorParameters, slip: float) -> tuple[complex, complex]:
    r"""Impedance of the forward and of the backward field in the run winding.

    .. math:: Z_f = \frac{1}{2} \, \frac{j X_m (R_2/s + j X_2)}{R_2/s + j (X_m + X_2)}, \qquad Z_b: s \to 2 - s

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    slip : float
        Slip behind the forward field; an array gives arrays [1]

    Returns
    -------
    tuple of complex
        Forward and backward impedance, halves included [Ω]

    References
    ----------
    .. [1] A. E. Fitzgerald, C. Kingsley, S. D. Umans, *Electric Machinery*, 6th edition, McGraw-Hill, 2003, chapter 9
       (formulas from memory, held against Example 9.2).
    """
    half = 0.5j * params.magnetising_ohm
    rotor, leakage = params.rotor_ohm, 1j * params.rotor_leakage_ohm
    both = leakage + 1j * params.magnetising_ohm
    back = 2.0 - slip
    return (
        half * (rotor + slip * leakage) / (rotor + slip * both),
        half * (rotor + back * leakage) / (rotor + back * both),
    )


def winding_impedance(
    params: MotorParameters, slip: float, run_ohm: float | None = None, start_ohm: float | None = None
) -> Impedances:
    r"""Impedance matrix that gives the voltages of the two windings from their currents.

    .. math:: V_r = (Z_r + Z_f + Z_b) I_r - j a (Z_f - Z_b) I_s, \quad
              V_s = j a (Z_f - Z_b) I_r + (Z_s + a^2 (Z_f + Z_b)) I_s

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    slip : float
        Slip behind the forward field; an array gives arrays [1]
    run_ohm, start_ohm : float, optional
        Resistances as they are now, hot or faulty; those of the motor unless told [Ω]

    Returns
    -------
    tuple of tuples of complex
        ((z_rr, z_rs), (z_sr, z_ss)) [Ω]

    Notes
    -----
    Not reciprocal: the turning rotor makes the cross terms opposite. At standstill they vanish.
    """
    forward, backward = field_impedances(params, slip)
    a = params.turns_ratio
    both, cross = forward + backward, 1j * a * (forward - backward)
    run = params.run_ohm if run_ohm is None else run_ohm
    start = params.start_ohm if start_ohm is None else start_ohm
    return (
        (run + 1j * params.run_leakage_ohm + both, -cross),
        (cross, start + 1j * params.start_leakage_ohm + a * a * both),
    )


def currents(
    params: MotorParameters, volts: float, slip: float, start_impedance: complex | None = None
) -> tuple[complex, complex]:
    """Currents of the run and the start winding, both on one supply.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    volts : float
        Supply, RMS [V]
    slip : float
        Slip behind the forward field; an array gives arrays [1]
    start_impedance : complex, optional
        What lies in series with the start winding; without it the start winding is open [Ω]

    Returns
    -------
    tuple of complex
        Current of the run winding and of the start winding, RMS [A]
    """
    (rr, rs), (sr, ss) = winding_impedance(params, slip)
    if start_impedance is None:
        return volts / rr, 0.0 * rr
    ss = ss + start_impedance
    over = volts / (rr * ss - rs * sr)
    return over * (ss - rs), over * (rr - sr)


def air_gap_power(
    params: MotorParameters, slip: float, run_current: complex, start_current: complex
) -> tuple[float, float]:
    """Power that the forward and the backward field carry across the air gap.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    slip : float
        Slip behind the forward field; an array gives arrays [1]
    run_current, start_current : complex
        Currents of the windings, RMS [A]

    Returns
    -------
    tuple of float
        Forward and backward power [W]
    """
    forward, backward = field_impedances(params, slip)
    turned = 1j * params.turns_ratio * start_current
    with_it, against = abs(run_current - turned), abs(run_current + turned)
    return forward.real * with_it * with_it, backward.real * against * against


def torque(params: MotorParameters, slip: float, run_current: complex, start_current: complex) -> float:
    """Mean torque in the air gap, friction and core loss not taken off.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    slip : float
        Slip behind the forward field; an array gives arrays [1]
    run_current, start_current : complex
        Currents of the windings, RMS [A]

    Returns
    -------
    float
        Torque, forward positive [N·m]
    """
    forward, backward = air_gap_power(params, slip, run_current, start_current)
    return (forward - backward) / synchronous_speed(params)


def drag_torque(params: MotorParameters, speed: float) -> float:
    """Torque that core loss and friction take at a speed.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    speed : float
        Mechanical speed, forward positive [rad/s]

    Returns
    -------
    float
        Torque against the motion [N·m]

    Notes
    -----
    From half the field's speed up the lost watts are constant, as textbooks take them; below it the torque falls to
    zero in a straight line (an estimate of this model).
    """
    lost = params.core_loss_w + params.friction_w
    knee = 0.5 * synchronous_speed(params)
    return lost / speed if abs(speed) > knee else lost * speed / (knee * knee)


def running(params: MotorParameters, volts: float, slip: float) -> Running:
    """Current, power and efficiency of the motor on its run winding alone.

    Parameters
    ----------
    params : MotorParameters
        The motor [-]
    volts : float
        Supply, RMS, positive [V]
    slip : float
        Slip behind the forward field, above 0 and at most 1 [1]

    Returns
    -------
    Running
        All of them; efficiency is zero where the shaft gives nothing [-]

    Raises
    ------
    InputError
        If the voltage is not positive or the slip is not that of a motor.

    Notes
    -----
    Core loss is taken off at the shaft together with friction, as in Fitzgerald's and Chapman's worked examples. So it
    is missing in the input watts.
    """
    check_positive("the supply of the motor", volts, "V")
    check_number("the slip", slip)
    if not 0 < slip <= 1:
        raise InputError(
            f"the slip is {slip:g}; a running motor's lies above 0 and at most at 1. Is it a speed or a percentage?"
        )
    current, none = currents(params, volts, slip)
    power = volts * current.real
    forward, backward = air_gap_power(params, slip, current, none)
    speed = (1.0 - slip) * synchronous_speed(params)
    mechanical = (1.0 - slip) * (forward - backward)
    shaft_torque = torque(params, slip, current, none) - drag_torque(params, speed)
    shaft = shaft_torque * speed
    return Running(
        current=current,
        power_factor=current.real / abs(current),
        input_w=power,
        forward_gap_w=forward,
        backward_gap_w=backward,
        mechanical_w=mechanical,
        shaft_w=shaft,
        shaft_torque=shaft_torque,
        efficiency=max(shaft, 0.0) / power,
    )
