"""The true unit and what a job sheet shows of it: all that solutions, slips and points look at."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName, fitted
from coldwright.bench.replay import Replay
from coldwright.bench.unit_acts import UnitTaken
from coldwright.instruments.meter_ranges import INPUT_OHM
from coldwright.labs.reading_the_circuit.joint import PoorJoint
from coldwright.labs.reading_the_circuit.unit import draw_unit, is_frost_free
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_case import UnitCase, unit_case
from coldwright.labs.unit_draw import drawn_lead

OUTLET_PAIR = ("outlet L", "outlet N")
LIVE_PAIRS = (OUTLET_PAIR, ("plug L", "plug N"), ("cord L", "cord N"))
ACROSS_THERMOSTAT = ("thermostat 1", "thermostat 2")
ACROSS_DOOR_SWITCH = ("door switch 1", "door switch 2")
ACROSS_FAN = ("condenser fan 1", "condenser fan 2")
ACROSS_HEATER = ("heater 1", "heater 2")


@dataclass(frozen=True)
class Case:
    """One learner's unit with the readings of the replayed job sheet; `base.taken` is empty without one."""

    base: UnitCase

    @property
    def unit(self) -> BenchUnit:
        """The unit as it came in."""
        return self.base.unit

    @property
    def fault(self) -> FaultName:
        """What is behind the complaint."""
        return self.unit.fault.name

    @property
    def frost_free(self) -> bool:
        """Whether it has a defrost timer, a heater and a terminator."""
        return is_frost_free(self.unit.wiring)

    @cached_property
    def came_in(self) -> UnitCircuit:
        """The circuit as it came in, unplugged."""
        return UnitCircuit(self.unit.wiring, self.unit.parts, self.unit.arrival)

    @cached_property
    def plugged_in(self) -> UnitCircuit:
        """The circuit as it came in, just plugged in."""
        return self.came_in.at(plugged=True)

    # -------------------------------------------------------------- readings

    @cached_property
    def _fits(self) -> tuple[tuple[int, Parts], ...]:
        """Number of each line that fitted a part, and the parts after it."""
        parts, found = self.unit.parts, []
        for line in self.base.lines:
            if line.act == "fit" and not line.hazards:
                spare = line.on[1] if len(line.on) > 1 else next(iter(self.unit.spares_for(line.on[0])))
                parts = fitted(parts, self.unit, line.on[0], spare)
                found.append((line.n, parts))
        return tuple(found)

    def circuit(self, taken: UnitTaken) -> UnitCircuit:
        """The true circuit at the moment of a reading.

        Parameters
        ----------
        taken : UnitTaken
            The reading [-]
        """
        parts = next((parts for n, parts in reversed(self._fits) if n < taken.line.n), self.unit.parts)
        return UnitCircuit(self.unit.wiring, parts, taken.state)

    def true_volts(self, taken: UnitTaken) -> float:
        """True alternating voltage of a reading, with the meter on it [V].

        Parameters
        ----------
        taken : UnitTaken
            A reading of volts a.c. [-]
        """
        return self.circuit(taken).ac_voltage(taken.on[0], taken.on[1], INPUT_OHM)

    def live_volts(self, *pairs: tuple[str, str], when: Callable[[UnitTaken], bool]) -> list[UnitTaken]:
        """Volts a.c. read across one of these pairs, as the condition asks.

        Parameters
        ----------
        *pairs : tuple of str
            Two terminals each [-]
        when : callable
            Condition on a reading [-]
        """
        return [taken for pair in pairs for taken in self.base.readings("volts ac", *pair, when=when)]

    def dead(self, *on: str, when: Callable[[UnitTaken], bool] = lambda _t: True) -> list[UnitTaken]:
        """Ohms or continuity of two terminals.

        Parameters
        ----------
        *on : str
            Two terminals [-]
        when : callable
            Condition on a reading [-]
        """
        return [taken for act in ("ohms", "continuity") for taken in self.base.readings(act, *on, when=when)]

    def before_new(self, component: str) -> Callable[[UnitTaken], bool]:
        """Condition that a component was still the one that came in.

        Parameters
        ----------
        component : str
            Its name [-]
        """
        new = [line.n for line in self.base.lines if line.act == "fit" and line.on[0] == component]
        first = new[0] if new else len(self.base.lines) + 1
        return lambda taken: taken.line.n < first

    @cached_property
    def supply_readings(self) -> list[UnitTaken]:
        """Readings of the supply: at the outlet, or at the plug or the cord while it is in."""
        live = [t for t in self.live_volts(*LIVE_PAIRS, when=lambda t: t.plugged) if self._is_supply(t)]
        return live + self.live_volts(OUTLET_PAIR, when=lambda t: not t.plugged)

    def _is_supply(self, taken: UnitTaken) -> bool:
        return self.true_volts(taken) > 0.5 * self.unit.cooler.volts

    @cached_property
    def thermostat_readings(self) -> list[UnitTaken]:
        """Volts across the thermostat that came in, plugged in and turned on."""
        return self._across_switch(ACROSS_THERMOSTAT, lambda t: t.state.knob_on)

    @cached_property
    def door_switch_readings(self) -> list[UnitTaken]:
        """Volts across the door switch that came in, plugged in and door shut."""
        return self._across_switch(ACROSS_DOOR_SWITCH, lambda t: not t.state.door_open)

    def _across_switch(self, pair: tuple[str, str], state: Callable[[UnitTaken], bool]) -> list[UnitTaken]:
        """Volts across a switch in its place, plugged in, before it or the cord was changed."""
        name = self.unit.wiring.owner(pair[0]).name
        old, fresh = self.before_new(name), self.before_new("cord")
        return self.live_volts(
            pair, when=lambda t: t.plugged and old(t) and fresh(t) and name not in t.state.removed and state(t)
        )

    def off(self, component: str) -> list[UnitTaken]:
        """Ohms across a component that came in, taken off.

        Parameters
        ----------
        component : str
            Its name [-]
        """
        old = self.before_new(component)
        ends = self.unit.wiring.component(component).terminals
        return self.base.readings("ohms", *ends, when=lambda t: component in t.state.removed and old(t))

    @cached_property
    def poor(self) -> PoorJoint:
        """The poor joint and what was read of it."""
        return PoorJoint(self)


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
    return Case(unit_case(draw_unit(seed), drawn_lead(seed), replay))
