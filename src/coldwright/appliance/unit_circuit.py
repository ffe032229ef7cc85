"""The circuit of one unit at one moment, as instruments see it and as the passing of time needs it.

Terminals of a net are one node, unless a joint is loose. A component that was taken off keeps its own terminals, joined
to nothing. The outlet on the bench stays live: it is the known source to try a meter on.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from coldwright.appliance.circuit_elements import Elements, Moment
from coldwright.appliance.component_circuit import add_elements
from coldwright.appliance.parts import Parts
from coldwright.appliance.state import UnitState
from coldwright.appliance.wiring import ComponentKind, Wiring
from coldwright.electrical.network import Branch, Network, Solution, Source, Switch
from coldwright.errors import InputError

OUTLET = ("outlet L", "outlet N", "outlet E")
CORD = "cord"  # a clamp round the whole cord
NEUTRAL_TO_EARTH_OHM = 0.2  # where the house joins neutral to earth
STRAY_TO_LIVE_F, STRAY_TO_EARTH_F = 300e-12, 100e-12  # between wires in one bundle: illustrative
TEST_HERTZ = 10.0  # of the small signal that measures a capacitance
TEST_OHM = 1e3
SHORT_OHM = 1.0  # less than this cannot be charged: it is a short circuit to the meter


@dataclass(frozen=True)
class UnitCircuit:
    """One unit at one moment."""

    wiring: Wiring
    parts: Parts
    state: UnitState

    # ------------------------------------------------------- what instruments ask

    def terminals(self) -> tuple[str, ...]:
        """Terminals that a probe can reach."""
        return (*OUTLET, *self.wiring.terminals)

    @property
    def frequency_hz(self) -> float:
        """Frequency of the supply [Hz]."""
        return self.parts.supply.hertz

    def resistance(self, a: str, b: str) -> float:
        """Direct-current resistance between two terminals, sources dead [Ω]; inf for no path.

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        """
        first, second = self._node(a), self._node(b)
        return 0.0 if first == second else self._dead.resistance(first, second)

    def ac_voltage(self, a: str, b: str, load_ohm: float) -> float:
        """RMS alternating voltage between two terminals with a meter across them [V].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        load_ohm : float
            Resistance of the meter [Ω]
        """
        return abs(self._loaded(self._alternating, self.frequency_hz, a, b, load_ohm))

    def dc_voltage(self, a: str, b: str, load_ohm: float) -> float:
        """Direct voltage from `b` to `a` with a meter across them [V].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        load_ohm : float
            Resistance of the meter [Ω]
        """
        return self._loaded(self._direct, 0.0, a, b, load_ohm).real

    def capacitance(self, a: str, b: str) -> float:
        """Capacitance seen between two terminals [F]; 0 for none, inf for a short.

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        """
        first, second = self._node(a), self._node(b)
        if first == second:
            return float("inf")
        test = Source("capacitance test", first, second, 1.0, TEST_HERTZ, TEST_OHM)
        net = self._network(TEST_HERTZ, sources=False)
        solution = Network(net.branches, (test,), net.nodes, net.switches, net.coupled).solve(TEST_HERTZ)
        volts = solution.voltage(first, second)
        if abs(volts) < SHORT_OHM / TEST_OHM:
            return float("inf")
        admittance = (1 - volts) / TEST_OHM / volts
        return max(0.0, admittance.imag / (2 * math.pi * TEST_HERTZ))

    def ac_current(self, conductor: str) -> float:
        """RMS current in the wire at a terminal, or the net current of the whole cord [A].

        Parameters
        ----------
        conductor : str
            A terminal, or "cord" [-]
        """
        if conductor == CORD:
            cord = self.wiring.of_kind(ComponentKind.CORD)[0]
            return abs(sum(self._into(terminal) for terminal in cord.terminals[:2]))
        return abs(self._into(conductor))

    def series_current(self, a: str, b: str, shunt_ohm: float) -> float:
        """RMS current through a meter's shunt joined across two terminals [A].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        shunt_ohm : float
            Resistance of the shunt [Ω]
        """
        return abs(self._loaded(self._alternating, self.frequency_hz, a, b, shunt_ohm)) / shunt_ohm

    def power(self) -> tuple[float, float, float]:
        """Watts, RMS volts and RMS amps at the plug [W, V, A]."""
        cord = self.wiring.of_kind(ComponentKind.CORD)[0]
        live, neutral = (self._node(terminal) for terminal in cord.terminals[:2])
        volts, amps = self.solution.voltage(live, neutral), self._into(cord.terminals[0])
        if not self.state.plugged:
            return 0.0, 0.0, 0.0
        return (volts * amps.conjugate()).real, abs(volts), abs(amps)

    # --------------------------------------------------------- what time asks

    @cached_property
    def solution(self) -> Solution:
        """Currents and voltages at the supply's frequency, no meter connected."""
        return self._plain.solve(self.frequency_hz)

    def component_current(self, name: str) -> complex:
        """Phasor of the current in an element, 0 if the element is not in the circuit [A].

        Parameters
        ----------
        name : str
            Name of the element, such as "overload" or "relay: coil" [-]
        """
        return self.solution.current(name) if name in self.solution.names else 0j

    def component_voltage(self, a: str, b: str) -> complex:
        """Phasor of the voltage from terminal `b` to terminal `a` [V].

        Parameters
        ----------
        a, b : str
            Two terminals [-]
        """
        first, second = self._node(a), self._node(b)
        return 0j if first == second else self.solution.voltage(first, second)

    def capacitor_discharge_ohm(self, name: str) -> float:
        """Resistance that a capacitor with a direct voltage empties through [Ω].

        Parameters
        ----------
        name : str
            Name of the capacitor [-]
        """
        return self.resistance(*self.wiring.component(name).terminals)

    # ----------------------------------------------------------------- inside

    def _node(self, terminal: str) -> str:
        try:
            return self._nodes[terminal]
        except KeyError:
            raise InputError(
                f"there is no terminal {terminal!r} here; the terminals are {', '.join(self.terminals())}"
            ) from None

    @cached_property
    def _nodes(self) -> dict[str, str]:
        """Node of each terminal: its net, or itself where it hangs on none, was taken off, or its joint is loose."""
        nodes = {terminal: terminal for terminal in OUTLET} | self.wiring.net_of
        for terminal in self.parts.loose:
            nodes[terminal] = terminal
        for name in self.state.removed:
            nodes |= {terminal: terminal for terminal in self.wiring.component(name).terminals}
        return nodes

    @cached_property
    def _alternating(self) -> Network:
        return self._network(self.frequency_hz)

    @cached_property
    def _plain(self) -> Network:
        return self._network(self.frequency_hz, stray=False)

    @cached_property
    def _direct(self) -> Network:
        return self._network(0.0)

    @cached_property
    def _dead(self) -> Network:
        return self._network(0.0, sources=False)

    def _network(self, hertz: float, sources: bool = True, stray: bool = True) -> Network:
        into = Elements()
        now = Moment(self.parts, self.state, hertz, self._node, into)
        for component in self.wiring.components:
            add_elements(component, now)
        for terminal, ohm in self.parts.loose.items():
            owner = self.wiring.owner(terminal)
            if owner.name not in self.state.removed:
                into.resistor(f"joint at {terminal}", terminal, self.wiring.net_of[terminal], ohm)
        live, neutral, earth = OUTLET
        if sources:
            supply = self.parts.supply
            into.sources.append(Source("supply", live, neutral, supply.volts, supply.hertz, supply.wiring_ohm))
            into.branches.append(Branch("house neutral to earth", neutral, earth, NEUTRAL_TO_EARTH_OHM))
        if self.state.plugged:
            cord = self.wiring.of_kind(ComponentKind.CORD)[0]
            for outlet, plug in zip(OUTLET, cord.terminals[:3], strict=True):
                into.switches.append(Switch(f"contact of {plug}", outlet, self._node(plug), closed=True))
        if hertz > TEST_HERTZ and stray:
            self._add_stray(into)
        ends = set(self._nodes.values())
        taken = into.sources if sources else ()
        return Network(into.branches, taken, tuple(ends), into.switches, into.coupled)

    def _add_stray(self, into: Elements) -> None:
        nets = [f"net {net}" for net in self.wiring.nets]
        live, earth = self.wiring.net_of["cord L"], self.wiring.net_of["cord E"]
        for net in nets:
            for other, farad in ((live, STRAY_TO_LIVE_F), (earth, STRAY_TO_EARTH_F)):
                if net not in (live, earth):
                    into.branches.append(Branch(f"stray {net} to {other}", net, other, capacitance=farad))

    def _loaded(self, net: Network, hertz: float, a: str, b: str, load_ohm: float) -> complex:
        first, second = self._node(a), self._node(b)
        if first == second:
            return 0j
        return net.voltage(first, second, hertz, load_ohm)

    def _into(self, terminal: str) -> complex:
        """Current from the wire into the component at a terminal."""
        if terminal not in self.wiring.terminals:
            raise InputError(f"there is no wire at {terminal!r}; choose one of {', '.join(self.wiring.terminals)}")
        net = self._plain
        node, owner = self._node(terminal), self.wiring.owner(terminal).name
        total = 0j
        elements = [(e.name, e.a, e.b) for e in net.branches] + [(e.name, e.a, e.b) for e in net.switches]
        for name, a, b in elements:
            if name == owner or name.startswith(f"{owner}: "):
                total += self._toward(name, a, b, node)
        for pair in net.coupled:
            if pair.name == owner:
                for half, (a, b) in (("first", pair.first), ("second", pair.second)):
                    total += self._toward(f"{owner} {half}", a, b, node)
        return total

    def _toward(self, name: str, a: str, b: str, node: str) -> complex:
        if a == node:
            return self.solution.current(name)
        return -self.solution.current(name) if b == node else 0j

    def at(self, **changes: object) -> UnitCircuit:
        """The same unit with parts of its state changed.

        Parameters
        ----------
        **changes : object
            Fields of the state [-]
        """
        return replace(self, state=replace(self.state, **changes))  # type: ignore[arg-type]
