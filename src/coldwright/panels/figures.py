"""A picture with its words: resistance against winding temperature, the maker's band and a reading with its limits."""

from __future__ import annotations

import base64
import io
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from coldwright.electrical.measured import Measured
from coldwright.electrical.windings import REFERENCE_K, Conductor, resistance_at
from coldwright.panels.typed import read_accuracy, read_kelvin, read_measured, read_percent, read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.quantities import Kind
from coldwright.quantities.constants import ICE_POINT_K

if TYPE_CHECKING:
    from matplotlib.figure import Figure

SPAN_C = (0.0, 120.0)


@dataclass(frozen=True)
class Picture:
    """A figure and the words that say what it shows; a notebook shows both."""

    figure: Figure
    text: str

    def __repr__(self) -> str:
        return self.text

    def _repr_html_(self) -> str:
        file = io.BytesIO()
        self.figure.savefig(file, format="png", dpi=110)
        data = base64.b64encode(file.getvalue()).decode()
        words = escape(self.text, quote=True)
        return (
            f'<figure style="margin:0;max-width:720px"><img style="width:100%;height:auto" alt="{words}" '
            f'src="data:image/png;base64,{data}"><figcaption>{words}</figcaption></figure>'
        )


@dataclass(frozen=True)
class Comparison:
    """A winding's reading at its temperature beside the maker's value at 20 °C."""

    reading: Measured
    winding_k: float
    maker_ohm: float
    tolerance: float
    conductor: Conductor = Conductor.COPPER

    def band(self, winding_k: float) -> tuple[float, float]:
        """Lowest and highest resistance that the maker allows [Ω].

        Parameters
        ----------
        winding_k : float
            Temperature of the winding [K]
        """
        here = resistance_at(self.maker_ohm, REFERENCE_K, winding_k, self.conductor)
        return here * (1 - self.tolerance), here * (1 + self.tolerance)

    def place(self, winding_k: float) -> str:
        """Whether the reading lies "below", "inside" or "above" the band; the meter's limit is allowed for.

        Parameters
        ----------
        winding_k : float
            Temperature of the winding [K]
        """
        low, high = self.band(winding_k)
        if self.reading.value < low - self.reading.limit:
            return "below"
        return "above" if self.reading.value > high + self.reading.limit else "inside"

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        reading, at_c = self.reading, self.winding_k - ICE_POINT_K
        low20, high20 = self.band(REFERENCE_K)
        low, high = self.band(self.winding_k)
        place20, place = self.place(REFERENCE_K), self.place(self.winding_k)
        told = {
            "below": "The winding is too low for its temperature: turns are shorted.",
            "inside": "The winding is as its maker made it.",
            "above": "The winding is too high for its temperature: look for a poor contact or another type.",
        }[place]
        why = {
            ("inside", "below"): " Heat hides it: at 20 °C the same number would have been in order.",
            ("above", "inside"): " It is only warm: taken for 20 °C, the number would have been too high.",
        }.get((place20, place), "")
        return (
            f"Resistance from {SPAN_C[0]:.0f} °C to {SPAN_C[1]:.0f} °C. The maker's band goes up in a straight line. "
            f"At 20 °C it is {low20:.2f} Ω to {high20:.2f} Ω; at {at_c:.0f} °C it is {low:.2f} Ω to {high:.2f} Ω. "
            f"The reading, {reading.value:.2f} Ω ± {reading.limit:.2f} Ω, was taken at {at_c:.0f} °C. There it lies "
            f"{place} the band. {told}{why}"
        )


@takes_text
def winding_figure(
    reading: str, temperature: str, maker: str, tolerance: str = "7 %", meter: str = "0.2 % + 3 digits"
) -> Picture:
    """Resistance against temperature for one winding: is it shorted, or only warm?

    Parameters
    ----------
    reading : str
        What the meter showed, such as "4.05 ohm" [-]
    temperature : str
        Of the winding, such as "85 °C" [-]
    maker : str
        The maker's value at 20 °C [-]
    tolerance : str
        The maker's tolerance [-]
    meter : str
        Accuracy of the meter [-]

    Raises
    ------
    AnswerError
        If something cannot be read.
    """
    shown = read_measured("reading", reading, read_accuracy(meter))
    winding_k = read_kelvin("temperature", temperature)
    maker_ohm = read_positive("maker", maker, Kind.RESISTANCE)
    found = Comparison(shown, winding_k, maker_ohm, read_percent(tolerance))
    return Picture(_drawn(found), found.text)


def _drawn(found: Comparison) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 4.2), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    bands = [found.band(ICE_POINT_K + celsius) for celsius in SPAN_C]
    lows, highs = zip(*bands, strict=True)
    axes.fill_between(SPAN_C, lows, highs, alpha=0.25, hatch="///", color="tab:blue", label="what the maker allows")
    value, limit, at_c = found.reading.value, found.reading.limit, found.winding_k - ICE_POINT_K
    axes.axhspan(value - limit, value + limit, alpha=0.4, color="tab:orange", label="the reading with its ±")
    axes.axhline(value, linestyle="--", linewidth=1, color="black")
    axes.plot([at_c], [value], "o", markersize=9, color="black", label=f"taken at {at_c:.0f} °C")
    axes.axvline(20, linestyle=":", linewidth=1, color="black")
    axes.annotate("20 °C", (20, axes.get_ylim()[0]), textcoords="offset points", xytext=(3, 4))
    axes.set_xlim(*SPAN_C)
    axes.set_xlabel("temperature of the winding in °C")
    axes.set_ylabel("resistance in Ω")
    other = axes.secondary_xaxis("top", functions=(_fahrenheit, _celsius))
    other.set_xlabel("temperature of the winding in °F")
    axes.legend(loc="upper left")
    return figure


def _fahrenheit(celsius: Any) -> Any:
    return celsius * 9 / 5 + 32


def _celsius(fahrenheit: Any) -> Any:
    return (fahrenheit - 32) * 5 / 9
