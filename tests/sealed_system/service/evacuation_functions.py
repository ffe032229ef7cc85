"""What tests/published/evacuation.toml asks, by the names used there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coldwright.quantities import Kind, in_unit, to_si
from coldwright.refrigerants.water import water_boiling_temperature, water_vapour_pressure
from coldwright.sealed_system.service.vacuum_flow import AIR, Tube, orifice_flow, tube_conductance
from coldwright.sealed_system.service.vacuum_system import diluted_share

Inputs = dict[str, Any]
ROOM_K = 293.15


def _micron(pascal: float) -> float:
    return in_unit(pascal, Kind.PRESSURE_ABSOLUTE, "micron")


def _pascal(microns: float) -> float:
    return to_si(microns, Kind.PRESSURE_ABSOLUTE, "micron")


def _boiling(i: Inputs) -> float:
    return water_boiling_temperature(_pascal(i["microns"]) if "microns" in i else i["pascal"])


def _litres(i: Inputs, mbar: float) -> float:
    """Litres a second of air at 20 °C through a tube given in cm, less what flows at no pressure if viscous alone."""
    tube = Tube(i["bore_cm"] / 100, i["length_cm"] / 100)
    return 1e3 * tube_conductance(tube, AIR, 100 * mbar, ROOM_K)


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "water_pressure_pa": lambda i: water_vapour_pressure(i["kelvin"]),
    "water_pressure_microns": lambda i: _micron(water_vapour_pressure(273.15 + i["celsius"])),
    "water_boiling_c": lambda i: _boiling(i) - 273.15,
    "water_boiling_f": lambda i: in_unit(_boiling(i), Kind.TEMPERATURE, "°F"),
    "diluted_share": lambda i: diluted_share((_pascal(i["microns"]),) * i["times"], _pascal(760_000)),
    "molecular_litres": lambda i: _litres(i, 0.0),
    "viscous_litres": lambda i: _litres(i, i["mbar"]),
    "choked_litres_per_cm2": lambda _i: 1e3 * orifice_flow(1e-4, 101_325.0, 0.0, ROOM_K) / 101_325.0,
    "microns_in_pa": lambda i: _pascal(i["microns"]),
}
