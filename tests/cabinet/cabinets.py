"""A small cooler, an empty one-body cabinet and a capacity line for the tests; sizes illustrative."""

from __future__ import annotations

from coldwright.cabinet.air import CabinetNumbers
from coldwright.cabinet.cabinet import Cabinet, Contents
from coldwright.cabinet.door import Air, Doorway
from coldwright.cabinet.food import food_named
from coldwright.cabinet.thermostat import Thermostat
from coldwright.cabinet.walls import Box

ROOM, INSIDE = Air(298.15, 0.5), Air(277.15, 0.7)
BOX, DOORWAY = Box(0.5, 0.75, 0.42, 0.04), Doorway(0.5, 0.75)
COOLER = Cabinet(
    BOX,
    DOORWAY,
    openings_a_day=30,
    open_s=10,
    fan_w=6,
    lamp_w=15,
    contents=Contents(food_named("water"), 15.0, 5.0),
)
THERMOSTAT = Thermostat(279.15, 275.15, 120.0, 180.0)


def one_body(ua: float = 1.0, capacity: float = 5000.0, inside_w: float = 0.0) -> CabinetNumbers:
    """A cabinet with air alone."""
    return CabinetNumbers(ua, 0.0, inside_w, 0.0, capacity, 0.0, 0.0, 0.0, 273.15, 0.0, 4.0, 0.0, 2.5)
