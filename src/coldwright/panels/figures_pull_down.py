"""A picture with its words: air and food of a cooler from a warm start, with the band of its thermostat."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coldwright.cabinet.cabinet import Cabinet, Contents, HeatLoad, cabinet_numbers, heat_load
from coldwright.cabinet.door import Air, Doorway
from coldwright.cabinet.energy import Day, day_of
from coldwright.cabinet.food import food_named
from coldwright.cabinet.food_safety import COLD_HOLDING_K
from coldwright.cabinet.pull_down import Run, Start, capacity_line, run
from coldwright.cabinet.thermostat import Thermostat
from coldwright.cabinet.walls import Box
from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures import Picture
from coldwright.quantities import Kind, read
from coldwright.quantities.constants import ICE_POINT_K

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

HOURS, SETTLED_H = 48.0, 36.0
SHOWN_H = ((0.0, 16.0), (46.0, 48.0))  # the pull-down, and some cycles at the end
BOX, DOORWAY = Box(0.5, 0.75, 0.42, 0.04), Doorway(0.5, 0.75)  # 158 L, illustrative
THERMOSTAT = Thermostat(ICE_POINT_K + 5.0, ICE_POINT_K + 1.5, 120.0, 180.0)
INSIDE = Air(ICE_POINT_K + 4.0, 0.7)
FOOD_W_PER_K, PER_K, INPUT_W = 5.0, 3.0, 110.0  # coupling, growth of capacity with warmer air, electric power


@dataclass(frozen=True)
class PullDown:
    """A cooler's two days from warm, with its heat load once it is cold and the day that follows."""

    room: Air
    kilograms: float
    load: HeatLoad
    record: Run
    day: Day

    @property
    def text(self) -> str:
        """What the picture shows and what follows from it."""
        air, food = self.record.air_time_to(COLD_HOLDING_K), self.record.time_to(COLD_HOLDING_K)
        low, high = (kelvin - ICE_POINT_K for kelvin in (THERMOSTAT.cut_out_k, THERMOSTAT.cut_in_k))
        head = (
            f"Pull-down from {self.room.temperature_k - ICE_POINT_K:.0f} °C with {self.kilograms:g} kg of food, over "
            f"{HOURS:.0f} hours. The thermostat's band is {low:.1f} °C to {high:.1f} °C at its sensor. "
        )
        if math.isinf(food):
            last = self.record.product_k[-1] - ICE_POINT_K
            how = f"the food is at {last:.1f} °C at the end and was never at 5 °C"
            return f"{head}The compressor runs {self.day.duty:.0%} of the time: {how}. {self.load.text}"
        return (
            f"{head}The air is at 5 °C after {_h(air)}, the food only after {_h(food)}: judge the food, not the air. "
            f"Once settled the compressor runs {self.day.duty:.0%} of the time, with {self.day.starts:.0f} starts and "
            f"{self.day.kwh:.2f} kWh a day, and the food is at {self.day.product_k - ICE_POINT_K:.1f} °C. "
            f"{self.load.text}"
        )


def _h(seconds: float) -> str:
    return f"{seconds / 3600.0:.1f} h"


def pull_down(room: str, contents: str, damaged_gasket: str, capacity: str) -> PullDown:
    """Two days of a small cooler from warm.

    Parameters
    ----------
    room : str
        Temperature of the room, such as "25 °C" [-]
    contents : str
        Food in it, such as "15 kg", taken as water [-]
    damaged_gasket : str
        How much of the gasket does not seal, such as "20 cm" [-]
    capacity : str
        Heat taken out with the air at 4 °C, such as "150 W" [-]

    Raises
    ------
    InputError, AnswerError
        If something cannot be read or cannot be.
    """
    kelvin, kilograms = _read("room", room, Kind.TEMPERATURE), _read("contents", contents, Kind.MASS)
    if not kelvin > INSIDE.temperature_k:
        raise InputError(f"room is {room.strip()}; a pull-down begins warmer than 4 °C. Was it °F?")
    cabinet = Cabinet(
        BOX,
        DOORWAY,
        damaged_gasket_m=_read("damaged_gasket", damaged_gasket, Kind.LENGTH),
        openings_a_day=30,
        fan_w=6.0,
        lamp_w=15.0,
        contents=Contents(food_named("water"), kilograms, FOOD_W_PER_K),
    )
    air = Air(kelvin, 0.5)
    line = capacity_line(_read("capacity", capacity, Kind.POWER), INSIDE.temperature_k, PER_K)
    numbers = cabinet_numbers(cabinet, air, INSIDE)
    record = run(numbers, kelvin, Start(kelvin, kelvin, kelvin), line, HOURS * 3600.0, THERMOSTAT, INPUT_W, 20.0)
    return PullDown(air, kilograms, heat_load(cabinet, air, INSIDE), record, day_of(record, SETTLED_H * 3600.0))


def pull_down_figure(
    room: str = "25 °C", contents: str = "15 kg", damaged_gasket: str = "0 cm", capacity: str = "150 W"
) -> Picture:
    """Air and food against time from a warm start: when is the food safe, and how hard must the compressor work?

    Parameters
    ----------
    room : str
        Temperature of the room, such as "25 °C" or "77 °F" [-]
    contents : str
        Food in it, such as "15 kg" or "33 lb", taken as water [-]
    damaged_gasket : str
        How much of the gasket does not seal, such as "20 cm" [-]
    capacity : str
        Heat taken out with the air at 4 °C, such as "150 W" [-]

    Raises
    ------
    InputError, AnswerError
        If something cannot be read or cannot be.
    """
    found = pull_down(room, contents, damaged_gasket, capacity)
    return Picture(_drawn(found), found.text)


def _read(name: str, text: str, kind: Kind) -> float:
    try:
        return read(text, kind).value
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None


def _drawn(found: PullDown) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.2, 4.6), layout="constrained")
    FigureCanvasAgg(figure)
    panes = figure.subplots(2, 2, sharex="col", sharey="row", height_ratios=(6, 1), width_ratios=(3, 2))
    for column, span in enumerate(SHOWN_H):
        _draw_temperatures(panes[0, column], found.record)
        _draw_running(panes[1, column], found.record)
        panes[0, column].set_xlim(*span)
    panes[0, 0].set_title("pull-down", fontsize="medium")
    panes[0, 1].set_title("settled", fontsize="medium")
    panes[0, 0].set_ylabel("temperature in °C")
    fahrenheit = panes[0, 1].secondary_yaxis("right", functions=(lambda c: c * 9 / 5 + 32, lambda f: (f - 32) * 5 / 9))
    fahrenheit.set_ylabel("temperature in °F")
    panes[0, 0].legend(loc="upper right")
    figure.supxlabel("hours since it was switched on", fontsize="medium")
    return figure


def _draw_temperatures(axes: Axes, record: Run) -> None:
    hours = record.time_s / 3600.0
    band = [kelvin - ICE_POINT_K for kelvin in (THERMOSTAT.cut_out_k, THERMOSTAT.cut_in_k)]
    axes.axhspan(*band, alpha=0.25, hatch="///", color="tab:blue", label="band of the thermostat")
    axes.plot(hours, record.air_k - ICE_POINT_K, linewidth=1, color="tab:blue", label="air")
    axes.plot(hours, record.product_k - ICE_POINT_K, "--", linewidth=2, color="black", label="food")
    axes.axhline(COLD_HOLDING_K - ICE_POINT_K, linestyle=":", color="tab:red", label="5 °C (41 °F): rule for food")
    reached = record.time_to(COLD_HOLDING_K)
    if math.isfinite(reached):
        axes.plot([reached / 3600.0], [5.0], "o", markersize=8, color="black", label="food at 5 °C")


def _draw_running(axes: Axes, record: Run) -> None:
    axes.fill_between(record.time_s / 3600.0, record.running.astype(float), step="pre", color="grey")
    axes.set_yticks([0, 1], labels=["off", "on"])
