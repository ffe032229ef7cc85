"""What our service functions give for each entry of tests/published/service.toml, in the unit that is printed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coldwright.refrigerants.nitrogen import nitrogen_density
from coldwright.sealed_system.service.cylinder import cylinder_volume, liquid_density
from coldwright.sealed_system.service.cylinder_heating import liquid_full_temperature
from coldwright.sealed_system.service.drier import Desiccant, drops
from coldwright.sealed_system.service.gas_flow import isothermal_flow
from coldwright.sealed_system.service.leak_rate import fit_line, student_95
from coldwright.sealed_system.service.recovery_rules import evacuation_level, share_to_recover
from coldwright.sealed_system.service.standing_pressure import GasLaw, expected_pressure

Inputs = dict[str, Any]
ICE_POINT_K = 273.15
POUND_KG = 0.45359237


def _sealed_gas(i: Inputs) -> float:
    found = expected_pressure(i["kpa"] * 1e3, i["at_c"] + ICE_POINT_K, i["to_c"] + ICE_POINT_K, GasLaw.IDEAL)
    return found / 1e3


def _second_virial(i: Inputs) -> float:
    """B from the density at 200 kPa: Z = 1 + B p / (R T) there."""
    pressure, temperature, constant = 2e5, i["kelvin"], 8.314462618
    molar_volume = 0.02801348 / nitrogen_density(pressure, temperature)
    return (molar_volume - constant * temperature / pressure) * 1e6


def _isothermal(i: Inputs) -> float:
    area = 3.141592653589793 / 4 * i["bore"] ** 2
    constant_times_temperature = i["inlet"] * 1e3 / i["density"]
    loss = i["factor"] * i["length"] / i["bore"]
    return isothermal_flow(i["inlet"] * 1e3, i["outlet"] * 1e3, constant_times_temperature, 1.0, loss, area)


def _evacuation(i: Inputs) -> float:
    level = evacuation_level(i["refrigerant"], i["lb"] * POUND_KG, machine_after_1993=i["new"])
    assert level.inches_of_vacuum is not None
    return level.inches_of_vacuum


def _liquid_full(i: Inputs) -> float:
    volume = cylinder_volume(10.0)
    return liquid_full_temperature(i["refrigerant"], i["filling"] * 10.0, volume) - ICE_POINT_K


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "sealed_gas_ideal": _sealed_gas,
    "nitrogen_density": lambda i: nitrogen_density(i["kpa"] * 1e3, i["at_c"] + ICE_POINT_K),
    "nitrogen_second_virial": _second_virial,
    "line_slope": lambda i: fit_line(i["x"], i["y"]).slope,
    "line_error": lambda i: fit_line(i["x"], i["y"]).standard_error,
    "student_95": lambda i: student_95(i["degrees"]),
    "isothermal_flow": _isothermal,
    "evacuation_inches": _evacuation,
    "share_to_recover": lambda i: share_to_recover(i["works"]) * 100,
    "liquid_full_c": _liquid_full,
    "cylinder_liquid_density": lambda i: liquid_density(i["refrigerant"], i["kelvin"]),
    "drops_of_a_gram": lambda _i: drops(1e-3),
    "most_water_of_sieve": lambda _i: Desiccant.SIEVE_3A.most_share * 100,
}
