"""Circuits that tests and the benchmark share: whole coolers in the course's manner, and circuits given in print."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from typing import Any

from coldwright.electrical.network import Branch, Coupled, Network, Solution, Source, Switch

Impedances = tuple[tuple[complex, complex], tuple[complex, complex]]
STANDING: Impedances = ((8.2 + 11.4j, 0j), (0j, 21.0 + 14.5j))  # made up: no coupling at standstill
TURNING: Impedances = ((26.0 + 30.5j, 21.5 - 14.0j), (-21.5 + 14.0j, 58.0 + 47.0j))  # made up: not reciprocal


def cooler(
    volts: float = 230.0,
    hertz: float = 50.0,
    machine: Impedances = TURNING,
    closed: frozenset[str] | set[str] = frozenset({"thermostat"}),
    start_farad: float | None = None,
    run_farad: float | None = None,
) -> Network:
    """A plug-in cooler: cord, thermostat, lamp, fans, overload, relay coil, windings, capacitors, stray capacitance.

    `closed` names what is closed: thermostat, door switch, relay contact. It has 26 nodes and, with a run
    capacitor, 59 elements (a winding counts as one).
    """

    def joint(name: str, a: str, b: str) -> Switch:
        return Switch(name, a, b, closed=True)

    switches = [
        *(joint(f"plug {c}", f"outlet {c}", f"plug {c}") for c in "LNE"),
        Switch("thermostat", "live", "after thermostat", "thermostat" in closed, 0.02),
        Switch("door switch", "live", "lamp 1", "door switch" in closed, 0.02),
        Switch("relay contact", "relay line", "start device", "relay contact" in closed, 0.05),
        joint("condenser fan lead", "after thermostat", "condenser fan 1"),
        joint("evaporator fan lead", "after thermostat", "evaporator fan 1"),
        joint("overload lead", "after thermostat", "overload 1"),
        joint("common lead", "overload 2", "C"),
        joint("run lead", "R", "relay run"),
        joint("relay lead", "relay line", "neutral"),
        joint("lamp lead", "lamp 2", "neutral"),
        joint("condenser fan return", "condenser fan 2", "neutral"),
        joint("evaporator fan return", "evaporator fan 2", "neutral"),
        joint("shell earth", "shell", "earth"),
        joint("cabinet earth", "cabinet", "earth"),
    ]
    branches = [
        *(
            Branch(f"cord {c}", f"plug {c}", end, 0.12)
            for c, end in zip("LNE", ("live", "neutral", "earth"), strict=True)
        ),
        Branch("house", "outlet N", "outlet E", 0.2),
        Branch("lamp", "lamp 1", "lamp 2", 3526.0),
        Branch("condenser fan", "condenser fan 1", "condenser fan 2", 480.0, 1.1),
        Branch("evaporator fan", "evaporator fan 1", "evaporator fan 2", 1150.0, 2.6),
        Branch("overload", "overload 1", "overload 2", 0.06),
        Branch("relay coil", "relay run", "relay line", 0.25, 0.4e-3),
        Branch("run insulation", "R", "shell", 1e9),
        Branch("start insulation", "S", "shell", 1e9),
        Branch("start path", "start device", "S", 0.15, capacitance=start_farad),
    ]
    if run_farad is not None:
        branches.append(Branch("run capacitor", "relay run", "S", 0.4, capacitance=run_farad))
    for node in ("after thermostat", "lamp 1", "start device", "S", "overload 2", "R", "C", "neutral"):
        branches.append(Branch(f"stray {node} to live", node, "live", capacitance=300e-12))
        branches.append(Branch(f"stray {node} to earth", node, "earth", capacitance=100e-12))
    for node in (
        "condenser fan 1",
        "condenser fan 2",
        "evaporator fan 1",
        "evaporator fan 2",
        "overload 1",
        "lamp 2",
        "relay run",
        "relay line",
        "overload 2",
        "S",
    ):
        branches.append(Branch(f"leak {node}", node, "cabinet", 50e6))
    windings = Coupled("compressor", ("C", "R"), ("C", "S"), machine, (8.2, 21.0), hertz)
    supply = Source("supply", "outlet L", "outlet N", volts, hertz, 0.4)
    return Network(branches, (supply,), (), switches, (windings,))


# ------------------------------------------------------------- circuits of tests/published/network.toml


def published(inputs: dict[str, Any]) -> Solution:
    """A circuit in print, solved at its frequency.

    `branches` hold [from, to, Ω] or [from, to, Ω, H, F] and are named "part 0", "part 1" and so on; `sources` hold
    [plus, minus, V, Hz, series Ω, degrees]; `coupled` holds [from, to, from, to, H, H, mutual H], two coils without
    resistance.
    """
    branches = []
    for number, (a, b, ohm, *rest) in enumerate(inputs["branches"]):
        inductance, farad = rest or (0.0, 0.0)
        branches.append(Branch(f"part {number}", a, b, ohm, inductance, farad or None))
    sources = []
    for number, (plus, minus, volts, hertz, ohm, degrees) in enumerate(inputs["sources"]):
        emf = volts if hertz == 0 else cmath.rect(volts, math.radians(degrees))
        sources.append(Source(f"source {number}", plus, minus, emf, hertz, ohm))
    hertz = sources[0].frequency_hz
    coupled = []
    if "coupled" in inputs:
        a, b, c, d, first, second, mutual = inputs["coupled"]
        jw = 2j * math.pi * hertz
        z = ((jw * first, jw * mutual), (jw * mutual, jw * second))
        coupled.append(Coupled("coils", (a, b), (c, d), z, (0.0, 0.0), hertz))
    return Network(branches, sources, (), (), coupled).solve(hertz)


def element_current(inputs: dict[str, Any]) -> complex:
    """Current in the element named by `of` [A]."""
    return published(inputs).current(inputs["of"])


def source_sees(inputs: dict[str, Any]) -> complex:
    """Impedance that the first source looks into, its own resistance not counted [Ω]."""
    a, b = inputs["sources"][0][:2]
    solution = published(inputs)
    return solution.voltage(a, b) / -solution.current("source 0")


PUBLISHED: dict[str, Callable[[dict[str, Any]], float]] = {
    "element_current_size": lambda i: abs(element_current(i)),
    "element_current_real": lambda i: element_current(i).real,
    "element_current_imag": lambda i: element_current(i).imag,
    "element_power": lambda i: published(i).power(i["of"]).real,
    "source_sees_real": lambda i: source_sees(i).real,
    "source_sees_imag": lambda i: source_sees(i).imag,
}
