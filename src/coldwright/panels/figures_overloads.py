"""A picture with its words: how soon an overload opens against the current, cold and with a hot shell."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from coldwright.appliance.cooler import cooler
from coldwright.appliance.unit import plate_of
from coldwright.electrical.overload import Overload
from coldwright.errors import InputError
from coldwright.labs.overloads.sheet import TripSheet, trip_sheet
from coldwright.panels.figures import Picture
from coldwright.panels.typed import read_kelvin, read_positive
from coldwright.panels.typed_checks import takes_text
from coldwright.quantities import Kind
from coldwright.quantities.constants import ICE_POINT_K

if TYPE_CHECKING:
    from matplotlib.figure import Figure

POINTS = 300
MOST_S = 600.0
SPAN = (0.05, 1.6)  # of the locked-rotor amps


@dataclass(frozen=True)
class TripCurves:
    """One overload, its data sheet, the plate's amps, and how warm shell and room are [K]."""

    overload: Overload
    sheet: TripSheet
    locked_a: float
    running_a: float
    shell_k: float
    room_k: float

    def cold(self, amps: float) -> float:
        """Time to open with overload and shell at room temperature; inf for never [s].

        Parameters
        ----------
        amps : float
            Current [A]
        """
        return self.overload.trip_time(amps, self.room_k, self.room_k, self.room_k)

    def warm(self, amps: float) -> float:
        """Time to open just after it has closed again, with the shell hot; inf for never [s].

        Parameters
        ----------
        amps : float
            Current [A]
        """
        return self.overload.trip_time(amps, self.overload.reset_k, self.shell_k, self.room_k)

    def text(self, amps: float) -> str:
        """What the picture shows for one current, and what follows from it.

        Parameters
        ----------
        amps : float
            Current [A]
        """
        shell_c, room_c = self.shell_k - ICE_POINT_K, self.room_k - ICE_POINT_K
        never_cold = self.overload.ultimate_trip_current(self.room_k, self.room_k)
        never_warm = self.overload.ultimate_trip_current(self.shell_k, self.room_k)
        return (
            f"Seconds until it opens, against amps. At {amps:.1f} A it opens {_when(self.cold(amps))} from cold "
            f"({room_c:.0f} °C), and {_when(self.warm(amps))} just after it closed again, with the shell at "
            f"{shell_c:.0f} °C. The rule of amps squared times seconds says {self.sheet.trip_estimate(amps):.1f} s "
            f"from cold: it leaves out the heat that gets away. Below {never_cold:.1f} A it never opens cold; with the "
            f"shell that hot, below {never_warm:.1f} A. The compressor runs at {self.running_a:.1f} A and takes "
            f"{self.locked_a:.0f} A with its rotor locked."
        )


def _when(seconds: float) -> str:
    return "never" if math.isinf(seconds) else f"in {seconds:.1f} s"


def trip_curves(model: str, shell: str, room: str) -> TripCurves:
    """The overload of a model, with shell and room at given temperatures.

    Parameters
    ----------
    model : str
        Model of a cooler, such as "Tarn 11" [-]
    shell, room : str
        Such as "85 °C" [-]

    Raises
    ------
    AnswerError, InputError
        If a temperature cannot be read, or the shell is colder than the room, or the model has no overload.
    """
    found = cooler(model)
    if found.parts.overload is None:
        raise InputError(f"the cooler {model} has no overload of its own; its board watches the current")
    shell_k, room_k = read_kelvin("shell", shell), read_kelvin("room", room)
    if shell_k < room_k:
        raise InputError(f"the shell is at {shell} and the room at {room}; a shell is never colder. Were they swapped?")
    plate = plate_of(found)
    return TripCurves(found.parts.overload, trip_sheet(found), plate.locked_a, plate.running_a, shell_k, room_k)


@takes_text
def trip_figure(model: str = "Tarn 11", amps: str = "15 A", shell: str = "85 °C", room: str = "25 °C") -> Picture:
    """How soon an overload opens against the current: does a hot shell make it open sooner?

    Parameters
    ----------
    model : str
        Model of a cooler [-]
    amps : str
        Current that is marked and told in words [-]
    shell, room : str
        Temperatures, such as "85 °C" or "185 °F" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read or cannot be.
    """
    curves = trip_curves(model, shell, room)
    at = read_positive("amps", amps, Kind.CURRENT)
    return Picture(_drawn(curves, at), curves.text(at))


def _drawn(curves: TripCurves, at: float) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 5.0), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    amps = np.linspace(SPAN[0] * curves.locked_a, max(SPAN[1] * curves.locked_a, 1.1 * at), POINTS)
    lines = (("-", "from cold", curves.cold), ("--", "just closed again, shell hot", curves.warm))
    for style, label, time in lines:
        axes.plot(amps, [time(float(a)) for a in amps], style, label=label)
    estimates = [curves.sheet.trip_estimate(float(a)) for a in amps]
    axes.plot(amps, estimates, ":", color="black", label="amps² × seconds, no heat lost")
    axes.plot([curves.sheet.amps], [curves.sheet.seconds], "s", color="black", label="point of the data sheet")
    for x, word, height in ((curves.running_a, "runs", 1.15), (curves.locked_a, "rotor locked", 40.0)):
        axes.axvline(x, linewidth=1, color="grey")
        axes.annotate(word, (x, height), rotation=90, textcoords="offset points", xytext=(2, 2))
    axes.axvline(at, linestyle="-.", color="black", label=f"{at:.1f} A as typed")
    axes.set_yscale("log")
    axes.set_yticks([1, 10, 100], labels=["1", "10", "100"])
    axes.set_ylim(1.0, MOST_S)
    axes.set_xlim(0.0, float(amps[-1]))
    axes.set_xlabel("amps through the overload")
    axes.set_ylabel("seconds until it opens")
    figure.legend(loc="outside lower center", ncols=2)
    return figure
