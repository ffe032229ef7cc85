"""What tests/published/{saturation,refrigerant_limits}.toml ask of the refrigerants, by the names used there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coldwright.refrigerants.atmosphere import station_pressure
from coldwright.refrigerants.catalogue import refrigerant_named
from coldwright.refrigerants.coolprop import fluid_of
from coldwright.refrigerants.limits import (
    SAFE_SHARE,
    charge_ceiling_split,
    charge_for_floor,
    charge_for_room,
    charge_limit_household,
    mass_per_volume,
)
from coldwright.refrigerants.saturation import (
    bubble_pressure,
    bubble_temperature,
    dew_pressure,
    latent_heat,
    saturated_liquid,
    saturated_vapour,
)
from coldwright.refrigerants.states import State
from coldwright.refrigerants.transport import surface_tension, viscosity_liquid, viscosity_vapour

Inputs = dict[str, Any]

ICE_POINT_K = 273.15
ATMOSPHERE_PA = 101_325.0
PSI = 6894.757293168  # 0.45359237 · 9.80665 / 0.0254²
INCH_OF_MERCURY = 3386.389
POUND = 0.45359237
CUBIC_FOOT = 0.3048**3


def kelvin(i: Inputs) -> float:
    """Temperature, given as k, c or f."""
    if "k" in i:
        return float(i["k"])
    return (i["c"] if "c" in i else (i["f"] - 32.0) / 1.8) + ICE_POINT_K


def _bubble(i: Inputs) -> float:
    return i["kpa"] * 1e3 if "kpa" in i else bubble_pressure(i["refrigerant"], kelvin(i))


def _dew(i: Inputs) -> float:
    return i["kpa"] * 1e3 if "kpa" in i else dew_pressure(i["refrigerant"], kelvin(i))


def _liquid(i: Inputs) -> State:
    return saturated_liquid(i["refrigerant"], _bubble(i))


def _vapour(i: Inputs) -> State:
    return saturated_vapour(i["refrigerant"], _dew(i))


def _zero(i: Inputs) -> float:
    return _liquid({"refrigerant": i["refrigerant"], "c": i["zero_c"]}).enthalpy_j_per_kg


def _household(i: Inputs) -> float:
    limit = charge_limit_household(i["refrigerant"])
    assert limit is not None
    return limit * 1e3


SATURATION: dict[str, Callable[[Inputs], float]] = {
    "bubble_pressure_kpa": lambda i: _bubble(i) / 1e3,
    "bubble_pressure_psig": lambda i: (_bubble(i) - ATMOSPHERE_PA) / PSI,
    "dew_pressure_psig": lambda i: (_dew(i) - ATMOSPHERE_PA) / PSI,
    "boiling_point_c": lambda i: bubble_temperature(i["refrigerant"], i["kpa"] * 1e3) - ICE_POINT_K,
    "liquid_density": lambda i: _liquid(i).density_kg_per_m3,
    "vapour_density": lambda i: _vapour(i).density_kg_per_m3,
    "liquid_volume": lambda i: 1.0 / _liquid(i).density_kg_per_m3,
    "vapour_volume": lambda i: 1.0 / _vapour(i).density_kg_per_m3,
    "latent_heat_kj": lambda i: latent_heat(i["refrigerant"], _bubble(i)) / 1e3,
    "liquid_enthalpy_kj": lambda i: _liquid(i).enthalpy_j_per_kg / 1e3,
    "vapour_enthalpy_kj": lambda i: _vapour(i).enthalpy_j_per_kg / 1e3,
    "vapour_entropy_kj": lambda i: _vapour(i).entropy_j_per_kg_k / 1e3,
    "liquid_enthalpy_above": lambda i: (_liquid(i).enthalpy_j_per_kg - _zero(i)) / 1e3,
    "vapour_enthalpy_above": lambda i: (_vapour(i).enthalpy_j_per_kg - _zero(i)) / 1e3,
    "liquid_viscosity": lambda i: viscosity_liquid(i["refrigerant"], kelvin(i)) * 1e3,
    "vapour_viscosity": lambda i: viscosity_vapour(i["refrigerant"], kelvin(i)) * 1e6,
    "surface_tension": lambda i: surface_tension(i["refrigerant"], kelvin(i)) * 1e3,
    "critical_c": lambda i: fluid_of(i["refrigerant"]).critical_k - ICE_POINT_K,
    "critical_mpa": lambda i: fluid_of(i["refrigerant"]).critical_pressure_pa / 1e6,
    "station_pressure_hpa": lambda i: station_pressure(i["m"]) / 100,
    "station_pressure_inhg": lambda i: station_pressure(i["ft"] * 0.3048) / INCH_OF_MERCURY,
}

LIMITS: dict[str, Callable[[Inputs], float]] = {
    "rcl_g_per_m3": lambda i: (refrigerant_named(i["refrigerant"]).rcl_kg_per_m3 or 0.0) * 1e3,
    "rcl_charge_lb": lambda i: charge_for_room(i["refrigerant"], i["ft3"] * CUBIC_FOOT) / POUND,
    "ppm_g_per_m3": lambda i: mass_per_volume(i["refrigerant"], i["ppm"]) * 1e3,
    "household_g": _household,
    "floor_charge_kg": lambda i: charge_for_floor(i["refrigerant"], i["m2"], i["m"]),
    "split_charge_kg": lambda i: charge_ceiling_split(i["refrigerant"]),
    "safe_share": lambda _i: SAFE_SHARE,
}

FUNCTIONS = {**SATURATION, **LIMITS}
