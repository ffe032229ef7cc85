"""Which leaks matter: how long a charge lasts, and what a leak of nitrogen means for refrigerant."""

from __future__ import annotations

from enum import Enum

from coldwright.errors import InputError
from coldwright.sealed_system.service.inputs import check_charge, check_positive, check_pressure
from coldwright.sealed_system.service.leak_rate import YEAR_S, LeakRate

LOSS_THAT_SHOWS = 0.10  # of the charge. 10 % less cost 4 % to 6 % of COP (Dmitriyev and Pisarenko 1984, abstract read)
DAY_S = 86400.0
LIFE_YEARS = 10.0  # common practice, no source: a sealed unit is made to keep its charge for its life


class Concern(Enum):
    """How much a leak matters; the value is what to do. The times are common practice, no source."""

    NOT_SHOWN = "no leak stands out from the uncertainty: test longer, or with a finer instrument, before you say tight"
    GROSS = "a tenth of the charge is gone within a day: listen, and use soap; do not evacuate or charge before repair"
    WITHIN_A_YEAR = (
        "a tenth of the charge is gone within a year: the unit comes back; find and repair it before charging"
    )
    WITHIN_ITS_LIFE = "it keeps its charge for some years, but not for its life: repair it now that the system is open"
    NEGLIGIBLE = "a tenth of the charge lasts for the life of the unit: as tight as it was made to be"


def years_until_lost(rate_kg_per_s: float, charge_kg: float, share: float = LOSS_THAT_SHOWS) -> float:
    """Years until a share of the charge is lost at a steady rate.

    Parameters
    ----------
    rate_kg_per_s : float
        Mass lost in a second [kg/s]
    charge_kg : float
        Charge on the nameplate [kg]
    share : float
        Share lost, 0 to 1; a tenth unless told [-]

    Returns
    -------
    float
        Time [year]
    """
    check_positive("the leak rate", rate_kg_per_s, "kg/s", "A loss counts as positive.")
    check_charge("the charge", charge_kg)
    if not 0.0 < share <= 1.0:
        raise InputError(f"the share lost is {share:g}; it must be above 0 and at most 1. Was it per cent?")
    return charge_kg * share / (rate_kg_per_s * YEAR_S)


def concern(rate: LeakRate, charge_kg: float) -> Concern:
    """How much a leak matters for a unit of this charge.

    Parameters
    ----------
    rate : LeakRate
        Loss of refrigerant with its limit [-]
    charge_kg : float
        Charge on the nameplate [kg]

    Returns
    -------
    Concern
        By the time in which a tenth of the charge is lost
    """
    check_charge("the charge", charge_kg)
    upper = rate.kg_per_s + rate.limit_kg_per_s
    if upper > 0.0 and years_until_lost(upper, charge_kg) >= LIFE_YEARS:
        return Concern.NEGLIGIBLE
    if not rate.is_shown:
        return Concern.NOT_SHOWN
    years = years_until_lost(rate.kg_per_s, charge_kg)
    if years < DAY_S / YEAR_S:
        return Concern.GROSS
    if years < 1.0:
        return Concern.WITHIN_A_YEAR
    return Concern.WITHIN_ITS_LIFE if years < LIFE_YEARS else Concern.NEGLIGIBLE


def same_hole(
    rate_kg_per_s: float,
    pressures_pa: tuple[float, float],
    new_pressures_pa: tuple[float, float],
    mass_ratio: float,
    viscosity_ratio: float,
) -> float:
    r"""Leak of another gas at other pressures through the same long fine hole, by laminar (viscous) flow.

    .. math:: \dot m \propto (p_1^2 - p_2^2) \, M / \mu

    Parameters
    ----------
    rate_kg_per_s : float
        Leak that was measured, as with nitrogen [kg/s]
    pressures_pa : tuple of float
        Absolute pressure inside and outside while it was measured [Pa]
    new_pressures_pa : tuple of float
        Absolute pressure inside and outside with the other gas [Pa]
    mass_ratio : float
        Molar mass of the other gas over that of the first [-]
    viscosity_ratio : float
        Viscosity of the other gas over that of the first, at the same temperature [-]

    Returns
    -------
    float
        Leak of the other gas [kg/s]

    Notes
    -----
    For leaks of some grams a year and more. Smaller ones flow as single molecules and follow another law; a hole that
    liquid or oil reaches follows none.
    """
    check_positive("the leak rate", rate_kg_per_s, "kg/s", "A loss counts as positive.")
    check_positive("the ratio of the molar masses", mass_ratio, "")
    check_positive("the ratio of the viscosities", viscosity_ratio, "")
    drives = []
    for inside, outside in (pressures_pa, new_pressures_pa):
        check_pressure("the pressure inside", inside)
        check_pressure("the pressure outside", outside)
        if not inside > outside:
            raise InputError(
                f"the pressure inside is {inside / 1000.0:g} kPa absolute, not above the {outside / 1000.0:g} kPa "
                "outside; then nothing leaks out. Was it a gauge pressure?"
            )
        drives.append(inside**2 - outside**2)
    return rate_kg_per_s * drives[1] / drives[0] * mass_ratio / viscosity_ratio
