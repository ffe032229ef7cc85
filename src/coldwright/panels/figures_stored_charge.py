"""A picture with its words: the volts on a capacitor as time passes, and when they fall below the safe line."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from coldwright.electrical.capacitor import stored_energy
from coldwright.electrical.capacitor_discharge import (
    IN_ONE_MINUTE,
    bleed_resistance,
    discharge_curve,
    time_to_fall,
    volts_left,
)
from coldwright.errors import InputError
from coldwright.panels.figures import Picture
from coldwright.panels.real_charge import volts_words
from coldwright.panels.typed import Accuracy, read_measured, read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.quantities import Kind, show

if TYPE_CHECKING:
    from matplotlib.figure import Figure

EXACT = Accuracy(0.0, 0)
POINTS = 300
LONGEST = 1.5  # of the time to safe; the picture goes on that far
BY_ITSELF_S = 3600.0  # span of the picture where nothing empties it


@dataclass(frozen=True)
class Discharge:
    """A charged capacitor and the resistor across it, SI units; inf ohms for nothing across it."""

    volts: float
    farad: float
    ohm: float

    @property
    def safe_s(self) -> float:
        """Time until it is down to the safe voltage [s]."""
        return time_to_fall(self.volts, IN_ONE_MINUTE.volts, self.farad, self.ohm)

    @property
    def span_s(self) -> float:
        """How far the picture goes [s]."""
        if math.isinf(self.safe_s):
            return BY_ITSELF_S
        return max(LONGEST * self.safe_s, IN_ONE_MINUTE.seconds)

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        safe = IN_ONE_MINUTE.volts
        begins = f"It begins at {self.volts:.0f} V with {stored_energy(self.farad, self.volts):.3g} J in it."
        if math.isinf(self.safe_s):
            return (
                f"{begins} Nothing is across it: the line stays flat, and it never gets below {safe:.0f} V by itself."
            )
        if self.safe_s == 0:
            return f"{begins} That is below the safe line of {safe:.0f} V from the start. Measure all the same."
        one_rc = self.farad * self.ohm
        then = volts_left(self.volts, self.farad, self.ohm, IN_ONE_MINUTE.seconds)
        needed = show(bleed_resistance(self.volts, self.farad, IN_ONE_MINUTE), Kind.RESISTANCE, digits=3)
        in_time = self.safe_s <= IN_ONE_MINUTE.seconds
        verdict = "so it keeps the rule of one minute" if in_time else f"so it is too slow: at most {needed} would do"
        return (
            f"{begins} The line falls steeply at first, then ever more slowly. After one R times C, "
            f"{show(one_rc, Kind.TIME, 's')}, {self.volts / math.e:.0f} V are left. It meets the safe line of "
            f"{safe:.0f} V after {show(self.safe_s, Kind.TIME, 's')}; measure all the same. "
            f"After one minute {volts_words(then)} is left, {verdict}."
        )


@takes_text
def discharge_figure(capacitance: str, volts: str, resistor: str) -> Picture:
    """Volts on a capacitor against time through its resistor, with the safe line of 50 V and the mark of one minute.

    Parameters
    ----------
    capacitance : str
        Such as "180 uF" [-]
    volts : str
        Direct volts on it at the beginning, or the peak of alternating ones, such as "233 V" [-]
    resistor : str
        Across it, such as "15 kohm", or "OL" for nothing [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    ohm = read_measured("resistor", resistor, EXACT).value
    if not ohm > 0:
        raise InputError(f"resistor is {resistor.strip()}; it must be above zero. A dead short arcs and throws metal")
    begins, farad = (
        read_positive("volts", volts, Kind.VOLTAGE),
        read_positive("capacitance", capacitance, Kind.CAPACITANCE),
    )
    found = Discharge(begins, farad, ohm)
    return Picture(_drawn(found), found.text)


def _drawn(found: Discharge) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 4.2), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    seconds = np.linspace(0.0, found.span_s, POINTS)
    axes.plot(seconds, discharge_curve(found.volts, found.farad, found.ohm, seconds), color="black", label="volts left")
    axes.axhline(
        IN_ONE_MINUTE.volts, linestyle="--", color="tab:orange", label=f"safe line, {IN_ONE_MINUTE.volts:.0f} V"
    )
    axes.axvline(IN_ONE_MINUTE.seconds, linestyle=":", color="black", label="one minute")
    if 0 < found.safe_s < math.inf:
        label = f"{IN_ONE_MINUTE.volts:.0f} V after {show(found.safe_s, Kind.TIME, 's')}; measure all the same"
        axes.plot([found.safe_s], [IN_ONE_MINUTE.volts], "o", markersize=9, color="tab:orange", label=label)
    axes.set_xlim(0.0, found.span_s)
    axes.set_ylim(bottom=0.0)
    axes.set_xlabel("time after the plug was pulled in s")
    axes.set_ylabel("volts on the capacitor in V")
    axes.legend(loc="upper right")
    return figure
