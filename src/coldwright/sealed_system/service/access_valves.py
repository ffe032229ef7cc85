"""Ways into a sealed system: where each may be fitted, and which may be left in place.

The rules are common practice, no source. The maker's service instructions and local rules come first, above all for
flammable refrigerants.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.sealed_system.service.inputs import check_positive


class Contents(Enum):
    """What is in the system now."""

    UNDER_PRESSURE = "refrigerant under pressure"
    RECOVERED = "recovered, with what the oil still gives off"
    PURGED = "recovered, purged with nitrogen, and the air around it tested"


class TubeMetal(Enum):
    """What a tube is made of."""

    COPPER = "copper"
    STEEL = "steel"
    ALUMINIUM = "aluminium"


class Place(Enum):
    """Where on the unit."""

    PROCESS_TUBE = "the process tube of the compressor, with room left to pinch behind it"
    SUCTION_LINE = "the suction line"
    DISCHARGE_LINE = "the discharge line"
    CAPILLARY = "the capillary tube"
    EVAPORATOR = "the evaporator"


@dataclass(frozen=True)
class Kind:
    """What a fitting is, what it needs and whether it seals for years."""

    name: str
    pierces: bool
    needs_flame: bool
    seals_for_years: bool


class Fitting(Enum):
    """A way in."""

    CLAMP_ON_PIERCING = Kind("clamp-on piercing valve, sealed by rubber", True, False, False)
    PIERCING_PLIERS = Kind("piercing pliers, sealed by rubber", True, False, False)
    BRAZED_PIERCING = Kind("saddle brazed on and then pierced", True, True, True)
    QUICK_COUPLER = Kind("quick coupler pushed on a cut process tube, sealed by rubber", False, False, False)
    BRAZED_STEM = Kind("stem with a valve core, brazed to the process tube, with a metal cap", False, True, True)


@dataclass(frozen=True)
class Spot:
    """Where a fitting is to go: place, metal, outside diameter [m], and whether it is straight and bare there."""

    place: Place
    metal: TubeMetal
    outside_m: float
    straight_and_bare: bool = True

    def __post_init__(self) -> None:
        check_positive("the outside diameter of the tube", self.outside_m, "m")
        if self.outside_m > 0.05:
            raise InputError(
                f"the outside diameter of the tube is {self.outside_m:g} m; tubes of small units are below 0.05 m. "
                f"Was it {self.outside_m:g} mm, typed where metres are asked for?"
            )


@dataclass(frozen=True)
class Ruling:
    """Whether something is allowed, and every reason against it or one for it."""

    allowed: bool
    reasons: tuple[str, ...]


PIERCED_SIZES_M = (0.0040, 0.0105)  # 5/32 in. to 13/32 in. outside: what piercing valves are made for, roughly


def may_fit(fitting: Fitting, spot: Spot, refrigerant: str, contents: Contents) -> Ruling:
    """Whether a fitting may be put on there now.

    Parameters
    ----------
    fitting : Fitting
        The way in [-]
    spot : Spot
        Where it is to go [-]
    refrigerant : str
        Charge of the unit: name as on a nameplate [-]
    contents : Contents
        What is in the system now [-]

    Returns
    -------
    Ruling
        Allowed or not, with reasons
    """
    kind = fitting.value
    flammable = refrigerant_named(refrigerant).is_flammable
    least, most = PIERCED_SIZES_M
    against = {
        "a capillary tube has no room for a needle and is blocked by the smallest burr": spot.place is Place.CAPILLARY,
        "the wall of an evaporator is thin and cannot be brazed afterwards": spot.place is Place.EVAPORATOR,
        "this fitting goes on the end of the process tube only": fitting in (Fitting.QUICK_COUPLER, Fitting.BRAZED_STEM)
        and spot.place is not Place.PROCESS_TUBE,
        "the needle is made for copper and aluminium; steel is too hard for it": kind.pierces
        and spot.metal is TubeMetal.STEEL,
        f"piercing valves fit tubes of {least * 1000.0:g} mm to {most * 1000.0:g} mm outside": kind.pierces
        and not least <= spot.outside_m <= most,
        "the tube must be straight, round and free of paint there, or the seal leaks": not spot.straight_and_bare,
        "aluminium is not brazed in the field": kind.needs_flame and spot.metal is TubeMetal.ALUMINIUM,
        "no flame on a system under pressure: recover first": kind.needs_flame and contents is Contents.UNDER_PRESSURE,
        "no flame where a flammable refrigerant was: purge with nitrogen and test the air first": kind.needs_flame
        and flammable
        and contents is not Contents.PURGED,
        "the end of the process tube is cut off for this: recover first": fitting is Fitting.QUICK_COUPLER
        and contents is Contents.UNDER_PRESSURE,
    }
    found = tuple(reason for reason, applies in against.items() if applies)
    return Ruling(not found, found or (f"{kind.name}: allowed there",))


def may_stay(fitting: Fitting, refrigerant: str) -> Ruling:
    """Whether a fitting may be left on the unit when it is handed over.

    Parameters
    ----------
    fitting : Fitting
        The way in [-]
    refrigerant : str
        Charge of the unit: name as on a nameplate [-]

    Returns
    -------
    Ruling
        Allowed or not, with reasons
    """
    kind = fitting.value
    if not kind.seals_for_years:
        return Ruling(
            False,
            (
                "its rubber seal leaks in time, and a small charge has nothing to spare",
                "pinch the process tube behind it, take it off and braze the end shut",
            ),
        )
    if refrigerant_named(refrigerant).is_flammable:
        return Ruling(
            False,
            (
                "with a flammable refrigerant the unit leaves as it was made, closed without a valve, unless its maker "
                "says otherwise",
                "pinch, take it off, and close with a crimped connector or by brazing once the tube is purged",
            ),
        )
    return Ruling(True, ("brazed on, leak tested, with its metal cap on; the maker may still ask for a pinched end",))
