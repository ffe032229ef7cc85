"""Ranges, accuracy and the digits an instrument shows."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol, runtime_checkable

from coldwright.electrical.measured import Measured
from coldwright.quantities.checks import check_between, check_not_negative, check_positive


class Circuit(Protocol):
    """All that an instrument can see of a circuit."""

    def terminals(self) -> tuple[str, ...]:
        """Terminals that a probe can reach."""

    def resistance(self, a: str, b: str) -> float:
        """Direct-current resistance [Ω]; inf for no path.

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        """

    def ac_voltage(self, a: str, b: str, load_ohm: float) -> float:
        """RMS alternating voltage with the instrument's resistance across [V].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        load_ohm : float
            Resistance of the instrument [Ω]
        """

    def dc_voltage(self, a: str, b: str, load_ohm: float) -> float:
        """Direct voltage from b to a with the instrument's resistance across [V].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        load_ohm : float
            Resistance of the instrument [Ω]
        """


@runtime_checkable
class LiveCircuit(Circuit, Protocol):
    """All that an instrument can see of a circuit that may run, hold capacitors and be opened for an ammeter."""

    @property
    def frequency_hz(self) -> float:
        """Frequency of the supply [Hz]."""

    def capacitance(self, a: str, b: str) -> float:
        """Capacitance between two terminals with the power off [F]; 0 for none, inf for a short.

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        """

    def ac_current(self, conductor: str) -> float:
        """RMS current in a conductor, or the net current of a bundle [A].

        Parameters
        ----------
        conductor : str
            What the jaws go round [-]
        """

    def series_current(self, a: str, b: str, shunt_ohm: float) -> float:
        """RMS current through an ammeter joined across two terminals [A].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        shunt_ohm : float
            Resistance of the ammeter with its leads [Ω]
        """

    def power(self) -> tuple[float, float, float]:
        """Watts, RMS volts and RMS amps at the plug [W, V, A]."""


@dataclass(frozen=True)
class Range:
    """One range of an instrument: ±(percent of reading + digits)."""

    full_scale: float
    resolution: float
    percent: float
    digits: int

    def __post_init__(self) -> None:
        """Refuses a range that no instrument has, by name, value and rule."""
        check_positive("the full scale of a range", self.full_scale, "")
        check_positive("the resolution of a range", self.resolution, "")
        check_not_negative("the percent of a range's accuracy", self.percent, "%")
        check_not_negative("the digits of a range's accuracy", self.digits, "")

    def limit(self, reading: float) -> float:
        """Most that a reading can be off, in the unit of the range.

        Parameters
        ----------
        reading : float
            What the instrument shows [unit of the range]
        """
        return abs(reading) * self.percent / 100 + self.digits * self.resolution


@dataclass(frozen=True)
class Error:
    """Where one instrument stands within its accuracy: both from -1 to 1, fixed for that instrument."""

    gain: float = 0.0
    offset: float = 0.0

    def __post_init__(self) -> None:
        """Refuses an instrument that is outside its own accuracy, by name, value and rule."""
        check_between("the gain of an instrument's error", self.gain, -1.0, 1.0, "")
        check_between("the offset of an instrument's error", self.offset, -1.0, 1.0, "")


@dataclass(frozen=True)
class Display:
    """What an instrument shows. `value` and `limit` in SI; `value` is inf for over-range and nan for no reading."""

    text: str
    value: float
    limit: float
    resolution: float

    @property
    def measured(self) -> Measured:
        """The reading with its limits; negative remains of a zeroed meter count as zero."""
        return Measured(max(self.value, 0.0), self.limit)

    def __str__(self) -> str:
        return self.text


Writer = Callable[[float, Range], str]


def pick_range(ranges: Sequence[Range], value: float) -> Range | None:
    """Lowest range that can show a value; None for over-range.

    Parameters
    ----------
    ranges : sequence of Range
        Ranges, lowest first [-]
    value : float
        Value to show [unit of the ranges]
    """
    return next((r for r in ranges if abs(value) < r.full_scale), None)


def limit_and_resolution(ranges: Sequence[Range], value: float) -> tuple[float, float]:
    """Accuracy limit and resolution on the range that shows a value; both inf over range.

    Parameters
    ----------
    ranges : sequence of Range
        Ranges, lowest first [-]
    value : float
        Value shown [unit of the ranges]
    """
    chosen = pick_range(ranges, value)
    return (math.inf, math.inf) if chosen is None else (chosen.limit(value), chosen.resolution)


def show(value: float, chosen: Range, error: Error, write: Writer, zero: float = 0.0) -> Display:
    """Display of a true value on a range, off by where this instrument stands within its accuracy.

    Parameters
    ----------
    value : float
        True value at the input [unit of the range]
    chosen : Range
        Range in use [-]
    error : Error
        Where the instrument stands [-]
    write : callable
        Text for a number on a range [-]
    zero : float
        Number that was zeroed; taken off before rounding [unit of the range]
    """
    seen = value * (1 + error.gain * chosen.percent / 100) + error.offset * chosen.digits * chosen.resolution
    shown = round((seen - zero) / chosen.resolution) * chosen.resolution
    return Display(write(shown, chosen), shown, chosen.limit(shown), chosen.resolution)


def show_size(value: float, ranges: Sequence[Range], draw: Callable[[int], Error], write: Writer) -> Display:
    """Display of a value that has no sign, such as an RMS value: range picked, OL over range, never below zero.

    Parameters
    ----------
    value : float
        True value at the input, zero or more [unit of the ranges]
    ranges : sequence of Range
        Ranges, lowest first [-]
    draw : callable
        Where the instrument stands on a range, by its number [-]
    write : callable
        Text for a number on a range [-]
    """
    chosen = pick_range(ranges, value)
    if chosen is None:
        return Display("OL", math.inf, 0.0, ranges[-1].resolution)
    shown = show(value, chosen, draw(ranges.index(chosen)), write)
    return shown if shown.value >= 0 else Display(write(0.0, chosen), 0.0, chosen.limit(0.0), chosen.resolution)


def no_reading(text: str) -> Display:
    """Display that shows words or dashes and no number.

    Parameters
    ----------
    text : str
        What it shows [-]
    """
    return Display(text, math.nan, math.nan, math.nan)


def decimals(resolution: float) -> int:
    """Decimal places that a resolution needs.

    Parameters
    ----------
    resolution : float
        One digit, in the unit shown [unit shown]
    """
    return max(0, -math.floor(math.log10(resolution) + 1e-9))
