"""Elements of a circuit as they are gathered from its components, and the moment that they are gathered at."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field

from coldwright.appliance.parts import Parts
from coldwright.appliance.state import UnitState
from coldwright.appliance.wiring import Component
from coldwright.electrical.network import Branch, Coupled, Source, Switch

CHARGED_OHM = 1.0  # behind a charged capacitor


@dataclass
class Elements:
    """Elements of a circuit as they are gathered."""

    branches: list[Branch] = field(default_factory=list)
    switches: list[Switch] = field(default_factory=list)
    coupled: list[Coupled] = field(default_factory=list)
    sources: list[Source] = field(default_factory=list)

    def resistor(self, name: str, a: str, b: str, ohm: float, reactance: float = 0.0, hertz: float = 0.0) -> None:
        """Add a resistance with an inductive reactance, or nothing if it is open.

        Parameters
        ----------
        name, a, b : str
            Name and the two nodes [-]
        ohm : float
            Resistance, inf for open [Ω]
        reactance : float
            Inductive reactance at `hertz` [Ω]
        hertz : float
            Frequency of the reactance [Hz]
        """
        if math.isinf(ohm):
            return
        if ohm <= 0 and reactance == 0:
            self.switches.append(Switch(name, a, b, closed=True))
            return
        self.branches.append(Branch(name, a, b, ohm, reactance / (2 * math.pi * hertz) if reactance else 0.0))


@dataclass(frozen=True)
class Moment:
    """What an element builder looks at. `hertz` is 0 for direct current."""

    parts: Parts
    state: UnitState
    hertz: float
    node: Callable[[str], str]
    into: Elements

    def ends(self, component: Component) -> tuple[str, ...]:
        """Nodes of a component's terminals.

        Parameters
        ----------
        component : Component
            The component [-]
        """
        return tuple(self.node(terminal) for terminal in component.terminals)

    def two(self, component: Component) -> tuple[str, str]:
        """Nodes of a component that has two terminals.

        Parameters
        ----------
        component : Component
            The component [-]
        """
        first, second = component.terminals
        return self.node(first), self.node(second)
