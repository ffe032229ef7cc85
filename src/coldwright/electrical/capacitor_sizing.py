"""Which capacitor a start winding wants, and what voltage a capacitor in service must stand.

Both windings hang on one supply. Standstill only for the sizes: saturation, core loss and the capacitor's own loss are
left out, and the torque is the product that it follows, I_run · I_start · sin(angle between them).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from coldwright.electrical.capacitor import Purpose, reactance
from coldwright.errors import InputError
from coldwright.quantities.checks import check_complex, check_not_negative, check_phasor, check_positive

STANDARD_VOLTS = {Purpose.START: (125.0, 165.0, 250.0, 330.0), Purpose.RUN: (250.0, 370.0, 400.0, 440.0, 450.0)}
"""Usual ratings, RMS [V]. Start: read on an encyclopedia-type page. Run: 370 and 440 read in a trade article, the
others common practice, no source."""

SUPPLY_RISE = 0.10  # most that a supply stands above its name (common practice, no source)


@dataclass(frozen=True)
class StartSizes:
    """Standstill against capacitance, arrays of one shape: F, A², A, A, rad, V, and A²/A."""

    farad: np.ndarray
    torque_product: np.ndarray
    line_amps: np.ndarray
    start_amps: np.ndarray
    angle: np.ndarray
    capacitor_volts: np.ndarray
    torque_per_amp: np.ndarray


def impedance_from_readings(volts: float, amps: float, watts: float) -> complex:
    """Impedance of a winding at standstill from three readings.

    Parameters
    ----------
    volts, amps : float
        Across and through the winding, RMS, positive [V, A]
    watts : float
        Power that it takes, above zero and below volts times amps [W]

    Returns
    -------
    complex
        Resistance and inductive reactance [Ω]

    Raises
    ------
    InputError
        If a reading is not positive, or the watts reach the volt-amps.
    """
    check_positive("the voltage across the winding", volts, "V")
    check_positive("the current through the winding", amps, "A", "Is the winding open?")
    check_positive("the power of the winding", watts, "W")
    if not watts < volts * amps:
        raise InputError(
            f"the power of the winding is {watts:g} W; it must be below volts times amps, {volts * amps:g} VA. "
            "Were all three read on the same winding?"
        )
    resistance = watts / amps**2
    return complex(resistance, math.sqrt((volts / amps) ** 2 - resistance**2))


def quadrature_capacitance(run_impedance: complex, start_impedance: complex, frequency_hz: float) -> float:
    r"""Capacitance that puts the start current a quarter cycle ahead of the run current.

    .. math:: X_C = X_s + R_s R_r / X_r, \qquad C = 1 / (2 \pi f X_C)

    Parameters
    ----------
    run_impedance : complex
        Run winding at standstill, both parts positive [Ω]
    start_impedance : complex
        Start winding at standstill without the capacitor, both parts positive [Ω]
    frequency_hz : float
        Supply frequency, positive [Hz]

    Returns
    -------
    float
        Capacitance in series with the start winding [F]

    Raises
    ------
    InputError
        If a part of an impedance or the frequency is not positive.

    References
    ----------
    .. [1] A. E. Fitzgerald, C. Kingsley, S. D. Umans, *Electric Machinery*, 6th edition, Example 9.1 (the method; the
       closed form follows from angles of -90°).
    """
    _check_windings(run_impedance, start_impedance)
    ohm = start_impedance.imag + start_impedance.real * run_impedance.real / run_impedance.imag
    return _farad(ohm, frequency_hz)


def most_torque_capacitance(run_impedance: complex, start_impedance: complex, frequency_hz: float) -> float:
    r"""Capacitance that gives the most starting torque: more than the one for quadrature.

    .. math:: X_C = X_s + R_s (|Z_r| - X_r) / R_r

    Parameters
    ----------
    run_impedance : complex
        Run winding at standstill, both parts positive [Ω]
    start_impedance : complex
        Start winding at standstill without the capacitor, both parts positive [Ω]
    frequency_hz : float
        Supply frequency, positive [Hz]

    Returns
    -------
    float
        Capacitance in series with the start winding [F]

    Notes
    -----
    The same as the rule that the angle of the run winding and twice that of the start branch make 90°.
    """
    _check_windings(run_impedance, start_impedance)
    more = start_impedance.real * (abs(run_impedance) - run_impedance.imag) / run_impedance.real
    return _farad(start_impedance.imag + more, frequency_hz)


def most_torque_per_amp_capacitance(run_impedance: complex, start_impedance: complex, frequency_hz: float) -> float:
    r"""Capacitance that gives the most starting torque for each amp of the line.

    .. math:: X_C = X_s + \frac{|Z_r| \sqrt{R_s (R_s + R_r)} - X_r R_s}{R_r}

    Where the run winding is so inductive that the root below is real, that is a dip between two equal peaks at

    .. math:: X_C = X_s + \tfrac{1}{2} \left( X_r \mp \sqrt{X_r^2 - 4 R_s (R_s + R_r)} \right)

    and the peak with more capacitance is given: it has more torque.

    Parameters
    ----------
    run_impedance : complex
        Run winding at standstill, both parts positive [Ω]
    start_impedance : complex
        Start winding at standstill without the capacitor, both parts positive [Ω]
    frequency_hz : float
        Supply frequency, positive [Hz]

    Returns
    -------
    float
        Capacitance in series with the start winding [F]
    """
    _check_windings(run_impedance, start_impedance)
    run_ohm, start_ohm = run_impedance.real, start_impedance.real
    product = start_ohm * (start_ohm + run_ohm)
    two_peaks = run_impedance.imag**2 - 4.0 * product
    if two_peaks > 0:
        more = 0.5 * (run_impedance.imag - math.sqrt(two_peaks))
    else:
        more = (abs(run_impedance) * math.sqrt(product) - run_impedance.imag * start_ohm) / run_ohm
    return _farad(start_impedance.imag + more, frequency_hz)


def start_sizes(
    run_impedance: complex, start_impedance: complex, volts: float, frequency_hz: float, farads: np.ndarray
) -> StartSizes:
    """Starting torque, currents and capacitor's voltage against capacitance, for a figure.

    Parameters
    ----------
    run_impedance : complex
        Run winding at standstill, both parts positive [Ω]
    start_impedance : complex
        Start winding at standstill without the capacitor, both parts positive [Ω]
    volts : float
        Supply, RMS, positive [V]
    frequency_hz : float
        Supply frequency, positive [Hz]
    farads : ndarray
        Capacitances to try, positive, any shape [F]

    Returns
    -------
    StartSizes
        Arrays of the shape of `farads` [-]
    """
    _check_windings(run_impedance, start_impedance)
    check_positive("the supply", volts, "V")
    check_positive("the frequency", frequency_hz, "Hz")
    least = farads.min() if farads.size else math.nan
    check_positive("the least capacitance to try", least * 1e6, "µF")
    capacitor_ohm = 1.0 / (2.0 * math.pi * frequency_hz * farads)
    run = volts / run_impedance
    start = volts / (start_impedance - 1j * capacitor_ohm)
    line, product = np.abs(run + start), (start * np.conj(run)).imag
    amps, angle = np.abs(start), np.angle(start / run)
    return StartSizes(farads, product, line, amps, angle, amps * capacitor_ohm, product / line)


def capacitor_voltage(supply: complex, start_impedance: complex, farad: float, frequency_hz: float) -> complex:
    r"""Voltage across a capacitor in series with the start winding: it may be well above the supply.

    .. math:: V_C = V \, \frac{-j X_C}{Z_s - j X_C}

    Parameters
    ----------
    supply : complex
        Supply, RMS phasor [V]
    start_impedance : complex
        Start winding as it is now, its voltage over its current: at standstill, or at speed [Ω]
    farad : float
        Capacitance, positive [F]
    frequency_hz : float
        Supply frequency, positive [Hz]

    Returns
    -------
    complex
        RMS phasor [V]

    Raises
    ------
    InputError
        If the capacitance or the frequency is not positive, or nothing would limit the current.

    Notes
    -----
    While the motor turns the run winding induces a voltage in the start winding: take the impedance from the currents
    of the motor model at that speed, not from standstill.
    """
    check_phasor("the supply", supply, "V")
    check_phasor("the impedance of the start winding", start_impedance, "Ω")
    ohm = -1j * reactance(farad, frequency_hz)
    whole = start_impedance + ohm
    if not abs(whole) > 0:
        raise InputError(
            f"the start winding and {farad * 1e6:g} µF make 0 Ω together at {frequency_hz:g} Hz; "
            "the winding's resistance must be above 0 Ω"
        )
    return supply * ohm / whole


def rating_needed(volts: float, purpose: Purpose, supply_rise: float = SUPPLY_RISE) -> float:
    """Least usual voltage rating that stands what a capacitor meets in service.

    Parameters
    ----------
    volts : float
        Voltage across the capacitor at the supply's named voltage, RMS, positive [V]
    purpose : Purpose
        Start or run [-]
    supply_rise : float
        Share by which the supply may stand higher, zero or more [1]

    Returns
    -------
    float
        Rating [V]

    Raises
    ------
    InputError
        If the voltage is not positive, or above the highest usual rating.
    """
    check_positive("the voltage across the capacitor", volts, "V")
    check_not_negative("the rise of the supply", supply_rise, "")
    if not supply_rise < 1:
        raise InputError(
            f"the rise of the supply is {supply_rise:g}; it must be a share from 0 to 1. Was it in percent?"
        )
    highest = volts * (1.0 + supply_rise)
    for rating in STANDARD_VOLTS[purpose]:
        if rating >= highest:
            return rating
    raise InputError(
        f"the voltage across the capacitor may reach {highest:.0f} V; usual {purpose.value} capacitors end at "
        f"{STANDARD_VOLTS[purpose][-1]:g} V. Is the capacitance right for this motor?"
    )


def _check_windings(run_impedance: complex, start_impedance: complex) -> None:
    for name, impedance in (("run", run_impedance), ("start", start_impedance)):
        check_complex(f"the impedance of the {name} winding", impedance)
        check_positive(f"the resistance of the {name} winding", impedance.real, "Ω")
        check_positive(f"the reactance of the {name} winding", impedance.imag, "Ω", "Is the capacitor already in it?")


def _farad(ohm: float, frequency_hz: float) -> float:
    check_positive("the frequency", frequency_hz, "Hz")
    return 1.0 / (2.0 * math.pi * frequency_hz * ohm)
