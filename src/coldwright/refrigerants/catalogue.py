"""The refrigerants the course knows, by the names that nameplates give them."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from typing import Any

from coldwright.errors import InputError

PREFIXES = ("hcfc", "hfc", "hfo", "cfc", "hc", "r")
"""What may stand before the number on a nameplate, longest first."""


@dataclass(frozen=True)
class Refrigerant:
    """What the course knows of a refrigerant. Masses in kg, `least_k` to `most_k` is what its equation covers.

    `lfl_kg_per_m3` is the lower flammable limit, None where it does not burn; `rcl_kg_per_m3` the concentration limit
    of a room; `parts` the shares by mass of a blend. `data/refrigerants.toml` names the source of each group.
    """

    name: str
    coolprop_name: str
    chemical_name: str
    family: str
    safety_class: str
    molar_mass_kg_per_mol: float
    least_k: float
    most_k: float
    critical_k: float
    critical_pa: float
    lfl_kg_per_m3: float | None
    rcl_kg_per_m3: float | None
    rcl_ppm: float | None
    oils: tuple[str, ...]
    spellings: tuple[str, ...]
    parts: Mapping[str, float] = field(default_factory=dict, hash=False)

    @property
    def is_blend(self) -> bool:
        """Whether it is a blend, with a bubble point and a dew point of its own."""
        return bool(self.parts)

    @property
    def is_flammable(self) -> bool:
        """Whether it burns: class 2L, 2 or 3."""
        return not self.safety_class.endswith("1")


def _entry(data: Mapping[str, Any]) -> Refrigerant:
    return Refrigerant(
        name=data["name"],
        coolprop_name=data["coolprop"],
        chemical_name=data["chemical_name"],
        family=data["family"],
        safety_class=data["safety_class"],
        molar_mass_kg_per_mol=data["molar_mass_g_per_mol"] / 1e3,
        least_k=data["least_k"],
        most_k=data["most_k"],
        critical_k=data["critical_k"],
        critical_pa=data["critical_pa"],
        lfl_kg_per_m3=data.get("lfl_kg_per_m3"),
        rcl_kg_per_m3=data.get("rcl_kg_per_m3"),
        rcl_ppm=data.get("rcl_ppm"),
        oils=tuple(data["oils"]),
        spellings=tuple(data["spellings"]),
        parts=data.get("parts", {}),
    )


@cache
def _file() -> dict[str, Any]:
    text = resources.files("coldwright.refrigerants").joinpath("data/refrigerants.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def refrigerants() -> tuple[Refrigerant, ...]:
    """Every refrigerant the course knows."""
    return tuple(_entry(each) for each in _file()["refrigerant"])


def standing() -> dict[str, str]:
    """Source of each group of facts, and whether it was read."""
    return dict(_file()["standing"])


NAMES: tuple[str, ...] = tuple(each.name for each in refrigerants())


def _key(name: str) -> str:
    """A name without blanks, signs, capitals and the letters before its number."""
    bare = re.sub(r"[^0-9a-z]", "", name.casefold())
    for prefix in PREFIXES:
        if re.match(rf"{prefix}\d", bare):
            return bare.removeprefix(prefix)
    return bare


@cache
def _by_key() -> dict[str, Refrigerant]:
    return {_key(spelling): each for each in refrigerants() for spelling in (each.name, *each.spellings)}


def _one_slip_apart(one: str, other: str) -> bool:
    """Whether one sign was left out, added, changed or swapped with its neighbour."""
    if len(one) > len(other):
        one, other = other, one
    if len(other) - len(one) > 1 or one == other:
        return False
    start = next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), len(one))
    left, right = one[start:], other[start:]
    if len(left) < len(right):
        return left == right[1:]
    return left[1:] == right[1:] or (left[:2] == right[1::-1] and left[2:] == right[2:])


def likely_meant(name: str) -> tuple[str, ...]:
    """Refrigerants whose name is one slip of the pen away from what was given.

    Parameters
    ----------
    name : str
        What was typed or read [-]

    Returns
    -------
    tuple[str, ...]
        Their names; none where nothing is near [-]
    """
    key = _key(name)
    near = [each.name for spelling, each in _by_key().items() if _one_slip_apart(key, spelling)]
    return tuple(dict.fromkeys(near))


@cache
def refrigerant_named(name: str) -> Refrigerant:
    """The refrigerant of that name.

    Parameters
    ----------
    name : str
        As on a nameplate, such as "R-134a", "R134A", "HFC-134a", "r 600a" or "isobutane" [-]

    Returns
    -------
    Refrigerant
        What the course knows of it [-]

    Raises
    ------
    InputError
        If the course does not know it; the message names the one that was likely meant.

    Examples
    --------
    >>> refrigerant_named("hc 600A").chemical_name
    'isobutane'
    """
    found = _by_key().get(_key(str(name)))
    if found:
        return found
    near = likely_meant(str(name))
    if near:
        raise InputError(
            f"the refrigerant {name!r} is not one the course has data for: did you mean {' or '.join(near)}? If the "
            "nameplate does say so, do not put another's pressures in its place"
        )
    raise InputError(f"the refrigerant {name!r} is not one the course has data for; it knows {', '.join(NAMES)}")
