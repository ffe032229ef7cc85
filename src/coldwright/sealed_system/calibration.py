"""A plant whose plate's charge gives its design superheat and subcooling: length of the capillary, inside volumes.

At the design point nothing but the charge depends on volumes, and nothing but the flow on the capillary. So the point
is found first, with whatever charge and capillary it takes; then both follow, one in a straight line, one by halving.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from coldwright.refrigerants.kernels import Tables, dew_pressure_at, saturation
from coldwright.sealed_system.capillary import capillary_flow
from coldwright.sealed_system.moment import moment
from coldwright.sealed_system.plant import Around, Moment, Plant, State, oil_at_rest, pressures

CONDENSING_K, EVAPORATING_K, SHELL_K = 315.15, 259.15, 325.0  # where the search begins
SETTLED = 1e-8
MOST_TURNS, HALVINGS, NUDGE, FURTHEST = 60, 6, 1e-6, 0.2
LENGTH_BOUNDS_M = (0.01, 100.0)
ENTHALPY_SCALE, SHELL_SCALE, KELVIN_SCALE = 2e4, 30.0, 1e3


class DesignPoint(NamedTuple):
    """State, charge, and what flows."""

    state: State
    charge_kg: float
    moment: Moment


class NotFound(ArithmeticError):
    """No such point."""


def design_point(tables: Tables, plant: Plant, around: Around, superheat_k: float, subcooling_k: float) -> DesignPoint:
    """The steady state with a superheat and a subcooling, whatever charge and capillary that takes.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system; its capillary does not matter [-]
    around : Around
        What it stands in; its charge is a first guess [-]
    superheat_k : float
        At the evaporator's outlet, below the difference of air and evaporation [K]
    subcooling_k : float
        Of the liquid that leaves the condenser [K]

    Returns
    -------
    DesignPoint
        The point [-]

    Raises
    ------
    NotFound
        If there is none, or it is not found.
    """
    scales = np.array([1.0, 1.0, around.charge_kg, SHELL_SCALE, ENTHALPY_SCALE, ENTHALPY_SCALE, around.charge_kg])

    def at(z: np.ndarray) -> tuple[DesignPoint, np.ndarray]:
        point = _point(tables, plant, around, *(float(each) for each in z * scales))
        rates = point.moment.rates
        gaps = (point.moment.superheat_k - superheat_k, point.moment.subcooling_k - subcooling_k)
        return point, np.array(
            [
                rates.log_high,
                rates.log_low,
                rates.shell_k / SHELL_SCALE,
                rates.return_h / ENTHALPY_SCALE,
                rates.inlet_h / ENTHALPY_SCALE,
                gaps[0] / KELVIN_SCALE,
                gaps[1] / KELVIN_SCALE,
            ]
        )

    z = np.array(_seed(tables, plant, around, superheat_k, subcooling_k)) / scales
    point, off = at(z)
    for _ in range(MOST_TURNS):
        if np.max(np.abs(off)) < SETTLED:
            return point
        slopes = np.empty((z.size, z.size))
        for n in range(z.size):
            moved = z.copy()
            moved[n] += NUDGE
            slopes[:, n] = (at(moved)[1] - off) / NUDGE
        move = np.linalg.lstsq(slopes, -off, rcond=None)[0]
        part = min(1.0, FURTHEST / float(np.max(np.abs(move))))
        for _ in range(HALVINGS):
            tried, gap = at(z + part * move)
            if np.linalg.norm(gap) < np.linalg.norm(off):
                break
            part *= 0.5
        z, point, off = z + part * move, tried, gap
    raise NotFound(f"the design point was not found; {np.max(np.abs(off)):.1e} is left")


def length_for(tables: Tables, plant: Plant, point: DesignPoint) -> float:
    """Length of the capillary that passes a design point's flow.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system, with its bore [-]
    point : DesignPoint
        The point [-]

    Returns
    -------
    float
        Length [m]
    """
    short, long = LENGTH_BOUNDS_M
    now, inlet_h = point.moment, point.state.inlet_h
    for _ in range(60):
        middle = math.sqrt(short * long)
        flow = capillary_flow(tables, plant.bore_m, middle, plant.roughness, now.discharge_pa, inlet_h, now.suction_pa)
        short, long = (middle, long) if flow > now.flow else (short, middle)
    return math.sqrt(short * long)


def _point(
    tables: Tables,
    plant: Plant,
    around: Around,
    log_high: float,
    log_low: float,
    high_kg: float,
    shell_k: float,
    return_h: float,
    inlet_h: float,
    charge_kg: float,
) -> DesignPoint:
    """A state with a capillary that passes just what the compressor moves."""
    around = around._replace(charge_kg=charge_kg)
    oil = oil_at_rest(tables, plant, charge_kg, log_low, high_kg, shell_k)
    state = State(log_high, log_low, high_kg, shell_k, return_h, inlet_h, oil)
    high, low = pressures(tables, plant, around, state)
    flow = moment(tables, plant, around, state, high, low, 0.0).flow
    return DesignPoint(state, charge_kg, moment(tables, plant, around, state, high, low, flow))


def _seed(
    tables: Tables, plant: Plant, around: Around, superheat_k: float, subcooling_k: float
) -> tuple[float, float, float, float, float, float, float]:
    """A first guess in which both sides hold what gives the superheat and the subcooling, by halving."""
    high, low = dew_pressure_at(tables, CONDENSING_K), dew_pressure_at(tables, EVAPORATING_K)
    c, e = saturation(tables, high), saturation(tables, low)
    return_h, inlet_h = e.vapour_h + 30.0 * e.vapour_cp, c.liquid_h - 25.0 * c.liquid_cp

    def there(high_kg: float, charge_kg: float) -> Moment:
        guess = (math.log(high), math.log(low), high_kg, SHELL_K, return_h, inlet_h, charge_kg)
        return _point(tables, plant, around, *guess).moment

    least, most = 0.0, (plant.condenser_m3 + plant.liquid_line_m3) / c.liquid_v
    for _ in range(30):
        high_kg = 0.5 * (least + most)
        enough = there(high_kg, 2.0 * high_kg).subcooling_k > subcooling_k
        least, most = (least, high_kg) if enough else (high_kg, most)
    least, most = 0.0, plant.evaporator_m3 / e.liquid_v + 2.0 * plant.shell_m3 / e.vapour_v + plant.oil_kg
    for _ in range(30):
        low_kg = 0.5 * (least + most)
        enough = there(high_kg, high_kg + low_kg).superheat_k < superheat_k
        least, most = (least, low_kg) if enough else (low_kg, most)
    return math.log(high), math.log(low), high_kg, SHELL_K, return_h, inlet_h, high_kg + low_kg
