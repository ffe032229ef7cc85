"""Door openings: the printed relation, limits by hand, and what is refused."""

from __future__ import annotations

import math
import re

import pytest

from coldwright.cabinet.door import (
    Air,
    AirHeat,
    Doorway,
    air_heat,
    doorway_flow,
    exchanged_share,
    mean_power,
    opening_heat,
)
from coldwright.cabinet.moist_air import air_density, humidity_ratio
from coldwright.errors import InputError
from tests.cabinet.cabinets import DOORWAY, INSIDE, ROOM


def test_the_flow_is_that_of_the_printed_relation():
    """13.26 A (1 - ro/ri)^0.5 (g H)^0.5 F ft³/min with F = [2/(1 + (ri/ro)^(1/3))]^1.5, in feet.

    T. Jekel, *Door Infiltration Estimator Overview*, 2017 (read there); within 0.1 % for the digits of 13.26.
    """
    warm, cold = (air_density(air.temperature_k, humidity_ratio(*air)) for air in (ROOM, INSIDE))
    feet = 0.3048
    factor = (2 / (1 + (cold / warm) ** (1 / 3))) ** 1.5
    area, height = 0.5 * 0.75 / feet**2, 0.75 / feet
    cfm = 13.26 * area * (1 - warm / cold) ** 0.5 * (32.174 * height) ** 0.5 * factor
    assert doorway_flow(DOORWAY, ROOM, INSIDE) == pytest.approx(cfm * feet**3 / 60, rel=1e-3)


def test_no_difference_no_flow():
    """Air of the same state on both sides does not move, nor does a cabinet that is warmer than the room empty."""
    assert doorway_flow(DOORWAY, ROOM, ROOM) == 0.0
    assert doorway_flow(DOORWAY, INSIDE, ROOM) == 0.0


def test_a_door_four_times_as_high_lets_out_eight_times_as_much():
    """Area grows by four and the speed by two."""
    low, high = (doorway_flow(Doorway(0.5, h), ROOM, INSIDE) for h in (0.4, 1.6))
    assert high == pytest.approx(8 * low, rel=1e-12)


def test_dry_air_brings_sensible_heat_alone():
    """A cubic metre of dry air of 0 °C, 1.2923 kg, replaced by dry air of 20 °C: 1.2923 · 1006 · 20 J and no water."""
    heat = air_heat(1.0, Air(293.15, 0.0), Air(273.15, 0.0))
    assert heat.sensible == pytest.approx(1.2923 * 1006 * 20, rel=1e-4)
    assert heat.latent == pytest.approx(0.0, abs=1e-9)
    assert heat.water_kg == 0.0


def test_the_water_of_the_latent_heat():
    """Latent heat is the water that stays, times the heat of steam at the room's temperature: 2.547 MJ/kg at 25 °C.

    2546.5 kJ/kg above liquid at 0 °C in steam tables (from memory).
    """
    heat = air_heat(1.0, ROOM, INSIDE)
    assert heat.latent / heat.water_kg == pytest.approx(2.5465e6, rel=1e-3)
    assert heat.total == pytest.approx(heat.sensible + heat.latent, rel=1e-12)


def test_share_of_the_air_by_hand():
    """After one volume has flowed through, 1 - 1/e of the air is new; a door that stays open replaces all of it."""
    assert exchanged_share(0.1, 0.2, 2.0) == pytest.approx(1 - math.exp(-1), rel=1e-12)
    assert exchanged_share(0.1, 0.2, 0.0) == 0.0
    assert exchanged_share(0.1, 0.2, 600.0) == pytest.approx(1.0, abs=1e-12)


def test_one_opening_never_brings_more_than_all_the_air():
    """However long it is open, heat is that of the cabinet's volume of air: the model has no draught."""
    long = opening_heat(0.15, DOORWAY, ROOM, INSIDE, 3600.0)
    assert long.total == pytest.approx(air_heat(0.15, ROOM, INSIDE).total, rel=1e-9)
    short = opening_heat(0.15, DOORWAY, ROOM, INSIDE, 0.1)
    flow = doorway_flow(DOORWAY, ROOM, INSIDE)
    assert short.total == pytest.approx(air_heat(0.1 * flow, ROOM, INSIDE).total, rel=0.05)


def test_mean_power_by_hand():
    """24 openings of 3600 J and 1800 J are 1 W and 0.5 W over the day; the water adds up."""
    mean = mean_power(AirHeat(3600.0, 1800.0, 0.001), 24)
    assert (mean.sensible, mean.latent) == pytest.approx((1.0, 0.5), rel=1e-12)
    assert mean.water_kg == pytest.approx(0.024, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: exchanged_share(0.1, 140.0, 10.0),
            "the air in the cabinet is 140 m³; it must be from 0.002 to 5 m³. Was it in L? 140 L is 0.14 m³",
        ),
        (
            lambda: doorway_flow(Doorway(500.0, 0.7), ROOM, INSIDE),
            "the width of the doorway is 500 m; it must be from 0.05 to 6 m. Was it in mm? 500 mm is 0.5 m",
        ),
        (
            lambda: doorway_flow(DOORWAY, Air(350.15, 0.5), INSIDE),
            "the air of the room is 350.15 K (77 °C); it must be from -50 °C to 60 °C. Was it °F taken for °C? 77 °F "
            "is 25 °C",
        ),
        (lambda: air_heat(1.0, Air(298.15, 50.0), INSIDE), "the relative humidity is 50; it must be from 0 to 1. Was"),
        (lambda: exchanged_share(0.1, 0.14, -1.0), "the time that the door is open is -1 s; it must be from 0 to"),
        (lambda: mean_power(AirHeat(1.0, 1.0, 0.0), -1), "the openings of the door in a day is -1; it must be from 0"),
        (lambda: air_heat(-1.0, ROOM, INSIDE), "the volume of air is -1 m³; it must be from 0 to 100000 m³"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()
