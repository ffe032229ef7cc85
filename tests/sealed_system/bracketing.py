"""Every steady state of a system, found slowly by nested bracketing; shares no solver with the package.

Of the package it calls only the equations of one moment: `pressures`, `moment` and `capillary_flow`. Each level holds
one rate at zero by one unknown, with a bracket that grows from a guess until the sign turns:

    shell temperature     its own rate          return enthalpy       its own rate
    mass on the high side  condensing pressure   inlet enthalpy        its own rate
    condensing pressure    capillary = compressor
    evaporating pressure   its own rate

All that for a mass on the low side; then the charge is what it adds up to. The low side's mass is swept from next to
nothing to the whole charge, and each crossing of the true charge is a steady state. So their number comes out too.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise

from coldwright.refrigerants.kernels import Tables, compiled, dew_pressure_at, kernel, saturation
from coldwright.sealed_system.capillary import capillary_flow
from coldwright.sealed_system.moment import moment
from coldwright.sealed_system.plant import Around, Moment, Plant, State, dry_low_side, oil_holds, pressures

SWEPT = 28  # masses on the low side
TURNS = 60
COARSE, FINE = 1e-7, 1e-10  # of a level's unknown: on the sweep, and at a crossing


class Nowhere(ArithmeticError):
    """A rate that does not change its sign between the ends."""


def root(
    function: Callable[[float], float], guess: float, width: float, ends: tuple[float, float], fine: float
) -> float:
    """Where a falling function is zero: a bracket that grows from a guess, then regula falsi (Illinois)."""
    least, most = ends
    here = min(most, max(least, guess))
    value = function(here)
    while True:
        if value == 0.0:
            return here
        there = min(most, here + width) if value > 0.0 else max(least, here - width)
        if there == here:
            raise Nowhere
        other = function(there)
        if (other > 0.0) != (value > 0.0) or other == 0.0:
            break
        here, value, width = there, other, 2.0 * width
    last = here
    for turn in range(TURNS):
        part = 0.5 if turn % 4 == 3 else value / (value - other)
        middle = here + (there - here) * part
        close = fine * max(1.0, abs(middle))
        found = function(middle)
        if found == 0.0 or abs(middle - last) < close or abs(there - here) < close:
            return middle
        last = middle
        if (found > 0.0) == (value > 0.0):
            here, value, other = middle, found, 0.5 * other
        else:
            there, other, value = here, value, found
            here, there = middle, there
    return here


@kernel
def moment_at(tables: Tables, plant: Plant, around: Around, low_kg: float, state: State, through: bool) -> Moment:
    """The moment with a mass on the low side, whatever the charge is then; the capillary passes all or nothing."""
    low = math.exp(state.log_low)
    low *= min(1.0, low_kg / dry_low_side(tables, plant, low, state.shell_k))
    oil = oil_holds(tables, plant, low, state.shell_k)
    charge = low_kg + state.high_kg + oil
    there = Around(
        around.room_k,
        around.air_k,
        around.running,
        around.speed,
        around.condenser_air,
        around.evaporator_air,
        charge,
        around.heater_w,
        around.standing_w,
    )
    held = State(state.log_high, state.log_low, state.high_kg, state.shell_k, state.return_h, state.inlet_h, oil)
    high, low = pressures(tables, plant, there, held)
    now = moment(tables, plant, there, held, high, low, 0.0)
    if through:
        now = moment(tables, plant, there, held, high, low, now.flow)
    return now


@cache
def machine_code() -> tuple[Callable[..., Moment], Callable[..., float]]:
    """The equations of a moment and of the capillary, compiled."""
    return compiled(moment_at), compiled(capillary_flow)


@dataclass
class Brackets:
    """One system whose steady states are looked for."""

    tables: Tables
    plant: Plant
    around: Around
    warm: dict[str, float] = field(default_factory=dict)  # where each level ended last
    fine: float = COARSE
    moment: Callable[..., Moment] = moment_at
    capillary: Callable[..., float] = capillary_flow

    def level(self, name: str, function: Callable[[float], float], start: float, width: float, ends) -> float:
        """A level's root, begun where the last one was."""
        near = name in self.warm
        found = root(function, self.warm.get(name, start), 0.02 * width if near else width, ends, self.fine)
        self.warm[name] = found
        return found

    def at(self, low_kg: float, state: State, through: bool) -> Moment:
        """As `moment_at`."""
        return self.moment(self.tables, self.plant, self.around, low_kg, state, through)

    def shell(self, low_kg: float, state: State) -> State:
        """With the shell's temperature at rest."""

        def rate(kelvin: float) -> float:
            return self.at(low_kg, state._replace(shell_k=kelvin), False).rates.shell_k

        room = self.around.room_k
        return state._replace(shell_k=self.level("shell", rate, room + 30.0, 20.0, (room - 60.0, room + 220.0)))

    def sides(self, low_kg: float, state: State) -> State:
        """With the mass on the high side and the inlet's enthalpy at rest too."""
        state = self.shell(low_kg, state)
        c = saturation(self.tables, math.exp(state.log_high))
        whole = self.plant.condenser_m3 + self.plant.discharge_m3 + self.plant.liquid_line_m3

        def high_rate(log_kg: float) -> float:
            return -self.at(low_kg, state._replace(high_kg=math.exp(log_kg)), True).rates.log_high

        ends = (math.log(0.2 * whole / c.vapour_v), math.log(whole / c.liquid_v))
        log_kg = self.level("high", high_rate, math.log(0.5 * self.around.charge_kg), 0.2, ends)
        state = state._replace(high_kg=math.exp(log_kg))

        def inlet_rate(enthalpy: float) -> float:
            return self.at(low_kg, state._replace(inlet_h=enthalpy), True).rates.inlet_h

        around_it = (c.liquid_h - 3e5, c.vapour_h)
        return state._replace(inlet_h=self.level("inlet", inlet_rate, c.liquid_h - 3e4, 1e4, around_it))

    def lines(self, low_kg: float, state: State) -> State:
        """With the return gas at rest too."""
        e = saturation(self.tables, math.exp(state.log_low))

        def rate(enthalpy: float) -> float:
            return self.at(low_kg, self.sides(low_kg, state._replace(return_h=enthalpy)), True).rates.return_h

        ends = (e.liquid_h, e.vapour_h + 150.0 * e.vapour_cp)
        found = self.level("return", rate, e.vapour_h + 2e4, 1e4, ends)
        return self.sides(low_kg, state._replace(return_h=found))

    def flows(self, low_kg: float, state: State) -> State:
        """With the capillary passing just what the compressor moves, by the condensing pressure."""
        plant, tables = self.plant, self.tables

        def surplus(log_high: float) -> float:
            there = self.lines(low_kg, state._replace(log_high=log_high))
            now = self.at(low_kg, there, True)
            high, low = now.discharge_pa, now.suction_pa
            passed = 0.0
            if high > low:
                passed = self.capillary(
                    tables, plant.bore_m, plant.capillary_m, plant.roughness, high, there.inlet_h, low
                )
            return math.log(now.flow / max(passed, 1e-12)) if now.flow > 0.0 else -1.0

        room = self.around.room_k
        top = tables.low + tables.step * (tables.rows - 1) - 1e-6
        ends = (math.log(dew_pressure_at(tables, room + 1e-3)), top)
        start = math.log(dew_pressure_at(tables, room + 14.0))
        found = self.level("condensing", surplus, start, 0.1, ends)
        return self.lines(low_kg, state._replace(log_high=found))

    def balanced(self, low_kg: float) -> tuple[State, float]:
        """The state with a mass on the low side in which nothing else changes, and the charge that it takes."""
        room, air = self.around.room_k, self.around.air_k
        start = math.log(dew_pressure_at(self.tables, min(room, air) - 15.0))
        state = State(0.0, start, 0.5 * self.around.charge_kg, room + 30.0, 4e5, 2e5, 0.0)

        def rate(log_low: float) -> float:
            try:
                there = self.flows(low_kg, state._replace(log_low=log_low))
            except Nowhere:  # so low that the compressor moves less than the capillary passes at any pressure
                return 1.0
            return self.at(low_kg, there, True).rates.log_low

        ends = (self.tables.low + 0.05, math.log(dew_pressure_at(self.tables, air)) + 0.3)
        found = self.level("evaporating", rate, start, 0.2, ends)
        state = self.flows(low_kg, state._replace(log_low=found))
        low = self.at(low_kg, state, True).suction_pa
        oil = oil_holds(self.tables, self.plant, low, state.shell_k)
        return state._replace(oil_kg=oil), low_kg + state.high_kg + oil

    def anew(self, low_kg: float) -> tuple[State, float] | None:
        """The same begun without what was found before; None where there is no such state."""
        for _ in range(2):
            try:
                return self.balanced(low_kg)
            except (Nowhere, ValueError, OverflowError):
                self.warm.clear()
        return None

    def steady_states(self) -> list[State]:
        """Every state in which nothing changes, with this charge."""
        charge = self.around.charge_kg
        least, most = math.log(5e-3 * charge), math.log(0.97 * charge)
        masses = [math.exp(least + (most - least) * n / (SWEPT - 1)) for n in range(SWEPT)]
        swept = [(mass, found[1] - charge) for mass in masses if (found := self.anew(mass)) is not None]
        states = []
        for (before, off), (after, other) in pairwise(swept):
            if (off > 0.0) != (other > 0.0):
                states.append(self._crossing(before, off, after, other))
        return states

    def _crossing(self, before: float, off: float, after: float, other: float) -> State:
        """The state between two masses whose charges lie on both sides of the true one."""
        state, self.fine = None, FINE
        for turn in range(TURNS):
            part = 0.5 if turn % 3 == 2 else off / (off - other)
            middle = before + (after - before) * part
            found = self.anew(middle)
            if found is None:
                raise Nowhere
            state, charge = found
            gap = charge - self.around.charge_kg
            if abs(gap) < 1e-8 * self.around.charge_kg or after - before < 1e-12:
                break
            if (gap > 0.0) == (off > 0.0):
                before, off, other = middle, gap, 0.5 * other
            else:
                after, other, off = middle, gap, 0.5 * off
        assert state is not None
        self.fine = COARSE
        return state
