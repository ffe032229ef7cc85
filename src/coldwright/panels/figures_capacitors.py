"""A picture with its words: starting torque, and torque per amp of the line, against the size of the capacitor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from coldwright.electrical.capacitor_sizing import (
    StartSizes,
    most_torque_capacitance,
    most_torque_per_amp_capacitance,
    quadrature_capacitance,
    start_sizes,
)
from coldwright.panels.figures import Picture
from coldwright.panels.typed import read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.quantities import Kind

if TYPE_CHECKING:
    from matplotlib.figure import Figure

POINTS = 200
SPAN = (0.3, 2.0)  # of the size for 90° up to that of the size for most torque


@dataclass(frozen=True)
class Motor:
    """Impedance of both windings with the rotor still [Ω], and the supply [V, Hz]."""

    run: complex
    start: complex
    volts: float
    hertz: float

    def at(self, farads: np.ndarray) -> StartSizes:
        """Torque, currents, angle and volts at some sizes.

        Parameters
        ----------
        farads : ndarray
            Sizes, shape (n,) [F]
        """
        return start_sizes(self.run, self.start, self.volts, self.hertz, farads)

    @property
    def sizes(self) -> dict[str, float]:
        """The three sizes, by what each is for [F]."""
        motor = (self.run, self.start, self.hertz)
        return {
            "90° between the currents": quadrature_capacitance(*motor),
            "most torque per amp": most_torque_per_amp_capacitance(*motor),
            "most torque": most_torque_capacitance(*motor),
        }

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        found = self.at(np.array(list(self.sizes.values())))
        best, most_per_amp = found.torque_product.max(), found.torque_per_amp.max()
        lines = [
            f"{name}: {farad * 1e6:.1f} µF, torque {torque / best:.0%} of the most, {amps:.1f} A in the line, "
            f"torque per amp {per_amp / most_per_amp:.0%} of the most, {np.degrees(angle):.0f}° apart, "
            f"{volts:.0f} V on the capacitor."
            for (name, farad), torque, amps, per_amp, angle, volts in zip(
                self.sizes.items(),
                found.torque_product,
                found.line_amps,
                found.torque_per_amp,
                found.angle,
                found.capacitor_volts,
                strict=True,
            )
        ]
        return " ".join(
            [*(line[:1].upper() + line[1:] for line in lines), "So 90° is not where the torque is highest."]
        )


@takes_text
def size_figure(
    run_r: str, run_x: str, start_r: str, start_x: str, supply: str = "120 V", frequency: str = "60 Hz"
) -> Picture:
    """Torque and torque per amp at the start against the size of the capacitor, with the three sizes marked.

    Parameters
    ----------
    run_r, run_x : str
        Resistance and reactance of the run winding with the rotor still, such as "4.5 ohm" [-]
    start_r, start_x : str
        The same of the start winding [-]
    supply : str
        Such as "120 V" [-]
    frequency : str
        Such as "60 Hz" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    ohms = {"run_r": run_r, "run_x": run_x, "start_r": start_r, "start_x": start_x}
    r_r, r_x, s_r, s_x = (read_positive(name, text, Kind.RESISTANCE) for name, text in ohms.items())
    volts, hertz = read_positive("supply", supply, Kind.VOLTAGE), read_positive("frequency", frequency, Kind.FREQUENCY)
    motor = Motor(complex(r_r, r_x), complex(s_r, s_x), volts, hertz)
    return Picture(_drawn(motor), motor.text)


def _drawn(motor: Motor) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    sizes = motor.sizes
    farads = np.linspace(SPAN[0] * min(sizes.values()), SPAN[1] * max(sizes.values()), POINTS)
    found = motor.at(farads)
    figure = Figure(figsize=(6.5, 4.2), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    for curve, style, label in (
        (found.torque_product, "-", "torque"),
        (found.torque_per_amp, "--", "torque per amp of the line"),
    ):
        axes.plot(farads * 1e6, 100 * curve / curve.max(), style, color="black", label=label)
    for (name, farad), marker in zip(sizes.items(), "osD", strict=True):
        at = motor.at(np.array([farad]))
        share = 100 * float(at.torque_product[0] / found.torque_product.max())
        axes.axvline(farad * 1e6, linestyle=":", linewidth=1, color="black")
        label = f"{name}: {farad * 1e6:.1f} µF"
        axes.plot([farad * 1e6], [share], marker, markersize=8, color="tab:orange", label=label)
    axes.set_xlabel("capacitor in µF")
    axes.set_ylabel("at the start, in % of the most")
    axes.set_ylim(bottom=0)
    axes.legend(loc="lower right")
    return figure
