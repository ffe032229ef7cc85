"""The steady balance of a sealed system: the state in which nothing changes any more.

Newton's method on the rates themselves, begun as implicit steps of time that grow without bound (pseudo-transient
continuation, Kelley & Keyes 1998), so that a poor guess walks the way that the system itself would go.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from coldwright.refrigerants.kernels import Tables, dew_pressure_at, kernel, saturation
from coldwright.sealed_system.capillary import capillary_flow
from coldwright.sealed_system.moment import moment
from coldwright.sealed_system.plant import Around, Moment, Plant, State, oil_at_rest, pressures

UNKNOWNS = 6
MOST_TURNS = 120
CLOSED = 2e-10  # of rates in their own scales, per second
FIRST_STEP_S = 20.0
ENTHALPY_SCALE, SHELL_SCALE = 2e4, 30.0
HALVINGS = 4  # of a turn that would lead away: beside a bend the full step swings to and fro
FURTHEST = 0.25  # of any unknown in one turn
CALM_S = 10.0  # near equal pressures the flow falls with the drop itself, no longer with its root; settles in this time
SHELL_RANGE = (200.0, 520.0)


class Balance(NamedTuple):
    """Where the search ended."""

    state: State
    turns: int
    residual: float  # largest rate in its own scale [1/s]


@kernel
def through_capillary(tables: Tables, plant: Plant, state: State, high: float, low: float) -> float:
    """Flow through the capillary, below zero where the low side stands above the high.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    state : State
        Its state [-]
    high, low : float
        Pressures [Pa]

    Returns
    -------
    float
        Flow [kg/s]
    """
    calmest = state.high_kg * abs(high - low) / (max(high, low) * CALM_S)
    if high >= low:
        flow = capillary_flow(tables, plant.bore_m, plant.capillary_m, plant.roughness, high, state.inlet_h, low)
        return min(calmest, flow)
    back = saturation(tables, low).vapour_h
    return -min(calmest, capillary_flow(tables, plant.bore_m, plant.capillary_m, plant.roughness, low, back, high))


@kernel
def at_once(tables: Tables, plant: Plant, around: Around, state: State) -> Moment:
    """What flows and changes in a state, its capillary's flow included.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system [-]
    around : Around
        What it stands in [-]
    state : State
        Its state [-]

    Returns
    -------
    Moment
        Rates and readings [-]
    """
    high, low = pressures(tables, plant, around, state)
    return moment(tables, plant, around, state, high, low, through_capillary(tables, plant, state, high, low))


@kernel
def _state_of(tables: Tables, plant: Plant, around: Around, z: Sequence[float]) -> State:
    """The state behind the scaled unknowns, with the oil at rest."""
    shell = SHELL_SCALE * z[3]
    oil = oil_at_rest(tables, plant, around.charge_kg, z[1], around.charge_kg * z[2], shell)
    return State(z[0], z[1], around.charge_kg * z[2], shell, ENTHALPY_SCALE * z[4], ENTHALPY_SCALE * z[5], oil)


@kernel
def _scaled(rates: State, charge: float, out: Sequence[float]) -> float:
    """Rates in the scales of the unknowns, written into `out`; the largest of them [1/s]."""
    out[0] = rates.log_high  # type: ignore[index]
    out[1] = rates.log_low  # type: ignore[index]
    out[2] = rates.high_kg / charge  # type: ignore[index]
    out[3] = rates.shell_k / SHELL_SCALE  # type: ignore[index]
    out[4] = rates.return_h / ENTHALPY_SCALE  # type: ignore[index]
    out[5] = rates.inlet_h / ENTHALPY_SCALE  # type: ignore[index]
    most = 0.0
    for n in range(UNKNOWNS):
        most = max(most, abs(out[n]))
    return most


@kernel
def _solve(a: Sequence[float], b: Sequence[float]) -> bool:
    """Solves a (row by row) x = b in place, b becoming x; False where a has no inverse."""
    n = UNKNOWNS
    for k in range(n):
        pivot = k
        for i in range(k + 1, n):
            if abs(a[i * n + k]) > abs(a[pivot * n + k]):
                pivot = i
        if abs(a[pivot * n + k]) < 1e-300:
            return False
        if pivot != k:
            for j in range(k, n):
                a[k * n + j], a[pivot * n + j] = a[pivot * n + j], a[k * n + j]  # type: ignore[index]
            b[k], b[pivot] = b[pivot], b[k]  # type: ignore[index]
        for i in range(k + 1, n):
            factor = a[i * n + k] / a[k * n + k]
            if factor != 0.0:
                for j in range(k, n):
                    a[i * n + j] -= factor * a[k * n + j]  # type: ignore[index]
                b[i] -= factor * b[k]  # type: ignore[index]
    for k in range(n - 1, -1, -1):
        total = b[k]
        for j in range(k + 1, n):
            total -= a[k * n + j] * b[j]
        b[k] = total / a[k * n + k]  # type: ignore[index]
    return True


@kernel
def first_guess(tables: Tables, around: Around) -> State:
    """A state to begin from: condensing above the room, evaporating below the air, most of the charge on the high side.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    around : Around
        What it stands in [-]

    Returns
    -------
    State
        A state not far from steady [-]
    """
    high = dew_pressure_at(tables, around.room_k + 14.0)
    low = dew_pressure_at(tables, min(around.air_k, around.room_k) - 15.0)
    c, e = saturation(tables, high), saturation(tables, low)
    return State(
        math.log(high),
        math.log(low),
        0.55 * around.charge_kg,
        around.room_k + 32.0,
        e.vapour_h + 15.0 * e.vapour_cp,
        c.liquid_h - 20.0 * c.liquid_cp,
        0.0,
    )


@kernel
def steady(tables: Tables, plant: Plant, around: Around, guess: State) -> Balance:
    """Search for the state in which nothing changes; whether it was found is told by the residual.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The system, running [-]
    around : Around
        What it stands in [-]
    guess : State
        Where to begin [-]

    Returns
    -------
    Balance
        Where the search ended [-]
    """
    charge = around.charge_kg
    top = tables.low + tables.step * (tables.rows - 1)
    z = [
        guess.log_high,
        guess.log_low,
        guess.high_kg / charge,
        guess.shell_k / SHELL_SCALE,
        guess.return_h / ENTHALPY_SCALE,
        guess.inlet_h / ENTHALPY_SCALE,
    ]
    rates = [0.0] * UNKNOWNS
    moved = [0.0] * UNKNOWNS
    step = [0.0] * UNKNOWNS
    tried = [0.0] * UNKNOWNS
    matrix = [0.0] * (UNKNOWNS * UNKNOWNS)
    state = _state_of(tables, plant, around, z)
    high, low = pressures(tables, plant, around, state)
    capillary = through_capillary(tables, plant, state, high, low)
    residual = _scaled(moment(tables, plant, around, state, high, low, capillary).rates, charge, rates)
    span = FIRST_STEP_S
    turns = 0
    while turns < MOST_TURNS and residual > CLOSED:
        turns += 1
        for n in range(UNKNOWNS):
            kept = z[n]
            nudge = 1e-6
            z[n] = kept + nudge
            other = _state_of(tables, plant, around, z)
            p, q = pressures(tables, plant, around, other)
            through = capillary
            if n == 5 or p != high or q != low:
                through = through_capillary(tables, plant, other, p, q)
            _scaled(moment(tables, plant, around, other, p, q, through).rates, charge, moved)
            z[n] = kept
            for i in range(UNKNOWNS):
                matrix[i * UNKNOWNS + n] = -(moved[i] - rates[i]) / nudge
        for n in range(UNKNOWNS):
            matrix[n * UNKNOWNS + n] += 1.0 / span
            step[n] = rates[n]
        if not _solve(matrix, step):
            span *= 0.25
            continue
        furthest = 0.0
        for n in range(UNKNOWNS):
            furthest = max(furthest, abs(step[n]))
        part = min(1.0, FURTHEST / furthest) if furthest > 0.0 else 1.0
        for _ in range(HALVINGS):
            for n in range(UNKNOWNS):
                tried[n] = z[n] + part * step[n]
            tried[0] = min(top, tried[0])
            tried[1] = min(top, max(tables.low, tried[1]))
            tried[2] = min(0.995, max(0.005, tried[2]))
            tried[3] = min(SHELL_RANGE[1] / SHELL_SCALE, max(SHELL_RANGE[0] / SHELL_SCALE, tried[3]))
            new = _state_of(tables, plant, around, tried)
            p, q = pressures(tables, plant, around, new)
            through = through_capillary(tables, plant, new, p, q)
            gap = _scaled(moment(tables, plant, around, new, p, q, through).rates, charge, moved)
            if gap < residual:
                break
            part *= 0.5
        if gap > 4.0 * residual and span > 0.05:
            span *= 0.2
            continue
        grown = residual / gap if gap > 0.0 else 10.0
        span = min(1e12, span * min(10.0, max(0.5, 1.7 * grown)))
        for n in range(UNKNOWNS):
            z[n] = tried[n]
            rates[n] = moved[n]
        state, high, low, capillary, residual = new, p, q, through, gap
    return Balance(state, turns, residual)
