"""What sizes the values of a small plug-in cooler have, so that a typing error in its table is found and named.

The spans are wide: one-phase motors up to 1 kW of shaft power, on 120 V or 230 V (common practice, no source). They
find a decimal point that slipped or a wrong unit, and nothing finer.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from coldwright.errors import InputError
from coldwright.quantities.checks import is_number

Span = tuple[float, float, str]
WINDINGS: Mapping[str, Span] = {"run_ohm": (0.1, 200.0, "Ω"), "start_ohm": (0.1, 400.0, "Ω")}
CAPACITOR: Mapping[str, Span] = {
    "volts": (50.0, 1000.0, "V"),
    "loss_tangent": (1e-5, 1.0, ""),
    "leak_ohm": (1.0, math.inf, "Ω"),
    "bleed_ohm": (100.0, 1e8, "Ω"),
}
FAN: Mapping[str, Span] = {
    "watts": (0.5, 200.0, "W"),
    "amps": (0.005, 5.0, "A"),
    "winding_ohm": (1.0, 20e3, "Ω"),
    "stalled": (1.0, 5.0, ""),
}
SIZES: Mapping[str, Mapping[str, Span]] = {
    "motor": {
        **WINDINGS,
        "run_leakage_ohm": (0.1, 400.0, "Ω"),
        "rotor_ohm": (0.1, 400.0, "Ω"),
        "rotor_leakage_ohm": (0.1, 400.0, "Ω"),
        "magnetising_ohm": (1.0, 10e3, "Ω"),
        "start_leakage_ohm": (0.1, 1000.0, "Ω"),
        "turns_ratio": (0.2, 5.0, ""),
        "inertia_kg_m2": (1e-5, 0.1, "kg·m²"),
        "core_loss_w": (0.01, 300.0, "W"),
        "friction_w": (0.01, 300.0, "W"),
    },
    "nameplate": {
        **WINDINGS,
        "rated_w": (5.0, 1100.0, "W"),
        "rated_amps": (0.1, 25.0, "A"),
        "locked_rotor_amps": (0.3, 150.0, "A"),
    },
    "load": {
        "equal_nm": (1e-3, 20.0, "N·m"),
        "working_nm": (1e-3, 20.0, "N·m"),
        "build_s": (0.1, 3600.0, "s"),
        "equalise_s": (0.1, 3600.0, "s"),
    },
    "relay": {
        "pick_up_a": (0.2, 100.0, "A"),
        "drop_out_a": (0.1, 100.0, "A"),
        "coil_ohm": (1e-3, 20.0, "Ω"),
        "coil_inductance_h": (1e-6, 0.1, "H"),
    },
    "potential_relay": {
        "pick_up_v": (30.0, 800.0, "V"),
        "drop_out_v": (5.0, 600.0, "V"),
        "coil_ohm": (100.0, 100e3, "Ω"),
        "coil_inductance_h": (0.01, 1000.0, "H"),
        "continuous_v": (50.0, 1000.0, "V"),
    },
    "ptc": {
        "cold_ohm": (0.5, 500.0, "Ω"),
        "switch_c": (40.0, 250.0, "°C"),
        "steepness_per_k": (0.01, 2.0, "1/K"),
        "most_ohm": (100.0, 10e6, "Ω"),
        "heat_capacity_j_per_k": (0.05, 100.0, "J/K"),
        "conductance_w_per_k": (1e-3, 1.0, "W/K"),
    },
    "solid_state": {"on_time_s": (0.05, 20.0, "s"), "rest_time_s": (0.01, 3600.0, "s")},
    "overload": {
        "heater_ohm": (1e-3, 50.0, "Ω"),
        "trip_c": (40.0, 250.0, "°C"),
        "reset_c": (0.0, 200.0, "°C"),
        "heat_capacity_j_per_k": (0.05, 100.0, "J/K"),
        "conductance_w_per_k": (1e-3, 1.0, "W/K"),
    },
    "start_capacitor": {"uf": (5.0, 2000.0, "µF"), **CAPACITOR},
    "run_capacitor": {"uf": (0.5, 200.0, "µF"), **CAPACITOR},
    "board": {"bus_uf": (10.0, 10e3, "µF"), "bleed_ohm": (1e3, 1e8, "Ω"), "watts": (1.0, 1100.0, "W")},
}
PLAIN_SIZES: Mapping[str, Span] = {
    "lamp_w": (0.1, 200.0, "W"),
    "heater_w": (10.0, 2000.0, "W"),
    "inverter_pair_ohm": (0.1, 200.0, "Ω"),
}


def check_sizes(model: str, entry: Mapping[str, Any]) -> None:
    """Refuse a value that no small cooler has. What is no number above zero is left to the checks of its part.

    Parameters
    ----------
    model : str
        Model of the cooler, for the message [-]
    entry : mapping
        The table of the cooler [-]

    Raises
    ------
    InputError
        If a value lies outside its span; the message names the model, the key, its value and the span.
    """
    _check(model, "", entry, PLAIN_SIZES)
    for what, spans in SIZES.items():
        _check(model, f" of {what}", entry.get(what), spans)
    fans = entry.get("fans")
    for name, fan in fans.items() if isinstance(fans, Mapping) else ():
        _check(model, f" of {name}", fan, FAN)


def _check(model: str, what: str, table: object, spans: Mapping[str, Span]) -> None:
    if not isinstance(table, Mapping):
        return
    for key, (low, high, unit) in spans.items():
        value: Any = table.get(key)
        judged = is_number(value) and (value > 0 or unit == "°C")
        if judged and not low <= value <= high:
            raise InputError(
                f"{model}: {key}{what} is {value:g} {unit}".rstrip()
                + f"; small coolers have {low:g} to {high:g} {unit}".rstrip()
                + ". Is there a typing error, or another unit?"
            )
