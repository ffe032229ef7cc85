"""Kinds of compartment with their temperatures, and the classes of room temperature that a cooler is made for."""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.cabinet.checks import check_temperature
from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

RATING_ROOM_C = 24.0


@dataclass(frozen=True)
class Compartment:
    """Target temperature, and lowest and highest allowed where the rule gives them [°C]."""

    name: str
    target_c: float
    least_c: float | None = None
    most_c: float | None = None

    @property
    def factor(self) -> float:
        """r_c of the rule: how much colder than a room of 24 °C, in steps of 20 K."""
        return (RATING_ROOM_C - self.target_c) / 20.0


# Regulation (EU) 2019/2016, annex IV, tables 3 and 4 (read there).
COMPARTMENTS = {
    kind.name: kind
    for kind in (
        Compartment("pantry", 17.0, 14.0, 20.0),
        Compartment("wine", 12.0, 5.0, 20.0),
        Compartment("cellar", 12.0, 2.0, 14.0),
        Compartment("fresh food", 4.0, 0.0, 8.0),
        Compartment("chill", 2.0, -3.0, 3.0),
        Compartment("0-star", 0.0),
        Compartment("1-star", -6.0),
        Compartment("2-star", -12.0),
        Compartment("3-star", -18.0),
        Compartment("4-star", -18.0),
    )
}

# IEC 62552 (from memory): the rooms in which a household cooler must hold its temperatures [°C].
ROOM_CLASSES = {"SN": (10.0, 32.0), "N": (16.0, 32.0), "ST": (16.0, 38.0), "T": (16.0, 43.0)}


def compartment(name: str) -> Compartment:
    """The kind of compartment of that name.

    Parameters
    ----------
    name : str
        Such as "fresh food" [-]

    Raises
    ------
    InputError
        If there is none; the message gives the list.
    """
    found = COMPARTMENTS.get(name.strip().lower())
    if found is None:
        raise InputError(f"there is no kind of compartment {name!r}; there are {', '.join(COMPARTMENTS)}")
    return found


def suits_room(room_class: str, room_k: float) -> bool:
    """Whether a cooler of a class is made for a room.

    Parameters
    ----------
    room_class : str
        Letters on the nameplate, such as "N-ST" for both and all between [-]
    room_k : float
        Temperature of the room [K]

    Returns
    -------
    bool
        Whether the room lies within the class, ends included [-]

    Raises
    ------
    InputError
        If a letter is none of the classes, or the temperature is none of a room.
    """
    check_temperature("the room", room_k)
    names = [part.strip().upper() for part in room_class.replace("/", "-").split("-")]
    for name in names:
        if name not in ROOM_CLASSES:
            raise InputError(f"the class {room_class!r} is not known; there are {', '.join(ROOM_CLASSES)}, or a span")
    least = min(ROOM_CLASSES[name][0] for name in names)
    most = max(ROOM_CLASSES[name][1] for name in names)
    return least - 1e-9 <= room_k - ICE_POINT_K <= most + 1e-9
