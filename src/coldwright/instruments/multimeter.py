"""A hand-held digital multimeter: what it shows, and what it does to itself when it is used wrongly.

Ohms on a live or charged circuit misreads: the meter shows a number that is no resistance. Beyond its rating the
input is ruined. Its leads have a resistance that can be zeroed with the tips together. The input for amps is nearly a
short circuit with a fuse in it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field

from coldwright.errors import BenchError
from coldwright.instruments.display import (
    Circuit,
    Display,
    Error,
    LiveCircuit,
    Range,
    no_reading,
    pick_range,
    show,
    show_size,
)
from coldwright.instruments.hold import Samples, lowest_rms
from coldwright.instruments.meter_ranges import (
    BEEPS_BELOW_OHM,
    CAPACITANCE_REFUSES_ABOVE_V,
    CATEGORY,
    FUSE_A,
    INPUT_OHM,
    LOW_INPUT_OHM,
    OHMS,
    OHMS_MISREADS_ABOVE_V,
    OHMS_RATING_V,
    RANGES,
    SHUNT_OHM,
    TOLD_ABOVE_S,
    UNITS,
    VOLTS_AC,
    VOLTS_DC,
    Function,
    charging_time,
    limit_of,
    limit_of_ohms,
    prefixed,
)
from coldwright.instruments.misuse import MeterEvent

__all__ = [
    "CATEGORY",
    "INPUT_OHM",
    "OHMS",
    "OHMS_MISREADS_ABOVE_V",
    "OHMS_RATING_V",
    "RANGES",
    "VOLTS_AC",
    "VOLTS_DC",
    "Function",
    "MeterEvent",
    "Multimeter",
    "limit_of",
    "limit_of_ohms",
]

Shown = tuple[Display, tuple[MeterEvent, ...]]
DASHES = "----"
ON_A_VOLTAGE = {
    Function.OHMS: (MeterEvent.OHMS_ON_LIVE, MeterEvent.OHMS_ON_CHARGED),
    Function.CONTINUITY: (MeterEvent.CONTINUITY_ON_LIVE, MeterEvent.CONTINUITY_ON_CHARGED),
    Function.CAPACITANCE: (MeterEvent.CAPACITANCE_ON_LIVE, MeterEvent.CAPACITANCE_ON_CHARGED),
}


@dataclass
class Multimeter:
    """One multimeter with its leads. `draw_error` says where it stands within its accuracy on a function and range."""

    lead_ohm: float
    draw_error: Callable[[Function, int], Error] = field(default=lambda _function, _range: Error())
    function: Function = Function.VOLTS_AC
    zero_ohm: float = 0.0
    ruined: bool = False
    fuse_blown: bool = False
    category: str = CATEGORY

    @property
    def is_zeroed(self) -> bool:
        """Whether the resistance of the leads has been taken off."""
        return self.zero_ohm != 0.0

    def zero_leads(self) -> Display:
        """Touch the tips together on ohms and take what shows off every ohms reading from now on.

        Raises
        ------
        BenchError
            If the dial is not on ohms.
        """
        if self.function is not Function.OHMS:
            raise BenchError("the meter is not set to ohms; set it to ohms, then zero the leads")
        if self.ruined:
            return no_reading(DASHES)
        shown = self._show(self.lead_ohm)
        self.zero_ohm = shown.value
        return shown

    def replace_fuse(self) -> None:
        """Fit a new fuse of the same rating into the input for amps."""
        self.fuse_blown = False

    def read(self, circuit: Circuit, a: str, b: str) -> Shown:
        """Display with the tips on two terminals, and what the measurement did.

        Parameters
        ----------
        circuit : Circuit
            The circuit at this moment; capacitance and amps ask for a LiveCircuit [-]
        a, b : str
            Two terminals; the red tip on `a` [-]

        Raises
        ------
        BenchError
            If the circuit is not made for capacitance or amps.
        """
        if self.ruined:
            return no_reading(DASHES), ()
        if self.function in ON_A_VOLTAGE:
            return self._read_dead(circuit, a, b)
        if self.function is Function.AMPS_AC:
            return self._read_amps(self._live(circuit), a, b)
        if self.function is Function.VOLTS_DC:
            return self._show(circuit.dc_voltage(a, b, INPUT_OHM)), ()
        input_ohm = INPUT_OHM if self.function is Function.VOLTS_AC else LOW_INPUT_OHM
        return self._show_size(circuit.ac_voltage(a, b, input_ohm)), ()

    def lowest_volts(self, samples: Samples) -> Display:
        """Lowest alternating voltage that the meter keeps on hold, as RMS over 100 ms.

        Parameters
        ----------
        samples : sequence of tuple of float
            Time and volts while it is on hold [s and V]

        Raises
        ------
        InputError
            If there are no samples or their times do not rise.
        """
        if self.ruined:
            return no_reading(DASHES)
        self.function = Function.VOLTS_AC
        return self._show_size(lowest_rms(samples))

    # ------------------------------------------- functions for a dead circuit

    def _read_dead(self, circuit: Circuit, a: str, b: str) -> Shown:
        alternating, direct = circuit.ac_voltage(a, b, INPUT_OHM), abs(circuit.dc_voltage(a, b, INPUT_OHM))
        capacitance = self.function is Function.CAPACITANCE
        least = CAPACITANCE_REFUSES_ABOVE_V if capacitance else OHMS_MISREADS_ABOVE_V
        found = zip((alternating, direct), ON_A_VOLTAGE[self.function], strict=True)
        events = tuple(event for volts, event in found if volts > least)
        if alternating + direct > OHMS_RATING_V:
            self.ruined = True
            return no_reading(DASHES), (*events, MeterEvent.RUINED)
        if capacitance:
            return (no_reading("voltage on it, no test") if events else self._farads(circuit, a, b)), events
        resistance = circuit.resistance(a, b) + self.lead_ohm
        if events:
            # the meter sends a known current and takes all voltage for its own: a foreign voltage adds to it
            resistance = (resistance if math.isfinite(resistance) else 0.0) + 1000.0 * (alternating + direct)
        if self.function is Function.CONTINUITY:
            return self._beep(resistance), events
        return self._show(resistance, self.zero_ohm), events

    def _beep(self, resistance: float) -> Display:
        shown = self._show_size(resistance)
        text = f"{shown.text}, beeps" if shown.value < BEEPS_BELOW_OHM else shown.text
        return Display(text, shown.value, shown.limit, shown.resolution)

    def _farads(self, circuit: Circuit, a: str, b: str) -> Display:
        farad = self._live(circuit).capacitance(a, b)
        shown = self._show_size(farad)
        seconds = charging_time(farad)
        if math.isinf(shown.value) or seconds < TOLD_ABOVE_S:
            return shown
        return Display(f"{shown.text} after {seconds:.0f} s", shown.value, shown.limit, shown.resolution)

    # ------------------------------------------------------------------- amps

    def _read_amps(self, circuit: LiveCircuit, a: str, b: str) -> Shown:
        if self.fuse_blown:
            return no_reading(DASHES), ()
        amps = circuit.series_current(a, b, SHUNT_OHM + self.lead_ohm)
        if amps > FUSE_A:
            self.fuse_blown = True
            return no_reading(DASHES), (MeterEvent.FUSE_BLOWN,)
        return self._show_size(amps), ()

    # ----------------------------------------------------------------- inside

    def _live(self, circuit: Circuit) -> LiveCircuit:
        if not isinstance(circuit, LiveCircuit):
            raise BenchError(f"{self.function.value} cannot be measured on this bench")
        return circuit

    def _write(self, value: float, chosen: Range) -> str:
        return prefixed(value, chosen, UNITS[self.function])

    def _show(self, value: float, zero: float = 0.0) -> Display:
        ranges = RANGES[self.function]
        chosen = pick_range(ranges, value)
        if chosen is None:
            return Display("OL", math.inf, 0.0, ranges[-1].resolution)
        return show(value, chosen, self.draw_error(self.function, ranges.index(chosen)), self._write, zero)

    def _show_size(self, value: float) -> Display:
        function = self.function
        return show_size(value, RANGES[function], lambda number: self.draw_error(function, number), self._write)
