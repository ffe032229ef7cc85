"""The pressure-enthalpy chart itself: dome, isotherms, and a cycle on it. Told apart by line, mark and number."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.saturation import (
    bubble_pressure,
    dew_pressure,
    saturated_liquid,
    saturated_vapour,
)
from coldwright.refrigerants.states import State, state_pt
from coldwright.sealed_system.cycle_states import Cycle

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

BAR, KILO = 1e5, 1e3
NEAR_CRITICAL, NEAR_CRITICAL_OF_A_BLEND = 0.998, 0.97
DOME_POINTS, ISOTHERM_POINTS = 30, 12
ISOTHERMS_C = range(-40, 141, 20)
TICKS_BAR = (0.2, 0.5, 1, 2, 5, 10, 20, 50)
MARKS = ("o", "s", "D", "^", "v", "P")

Line = tuple[list[float], list[float]]


def dome(refrigerant: str, lowest_pa: float) -> tuple[Line, Line]:
    """Saturated liquid and saturated vapour from a pressure up to close under the critical one.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    lowest_pa : float
        Where the lines begin, absolute [Pa]

    Returns
    -------
    tuple
        Two lines, each with its enthalpies [kJ/kg] and its pressures [bar absolute]
    """
    named = refrigerant_named(refrigerant)
    highest = named.critical_pa * (NEAR_CRITICAL_OF_A_BLEND if named.is_blend else NEAR_CRITICAL)
    pressures = [float(p) for p in np.geomspace(lowest_pa, highest, DOME_POINTS)]
    liquid = [saturated_liquid(refrigerant, p) for p in pressures]
    vapour = [saturated_vapour(refrigerant, p) for p in pressures]
    return _line(liquid), _line(vapour)


def isotherm(refrigerant: str, celsius: float, lowest_pa: float, highest_pa: float) -> Line:
    """Line of one temperature between two pressures, from the top: liquid, across the dome, vapour.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    celsius : float
        Temperature [°C]
    lowest_pa, highest_pa : float
        Where the line ends, absolute [Pa]

    Returns
    -------
    tuple
        Enthalpies [kJ/kg] and pressures [bar absolute]
    """
    kelvin = celsius + ICE_POINT_K
    states: list[State] = []
    start = highest_pa
    if kelvin < refrigerant_named(refrigerant).critical_k - 1.0:
        bubble, dew = bubble_pressure(refrigerant, kelvin), dew_pressure(refrigerant, kelvin)
        if bubble < highest_pa:
            states += [state_pt(refrigerant, p, kelvin) for p in (highest_pa, (highest_pa * bubble) ** 0.5)]
            states.append(saturated_liquid(refrigerant, bubble))
        if lowest_pa < dew < highest_pa:
            states.append(saturated_vapour(refrigerant, dew))
        start = min(highest_pa, dew * 0.999)
    if start > lowest_pa:
        pressures = np.geomspace(start, lowest_pa, ISOTHERM_POINTS)
        states += [state_pt(refrigerant, float(p), kelvin) for p in pressures]
    return _line(states)


def ph_chart(cycle: Cycle, measured: bool) -> Figure:
    """The chart with a cycle on it.

    Parameters
    ----------
    cycle : Cycle
        Closed cycle [-]
    measured : bool
        Whether its points were measured; that of a perfect compressor is then shown too [-]
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.0, 6.0), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    lowest, highest = 0.5 * cycle.suction.pressure_pa, 1.1 * refrigerant_named(cycle.refrigerant).critical_pa
    for line, words in zip(dome(cycle.refrigerant, lowest), ("saturated liquid", "saturated vapour"), strict=True):
        axes.plot(*line, color="black", linewidth=1.5, linestyle="-" if "liquid" in words else "--", label=words)
    for celsius in ISOTHERMS_C:
        _draw_isotherm(axes, cycle.refrigerant, celsius, lowest, highest)
    _draw_cycle(axes, cycle, measured)
    enthalpies = [state.enthalpy_j_per_kg / KILO for _, state in cycle.states]
    margin = 0.25 * (max(enthalpies) - min(enthalpies))
    axes.set_xlim(min(enthalpies) - margin, max(enthalpies) + margin)
    axes.set_yscale("log")
    axes.set_yticks([tick for tick in TICKS_BAR if lowest < tick * BAR < highest])
    axes.yaxis.set_major_formatter("{x:g}")
    axes.yaxis.set_minor_formatter("")
    axes.set_ylim(lowest / BAR, highest / BAR)
    axes.set_xlabel("enthalpy in kJ/kg (200 for liquid at 0 °C)")
    axes.set_ylabel("pressure in bar absolute")
    axes.set_title(f"{cycle.refrigerant}; thin dotted lines: temperature in °C", fontsize=10)
    figure.legend(loc="outside lower center", ncols=3, fontsize=8)
    return figure


def _draw_isotherm(axes: Axes, refrigerant: str, celsius: int, lowest: float, highest: float) -> None:
    try:
        enthalpies, pressures = isotherm(refrigerant, celsius, lowest, highest)
    except InputError:  # beyond the refrigerant's equation of state: the chart ends before
        return
    if enthalpies:
        axes.plot(enthalpies, pressures, ":", color="grey", linewidth=0.8)
        end = (enthalpies[-1], pressures[-1])
        axes.annotate(
            f"{celsius}", end, textcoords="offset points", xytext=(2, 3), fontsize=7, annotation_clip=True, clip_on=True
        )


def _draw_cycle(axes: Axes, cycle: Cycle, measured: bool) -> None:
    named = cycle.states
    around = [*(state for _, state in named), cycle.suction]
    enthalpies, pressures = _line(around)
    axes.plot(enthalpies, pressures, "-", color="tab:blue", linewidth=2, label="the cycle")
    if measured:
        axes.plot(*_line([cycle.suction, cycle.ideal_discharge]), "-.", color="tab:red", label="a perfect compressor")
    for number, ((name, state), mark) in enumerate(zip(named, MARKS, strict=False), start=1):
        x, y = state.enthalpy_j_per_kg / KILO, state.pressure_pa / BAR
        axes.plot([x], [y], mark, markersize=8, color="black", linestyle="none", label=f"{number} {name}")
        axes.annotate(f"{number}", (x, y), textcoords="offset points", xytext=(6, 6), fontweight="bold")


def _line(states: list[State]) -> Line:
    return [s.enthalpy_j_per_kg / KILO for s in states], [s.pressure_pa / BAR for s in states]
