"""The true unit and what a job sheet shows of it: all that keys, slips and points look at."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property

from coldwright.appliance.operation import Operation, Passed
from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_faults import FaultName, fitted
from coldwright.bench.replay import Replay
from coldwright.bench.unit_acts import UnitTaken
from coldwright.instruments.hold import largest_rms, lowest_rms
from coldwright.labs.start_circuits.economy import best_tests
from coldwright.labs.start_circuits.evidence import evidence, mended_at, paid_readings
from coldwright.labs.start_circuits.remedies import FOUND
from coldwright.labs.start_circuits.unit import RUNS, behaviour, draw_unit
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_case import UnitCase, unit_case
from coldwright.labs.unit_draw import drawn_lead

OUTLET = ("outlet L", "outlet N")
LINE = "cord L"
PINS = {"start_run": "pin R", "start_start": "pin S", "start_common": "pin C"}
RUNNING = {"running_line": LINE, "running_start": "pin S"}
SETTLED_S = 45.0  # after a start: the amps of running, not of starting
TRY_S, RUN_S = 0.3, 150.0  # how long it is watched: until the first amps have passed; until an overload would click


@dataclass(frozen=True)
class StartCase:
    """One learner's unit with the replayed job sheet."""

    base: UnitCase

    @property
    def unit(self) -> BenchUnit:
        """The true unit."""
        return self.base.unit

    @property
    def fault(self) -> FaultName:
        """What is wrong with it."""
        return self.unit.fault.name

    @property
    def component(self) -> str:
        """The component to fit new; empty for none."""
        return FOUND[self.fault][2]

    # ----------------------------------------------------------- as found, as left

    @property
    def last_fit(self) -> int:
        """Line of the last part fitted; 0 for none."""
        return self.base.last(("fit",)) or 0

    def found(self, act: str, *on: str) -> list[UnitTaken]:
        """Readings while the unit was still as it came in, nothing taken off.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str
            What on [-]
        """
        return self._whole(act, on, lambda t: t.line.n < mended_at(self.base))

    def left(self, act: str, *on: str) -> list[UnitTaken]:
        """Readings on the unit as the learner leaves it, nothing taken off.

        Parameters
        ----------
        act : str
            Name of the act [-]
        *on : str
            What on [-]
        """
        return self._whole(act, on, lambda t: t.line.n > self.last_fit)

    def running(self, conductor: str) -> list[UnitTaken]:
        """Clamp readings on the running unit as it is left.

        Parameters
        ----------
        conductor : str
            Which wire [-]
        """
        settled = self.left("clamp", conductor)
        return [t for t in settled if t.state.speed > 0 and t.state.powered_s >= SETTLED_S]

    def _whole(self, act: str, on: tuple[str, ...], when: Callable[[UnitTaken], bool]) -> list[UnitTaken]:
        return self.base.readings(act, *on, when=lambda t: not t.state.removed and when(t))

    # ------------------------------------------------------------------- the truth

    @cached_property
    def right_parts(self) -> Parts:
        """Parts of the unit once it is put right, as far as this bench can."""
        if not self.component:
            return self.unit.parts
        spare = next(iter(self.unit.spares_for(self.component)))
        return fitted(self.unit.parts, self.unit, self.component, spare)

    def tried(self, parts: Parts, conductor: str) -> Passed:
        """A try to start from cold, with the current in a conductor.

        Parameters
        ----------
        parts : Parts
            Parts in it [-]
        conductor : str
            Which wire [-]
        """
        run = Operation(self.unit.wiring, parts, self.unit.room_k, self.unit.phase)
        return run.advance(replace(self.unit.arrival, plugged=True), TRY_S, conductor)

    def start_amps(self, parts: Parts, conductor: str) -> float:
        """True amps that a clamp on hold keeps of a try [A].

        Parameters
        ----------
        parts : Parts
            Parts in it [-]
        conductor : str
            Which wire [-]
        """
        return largest_rms([(at, amps) for at, amps, _ in self.tried(parts, conductor).samples])

    @cached_property
    def true_lowest(self) -> float:
        """True lowest volts at the plug while the unit, put right, tries to start [V]."""
        return lowest_rms([(at, volts) for at, _, volts in self.tried(self.right_parts, LINE).samples])

    @cached_property
    def settled(self) -> Passed:
        """The unit, put right, some minutes after it was plugged in."""
        run = Operation(self.unit.wiring, self.right_parts, self.unit.room_k, self.unit.phase)
        return run.advance(replace(self.unit.arrival, plugged=True), RUN_S)

    @property
    def runs(self) -> bool:
        """Whether the unit, put right as far as this bench can, runs."""
        return behaviour(self.settled) == RUNS

    # ----------------------------------------------------------------- the sheet

    @cached_property
    def left_open(self) -> frozenset[FaultName]:
        """Faults that the readings on the sheet leave possible."""
        return evidence(self.base)

    @property
    def best(self) -> int:
        """How many paid readings the best tests take for this fault."""
        return len(best_tests(self.unit.cooler.model, self.fault))

    @property
    def paid(self) -> int:
        """How many paid readings were taken before the part that failed was fitted new."""
        return paid_readings(self.base)


def make_case(ticket: Ticket, replay: Replay | None) -> StartCase:
    """The case of a ticket and its replayed job sheet.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    replay : Replay, optional
        The sheet, replayed on that unit [-]
    """
    seed = ticket.seed_bytes
    return StartCase(unit_case(draw_unit(seed), drawn_lead(seed), replay))
