"""Sealed system and cabinet together as time passes, in numbers alone: the inner loop of a unit's cold side."""

from __future__ import annotations

from typing import NamedTuple

from coldwright.cabinet.air import CabinetNumbers, air_step
from coldwright.refrigerants.kernels import Tables, kernel
from coldwright.sealed_system.balance import at_once
from coldwright.sealed_system.plant import Around, Plant, State
from coldwright.sealed_system.transient import SHORTEST_S, heun_step, next_length


class Span(NamedTuple):
    """What a span of time left."""

    state: State
    air_k: float
    product_k: float
    length: float  # that a next step may have [s]
    evaporator_j: float
    input_j: float  # electric energy by the sealed system's own motor line
    steps: int


@kernel
def cold_span(
    tables: Tables,
    plant: Plant,
    around: Around,
    cabinet: CabinetNumbers,
    state: State,
    product_k: float,
    seconds: float,
    first: float,
) -> Span:
    """Carries sealed system, air and product on; only the air changes of what the system stands in.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    plant : Plant
        The sealed system [-]
    around : Around
        What it stands in at the beginning [-]
    cabinet : CabinetNumbers
        The cabinet [-]
    state : State
        Of the sealed system at the beginning [-]
    product_k : float
        Temperature of the product [K]
    seconds : float
        How long [s]
    first : float
        Length of the first step [s]

    Returns
    -------
    Span
        The end of it [-]
    """
    air_k, passed, length, steps = around.air_k, 0.0, first, 0
    taken = used = 0.0
    now = at_once(tables, plant, around, state)
    while passed < seconds - 1e-9:
        span = min(length, seconds - passed)
        done = heun_step(tables, plant, around, state, now, span)
        steps += 1
        if done.error > 1.0 and span > SHORTEST_S:
            length = max(SHORTEST_S, min(0.5 * span, next_length(span, done.error)))
            continue
        passed += span
        if span == length or done.error > 0.5:
            length = next_length(span, done.error)
        cooled = 0.5 * (now.evaporator_w + done.after.evaporator_w)
        taken += span * cooled
        used += 0.5 * span * (now.watts + done.after.watts)
        air_k, product_k = air_step(air_k, product_k, around.room_k, cooled, cabinet, span)
        around = Around(
            around.room_k,
            air_k,
            around.running,
            around.speed,
            around.condenser_air,
            around.evaporator_air,
            around.charge_kg,
            around.heater_w,
            around.standing_w,
        )
        state, now = done.state, done.after  # its air is that of the step before: it moves by hundredths of a kelvin
    return Span(state, air_k, product_k, length, taken, used, steps)
