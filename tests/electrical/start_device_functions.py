"""What tests/published/start_devices.toml asks of PTC and overload, by the names used there."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from coldwright.electrical.heating import where_zero
from coldwright.electrical.overload import Overload, calibrated
from coldwright.electrical.ptc import Ptc
from coldwright.quantities.constants import ICE_POINT_K

Inputs = dict[str, Any]
ROOM_K = 300.0
HOUR_S, MINUTE_S = 3600.0, 60.0


def body(capacity: float, conductance: float) -> Ptc:
    """A disc that is a body only: its switching plays no part."""
    return Ptc(5.0, 393.15, 0.16, 12000.0, capacity, conductance)


def _coil(i: Inputs) -> Ptc:
    return body(i["litres"] * i["kg_per_litre"] * i["specific"], i["surface_m2"] * i["dissipation"])


def _ball(i: Inputs) -> tuple[float, float]:
    """Heat capacity and conductance of a ball."""
    area, volume = math.pi * i["diameter_m"] ** 2, math.pi * i["diameter_m"] ** 3 / 6
    return i["density"] * volume * i["specific"], i["film"] * area


def _kelvin(i: Inputs) -> tuple[float, float, float]:
    start, end, around = (i[name] + ICE_POINT_K for name in ("from_c", "to_c", "around_c"))
    return start, end, around


def _temperature_after(i: Inputs) -> float:
    watts, seconds = i["final_rise"], i["time_constant_h"] * HOUR_S
    end = body(seconds, 1.0).heated(i["start_c"] + ICE_POINT_K, watts, i["hours"] * HOUR_S, i["room_c"] + ICE_POINT_K)
    return end - ICE_POINT_K


def _percent(i: Inputs) -> float:
    disc = body(i["capacity"], i["conductance"])
    start, room = i["from_c"] + ICE_POINT_K, i["room_c"] + ICE_POINT_K
    return 100.0 * (start - disc.heated(start, 0.0, i["capacity"] / i["conductance"], room)) / (start - room)


def _switch_ratio(i: Inputs) -> float:
    switch_k = i["switch_c"] + ICE_POINT_K
    disc = Ptc(i["cold_ohm"], switch_k, i["steepness"], i["most_ohm"], 1.7, 0.022)
    return disc.resistance(switch_k) / i["cold_ohm"]


def _motor(rise: float, minutes: float, constant_share: float) -> tuple[Overload, float]:
    """A motor as an overload that trips at its rated rise, 1 A for rated load; the constant loss warms its shell."""
    heater = (1.0 - constant_share) * rise
    motor = Overload(heater, ROOM_K + rise, ROOM_K + 1.0, minutes * MINUTE_S, 1.0, shell_share=1.0)
    return motor, ROOM_K + constant_share * rise


def _minutes_to_trip(i: Inputs) -> float:
    motor, shell_k = _motor(i["rise"], i["time_constant_min"], i["constant_share"])
    return motor.trip_time(i["load"], ROOM_K, shell_k, ROOM_K) / MINUTE_S


def _load_that_trips(i: Inputs) -> float:
    """Best efficiency lies where the copper loss equals the constant loss."""
    constant_share = i["best"] ** 2 / (1.0 + i["best"] ** 2)
    motor, shell_k = _motor(i["rise"], i["time_constant_min"], constant_share)

    def late(load: float) -> float:
        return motor.trip_time(load, ROOM_K, shell_k, ROOM_K) - i["minutes"] * MINUTE_S

    return i["rated"] * where_zero(late, 1.0, 100.0)


def _load_from_two_rises(i: Inputs) -> float:
    """The rise goes with the square of the load, so both rises become loads that reach the second one."""
    trip_k = ROOM_K + i["rise_two_h"]
    points = [(i["rated"] * math.sqrt(i["rise_two_h"] / i["rise_one_h"]), HOUR_S), (i["rated"], 2 * HOUR_S)]
    motor = calibrated(points, trip_k, ROOM_K + 1.0, ROOM_K)
    hotter = Overload(
        motor.heater_ohm, ROOM_K + i["allowed"], motor.reset_k, motor.heat_capacity_j_per_k, motor.conductance_w_per_k
    )

    def late(load: float) -> float:
        return hotter.trip_time(load, ROOM_K, ROOM_K, ROOM_K) - HOUR_S

    return where_zero(late, i["rated"], 100.0 * i["rated"])


def _hours_to_reset(i: Inputs) -> float:
    start, end, around = _kelvin(i)
    capacity, conductance = _ball(i)
    ball = Overload(1.0, end + 1.0, end, capacity, conductance, shell_share=0.0)
    return ball.reset_time(start, around, around) / HOUR_S


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "time_to_one_e_th": lambda i: _coil(i).cooling_time(ROOM_K + math.e, ROOM_K + 1.0, ROOM_K),
    "final_rise": lambda i: _coil(i).heated(ROOM_K, i["watts"], 1e6, ROOM_K) - ROOM_K,
    "temperature_after": _temperature_after,
    "time_between": lambda i: body(*_ball(i)).cooling_time(*_kelvin(i)),
    "resistance_ratio_at_switch": _switch_ratio,
    "percent_after_one_constant": _percent,
    "minutes_to_trip": _minutes_to_trip,
    "load_that_trips": _load_that_trips,
    "load_from_two_rises": _load_from_two_rises,
    "hours_to_reset": _hours_to_reset,
}
