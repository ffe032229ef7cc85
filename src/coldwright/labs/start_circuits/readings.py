"""The readings that can tell start faults apart, and what one of them can show: a span of numbers, or a word."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from coldwright.appliance.cooler import cooler
from coldwright.appliance.unit import plate_of
from coldwright.appliance.wiring import ComponentKind, Wiring

STATES: tuple[str, ...] = ("runs", "hums")
FIRST = "before it ever ran"
AFTER_RUN = "five minutes after a run"
LATER = "some time after a start"
TICK = "tick from the relay"
MOST_PICK_UP = 1.2  # times the pick-up that the maker chose for this motor
DEVICES = (
    ComponentKind.CURRENT_RELAY,
    ComponentKind.POTENTIAL_RELAY,
    ComponentKind.PTC,
    ComponentKind.SOLID_STATE_SWITCH,
)
CAPACITORS = (ComponentKind.START_CAPACITOR, ComponentKind.RUN_CAPACITOR)
ON_PINS = (*DEVICES, ComponentKind.OVERLOAD, ComponentKind.RUN_CAPACITOR)


@dataclass(frozen=True)
class Diagnostic:
    """One reading that can tell faults apart. `off` are the components to take off first.

    `paid`: it counts for economy. Looking, listening and the readings that the lab asks of everyone do not.
    `when`: what went before, where that is another matter, as with a PTC that cannot cool; empty where it is none.
    """

    act: str
    on: tuple[str, ...]
    off: tuple[str, ...] = ()
    paid: bool = True
    when: str = ""

    @property
    def words(self) -> str:
        """The reading in words."""
        where = " to ".join(self.on)
        off = f", with the {' and the '.join(self.off)} off" if self.off else ""
        return f"{self.act} {where}".strip() + off + (f", {self.when}" if self.when else "")


@dataclass(frozen=True)
class Shows:
    """What shows: a span of numbers in SI, or a word."""

    low: float = math.nan
    high: float = math.nan
    word: str = ""

    def meets(self, other: Shows) -> bool:
        """Whether both can show the same.

        Parameters
        ----------
        other : Shows
            Another span or word [-]
        """
        if self.word or other.word:
            return self.word == other.word
        return self.low <= other.high and other.low <= self.high


def off_pins(wiring: Wiring) -> tuple[str, ...]:
    """Components to take off so that the pins are bare.

    Parameters
    ----------
    wiring : Wiring
        How the unit is wired [-]
    """
    return tuple(component.name for component in wiring.of_kind(*ON_PINS))


def diagnostics(wiring: Wiring) -> tuple[Diagnostic, ...]:
    """Every reading that this lab counts as a test, for a wiring.

    Parameters
    ----------
    wiring : Wiring
        How the unit is wired [-]
    """
    bare = off_pins(wiring)
    starts = (FIRST, LATER) if wiring.of_kind(ComponentKind.PTC) else ("",)
    found = [Diagnostic("listen", (), paid=False, when=when) for when in starts]
    found += [Diagnostic("inrush", ("cord L",), paid=False, when=when) for when in starts]
    found.append(Diagnostic("volts ac", ("outlet L", "outlet N"), paid=False))
    for device in wiring.of_kind(*DEVICES):
        relay = device.kind in (ComponentKind.CURRENT_RELAY, ComponentKind.POTENTIAL_RELAY)
        if relay:
            found.append(Diagnostic("inspect", (device.name,), paid=False))
        rests = (AFTER_RUN, FIRST, LATER) if device.kind is ComponentKind.PTC else ("",)
        pairs = _device_pairs(device.terminals)
        found += [Diagnostic("ohms", pair, (device.name,), when=when) for pair in pairs for when in rests]
    found += [Diagnostic("capacitance", c.terminals, (c.name,)) for c in wiring.of_kind(*CAPACITORS)]
    found += [Diagnostic("ohms", c.terminals, (c.name,)) for c in wiring.of_kind(ComponentKind.OVERLOAD)]
    pins = (("pin C", "pin R"), ("pin C", "pin S"), ("pin R", "pin S"))
    found += [Diagnostic("ohms", pair, bare) for pair in pins]
    found.append(Diagnostic("start test", (), bare))
    return tuple(found)


def _device_pairs(terminals: tuple[str, ...]) -> list[tuple[str, str]]:
    """Coil and contact of a relay, the two ends of another device; names are those of the wirings."""
    if len(terminals) == 2:
        return [(terminals[0], terminals[1])]
    first, second, third = terminals
    contact = (first, third) if first == "relay 1" else (second, third)
    return [(first, second), contact]


def sound(words: set[str]) -> str:
    """What was heard, in one short line: the compressor, its clicks, the relay's ticks.

    A compressor that runs at all counts as one that runs, whether or not some of its tries fail.

    Parameters
    ----------
    words : set of str
        Words of the events that were heard [-]
    """
    told: list[str] = [word for word in STATES if word in words][:1]
    told += ["clicks"] if "click from the compressor" in words else []
    told += ["ticks"] if TICK in words else []
    return ", ".join(told) or "silence"


def looks(model: str, text: str) -> str:
    """What the look at a relay tells, held against the plate: "as it should", "upside down" or "too large".

    Parameters
    ----------
    model : str
        The model [-]
    text : str
        What stands on the relay and how it sits [-]
    """
    plate = cooler(model)
    if "upside down" in text:
        return "upside down"
    found = re.search(r"pick-up ([0-9.]+) (A|V)", text)
    if found is None:
        return ""
    device = plate.parts.start_device
    most = plate_of(plate).locked_a if found[2] == "A" else MOST_PICK_UP * getattr(device, "pick_up_v", math.inf)
    return "too large" if float(found[1]) > most else "as it should"
