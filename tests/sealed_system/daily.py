"""A day of a cooler on its thermostat as one kernel: for the test of the step and for the benchmark."""

from __future__ import annotations

from typing import NamedTuple

from coldwright.cabinet.air import CabinetNumbers, air_rates, air_step
from coldwright.refrigerants.kernels import Tables, kernel
from coldwright.sealed_system.balance import at_once
from coldwright.sealed_system.plant import Around, Plant, State
from coldwright.sealed_system.transient import LONGEST_S, SHORTEST_S, heun_step, next_length

BOX = CabinetNumbers(1.9, 0.0, 4.0, 0.0, 18e3, 6.0, 42e3, 21e3, 272.15, 3.3e6, 1.0, 0.0, 2.0)
"""A cooler of 150 litres with ten litres of water in it; illustrative."""
CUT_IN_K, CUT_OUT_K = 279.15, 275.15
PRODUCT_K = 278.15
LATE_S = 0.1  # how far behind the switching temperature a step may end
DAY_S = 86400.0


class Day(NamedTuple):
    """What a day came to."""

    joules: float
    starts: int
    warmest_k: float
    coldest_k: float
    seconds_on: float
    steps: int


@kernel
def cooler_day(
    tables: Tables, plant: Plant, around: Around, box: CabinetNumbers, state: State, seconds: float, refined: float
) -> Day:
    """A day from the warm end of the thermostat's band; `refined` 2 is half the step and half the tolerance."""
    air, product = CUT_IN_K, PRODUCT_K
    joules = on = passed = 0.0
    starts = steps = 0
    warmest = coldest = air
    length = 1.0
    around = _now(around, air, 1.0)
    now = at_once(tables, plant, around, state)
    while passed < seconds - 1e-9:
        running = around.running > 0.0
        span = min(length, LONGEST_S / refined, seconds - passed)
        # no further than where the thermostat switches, at the pace of the moment
        pace = air_rates(air, product, around.room_k, now.evaporator_w, box)[0]
        away = (CUT_OUT_K if running else CUT_IN_K) - air
        if away * pace > 0.0:
            span = min(span, max(LATE_S, away / pace))
        done = heun_step(tables, plant, around, state, now, span)
        error = done.error * refined
        steps += 1
        if error > 1.0 and span > SHORTEST_S:
            length = max(SHORTEST_S, min(0.5 * span, next_length(span, error)))
            continue
        passed += span
        if span >= length or error > 0.5:
            length = next_length(span, error)
        cold = 0.5 * (now.evaporator_w + done.after.evaporator_w)
        joules += 0.5 * span * (now.watts + done.after.watts)
        on += span if running else 0.0
        air, product = air_step(air, product, around.room_k, cold, box, span)
        warmest, coldest = max(warmest, air), min(coldest, air)
        state, now = done.state, done.after
        wanted = around.running
        if running and air <= CUT_OUT_K:
            wanted = 0.0
        elif not running and air >= CUT_IN_K:
            wanted = 1.0
            starts += 1
        around = _now(around, air, wanted)
        if wanted != (1.0 if running else 0.0):
            length = 0.5
            now = at_once(tables, plant, around, state)
    return Day(joules, starts, warmest, coldest, on, steps)


@kernel
def _now(around: Around, air_k: float, running: float) -> Around:
    """The same surroundings with another air on the evaporator, running or not."""
    return Around(
        around.room_k,
        air_k,
        running,
        around.speed,
        around.condenser_air,
        around.evaporator_air,
        around.charge_kg,
        around.heater_w,
        around.standing_w,
    )
