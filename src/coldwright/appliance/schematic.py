"""A wiring as a schematic: a picture drawn by schemdraw, and the same in words. Both come from the same netlist.

Switches stand as they are with the plug out, the door shut and everything at room temperature, but for the thermostat
and the start switches, which stand open.
"""

from __future__ import annotations

import re
from html import escape

from coldwright.appliance.rungs import Rung, ladder
from coldwright.appliance.wiring import Wiring

NAMED_INSIDE = {"*motor side": "motor side", "*star": "star point"}  # points inside a component that have a name


def node_name(node: str) -> str:
    """Name to show at a node; nothing where a part just ends inside its component [-].

    Parameters
    ----------
    node : str
        A node of a rung [-]
    """
    component, star, point = node.partition(" *")
    if not star:
        return node
    point = NAMED_INSIDE.get(f"*{point}", "")
    return f"{component}, {point}" if point else ""


def schematic_text(wiring: Wiring) -> str:
    """The schematic in words: a line for each rung, from left to right, then a line for each net [-].

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]

    Raises
    ------
    InputError
        If the wiring has no cord, no way from live to neutral, or a bridged part.
    """
    lines = [f"{wiring.title}. Names in square brackets are nets: all that is joined by wire.", "From live to neutral:"]
    for number, rungs in enumerate(ladder(wiring)):
        lines += ["Apart from these:"] if number == 1 else []
        lines += [f"- {_rung_text(rung, wiring)}" for rung in rungs]
    lines.append("What each net joins:")
    lines += [f"- [{net}]: {', '.join(joined)}" for net, joined in wiring.nets.items()]
    return "\n".join(lines) + "\n"


def _rung_text(rung: Rung, wiring: Wiring) -> str:
    shown = [f"[{node}]" if node in wiring.nets else node_name(node) for node in rung.nodes]
    words = [shown[0]]
    for part, node in zip(rung.parts, shown[1:], strict=True):
        words += [part.label, node]
    return " – ".join(word for word in words if word)


def schematic_svg(wiring: Wiring) -> str:
    """The schematic as an SVG picture in the colour of the text around it, with a title and its own words inside [-].

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]

    Raises
    ------
    InputError
        If the wiring has no cord, no way from live to neutral, or a bridged part.

    Notes
    -----
    Symbols are those that schemdraw offers in the manner of IEC 60617 (from memory). It says how things are joined, not
    where they sit in the unit.
    """
    from coldwright.appliance.schematic_drawing import draw

    picture = re.sub(r"stroke-dasharray:-;", "", draw(ladder(wiring), node_name))
    picture = re.sub(r'font-family="[^"]*"', 'font-family="sans-serif"', picture)
    opening, rest = picture.split(">", 1)
    width, height = re.findall(r'(?:height|width)="([\d.]+)pt"', opening)[::-1]
    opening = re.sub(r' (?:height|width)="[^"]*"', "", opening)
    title, words = escape(f"Schematic: {wiring.title}"), escape(schematic_text(wiring))
    return (
        f'{opening} role="img" style="max-width:{width}pt;max-height:{height}pt;width:100%">'
        f"<title>{title}</title><desc>{words}</desc>{rest}\n"
    )
