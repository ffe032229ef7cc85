"""The schematic of a unit as it stands on the bench: where the two tips are, what is off, and the outlet with the plug.

The schematic itself comes from `appliance.schematic`; here it is only marked. Points are in the units of its picture.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from coldwright.appliance.ladder_places import NodePlace, places
from coldwright.appliance.rungs import Rung, ladder
from coldwright.appliance.schematic import schematic_svg
from coldwright.appliance.schematic_parts import Part, Symbol
from coldwright.appliance.unit_circuit import OUTLET
from coldwright.appliance.wiring import ComponentKind, Wiring
from coldwright.bench.unit_bench import UnitBench
from coldwright.panels.words import tips_words

INK = "currentColor"
RED, BLACK = "#b3261e", "#1f2933"
END_SHARE = 0.24  # of a part's width: where the mark of a terminal stands on the schematic
OUTLET_STEP = 44
AWAY, BELOW, HANDLE = 15, 21, 10  # from a point to the handle of a tip, and the handle's half width


@dataclass(frozen=True)
class Point:
    """A point of the picture, y downwards, and to which side a tip's handle hangs: -1 left, 1 right."""

    x: float
    y: float
    side: int


@dataclass(frozen=True)
class Placed:
    """A part, the middle of it, and its two terminals with their points."""

    part: Part
    middle: Point
    ends: tuple[tuple[str, Point], ...]


class UnitDrawing:
    """Draws one wiring, marked with how it stands on the bench.

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]
    """

    def __init__(self, wiring: Wiring) -> None:
        from coldwright.appliance.schematic_drawing import GAP, ROW

        self._gap, self._row = 36 * GAP, 36 * ROW  # 36 points in each half inch
        circuits = ladder(wiring)
        earth = wiring.of_kind(ComponentKind.CORD)[0].terminal("plug earth")
        self._picture = _open_below(schematic_svg(wiring).strip().removesuffix("</svg>").replace('role="img"', "", 1))
        self._placed: list[Placed] = []
        self.points: dict[str, Point] = {}
        first_row = 0
        for rungs in circuits:
            at = places(rungs, first_row)
            self._placed += self._parts(rungs, at, first_row)
            if earth in at:
                self._add_outlet(at, first_row)
            for name in set(at) & set(wiring.terminals):
                place = at[name]
                self.points[name] = Point(
                    place.column * self._gap, place.top * self._row, 1 if place.column == 0 else -1
                )
            first_row += len(rungs)
        for placed in self._placed:
            for name, point in placed.ends:
                self.points.setdefault(name, point)

    def _parts(self, rungs: Sequence[Rung], at: dict[str, NodePlace], first_row: int) -> Iterator[Placed]:
        for number, rung in enumerate(rungs, start=first_row):
            y = number * self._row
            for part, left in zip(rung.parts, rung.nodes, strict=False):
                x = at[left].column * self._gap
                near, far = part.terminals if part.nodes[0] == left else part.terminals[::-1]
                ends = ((near, END_SHARE, -1), (far, 1 - END_SHARE, 1))
                points = tuple((name, Point(x + share * self._gap, y, side)) for name, share, side in ends if name)
                yield Placed(part, Point(x + self._gap / 2, y, 0), points)

    def _add_outlet(self, at: dict[str, NodePlace], row: int) -> None:
        """The outlet of the room has its place right of the circuit of the earth wire, which is short."""
        left = (max(place.column for place in at.values()) + 0.45) * self._gap
        for number, name in enumerate(OUTLET):
            self.points[name] = Point(left + number * OUTLET_STEP, (row + 0.55) * self._row, 1)

    def svg(self, bench: UnitBench, tips: tuple[str, str]) -> str:
        """The picture; how the bench stands and where the tips are stands in its label.

        Parameters
        ----------
        bench : UnitBench
            The bench [-]
        tips : tuple of str
            Terminal of the red tip and of the black one [-]
        """
        label = escape(f"{_state(bench)} {tips_words(tips)}", quote=True)
        picture = self._picture.replace("<svg ", f'<svg role="img" aria-label="{label}" ', 1)
        marks = [
            *(self._off(each) for each in self._placed if each.part.component in bench.state.removed),
            self._outlet(bench.state.plugged),
            _tip(self.points[tips[0]], tips[0], "R"),
            _tip(self.points[tips[1]], tips[1], "B"),
        ]
        style = 'font-family="sans-serif" font-size="11" fill="none" stroke="currentColor" stroke-width="1.5"'
        return f"{picture}<g {style}>{''.join(marks)}</g></svg>"

    def _off(self, placed: Placed) -> str:
        """A dashed frame with "off" round a part that was taken off."""
        if placed.part.symbol is Symbol.WIRE:
            return ""
        x, y = placed.middle.x, placed.middle.y
        frame = f'<rect x="{x - 46:.1f}" y="{y - 20:.1f}" width="92" height="86" rx="4" stroke-dasharray="6 3"/>'
        return frame + _text(x, y + 62, "taken off", 'font-weight="bold"')

    def _outlet(self, plugged: bool) -> str:
        first, last = self.points[OUTLET[0]], self.points[OUTLET[-1]]
        width = last.x - first.x + 44
        frame = f'<rect x="{first.x - 22:.1f}" y="{first.y - 34:.1f}" width="{width:.1f}" height="76" rx="6"/>'
        middle = (first.x + last.x) / 2
        words = "plugged in" if plugged else "plug pulled, locked off"
        parts = [
            frame,
            _text(middle, first.y - 40, "outlet on the bench, always live"),
            _text(middle, first.y + 56, words),
        ]
        for name in OUTLET:
            point = self.points[name]
            parts.append(f'<circle cx="{point.x:.1f}" cy="{point.y:.1f}" r="4.3"/>')
            parts.append(_text(point.x, point.y - 12, name.split()[-1]))
        return "".join(parts)


def _open_below(picture: str) -> str:
    """The picture with room below its last wire for the handle of a tip."""

    def taller(found: re.Match[str]) -> str:
        return f'viewBox="{found[1]} {float(found[2]) + 2 * HANDLE:.1f}"'

    return re.sub(r'viewBox="(\S+ \S+ \S+) (\S+)"', taller, picture, count=1)


def _state(bench: UnitBench) -> str:
    words = "plugged in" if bench.state.plugged else "plug pulled and locked off"
    removed = ", ".join(sorted(bench.state.removed))
    return f"Schematic of the unit: {words}; {f'taken off: {removed}' if removed else 'nothing taken off'}."


def _text(x: float, y: float, words: str, extra: str = "") -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="middle" fill="{INK}" stroke="none" {extra}>{escape(words)}</text>'
    )


def _tip(point: Point, name: str, letter: str) -> str:
    """A tip: red is a round handle with R, black a square one with B, so that colour is not needed to tell them."""
    x, y = point.x + AWAY * point.side, point.y + BELOW
    if letter == "R":
        handle = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{HANDLE}" fill="{RED}" stroke="white"/>'
    else:
        left, top = x - HANDLE, y - HANDLE
        handle = (
            f'<rect x="{left:.1f}" y="{top:.1f}" width="{2 * HANDLE}" height="{2 * HANDLE}" rx="2" fill="{BLACK}" '
            'stroke="white"/>'
        )
    colour = RED if letter == "R" else INK
    dot = f'<circle cx="{point.x:.1f}" cy="{point.y:.1f}" r="3.5" fill="{colour}" stroke="none"/>'
    lead = f'<path d="M{point.x:.1f} {point.y:.1f}L{x:.1f} {y:.1f}" stroke="{colour}" stroke-width="3"/>'
    letters = (
        f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle" fill="white" stroke="none" font-weight="bold">'
        f"{letter}</text>"
    )
    title = f"<title>{'red' if letter == 'R' else 'black'} tip on {escape(name)}</title>"
    return f"<g>{title}{dot}{lead}{handle}{letters}</g>"
