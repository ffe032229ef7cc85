"""What a test shows of a capacitor: with a capacitance meter, or under load from volts, amps and hertz.

With a meter: plug out, capacitor discharged and proved so, at least one wire off. Under load the circuit is live:
clamp one wire, keep clear of moving parts, and only where local codes and the maker's instructions allow it.
"""

from __future__ import annotations

import math

from coldwright.electrical.measured import Measured
from coldwright.errors import InputError
from coldwright.quantities.checks import check_farad, check_number, check_ohms, check_positive

FEWER_VOLTS = "Does the motor run, and do the leads touch both terminals?"
FEWER_AMPS = "An open capacitor draws none, and a clamp round both wires shows none"


def microfarad_factor(frequency_hz: float) -> float:
    r"""Number that turns amps for each volt into microfarads: about 2653 at 60 Hz, 3183 at 50 Hz.

    .. math:: 10^6 / (2 \pi f)

    Parameters
    ----------
    frequency_hz : float
        Frequency of the supply, positive [Hz]

    Returns
    -------
    float
        Factor; the trade rounds it down to 2652 at 60 Hz [µF·V/A]
    """
    check_positive("the frequency", frequency_hz, "Hz", "With direct current there is no test under load")
    return 1e6 / (2.0 * math.pi * frequency_hz)


def capacitance_under_load(volts: Measured, amps: Measured, hertz: Measured) -> Measured:
    r"""Capacitance of a capacitor in service, and the most it can be off by.

    .. math:: C = I / (2 \pi f V)

    Parameters
    ----------
    volts : Measured
        Across the capacitor's own terminals, RMS [V]
    amps : Measured
        Through the capacitor, RMS [A]
    hertz : Measured
        Frequency; what the supply is kept within, if it was not measured [Hz]

    Returns
    -------
    Measured
        Capacitance and its limit, with all three readings at their worst together [F]

    Raises
    ------
    InputError
        If a reading is zero or over range, or its limit is as large as the reading itself.

    Notes
    -----
    Takes the whole impedance for reactance: with a loss tangent of 0.1 the result is 0.5 % low. A clamp that is not for
    true RMS reads wrong where a solid state switch cuts the current.
    """
    _check_reading("the voltage across the capacitor", volts, "V", FEWER_VOLTS)
    _check_reading("the current through the capacitor", amps, "A", FEWER_AMPS)
    _check_reading("the frequency", hertz, "Hz", "With direct current there is no test under load")
    turn = 2.0 * math.pi
    farad = amps.value / (turn * hertz.value * volts.value)
    most = (amps.value + amps.limit) / (turn * (hertz.value - hertz.limit) * (volts.value - volts.limit))
    return Measured(farad, most - farad)


def loss_tangent(watts: float, volts: float, amps: float) -> float:
    r"""Loss tangent of a capacitor from its watts, volts and amps.

    .. math:: \tan \delta = P / \sqrt{(V I)^2 - P^2}

    Parameters
    ----------
    watts : float
        Power that turns to heat in it, zero or more [W]
    volts : float
        Across it, RMS, positive [V]
    amps : float
        Through it, RMS, positive [A]

    Returns
    -------
    float
        Watts lost for one var [1]

    Notes
    -----
    In a good capacitor the watts are few: a plug-in power meter is too coarse for a run capacitor.
    """
    check_positive("the voltage across the capacitor", volts, "V", FEWER_VOLTS)
    check_positive("the current through the capacitor", amps, "A", FEWER_AMPS)
    check_number("the power in the capacitor", watts)
    if not 0 <= watts < volts * amps:
        raise InputError(
            f"the power in the capacitor is {watts:g} W; it must be zero or more and below volts times amps, "
            f"{volts * amps:g} VA. Was the power of the whole motor taken?"
        )
    return watts / math.sqrt((volts * amps) ** 2 - watts**2)


def loss_angle(watts: float, volts: float, amps: float) -> float:
    """Loss angle of a capacitor: by how much its current falls short of leading by a quarter turn.

    Parameters
    ----------
    watts : float
        Power that turns to heat in it, zero or more [W]
    volts : float
        Across it, RMS, positive [V]
    amps : float
        Through it, RMS, positive [A]

    Returns
    -------
    float
        Angle whose tangent is the loss tangent [rad]
    """
    return math.atan(loss_tangent(watts, volts, amps))


def meter_time(farad: float, amps: float, volts: float, leak_ohm: float = math.inf) -> float:
    r"""Time that a capacitance meter needs which charges with a constant current up to a set voltage.

    .. math:: t = C V / I, \quad \text{with a leak} \quad t = -R C \ln (1 - V / I R)

    Parameters
    ----------
    farad : float
        True capacitance, positive [F]
    amps : float
        Current of the meter, positive [A]
    volts : float
        Voltage at which the meter stops its clock, positive [V]
    leak_ohm : float
        Leak and bleed resistor side by side, positive; inf for none [Ω]

    Returns
    -------
    float
        Time; inf where the leak takes all the current before the voltage is reached [s]
    """
    check_farad(farad)
    check_positive("the current of the meter", amps, "A")
    check_positive("the voltage of the meter", volts, "V")
    check_ohms("the leak resistance", leak_ohm, "A short has no capacitance")
    share = volts / (amps * leak_ohm)
    if share >= 1.0:
        return math.inf
    slower = -math.log1p(-share) / share if share > 0 else 1.0
    return farad * volts / amps * slower


def meter_reading(farad: float, amps: float, volts: float, leak_ohm: float = math.inf) -> float:
    """What a constant-current capacitance meter shows: too much for a leaky capacitor.

    The meter takes all of its current for charge: C = I·t/V. What leaks away makes the time longer, so it reads high.

    Parameters
    ----------
    farad : float
        True capacitance, positive [F]
    amps : float
        Current of the meter, positive [A]
    volts : float
        Voltage at which the meter stops its clock, positive [V]
    leak_ohm : float
        Leak and bleed resistor side by side, positive; inf for none [Ω]

    Returns
    -------
    float
        Reading; inf where the meter never gets there and shows over range [F]

    Notes
    -----
    A meter of another kind measures with alternating current and reads a leaky capacitor more nearly right. Take a
    bleed resistor off first: left on, it counts as a leak.
    """
    return amps * meter_time(farad, amps, volts, leak_ohm) / volts


def _check_reading(what: str, reading: Measured, unit: str, hint: str) -> None:
    check_positive(what, reading.value, unit, hint)
    if not reading.limit < reading.value:
        raise InputError(
            f"{what} is {reading.value:g} ± {reading.limit:g} {unit}; its limit must be smaller than the reading. "
            "Take a finer range"
        )
