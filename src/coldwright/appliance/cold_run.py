"""Sealed system and cabinet together as time passes, in numbers alone: the inner loop of a unit's cold side."""

from __future__ import annotations

from typing import NamedTuple

from coldwright.cabinet.air import CabinetNumbers, air_step
from coldwright.refrigerants.kernels import Tables, kernel
from coldwright.sealed_system.balance import at_once
from coldwright.sealed_system.plant import Around, Moment, Plant, State
from coldwright.sealed_system.transient import take_step


class Span(NamedTuple):
    """What a span of time left."""

    state: State
    air_k: float
    product_k: float
    length: float  # that a next step may have [s]
    now: Moment  # what flows at the end


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
    air_k, passed, length = around.air_k, 0.0, first
    now = at_once(tables, plant, around, state)
    while passed < seconds - 1e-9:
        done = take_step(tables, plant, around, state, now, length, seconds - passed)
        passed += done.seconds
        cooled = 0.5 * (now.evaporator_w + done.after.evaporator_w)
        air_k, product_k = air_step(air_k, product_k, around.room_k, cooled, cabinet, done.seconds)
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
        # its air is that of the step before: it moves by hundredths of a kelvin
        state, now, length = done.state, done.after, done.length
    return Span(state, air_k, product_k, length, now)
