"""A circuit as a netlist, solved by nodal analysis for direct current or for one frequency.

Phasors are RMS, the supply stands at angle zero and inductive is +j. A part of the circuit that is joined to nothing
else floats: a voltage between two parts that do not touch is not defined, and is given as zero.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from coldwright.errors import InputError


@dataclass(frozen=True)
class Branch:
    """Resistance, inductance and capacitance in series between two nodes.

    `resistance` in ohms, `inductance` in henries, `capacitance` in farads, None for no capacitor. A branch of zero
    ohms is given a milliohm, as any wire has.
    """

    name: str
    a: str
    b: str
    resistance: float = 0.0
    inductance: float = 0.0
    capacitance: float | None = None

    def __post_init__(self) -> None:
        if self.a == self.b:
            raise InputError(f"{self.name} has both ends on {self.a}; it needs two different terminals")
        for what, value, unit in (("resistance", self.resistance, "Ω"), ("inductance", self.inductance, "H")):
            if not 0 <= value < math.inf:
                raise InputError(f"the {what} of {self.name} is {value:g} {unit}; it must be zero or more and finite")
        if self.capacitance is not None and not 0 < self.capacitance < math.inf:
            raise InputError(f"the capacitance of {self.name} is {self.capacitance:g} F; it must be above zero")

    def admittance(self, frequency_hz: float) -> complex:
        """Admittance at a frequency; 0 Hz is direct current, for which a capacitor is open.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero or more [Hz]

        Returns
        -------
        complex
            Admittance [S]
        """
        if self.capacitance is not None and frequency_hz == 0:
            return 0j
        omega = 2 * math.pi * frequency_hz
        impedance = complex(max(self.resistance, 1e-3), omega * self.inductance)
        if self.capacitance is not None:
            impedance += 1 / (1j * omega * self.capacitance)
        return 1 / impedance


@dataclass(frozen=True)
class Source:
    """A voltage from `b` to `a` behind a resistance, at one frequency [V, Hz, Ω]; 0 Hz is direct current."""

    name: str
    a: str
    b: str
    voltage: float
    frequency_hz: float
    resistance: float = 0.05

    def __post_init__(self) -> None:
        if self.a == self.b:
            raise InputError(f"{self.name} has both ends on {self.a}; it needs two different terminals")
        if not 0 < self.resistance < math.inf:
            raise InputError(f"the resistance of {self.name} is {self.resistance:g} Ω; it must be above zero")
        if not 0 <= self.frequency_hz < math.inf:
            raise InputError(f"the frequency of {self.name} is {self.frequency_hz:g} Hz; it must be zero or more")


class Network:
    """Branches and sources joined at named nodes.

    Parameters
    ----------
    branches : iterable of Branch
        The branches [-]
    sources : iterable of Source
        The sources [-]
    extra_nodes : sequence of str
        Nodes that exist whether or not a branch ends there [-]
    """

    def __init__(self, branches: Iterable[Branch], sources: Iterable[Source] = (), extra_nodes: Sequence[str] = ()):
        self.branches = tuple(branches)
        self.sources = tuple(sources)
        ends = {node for a, b in self._joints() for node in (a, b)}
        self.nodes = tuple(sorted(ends | set(extra_nodes)))

    def _joints(self) -> list[tuple[str, str]]:
        return [(b.a, b.b) for b in self.branches] + [(s.a, s.b) for s in self.sources]

    def _check(self, *nodes: str) -> None:
        for node in nodes:
            if node not in self.nodes:
                raise InputError(f"there is no terminal {node!r} here; the terminals are {', '.join(self.nodes)}")

    def islands(self, frequency_hz: float) -> list[set[str]]:
        """Sets of nodes that a current of this frequency can flow between.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero for direct current [Hz]
        """
        groups = [{node} for node in self.nodes]
        joints = [(p.a, p.b) for p in self.branches if p.admittance(frequency_hz) != 0]
        joints += [(s.a, s.b) for s in self.sources]
        for a, b in joints:
            first = next(g for g in groups if a in g)
            second = next(g for g in groups if b in g)
            if first is not second:
                groups.remove(second)
                first |= second
        return groups

    def voltages(self, frequency_hz: float, load: Branch | None = None) -> dict[str, complex]:
        """RMS phasor at each node, against one node of the part of the circuit it hangs on.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero for direct current; sources of other frequencies are wires behind their resistance [Hz]
        load : Branch, optional
            One more branch, such as a meter [-]

        Returns
        -------
        dict of str to complex
            Phasor of each node; one node of each floating part is zero [V]
        """
        branches = (*self.branches, load) if load is not None else self.branches
        net = Network(branches, self.sources, self.nodes) if load is not None else self
        result: dict[str, complex] = {}
        for island in net.islands(frequency_hz):
            result |= net._solve_island(sorted(island), frequency_hz)
        return result

    def _solve_island(self, nodes: list[str], frequency_hz: float) -> dict[str, complex]:
        currents = dict.fromkeys(nodes, 0j)
        for source in self.sources:
            if source.a in currents and source.frequency_hz == frequency_hz:
                currents[source.a] += source.voltage / source.resistance
                currents[source.b] -= source.voltage / source.resistance
        return self._potentials(nodes, frequency_hz, currents)

    def _potentials(self, nodes: list[str], frequency_hz: float, currents: dict[str, complex]) -> dict[str, complex]:
        """Potential of each node of one island against its first, with these currents fed in."""
        place = {node: i for i, node in enumerate(nodes)}
        matrix = np.zeros((len(nodes), len(nodes)), dtype=complex)
        parts = [(p.a, p.b, p.admittance(frequency_hz)) for p in self.branches]
        parts += [(s.a, s.b, complex(1 / s.resistance)) for s in self.sources]
        for a, b, admittance in parts:
            if a in place and b in place:
                i, j = place[a], place[b]
                matrix[i, i] += admittance
                matrix[j, j] += admittance
                matrix[i, j] -= admittance
                matrix[j, i] -= admittance
        fed = np.array([currents.get(node, 0j) for node in nodes[1:]], dtype=complex)
        solved = np.linalg.solve(matrix[1:, 1:], fed)
        return {nodes[0]: 0j} | {node: complex(v) for node, v in zip(nodes[1:], solved, strict=True)}

    def voltage(self, a: str, b: str, frequency_hz: float, load_ohm: float = math.inf) -> complex:
        """Voltage from `b` to `a`, with a meter of a given resistance across them.

        Parameters
        ----------
        a, b : str
            Two nodes [-]
        frequency_hz : float
            Frequency, zero for direct current [Hz]
        load_ohm : float
            Resistance of the meter, positive; inf for none [Ω]

        Returns
        -------
        complex
            RMS phasor; zero if no part of the circuit joins the two [V]
        """
        self._check(a, b)
        if not load_ohm > 0:
            raise InputError(f"the meter's resistance is {load_ohm:g} Ω; it must be above zero")
        if a == b:
            return 0j
        load = None if math.isinf(load_ohm) else Branch("meter", a, b, load_ohm)
        solved = self.voltages(frequency_hz, load)
        if load is None and not any({a, b} <= island for island in self.islands(frequency_hz)):
            return 0j
        return solved[a] - solved[b]

    def resistance(self, a: str, b: str) -> float:
        """Direct-current resistance between two nodes, sources dead.

        Parameters
        ----------
        a, b : str
            Two nodes [-]

        Returns
        -------
        float
            Resistance; inf if there is no path, 0 for a node against itself [Ω]
        """
        self._check(a, b)
        if a == b:
            return 0.0
        for island in self.islands(0.0):
            if {a, b} <= island:
                nodes = [b, *sorted(island - {b})]
                return self._potentials(nodes, 0.0, {a: 1 + 0j})[a].real  # one ampere in at a, out at b
        return math.inf
