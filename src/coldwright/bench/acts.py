"""Acts and what comes of them: how long each takes, what is told, and a reading with the state it was taken in."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.bench.hazards import Hazard
from coldwright.bench.sheet import SheetLine
from coldwright.instruments.display import Display
from coldwright.instruments.multimeter import MeterEvent

SECONDS = {
    "isolate": 30,
    "plug in": 30,
    "discharge": 30,
    "disconnect": 60,
    "reconnect": 60,
    "break vacuum": 300,
    "let stand": 12 * 3600,
    "new meter": 60,
    "zero leads": 10,
    "ohms": 15,
    "volts ac": 15,
    "volts dc": 15,
    "insulation": 60,
    "temperature": 30,
}

METER_HAZARDS = {
    MeterEvent.OHMS_ON_LIVE: Hazard.OHMS_ON_LIVE,
    MeterEvent.OHMS_ON_CHARGED: Hazard.OHMS_ON_CHARGED,
    MeterEvent.RUINED: Hazard.METER_RUINED,
}


@dataclass(frozen=True)
class Told:
    """What came of an act, as the learner reads it."""

    text: str
    display: Display | None = None
    hazards: tuple[Hazard, ...] = ()

    def __repr__(self) -> str:
        return "\n".join([self.text, *(f"HAZARD: {hazard.value}." for hazard in self.hazards)])


@dataclass(frozen=True)
class Taken:
    """A reading with the state it was taken in: what marking looks at."""

    line: SheetLine
    display: Display
    winding_k: float
    zeroed: bool
    plugged: bool
    connected: bool
    capacitor_v: float


def stopped(text: str) -> Display:
    """What is shown where a test was stopped before it began.

    Parameters
    ----------
    text : str
        Why it was stopped [-]
    """
    return Display(text, float("nan"), float("nan"), float("nan"))
