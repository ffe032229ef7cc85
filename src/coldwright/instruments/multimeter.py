"""A hand-held digital multimeter on ohms and volts: 6000 counts, made up for the course.

Ohms on a live or charged circuit misreads: the meter shows a number that is no resistance. Beyond its rating the
input is ruined. Its leads have a resistance that can be zeroed with the tips together.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from enum import Enum

from coldwright.errors import BenchError
from coldwright.instruments.display import Circuit, Display, Error, Range, decimals, pick_range, show


class Function(Enum):
    """What the dial is set to."""

    OHMS = "ohms"
    VOLTS_AC = "volts ac"
    VOLTS_DC = "volts dc"


class MeterEvent(Enum):
    """What a measurement did besides showing digits."""

    OHMS_ON_LIVE = "ohms on a live circuit"
    OHMS_ON_CHARGED = "ohms on a charged capacitor"
    RUINED = "meter ruined"


OHMS = tuple(
    Range(full_scale=6.0 * 10**n, resolution=0.001 * 10**n, percent=0.2 if n < 6 else 1.0, digits=3) for n in range(8)
)
VOLTS_AC = (Range(6.0, 0.001, 0.8, 3), Range(60.0, 0.01, 0.8, 3), Range(600.0, 0.1, 0.8, 3))
VOLTS_DC = (Range(6.0, 0.001, 0.3, 2), Range(60.0, 0.01, 0.3, 2), Range(600.0, 0.1, 0.3, 2))
RANGES = {Function.OHMS: OHMS, Function.VOLTS_AC: VOLTS_AC, Function.VOLTS_DC: VOLTS_DC}

INPUT_OHM = 10e6  # volts functions
OHMS_RATING_V = 250.0  # most that the ohms function stands, RMS or d.c.
OHMS_MISREADS_ABOVE_V = 0.05
UNITS = {Function.OHMS: "Ω", Function.VOLTS_AC: "V a.c.", Function.VOLTS_DC: "V d.c."}


def _write(value: float, chosen: Range, unit: str) -> str:
    prefix, factor = "", 1.0
    if unit == "Ω" and chosen.full_scale >= 6e6:
        prefix, factor = "M", 1e6
    elif unit == "Ω" and chosen.full_scale >= 6e3:
        prefix, factor = "k", 1e3
    return f"{value / factor:.{decimals(chosen.resolution / factor)}f} {prefix}{unit}"


@dataclass
class Multimeter:
    """One multimeter with its leads. `draw_error` says where it stands within its accuracy on a function and range."""

    lead_ohm: float
    draw_error: Callable[[Function, int], Error] = field(default=lambda _function, _range: Error())
    function: Function = Function.VOLTS_AC
    zero_ohm: float = 0.0
    ruined: bool = False

    @property
    def is_zeroed(self) -> bool:
        """Whether the resistance of the leads has been taken off."""
        return self.zero_ohm != 0.0

    def zero_leads(self) -> Display:
        """Touch the tips together on ohms and take what shows off every reading from now on.

        Raises
        ------
        BenchError
            If the dial is not on ohms.
        """
        if self.function is not Function.OHMS:
            raise BenchError("the meter is not set to ohms; set it to ohms, then zero the leads")
        if self.ruined:
            return self._dead()
        shown = self._show(self.lead_ohm)
        self.zero_ohm = shown.value
        return shown

    def read(self, circuit: Circuit, a: str, b: str) -> tuple[Display, tuple[MeterEvent, ...]]:
        """Display with the tips on two terminals, and what the measurement did.

        Parameters
        ----------
        circuit : Circuit
            The circuit at this moment [-]
        a, b : str
            Two terminals; the red tip on `a` [-]
        """
        if self.ruined:
            return self._dead(), ()
        if self.function is Function.OHMS:
            return self._read_ohms(circuit, a, b)
        volts = circuit.ac_voltage if self.function is Function.VOLTS_AC else circuit.dc_voltage
        return self._show(volts(a, b, INPUT_OHM)), ()

    def _read_ohms(self, circuit: Circuit, a: str, b: str) -> tuple[Display, tuple[MeterEvent, ...]]:
        alternating, direct = circuit.ac_voltage(a, b, INPUT_OHM), abs(circuit.dc_voltage(a, b, INPUT_OHM))
        events: list[MeterEvent] = []
        if alternating > OHMS_MISREADS_ABOVE_V:
            events.append(MeterEvent.OHMS_ON_LIVE)
        if direct > OHMS_MISREADS_ABOVE_V:
            events.append(MeterEvent.OHMS_ON_CHARGED)
        if alternating + direct > OHMS_RATING_V:
            self.ruined = True
            return self._dead(), (*events, MeterEvent.RUINED)
        resistance = circuit.resistance(a, b) + self.lead_ohm
        if events:
            # the meter sends a known current and takes all voltage for its own: a foreign voltage adds to it
            resistance = (resistance if math.isfinite(resistance) else 0.0) + 1000.0 * (alternating + direct)
        return self._show(resistance, self.zero_ohm), tuple(events)

    def _show(self, value: float, zero: float = 0.0) -> Display:
        ranges = RANGES[self.function]
        chosen = pick_range(ranges, value)
        if chosen is None:
            return Display("OL", math.inf, 0.0, ranges[-1].resolution)
        error = self.draw_error(self.function, ranges.index(chosen))
        shown = show(value, chosen, error, lambda v, r: _write(v, r, UNITS[self.function]), zero)
        if self.function is Function.VOLTS_AC and shown.value < 0:  # an RMS value has no sign
            return Display(_write(0.0, chosen, UNITS[self.function]), 0.0, shown.limit, shown.resolution)
        return shown

    def _dead(self) -> Display:
        return Display("----", math.nan, math.nan, math.nan)


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
    return (math.inf, math.inf) if chosen is None else (chosen.limit(resistance), chosen.resolution)
