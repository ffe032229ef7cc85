"""What a circuit is made of: branches, sources, switches and pairs of coupled windings, between named nodes.

Phasors are RMS, the supply stands at angle zero and inductive is +j. A current counts from the first node to the
second. 0 Hz is direct current.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from coldwright.errors import InputError
from coldwright.quantities.checks import check_farad, check_flag, check_not_negative, check_phasor, check_positive

Pair = tuple[complex, complex]


def _check_ends(name: str, a: str, b: str) -> None:
    if a == b:
        raise InputError(f"{name} has both ends on {a}; it needs two different terminals")


@dataclass(frozen=True)
class Branch:
    """Resistance, inductance and capacitance in series between two nodes.

    `resistance` in ohms, `inductance` in henries, `capacitance` in farads, None for no capacitor. A branch with nothing
    in it is an ideal wire.
    """

    name: str
    a: str
    b: str
    resistance: float = 0.0
    inductance: float = 0.0
    capacitance: float | None = None

    def __post_init__(self) -> None:
        _check_ends(self.name, self.a, self.b)
        check_not_negative(f"the resistance of {self.name}", self.resistance, "Ω")
        check_not_negative(f"the inductance of {self.name}", self.inductance, "H")
        if self.capacitance is not None:
            check_farad(self.capacitance, f"the capacitance of {self.name}")

    def impedance(self, frequency_hz: float) -> complex | None:
        """Impedance at a frequency, or None where a capacitor stops direct current.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero or more [Hz]

        Returns
        -------
        complex or None
            Impedance, None for open [Ω]

        Raises
        ------
        InputError
            If the frequency is negative or not finite.
        """
        check_not_negative("the frequency", frequency_hz, "Hz", "Zero stands for direct current")
        omega = 2 * math.pi * frequency_hz
        reactance = omega * self.inductance
        if self.capacitance is not None:
            if frequency_hz == 0:
                return None
            reactance -= 1 / (omega * self.capacitance)
        return complex(self.resistance, reactance)


@dataclass(frozen=True)
class Source:
    """A voltage from `b` to `a` behind a resistance, at one frequency [V, Hz, Ω]; 0 Hz is direct current.

    The voltage may be a phasor. At any other frequency the source is only its resistance.
    """

    name: str
    a: str
    b: str
    voltage: complex
    frequency_hz: float
    resistance: float = 0.05

    def __post_init__(self) -> None:
        _check_ends(self.name, self.a, self.b)
        check_positive(f"the resistance of {self.name}", self.resistance, "Ω")
        check_not_negative(f"the frequency of {self.name}", self.frequency_hz, "Hz")
        check_phasor(f"the voltage of {self.name}", self.voltage, "V")
        if self.frequency_hz == 0 and complex(self.voltage).imag != 0:
            raise InputError(f"the voltage of {self.name} is {self.voltage:g} V at 0 Hz; direct voltage has no angle")

    def emf(self, frequency_hz: float) -> complex:
        """Voltage that the source gives at a frequency: its own, and zero at any other.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero or more [Hz]

        Returns
        -------
        complex
            RMS phasor [V]
        """
        return complex(self.voltage) if frequency_hz == self.frequency_hz else 0j


@dataclass(frozen=True)
class Switch:
    """A contact between two nodes: nothing while open, `contact_ohm` while closed [Ω]; 0 Ω is an ideal wire."""

    name: str
    a: str
    b: str
    closed: bool
    contact_ohm: float = 0.0

    def __post_init__(self) -> None:
        _check_ends(self.name, self.a, self.b)
        check_flag(f"closed of {self.name}", self.closed)
        check_not_negative(f"the contact resistance of {self.name}", self.contact_ohm, "Ω")


@dataclass(frozen=True)
class Coupled:
    """Two windings that act on each other, as in a turning machine.

    `first` and `second` are the ends of the windings. `impedance` gives their voltages from their currents at
    `frequency_hz`, V1 = z11·I1 + z12·I2 and V2 = z21·I1 + z22·I2 [Ω]; z12 and z21 need not be equal. For direct current
    the two are the resistances `dc_ohm` [Ω]. Currents count from the first end to the second.
    """

    name: str
    first: tuple[str, str]
    second: tuple[str, str]
    impedance: tuple[Pair, Pair]
    dc_ohm: tuple[float, float]
    frequency_hz: float

    def __post_init__(self) -> None:
        for half, ends, ohm in zip(self.names, (self.first, self.second), self.dc_ohm, strict=True):
            _check_ends(half, *ends)
            check_not_negative(f"the resistance of {half}", ohm, "Ω")
        hint = "Windings act on each other only at a frequency above zero"
        check_positive(f"the frequency of {self.name}", self.frequency_hz, "Hz", hint)
        for row in self.impedance:
            for value in row:
                check_phasor(f"an impedance of {self.name}", value, "Ω")

    @property
    def names(self) -> tuple[str, str]:
        """Names of the two windings, by which their currents are asked for."""
        return f"{self.name} first", f"{self.name} second"

    def check_frequency(self, frequency_hz: float) -> None:
        """Refuse a frequency that the impedances are not for.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero or more [Hz]
        """
        if frequency_hz not in (0, self.frequency_hz):
            raise InputError(
                f"{self.name} is asked for at {frequency_hz:g} Hz; its impedances hold at {self.frequency_hz:g} Hz and "
                "for direct current only"
            )
