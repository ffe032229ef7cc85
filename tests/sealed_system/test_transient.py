"""A sealed system as time passes: grams added in steps, a day with a thermostat, stopping, starting again."""

from __future__ import annotations

import itertools
from typing import NamedTuple

import pytest

from coldwright.refrigerants.kernels import compiled, dew_pressure_at
from coldwright.sealed_system import transient
from coldwright.sealed_system.design import design_around
from coldwright.sealed_system.outcome import settled
from coldwright.sealed_system.plant import Around, Moment, State
from tests.sealed_system.daily import BOX, CUT_IN_K, CUT_OUT_K, cooler_day
from tests.sealed_system.plants import COOLER, FAST, PLATES, built, engine
from tests.sealed_system.states import settled_of

HALF_PERCENT = 0.005


class Filling(NamedTuple):
    """What is read some time after each portion."""

    suction: list[float]
    superheat: list[float]
    wetted: list[float]
    watts: list[float]
    state: State
    around: Around
    now: Moment


def filled(plate, start: float, portion: float, portions: int, wait_s: float) -> Filling:
    """Portions of the plate's charge let into the low side of a short system that runs, each followed by a wait."""
    machine, plant = engine(plate), built(plate)
    around = design_around(start * plate.charge_kg)
    state = settled(machine, plant, around).state
    moments = [machine.at_once(machine.tables, plant, around, state)]
    for _ in range(portions):
        around = around._replace(charge_kg=around.charge_kg + portion * plate.charge_kg)
        state, *_ = machine.advance(machine.tables, plant, around, state, wait_s, 1.0)
        moments.append(machine.at_once(machine.tables, plant, around, state))
    return Filling(
        [m.suction_pa for m in moments],
        [m.superheat_k for m in moments],
        [m.wetted for m in moments],
        [m.watts for m in moments],
        state,
        around,
        moments[-1],
    )


def test_adding_grams_shows_the_textbook_sequence():
    """Suction up, superheat down, frost line forward, watts up with each 7 % more (common practice, no source)."""
    seen = filled(COOLER, 0.6, 0.07, 6, 1200.0)
    assert all(more > less for less, more in itertools.pairwise(seen.suction))
    assert all(less < more for more, less in itertools.pairwise(seen.superheat))
    assert all(more > less for less, more in itertools.pairwise(seen.wetted))
    assert all(more > less for less, more in itertools.pairwise(seen.watts))


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_the_end_is_that_of_the_steady_balance(plate, figure):
    """After the last portion and three hours the transient stands where the balance does, within 0.5 %."""
    seen = filled(plate, 0.7, 0.1, 3, 600.0)
    machine, plant = engine(plate), built(plate)
    state, *_ = machine.advance(machine.tables, plant, seen.around, seen.state, 3 * 3600.0, 1.0)
    now = machine.at_once(machine.tables, plant, seen.around, state)
    end = settled(machine, plant, seen.around).moment
    pairs = [
        (now.suction_pa, end.suction_pa),
        (now.discharge_pa, end.discharge_pa),
        (now.watts, end.watts),
        (now.evaporator_w, end.evaporator_w),
        (now.flow, end.flow),
        (now.wetted, end.wetted),
    ]
    worst = max(abs(a / b - 1.0) for a, b in pairs)
    figure(f"transient of {plate.refrigerant} after filling against the balance", f"{worst:.1e}")
    assert worst < HALF_PERCENT
    assert now.superheat_k == pytest.approx(end.superheat_k, abs=0.1)
    assert now.subcooling_k == pytest.approx(end.subcooling_k, abs=0.1)


def test_readings_settle_in_minutes():
    """A quarter of an hour after a portion suction and superheat are near their end: within 3 % and 1 K."""
    seen = filled(COOLER, 0.8, 0.08, 1, 900.0)
    end = settled(engine(COOLER), built(COOLER), seen.around).moment
    assert seen.now.suction_pa == pytest.approx(end.suction_pa, rel=0.03)
    assert seen.now.superheat_k == pytest.approx(end.superheat_k, abs=1.0)


def test_a_days_energy_does_not_follow_the_step(sample, figure):
    """Half the longest step and half the tolerance change the energy of a day by less than 1 %.

    A thermostat and a cabinet are in the loop. Plain runs take three hours of it.
    """
    hours = float(sample(small=3, full=24))
    machine = engine(COOLER, fast=hours > 3.0)
    run = compiled(cooler_day) if FAST and hours > 3.0 else cooler_day
    around, start = design_around(COOLER.charge_kg), settled_of(COOLER)[0]
    whole, half = (
        run(machine.tables, built(COOLER), around, BOX, start, 3600.0 * hours, refined) for refined in (1.0, 2.0)
    )
    change = half.joules / whole.joules - 1.0
    figure(f"energy of {hours:g} h with half the step", f"{change:+.2%}; {whole.starts} and {half.starts} starts")
    assert abs(change) < 0.01
    assert half.steps > 1.2 * whole.steps
    assert whole.starts >= 3
    assert whole.starts == half.starts
    assert CUT_OUT_K - 0.5 < whole.coldest_k < CUT_OUT_K
    assert CUT_IN_K <= whole.warmest_k < CUT_IN_K + 0.5
    assert 0.1 < whole.seconds_on / (hours * 3600.0) < 0.9


def stopped(plate, seconds: float, room_k: float = 298.15, air_k: float = 277.15):
    """A healthy system that ran and was then at rest for a time."""
    machine, plant = engine(plate), built(plate)
    around = design_around(plate.charge_kg)._replace(room_k=room_k, air_k=air_k, running=0.0)
    state, *_ = machine.advance(machine.tables, plant, around, settled_of(plate)[0], seconds, 1.0)
    return machine, plant, around, state, machine.at_once(machine.tables, plant, around, state)


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_pressures_equalise_at_rest(plate):
    """Some minutes after stopping both pressures are the same within 2 %, and the watts are nothing."""
    *_, now = stopped(plate, 1800.0)
    assert now.discharge_pa == pytest.approx(now.suction_pa, rel=0.02)
    assert now.watts == 0.0
    assert now.flow == 0.0


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_at_rest_the_coldest_spot_rules(plate):
    """After a night both sides stand at the dew pressure of the coldest place: the evaporator's air."""
    machine, _, around, _, now = stopped(plate, 8 * 3600.0)
    cold = dew_pressure_at(machine.tables, around.air_k)
    assert now.suction_pa == pytest.approx(cold, rel=0.02)
    assert now.discharge_pa == pytest.approx(cold, rel=0.02)
    assert now.low_kg > 0.6 * plate.charge_kg


def test_in_a_cold_room_the_refrigerant_goes_to_the_condenser():
    """Where the room is colder than the cabinet the vapour runs back: condenser and cold oil hold the refrigerant."""
    machine, _, around, state, now = stopped(COOLER, 10 * 3600.0, room_k=278.15, air_k=288.15)
    assert now.discharge_pa == pytest.approx(dew_pressure_at(machine.tables, around.room_k), rel=0.02)
    assert now.wetted < 0.05
    assert state.high_kg + state.oil_kg > 0.7 * COOLER.charge_kg  # the rest is vapour, most of it in the shell


def test_mass_stays_while_time_passes():
    """Through running, stopping and starting the sides and the oil hold the charge, to 1e-9 of it."""
    machine, plant, around, state, now = stopped(COOLER, 500.0)
    assert state.high_kg + now.low_kg + state.oil_kg == pytest.approx(COOLER.charge_kg, rel=1e-9)
    state, *_ = machine.advance(machine.tables, plant, around._replace(running=1.0), state, 200.0, 0.5)
    now = machine.at_once(machine.tables, plant, around, state)
    assert state.high_kg + now.low_kg + state.oil_kg == pytest.approx(COOLER.charge_kg, rel=1e-9)
    assert min(state.high_kg, now.low_kg, state.oil_kg) > 0.0


def test_a_start_pulls_suction_down_below_its_end_and_comes_back():
    """After a rest the suction pressure dips below its steady value, then rises to it as the evaporator fills."""
    machine, plant, around, state, _ = stopped(COOLER, 1200.0)
    running, low, length = around._replace(running=1.0), [], 0.5
    for _ in range(120):
        state, length = machine.advance(machine.tables, plant, running, state, 30.0, length)
        low.append(machine.at_once(machine.tables, plant, running, state).suction_pa)
    end = settled_of(COOLER)[1]
    assert min(low) < 0.9 * end.suction_pa
    assert low[-1] == pytest.approx(end.suction_pa, rel=0.02)
    assert low.index(min(low)) < 40


def test_it_restarts_into_the_same_steady_state():
    """Stopped for ten minutes and started again it ends where it was, within 0.5 %."""
    machine, plant, around, state, _ = stopped(COOLER, 600.0)
    running = around._replace(running=1.0)
    state, *_ = machine.advance(machine.tables, plant, running, state, 4 * 3600.0, 0.5)
    now, end = machine.at_once(machine.tables, plant, running, state), settled_of(COOLER)[1]
    for one, other in ((now.suction_pa, end.suction_pa), (now.discharge_pa, end.discharge_pa), (now.watts, end.watts)):
        assert one == pytest.approx(other, rel=HALF_PERCENT)


def test_a_finer_step_is_closer_by_the_square():
    """Heun's method is of second order: a tenth of the tolerance for a step changes ten minutes by little."""
    machine, plant = engine(COOLER), built(COOLER)
    around = design_around(1.05 * COOLER.charge_kg)
    ends = []
    for seconds in (4.0, 2.0, 1.0):
        state, now = settled_of(COOLER)[0], None
        for _ in range(int(60 / seconds)):
            now = machine.at_once(machine.tables, plant, around, state)
            state = transient.heun_step(machine.tables, plant, around, state, now, seconds).state
        ends.append(state.log_low)
    coarse, fine = abs(ends[0] - ends[1]), abs(ends[1] - ends[2])
    assert fine < 0.4 * coarse


def test_shown_digits_are_the_same_compiled(sample, figure):
    """Plain and compiled agree in every digit that an instrument shows after an hour with a stop in it."""
    pytest.importorskip("numba")
    if sample(small=1, full=2) == 1:
        fast = compiled(transient.next_length)  # one small part: the whole takes half a minute to compile
        for seconds, error in ((1.0, 0.001), (10.0, 0.5), (30.0, 3.0), (0.3, 40.0)):
            assert fast(seconds, error) == pytest.approx(transient.next_length(seconds, error), rel=1e-12)
        return
    shown = []
    for fast in (False, True):
        machine, plant, around = engine(COOLER, fast=fast), built(COOLER), design_around(0.9 * COOLER.charge_kg)
        state = settled_of(COOLER)[0]
        for running, seconds in ((1.0, 1500.0), (0.0, 600.0), (1.0, 1500.0)):
            there = around._replace(running=running)
            state, *_ = machine.advance(machine.tables, plant, there, state, seconds, 0.5)
        now = machine.at_once(machine.tables, plant, around, state)
        shown.append((now.suction_pa, now.discharge_pa, now.superheat_k, now.subcooling_k, now.watts, now.shell_w))
    worst = max(abs(a / b - 1.0) for a, b in zip(*shown, strict=True))
    figure("an hour plain and compiled: worst difference", f"{worst:.1e}")
    assert worst < 1e-6
