"""How much refrigerant a room or an appliance may hold, each limit with its rule.

A limit in a rule is not leave to come near it. Local codes, the maker's instructions and licensed practice come first.
"""

from __future__ import annotations

import math
from typing import NoReturn

from coldwright.errors import InputError
from coldwright.quantities.constants import GAS_CONSTANT, ICE_POINT_K, SEA_LEVEL_PA
from coldwright.refrigerants.catalogue import Refrigerant, refrigerant_named

HOUSEHOLD_KG = 0.150  # IEC/UL 60335-2-24: flammable refrigerant of a household refrigerator, each circuit
SAFE_SHARE = 0.25  # of the lower flammable limit, 40 CFR 82 subpart G Appendix R; safety standards take it too
MOLAR_VOLUME = GAS_CONSTANT * (ICE_POINT_K + 25.0) / SEA_LEVEL_PA  # ideal gas at 25 °C [m³/mol]
GG2_FACTOR = 2.5
RELEASE_HEIGHTS_M = {"floor": 0.6, "window": 1.0, "wall": 1.8, "ceiling": 2.2}
"""Height a leak comes from, by where the unit is: IEC 60335-2-40 GG.2 (floor read in a table, others from memory)."""
MOST_CHARGE_KG = 50.0  # small hermetic systems hold grams; more than this is a slip


def _flammable_limit(refrigerant: Refrigerant) -> float:
    if refrigerant.lfl_kg_per_m3 is None:
        raise InputError(
            f"{refrigerant.name} has no lower flammable limit: its safety class is {refrigerant.safety_class}, it does "
            "not spread a flame. Its limit in a room is the RCL"
        )
    return refrigerant.lfl_kg_per_m3


def _refuse(name: str, value: float, unit: str, slip: str) -> NoReturn:
    raise InputError(f"{name} is {value:g} {unit}; it must be above 0 {unit} and one that is met. {slip}")


def _check_mass(mass_kg: float) -> None:
    if not 0 < mass_kg <= MOST_CHARGE_KG:
        _refuse("the mass of refrigerant", mass_kg, "kg", "Was it in grams or ounces?")


def _check_volume(volume_m3: float) -> None:
    if not 0 < volume_m3 <= 1e5:
        _refuse("the volume of the room", volume_m3, "m³", "Was it in litres or cubic feet?")


def concentration(mass_kg: float, volume_m3: float) -> float:
    """Refrigerant in each cubic metre if all of it leaks into a closed room and mixes.

    Parameters
    ----------
    mass_kg : float
        Mass that leaks [kg]
    volume_m3 : float
        Free volume of the room [m³]

    Returns
    -------
    float
        Concentration [kg/m³]

    Raises
    ------
    InputError
        If the mass or the volume is not one that is met.

    Notes
    -----
    All the refrigerants here are heavier than air: near the floor it is more for a while, so this is not the worst.
    """
    _check_mass(mass_kg)
    _check_volume(volume_m3)
    return mass_kg / volume_m3


def share_of_flammable_limit(refrigerant: str, mass_kg: float, volume_m3: float) -> float:
    """Concentration after a full leak as a share of the lower flammable limit.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    mass_kg : float
        Mass that leaks [kg]
    volume_m3 : float
        Free volume of the room [m³]

    Returns
    -------
    float
        Share; above 0.25 the room is to be left and aired, at 1 it can burn [-]

    Raises
    ------
    InputError
        If the refrigerant has no such limit, or a value is not one that is met.
    """
    return concentration(mass_kg, volume_m3) / _flammable_limit(refrigerant_named(refrigerant))


def room_for_charge(refrigerant: str, mass_kg: float, share: float = SAFE_SHARE) -> float:
    """Least volume of a room in which a full leak stays at a share of the lower flammable limit.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    mass_kg : float
        Charge [kg]
    share : float
        Share of the lower flammable limit, a quarter unless told [-]

    Returns
    -------
    float
        Volume [m³]

    Raises
    ------
    InputError
        If the refrigerant has no such limit, or a value is not one that is met.

    Examples
    --------
    >>> round(room_for_charge("R-600a", 0.150), 1)
    14.0
    """
    _check_mass(mass_kg)
    if not 0 < share <= 1:
        raise InputError(f"the share of the limit is {share:g}; it is above 0 and at most 1. Was it in percent?")
    return mass_kg / (share * _flammable_limit(refrigerant_named(refrigerant)))


def charge_for_room(refrigerant: str, volume_m3: float) -> float:
    """Most refrigerant whose full leak keeps a room at or below its refrigerant concentration limit (RCL).

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    volume_m3 : float
        Free volume of the room [m³]

    Returns
    -------
    float
        RCL times volume [kg]

    Raises
    ------
    InputError
        If the volume is not one that is met, or the refrigerant's limit is not known.

    References
    ----------
    .. [1] ANSI/ASHRAE 34, as in *International Mechanical Code*, Table 1103.1.
    """
    _check_volume(volume_m3)
    found = refrigerant_named(refrigerant)
    if found.rcl_kg_per_m3 is None:
        raise InputError(f"the course has no refrigerant concentration limit (RCL) for {found.name}")
    return found.rcl_kg_per_m3 * volume_m3


def mass_per_volume(refrigerant: str, parts_per_million: float) -> float:
    """Mass in a cubic metre of air of 25 °C and 101.325 kPa for a share of its volume.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    parts_per_million : float
        Share of the volume, 0 to 1 000 000 [ppm]

    Returns
    -------
    float
        Concentration, as an ideal gas [kg/m³]

    Raises
    ------
    InputError
        If the share is not from 0 to a million.
    """
    if not 0 <= parts_per_million <= 1e6:
        raise InputError(f"the share is {parts_per_million:g} ppm; it is from 0 to 1 000 000 ppm")
    return parts_per_million * 1e-6 * refrigerant_named(refrigerant).molar_mass_kg_per_mol / MOLAR_VOLUME


def charge_limit_household(refrigerant: str) -> float | None:
    """Most flammable refrigerant a circuit of a household refrigerator may hold.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    float | None
        150 g where it burns; None for class 1, which this rule does not limit [kg]

    References
    ----------
    .. [1] UL 60335-2-24, 2nd edition (a news item on it was read); IEC 60335-2-24 (from memory).
    """
    return HOUSEHOLD_KG if refrigerant_named(refrigerant).is_flammable else None


def charge_free_of_room(refrigerant: str) -> float:
    """Charge m1 up to which IEC 60335-2-40 asks nothing of the room: 4 m³ of air at the limit, 6 m³ for class 2L.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    float
        Charge [kg]

    References
    ----------
    .. [1] IEC 60335-2-40 (from memory).
    """
    found = refrigerant_named(refrigerant)
    return (6.0 if found.safety_class.endswith("2L") else 4.0) * _flammable_limit(found)


def charge_ceiling_split(refrigerant: str) -> float:
    """Charge m2, the most for a split system by IEC 60335-2-40: 26 m³ of air at the lower flammable limit.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]

    Returns
    -------
    float
        Charge; 0.988 kg for R-290 [kg]

    References
    ----------
    .. [1] IEC 60335-2-40, 7th edition, 2022 (news of it was read; the factor of 26 m³ from memory).
    """
    return 26.0 * _flammable_limit(refrigerant_named(refrigerant))


def charge_for_floor(refrigerant: str, floor_m2: float, release_height_m: float = RELEASE_HEIGHTS_M["floor"]) -> float:
    r"""Most flammable refrigerant for a room without forced air, by its floor.

    .. math:: m_\text{max} = 2.5 \, L^{5/4} \, h_0 \, \sqrt{A}

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    floor_m2 : float
        Floor of the room [m²]
    release_height_m : float
        Height the leak comes from; see RELEASE_HEIGHTS_M [m]

    Returns
    -------
    float
        Charge [kg]

    Raises
    ------
    InputError
        If the refrigerant does not burn, or a value is not one that is met.

    References
    ----------
    .. [1] IEC 60335-2-40:2018, GG.2, for air conditioners and heat pumps (as tabulated in an installation manual).
    """
    limit = _flammable_limit(refrigerant_named(refrigerant))
    if not 0 < floor_m2 <= 1e4:
        _refuse("the floor", floor_m2, "m²", "Was it in square feet?")
    if not 0 < release_height_m <= 5:
        _refuse("the height of the leak", release_height_m, "m", "Was it in centimetres or feet?")
    return GG2_FACTOR * limit**1.25 * release_height_m * math.sqrt(floor_m2)
