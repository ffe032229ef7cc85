"""How a capacitor charges and empties through a resistor, how long until it is safe, and what the resistor must stand.

A capacitor kills after the plug is out. Unplug, wait, discharge through a resistor, and measure before you touch: the
voltage of a formula is no proof. Local codes, the maker's instructions and licensed practice come first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from coldwright.electrical.capacitor import stored_charge, stored_energy
from coldwright.errors import InputError
from coldwright.quantities.checks import (
    check_farad,
    check_finite,
    check_not_negative,
    check_ohms,
    check_positive,
)


@dataclass(frozen=True)
class DischargeLimit:
    """Voltage that must be reached in a time, V and s, and the rule that asks it."""

    volts: float
    seconds: float
    source: str

    def __post_init__(self) -> None:
        """Refuses a limit that cannot be kept, by name, value and rule."""
        check_positive("the voltage of the limit", self.volts, "V")
        check_positive("the time of the limit", self.seconds, "s")


PLUG_PINS = DischargeLimit(34.0, 1.0, "IEC 60335-1, 22.5, pins of a plug after it is pulled at the peak")
"""Read in a quoted text of the clause."""

IN_ONE_MINUTE = DischargeLimit(50.0, 60.0, "US National Electrical Code 460.6(A), capacitors up to 1000 V")
"""From memory."""

SMALL_FARAD = 0.1e-6
"""Up to this capacitance [F] IEC 60335-1 asks no discharge at the pins (22.5) and sets no limit up to 450 V (8.1.4)."""

SMALL_UP_TO_V = 450.0  # peak
MOST_COULOMB = 45e-6
"""Charge allowed behind a protective impedance from 450 V to 15 kV peak [C] (IEC 60335-1, 8.1.4, read quoted)."""

CHARGE_COUNTS_UP_TO_V = 15_000.0  # peak
MOST_JOULE = 0.350
"""Energy allowed behind a protective impedance above 15 kV peak [J] (IEC 60335-1, 8.1.4, read quoted)."""


@dataclass(frozen=True)
class DischargeResistor:
    """A resistor that empties a capacitor: Ω, its watts at the first moment, joules that it takes up in all.

    `standing_w` are the watts all the time that the supply lies across it; zero for one that is held on by hand.
    """

    ohm: float
    peak_w: float
    energy_j: float
    standing_w: float

    def __post_init__(self) -> None:
        """Refuses a resistor that cannot be, by name, value and rule."""
        check_positive("the discharge resistor", self.ohm, "Ω")
        check_not_negative("the watts of the discharge resistor at the first moment", self.peak_w, "W")
        check_not_negative("the energy that the discharge resistor takes up", self.energy_j, "J")
        check_not_negative("the watts of the discharge resistor in service", self.standing_w, "W")


def volts_left(volts: float, farad: float, ohm: float, seconds: float) -> float:
    r"""Voltage left on a capacitor after some time on a resistor.

    .. math:: v = V e^{-t / RC}

    Parameters
    ----------
    volts : float
        Voltage at the beginning [V]
    farad : float
        Capacitance, positive [F]
    ohm : float
        Resistance across it, positive; inf for nothing [Ω]
    seconds : float
        Time, zero or more [s]

    Returns
    -------
    float
        Voltage left [V]

    Raises
    ------
    InputError
        If the capacitance or the resistance is not positive, or the time is negative.
    """
    check_not_negative("the time", seconds, "s")
    return float(discharge_curve(volts, farad, ohm, np.array([seconds]))[0])


def discharge_curve(volts: float, farad: float, ohm: float, seconds: np.ndarray) -> np.ndarray:
    """Voltage left on a capacitor at many times, for a figure.

    Parameters
    ----------
    volts : float
        Voltage at the beginning [V]
    farad : float
        Capacitance, positive [F]
    ohm : float
        Resistance across it, positive; inf for nothing [Ω]
    seconds : ndarray
        Times, zero or more, any shape [s]

    Returns
    -------
    ndarray
        Voltage left, shape of `seconds` [V]
    """
    check_finite("the voltage at the beginning", volts, "V")
    wrong = seconds[~((seconds >= 0) & np.isfinite(seconds))]
    if wrong.size:
        raise InputError(f"the time is {wrong.flat[0]:g} s; it must be zero or more and finite")
    return volts * np.exp(-seconds / _time_constant(farad, ohm))


def charging_volts(supply: float, farad: float, ohm: float, seconds: float) -> float:
    r"""Voltage of an empty capacitor after some time on a direct voltage through a resistor.

    .. math:: v = V (1 - e^{-t / RC})

    Parameters
    ----------
    supply : float
        Direct voltage of the source or the meter [V]
    farad : float
        Capacitance, positive [F]
    ohm : float
        Resistance in series, positive; an ohmmeter's is the resistance at the middle of its scale [Ω]
    seconds : float
        Time, zero or more [s]

    Returns
    -------
    float
        Voltage on the capacitor [V]
    """
    check_finite("the direct voltage of the source", supply, "V")
    return supply - volts_left(supply, farad, ohm, seconds)


def time_to_fall(volts: float, to_volts: float, farad: float, ohm: float) -> float:
    r"""Time until the voltage on a capacitor has fallen to a safe one.

    .. math:: t = R C \ln (V / v)

    Parameters
    ----------
    volts : float
        Voltage at the beginning, positive [V]
    to_volts : float
        Voltage to fall to, positive [V]
    farad : float
        Capacitance, positive [F]
    ohm : float
        Resistance across it, positive; inf for nothing [Ω]

    Returns
    -------
    float
        Time, 0 if it is there already, inf if nothing empties it [s]
    """
    check_positive("the voltage at the beginning", volts, "V")
    check_positive("the voltage to fall to", to_volts, "V", "It never falls to nothing: take a safe voltage")
    constant = _time_constant(farad, ohm)
    return constant * math.log(volts / to_volts) if volts > to_volts else 0.0


def bleed_resistance(volts: float, farad: float, limit: DischargeLimit = PLUG_PINS) -> float:
    r"""Greatest resistance that brings a capacitor down to the limit in time.

    .. math:: R = t / (C \ln (V / v))

    Parameters
    ----------
    volts : float
        Voltage at the beginning, the peak of an alternating one: √2 times its RMS value [V]
    farad : float
        Capacitance, positive [F]
    limit : DischargeLimit
        Voltage and time to keep [-]

    Returns
    -------
    float
        Resistance; inf if the voltage is below the limit at the beginning [Ω]
    """
    for_one_ohm = time_to_fall(volts, limit.volts, farad, 1.0)
    return limit.seconds / for_one_ohm if for_one_ohm > 0 else math.inf


def discharge_resistor(volts: float, farad: float, ohm: float, service_volts: float = 0.0) -> DischargeResistor:
    """What a resistor across a capacitor must stand.

    Parameters
    ----------
    volts : float
        Voltage on the capacitor when the resistor empties it [V]
    farad : float
        Capacitance, positive [F]
    ohm : float
        Resistance, positive [Ω]
    service_volts : float
        Alternating voltage that lies across it in service, RMS; 0 for one held on by hand [V]

    Returns
    -------
    DischargeResistor
        V²/R at the first moment, ½·C·V² in all, and V²/R of the RMS voltage in service [-]
    """
    check_positive("the resistance", ohm, "Ω")
    check_not_negative("the voltage in service", service_volts, "V")
    check_finite("the voltage on the capacitor", volts, "V")
    return DischargeResistor(ohm, volts**2 / ohm, stored_energy(farad, volts), service_volts**2 / ohm)


def keeps(limit: DischargeLimit, volts: float, farad: float, ohm: float) -> bool:
    """Whether a capacitor with a resistor across it falls to a limit in time.

    Parameters
    ----------
    limit : DischargeLimit
        Voltage and time to keep [-]
    volts : float
        Voltage at the beginning, the peak of an alternating one [V]
    farad : float
        Capacitance, positive [F]
    ohm : float
        Resistance across it, positive; inf for nothing [Ω]

    Returns
    -------
    bool
        True if it does.
    """
    return volts_left(volts, farad, ohm, limit.seconds) <= limit.volts


def within_protective_limits(volts: float, farad: float) -> bool:
    """Whether what a capacitor holds may be touched behind a protective impedance, by IEC 60335-1, 8.1.4.

    Parameters
    ----------
    volts : float
        Voltage on it, peak, zero or more [V]
    farad : float
        Capacitance, positive [F]

    Returns
    -------
    bool
        True if capacitance (up to 450 V), charge (up to 15 kV) or energy (above) is within its limit.

    Notes
    -----
    The clause is for makers. For a person at work: measure, and touch nothing above 50 V (common practice, no source).
    """
    check_not_negative("the voltage on the capacitor", volts, "V")
    check_farad(farad)
    if volts <= SMALL_UP_TO_V:
        return farad <= SMALL_FARAD
    if volts <= CHARGE_COUNTS_UP_TO_V:
        return stored_charge(farad, volts) <= MOST_COULOMB
    return stored_energy(farad, volts) <= MOST_JOULE


def _time_constant(farad: float, ohm: float) -> float:
    check_farad(farad)
    check_ohms("the resistance", ohm, "A dead short arcs and throws metal")
    return farad * ohm
