"""The compressor inside the plant: clearance by hand, work against CoolProp, energy of the shell, speed and power."""

from __future__ import annotations

import itertools
import math
import random

import pytest

from coldwright.refrigerants.kernels import saturation
from coldwright.refrigerants.saturation import dew_temperature
from coldwright.refrigerants.states import state_ph, state_ps
from coldwright.sealed_system.compressor import compression, filling_share
from coldwright.sealed_system.design import design_around
from coldwright.sealed_system.plant import State, oil_holds, pressures
from tests.sealed_system.plants import COOLER, PLATES, built, drawn, engine
from tests.sealed_system.states import settled_of, some_states


def compressed(plate, plant, around, state):
    """What the compressor of a plant does in a state, with the pressures that it sees."""
    tables = engine(plate).tables
    high, low = pressures(tables, plant, around, state)
    c, e = saturation(tables, math.exp(state.log_high)), saturation(tables, math.exp(state.log_low))
    return compression(tables, plant, around, state, c, e, high, low), high, low


def test_filling_by_hand():
    """Clearance 4 %, pressures 1:8, exponent 1: 1 + 0.04 - 0.04 · 8 = 0.72 (Stoecker & Jones, from memory)."""
    assert filling_share(0.04, 8.0, 1.0) == pytest.approx(0.72)


@pytest.mark.parametrize("exponent", [1.0, 1.1, 1.3])
def test_filling_at_its_ends(exponent):
    """Equal pressures fill all; no clearance fills all at any ratio; at (1 + 1/c)^n nothing more goes in."""
    assert filling_share(0.045, 1.0, exponent) == pytest.approx(1.0)
    assert filling_share(0.0, 40.0, exponent) == 1.0
    last = (1.0 + 1.0 / 0.045) ** exponent
    assert filling_share(0.045, last * 0.999, exponent) > 0.0
    assert filling_share(0.045, last * 1.001, exponent) == 0.0
    shares = [filling_share(0.045, 1.0 + n, exponent) for n in range(12)]
    assert all(more > less for more, less in itertools.pairwise(shares))


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_flow_by_hand(plate):
    """Displacement, speed, filling and density of the warmed suction gas by CoolProp give the flow, within 0.1 %."""
    plant, around = built(plate), design_around(plate.charge_kg)
    state, now = settled_of(plate)
    work, high, low = compressed(plate, plant, around, state)
    density = state_ph(plate.refrigerant, low, work.cylinder_h).density_kg_per_m3
    filling = 1.0 + plant.clearance - plant.clearance * (high / low) ** (1.0 / plant.expansion_exponent)
    speed = plant.speed_free - plant.speed_fall * now.shaft_w
    assert now.flow == pytest.approx(plant.displacement_m3 * filling * speed * density, rel=1e-3)


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_work_is_coolprops_isentropic_work_over_the_efficiency(plate):
    """Indicated work for each kilogram is CoolProp's along constant entropy over the efficiency, within 0.1 %."""
    plant, around = built(plate), design_around(plate.charge_kg)
    state, now = settled_of(plate)
    work, high, low = compressed(plate, plant, around, state)
    start = state_ph(plate.refrigerant, low, work.cylinder_h)
    ideal = state_ps(plate.refrigerant, high, start.entropy_j_per_kg_k).enthalpy_j_per_kg - work.cylinder_h
    assert (now.shaft_w - plant.friction_w) / now.flow == pytest.approx(ideal / plant.indicated_efficiency, rel=1e-3)


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_the_shell_keeps_its_energy_account(plate):
    """Watts in are what the gas takes up between return and discharge and what the shell gives to the room."""
    state, now = settled_of(plate)
    work, *_ = compressed(plate, built(plate), design_around(plate.charge_kg), state)
    taken = now.flow * (work.out_h - state.return_h)
    assert now.watts == pytest.approx(taken + now.shell_w, rel=1e-6)
    assert now.shell_w == pytest.approx(built(plate).shell_w_per_k * (state.shell_k - 298.15), rel=1e-12)


def test_the_shell_keeps_its_energy_account_while_it_warms():
    """The same away from the steady state: what is left over warms the shell."""
    for number in range(40):
        draw = drawn(number)
        for state in some_states(draw, 2, random.Random(f"shell {number}")):
            now = engine(draw.plate).at_once(engine(draw.plate).tables, draw.plant, draw.around, state)
            work, *_ = compressed(draw.plate, draw.plant, draw.around, state)
            left = now.watts - now.flow * (work.out_h - state.return_h) - now.shell_w
            assert now.rates.shell_k * draw.plant.shell_j_per_k == pytest.approx(left, abs=1e-6)


def test_shaft_power_speed_and_watts_hang_together():
    """Speed falls with shaft power as the plant says; watts exceed shaft power; both rise with discharge pressure."""
    plant, around = built(COOLER), design_around(COOLER.charge_kg)
    state, _ = settled_of(COOLER)
    watts = []
    for step in range(6):
        hotter = state._replace(log_high=state.log_high + 0.08 * step)
        work, *_ = compressed(COOLER, plant, around, hotter)
        assert work.watts > work.shaft_w > plant.friction_w
        watts.append(work.watts)
    assert all(less < more for less, more in itertools.pairwise(watts))


def test_leaking_valves_send_less_and_never_backwards():
    """The larger the hole the less leaves, and the compressor keeps at least a twentieth of what it takes in."""
    plant, around = built(COOLER), design_around(COOLER.charge_kg)
    state, now = settled_of(COOLER)
    flows = [
        compressed(COOLER, plant._replace(leak_m2=hole), around, state)[0].flow
        for hole in (0.0, 2e-8, 6e-8, 2e-7, 1e-4)
    ]
    assert all(more > less for more, less in itertools.pairwise(flows))
    assert flows[-1] == pytest.approx(0.05 * now.flow, rel=1e-9)


def test_a_small_hole_leaks_as_an_orifice():
    """A hole leaks area times root of the pressure difference times the hot gas's density: by hand."""
    plant, around = built(COOLER), design_around(COOLER.charge_kg)
    state, now = settled_of(COOLER)
    work, high, low = compressed(COOLER, plant._replace(leak_m2=1e-8), around, state)
    cold = state_ph("R-134a", low, work.cylinder_h).density_kg_per_m3
    assert now.flow - work.flow == pytest.approx(1e-8 * math.sqrt((high - low) * cold * (high / low) ** 0.9), rel=2e-2)


def test_at_rest_nothing_moves():
    """A compressor that stands moves nothing and takes no watts; its shell cools towards the room."""
    plant, around = built(COOLER), design_around(COOLER.charge_kg)._replace(running=0.0)
    state, _ = settled_of(COOLER)
    work, *_ = compressed(COOLER, plant, around, state)
    assert (work.flow, work.watts, work.shaft_w) == (0.0, 0.0, 0.0)
    now = engine(COOLER).at_once(engine(COOLER).tables, plant, around, state)
    assert now.rates.shell_k == pytest.approx(-now.shell_w / plant.shell_j_per_k, rel=1e-12)


def test_a_heater_and_a_standing_rotor_warm_what_they_sit_in():
    """Heater's watts raise the evaporating pressure, a standing rotor's the shell: each by its own energy, by hand."""
    plant, around = built(COOLER), design_around(COOLER.charge_kg)._replace(running=0.0)
    state, tables = settled_of(COOLER)[0], engine(COOLER).tables
    cold, heated, stuck = (
        engine(COOLER).at_once(tables, plant, each, state)
        for each in (around, around._replace(heater_w=150.0), around._replace(standing_w=400.0))
    )
    e = saturation(tables, math.exp(state.log_low))
    slope = dew_temperature("R-134a", 1.01 * math.exp(state.log_low)) - e.dew_k
    vapour = (plant.suction_m3 + plant.shell_m3 + 0.7 * plant.evaporator_m3) / e.vapour_v
    held = plant.evaporator_j_per_k * slope / math.log(1.01) + (e.vapour_h - e.liquid_h) * vapour
    assert (heated.rates.log_low - cold.rates.log_low) * held == pytest.approx(150.0, rel=5e-3)
    assert (stuck.rates.shell_k - cold.rates.shell_k) * plant.shell_j_per_k == pytest.approx(400.0, rel=1e-9)
    assert heated.surplus_w - cold.surplus_w == pytest.approx(150.0)
    assert stuck.surplus_w - cold.surplus_w == pytest.approx(400.0)


def test_wet_gas_dries_in_the_shell():
    """Liquid in the suction gas is warmed by the shell like the vapour, and the flow that wet gas gives is greater."""
    plant, around = built(COOLER), design_around(COOLER.charge_kg)
    state, _ = settled_of(COOLER)
    tables = engine(COOLER).tables
    e = saturation(tables, math.exp(state.log_low))
    wet = State(*state)._replace(return_h=e.vapour_h - 0.1 * (e.vapour_h - e.liquid_h))
    dry, moist = (compressed(COOLER, plant, around, each)[0] for each in (state, wet))
    assert moist.return_k == pytest.approx(e.dew_k, abs=1e-6)
    assert moist.heated == pytest.approx(plant.suction_heating * e.vapour_cp * (state.shell_k - e.dew_k), rel=1e-6)
    assert moist.flow > dry.flow
    assert moist.discharge_k < dry.discharge_k
    assert oil_holds(tables, plant, math.exp(state.log_low), state.shell_k) > 0.0
