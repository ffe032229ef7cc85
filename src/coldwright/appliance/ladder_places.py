"""Where each rung and node of a ladder stands: rows down the page, columns from left to right.

A node is an upright line in one column, over all rows that touch it. A rung is a level line in a row of its own. Two
nodes in one column never share a row, so an upright line never runs into another.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from coldwright.appliance.rungs import Rung


@dataclass(frozen=True)
class NodePlace:
    """Column of a node, its first and last row, and every row that touches it."""

    column: int
    rows: tuple[int, ...]

    @property
    def top(self) -> int:
        """First row."""
        return self.rows[0]

    @property
    def bottom(self) -> int:
        """Last row."""
        return self.rows[-1]

    def meets(self, other: NodePlace) -> bool:
        """Whether the two would run into each other.

        Parameters
        ----------
        other : NodePlace
            Another node of the same circuit [-]
        """
        return self.column == other.column and self.top <= other.bottom and other.top <= self.bottom


def places(rungs: Sequence[Rung], first_row: int = 0) -> dict[str, NodePlace]:
    """Place of every node; rung i stands in row `first_row` + i.

    Parameters
    ----------
    rungs : sequence of Rung
        Rungs of one circuit, turned from left to right [-]
    first_row : int
        Row of the first rung [-]
    """
    order = [pair for rung in rungs for pair in pairwise(rung.nodes)]
    rows: dict[str, list[int]] = {}
    for row, rung in enumerate(rungs, start=first_row):
        for node in rung.nodes:
            rows.setdefault(node, []).append(row)
    while True:
        columns = _columns(order)
        placed = {node: NodePlace(columns[node], tuple(at)) for node, at in rows.items()}
        clash = next(((a, b) for a, b in combinations(placed, 2) if placed[a].meets(placed[b])), None)
        if clash is None:
            return placed
        order.append(clash)  # the second goes further right


def _columns(order: Sequence[tuple[str, str]]) -> dict[str, int]:
    """Leftmost column for each node, where the first of each pair is left of the second."""
    columns = {node: 0 for pair in order for node in pair}
    moved = True
    while moved:
        moved = False
        for left, right in order:
            if columns[right] <= columns[left]:
                columns[right] = columns[left] + 1
                moved = True
    return columns
