"""Functions, ranges and inputs of the multimeter: 6000 counts, made up for the course."""

from __future__ import annotations

from enum import Enum

from coldwright.instruments.display import Range, decimals, limit_and_resolution, pick_range


class Function(Enum):
    """What the dial is set to."""

    OHMS = "ohms"
    CONTINUITY = "continuity"
    VOLTS_AC = "volts ac"
    VOLTS_AC_LOW = "volts ac low impedance"
    VOLTS_DC = "volts dc"
    CAPACITANCE = "capacitance"
    AMPS_AC = "amps ac"


OHMS = tuple(
    Range(full_scale=6.0 * 10**n, resolution=0.001 * 10**n, percent=0.2 if n < 6 else 1.0, digits=3) for n in range(8)
)
CONTINUITY = (Range(600.0, 0.1, 1.0, 3),)
VOLTS_AC = (Range(6.0, 0.001, 0.8, 3), Range(60.0, 0.01, 0.8, 3), Range(600.0, 0.1, 0.8, 3))
VOLTS_AC_LOW = (Range(6.0, 0.001, 2.0, 3), Range(60.0, 0.01, 2.0, 3), Range(600.0, 0.1, 2.0, 3))
VOLTS_DC = (Range(6.0, 0.001, 0.3, 2), Range(60.0, 0.01, 0.3, 2), Range(600.0, 0.1, 0.3, 2))
CAPACITANCE = tuple(Range(60e-9 * 10**n, 10e-12 * 10**n, percent=1.5 if n < 5 else 3.0, digits=5) for n in range(6))
AMPS_AC = (Range(6.0, 0.001, 1.5, 5), Range(10.0, 0.01, 1.5, 5))
RANGES = {
    Function.OHMS: OHMS,
    Function.CONTINUITY: CONTINUITY,
    Function.VOLTS_AC: VOLTS_AC,
    Function.VOLTS_AC_LOW: VOLTS_AC_LOW,
    Function.VOLTS_DC: VOLTS_DC,
    Function.CAPACITANCE: CAPACITANCE,
    Function.AMPS_AC: AMPS_AC,
}
UNITS = {
    Function.OHMS: "Ω",
    Function.CONTINUITY: "Ω",
    Function.VOLTS_AC: "V a.c.",
    Function.VOLTS_AC_LOW: "V a.c.",
    Function.VOLTS_DC: "V d.c.",
    Function.CAPACITANCE: "F",
    Function.AMPS_AC: "A a.c.",
}

CATEGORY = "CAT III 600 V"
INPUT_OHM = 10e6  # volts functions
LOW_INPUT_OHM = 3e3  # volts a.c. at low impedance: a ghost voltage breaks down on it
OHMS_RATING_V = 250.0  # most that ohms, continuity and capacitance stand, RMS or d.c.
OHMS_MISREADS_ABOVE_V = 0.05
CAPACITANCE_REFUSES_ABOVE_V = 1.0
BEEPS_BELOW_OHM = 30.0
SHUNT_OHM = 0.01  # amps input, without the leads
FUSE_A = 11.0  # the fuse of the 10 A input blows above this
CHARGE_A = 100e-6  # current that charges a capacitor under test
CHARGE_V = 1.0  # voltage it is charged to
TOLD_ABOVE_S = 1.0  # a capacitance that takes longer is shown with its time


def prefixed(value: float, chosen: Range, unit: str) -> str:
    """Text of a value on a range: n, µ, m, k or M where the range asks for one.

    Parameters
    ----------
    value : float
        Value to write [unit of the range]
    chosen : Range
        Range in use [-]
    unit : str
        Unit without a prefix [-]
    """
    prefix, factor = _prefix(chosen.full_scale, unit)
    return f"{value / factor:.{decimals(chosen.resolution / factor)}f} {prefix}{unit}"


def _prefix(full_scale: float, unit: str) -> tuple[str, float]:
    ladder = {
        "Ω": ((6e6, "M", 1e6), (6e3, "k", 1e3)),
        "F": ((6e-3, "m", 1e-3), (6e-6, "µ", 1e-6), (0.0, "n", 1e-9)),
    }
    for least, prefix, factor in ladder.get(unit, ()):
        if full_scale >= least * (1 - 1e-9):
            return prefix, factor
    return "", 1.0


def charging_time(farad: float) -> float:
    """Time that the meter needs to charge a capacitor under test [s].

    Parameters
    ----------
    farad : float
        Capacitance, zero or more [F]
    """
    return farad * CHARGE_V / CHARGE_A


def limit_of(function: Function, value: float) -> tuple[float, float]:
    """Accuracy limit and resolution of this meter for what it shows on a function.

    Parameters
    ----------
    function : Function
        What the dial is set to [-]
    value : float
        Value shown, in SI [unit of the function]

    Returns
    -------
    tuple of float
        Limit and resolution; both inf over range [unit of the function]
    """
    return limit_and_resolution(RANGES[function], value)


def limit_of_ohms(resistance: float, zeroed_ohm: float = 0.0) -> tuple[float, float]:
    """Accuracy limit and resolution of this meter for a resistance.

    Parameters
    ----------
    resistance : float
        Resistance shown, finite [Ω]
    zeroed_ohm : float
        Resistance of the leads that was zeroed; it still counts when the meter picks its range [Ω]

    Returns
    -------
    tuple of float
        Limit and resolution; both inf over range [Ω]
    """
    chosen = pick_range(OHMS, resistance + zeroed_ohm)
    return (float("inf"), float("inf")) if chosen is None else (chosen.limit(resistance), chosen.resolution)
