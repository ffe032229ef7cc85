"""Hoses: how much refrigerant they hold, what is lost when they come off, and how much air they push in.

On a cooler with a charge of some 80 g the hoses count: a hose full of liquid can hold a third of it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from coldwright.errors import InputError
from coldwright.instruments.service_events import ServiceEvent
from coldwright.quantities.constants import GAS_CONSTANT, ICE_POINT_K, SEA_LEVEL_PA
from coldwright.refrigerants.saturation import saturated_liquid, saturated_vapour
from coldwright.refrigerants.states import state_pt

PURGED_WITH = 3.0  # volumes of the hose from which it counts as purged: 5 % of its air is left
AIR_KG_PER_PA_M3 = 0.028965 / (GAS_CONSTANT * (ICE_POINT_K + 20.0))


class Fitting(Enum):
    """What is at the end of a hose; the value is the share of it that empties when it comes off (illustrative)."""

    PLAIN = 1.0
    LOW_LOSS = 0.03
    BALL_VALVE = 0.05


class Filling(Enum):
    """What is in a hose."""

    VAPOUR = "vapour"
    LIQUID = "liquid"


@dataclass(frozen=True)
class Hose:
    """A hose: length and bore in m, and the fitting at its end. The usual one is illustrative."""

    length_m: float = 1.5
    bore_m: float = 0.0048
    fitting: Fitting = Fitting.PLAIN

    def __post_init__(self) -> None:
        for name, value, most in (("length", self.length_m, 30.0), ("bore", self.bore_m, 0.05)):
            if not 0 < value <= most:
                slip = ". Was it typed in mm?" if value > most else ""
                raise InputError(
                    f"the {name} of the hose is {value:g} m; it must be above 0 m, at most {most:g} m{slip}"
                )

    @property
    def volume_m3(self) -> float:
        """Volume inside [m³]."""
        return 0.25 * math.pi * self.bore_m**2 * self.length_m


def hose_density(refrigerant: str, pressure_pa: float, temperature_k: float, filling: Filling) -> float:
    """Density of what is in a hose.

    Parameters
    ----------
    refrigerant : str
        Name on the cylinder or the nameplate [-]
    pressure_pa : float
        Absolute pressure in the hose [Pa]
    temperature_k : float
        Temperature of the hose [K]
    filling : Filling
        Vapour or liquid; vapour that would be liquid at this temperature counts as saturated, and so does liquid that
        would be vapour [-]

    Returns
    -------
    float
        Density [kg/m³]
    """
    if filling is Filling.LIQUID:
        limit, alone = saturated_liquid(refrigerant, pressure_pa), -1.0
    else:
        limit, alone = saturated_vapour(refrigerant, pressure_pa), 1.0
    if alone * (temperature_k - limit.temperature_k) > 0.01:
        return state_pt(refrigerant, pressure_pa, temperature_k).density_kg_per_m3
    return limit.density_kg_per_m3


def held_mass(hose: Hose, refrigerant: str, pressure_pa: float, temperature_k: float, filling: Filling) -> float:
    """Refrigerant that a hose holds.

    Parameters
    ----------
    hose : Hose
        Length and bore [-]
    refrigerant : str
        Name on the cylinder or the nameplate [-]
    pressure_pa : float
        Absolute pressure in the hose [Pa]
    temperature_k : float
        Temperature of the hose [K]
    filling : Filling
        Vapour or liquid [-]

    Returns
    -------
    float
        Mass [kg]
    """
    return hose.volume_m3 * hose_density(refrigerant, pressure_pa, temperature_k, filling)


def lost_mass(hose: Hose, held_kg: float) -> float:
    """Refrigerant that leaves a hose when it comes off: all of it, or what the fitting lets out.

    Parameters
    ----------
    hose : Hose
        With its fitting [-]
    held_kg : float
        What it holds, zero or more [kg]

    Returns
    -------
    float
        Mass [kg]

    Raises
    ------
    InputError
        If the mass is below zero.
    """
    if not 0 <= held_kg < math.inf:
        raise InputError(f"the refrigerant in the hose is {held_kg:g} kg; it must be zero or more and finite")
    return held_kg * hose.fitting.value


def air_left(hose: Hose, purged_with: float, atmosphere_pa: float = SEA_LEVEL_PA) -> float:
    r"""Air that a hose pushes into the system, if it was purged with some hoses full of vapour before.

    .. math:: m = m_0 e^{-n}

    Parameters
    ----------
    hose : Hose
        The hose [-]
    purged_with : float
        Volume of vapour let through, in volumes of the hose; 0 for not purged [-]
    atmosphere_pa : float
        Pressure of the room [Pa]

    Returns
    -------
    float
        Mass at 20 °C [kg]

    Raises
    ------
    InputError
        If the number is below zero.

    Notes
    -----
    As if vapour and air mix at once; in a long thin hose the vapour pushes the air before it, and less is left. What is
    purged is recovered, or of a flammable refrigerant let out only where that is lawful and nothing can light it.
    """
    if not 0 <= purged_with < math.inf:
        raise InputError(f"the hose is purged with {purged_with:g} of its volumes; that must be zero or more")
    return AIR_KG_PER_PA_M3 * atmosphere_pa * hose.volume_m3 * math.exp(-purged_with)


def joining_events(purged_with: float) -> tuple[ServiceEvent, ...]:
    """What joining a hose does that was purged with some of its volumes.

    Parameters
    ----------
    purged_with : float
        Volume of vapour let through before, in volumes of the hose [-]
    """
    return () if purged_with >= PURGED_WITH else (ServiceEvent.AIR_PUSHED_IN,)
