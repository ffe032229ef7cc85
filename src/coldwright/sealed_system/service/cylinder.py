"""Recovery cylinders: how much may go in, and what still fits by the scale.

Only refillable cylinders, in date, made for the refrigerant; a disposable one is never refilled. The cylinder's marks
and local law come first.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.saturation import bubble_pressure, saturated_liquid
from coldwright.sealed_system.service.inputs import check_positive

WATER_KG_PER_M3 = 999.0  # at 60 °F, at which water capacity is counted
FILL_SHARE = 0.80
FILL_TEMPERATURE_K = ICE_POINT_K + 25.0
HOTTEST_K = ICE_POINT_K + 55.0
MOST_WATER_KG = 120.0
FILLING_DENSITY = {"R-12": 1.19, "R-22": 1.05}
"""Mass of refrigerant over mass of water, 49 CFR 173.304a(a)(2) (read in two copies)."""


class FillRule(Enum):
    """Which rule sets the limit; the value says it."""

    EIGHTY_PER_CENT = "liquid fills 80 % of the cylinder at 25 °C (AHRI Guideline K; the figure from memory)"
    FILLING_DENSITY = "the filling density of 49 CFR 173.304a(a)(2) (read)"
    NOT_FULL_WHEN_HOT = (
        "liquid must not fill the cylinder at 55 °C (49 CFR 173.304(b), quoted in an article that was read)"
    )


@dataclass(frozen=True)
class FillLimit:
    """Most refrigerant for a cylinder, and the rule that sets it [kg]."""

    mass_kg: float
    rule: FillRule


def cylinder_volume(water_capacity_kg: float) -> float:
    """Inside volume of a cylinder from the water capacity (WC) stamped on it.

    Parameters
    ----------
    water_capacity_kg : float
        Water that fills it [kg]

    Returns
    -------
    float
        Volume [m³]
    """
    check_positive("the water capacity", water_capacity_kg, "kg", "It is the figure stamped after WC.")
    if water_capacity_kg > MOST_WATER_KG:
        raise InputError(
            f"the water capacity is {water_capacity_kg:g} kg; a cylinder that is carried holds at most "
            f"{MOST_WATER_KG:g} kg. Was it in lb, or the tare?"
        )
    return water_capacity_kg / WATER_KG_PER_M3


def liquid_density(refrigerant: str, temperature_k: float) -> float:
    """Density of liquid that is about to boil.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    temperature_k : float
        Temperature [K]

    Returns
    -------
    float
        Density [kg/m³]
    """
    return saturated_liquid(refrigerant, bubble_pressure(refrigerant, temperature_k)).density_kg_per_m3


def filling_limit(refrigerant: str, water_capacity_kg: float) -> FillLimit:
    """Most refrigerant that may go into a recovery cylinder.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    water_capacity_kg : float
        Water that fills the cylinder, stamped WC [kg]

    Returns
    -------
    FillLimit
        The least of three rules

    Notes
    -----
    Recovered refrigerant holds oil, which is lighter: then stop earlier. A mixture or an unknown refrigerant is filled
    by the lighter one.
    """
    volume = cylinder_volume(water_capacity_kg)
    limits = {
        FillRule.EIGHTY_PER_CENT: FILL_SHARE * volume * liquid_density(refrigerant, FILL_TEMPERATURE_K),
        FillRule.NOT_FULL_WHEN_HOT: volume * liquid_density(refrigerant, HOTTEST_K),
    }
    density = FILLING_DENSITY.get(refrigerant_named(refrigerant).name)
    if density is not None:
        limits[FillRule.FILLING_DENSITY] = density * water_capacity_kg
    rule = min(limits, key=lambda r: limits[r])
    return FillLimit(limits[rule], rule)


def room_left(gross_kg: float, tare_kg: float, limit_kg: float) -> float:
    """Refrigerant that may still go in.

    Parameters
    ----------
    gross_kg : float
        Weight of the cylinder as it stands on the scale [kg]
    tare_kg : float
        Weight of the empty cylinder, stamped TW [kg]
    limit_kg : float
        Most refrigerant it may hold [kg]

    Returns
    -------
    float
        Mass; negative if it is overfilled already [kg]
    """
    check_positive("the gross weight", gross_kg, "kg")
    check_positive("the tare", tare_kg, "kg", "It is the figure stamped after TW.")
    check_positive("the filling limit", limit_kg, "kg")
    if gross_kg < tare_kg:
        raise InputError(
            f"the gross weight is {gross_kg:g} kg, below the tare of {tare_kg:g} kg; a cylinder weighs no less than "
            "empty. Were the two swapped, or the tare read in lb?"
        )
    return limit_kg - (gross_kg - tare_kg)
