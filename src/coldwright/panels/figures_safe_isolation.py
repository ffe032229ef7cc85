"""A picture with its words: what a meter shows on a floating wire and on a live one, against the meter's resistance."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.electrical.network import Branch, Network, Source
from coldwright.instruments.meter_ranges import INPUT_OHM, LOW_INPUT_OHM
from coldwright.panels.figures import Picture
from coldwright.panels.typed import read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.quantities import Kind

if TYPE_CHECKING:
    from matplotlib.figure import Figure

LOWEST_OHM, HIGHEST_OHM = 1e3, 1e8
WORDS_AT, TOP = 1.12, 1.25  # of the supply: words stand above both lines, which end at 1
SWITCH_OHM = 0.05  # a sound switch that is closed


@dataclass(frozen=True)
class StrayWire:
    """A wire beside a live and an earthed one: supply volts and hertz, and the two stray capacitances [F]."""

    volts: float
    hertz: float
    to_live: float
    to_earth: float

    def shown(self, load_ohm: float, closed: bool = False) -> float:
        """RMS volts from the wire to neutral with a meter on it [V].

        Parameters
        ----------
        load_ohm : float
            Resistance of the meter, above zero [Ω]
        closed : bool
            Whether a switch joins the wire to live [-]
        """
        branches = [
            Branch("stray to live", "live", "wire", capacitance=self.to_live),
            Branch("stray to earth", "wire", "neutral", capacitance=self.to_earth),
        ]
        if closed:
            branches.append(Branch("switch", "live", "wire", SWITCH_OHM))
        net = Network(branches, (Source("supply", "live", "neutral", self.volts, self.hertz),))
        return abs(net.voltage("wire", "neutral", self.hertz, load_ohm))

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        high, low = self.shown(INPUT_OHM), self.shown(LOW_INPUT_OHM)
        live = self.shown(LOW_INPUT_OHM, closed=True)
        return (
            f"Volts shown against the meter's resistance, {LOWEST_OHM / 1e3:.0f} kΩ to {HIGHEST_OHM / 1e6:.0f} MΩ, on "
            f"{self.volts:.0f} V {self.hertz:.0f} Hz. On the floating wire a meter of "
            f"{INPUT_OHM / 1e6:.0f} MΩ shows {high:.0f} V, and one of {LOW_INPUT_OHM / 1e3:.0f} kΩ shows {low:.2f} V. "
            f"On the live wire both show {live:.0f} V. So the low input tells a ghost from a live wire."
        )


@takes_text
def ghost_figure(
    supply: str = "230 V", hertz: str = "50 Hz", to_live: str = "300 pF", to_earth: str = "100 pF"
) -> Picture:
    """Volts shown on a floating wire and on a live one: how low must a meter's input be to tell them apart?

    Parameters
    ----------
    supply, hertz : str
        Such as "120 V" and "60 Hz" [-]
    to_live, to_earth : str
        Stray capacitance of the wire to the live and to the earthed one, such as "300 pF" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read, is not above zero or outside what makes sense.
    """
    wire = StrayWire(
        read_positive("supply", supply, Kind.VOLTAGE),
        read_positive("hertz", hertz, Kind.FREQUENCY),
        read_positive("to_live", to_live, Kind.CAPACITANCE),
        read_positive("to_earth", to_earth, Kind.CAPACITANCE),
    )
    return Picture(_drawn(wire), wire.text)


def _drawn(wire: StrayWire) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 4.0), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    ohms = [10 ** (e / 10) for e in range(round(10 * math.log10(LOWEST_OHM)), round(10 * math.log10(HIGHEST_OHM)) + 1)]
    axes.semilogx(ohms, [wire.shown(ohm) for ohm in ohms], "-", color="tab:blue", label="floating wire (ghost)")
    axes.semilogx(ohms, [wire.shown(ohm, closed=True) for ohm in ohms], "--", color="black", label="live wire")
    for ohm, words in ((LOW_INPUT_OHM, "low input"), (INPUT_OHM, "usual input")):
        axes.axvline(ohm, linestyle=":", linewidth=1, color="black")
        axes.annotate(words, (ohm, WORDS_AT * wire.volts), ha="center", va="center", backgroundcolor="white")
        axes.plot([ohm], [wire.shown(ohm)], "o", markersize=8, color="tab:blue")
    axes.set_ylim(0, TOP * wire.volts)
    axes.set_xlabel("resistance of the meter in Ω")
    axes.set_ylabel("volts shown")
    axes.legend(loc="center")
    return figure
