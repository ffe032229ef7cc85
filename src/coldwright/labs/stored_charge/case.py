"""The true unit of lab 01 and what a job sheet shows of it: all that keys, slips and points look at."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from coldwright.appliance.operation import Operation
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.bench.replay import Replay
from coldwright.bench.unit_acts import UnitTaken
from coldwright.electrical.measured import Measured
from coldwright.instruments.display import Display
from coldwright.instruments.meter_ranges import INPUT_OHM, Function, limit_of
from coldwright.labs.stored_charge.unit import BUS, START, Job, draw_job
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_case import DEAD_BELOW_V, UnitCase, unit_case

SUPPLY = tuple((f"{place} L", f"{place} N") for place in ("plug", "outlet", "cord", "board"))
UNTIL_READ_S = 45.0  # where nobody read the volts left: pull the plug, prove it dead, read
CHARGES = ("plug in", "inrush", "lowest volts")


def with_digit(shown: Display) -> Measured:
    """What was shown, without its sign, off by the instrument's limit and one digit.

    Parameters
    ----------
    shown : Display
        A display that shows a number [-]
    """
    return Measured(abs(shown.value), shown.limit + shown.resolution)


def _true(function: Function, value: float) -> Measured:
    """A true value with what the meter may be off there."""
    limit, digit = limit_of(function, value)
    return Measured(math.inf) if math.isinf(limit) else Measured(value, limit + digit)


@dataclass(frozen=True)
class Case:
    """One learner's job and what the replayed job sheet shows of it."""

    job: Job
    sheet: UnitCase

    # ---------------------------------------------------------------- readings

    @cached_property
    def left(self) -> list[UnitTaken]:
        """Direct volts across the store with the plug out, before it was discharged."""
        return [t for t in self._volts_dc if not t.plugged and not self._discharged_by(t.line.n)]

    @cached_property
    def empty(self) -> list[UnitTaken]:
        """Direct volts across the store near zero, after it was discharged."""
        found = (t for t in self._volts_dc if not t.plugged and self._discharged_by(t.line.n))
        return [t for t in found if abs(t.display.value) < DEAD_BELOW_V]

    @cached_property
    def at_work(self) -> list[UnitTaken]:
        """Volts from which the peak follows: across a run capacitor at work, or of the supply of a board."""
        if self.job.store == START:
            return []
        if self.job.store == BUS:
            return [t for ends in SUPPLY for t in self._shown("volts ac", *ends, when=self._supplied)]
        return self._shown("volts ac", *self.job.ends, when=self._runs)

    @cached_property
    def farad_readings(self) -> list[UnitTaken]:
        """Capacitance across the store, off the unit."""
        return self._apart("capacitance")

    @cached_property
    def ohm_readings(self) -> list[UnitTaken]:
        """Ohms across the store, off the unit; those of a board's bus in its place."""
        return self._apart("ohms")

    @cached_property
    def wired_ohms(self) -> list[UnitTaken]:
        """Ohms across the store while the rest of the unit still hung on it."""
        if self.job.store == BUS:
            return []
        return self._shown(
            "ohms", *self.job.ends, when=lambda t: not t.plugged and self.job.store not in t.state.removed
        )

    @property
    def label_read(self) -> bool:
        """Whether what is printed on the capacitor was read; a board's values stand on the work order."""
        return self.job.store == BUS or self.sheet.has("inspect", self.job.store)

    # ------------------------------------------------------- values they give

    @cached_property
    def volts_left(self) -> tuple[Measured, ...]:
        """Volts left with the plug out, as read; what would have been read where nobody did [V]."""
        return _distinct(self.left) or (_true(Function.VOLTS_DC, self._left_by_then),)

    @cached_property
    def peaks(self) -> tuple[Measured, ...]:
        """Highest volts that can stay on the store [V]."""
        if self.job.store == START:
            return (Measured(math.sqrt(2) * self.job.marked[1]),)
        shown = _distinct(self.at_work) or (_true(Function.VOLTS_AC, self._volts_at_work),)
        return tuple(volts.scaled(math.sqrt(2)) for volts in shown)

    @cached_property
    def farads(self) -> tuple[Measured, ...]:
        """Capacitance of the store [F]."""
        if self.job.store == BUS:
            return (Measured(self.job.farad),)
        return _distinct(self.farad_readings) or (_true(Function.CAPACITANCE, self.job.farad),)

    @cached_property
    def ohms(self) -> tuple[Measured, ...]:
        """Ohms across the store; inf where the meter shows over range [Ω]."""
        return _distinct(self.ohm_readings) or (_true(Function.OHMS, self.job.ohm_across),)

    @property
    def ohm_in_circuit(self) -> float:
        """Ohms across a capacitor that is still wired in, plug out [Ω]."""
        unit = self.job.unit
        rest = Operation(unit.wiring, unit.parts, unit.room_k, unit.phase)
        state = rest.advance(replace(unit.arrival, plugged=False), 60.0).state
        return UnitCircuit(unit.wiring, unit.parts, state).resistance(*self.job.ends)

    # ------------------------------------------------------------------ inside

    @property
    def _volts_dc(self) -> list[UnitTaken]:
        return self._shown("volts dc", *self.job.ends)

    def _discharged_by(self, line: int) -> bool:
        """Whether the store had been discharged at a line, and not charged again since."""
        done = False
        for each in self.sheet.lines:
            if each.n >= line:
                break
            if each.act == "discharge" and each.on == (self.job.store,) and not each.hazards:
                done = True
            done = done and each.act not in CHARGES
        return done

    def _apart(self, act: str) -> list[UnitTaken]:
        off = self.job.store
        return self._shown(act, *self.job.ends, when=lambda t: not t.plugged and (off == BUS or off in t.state.removed))

    def _shown(self, act: str, *on: str, when: Callable[[UnitTaken], bool] = lambda _t: True) -> list[UnitTaken]:
        """Sound readings that show a number or over range."""
        return [t for t in self.sheet.readings(act, *on, when=when) if not math.isnan(t.display.value)]

    def _runs(self, taken: UnitTaken) -> bool:
        return taken.plugged and taken.state.speed > 0 and self.job.store not in taken.state.removed

    def _supplied(self, taken: UnitTaken) -> bool:
        return taken.display.value > 0.8 * self.job.unit.cooler.volts

    @property
    def _volts_at_work(self) -> float:
        unit = self.job.unit
        ends = SUPPLY[0] if self.job.store == BUS else self.job.ends
        return UnitCircuit(unit.wiring, unit.parts, unit.arrival).ac_voltage(*ends, INPUT_OHM)

    @property
    def _left_by_then(self) -> float:
        unit = self.job.unit
        run = Operation(unit.wiring, unit.parts, unit.room_k, unit.phase)
        unplugged = run.switched(unit.arrival, replace(unit.arrival, plugged=False))
        state = run.advance(unplugged, UNTIL_READ_S).state
        return abs(UnitCircuit(unit.wiring, unit.parts, state).dc_voltage(*self.job.ends, INPUT_OHM))


def _distinct(taken: Iterable[UnitTaken]) -> tuple[Measured, ...]:
    """What was shown, each number once."""
    return tuple({abs(t.display.value): with_digit(t.display) for t in taken}.values())


def make_case(ticket: Ticket, replay_of: Replay | None) -> Case:
    """The case of a ticket and its replayed job sheet.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    replay_of : Replay, optional
        The sheet, replayed on that unit [-]
    """
    job = draw_job(ticket.seed_bytes)
    return Case(job, unit_case(job.unit, job.lead_ohm, replay_of))
