"""The poor joint of a unit: the volts across it, the current in it, and which readings of the two belong together."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from coldwright.answers.tolerance import within
from coldwright.appliance.operation import Operation
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.meter_ranges import INPUT_OHM
from coldwright.labs.reading_the_circuit.unit import poor_joint

if TYPE_CHECKING:
    from coldwright.labs.reading_the_circuit.case import Case

ENDS = ("cord L", "cord N", "thermostat 1", "thermostat 2", "overload 1", "board L", "timer 1")  # the lab's answers
LOADED_A = 0.02  # less is no load worth the name
SAME_LOAD = 0.1  # two readings belong together if the current changed by less than this between them
SETTLED_S = 300.0


@dataclass(frozen=True)
class Drop:
    """True volts across the poor joint and true amps in it."""

    volts: float
    amps: float


@dataclass(frozen=True)
class PoorJoint:
    """The poor joint of one case."""

    case: Case

    @property
    def terminal(self) -> str:
        """Terminal that it is at."""
        return poor_joint(self.case.unit)

    @cached_property
    def others(self) -> tuple[str, ...]:
        """The other terminals of its net: a drop is read from the joint to one of these."""
        net = next(joined for joined in self.case.unit.wiring.nets.values() if self.terminal in joined)
        return tuple(terminal for terminal in net if terminal != self.terminal)

    @cached_property
    def volts_read(self) -> tuple[Drop, ...]:
        """Drops that were read with a load on."""
        found = []
        pairs = ((self.terminal, other) for other in self.others)
        for taken in self.case.live_volts(*pairs, when=lambda t: t.plugged):
            circuit = self.case.circuit(taken)
            ohm = circuit.parts.loose.get(self.terminal, 0.0)
            amps, volts = circuit.ac_current(self.terminal), self.case.true_volts(taken)
            if ohm and amps > LOADED_A and within(volts, amps * ohm, SAME_LOAD * volts):  # not on a bare end
                found.append(Drop(volts, amps))
        return tuple(found)

    @cached_property
    def amps_read(self) -> tuple[float, ...]:
        """True currents that were read with the clamp, round any conductor that carries the same."""
        found = []
        for taken in self.case.base.readings("clamp", when=lambda t: t.plugged and t.on != ("cord",)):
            circuit = self.case.circuit(taken)
            amps = circuit.ac_current(self.terminal)
            if amps > LOADED_A and abs(circuit.ac_current(taken.on[0]) - amps) <= limit_of_clamp(amps)[1]:
                found.append(amps)
        return tuple(found)

    @cached_property
    def both_read(self) -> tuple[Drop, ...]:
        """Volts and amps that were read under the same load."""
        return tuple(
            Drop(drop.volts, amps)
            for drop in self.volts_read
            for amps in self.amps_read
            if abs(drop.amps - amps) <= SAME_LOAD * max(drop.amps, amps)
        )

    @cached_property
    def usual(self) -> Drop:
        """What shows once the unit runs; with the fans alone where the compressor cannot start through the joint."""
        unit, case = self.case.unit, self.case
        if case.fault is FaultName.LOOSE_CONNECTION:
            compressor = [c.name for c in unit.wiring.components if c.name in ("overload", "board")]
            circuit = case.plugged_in.at(removed=frozenset(compressor))
        else:
            run = Operation(unit.wiring, unit.healthy, unit.room_k, unit.phase)
            state = run.advance(replace(unit.arrival, plugged=True, timer_defrost=False), SETTLED_S).state
            circuit = UnitCircuit(unit.wiring, unit.healthy, state)
        return Drop(circuit.ac_voltage(self.terminal, self.others[0], INPUT_OHM), circuit.ac_current(self.terminal))

    @property
    def drops(self) -> tuple[Drop, ...]:
        """Drops that count: those that were read, or without a reading the usual one."""
        return self.volts_read or (self.usual,)

    @property
    def loaded(self) -> tuple[Drop, ...]:
        """Volts and amps that count: those that were read, or without readings the usual ones."""
        return self.both_read or (self.usual,)
