"""What tests/published/cabinet.toml asks of the cabinet's models, by the names used there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coldwright.cabinet.checks import fahrenheit_k
from coldwright.cabinet.compartments import compartment
from coldwright.cabinet.food import Food, estimated_food, heat_to_cool
from coldwright.cabinet.food_safety import COLD_HOLDING_K, Safety, cooling_rule
from coldwright.cabinet.moist_air import (
    air_enthalpy,
    dew_point,
    dry_air_density,
    humidity_ratio,
    saturation_pressure,
)
from coldwright.cabinet.one_body import duty
from coldwright.cabinet.walls import Layer, u_value
from coldwright.quantities.constants import ICE_POINT_K

Inputs = dict[str, Any]
INCH, FOOT, POUND, BTU, RANKINE = 0.0254, 0.3048, 0.45359237, 1055.05585262, 5 / 9
PER_LB = BTU / POUND
NO_FILM = float("inf")
R_VAPOUR = 8.314462618 / 0.01801528


def _k(celsius: float) -> float:
    return celsius + ICE_POINT_K


def _layers(i: Inputs) -> list[Layer]:
    return [Layer(mm / 1e3, k) for mm, k in zip(i["mm"], i["k"], strict=True)]


def _wall_btu_day(i: Inputs) -> float:
    conductivity = i["k"] * BTU * INCH / (3600 * FOOT**2 * RANKINE)
    u = u_value([Layer(i["inches"] * INCH, conductivity)], NO_FILM, NO_FILM)
    return u * i["square_ft"] * FOOT**2 * i["fahrenheit"] * RANKINE * 86400 / BTU


def _air(f: float, percent: float) -> tuple[float, float]:
    kelvin = fahrenheit_k(f)
    return kelvin, humidity_ratio(kelvin, percent / 100)


def _enthalpy(i: Inputs) -> float:
    dry_at_zero_f = air_enthalpy(fahrenheit_k(0), 0.0)
    return (air_enthalpy(*_air(i["f"], i["percent"])) - dry_at_zero_f) / PER_LB


def _volume(i: Inputs) -> float:
    return POUND / dry_air_density(*_air(i["f"], i["percent"])) / FOOT**3


def _air_btu_ft3(i: Inputs) -> float:
    warm, cold = _air(i["f"], i["percent"]), _air(i["to_f"], i["to_percent"])
    return dry_air_density(*warm) * (air_enthalpy(*warm) - air_enthalpy(*cold)) * FOOT**3 / BTU


def _cool_btu(i: Inputs) -> float:
    per_lb_f = PER_LB / RANKINE
    food = Food(
        "food", i["above"] * per_lb_f, i["below"] * per_lb_f, i["latent"] * PER_LB, fahrenheit_k(i["freezes_f"])
    )
    one_kg = heat_to_cool(food, 1.0, fahrenheit_k(i["from_f"]), fahrenheit_k(i["to_f"]))
    return one_kg * i["lb"] * POUND / BTU


def _cool_j_per_kg(i: Inputs) -> float:
    food = Food("food", i["above"], i["below"], i["latent"], _k(i["freezes_c"]))
    return heat_to_cool(food, 1.0, _k(i["from_c"]), _k(i["to_c"]))


def _cooling_hours(i: Inputs) -> float:
    """Longest time, in steps of a minute, that still passes."""

    def passes(minutes: int) -> bool:
        end = minutes * 60.0
        if i["to_c"] == 21:
            times, celsius = (0.0, end, end + 3600.0), (57.0, 21.0, 5.0)
        else:
            times, celsius = (0.0, 3600.0, end), (57.0, 21.0, 5.0)
        return cooling_rule(times, [_k(c) for c in celsius]).safety is Safety.SAFE

    return max(minutes for minutes in range(61, 500) if passes(minutes)) / 60.0


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "cabinet_wall_flux": lambda i: u_value(_layers(i), i["inside"], i["outside"]) * i["kelvin"],
    "cabinet_wall_watts": lambda i: u_value(_layers(i), NO_FILM, NO_FILM) * i["square_m"] * i["kelvin"],
    "cabinet_duty_percent": lambda i: duty(i["load"], i["capacity"]) * 100,
    "cabinet_wall_btu_day": _wall_btu_day,
    "cabinet_enthalpy_btu_lb": _enthalpy,
    "cabinet_volume_ft3_lb": _volume,
    "cabinet_air_btu_ft3": _air_btu_ft3,
    "cabinet_cool_btu": _cool_btu,
    "cabinet_cool_j_per_kg": _cool_j_per_kg,
    "cabinet_estimate_above": lambda i: estimated_food("beef", i["water"]).above / 1e3,
    "cabinet_estimate_latent": lambda i: estimated_food("beef", i["water"]).latent / 1e3,
    "cabinet_dew_point_c": lambda i: dew_point(_k(i["c"]), i["percent"] / 100) - ICE_POINT_K,
    "cabinet_moisture_g": lambda i: humidity_ratio(_k(i["c"]), i["percent"] / 100) * 1e3,
    "cabinet_moisture_of_saturation": lambda i: i["share"] * humidity_ratio(_k(i["c"]), 1.0),
    "cabinet_vapour_density_g": lambda i: saturation_pressure(_k(i["c"])) / (R_VAPOUR * _k(i["c"])) * 1e3,
    "cabinet_cold_holding_f": lambda _i: (COLD_HOLDING_K - ICE_POINT_K) * 1.8 + 32,
    "cabinet_cooling_hours": _cooling_hours,
    "cabinet_compartment_factor": lambda i: compartment(i["kind"]).factor,
}
