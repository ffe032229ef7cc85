"""Nitrogen as a real gas: its density from pressure and temperature, and its pressure from density and temperature."""

from __future__ import annotations

from coldwright.errors import InputError

LEAST_K, MOST_K = 200.0, 400.0  # a workshop and well beyond; far above the critical point at 126.2 K
MOST_PA = 30e6  # a full cylinder holds some 200 bar
MOST_KG_PER_M3 = 320.0  # about 300 bar at room temperature


def _check_temperature(temperature_k: float) -> None:
    if not LEAST_K <= temperature_k <= MOST_K:
        slip = " Was it °C, typed where kelvin is asked for?" if -100.0 <= temperature_k <= 120.0 else ""
        raise InputError(
            f"the temperature of the nitrogen is {temperature_k:g} K; it must lie between {LEAST_K:g} K and "
            f"{MOST_K:g} K.{slip}"
        )


def nitrogen_density(pressure_pa: float, temperature_k: float) -> float:
    """Density of nitrogen gas.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, positive [Pa]
    temperature_k : float
        Temperature, 200 K to 400 K [K]

    Returns
    -------
    float
        Density [kg/m³]

    Raises
    ------
    InputError
        If the pressure or the temperature lies outside.

    References
    ----------
    .. [1] R. Span and others, equation of state of nitrogen, *J. Phys. Chem. Ref. Data* 29 (2000), as CoolProp has it.
    """
    _check_temperature(temperature_k)
    if not 0.0 < pressure_pa <= MOST_PA:
        raise InputError(
            f"the pressure of the nitrogen is {pressure_pa / 1000.0:g} kPa absolute; it must be above zero and at most "
            f"{MOST_PA / 1000.0:g} kPa. Was it a gauge pressure, or another unit?"
        )
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI("Dmass", "P", pressure_pa, "T", temperature_k, "Nitrogen"))


def nitrogen_pressure(density_kg_per_m3: float, temperature_k: float) -> float:
    """Absolute pressure of nitrogen gas of a known density.

    Parameters
    ----------
    density_kg_per_m3 : float
        Density, positive [kg/m³]
    temperature_k : float
        Temperature, 200 K to 400 K [K]

    Returns
    -------
    float
        Absolute pressure [Pa]

    Raises
    ------
    InputError
        If the density or the temperature lies outside.

    References
    ----------
    .. [1] R. Span and others, equation of state of nitrogen, *J. Phys. Chem. Ref. Data* 29 (2000), as CoolProp has it.
    """
    _check_temperature(temperature_k)
    if not 0.0 < density_kg_per_m3 <= MOST_KG_PER_M3:
        raise InputError(
            f"the density of the nitrogen is {density_kg_per_m3:g} kg/m³; it must be above zero and at most "
            f"{MOST_KG_PER_M3:g} kg/m³. Was it a density of the liquid?"
        )
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI("P", "Dmass", density_kg_per_m3, "T", temperature_k, "Nitrogen"))
