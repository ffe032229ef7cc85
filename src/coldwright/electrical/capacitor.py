"""Capacitors: what one is, what several together are, and the charge and energy that one holds.

How they charge and empty through a resistor, and the limits of the standards, stand in `capacitor_discharge`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.checks import check_farad, check_finite, check_not_negative, check_ohms, check_positive

MOST_FARAD = 0.1
"""No capacitor of a motor or of its inverter comes near this [F]; a greater value is a slip of the unit."""


class Purpose(Enum):
    """What a capacitor is made for: seconds at each start, or all the time that the motor runs."""

    START = "start"
    RUN = "run"


class Condition(Enum):
    """Whether a capacitor is whole; a low or a leaky one is told by its farads or its `leak_ohm`."""

    OK = "ok"
    OPEN = "open"
    SHORTED = "shorted"


@dataclass(frozen=True)
class Capacitor:
    """A capacitor as it truly is, whatever is printed on it.

    `loss_tangent` is watts lost for one var, `leak_ohm` the resistance through its insulation, `bleed_ohm` that of a
    resistor across its terminals, None for none.
    """

    farad: float
    volts_rated: float
    loss_tangent: float = 0.0
    leak_ohm: float = math.inf
    bleed_ohm: float | None = None
    purpose: Purpose = Purpose.RUN
    condition: Condition = Condition.OK

    def __post_init__(self) -> None:
        """Refuses what no capacitor has, by name, value and rule."""
        check_farad(self.farad, "the capacitance of the capacitor")
        if self.farad > MOST_FARAD:
            raise InputError(
                f"the capacitance of the capacitor is {self.farad:g} F; capacitors of motors have less than "
                f"{MOST_FARAD:g} F. Was it given in µF?"
            )
        check_positive("the rated voltage of the capacitor", self.volts_rated, "V")
        check_not_negative("the loss tangent of the capacitor", self.loss_tangent, "")
        hint = "A shorted one has the condition SHORTED"
        check_ohms("the leak resistance of the capacitor", self.leak_ohm, hint)
        if self.bleed_ohm is not None:
            check_positive("the bleed resistor of the capacitor", self.bleed_ohm, "Ω", "None stands for no resistor")

    @property
    def drain_ohm(self) -> float:
        """Leak and bleed resistor side by side: what empties it when nothing else does [Ω]; inf for nothing."""
        siemens = 1.0 / self.leak_ohm + (1.0 / self.bleed_ohm if self.bleed_ohm is not None else 0.0)
        return 1.0 / siemens if siemens > 0 else math.inf

    def esr(self, frequency_hz: float) -> float:
        """Series resistance that stands for its losses at a frequency.

        Parameters
        ----------
        frequency_hz : float
            Frequency, positive [Hz]

        Returns
        -------
        float
            Equivalent series resistance [Ω]
        """
        return self.loss_tangent * reactance(self.farad, frequency_hz)


def reactance(farad: float, frequency_hz: float) -> float:
    r"""Size of a capacitor's reactance.

    .. math:: X_C = 1 / (2 \pi f C)

    Parameters
    ----------
    farad : float
        Capacitance, positive [F]
    frequency_hz : float
        Frequency, positive [Hz]

    Returns
    -------
    float
        Reactance without its sign [Ω]

    Raises
    ------
    InputError
        If the capacitance or the frequency is not positive.
    """
    check_farad(farad)
    check_positive("the frequency", frequency_hz, "Hz", "Direct current does not pass a capacitor")
    return 1.0 / (2.0 * math.pi * frequency_hz * farad)


def parallel(farads: Sequence[float]) -> float:
    """Capacitance of capacitors side by side: their sum.

    Parameters
    ----------
    farads : sequence of float
        One or more capacitances, positive [F]

    Returns
    -------
    float
        Capacitance of them all; the lowest voltage rating counts for all [F]
    """
    return math.fsum(_checked(farads))


def series(farads: Sequence[float]) -> float:
    r"""Capacitance of capacitors in a row: less than the least of them.

    .. math:: 1/C = \sum 1/C_i

    Parameters
    ----------
    farads : sequence of float
        One or more capacitances, positive [F]

    Returns
    -------
    float
        Capacitance of them all [F]
    """
    return 1.0 / math.fsum(1.0 / farad for farad in _checked(farads))


def series_volts(farads: Sequence[float], volts: float) -> tuple[float, ...]:
    """Voltage of each of several capacitors in a row: the smallest one takes the most.

    Parameters
    ----------
    farads : sequence of float
        One or more capacitances, positive [F]
    volts : float
        Voltage across the row, RMS or direct [V]

    Returns
    -------
    tuple of float
        Voltage of each, in order [V]

    Notes
    -----
    Alternating voltage, or direct voltage just switched on. Direct voltage that stays on shares itself by the leaks.
    """
    check_finite("the voltage across the row", volts, "V")
    whole = series(farads)
    return tuple(volts * whole / farad for farad in farads)


def stored_charge(farad: float, volts: float) -> float:
    """Charge on a capacitor, C·V.

    Parameters
    ----------
    farad : float
        Capacitance, positive [F]
    volts : float
        Direct voltage, or the peak of an alternating one [V]

    Returns
    -------
    float
        Charge [C]
    """
    check_farad(farad)
    check_finite("the voltage on the capacitor", volts, "V")
    return farad * volts


def stored_energy(farad: float, volts: float) -> float:
    """Energy in a capacitor, ½·C·V².

    Parameters
    ----------
    farad : float
        Capacitance, positive [F]
    volts : float
        Direct voltage, or the peak of an alternating one [V]

    Returns
    -------
    float
        Energy [J]
    """
    check_farad(farad)
    check_finite("the voltage on the capacitor", volts, "V")
    return 0.5 * farad * volts**2


def _checked(farads: Sequence[float]) -> Sequence[float]:
    if not farads:
        raise InputError("no capacitor is given; at least one is needed")
    for number, farad in enumerate(farads, start=1):
        check_farad(farad, f"capacitance {number}")
    return farads
