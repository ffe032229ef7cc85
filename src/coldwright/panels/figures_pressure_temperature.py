"""A picture with its words: pressure on the gauge against temperature, where liquid and vapour stand side by side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures import Picture
from coldwright.quantities import Kind, in_unit, read
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.atmosphere import absolute_of, station_pressure
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.saturation import (
    bubble_pressure,
    bubble_temperature,
    dew_pressure,
    dew_temperature,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

SPAN_C = (-40.0, 60.0)
TOLD_C = (-20.0, 0.0, 25.0, 50.0)
POINTS = 51
LINES = ("-", "--", "-.", ":")
BAR = 1e5


@dataclass(frozen=True)
class PressureTemperature:
    """Refrigerants, the pressure of the air at the place [Pa], and what a gauge shows there [Pa]."""

    names: tuple[str, ...]
    air_pa: float
    gauge_pa: float

    def gauge(self, name: str, celsius: float, dew: bool = False) -> float:
        """What a gauge shows at a temperature.

        Parameters
        ----------
        name : str
            Of the refrigerant [-]
        celsius : float
            Temperature [°C]
        dew : bool
            The dew point in place of the bubble point [-]

        Returns
        -------
        float
            Gauge pressure, negative in a vacuum [bar]
        """
        pressure = dew_pressure if dew else bubble_pressure
        return (pressure(name, celsius + ICE_POINT_K) - self.air_pa) / BAR

    def at_reading(self, name: str) -> tuple[float, float] | None:
        """Bubble and dew temperature at the reading in °C; None where the refrigerant does not boil there.

        Parameters
        ----------
        name : str
            Of the refrigerant [-]
        """
        absolute = absolute_of(self.gauge_pa, self.air_pa)
        try:
            return (
                bubble_temperature(name, absolute) - ICE_POINT_K,
                dew_temperature(name, absolute) - ICE_POINT_K,
            )
        except InputError:
            return None

    @property
    def text(self) -> str:
        """What the picture shows, in numbers."""
        psi = in_unit(self.gauge_pa, Kind.PRESSURE_GAUGE, "psig")
        head = (
            "Pressure on the gauge against temperature, where liquid and vapour stand side by side. The air has "
            f"{self.air_pa / 1e3:.1f} kPa; a gauge shows 0 in it. "
        )
        lines = " ".join(self._line(name) for name in self.names)
        said = " ".join(self._told(name) for name in self.names)
        return f"{head}{lines} The gauge shows {self.gauge_pa / BAR:.2f} bar ({psi:.1f} psi). {said}"

    def _line(self, name: str) -> str:
        values = "; ".join(f"{celsius:.0f} °C {self._pressures(name, celsius)}" for celsius in TOLD_C)
        return f"{name}: {values} bar gauge."

    def _pressures(self, name: str, celsius: float) -> str:
        bubble = f"{self.gauge(name, celsius):.2f}"
        if not refrigerant_named(name).is_blend:
            return bubble
        return f"{bubble} (bubble) and {self.gauge(name, celsius, dew=True):.2f} (dew)"

    def _told(self, name: str) -> str:
        found = self.at_reading(name)
        if found is None:
            return f"{name} does not boil at this pressure."
        bubble, dew = found
        if not refrigerant_named(name).is_blend:
            return f"There {name} boils at {dew:.1f} °C ({_fahrenheit(dew):.0f} °F)."
        return (
            f"There {name} begins to boil at {bubble:.1f} °C ({_fahrenheit(bubble):.0f} °F; bubble, for subcooling) "
            f"and is all vapour at {dew:.1f} °C ({_fahrenheit(dew):.0f} °F; dew, for superheat)."
        )


def pressure_temperature(
    refrigerants: str = "R-134a, R-600a, R-404A", reading: str = "1.0 bar gauge", altitude: str = "0 m"
) -> PressureTemperature:
    """Refrigerants and a gauge at a place.

    Parameters
    ----------
    refrigerants : str
        Up to four names with commas between [-]
    reading : str
        What the gauge shows, such as "1.0 bar gauge" or "15 psig" [-]
    altitude : str
        Height of the place, such as "1600 m" or "5200 ft" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read, or a refrigerant is unknown, or the reading is below a perfect vacuum.
    """
    names = tuple(dict.fromkeys(refrigerant_named(name.strip()).name for name in refrigerants.split(",")))
    if len(names) > len(LINES):
        raise InputError(f"{len(names)} refrigerants are given; {len(LINES)} lines can be told apart on one chart")
    gauge_pa = _typed("reading", reading, Kind.PRESSURE_GAUGE)
    air_pa = station_pressure(_typed("altitude", altitude, Kind.LENGTH))
    absolute_of(gauge_pa, air_pa)
    return PressureTemperature(names, air_pa, gauge_pa)


def pressure_temperature_figure(
    refrigerants: str = "R-134a, R-600a, R-404A", reading: str = "1.0 bar gauge", altitude: str = "0 m"
) -> Picture:
    """Gauge pressure against temperature: how cold does a refrigerant boil at what the gauge shows?

    Parameters
    ----------
    refrigerants : str
        Up to four names with commas between [-]
    reading : str
        What the gauge shows, such as "1.0 bar gauge" or "15 psig" [-]
    altitude : str
        Height of the place, such as "1600 m" or "5200 ft" [-]

    Raises
    ------
    AnswerError, InputError
        If something cannot be read, or a refrigerant is unknown, or the reading is below a perfect vacuum.
    """
    found = pressure_temperature(refrigerants, reading, altitude)
    return Picture(_drawn(found), found.text)


def _typed(name: str, text: str, kind: Kind) -> float:
    try:
        return read(text, kind).value
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None


def _drawn(found: PressureTemperature) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.5, 4.8), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    for name, style in zip(found.names, LINES, strict=False):
        _line(axes, found, name, style)
    reading = found.gauge_pa / BAR
    axes.axhline(reading, color="black", linewidth=1, label=f"the gauge shows {reading:.2f} bar")
    axes.axhline(0.0, color="grey", linewidth=1)
    axes.annotate(
        "0: the air around", (SPAN_C[1], 0.0), textcoords="offset points", xytext=(-3, -10), fontsize=8, ha="right"
    )
    axes.set_xlim(*SPAN_C)
    axes.set_xlabel("temperature in °C")
    axes.set_ylabel("gauge pressure in bar")
    axes.grid(visible=True, alpha=0.4)
    axes.secondary_xaxis("top", functions=(_fahrenheit, _celsius)).set_xlabel("temperature in °F")
    axes.secondary_yaxis("right", functions=(_psi, _bar)).set_ylabel("gauge pressure in psi")
    axes.legend(loc="upper left")
    return figure


def _line(axes: Axes, found: PressureTemperature, name: str, style: str) -> None:
    """One refrigerant's line; a blend has two, told apart by their marks."""
    celsius = np.linspace(*SPAN_C, POINTS)
    celsius = celsius[celsius < refrigerant_named(name).critical_k - ICE_POINT_K - 1]
    bubble = [found.gauge(name, float(c)) for c in celsius]
    at = found.at_reading(name)
    if refrigerant_named(name).is_blend:
        dew = [found.gauge(name, float(c), dew=True) for c in celsius]
        axes.plot(celsius, bubble, style, marker="o", markevery=10, color="tab:red", label=f"{name}, bubble")
        axes.plot(celsius, dew, style, marker="^", markevery=10, color="tab:red", label=f"{name}, dew")
    else:
        axes.plot(celsius, bubble, style, color="black", label=name)
    for temperature in set(at or ()):
        if SPAN_C[0] <= temperature <= SPAN_C[1]:
            axes.plot([temperature], [found.gauge_pa / BAR], "s", markersize=7, color="black")


def _fahrenheit(celsius: Any) -> Any:
    return celsius * 9 / 5 + 32


def _celsius(fahrenheit: Any) -> Any:
    return (fahrenheit - 32) * 5 / 9


def _psi(bar: Any) -> Any:
    return bar * 14.503774


def _bar(psi: Any) -> Any:
    return psi / 14.503774
