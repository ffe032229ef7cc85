"""Pictures with their words: a cooler's schematic, and the volts along the way to a fan. Where do they stop?"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from html import escape
from itertools import pairwise
from typing import TYPE_CHECKING

from coldwright.appliance.cooler import cooler
from coldwright.appliance.parts import FanCondition, Parts, Stuck
from coldwright.appliance.schematic import schematic_svg, schematic_text
from coldwright.appliance.unit import arrival_state
from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.electrical.network import Branch, Network, Source
from coldwright.errors import InputError
from coldwright.instruments.meter_ranges import INPUT_OHM
from coldwright.panels.figures import Picture
from coldwright.panels.typed import read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.panels.words import say
from coldwright.quantities import Kind
from coldwright.quantities.constants import ICE_POINT_K

if TYPE_CHECKING:
    from matplotlib.figure import Figure

MODEL = "Tarn 17"
FAN = ("condenser fan 1", "condenser fan 2")
WAY = ("outlet L", "cord L", "thermostat 1", "thermostat 2", "timer 1", "timer 4", *FAN, "cord N", "outlet N")
NEUTRAL = "outlet N"
SEEN_V = 0.1  # steps below this are not worth a word here
ROOM_K = ICE_POINT_K + 25.0
LOOSE_OHM = 40.0  # at thermostat 2: large, so that it shows in the picture


def _open_fan(parts: Parts) -> Parts:
    fan = replace(parts.fans["condenser fan"], condition=FanCondition.OPEN)
    return replace(parts, fans={**parts.fans, "condenser fan": fan})


CASES: Mapping[str, Callable[[Parts], Parts]] = {
    "all good": lambda parts: parts,
    "thermostat open": lambda parts: replace(parts, thermostat=replace(parts.thermostat, stuck=Stuck.OPEN)),
    "loose joint": lambda parts: replace(parts, loose={"thermostat 2": LOOSE_OHM}),
    "fan open": _open_fan,
    "neutral broken": lambda parts: replace(parts, cord=replace(parts.cord, neutral_ohm=math.inf)),
}
LESSON = {
    "all good": "The fan gets its volts, and next to nothing is lost on the way.",
    "thermostat open": "The volts stop at the thermostat: they stand across it, and none are left for the fan.",
    "loose joint": "Volts stand across a joint, where there should be none: there it gets warm.",
    "fan open": "The fan gets its volts and does not turn: volts cannot tell more, so take it off and read ohms.",
    "neutral broken": "The fan stands still with 0 V across it, yet all of it is live, back to cord N: the break is "
    "behind it. A still fan does not mean a dead one.",
}


@dataclass(frozen=True)
class Schematic:
    """The schematic of a cooler and the same in words; a notebook shows both."""

    svg: str
    text: str

    def __repr__(self) -> str:
        return self.text

    def _repr_html_(self) -> str:
        words = escape(self.text)
        return f"{self.svg}<details><summary>The schematic in words</summary><pre>{words}</pre></details>"


@takes_text
def schematic(model: str) -> Schematic:
    """The schematic of a cooler.

    Parameters
    ----------
    model : str
        Such as "Tarn 17" [-]
    """
    wiring = cooler(model).wiring
    return Schematic(schematic_svg(wiring), schematic_text(wiring))


@dataclass(frozen=True)
class Way:
    """Volts to the outlet's neutral at each terminal on the way to the fan and back."""

    case: str
    volts: tuple[float, ...]

    @property
    def steps(self) -> dict[tuple[str, str], float]:
        """Volts lost from each terminal to the next [V]."""
        pairs = zip(pairwise(WAY), pairwise(self.volts), strict=True)
        return {ends: before - after for ends, (before, after) in pairs}

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        along = ", ".join(f"{name} {volts:.1f} V" for name, volts in zip(WAY, self.volts, strict=True))
        found = [f"{a} to {b}: {v:.1f} V" for (a, b), v in self.steps.items() if v > SEEN_V]
        return (
            f"{self.case.capitalize()}. Volts to {NEUTRAL}: {along}. Lost on the way: {'; '.join(found)}. "
            + (LESSON[self.case])
        )


def volts_on_the_way(case: str) -> Way:
    """Volts along the way to the condenser fan of a frost-free cooler, plugged in, its compressor taken off.

    Parameters
    ----------
    case : str
        One of `CASES` [-]

    Raises
    ------
    InputError
        If there is no such case; the message lists them.
    """
    if case not in CASES:
        raise InputError(f"there is no case {case!r}; there are {', '.join(CASES)}")
    model = cooler(MODEL)
    state = replace(arrival_state(ROOM_K), plugged=True, removed=frozenset({"overload"}))
    circuit = UnitCircuit(model.wiring, CASES[case](model.parts), state)
    return Way(case, tuple(circuit.ac_voltage(terminal, NEUTRAL, INPUT_OHM) for terminal in WAY))


@takes_text
def way_figure(case: str = "all good") -> Picture:
    """Volts along the way to the fan: where do they stop?

    Parameters
    ----------
    case : str
        "all good", "thermostat open", "loose joint", "fan open" or "neutral broken" [-]
    """
    way = volts_on_the_way(case)
    return Picture(_drawn(way), way.text)


def _drawn(way: Way) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 4.2), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    places = range(len(WAY))
    axes.plot(places, way.volts, "o-", color="black", label=f"volts to {NEUTRAL}")
    fan = WAY.index(FAN[0])
    axes.axvspan(fan, fan + 1, alpha=0.25, hatch="///", color="tab:blue", label="the fan")
    axes.set_xticks(list(places), WAY, rotation=60, ha="right")
    axes.set_ylim(bottom=-3)
    axes.set_ylabel("volts a.c.")
    axes.set_title(way.case)
    axes.legend(loc="lower left")
    return figure


@takes_text
def one_load(volts: str, resistance: str) -> None:
    """Print amps and watts of one load on one source, solved as a circuit.

    Parameters
    ----------
    volts : str
        Of the source, such as "18 V" [-]
    resistance : str
        Of the load, such as "3 ohm" [-]

    Raises
    ------
    AnswerError
        If one of the two cannot be read.
    InputError
        If one of the two is not above zero, or outside what makes sense.
    """
    supply = read_positive("volts", volts, Kind.VOLTAGE)
    ohm = read_positive("resistance", resistance, Kind.RESISTANCE, ". Nothing limits the current of a dead short")
    circuit = Network((Branch("load", "a", "b", ohm),), (Source("source", "a", "b", supply, 0.0, 1e-9),))
    amps = abs(circuit.solve(0.0).current("load"))
    say(f"{supply:g} V on {ohm:g} Ω: {amps:.4g} A, so {supply:g} V times {amps:.4g} A are {supply * amps:.4g} W.")
