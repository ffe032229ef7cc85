"""Published relations for capillaries and void, written from their sources; and what tests/published asks of ours."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from coldwright.refrigerants.coolprop import fluid_of
from coldwright.refrigerants.kernels import saturation
from coldwright.refrigerants.saturation import bubble_pressure, bubble_temperature
from coldwright.refrigerants.states import state_pt
from coldwright.refrigerants.table_cache import tables_of
from coldwright.sealed_system.capillary import capillary_flow
from coldwright.sealed_system.void_fraction import hughmark_share

ICE_POINT_K = 273.15
ROUGHNESS = 5e-4
COLD_K = 258.15  # of the evaporator that the tubes of the tests feed: far below where they choke
Inputs = dict[str, Any]


def tube_flow(name: str, bore: float, length: float, pressure: float, enthalpy: float) -> float:
    """Our flow through a tube into an evaporator at -15 °C [kg/s]."""
    return capillary_flow(tables_of(name), bore, length, ROUGHNESS, pressure, enthalpy, bubble_pressure(name, COLD_K))


def subcooled(name: str, pressure: float, subcooling: float) -> float:
    """Enthalpy of liquid below its bubble point [J/kg]."""
    return state_pt(name, pressure, bubble_temperature(name, pressure) - subcooling).enthalpy_j_per_kg


def ashrae_subcooled(name: str, bore: float, length: float, pressure: float, subcooling: float) -> float:
    """Wolf, Bittle & Pate 1995 (ASHRAE RP-762), in the ASHRAE Refrigeration Handbook; from memory [kg/s].

    Properties are those of saturation at the temperature of the inlet. The published case 7.3 confirms the form.
    """
    at = bubble_pressure(name, bubble_temperature(name, pressure) - subcooling)
    wet, dry, moving = (
        fluid_of(name).at_quality(at, 0.0),
        fluid_of(name).at_quality(at, 1.0),
        fluid_of(name).transport(at),
    )
    v_f, mu_f, mu_g = 1.0 / wet.density, moving.liquid_viscosity, moving.vapour_viscosity
    squared = (bore / (v_f * mu_f)) ** 2
    return (
        bore
        * mu_f
        * 1.8925
        * (length / bore) ** -0.484
        * (squared * (dry.enthalpy - wet.enthalpy)) ** -0.824
        * (squared * v_f * pressure) ** 1.369
        * (squared * wet.cp * subcooling) ** 0.0187
        * (wet.density / dry.density) ** 0.773
        * ((mu_f - mu_g) / mu_g) ** 0.265
    )


def ashrae_two_phase(name: str, bore: float, length: float, pressure: float, quality: float) -> float:
    """The same source for an inlet of quality 0.03 to 0.25; from memory [kg/s]."""
    wet, dry = fluid_of(name).at_quality(pressure, 0.0), fluid_of(name).at_quality(pressure, 1.0)
    moving = fluid_of(name).transport(pressure)
    v_f, mu_f, mu_g = 1.0 / wet.density, moving.liquid_viscosity, moving.vapour_viscosity
    squared = (bore / (v_f * mu_f)) ** 2
    return (
        bore
        * mu_f
        * 187.27
        * (length / bore) ** -0.635
        * (squared * (dry.enthalpy - wet.enthalpy)) ** -0.189
        * (squared * v_f * pressure) ** 0.645
        * quality**-0.163
        * (wet.density / dry.density) ** -0.213
        * ((mu_f - mu_g) / mu_g) ** -0.483
    )


def choi(name: str, bore: float, length: float, pressure: float, subcooling: float) -> float:
    """Choi, Kim & Chung, Applied Thermal Engineering 24 (2004) 29-41, as comments of a public code give it [kg/s].

    Properties of saturation at the inlet's pressure; its own saturation pressure; critical temperature in °C.
    """
    fluid = fluid_of(name)
    p_sat = bubble_pressure(name, bubble_temperature(name, pressure) - subcooling)
    wet, dry, moving = fluid.at_quality(pressure, 0.0), fluid.at_quality(pressure, 1.0), fluid.transport(pressure)
    mu_f, mu_g = moving.liquid_viscosity, moving.vapour_viscosity
    group = (
        0.5782e-4
        * ((pressure - p_sat) / fluid.critical_pressure_pa) ** -0.315
        * (subcooling / (fluid.critical_k - ICE_POINT_K)) ** 0.369
        * (length / bore) ** -0.344
        * (wet.density / dry.density) ** 0.034
        * ((mu_f - mu_g) / mu_g) ** 0.04
        * (moving.surface_tension / (bore * pressure)) ** -0.458
        * (wet.density * (dry.enthalpy - wet.enthalpy) / p_sat) ** 0.376
    )
    return group * (bore * 1e3) ** 2 * math.sqrt(wet.density * pressure * 1e-3) / 3600.0


def enthalpy_at(name: str, pressure: float, quality: float) -> float:
    """Enthalpy at a quality, in the tables' own saturation, beyond 0 and 1 too [J/kg]."""
    s = saturation(tables_of(name), pressure)
    return s.liquid_h + quality * (s.vapour_h - s.liquid_h)


def _capillary_kg_per_h(i: Inputs) -> float:
    pressure = i["inlet_mpa"] * 1e6
    enthalpy = subcooled(i["refrigerant"], pressure, i["subcooling"])
    return 3600.0 * tube_flow(i["refrigerant"], i["bore_mm"] * 1e-3, i["length"], pressure, enthalpy)


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "capillary_kg_per_h": _capillary_kg_per_h,
    "hughmark_share": lambda i: hughmark_share(i["z"]),
}
