"""What lies between the terminals inside each kind of component, for a schematic, and the symbol of each.

A part is what lies between two terminals, such as the run winding. A node is a net, a terminal that no wire reaches, or
a point inside a component.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum

from coldwright.appliance.wiring import TWO_ENDS, Component, ComponentKind, Wiring
from coldwright.errors import InputError

K = ComponentKind


class Symbol(Enum):
    """What a part is drawn as."""

    WIRE = "wire"
    OPEN_SWITCH = "switch, open at rest"
    CLOSED_SWITCH = "switch, closed at rest"
    SOLID_STATE = "solid-state switch"
    LAMP = "lamp"
    MOTOR = "motor"
    BOX = "box"
    PTC = "thermistor"
    CAPACITOR = "capacitor"
    WINDING = "winding"
    FRAME = "frame"


@dataclass(frozen=True)
class Part:
    """Of which component, what of it, its symbol, and the roles it lies between; "*" starts a point inside."""

    what: str
    symbol: Symbol
    a: str = TWO_ENDS[0]
    b: str = TWO_ENDS[1]
    component: str = ""
    terminals: tuple[str, str] = ("", "")  # "" where it ends inside
    nodes: tuple[str, str] = ("", "")

    @property
    def label(self) -> str:
        """Its name in words."""
        return f"{self.component}, {self.what}" if self.what else self.component


PARTS: Mapping[ComponentKind, tuple[Part, ...]] = {
    K.CORD: tuple(Part("", Symbol.WIRE, f"plug {wire}", wire) for wire in ("live", "neutral", "earth")),
    K.THERMOSTAT: (Part("", Symbol.OPEN_SWITCH),),
    K.DOOR_SWITCH: (Part("", Symbol.OPEN_SWITCH),),
    K.LAMP: (Part("", Symbol.LAMP),),
    K.FAN: (Part("", Symbol.MOTOR),),
    K.OVERLOAD: (Part("", Symbol.CLOSED_SWITCH),),
    K.CURRENT_RELAY: (Part("coil", Symbol.BOX, "line", "run"), Part("contact", Symbol.OPEN_SWITCH, "line", "start")),
    K.PTC: (Part("", Symbol.PTC),),
    K.SOLID_STATE_SWITCH: (Part("", Symbol.SOLID_STATE),),
    K.POTENTIAL_RELAY: (
        Part("coil", Symbol.BOX, "coil", "start"),
        Part("contact", Symbol.CLOSED_SWITCH, "start", "capacitor"),
    ),
    K.START_CAPACITOR: (Part("", Symbol.CAPACITOR),),
    K.RUN_CAPACITOR: (Part("", Symbol.CAPACITOR),),
    K.COMPRESSOR: (
        Part("run winding", Symbol.WINDING, "common", "run"),
        Part("start winding", Symbol.WINDING, "common", "start"),
        Part("shell", Symbol.FRAME, "shell", "*shell"),
    ),
    K.INVERTER_COMPRESSOR: (
        *(Part("winding", Symbol.WINDING, role, "*star") for role in ("first", "second", "third")),
        Part("shell", Symbol.FRAME, "shell", "*shell"),
    ),
    K.INVERTER_BOARD: (
        Part("mains side", Symbol.BOX, "live", "neutral"),
        *(Part("", Symbol.WIRE, "*motor side", role) for role in ("first", "second", "third", "plus", "minus")),
    ),
    K.DEFROST_TIMER: (
        Part("cooling contact", Symbol.CLOSED_SWITCH, "common", "cooling"),
        Part("defrost contact", Symbol.OPEN_SWITCH, "common", "defrost"),
        Part("motor", Symbol.MOTOR, "common", "motor"),
    ),
    K.DEFROST_HEATER: (Part("", Symbol.BOX),),
    K.TERMINATOR: (Part("", Symbol.OPEN_SWITCH),),
    K.CABINET: (Part("", Symbol.FRAME, "metal", "*metal"),),
}


def parts_of(wiring: Wiring) -> list[Part]:
    """Every part of every component, with its terminals and the nodes it lies between.

    Parameters
    ----------
    wiring : Wiring
        The wiring [-]

    Raises
    ------
    InputError
        If both ends of a part are in one net; the message names the wiring, the part and the net.
    """
    net_of = {terminal: net for net, joined in wiring.nets.items() for terminal in joined}

    def end(component: Component, role: str) -> tuple[str, str]:
        if role.startswith("*"):
            return "", f"{component.name} {role}"
        terminal = component.terminal(role)
        return terminal, net_of.get(terminal, terminal)

    found = []
    for component in wiring.components:
        for part in PARTS[component.kind]:
            (a, node_a), (b, node_b) = end(component, part.a), end(component, part.b)
            placed = replace(part, component=component.name, terminals=(a, b), nodes=(node_a, node_b))
            if node_a == node_b:
                raise InputError(
                    f"wiring {wiring.name!r}: both ends of {placed.label} are in net {node_a!r}, so it is bridged. "
                    "Which of the two belongs elsewhere?"
                )
            found.append(placed)
    return found
