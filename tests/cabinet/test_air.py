"""Air and product: heat balance, closed forms, freezing, the library's eigenvalues, and compiled the same."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.cabinet.air import (
    CabinetNumbers,
    air_rates,
    air_step,
    heat_gain,
    product_capacity,
    product_heat,
    respiration,
    time_constants,
)
from coldwright.cabinet.cabinet import Cabinet, Contents, cabinet_numbers, heat_load
from coldwright.cabinet.door import Air
from coldwright.cabinet.food import RESPIRATION_COOL, food_named, heat_to_cool
from tests.cabinet.cabinets import BOX, COOLER, DOORWAY, INSIDE, ROOM, one_body

HEAT = cabinet_numbers(COOLER, ROOM, INSIDE)
KELVIN = st.floats(255.0, 305.0)


@given(KELVIN, KELVIN, st.floats(0.0, 300.0))
def test_what_is_stored_is_what_came_in_less_what_went_out(air, product, watts):
    """Heat balance of both nodes together, for every state."""
    rate_air, rate_product = air_rates(air, product, ROOM.temperature_k, watts, HEAT)
    stored = HEAT.air_j_per_k * rate_air + product_capacity(product, HEAT) * rate_product
    assert stored == pytest.approx(heat_gain(air, ROOM.temperature_k, HEAT) - watts, rel=1e-9, abs=1e-9)


def test_left_alone_it_comes_to_rest_where_no_heat_flows():
    """Without a load inside, air and product at the temperature of the room do not change."""
    still = one_body()._replace(coupling_w_per_k=5.0, product_above_j_per_k=6e4)
    assert air_rates(298.15, 298.15, 298.15, 0.0, still) == (0.0, 0.0)


def test_one_body_by_its_closed_form():
    """Air alone warms as e^(-t UA/C): 10 steps of 60 s at a time constant of 5000 s, to the method's fourth order."""
    air = 278.15
    for _ in range(10):
        air, product = air_step(air, 280.0, 298.15, 0.0, one_body(), 60.0)
    assert air == pytest.approx(298.15 - 20.0 * math.exp(-600.0 / 5000.0), abs=1e-9)
    assert product == 280.0


def test_two_bodies_by_numpy_s_eigenvectors():
    """Air and product after an hour are those of the matrix exponential, and the time constants its eigenvalues."""
    leak = HEAT.walls_w_per_k + HEAT.door_w_per_k
    matrix = np.array(
        [
            [-(leak + HEAT.coupling_w_per_k) / HEAT.air_j_per_k, HEAT.coupling_w_per_k / HEAT.air_j_per_k],
            [
                HEAT.coupling_w_per_k / HEAT.product_above_j_per_k,
                -HEAT.coupling_w_per_k / HEAT.product_above_j_per_k,
            ],
        ]
    )
    values, vectors = np.linalg.eig(matrix)
    assert sorted(-1 / values) == pytest.approx(time_constants(HEAT), rel=1e-9)
    drive = np.array([heat_gain(0.0, 298.15, HEAT) / HEAT.air_j_per_k, 0.0])
    settles = np.linalg.solve(matrix, -drive)
    start = np.array([277.15, 283.15])
    exact = settles + vectors @ (np.exp(values * 3600.0) * np.linalg.solve(vectors, start - settles))
    air, product = start
    for _ in range(360):
        air, product = air_step(air, product, 298.15, 0.0, HEAT, 10.0)
    assert (air, product) == pytest.approx(tuple(exact), abs=1e-7)


def test_freezing_takes_all_the_latent_heat():
    """From above to below the freezing span the product gives off what `heat_to_cool` says."""
    food = food_named("beef")
    frozen = cabinet_numbers(Cabinet(BOX, DOORWAY, contents=Contents(food, 10.0, 5.0)), ROOM, INSIDE)
    for end in (263.15, 253.15):
        given_off = product_heat(283.15, frozen) - product_heat(end, frozen)
        assert given_off == pytest.approx(heat_to_cool(food, 10.0, 283.15, end), rel=1e-9)


@given(st.floats(255.0, 305.0))
def test_capacity_is_the_slope_of_the_heat(product):
    """The heat capacity is how the held heat grows, in all three spans."""
    edges = (HEAT.freezes_k, HEAT.freezes_k - HEAT.freezing_span_k)
    if all(abs(product - edge) > 0.01 for edge in edges):
        slope = (product_heat(product + 1e-3, HEAT) - product_heat(product - 1e-3, HEAT)) / 2e-3
        assert slope == pytest.approx(product_capacity(product, HEAT), rel=1e-4)


def test_living_food_warms_itself():
    """Apples without any coupling warm at their respiration over their heat capacity."""
    apples = Contents(food_named("apples"), 20.0, 0.0, RESPIRATION_COOL["apples"])
    alive = cabinet_numbers(Cabinet(BOX, DOORWAY, contents=apples), ROOM, INSIDE)
    _, rate = air_rates(277.15, 273.15, 298.15, 0.0, alive)
    assert rate == pytest.approx(RESPIRATION_COOL["apples"] / 3600.0, rel=1e-9)
    assert respiration(273.15, alive) == pytest.approx(20.0 * RESPIRATION_COOL["apples"], rel=1e-9)
    assert respiration(273.15, HEAT) == 0.0


def test_the_numbers_carry_the_whole_load():
    """At the temperature that they were made for, the rates' heat gain is the sum of the parts of the heat load."""
    assert heat_gain(INSIDE.temperature_k, ROOM.temperature_k, HEAT) == pytest.approx(
        heat_load(COOLER, ROOM, INSIDE).total, rel=1e-12
    )
    dry = heat_load(COOLER, Air(298.15, 0.0), Air(277.15, 0.0))
    assert dry.door_latent == pytest.approx(0.0, abs=1e-9)


def test_all_numbers_are_plain_floats():
    """So that a compiled loop takes them."""
    assert all(type(number) is float for number in HEAT)
    assert isinstance(HEAT, CabinetNumbers)


def test_compiled_is_the_same():
    """A compiled step gives what the plain one gives, to the last digits."""
    pytest.importorskip("numba")
    from coldwright.refrigerants.kernels import compiled

    fast = compiled(air_step)
    for state in ((277.15, 280.0), (270.0, 272.0), (265.0, 265.0)):
        assert fast(*state, 298.15, 100.0, HEAT, 10.0) == pytest.approx(
            air_step(*state, 298.15, 100.0, HEAT, 10.0), rel=1e-12
        )
