"""Numbers looked up in tables of one refrigerant, written so that they run as plain Python or compiled.

A function marked `kernel` takes floats, tuples of floats and `Tables` and calls only kernels and `math`. `compiled`
turns one into machine code where the optional extra is installed; without it everything runs as it stands.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple, TypeVar, cast

Function = TypeVar("Function", bound=Callable[..., Any])
KERNELS: list[Callable[..., Any]] = []


def kernel(function: Function) -> Function:
    """The function itself, noted as one that can be compiled.

    Parameters
    ----------
    function : Function
        Of floats, tuples of floats and tables [-]
    """
    KERNELS.append(function)
    return function


class Tables(NamedTuple):
    """Columns against ln P from `low` in steps of `step`, and a grid of vapour against ln P and h - h_dry.

    Lists in plain Python, arrays where compiled. SI; enthalpy and entropy from the room's own zero.
    """

    low: float  # ln Pa
    step: float
    rows: int
    above_step: float  # J/kg
    columns: int
    bubble_k: Sequence[float]
    dew_k: Sequence[float]
    liquid_h: Sequence[float]
    vapour_h: Sequence[float]
    liquid_v: Sequence[float]
    vapour_pv: Sequence[float]  # P·v
    liquid_mu: Sequence[float]
    vapour_mu: Sequence[float]
    liquid_cp: Sequence[float]
    vapour_cp: Sequence[float]
    grid_k: Sequence[float]  # row by row
    grid_pv: Sequence[float]
    grid_s: Sequence[float]


class Saturation(NamedTuple):
    """Both sides of saturation at one pressure."""

    bubble_k: float
    dew_k: float
    liquid_h: float
    vapour_h: float
    liquid_v: float
    vapour_v: float
    liquid_mu: float
    vapour_mu: float
    liquid_cp: float
    vapour_cp: float


@kernel
def saturation(tables: Tables, pressure: float) -> Saturation:
    """Both sides of saturation at a pressure, held at the ends of the table.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Absolute [Pa]
    """
    place = (math.log(pressure) - tables.low) / tables.step
    row = int(place)
    if row < 0:
        row = 0
    elif row > tables.rows - 2:
        row = tables.rows - 2
    w = place - row
    u = 1.0 - w
    n = row + 1
    return Saturation(
        u * tables.bubble_k[row] + w * tables.bubble_k[n],
        u * tables.dew_k[row] + w * tables.dew_k[n],
        u * tables.liquid_h[row] + w * tables.liquid_h[n],
        u * tables.vapour_h[row] + w * tables.vapour_h[n],
        u * tables.liquid_v[row] + w * tables.liquid_v[n],
        (u * tables.vapour_pv[row] + w * tables.vapour_pv[n]) / pressure,
        u * tables.liquid_mu[row] + w * tables.liquid_mu[n],
        u * tables.vapour_mu[row] + w * tables.vapour_mu[n],
        u * tables.liquid_cp[row] + w * tables.liquid_cp[n],
        u * tables.vapour_cp[row] + w * tables.vapour_cp[n],
    )


@kernel
def _on_grid(tables: Tables, grid: Sequence[float], pressure: float, above: float) -> float:
    """A quantity of vapour at a pressure and an enthalpy above dry vapour; beyond the grid its edge runs on."""
    place = (math.log(pressure) - tables.low) / tables.step
    row = int(place)
    if row < 0:
        row = 0
    elif row > tables.rows - 2:
        row = tables.rows - 2
    w = place - row
    across = above / tables.above_step
    column = int(across)
    if column < 0:
        column = 0
    elif column > tables.columns - 2:
        column = tables.columns - 2
    a = across - column
    at = row * tables.columns + column
    under = at + tables.columns
    return (1.0 - w) * ((1.0 - a) * grid[at] + a * grid[at + 1]) + w * ((1.0 - a) * grid[under] + a * grid[under + 1])


@kernel
def grid_pv(tables: Tables, pressure: float, above: float) -> float:
    """P·v of vapour at a pressure and an enthalpy above dry vapour [J/kg].

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Absolute [Pa]
    above : float
        Enthalpy above dry vapour [J/kg]
    """
    return _on_grid(tables, tables.grid_pv, pressure, above)


@kernel
def boiling_pressure(tables: Tables, pressure: float, enthalpy: float) -> float:
    """Pressure at which liquid of an enthalpy begins to boil as its pressure falls [Pa].

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Where it is liquid, absolute [Pa]
    enthalpy : float
        Of the liquid [J/kg]
    """
    low, high = 0, tables.rows - 1
    while high - low > 1:
        middle = (low + high) // 2
        if tables.liquid_h[middle] < enthalpy:
            low = middle
        else:
            high = middle
    part = (enthalpy - tables.liquid_h[low]) / (tables.liquid_h[high] - tables.liquid_h[low])
    return min(pressure, math.exp(tables.low + tables.step * (low + part)))


@kernel
def dew_pressure_at(tables: Tables, temperature: float) -> float:
    """Pressure of dew at a temperature; the last step of the table runs on beyond its ends [Pa].

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    temperature : float
        Of dew [K]
    """
    low, high = 0, tables.rows - 1
    while high - low > 1:
        middle = (low + high) // 2
        if tables.dew_k[middle] < temperature:
            low = middle
        else:
            high = middle
    part = (temperature - tables.dew_k[low]) / (tables.dew_k[high] - tables.dew_k[low])
    return math.exp(tables.low + tables.step * (low + part))


@kernel
def temperature_ph(tables: Tables, pressure: float, enthalpy: float) -> float:
    """Temperature of liquid, mixture or vapour [K].

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Absolute [Pa]
    enthalpy : float
        From the room's zero [J/kg]
    """
    s = saturation(tables, pressure)
    if enthalpy >= s.vapour_h:
        return _on_grid(tables, tables.grid_k, pressure, enthalpy - s.vapour_h)
    if enthalpy <= s.liquid_h:
        return s.bubble_k + (enthalpy - s.liquid_h) / s.liquid_cp
    return s.bubble_k + (s.dew_k - s.bubble_k) * (enthalpy - s.liquid_h) / (s.vapour_h - s.liquid_h)


@kernel
def volume_ph(tables: Tables, pressure: float, enthalpy: float) -> float:
    """Specific volume of liquid, homogeneous mixture or vapour [m³/kg].

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Absolute [Pa]
    enthalpy : float
        From the room's zero [J/kg]
    """
    s = saturation(tables, pressure)
    if enthalpy >= s.vapour_h:
        return _on_grid(tables, tables.grid_pv, pressure, enthalpy - s.vapour_h) / pressure
    if enthalpy <= s.liquid_h:
        return s.liquid_v
    return s.liquid_v + (s.vapour_v - s.liquid_v) * (enthalpy - s.liquid_h) / (s.vapour_h - s.liquid_h)


@kernel
def enthalpy_pt(tables: Tables, pressure: float, temperature: float) -> float:
    """Enthalpy of superheated vapour at a temperature at or above dew [J/kg].

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    pressure : float
        Absolute [Pa]
    temperature : float
        At or above dew [K]
    """
    s = saturation(tables, pressure)
    above = s.vapour_cp * (temperature - s.dew_k)
    for _ in range(4):
        t = _on_grid(tables, tables.grid_k, pressure, above)
        slope = (_on_grid(tables, tables.grid_k, pressure, above + 500.0) - t) / 500.0
        above += (temperature - t) / slope
    return s.vapour_h + above


@kernel
def compressed_enthalpy(tables: Tables, low: float, enthalpy: float, high: float) -> float:
    """Enthalpy after compression without loss or heat; wet suction dries on the way [J/kg].

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    low : float
        Pressure before, absolute [Pa]
    enthalpy : float
        At the low pressure [J/kg]
    high : float
        Pressure after, absolute [Pa]
    """
    at_low = saturation(tables, low)
    wet = min(0.0, enthalpy - at_low.vapour_h)
    entropy = _on_grid(tables, tables.grid_s, low, max(0.0, enthalpy - at_low.vapour_h)) + wet / at_low.dew_k
    at_high = saturation(tables, high)
    above = 0.0
    for _ in range(3):  # dh = T ds at constant pressure; the step is exact but for the change of T along it
        gap = entropy - _on_grid(tables, tables.grid_s, high, above)
        t = _on_grid(tables, tables.grid_k, high, above)
        above += gap * (t + 0.5 * gap * t / at_high.vapour_cp)
    return at_high.vapour_h + above


def compiled(function: Function) -> Function:
    """A kernel as machine code; needs the extra `fast`.

    Parameters
    ----------
    function : Function
        A kernel [-]
    """
    from numba import njit
    from numba.extending import register_jitable

    for each in KERNELS:
        if each is not function:
            register_jitable(each)
    return cast(Function, njit(function))
