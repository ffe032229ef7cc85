"""How a cooler is wired: its components, their terminals, and the nets that join them. Read from TOML and checked.

A component is what a technician can take off and fit: it has terminals, each with its own name. A net is one joint:
all terminals of a net are joined by wire. What a component does between its terminals stands in `parts`; the state of
the moment makes a circuit of it in `circuit`.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache, cached_property
from importlib import resources
from typing import Any

from coldwright.errors import InputError
from coldwright.quantities.checks import check_flag


class ComponentKind(Enum):
    """What a component is, in the trade's words."""

    CORD = "cord"
    THERMOSTAT = "thermostat"
    DOOR_SWITCH = "door switch"
    LAMP = "lamp"
    FAN = "fan"
    OVERLOAD = "overload"
    CURRENT_RELAY = "current relay"
    PTC = "PTC"
    SOLID_STATE_SWITCH = "solid-state switch"
    POTENTIAL_RELAY = "potential relay"
    START_CAPACITOR = "start capacitor"
    RUN_CAPACITOR = "run capacitor"
    COMPRESSOR = "compressor"
    INVERTER_COMPRESSOR = "inverter compressor"
    INVERTER_BOARD = "inverter board"
    DEFROST_TIMER = "defrost timer"
    DEFROST_HEATER = "defrost heater"
    TERMINATOR = "terminator"
    CABINET = "cabinet"


TWO_ENDS = ("end 1", "end 2")
ROLES: Mapping[ComponentKind, tuple[str, ...]] = {
    ComponentKind.CORD: ("plug live", "plug neutral", "plug earth", "live", "neutral", "earth"),
    ComponentKind.CURRENT_RELAY: ("line", "run", "start"),
    ComponentKind.POTENTIAL_RELAY: ("coil", "start", "capacitor"),
    ComponentKind.COMPRESSOR: ("common", "run", "start", "shell"),
    ComponentKind.INVERTER_COMPRESSOR: ("first", "second", "third", "shell"),
    ComponentKind.INVERTER_BOARD: ("live", "neutral", "first", "second", "third", "plus", "minus"),
    ComponentKind.DEFROST_TIMER: ("common", "defrost", "motor", "cooling"),
    ComponentKind.CABINET: ("metal",),
}
PLUG = ("plug L", "plug N", "plug E")  # a cord's first three terminals; benches, labs and state go by these names


@dataclass(frozen=True)
class Component:
    """One component: its name, what it is, and the name of the terminal in each role."""

    name: str
    kind: ComponentKind
    terminals: tuple[str, ...]

    @property
    def roles(self) -> tuple[str, ...]:
        """What each terminal is for, in the order of `terminals`."""
        return ROLES.get(self.kind, TWO_ENDS)

    def terminal(self, role: str) -> str:
        """Name of the terminal in a role.

        Parameters
        ----------
        role : str
            One of `roles` [-]
        """
        return self.terminals[self.roles.index(role)]


@dataclass(frozen=True)
class Wiring:
    """One wiring: components and the nets that join their terminals."""

    name: str
    title: str
    components: tuple[Component, ...]
    nets: Mapping[str, tuple[str, ...]]
    is_test: bool = False  # a test cord, not a cooler

    @property
    def terminals(self) -> tuple[str, ...]:
        """Every terminal a probe can reach, in the order of the components."""
        return tuple(name for component in self.components for name in component.terminals)

    @cached_property
    def net_of(self) -> dict[str, str]:
        """Name of the node of each terminal: its net's, or its own where it is in none."""
        nodes = {terminal: terminal for terminal in self.terminals}
        return nodes | {terminal: f"net {net}" for net, joined in self.nets.items() for terminal in joined}

    def of_kind(self, *kinds: ComponentKind) -> tuple[Component, ...]:
        """Components of these kinds.

        Parameters
        ----------
        *kinds : ComponentKind
            Kinds wanted [-]
        """
        return tuple(component for component in self.components if component.kind in kinds)

    def component(self, name: str) -> Component:
        """The component of that name.

        Parameters
        ----------
        name : str
            Such as "overload" [-]

        Raises
        ------
        InputError
            If there is none; the message lists those there are.
        """
        for component in self.components:
            if component.name == name:
                return component
        names = ", ".join(component.name for component in self.components)
        raise InputError(f"this unit has no {name!r}; its components are {names}")

    def owner(self, terminal: str) -> Component:
        """The component that a terminal belongs to.

        Parameters
        ----------
        terminal : str
            Such as "relay 1" [-]
        """
        for component in self.components:
            if terminal in component.terminals:
                return component
        raise InputError(f"there is no terminal {terminal!r} here; the terminals are {', '.join(self.terminals)}")


def wiring_from(entry: Mapping[str, Any]) -> Wiring:
    """A wiring from one table of a TOML file.

    Parameters
    ----------
    entry : mapping
        Keys `name`, `title`, `components` (name to `kind` and `terminals`) and `nets` (name to terminals) [-]

    Raises
    ------
    InputError
        If something is not of its kind or a name is empty, a kind is unknown, a terminal stands twice or in no net, a
        net joins fewer than two terminals or a plug has other names; the message names the wiring and the thing.
    """
    if not isinstance(entry, Mapping):
        raise InputError(f"a wiring is {entry!r}; it must be a table")
    name = entry.get("name", "")
    if name == "":
        raise InputError('a wiring has no name; add a line such as name = "current relay"')
    _text("a wiring: its name", name)
    title = _text(f"wiring {name!r}: its title", entry.get("title", name))
    is_test = entry.get("is_test", False)
    check_flag(f"wiring {name!r}: is_test", is_test)
    listed = _table(f"wiring {name!r}: components", entry.get("components", {}))
    components = tuple(_component(name, key, value) for key, value in listed.items())
    joints = _table(f"wiring {name!r}: nets", entry.get("nets", {}))
    nets = {key: _names(f"wiring {name!r}: net {key!r}", value) for key, value in joints.items()}
    known = [terminal for component in components for terminal in component.terminals]
    for terminal in known:
        if known.count(terminal) > 1:
            raise InputError(f"wiring {name!r}: terminal {terminal!r} stands twice; each terminal needs its own name")
    wired = [terminal for net in nets.values() for terminal in net]
    for net, joined in nets.items():
        if len(joined) < 2:
            raise InputError(f"wiring {name!r}: net {net!r} joins {len(joined)} terminals; a net joins two or more")
        for terminal in joined:
            if terminal not in known:
                raise InputError(f"wiring {name!r}: net {net!r} has {terminal!r}, which no component has")
            if wired.count(terminal) > 1:
                raise InputError(f"wiring {name!r}: terminal {terminal!r} is in two nets; join the nets into one")
    cord = [t for c in components if c.kind is ComponentKind.CORD for t in c.terminals[:3]]
    if cord and tuple(cord) != PLUG:
        raise InputError(f"wiring {name!r}: the plug's terminals are {', '.join(cord)}; they must be {', '.join(PLUG)}")
    probes = [c.terminal(r) for c in components if c.kind is ComponentKind.INVERTER_BOARD for r in ("plus", "minus")]
    for terminal in known:
        if terminal not in wired and terminal not in cord and terminal not in probes:
            raise InputError(f"wiring {name!r}: terminal {terminal!r} floats: it is in no net. Join it to one")
    return Wiring(name, title, components, nets, is_test)


def _table(what: str, value: object) -> Mapping[str, Any]:
    if not isinstance(value, Mapping):
        raise InputError(f"{what} is {value!r}; it must be a table")
    for key in value:
        _text(f"{what}: a name in it", key)
    return value


def _names(what: str, value: object) -> tuple[str, ...]:
    if not isinstance(value, list | tuple):
        raise InputError(f"{what} is {value!r}; it must be a list of terminals")
    return tuple(_text(f"{what}: a terminal", each) for each in value)


def _text(what: str, value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise InputError(f"{what} is {value!r}; it must be text that is not empty")
    return value


def _component(wiring: str, name: str, value: object) -> Component:
    value = _table(f"wiring {wiring!r}: {name}", value)
    try:
        kind = ComponentKind(value.get("kind"))
    except ValueError:
        kinds = ", ".join(each.value for each in ComponentKind)
        raise InputError(
            f"wiring {wiring!r}: {name} is of the kind {value.get('kind')!r}; known kinds are {kinds}"
        ) from None
    component = Component(name, kind, _names(f"wiring {wiring!r}: {name}", value.get("terminals", ())))
    if len(component.terminals) != len(component.roles):
        raise InputError(
            f"wiring {wiring!r}: {name} has {len(component.terminals)} terminals; a {kind.value} has "
            f"{len(component.roles)}: {', '.join(component.roles)}"
        )
    return component


@cache
def wirings() -> Mapping[str, Wiring]:
    """The wirings that come with the course, by name."""
    text = resources.files("coldwright.appliance").joinpath("data/wirings.toml").read_text(encoding="utf-8")
    return {wiring.name: wiring for wiring in (wiring_from(entry) for entry in tomllib.loads(text)["wiring"])}
