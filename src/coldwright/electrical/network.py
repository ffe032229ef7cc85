"""A circuit as a netlist, solved for direct current or for one frequency by modified nodal analysis.

Phasors are RMS, the supply stands at angle zero and inductive is +j. A part of the circuit that is joined to nothing
else floats: a voltage between two parts that do not touch is not defined, and is given as zero.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence

from coldwright.electrical.elements import Branch, Coupled, Source, Switch
from coldwright.electrical.nodal import Path, groups, solve_paths
from coldwright.electrical.solution import Solution
from coldwright.errors import InputError
from coldwright.quantities.checks import check_not_negative, check_ohms, check_positive

__all__ = ["Branch", "Coupled", "Network", "Solution", "Source", "Switch"]


class Network:
    """Elements joined at named nodes.

    Parameters
    ----------
    branches : iterable of Branch
        The branches [-]
    sources : iterable of Source
        The sources [-]
    extra_nodes : sequence of str
        Nodes that exist whether or not an element ends there [-]
    switches : iterable of Switch
        The switches [-]
    coupled : iterable of Coupled
        Pairs of windings that act on each other [-]
    """

    def __init__(
        self,
        branches: Iterable[Branch],
        sources: Iterable[Source] = (),
        extra_nodes: Sequence[str] = (),
        switches: Iterable[Switch] = (),
        coupled: Iterable[Coupled] = (),
    ):
        self.branches = tuple(branches)
        self.sources = tuple(sources)
        self.switches = tuple(switches)
        self.coupled = tuple(coupled)
        single: tuple[Branch | Source | Switch, ...] = (*self.branches, *self.sources, *self.switches)
        rows = [(element.name, (element.a, element.b)) for element in single]
        for pair in self.coupled:
            rows += zip(pair.names, (pair.first, pair.second), strict=True)
        self._ends = _by_name(rows)
        self.nodes = tuple(sorted({node for ends in self._ends.values() for node in ends} | set(extra_nodes)))
        self._place = {node: i for i, node in enumerate(self.nodes)}

    def solve(self, frequency_hz: float, loads: Iterable[Branch] = ()) -> Solution:
        """All voltages and currents at one frequency, with some more branches such as meters.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero for direct current; sources of other frequencies are only their resistance [Hz]
        loads : iterable of Branch
            Branches between terminals of this circuit [-]

        Returns
        -------
        Solution
            What voltages, currents and powers can be asked of [-]

        Raises
        ------
        InputError
            If the frequency is negative, coupled windings are not known at it, a load's terminal or name does not fit,
            or a coil and a capacitor without any resistance resonate.
        """
        loads = tuple(loads)
        self._check(*(node for load in loads for node in (load.a, load.b)))
        ends = _by_name([*self._ends.items(), *((load.name, (load.a, load.b)) for load in loads)])
        paths = self._paths(frequency_hz, loads)
        wires = [(path.name, path.a, path.b) for path in paths if path.is_wire]
        return Solution(self._place, ends, solve_paths(len(self.nodes), paths), wires)

    def solve_ac(self, frequency_hz: float, loads: Iterable[Branch] = ()) -> Solution:
        """The same as `solve` where only an alternating current makes sense: 0 Hz is refused.

        Parameters
        ----------
        frequency_hz : float
            Frequency, above zero [Hz]
        loads : iterable of Branch
            Branches between terminals of this circuit [-]

        Returns
        -------
        Solution
            What voltages, currents and powers can be asked of [-]
        """
        check_positive("the frequency", frequency_hz, "Hz", "An alternating supply has most often 50 Hz or 60 Hz")
        return self.solve(frequency_hz, loads)

    def islands(self, frequency_hz: float) -> list[set[str]]:
        """Sets of nodes that a current of this frequency can flow between.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero for direct current [Hz]
        """
        roots = groups(len(self.nodes), ((path.a, path.b) for path in self._paths(frequency_hz)))
        found: dict[int, set[str]] = {}
        for node, root in zip(self.nodes, roots, strict=True):
            found.setdefault(root, set()).add(node)
        return list(found.values())

    def voltages(self, frequency_hz: float, load: Branch | None = None) -> dict[str, complex]:
        """RMS phasor at each node, against the first node, by name, of the part of the circuit it hangs on.

        Parameters
        ----------
        frequency_hz : float
            Frequency, zero for direct current; sources of other frequencies are only their resistance [Hz]
        load : Branch, optional
            One more branch, such as a meter [-]

        Returns
        -------
        dict of str to complex
            Phasor of each node; one node of each floating part is zero [V]
        """
        solution = self.solve(frequency_hz, () if load is None else (load,))
        firsts = (next(other for other in self.nodes if solution.joined(node, other)) for node in self.nodes)
        return {node: solution.voltage(node, first) for node, first in zip(self.nodes, firsts, strict=True)}

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
            RMS phasor; zero if no part of the circuit joins the two: `islands` tells which parts float [V]
        """
        self._check(a, b)
        check_ohms("the meter's resistance", load_ohm)
        if a == b:
            return 0j
        loads = () if math.isinf(load_ohm) else (Branch(f"meter from {a} to {b}", a, b, load_ohm),)
        return self.solve(frequency_hz, loads).voltage(a, b)

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
        i, j = self._place[a], self._place[b]
        dead = [path._replace(emf=0j) for path in self._paths(0.0)]
        islands, volts, _ = solve_paths(len(self.nodes), dead, fed=(i, j))
        return (volts[i] - volts[j]).real if islands[i] == islands[j] else math.inf

    def check_floating(self, keep: Iterable[str] = ()) -> None:
        """Refuse a netlist in which a node hangs on nothing or on one element only.

        Switches count in either state.

        Parameters
        ----------
        keep : iterable of str
            Nodes that may do so, such as the pins of a plug [-]
        """
        keep = set(keep)
        self._check(*keep)
        on: dict[str, list[str]] = {node: [] for node in self.nodes if node not in keep}
        for name, ends in self._ends.items():
            for node in ends:
                if node in on:
                    on[node].append(name)
        loose = [f"{node} (on {''.join(names) or 'nothing'})" for node, names in on.items() if len(names) < 2]
        if loose:
            raise InputError(
                f"the circuit has floating nodes: {', '.join(loose)}; each node must join at least two elements. "
                "Was a wire left out?"
            )

    def _check(self, *nodes: str) -> None:
        for node in nodes:
            if node not in self._place:
                raise InputError(f"there is no terminal {node!r} here; the terminals are {', '.join(self.nodes)}")

    def _paths(self, frequency_hz: float, loads: tuple[Branch, ...] = ()) -> list[Path]:
        """Every way that a current of this frequency can take."""
        check_not_negative("the frequency", frequency_hz, "Hz", "Zero stands for direct current")
        place = self._place
        found = []
        for branch in (*self.branches, *loads):
            ohm = branch.impedance(frequency_hz)
            if ohm is not None:
                found.append(Path(branch.name, place[branch.a], place[branch.b], ohm))
        for switch in self.switches:
            if switch.closed:
                found.append(Path(switch.name, place[switch.a], place[switch.b], complex(switch.contact_ohm)))
        for source in self.sources:
            emf = source.emf(frequency_hz)
            found.append(Path(source.name, place[source.a], place[source.b], complex(source.resistance), emf))
        for pair in self.coupled:
            found += self._windings(pair, frequency_hz)
        return found

    def _windings(self, pair: Coupled, frequency_hz: float) -> tuple[Path, Path]:
        pair.check_frequency(frequency_hz)
        (a, b), (c, d) = ((self._place[x], self._place[y]) for x, y in (pair.first, pair.second))
        first, second = pair.names
        if frequency_hz == 0:
            return Path(first, a, b, complex(pair.dc_ohm[0])), Path(second, c, d, complex(pair.dc_ohm[1]))
        (z11, z12), (z21, z22) = pair.impedance
        return Path(first, a, b, z11, 0j, second, z12), Path(second, c, d, z22, 0j, first, z21)


def _by_name(rows: Iterable[tuple[str, tuple[str, str]]]) -> dict[str, tuple[str, str]]:
    """Ends of each element, no name used twice."""
    rows = list(rows)
    found = dict(rows)
    if len(found) < len(rows):
        twice = sorted(name for name, count in Counter(name for name, _ in rows).items() if count > 1)
        raise InputError(f"two elements are named {twice[0]!r}; each needs a name of its own")
    return found
