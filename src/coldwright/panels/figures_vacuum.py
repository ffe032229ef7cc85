"""A picture with its words: pressure after the pump is shut off, in a dry, a wet and a leaking system."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures import Picture
from coldwright.panels.typed import read_positive
from coldwright.quantities import Kind, in_unit, read
from coldwright.refrigerants.water import water_vapour_pressure
from coldwright.sealed_system.service.decay import DecayReading, read_decay
from coldwright.sealed_system.service.decay_words import microns, rate
from coldwright.sealed_system.service.evacuation import hold
from coldwright.sealed_system.service.vacuum_flow import THREE_EIGHTHS_HOSE, Pump
from coldwright.sealed_system.service.vacuum_system import Rig, VacuumState, VacuumSystem

if TYPE_CHECKING:
    from matplotlib.figure import Figure

START_MICRONS = 300.0
LEAK_M2 = 1.6e-10
WET_M2 = 6e-8  # water in the oil and the drier comes out slowly
WATER_KG = 5e-3
DISSOLVED_KG = 6e-6
LONGEST_S = 8 * 3600.0
POINTS = 121
HOSES = Rig(Pump(1e-3, 2.0), (THREE_EIGHTHS_HOSE,), (THREE_EIGHTHS_HOSE,))
LABELS = {"dry": ("dry and tight", "-"), "wet": ("water in it", "--"), "leak": ("a leak", "-.")}


@dataclass(frozen=True)
class Decays:
    """Pressures of three like systems after the pump is shut off, and a learner's own readings if there are any."""

    temperature_k: float
    seconds: np.ndarray
    pascal: dict[str, np.ndarray]
    own: tuple[tuple[float, float], ...] = ()
    verdict: DecayReading | None = None

    @property
    def water_pa(self) -> float:
        """Vapour pressure of water at the temperature of the system [Pa]."""
        return water_vapour_pressure(self.temperature_k)

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        minutes = self.seconds[-1] / 60
        ends = {name: float(curve[-1]) for name, curve in self.pascal.items()}
        half = self.seconds.size // 2
        slope = float(self.pascal["leak"][-1] - self.pascal["leak"][half]) / float(
            self.seconds[-1] - self.seconds[half]
        )
        first = float(self.pascal["dry"][0])
        told = (
            f"Pressure over {minutes:.0f} minutes after the pump is shut off, from {microns(first)}. Dry and tight: it "
            f"rises a little to {microns(ends['dry'])} and stays. Water in it: it rises to {microns(ends['wet'])}; the "
            f"line of water at this temperature is at {microns(self.water_pa)}. A leak: it rises on in a straight "
            f"line, by {rate(slope)}, to {microns(ends['leak'])}."
        )
        if self.verdict is None:
            return told
        return f"{told} Your {len(self.own)} readings: {self.verdict.verdict.value}; {self.verdict.reason}"


def vacuum_decay_figure(
    temperature: str = "20 °C", time: str = "30 min", readings: Sequence[tuple[str, str]] = ()
) -> Picture:
    """Pressure after the pump is shut off in a dry, a wet and a leaking system, and your own readings among them.

    Parameters
    ----------
    temperature : str
        Of the system, such as "20 °C" [-]
    time : str
        How long to look, such as "30 min" [-]
    readings : sequence of tuple of str
        Your readings, time and pressure, such as ("5 min", "650 micron"); at least 6, or none [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    kelvin = _read("temperature", temperature, Kind.TEMPERATURE)
    if not 278.15 <= kelvin <= 323.15:
        raise InputError(f"temperature is {temperature.strip()}; the picture is made for 5 °C to 50 °C")
    seconds = read_positive("time", time, Kind.TIME)
    if seconds > LONGEST_S:
        raise InputError(f"time is {time.strip()}; the picture goes to 8 h at most")
    own = tuple((_read("time", at, Kind.TIME), _read("pressure", p, Kind.PRESSURE_ABSOLUTE)) for at, p in readings)
    verdict = read_decay([at for at, _ in own], [pa for _, pa in own], kelvin) if own else None
    curves = {name: _curve(name, kelvin, seconds) for name in LABELS}
    found = Decays(kelvin, np.linspace(0.0, seconds, POINTS), curves, own, verdict)
    return Picture(_drawn(found), found.text)


def _read(name: str, text: str, kind: Kind) -> float:
    try:
        return read(text, kind).value
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None


@lru_cache(maxsize=16)
def _curve(name: str, kelvin: float, seconds: float) -> np.ndarray:
    system = VacuumSystem(wall_k=kelvin, leak_m2=LEAK_M2 if name == "leak" else 0.0, wet_m2=WET_M2, wet_w_per_k=0.3)
    # a little refrigerant in the oil makes the small rise of a dry system; hoses join both sides
    start = read(f"{START_MICRONS:.0f} micron", Kind.PRESSURE_ABSOLUTE).value
    inside = (start, 0.0, 0.0, 0.0)
    state = VacuumState(inside, inside, inside, WATER_KG if name == "wet" else 0.0, kelvin, DISSOLVED_KG)
    pascal = hold(system, state, seconds, HOSES, POINTS).near_pa
    pascal.setflags(write=False)
    return pascal


def _micron(pascal: float) -> float:
    return in_unit(pascal, Kind.PRESSURE_ABSOLUTE, "micron")


def _drawn(found: Decays) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 4.2), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    minutes = found.seconds / 60
    for name, (label, style) in LABELS.items():
        curve = [_micron(pa) for pa in found.pascal[name].tolist()]
        axes.plot(minutes, curve, style, color="black", label=label)
    water = _micron(found.water_pa)
    axes.axhline(water, linestyle=":", color="tab:blue", label=f"water at this temperature, {water:.0f}")
    if found.own:
        at, pascal = zip(*found.own, strict=True)
        axes.plot([s / 60 for s in at], [_micron(pa) for pa in pascal], "o", color="tab:orange", label="your readings")
    axes.set_ylim(0, 1.4 * water)
    axes.set_xlim(0, minutes[-1])
    axes.set_xlabel("minutes after the pump was shut off")
    axes.set_ylabel("pressure in microns")
    axes.legend(loc="upper left")
    return figure
