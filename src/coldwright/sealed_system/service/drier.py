"""The filter-drier: how much water it holds, whether that is enough, and when a new one goes in."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.sealed_system.service.inputs import check_positive

DROPS_PER_KG = 20_000.0  # 20 drops to the gram (AHRI 710, from memory)
LEAST_KG, MOST_KG = 0.004, 0.5
TAKES = "water, some acid, and solid bits down to its screen; never sludge, and never air"
NEEDS_ALUMINA = "after a burn-out: a sieve alone takes little acid, so the clean-up drier has activated alumina in it"


class Desiccant(Enum):
    """What fills a drier: most water it takes, and what it takes while it keeps refrigerant dry, by share of its mass.

    Most: sieve and silica gel read on two desiccant makers' pages (brands withheld); alumina from memory. In dry
    refrigerant: common practice, no source. Ask the drier's maker for the figure at your temperature.
    """

    SIEVE_3A = (0.20, 0.15, "molecular sieve, 3 Å")
    SIEVE_4A = (0.20, 0.15, "molecular sieve, 4 Å")
    SILICA_GEL = (0.35, 0.04, "silica gel")
    ALUMINA = (0.20, 0.04, "activated alumina")

    @property
    def most_share(self) -> float:
        """Share of its mass that it takes in wet air [-]."""
        return self.value[0]

    @property
    def dry_share(self) -> float:
        """Share of its mass that it holds while the refrigerant stays dry [-]."""
        return self.value[1]

    @property
    def spoken(self) -> str:
        """Its name."""
        return self.value[2]


@dataclass(frozen=True)
class Drier:
    """A drier: its desiccant, the mass of it, and the share of water in it when it comes out of its sealed bag.

    Household driers hold some 10 g to 30 g of desiccant (common practice, no source).
    """

    desiccant: Desiccant
    desiccant_kg: float
    share_at_start: float = 0.02  # illustrative

    def __post_init__(self) -> None:
        check_positive("the desiccant in the drier", self.desiccant_kg, "kg")
        if not LEAST_KG <= self.desiccant_kg <= MOST_KG:
            slip = (
                f"Was it {self.desiccant_kg:g} g, typed where kilograms are asked for?"
                if self.desiccant_kg > MOST_KG
                else "Was it the water it holds, or ounces?"
            )
            raise InputError(
                f"the desiccant in the drier is {self.desiccant_kg * 1000.0:g} g; driers of small units hold "
                f"{LEAST_KG * 1000.0:g} g to {MOST_KG * 1000.0:g} g. {slip}"
            )
        if not 0.0 <= self.share_at_start <= 1.0:
            raise InputError(
                f"the share of water at the start is {self.share_at_start:g}; it must be from 0 to 1. Was it per cent?"
            )

    @property
    def water_capacity_kg(self) -> float:
        """Water that it can still take while the refrigerant stays dry [kg]."""
        return max(0.0, self.desiccant_kg * (self.desiccant.dry_share - self.share_at_start))


def drops(water_kg: float) -> float:
    """Water counted in drops, as driers are rated.

    Parameters
    ----------
    water_kg : float
        Water [kg]

    Returns
    -------
    float
        Drops, 20 to the gram [drops]
    """
    if not water_kg >= 0.0:
        raise InputError(f"the water is {water_kg * 1000.0:g} g; it must be zero or more")
    return water_kg * DROPS_PER_KG


def share_used(drier: Drier, water_kg: float) -> float:
    """Share of a drier's capacity that an amount of water takes up.

    Parameters
    ----------
    drier : Drier
        The drier [-]
    water_kg : float
        Water left in the system after evacuation [kg]

    Returns
    -------
    float
        Above 1 the drier is not enough: evacuate again, a larger drier is no cure [-]
    """
    drops(water_kg)
    capacity = drier.water_capacity_kg
    return water_kg / capacity if capacity > 0.0 else (0.0 if water_kg == 0.0 else float("inf"))


def suits(desiccant: Desiccant, refrigerant: str) -> bool:
    """Whether a desiccant leaves the refrigerant itself alone.

    Parameters
    ----------
    desiccant : Desiccant
        What fills the drier [-]
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    bool
        False for a 4 Å sieve with R-32 or a blend of it, whose molecules fit its pores (from memory)

    Notes
    -----
    The drier's label names the refrigerants it is for, and comes first.
    """
    found = refrigerant_named(refrigerant)
    with_r32 = found.name == "R-32" or "R-32" in found.parts
    return not (desiccant is Desiccant.SIEVE_4A and with_r32)


class DrierEvent(Enum):
    """What can happen to a drier or its system; the value says why a new one goes in (common practice, no source)."""

    SYSTEM_OPENED = "the system was opened: air and water came in"
    BURN_OUT = "the compressor burnt out: the drier holds acid and soot; cut it out, never heat it out"
    COLD_DRIER = "the drier is colder at its outlet than at its inlet: it is blocked"
    LEFT_UNCAPPED = "the new drier stood without its caps: it took water from the air"
    WATER_FOUND = "water was found in the system: ice at the capillary, or a decay test that showed it"
    REFRIGERANT_TOPPED_UP = "nothing was opened and nothing is blocked"

    @property
    def calls_for_new(self) -> bool:
        """Whether a new drier goes in."""
        return self is not DrierEvent.REFRIGERANT_TOPPED_UP


def reasons_for_new_drier(events: Collection[DrierEvent]) -> tuple[str, ...]:
    """Why a new drier goes in, each reason in words; none if the old one may stay.

    Parameters
    ----------
    events : collection of DrierEvent
        What happened [-]

    Returns
    -------
    tuple of str
        In a fixed order
    """
    return tuple(event.value for event in DrierEvent if event in events and event.calls_for_new)
