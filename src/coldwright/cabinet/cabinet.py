"""A cabinet as a person describes it: box, gasket, door, loads and food; its heat load by parts, and its numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from coldwright.cabinet.air import CabinetNumbers
from coldwright.cabinet.checks import KILOWATTS, check_between, check_temperature
from coldwright.cabinet.door import Air, AirHeat, Doorway, check_volume, mean_power, opening_heat
from coldwright.cabinet.food import Q10, Food, check_mass, respiration_heat
from coldwright.cabinet.inside_loads import Defrost, defrost_heat, fan_heat, lamp_heat
from coldwright.cabinet.walls import (
    FOAM_W_PER_M_K,
    GASKET_W_PER_M_K,
    Box,
    gasket_conductance,
    volume,
    walls_conductance,
)
from coldwright.errors import InputError

AIR_J_PER_M3_K = 1300.0  # of cold air
LINER_J_PER_M2_K = 3000.0  # 2 mm of plastic, illustrative
FREEZING_SPAN_K = 4.0  # most of the water of food freezes within it; common practice, no source


@dataclass(frozen=True)
class Contents:
    """Food in the cabinet, and how well the air reaches it [W/K]; what it gives off at 0 °C [W/kg]."""

    food: Food
    mass_kg: float
    coupling_w_per_k: float
    respiration_w_per_kg: float = 0.0

    def __post_init__(self) -> None:
        """Refuses contents that cannot be, by name, value and rule."""
        check_mass(self.food.name, self.mass_kg)
        check_between("the coupling of food and air", self.coupling_w_per_k, "W/K", 0.0, 1000.0, KILOWATTS)
        respiration_heat(self.mass_kg, self.respiration_w_per_kg, 273.15)


@dataclass(frozen=True)
class Cabinet:
    """A cabinet with one door, its faults as parameters: wet foam, damaged gasket, lamp that stays on, door ajar."""

    box: Box
    doorway: Doorway
    foam_w_per_m_k: float = FOAM_W_PER_M_K
    gasket_w_per_m_k: float = GASKET_W_PER_M_K
    damaged_gasket_m: float = 0.0
    openings_a_day: float = 0.0
    open_s: float = 10.0
    fan_w: float = 0.0
    lamp_w: float = 0.0
    lamp_stuck_on: bool = False
    defrost: Defrost | None = None
    other_w: float = 0.0
    contents: Contents | None = None

    def __post_init__(self) -> None:
        """Refuses a cabinet that cannot be, by name, value and rule."""
        check_volume("the inside of the cabinet", volume(self.box))
        check_between("the other heat in the cabinet", self.other_w, "W", 0.0, 2000.0, KILOWATTS)
        for name, side, most in (
            ("width", self.doorway.width_m, max(self.box[:3])),
            ("height", self.doorway.height_m, max(self.box[:3])),
        ):
            check_between(f"the {name} of the door's opening", side, "m", 0.05, most)

    @property
    def gasket_m(self) -> float:
        """Length of the gasket all round the door's opening [m]."""
        return 2.0 * (self.doorway.width_m + self.doorway.height_m)


class HeatLoad(NamedTuple):
    """Heat that the evaporator must take out on average, by parts [W]."""

    walls: float
    gasket: float
    door_sensible: float
    door_latent: float
    fan: float
    lamp: float
    defrost: float
    other: float
    respiration: float

    @property
    def total(self) -> float:
        """All of it [W]."""
        return sum(self)

    @property
    def text(self) -> str:
        """The parts in words, the largest first."""
        parts = sorted(zip(self._fields, self, strict=True), key=lambda part: -part[1])
        told = ", ".join(f"{name.replace('_', ' ')} {watts:.1f} W" for name, watts in parts if watts > 0.0)
        return f"Heat load {self.total:.1f} W: {told or 'none'}."


def heat_load(cabinet: Cabinet, room: Air, inside: Air) -> HeatLoad:
    """Mean heat load with the cabinet's air and food held at a temperature.

    Parameters
    ----------
    cabinet : Cabinet
        The cabinet [-]
    room, inside : Air
        Air of the room and of the cabinet [-]

    Returns
    -------
    HeatLoad
        By parts; negative through walls and gasket where the room is the colder [-]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    warmer = _difference(room, inside)
    walls, gasket = _conductances(cabinet)
    door = _door(cabinet, room, inside)
    contents = cabinet.contents
    return HeatLoad(
        walls * warmer,
        gasket * warmer,
        door.sensible,
        door.latent,
        fan_heat(cabinet.fan_w) if cabinet.fan_w else 0.0,
        lamp_heat(cabinet.lamp_w, _open_s(cabinet), cabinet.lamp_stuck_on) if cabinet.lamp_w else 0.0,
        defrost_heat(cabinet.defrost) if cabinet.defrost else 0.0,
        cabinet.other_w,
        0.0
        if contents is None
        else respiration_heat(contents.mass_kg, contents.respiration_w_per_kg, inside.temperature_k),
    )


def cabinet_numbers(cabinet: Cabinet, room: Air, inside: Air) -> CabinetNumbers:
    """The numbers that `air_rates` takes, door and moisture worked out once for a temperature of the cabinet.

    Parameters
    ----------
    cabinet : Cabinet
        The cabinet [-]
    room : Air
        Air of the room [-]
    inside : Air
        Air of the cabinet in mean, colder than the room where the door is opened [-]

    Returns
    -------
    CabinetNumbers
        Plain floats; fans, lamp and defrost as mean powers [-]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    load = heat_load(cabinet, room, inside)
    walls, gasket = _conductances(cabinet)
    warmer = _difference(room, inside)
    liner = LINER_J_PER_M2_K * 2.0 * sum(a * b for a, b in _pairs(cabinet.box)) + AIR_J_PER_M3_K * volume(cabinet.box)
    contents = cabinet.contents
    none = (0.0, 0.0, 0.0, 273.15, 0.0, FREEZING_SPAN_K, 0.0, Q10)
    return CabinetNumbers(
        walls + gasket,
        load.door_sensible / warmer if load.door_sensible else 0.0,
        load.fan + load.lamp + load.defrost + load.other,
        load.door_latent,
        liner,
        *(none if contents is None or not contents.mass_kg else _product(contents)),
    )


def _product(contents: Contents) -> tuple[float, float, float, float, float, float, float, float]:
    food, mass = contents.food, contents.mass_kg
    return (
        contents.coupling_w_per_k,
        food.above * mass,
        food.below * mass,
        food.freezes_k,
        food.latent * mass,
        FREEZING_SPAN_K,
        contents.respiration_w_per_kg * mass,
        Q10,
    )


def _pairs(box: Box) -> tuple[tuple[float, float], ...]:
    a, b, c = box[:3]
    return (a, b), (b, c), (c, a)


def _conductances(cabinet: Cabinet) -> tuple[float, float]:
    return walls_conductance(cabinet.box, cabinet.foam_w_per_m_k), gasket_conductance(
        cabinet.gasket_m, cabinet.gasket_w_per_m_k, cabinet.damaged_gasket_m
    )


def _open_s(cabinet: Cabinet) -> float:
    return cabinet.openings_a_day * cabinet.open_s


def _door(cabinet: Cabinet, room: Air, inside: Air) -> AirHeat:
    if _open_s(cabinet) > 86400.0:
        raise InputError(
            f"the door is opened {cabinet.openings_a_day:g} times a day for {cabinet.open_s:g} s each: more than the "
            "86400 s of a day. Were the openings of an hour meant, or milliseconds?"
        )
    one = opening_heat(volume(cabinet.box), cabinet.doorway, room, inside, cabinet.open_s)
    return mean_power(one, cabinet.openings_a_day)


def _difference(room: Air, inside: Air) -> float:
    check_temperature("the room", room.temperature_k)
    check_temperature("the air in the cabinet", inside.temperature_k)
    return room.temperature_k - inside.temperature_k
