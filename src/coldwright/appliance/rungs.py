"""A wiring taken apart into the rungs of a ladder.

Every part stands in just one rung. A rung starts and ends at nodes that earlier rungs have, so that the whole can be
drawn from live on the left to neutral on the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from coldwright.appliance.schematic_parts import Part, Symbol, parts_of
from coldwright.appliance.wiring import ComponentKind, Wiring
from coldwright.errors import InputError

MAIN = (("run winding", Symbol.WINDING), ("mains side", Symbol.BOX))  # what the first rung goes through, if it can


@dataclass(frozen=True)
class Rung:
    """Nodes from left to right, and the part between each two."""

    nodes: tuple[str, ...]
    parts: tuple[Part, ...]

    def reversed(self) -> Rung:
        """The same from the other end."""
        return Rung(self.nodes[::-1], self.parts[::-1])


@dataclass
class Ladder:
    """Parts not yet placed, nodes to branch off last, nodes already there, and the rungs so far."""

    left: list[Part]
    late: tuple[str, ...] = ()
    there: set[str] = field(default_factory=set)
    rungs: list[Rung] = field(default_factory=list)

    def ways(self, node: str) -> Iterator[tuple[Part, str]]:
        """Parts at a node that are not placed yet, windings first, each with the node it leads to.

        Parameters
        ----------
        node : str
            Where to look [-]
        """
        for part in sorted(self.left, key=lambda part: part.symbol is not Symbol.WINDING):
            if node in part.nodes:
                yield part, part.nodes[1 - part.nodes.index(node)]

    def paths(self, rung: Rung, goal: str) -> Iterator[Rung]:
        """Every way on from a rung's end to a goal that meets no node twice.

        Parameters
        ----------
        rung : Rung
            What has been walked [-]
        goal : str
            Node to reach [-]
        """
        if rung.nodes[-1] == goal:
            yield rung
            return
        for part, node in self.ways(rung.nodes[-1]):
            if node not in rung.nodes:
                yield from self.paths(Rung((*rung.nodes, node), (*rung.parts, part)), goal)

    def branch(self, start: str) -> Rung | None:
        """The shortest way from a node to another that is there; without one, the longest that leads nowhere.

        Parameters
        ----------
        start : str
            Node to start from [-]
        """
        seen, walked = {start}, [Rung((start,), ())]
        for rung in walked:
            if rung.nodes[-1] in self.there and rung.parts:
                return rung
            for part, node in self.ways(rung.nodes[-1]):
                if node not in seen:
                    seen.add(node)
                    walked.append(Rung((*rung.nodes, node), (*rung.parts, part)))
        return walked[-1] if walked[-1].parts else None

    def place(self, rung: Rung) -> None:
        """Place a rung, then all that branches off it, the far end first.

        Parameters
        ----------
        rung : Rung
            The rung [-]
        """
        self.left = [part for part in self.left if part not in rung.parts]
        new = [node for node in rung.nodes if node not in self.there]
        self.there.update(new)
        self.rungs.append(rung)
        late = [node for node in self.late if node in new]
        for node in [*(node for node in reversed(new) if node not in late), *late]:
            while branch := self.branch(node):
                self.place(branch)


def ladder(wiring: Wiring) -> tuple[tuple[Rung, ...], ...]:
    """Rungs of the mains circuit, then of each circuit apart from it, such as earth.

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]

    Raises
    ------
    InputError
        If there is no cord, or no way from its live to its neutral; the message names the wiring.
    """
    cords = wiring.of_kind(ComponentKind.CORD)
    if not cords:
        raise InputError(f"wiring {wiring.name!r} has no cord, so there is no live and no neutral to draw it between")
    live, neutral = cords[0].terminal("plug live"), cords[0].terminal("plug neutral")
    work = Ladder(parts_of(wiring))
    ways = list(work.paths(Rung((live,), ()), neutral))
    if not ways:
        raise InputError(
            f"wiring {wiring.name!r}: no way leads from {live!r} through components to {neutral!r}. Is a net missing?"
        )
    first = min(ways, key=_how_far_from_the_main_one)
    work.late = first.nodes[-2:]
    work.place(first)
    circuits = [from_left_to_right(work.rungs)]
    while work.left:
        start = work.left[0].nodes[0]
        work.rungs = []
        work.there.add(start)
        while branch := work.branch(start):
            work.place(branch)
        circuits.append(from_left_to_right(work.rungs))
    return tuple(circuits)


def _how_far_from_the_main_one(way: Rung) -> tuple[bool, int]:
    return not any((part.what, part.symbol) in MAIN for part in way.parts), len(way.parts)


def from_left_to_right(rungs: Iterable[Rung]) -> tuple[Rung, ...]:
    """The rungs, turned so that no way along them from left to right comes back to where it was.

    Parameters
    ----------
    rungs : iterable of Rung
        Each starts and, but for dead ends, ends at nodes of those before it [-]
    """
    after: dict[str, set[str]] = {}  # every node further right than this one
    turned = []
    for rung in rungs:
        right = rung.reversed() if rung.nodes[0] in after.get(rung.nodes[-1], set()) else rung
        turned.append(right)
        for i, node in enumerate(right.nodes):
            beyond = set(right.nodes[i + 1 :]).union(*(after.get(n, set()) for n in right.nodes[i + 1 :]))
            for other in [node, *(n for n, far in after.items() if node in far)]:
                after.setdefault(other, set()).update(beyond)
    return tuple(turned)
