"""Modified nodal analysis on numbered nodes: the arithmetic behind a network.

Unknowns are the voltages of the nodes and, for paths of few ohms, their currents too: so a milliohm contact and a
gigohm insulation stand side by side without loss. Ideal wires make their two nodes one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from coldwright.errors import InputError

CURRENT_UNKNOWN_BELOW_OHM = 1e3  # smaller impedances get a row of their own, larger ones an admittance


class Path(NamedTuple):
    """One way for current from node `a` to node `b` at one frequency: a voltage `emf` behind `ohm` [V, Ω].

    `partner` names the other winding of a coupled pair, whose current gives `mutual` volts per ampere here.
    """

    name: str
    a: int
    b: int
    ohm: complex
    emf: complex = 0j
    partner: str = ""
    mutual: complex = 0j

    @property
    def is_wire(self) -> bool:
        """Whether there is nothing in it."""
        return self.ohm == 0 and self.emf == 0 and not self.partner

    @property
    def has_row(self) -> bool:
        """Whether its current is an unknown."""
        low = abs(self.ohm) < CURRENT_UNKNOWN_BELOW_OHM
        return (low or self.emf != 0 or self.partner != "") and not self.is_wire


class Solved(NamedTuple):
    """Lowest node that each node is joined to, voltage of each node against it, current of each path but wires."""

    islands: list[int]
    volts: list[complex]
    currents: dict[str, complex]


def groups(count: int, pairs: Iterable[tuple[int, int]]) -> list[int]:
    """Lowest member of the group that each item is joined to.

    Parameters
    ----------
    count : int
        How many items [1]
    pairs : iterable of pairs
        Items that are joined [-]

    Returns
    -------
    list of int
        The lowest item of the group, for each item [1]
    """
    root = list(range(count))

    def find(i: int) -> int:
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    for a, b in pairs:
        i, j = find(a), find(b)
        root[max(i, j)] = min(i, j)
    return [find(i) for i in range(count)]


def solve_paths(count: int, paths: Sequence[Path], fed: tuple[int, int] | None = None) -> Solved:
    """Voltages and currents of a circuit.

    Parameters
    ----------
    count : int
        How many nodes [1]
    paths : sequence of Path
        The ways for current [-]
    fed : pair of int, optional
        Nodes where one ampere is fed in and taken out [-]

    Returns
    -------
    Solved
        Islands, voltages and currents [-]

    Raises
    ------
    InputError
        If the circuit has no single answer.
    """
    islands = groups(count, ((path.a, path.b) for path in paths))
    wired = groups(count, ((path.a, path.b) for path in paths if path.is_wire))
    free = [i for i in range(count) if wired[i] == i and islands[i] != i]
    with_row = [path for path in paths if path.has_row]
    rows = {path.name: len(free) + k for k, path in enumerate(with_row)}
    size = len(free) + len(rows)  # row `size` stands for the node at zero of each island and is cut off
    column = [size] * count
    for k, node in enumerate(free):
        column[node] = k
    at = [column[root] for root in wired]
    matrix, right = _equations(paths, at, rows, size)
    if fed is not None:
        right[at[fed[0]]] += 1
        right[at[fed[1]]] -= 1
    try:
        unknowns = np.linalg.solve(matrix[:size, :size], right[:size])
    except np.linalg.LinAlgError:
        raise InputError(
            "the circuit has no single answer: a coil and a capacitor without any resistance resonate in it, or "
            "windings have no impedance. Give the coil its resistance"
        ) from None
    known = [*unknowns.tolist(), 0j]
    volts = [known[place] for place in at]
    currents = {
        path.name: known[rows[path.name]] if path.has_row else (volts[path.a] - volts[path.b]) / path.ohm
        for path in paths
        if not path.is_wire
    }
    return Solved(islands, volts, currents)


def _equations(
    paths: Sequence[Path], at: list[int], rows: Mapping[str, int], size: int
) -> tuple[np.ndarray, np.ndarray]:
    """Kirchhoff's current law for each node, then Ohm's law for each path that has a row of its own."""
    i: list[int] = []
    j: list[int] = []
    values: list[complex] = []
    right = np.zeros(size + 1, dtype=complex)
    for path in paths:
        a, b = at[path.a], at[path.b]
        if path.has_row:
            row = rows[path.name]
            scale = 1 / max(1.0, abs(path.ohm))
            i += (a, b, row, row, row)
            j += (row, row, a, b, row)
            values += (1, -1, scale, -scale, -path.ohm * scale)
            if path.partner:
                i.append(row)
                j.append(rows[path.partner])
                values.append(-path.mutual * scale)
            right[row] = path.emf * scale
        elif not path.is_wire:
            siemens = 1 / path.ohm
            i += (a, b, a, b)
            j += (a, b, b, a)
            values += (siemens, siemens, -siemens, -siemens)
    matrix = np.zeros((size + 1, size + 1), dtype=complex)
    np.add.at(matrix, (i, j), values)
    return matrix, right


def wire_currents(count: int, wires: Sequence[tuple[str, int, int]], fed: Sequence[complex]) -> dict[str, complex]:
    """Currents of ideal wires; those that lie side by side share as wires of equal resistance do.

    Parameters
    ----------
    count : int
        How many nodes [1]
    wires : sequence of tuples
        Name and two nodes of each wire [-]
    fed : sequence of complex
        What all other paths bring to each node [A]

    Returns
    -------
    dict of str to complex
        Current of each wire, from its first node to its second [A]
    """
    matrix = np.zeros((count, count))
    for _, a, b in wires:
        matrix[a, a] += 1
        matrix[b, b] += 1
        matrix[a, b] -= 1
        matrix[b, a] -= 1
    roots = groups(count, ((a, b) for _, a, b in wires))
    free = [i for i, root in enumerate(roots) if root != i]
    level = np.zeros(count, dtype=complex)
    level[free] = np.linalg.solve(matrix[np.ix_(free, free)], np.asarray(fed, dtype=complex)[free])
    return {name: complex(level[a] - level[b]) for name, a, b in wires}
