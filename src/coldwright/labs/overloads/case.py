"""The true unit and what a job sheet shows of it: all that keys, slips and points of the lab on overloads look at."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from coldwright.appliance.drive import drive_of
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.replay import Replay
from coldwright.bench.unit_acts import METAL, UnitTaken
from coldwright.electrical.windings import REFERENCE_K, resistance_at
from coldwright.labs.overloads.heard import Heard, heard_readings
from coldwright.labs.overloads.sheet import TripSheet, trip_sheet
from coldwright.labs.overloads.truth import Truth, truth_of
from coldwright.labs.overloads.unit import draw_unit
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_case import UnitCase, unit_case
from coldwright.labs.unit_draw import drawn_lead

WIRES = ("pin C", "overload 1", "overload 2")  # each carries all of the compressor's current
DEVICES = (ComponentKind.CURRENT_RELAY, ComponentKind.PTC)
COLD_WITHIN_K = 0.3
APART_WITHIN = 1e-3  # of the winding alone: nothing else is in the reading


@dataclass(frozen=True)
class Case:
    """One learner's cooler with the readings of the replayed job sheet."""

    seed: bytes
    sheet: UnitCase

    @property
    def unit(self) -> BenchUnit:
        """The unit as it came in."""
        return self.sheet.unit

    @property
    def lead_ohm(self) -> float:
        """Resistance of the meter's leads [Ω]."""
        return self.sheet.lead_ohm

    @property
    def fault(self) -> FaultName:
        """What is wrong with it."""
        return self.unit.fault.name

    @property
    def device(self) -> str:
        """Name of its start device."""
        return self.unit.wiring.of_kind(*DEVICES)[0].name

    @property
    def truth(self) -> Truth:
        """What it does by itself."""
        return truth_of(self.seed)

    @cached_property
    def data_sheet(self) -> TripSheet:
        """The data sheet of its overload."""
        return trip_sheet(self.unit.cooler)

    def circuit(self, taken: UnitTaken) -> UnitCircuit:
        """The circuit that a reading was taken on, old parts still in it.

        Parameters
        ----------
        taken : UnitTaken
            A reading from before the first part was fitted [-]
        """
        return UnitCircuit(self.unit.wiring, self.unit.parts, taken.state)

    # ------------------------------------------- readings with the old parts in

    def old(self, act: str, *on: str, when: Callable[[UnitTaken], bool] = lambda _t: True) -> list[UnitTaken]:
        """Sound readings from before the first part was fitted.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str
            Terminals, conductor or component, in any order; any if left out [-]
        when : callable
            Condition on a reading [-]
        """
        until = self.sheet.first(("fit",)) or math.inf
        return self.sheet.readings(act, *on, when=lambda t: t.line.n < until and when(t))

    def _whole(self, act: str, *on: str) -> list[UnitTaken]:
        return self.old(act, *on, when=lambda t: not t.state.removed)

    @cached_property
    def listened(self) -> list[UnitTaken]:
        """Readings of listening, plugged in and nothing taken off."""
        return [t for t in self._whole("listen") if t.plugged]

    @cached_property
    def heard(self) -> Heard:
        """What these tell."""
        return heard_readings(self.listened)

    def watts(self, on: bool) -> list[UnitTaken]:
        """Watts with, or without, power on the compressor.

        Parameters
        ----------
        on : bool
            Whether it had power [-]
        """
        return [t for t, powered in self._watts if powered is on]

    @cached_property
    def _watts(self) -> list[tuple[UnitTaken, bool]]:
        return [(t, drive_of(self.circuit(t)).powered) for t in self._whole("watts") if t.plugged]

    @cached_property
    def start_amps(self) -> list[UnitTaken]:
        """Amps of the compressor as it starts: on hold, or while it stands and hums."""
        closed = self.fault is FaultName.OVERLOAD_OPEN
        held = [t for wire in WIRES for t in self._whole("inrush", wire) if closed or not t.state.overload_open]
        hums = [
            t
            for wire in WIRES
            for t in self._whole("clamp", wire)
            if t.plugged and t.state.speed <= 0 and (closed or drive_of(self.circuit(t)).powered)
        ]
        return [*held, *hums]

    @cached_property
    def running_amps(self) -> list[UnitTaken]:
        """Amps of the compressor while it runs."""
        return [t for wire in WIRES for t in self._whole("clamp", wire) if t.plugged and t.state.speed > 0]

    @cached_property
    def shell_on_arrival(self) -> list[UnitTaken]:
        """Temperatures of the shell before the plug was pulled."""
        until = self.sheet.first(("isolate",)) or math.inf
        return self.sheet.readings("temperature", "shell", when=lambda t: t.line.n < until)

    def run_ohm(self, winding_k: float) -> float:
        """Resistance of the run winding at a temperature [Ω].

        Parameters
        ----------
        winding_k : float
            Its temperature [K]
        """
        motor = self.unit.parts.motor
        assert motor is not None
        return resistance_at(motor.run_ohm, REFERENCE_K, winding_k)

    @cached_property
    def _run_winding(self) -> list[UnitTaken]:
        def alone(t: UnitTaken) -> bool:
            seen, wanted = self.circuit(t).resistance("pin C", "pin R"), self.run_ohm(t.state.winding_k)
            return abs(seen - wanted) < APART_WITHIN * wanted

        return self.old("ohms", "pin C", "pin R", when=alone)

    def hot(self, zeroed: bool = True) -> list[UnitTaken]:
        """Run winding alone, before the long wait.

        Parameters
        ----------
        zeroed : bool
            Whether the leads were zeroed [-]
        """
        return [t for t in self._hot if t.zeroed is zeroed]

    @cached_property
    def _hot(self) -> list[UnitTaken]:
        waits = (line.n for line in self.sheet.lines if line.act == "wait" and line.on == ("12 h",))
        until = next(waits, 0)
        return [t for t in self._run_winding if t.line.n < until]

    @property
    def cold(self) -> list[UnitTaken]:
        """Run winding alone, at the temperature of the room."""
        room_k = self.unit.room_k
        return [t for t in self._run_winding if abs(t.state.winding_k - room_k) < COLD_WITHIN_K]

    @cached_property
    def overload_apart(self) -> list[UnitTaken]:
        """Ohms of the old overload, off the unit, at the temperature of the room."""

        def fair(t: UnitTaken) -> bool:
            cold = abs(t.state.overload_k - self.unit.room_k) < COLD_WITHIN_K
            return cold and "overload" in t.state.removed

        return self.old("ohms", "overload 1", "overload 2", when=fair)

    @property
    def labels(self) -> list[UnitTaken]:
        """Looks at the old overload."""
        return self.old("inspect", "overload")

    @cached_property
    def found_grounded(self) -> int | None:
        """Number of the line on which a pin first showed a path to bare metal; None where none did."""
        return next((t.line.n for t in self.sheet.taken if t.shows_grounded), None)

    # --------------------------------------------------------- proof at the end

    @property
    def beeps(self) -> list[UnitTaken]:
        """What the beeper showed of the earth conductor."""
        return [t for metal in METAL for t in self.sheet.readings("continuity", "plug E", metal)]

    def proof(self, act: str, pin: str) -> list[UnitTaken]:
        """Readings from a pin of the plug to bare metal after the last part went in, plug pulled.

        Parameters
        ----------
        act : str
            Name of the act [-]
        pin : str
            Such as "plug E" [-]
        """
        after = self.sheet.last(("fit", "put back"))
        if after is None:
            return []

        def counts(t: UnitTaken) -> bool:
            return t.line.n > after and not t.plugged and not t.state.removed

        return [t for metal in METAL for t in self.sheet.readings(act, pin, metal, when=counts)]


def make_case(ticket: Ticket, replay: Replay | None) -> Case:
    """The case of a ticket and its replayed job sheet.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    replay : Replay, optional
        The sheet, replayed on that unit [-]
    """
    seed = ticket.seed_bytes
    return Case(seed, unit_case(draw_unit(seed), drawn_lead(seed), replay))
