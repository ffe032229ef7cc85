"""Puts a ladder on paper with schemdraw's own SVG writer. Nothing is decided here about what is joined to what."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import schemdraw
from schemdraw import elements as elm
from schemdraw.segments import SegmentText

from coldwright.appliance.ladder_places import NodePlace, places
from coldwright.appliance.rungs import Rung
from coldwright.appliance.schematic_parts import Part, Symbol

GAP, ROW = 3.6, 2.6  # from column to column, from row to row, in half inches
NAME_SIZE, PIN_SIZE = 11, 9
NAME_WIDTH = 14  # letters in a line of a name
OPEN_RADIUS = 0.12
BOX_NODE = "*motor side"  # a node inside a component that is drawn as a box

SYMBOLS: Mapping[Symbol, Callable[[], Any]] = {
    Symbol.WIRE: elm.Line,
    Symbol.OPEN_SWITCH: lambda: elm.Switch(contacts=False),
    Symbol.CLOSED_SWITCH: lambda: elm.Switch(contacts=False, nc=True),
    Symbol.SOLID_STATE: elm.Triac,
    Symbol.LAMP: elm.Lamp2,
    Symbol.MOTOR: elm.Source,
    Symbol.BOX: elm.ResistorIEC,
    Symbol.PTC: elm.Thermistor,
    Symbol.CAPACITOR: elm.Capacitor,
    Symbol.WINDING: elm.Inductor,
}


@dataclass(frozen=True)
class Sheet:
    """A drawing, and where the nodes of the circuit in hand stand on it."""

    drawing: Any
    nodes: Mapping[str, NodePlace]
    name: Callable[[str], str]

    def text(self, words: str, x: float, y: float, size: int, valign: str = "bottom") -> None:
        """Write words, by default above a point.

        Parameters
        ----------
        words : str
            What to write [-]
        x, y : float
            Point on the sheet, y upwards [0.5 in]
        size : int
            Size of the letters [pt]
        valign : str
            Side of the words that touches the point [-]
        """
        if words:
            written = elm.Element(theta=0)
            written.segments.append(SegmentText((0, 0), words, align=("center", valign), fontsize=size))
            self.drawing.add(written.at((x, y)))

    def line(self, x0: float, y0: float, x1: float, y1: float) -> None:
        """Draw a wire.

        Parameters
        ----------
        x0, y0, x1, y1 : float
            Its two ends, y upwards [0.5 in]
        """
        self.drawing.add(elm.Line().endpoints((x0, y0), (x1, y1)))


def draw(circuits: Sequence[Sequence[Rung]], name: Callable[[str], str]) -> str:
    """SVG text of a ladder, its circuits one below the other [-].

    Parameters
    ----------
    circuits : sequence of sequence of Rung
        Rungs of each circuit, turned from left to right [-]
    name : callable
        Gives the name to show at a node [-]
    """
    schemdraw.svgconfig.text = "text"  # letters stay letters, whatever else is installed
    drawing = schemdraw.Drawing(canvas="svg", show=False)
    drawing.config(color="currentColor", fontsize=NAME_SIZE, lw=1.5, margin=0.3)
    row = 0
    for rungs in circuits:
        sheet = Sheet(drawing, places(rungs, row), name)
        for at, rung in enumerate(rungs, start=row):
            _rung(sheet, rung, at)
        for node in sheet.nodes:
            _node(sheet, node)
        row += len(rungs)
    return bytes(drawing.get_imagedata("svg")).decode("utf-8")


def _rung(sheet: Sheet, rung: Rung, row: int) -> None:
    y = -row * ROW
    for part, left, right in zip(rung.parts, rung.nodes, rung.nodes[1:], strict=False):
        x = sheet.nodes[left].column * GAP
        _part(sheet, part, x, y)
        if part.symbol is not Symbol.FRAME:
            sheet.line(x + GAP, y, sheet.nodes[right].column * GAP, y)
        ends = part.terminals if part.nodes[0] == left else part.terminals[::-1]
        for end, node, share in zip(ends, (left, right), (0.24, 0.76), strict=True):
            if end != node:
                sheet.text(_short(end, part.component), x + share * GAP, y + 0.1, PIN_SIZE)
    for i, node in enumerate(rung.nodes):
        place = sheet.nodes[node]
        wires = (i > 0) + (i < len(rung.parts)) + (row > place.top) + (row < place.bottom)
        if wires > 2 and not node.endswith(BOX_NODE):
            sheet.drawing.add(elm.Dot().at((place.column * GAP, y)))
        elif wires == 1 and sheet.name(node):  # a terminal that no wire reaches
            beside = -OPEN_RADIUS if i == 0 else OPEN_RADIUS
            ring = elm.Dot(radius=OPEN_RADIUS, open=True).fill(False)
            sheet.drawing.add(ring.at((place.column * GAP + beside, y)))


def _short(terminal: str, component: str) -> str:
    """What marks a terminal on its component: "1" for "timer 1" on the defrost timer, "pin C" on the compressor."""
    first, _, last = terminal.rpartition(" ")
    return last if first and component.endswith(first) else terminal


def _part(sheet: Sheet, part: Part, x: float, y: float) -> None:
    middle = x + GAP / 2
    if part.symbol is Symbol.FRAME:
        sheet.line(x, y, middle, y)
        sheet.drawing.add(elm.GroundChassis(lead=False, theta=0).at((middle, y)))
    else:
        sheet.drawing.add(SYMBOLS[part.symbol]().endpoints((x, y), (x + GAP, y)))
    if part.symbol is Symbol.MOTOR:
        sheet.text("M", middle, y, NAME_SIZE, valign="center")
    if part.nodes[0].endswith(BOX_NODE):
        return  # the box has the component's name
    words = [*textwrap.wrap(part.component, NAME_WIDTH), *textwrap.wrap(part.what, NAME_WIDTH)]
    sheet.text("\n".join(words), middle, y - 0.68, NAME_SIZE, valign="top")


def _node(sheet: Sheet, node: str) -> None:
    place = sheet.nodes[node]
    x, top, bottom = place.column * GAP, -place.top * ROW, -place.bottom * ROW
    sheet.text("\n".join(textwrap.wrap(sheet.name(node), NAME_WIDTH)), x, top + 0.5, NAME_SIZE)
    if node.endswith(BOX_NODE):
        sheet.drawing.add(elm.Rect(corner1=(x - 1, bottom - 0.3), corner2=(x, top + 0.3)).at((0, 0)))
    elif top > bottom:
        sheet.line(x, top, x, bottom)
