"""A cylinder that warms: how much of it liquid fills, when it is full of liquid, and whether it holds.

Liquid grows when it warms. A cylinder full of liquid has no room for that: each kelvin more adds bars, until the relief
device opens or the cylinder bursts. Keep cylinders out of the sun and out of closed cars.
"""

from __future__ import annotations

from enum import Enum

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.saturation import bubble_pressure, saturated_vapour
from coldwright.refrigerants.states import state_pt
from coldwright.sealed_system.service.cylinder import liquid_density
from coldwright.sealed_system.service.inputs import BAR, check_positive, check_temperature


def liquid_share(refrigerant: str, mass_kg: float, volume_m3: float, temperature_k: float) -> float:
    """Share of a cylinder that liquid fills; above 1 it would not fit.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    mass_kg : float
        Refrigerant in it [kg]
    volume_m3 : float
        Inside volume [m³]
    temperature_k : float
        Temperature of all of it [K]

    Returns
    -------
    float
        Share, 0 if all is vapour [-]
    """
    check_positive("the mass in the cylinder", mass_kg, "kg")
    check_positive("the volume of the cylinder", volume_m3, "m³")
    check_temperature("the temperature of the cylinder", temperature_k)
    liquid = liquid_density(refrigerant, temperature_k)
    vapour = saturated_vapour(refrigerant, bubble_pressure(refrigerant, temperature_k)).density_kg_per_m3
    return max(0.0, (mass_kg / volume_m3 - vapour) / (liquid - vapour))


def liquid_full_temperature(refrigerant: str, mass_kg: float, volume_m3: float) -> float:
    """Temperature at which liquid fills the cylinder to the last.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    mass_kg : float
        Refrigerant in it [kg]
    volume_m3 : float
        Inside volume [m³]

    Returns
    -------
    float
        Temperature [K]

    Raises
    ------
    InputError
        If it is full already at -40 °C, or still has room at 65 °C.
    """
    check_positive("the mass in the cylinder", mass_kg, "kg")
    check_positive("the volume of the cylinder", volume_m3, "m³")
    low, high = ICE_POINT_K - 40.0, ICE_POINT_K + 65.0
    density = mass_kg / volume_m3
    if density >= liquid_density(refrigerant, low):
        raise InputError(
            f"{mass_kg:.4g} kg of {refrigerant} in {volume_m3 * 1000.0:.4g} L do not fit even at -40 °C. Was the mass "
            "typed in lb, or is the volume that of another cylinder?"
        )
    if density <= liquid_density(refrigerant, high):
        raise InputError(f"{mass_kg:.4g} kg of {refrigerant} in {volume_m3 * 1000.0:.4g} L still have room at 65 °C")
    for _ in range(50):
        middle = (low + high) / 2.0
        low, high = (middle, high) if liquid_density(refrigerant, middle) > density else (low, middle)
    return (low + high) / 2.0


def cylinder_pressure(refrigerant: str, mass_kg: float, volume_m3: float, temperature_k: float) -> float:
    """Absolute pressure in a cylinder, also where liquid fills it.

    Parameters
    ----------
    refrigerant : str
        Name as on a nameplate [-]
    mass_kg : float
        Refrigerant in it [kg]
    volume_m3 : float
        Inside volume, taken as stiff [m³]
    temperature_k : float
        Temperature of all of it [K]

    Returns
    -------
    float
        Vapour pressure while there is room; above it what squeezes the liquid, up to 600 bar [Pa]
    """
    share = liquid_share(refrigerant, mass_kg, volume_m3, temperature_k)
    saturated = bubble_pressure(refrigerant, temperature_k)
    if 0.0 < share < 1.0:
        return saturated
    density = mass_kg / volume_m3
    low, high = (1000.0, saturated) if share == 0.0 else (saturated, 600.0 * BAR)
    low, high = low * (1.0 + 1e-9), high * (1.0 - 1e-9)
    for _ in range(50):
        middle = (low + high) / 2.0
        found = state_pt(refrigerant, middle, temperature_k).density_kg_per_m3
        low, high = (middle, high) if found < density else (low, middle)
    return (low + high) / 2.0


class CylinderOutcome(Enum):
    """What becomes of a cylinder; the value is the sentence."""

    HOLDS = "the pressure stays below the service pressure stamped on it"
    ABOVE_SERVICE = "the pressure is above the service pressure: the relief device may open and vent the refrigerant"
    MAY_BURST = "the pressure is above twice the service pressure, the test of such cylinders: it may burst"


def cylinder_outcome(pressure_gauge_pa: float, service_gauge_pa: float) -> CylinderOutcome:
    """What becomes of a cylinder at a pressure.

    Parameters
    ----------
    pressure_gauge_pa : float
        Gauge pressure in it [Pa gauge]
    service_gauge_pa : float
        Service pressure stamped on it, as 400 psi for recovery cylinders [Pa gauge]

    Returns
    -------
    CylinderOutcome
        Holds, above service, or may burst

    Notes
    -----
    That such cylinders are tested at twice the service pressure is from memory (49 CFR 178.51, type 4BA).
    """
    check_positive("the service pressure", service_gauge_pa, "Pa gauge", "It stands after the type, as in 4BA400.")
    if pressure_gauge_pa <= service_gauge_pa:
        return CylinderOutcome.HOLDS
    return CylinderOutcome.ABOVE_SERVICE if pressure_gauge_pa <= 2.0 * service_gauge_pa else CylinderOutcome.MAY_BURST
