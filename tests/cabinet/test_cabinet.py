"""The heat load by parts: faults raise their own part, the words, and what is refused."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from coldwright.cabinet.cabinet import Cabinet, Contents, HeatLoad, heat_load
from coldwright.cabinet.door import Air, Doorway
from coldwright.cabinet.food import food_named
from coldwright.cabinet.inside_loads import Defrost
from coldwright.cabinet.walls import Box
from coldwright.errors import InputError
from tests.cabinet.cabinets import BOX, COOLER, DOORWAY, INSIDE, ROOM

HEALTHY = heat_load(COOLER, ROOM, INSIDE)


@pytest.mark.parametrize(
    ("fault", "parts"),
    [
        ({"damaged_gasket_m": 0.5}, {"gasket"}),
        ({"foam_w_per_m_k": 0.044}, {"walls"}),
        ({"lamp_stuck_on": True}, {"lamp"}),
        ({"openings_a_day": 120}, {"door_sensible", "door_latent", "lamp"}),
        ({"fan_w": 12.0}, {"fan"}),
        ({"defrost": Defrost(200.0, 1200.0, 3.0)}, {"defrost"}),
        ({"other_w": 5.0}, {"other"}),
    ],
)
def test_a_fault_raises_its_own_part_alone(fault, parts):
    """More heat comes in by that part, and nothing else changes."""
    load = heat_load(replace(COOLER, **fault), ROOM, INSIDE)
    raised = {name for name, was, now in zip(HeatLoad._fields, HEALTHY, load, strict=True) if now > was + 1e-9}
    assert raised == parts
    assert all(now >= was - 1e-9 for was, now in zip(HEALTHY, load, strict=True))


def test_a_warmer_room_lets_more_through_in_proportion():
    """Walls and gasket go with the difference of temperatures: 28 K against 21 K is a third more."""
    warm = heat_load(COOLER, Air(305.15, 0.5), INSIDE)
    assert warm.walls == pytest.approx(HEALTHY.walls * 28 / 21, rel=1e-12)
    assert warm.gasket == pytest.approx(HEALTHY.gasket * 28 / 21, rel=1e-12)


def test_no_difference_no_load():
    """An empty cabinet at the room's temperature, door closed, nothing on: no heat."""
    assert heat_load(Cabinet(BOX, DOORWAY), ROOM, ROOM).total == 0.0


def test_the_words_give_the_largest_part_first():
    """All parts with their watts, and the total."""
    assert re.fullmatch(r"Heat load [\d.]+ W: walls [\d.]+ W, .*lamp [\d.]+ W\.", HEALTHY.text)
    assert HeatLoad(*[0.0] * 9).text == "Heat load 0.0 W: none."


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: heat_load(replace(COOLER, openings_a_day=4000, open_s=30), ROOM, INSIDE),
            "the door is opened 4000 times a day for 30 s each: more than the 86400 s of a day",
        ),
        (
            lambda: heat_load(COOLER, Air(25.0, 0.5), INSIDE),
            "the room is 25 K (-248 °C); it must be from -50 °C to 60 °C. Was it in °C? 25 °C is 298.15 K",
        ),
        (
            lambda: heat_load(COOLER, Air(473.15, 0.5), INSIDE),
            "the room is 473.15 K (200 °C); it must be from -50 °C to 60 °C",
        ),
        (
            lambda: Cabinet(BOX, Doorway(0.5, 2.0)),
            "the height of the door's opening is 2 m; it must be from 0.05 to 0.75 m",
        ),
        (
            lambda: Cabinet(Box(3.0, 3.0, 3.0, 0.04), DOORWAY),
            "the inside of the cabinet is 27 m³; it must be from 0.002 to 5 m³. Was it in L? 27 L is 0.027 m³",
        ),
        (
            lambda: Contents(food_named("milk"), 3000.0, 5.0),
            "the mass of milk is 3000 kg; it must be from 0 to 2000 kg. Was it in g? 3000 g is 3 kg",
        ),
        (lambda: Contents(food_named("milk"), 3.0, -5.0), "the coupling of food and air is -5 W/K; it must be from 0"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()


def test_fahrenheit_typed_as_kelvin_is_named():
    """250 and more could be kelvin; 140 is neither kelvin nor °C of a room, but 60 °C as °F."""
    with pytest.raises(InputError, match=r"Was it in °F\? 140 °F is 333.15 K$"):
        heat_load(COOLER, Air(140.0, 0.5), INSIDE)
