"""How much refrigerant must be out before a system is opened, by the rule of the United States.

Other countries have rules of their own. Local law, the maker's instructions and the licence to do this work come first.
Venting is forbidden; hydrocarbons are exempt in some countries, yet the course recovers them too.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.saturation import bubble_pressure
from coldwright.sealed_system.service.inputs import INCH_OF_MERCURY, POUND_KG, PSI, check_charge

STANDARD_VACUUM_ZERO_PA = 29.9 * INCH_OF_MERCURY  # 40 CFR 82.156 table 1 counts its vacuum from here
CLASS_TEMPERATURE_K = ICE_POINT_K + 40.0  # 104 °F
LARGE_CHARGE_KG = 200.0 * POUND_KG
MOST_CHARGE_KG = 20000.0
SMALL_APPLIANCE_VACUUM_INCH = 4.0
RUNNING_SHARE, DEAD_SHARE = 0.90, 0.80
PASSIVE_MOST_KG = 15.0 * POUND_KG  # from memory: a machine that leans on the unit's own pressure may not be used above


class PressureClass(Enum):
    """Class of an appliance by the pressure of its liquid at 104 °F: lowest and highest of it [psi absolute].

    The limits of high pressure were read in a copy of the definitions of 40 CFR 82.152; the others are from memory.
    """

    LOW = (0.0, 45.0)
    MEDIUM = (45.0, 170.0)
    HIGH = (170.0, 355.0)
    VERY_HIGH = (355.0, float("inf"))


@dataclass(frozen=True)
class Level:
    """How far a system must be drawn down: inches of mercury below the standard atmosphere; None for low pressure.

    `absolute_pa` is what a gauge for absolute pressure shows.
    """

    inches_of_vacuum: float | None
    absolute_pa: float


def _vacuum(inches: float) -> Level:
    return Level(inches, STANDARD_VACUUM_ZERO_PA - inches * INCH_OF_MERCURY)


TABLE: dict[tuple[PressureClass, bool], tuple[float, float]] = {
    (PressureClass.VERY_HIGH, False): (0.0, 0.0),
    (PressureClass.VERY_HIGH, True): (0.0, 0.0),
    (PressureClass.HIGH, False): (0.0, 0.0),
    (PressureClass.HIGH, True): (4.0, 10.0),
    (PressureClass.MEDIUM, False): (4.0, 10.0),
    (PressureClass.MEDIUM, True): (4.0, 15.0),
}
"""40 CFR 82.156, table 1 (read in two copies): for class and 200 lb or more, in. Hg for machines older and newer than
15 November 1993. Low pressure is 25 mm Hg absolute for both."""


def pressure_class(refrigerant: str) -> PressureClass:
    """Class of an appliance by its refrigerant.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    PressureClass
        From the pressure of the boiling liquid at 104 °F
    """
    psi = bubble_pressure(refrigerant, CLASS_TEMPERATURE_K) / PSI
    return next(c for c in PressureClass if c.value[0] <= psi < c.value[1])


def evacuation_level(refrigerant: str, charge_kg: float, machine_after_1993: bool = True) -> Level:
    """How far a system that is no small appliance must be drawn down before it is opened.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    charge_kg : float
        Full charge [kg]
    machine_after_1993 : bool
        Whether the recovery machine was made on or after 15 November 1993 [-]

    Returns
    -------
    Level
        Vacuum by 40 CFR 82.156, table 1
    """
    check_charge("the full charge", charge_kg, MOST_CHARGE_KG)
    kind = pressure_class(refrigerant)
    if kind is PressureClass.LOW:
        return Level(None, 25.0 / 25.4 * INCH_OF_MERCURY)
    return _vacuum(TABLE[kind, charge_kg >= LARGE_CHARGE_KG][int(machine_after_1993)])


def share_to_recover(compressor_works: bool, machine_after_1993: bool = True) -> float:
    """Share of the charge of a small appliance that must be recovered.

    Parameters
    ----------
    compressor_works : bool
        Whether the unit's own compressor runs [-]
    machine_after_1993 : bool
        Whether the recovery machine was made on or after 15 November 1993 [-]

    Returns
    -------
    float
        0.9 with a compressor that works, else 0.8 [-]

    References
    ----------
    .. [1] 40 CFR 82.156(b) and 82.158(e) (from memory).
    """
    return RUNNING_SHARE if compressor_works and machine_after_1993 else DEAD_SHARE


def amount_to_recover(charge_kg: float, compressor_works: bool, machine_after_1993: bool = True) -> float:
    """Mass that must be recovered from a small appliance.

    Parameters
    ----------
    charge_kg : float
        What is in it: the nameplate's charge, less only if that is known [kg]
    compressor_works : bool
        Whether the unit's own compressor runs [-]
    machine_after_1993 : bool
        Whether the recovery machine was made on or after 15 November 1993 [-]

    Returns
    -------
    float
        Mass [kg]

    Raises
    ------
    InputError
        If the charge is none of a small appliance, which is factory sealed with 5 lb or less.
    """
    check_charge("the charge of a small appliance", charge_kg)
    return charge_kg * share_to_recover(compressor_works, machine_after_1993)


def enough_recovered(
    charge_kg: float,
    recovered_kg: float,
    vacuum_inches: float,
    compressor_works: bool,
    machine_after_1993: bool = True,
) -> bool:
    """Whether a small appliance may be opened: the share is out, or 4 in. Hg of vacuum stands.

    Parameters
    ----------
    charge_kg : float
        What was in it [kg]
    recovered_kg : float
        What the scale under the cylinder says came out [kg]
    vacuum_inches : float
        Vacuum that stands after waiting, 0 if there is pressure [in. Hg]
    compressor_works : bool
        Whether the unit's own compressor runs [-]
    machine_after_1993 : bool
        Whether the recovery machine was made on or after 15 November 1993 [-]

    Returns
    -------
    bool
        True if one of the two is met

    Notes
    -----
    Where the unit had leaked, the share of the nameplate's charge cannot come out: then the vacuum decides.
    """
    needed = amount_to_recover(charge_kg, compressor_works, machine_after_1993)
    if not recovered_kg >= 0.0:
        raise InputError(f"the mass recovered is {recovered_kg * 1000.0:g} g; it must be zero or more")
    if recovered_kg > 1.5 * charge_kg:
        raise InputError(
            f"the mass recovered is {recovered_kg * 1000.0:.5g} g from a charge of {charge_kg * 1000.0:.4g} g; more "
            "than was in it cannot come out. Was one of them in ounces, the unit overcharged, or the tare forgotten?"
        )
    if not 0.0 <= vacuum_inches < 29.93:
        raise InputError(f"the vacuum is {vacuum_inches:g} in. Hg; it lies between 0 and 29.92. Was it a pressure?")
    return recovered_kg >= needed * (1.0 - 1e-12) or vacuum_inches >= SMALL_APPLIANCE_VACUUM_INCH


def passive_allowed(charge_kg: float) -> bool:
    """Whether recovery that leans on the unit's own pressure or compressor may be used.

    Parameters
    ----------
    charge_kg : float
        Full charge [kg]

    Returns
    -------
    bool
        True up to 15 lb (from memory)
    """
    check_charge("the full charge", charge_kg, MOST_CHARGE_KG)
    return charge_kg <= PASSIVE_MOST_KG
