"""Food: properties of the heat content, limits by hand, respiration, and what is refused."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.cabinet.food import (
    FOODS,
    RESPIRATION_COOL,
    Food,
    estimated_food,
    food_named,
    heat_to_cool,
    mean_product_load,
    respiration_heat,
)
from coldwright.errors import InputError

KELVIN = st.floats(243.15, 333.15)
KINDS = st.sampled_from(list(FOODS.values()))


@given(KINDS, KELVIN, KELVIN, KELVIN)
def test_a_stop_on_the_way_changes_nothing(food, one_k, middle_k, last_k):
    """Heat from one temperature to another does not hang on the way."""
    in_two = heat_to_cool(food, 2.0, one_k, middle_k) + heat_to_cool(food, 2.0, middle_k, last_k)
    assert in_two == pytest.approx(heat_to_cool(food, 2.0, one_k, last_k), rel=1e-9, abs=1e-3)


@given(KINDS, KELVIN, KELVIN)
def test_colder_food_has_given_off_more(food, one_k, other_k):
    """The colder of two ends has less heat, and warming is the negative of cooling."""
    heat = heat_to_cool(food, 1.0, one_k, other_k)
    assert (heat > 0) == (one_k > other_k)
    assert heat == pytest.approx(-heat_to_cool(food, 1.0, other_k, one_k), rel=1e-12)


def test_ice_by_hand():
    """A kilogram of water from 20 °C to ice of -10 °C: 4.19 · 20 + 335 + 2.1 · 10 = 439.8 kJ."""
    assert heat_to_cool(food_named("water"), 1.0, 293.15, 263.15) == pytest.approx(439.8e3, rel=1e-12)


def test_what_does_not_freeze_gives_no_latent_heat():
    """10 kg of milk from 25 °C to 4 °C is 10 · 3.9 · 21 kJ, and 9.5 W over a day."""
    assert heat_to_cool(food_named("milk"), 10.0, 298.15, 277.15) == pytest.approx(819e3, rel=1e-9)
    assert mean_product_load(food_named("Milk"), 10.0, 298.15, 277.15) == pytest.approx(819e3 / 86400, rel=1e-9)


@given(st.floats(0.0, 1.0))
def test_the_estimate_lies_between_dry_matter_and_water(water):
    """0.84 kJ/(kg K) without water, 4.19 with nothing but water."""
    food = estimated_food("soup", water)
    assert 840.0 - 1e-6 <= food.below <= food.above <= 4190.0 + 1e-6
    assert food.latent == pytest.approx(335e3 * water)


def test_apples_grow_two_to_three_times_as_hot_in_ten_kelvin():
    """Respiration grows two to three times for each 10 K (a public page on food processing, read there)."""
    cool, warm = (respiration_heat(1.0, RESPIRATION_COOL["apples"], k) for k in (278.15, 288.15))
    assert 2.0 <= warm / cool <= 3.0


def test_apples_near_0_c_are_of_the_size_of_another_table():
    """Autumn apples at 0 °C: 0.012 Btu/(lb h) is 7.8 W/t, within the 6.9 to 12.1 W/t of ASHRAE (from memory)."""
    assert 6.9 <= respiration_heat(1000.0, RESPIRATION_COOL["apples"], 273.15) <= 12.1


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: Food("stew", 3.6, 1.9, 2.8e5, 271.0),
            "the specific heat of stew above freezing is 3.6 J/(kg K); it must be from 500 to 4500 J/(kg K). Was it in "
            "kJ? 3.6 kJ is 3600 J/(kg K)",
        ),
        (lambda: Food("stew", 3600, 1900, -1, 271.0), "the latent heat of stew is -1 J/kg; it must be from 0 to"),
        (
            lambda: Food("stew", 3600, 1900, 2e5, -2.0),
            "the freezing point of stew is -2 K (-275 °C); it must be from -30 °C to 0 °C. Was it in °C? -2 °C is "
            "271.15 K",
        ),
        (
            lambda: heat_to_cool(food_named("beef"), 5000.0, 293.15, 277.15),
            "the mass of beef is 5000 kg; it must be from 0 to 2000 kg. Was it in g? 5000 g is 5 kg",
        ),
        (
            lambda: heat_to_cool(food_named("beef"), 5.0, 20.0, 277.15),
            "the temperature of beef at first is 20 K (-253 °C); it must be from -60 °C to 100 °C. Was it in °C? 20 °C",
        ),
        (lambda: food_named("granite"), "no food 'granite' is known; known are apples, bananas,"),
        (
            lambda: estimated_food("soup", 88.0),
            "the share of water in soup is 88; it must be from 0 to 1. Was it in %? 88 % is 0.88",
        ),
        (
            lambda: respiration_heat(10.0, 8.0, 278.15),
            "the heat of respiration is 8 W/kg; it must be from 0 to 0.5 W/kg. Was it in W/t? 8 W/t is 0.008",
        ),
        (lambda: respiration_heat(10.0, 0.01, 278.15, 0.5), "the growth of respiration for 10 K is 0.5; it must be"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()
