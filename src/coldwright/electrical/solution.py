"""The solved state of a circuit at one frequency: any number of questions from one solve."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from coldwright.electrical.nodal import Solved, wire_currents
from coldwright.errors import InputError


class Solution:
    """Voltages and currents of a circuit at one frequency.

    The nodes go by their places; the first node of each part of the circuit that hangs together is at zero.

    Parameters
    ----------
    place : mapping of str to int
        Place of each node [1]
    ends : mapping of str to pair of str
        The two nodes of each element [-]
    solved : Solved
        Islands, voltages and currents [-]
    wires : sequence of tuples
        Name and places of the two nodes of each ideal wire [-]
    """

    def __init__(
        self,
        place: Mapping[str, int],
        ends: Mapping[str, tuple[str, str]],
        solved: Solved,
        wires: Sequence[tuple[str, int, int]],
    ):
        self._place, self._ends, self._solved, self._wires = place, ends, solved, wires

    @property
    def names(self) -> frozenset[str]:
        """Names of all elements, those without current included."""
        return frozenset(self._ends)

    def joined(self, a: str, b: str) -> bool:
        """Whether a current can flow between two nodes.

        Parameters
        ----------
        a, b : str
            Two nodes [-]
        """
        islands = self._solved.islands
        return islands[self._at(a)] == islands[self._at(b)]

    def voltage(self, a: str, b: str) -> complex:
        """Voltage from `b` to `a`.

        Parameters
        ----------
        a, b : str
            Two nodes [-]

        Returns
        -------
        complex
            RMS phasor; zero if no part of the circuit joins the two [V]
        """
        volts = self._solved.volts
        return volts[self._at(a)] - volts[self._at(b)] if self.joined(a, b) else 0j

    def current(self, name: str) -> complex:
        """Current of an element from its first node through it to its second.

        Several ideal wires that join the same nodes side by side share their current as equal wires do.

        Parameters
        ----------
        name : str
            Name of a branch, source, switch or coupled winding [-]

        Returns
        -------
        complex
            RMS phasor; zero for an open element [A]
        """
        if name not in self._ends:
            raise InputError(f"there is no element {name!r} here; the elements are {', '.join(sorted(self._ends))}")
        if name in self._solved.currents:
            return self._solved.currents[name]
        return self._wire_currents.get(name, 0j)

    def power(self, name: str) -> complex:
        """Power into an element: watts, and reactive volt-amperes as the imaginary part.

        Parameters
        ----------
        name : str
            Name of a branch, source, switch or coupled winding [-]

        Returns
        -------
        complex
            Complex power, its real part negative for a source that feeds the circuit [VA]
        """
        current = self.current(name)
        return self.voltage(*self._ends[name]) * current.conjugate()

    def _at(self, node: str) -> int:
        if node not in self._place:
            raise InputError(f"there is no terminal {node!r} here; the terminals are {', '.join(self._place)}")
        return self._place[node]

    @cached_property
    def _wire_currents(self) -> dict[str, complex]:
        """Currents of the ideal wires, from what the other elements bring to each node."""
        fed = [0j] * len(self._place)
        for name, current in self._solved.currents.items():
            a, b = self._ends[name]
            fed[self._place[a]] -= current
            fed[self._place[b]] += current
        return wire_currents(len(fed), self._wires, fed)
