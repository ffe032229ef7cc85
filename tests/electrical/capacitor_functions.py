"""What tests/published/capacitors.toml asks of the capacitor models, by the names used there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from coldwright.electrical.capacitor import (
    Capacitor,
    parallel,
    reactance,
    series,
    series_volts,
    stored_charge,
    stored_energy,
)
from coldwright.electrical.capacitor_discharge import (
    IN_ONE_MINUTE,
    MOST_COULOMB,
    MOST_JOULE,
    PLUG_PINS,
    charging_volts,
    time_to_fall,
    volts_left,
)
from coldwright.electrical.capacitor_rule import ToleranceClass
from coldwright.electrical.capacitor_sizing import (
    capacitor_voltage,
    most_torque_capacitance,
    quadrature_capacitance,
    start_sizes,
)
from coldwright.electrical.capacitor_tests import capacitance_under_load, loss_angle, loss_tangent
from coldwright.electrical.measured import Measured

Inputs = dict[str, Any]


def _farads(i: Inputs) -> list[float]:
    return [uf * 1e-6 for uf in i["uf"]]


def _windings(i: Inputs) -> tuple[complex, complex, float]:
    return complex(*i["run"]), complex(*i["start"]), i["hz"]


def _readings(i: Inputs) -> tuple[float, float, float]:
    """Watts, volts and amps, where a book gives µF and Hz in place of the amps."""
    return i["watts"], i["volts"], i["volts"] / reactance(i["uf"] * 1e-6, i["hz"])


def _esr(i: Inputs) -> float:
    return Capacitor(i["uf"] * 1e-6, i["volts"], loss_tangent(*_readings(i))).esr(i["hz"])


def _start_torque(i: Inputs) -> float:
    """With the capacitor for quadrature, as the book chooses it."""
    run, start, hertz = _windings(i)
    farads = np.array([quadrature_capacitance(run, start, hertz)])
    return float(start_sizes(run, start, i["volts"], hertz, farads).torque_product[0])


def _class(i: Inputs) -> tuple[float, float]:
    return ToleranceClass[i["class"]].band(i["uf"] * 1e-6)


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "capacitor_charging_volts": lambda i: charging_volts(i["supply"], i["uf"] * 1e-6, i["ohm"], i["seconds"]),
    "capacitor_time_to_fall": lambda i: time_to_fall(i["volts"], i["to"], i["uf"] * 1e-6, i["ohm"]),
    "capacitor_volts_left": lambda i: volts_left(i["volts"], i["uf"] * 1e-6, i["ohm"], i["seconds"]),
    "capacitor_energy": lambda i: stored_energy(i["uf"] * 1e-6, i["volts"]),
    "capacitor_charge": lambda i: stored_charge(i["uf"] * 1e-6, i["volts"]),
    "capacitor_series": lambda i: series(_farads(i)) * 1e6,
    "capacitor_series_then_parallel": lambda i: parallel([series(_farads(i)), i["beside"] * 1e-6]) * 1e6,
    "capacitor_series_volts": lambda i: series_volts(_farads(i), i["volts"])[i["which"]],
    "capacitor_reactance": lambda i: reactance(i["uf"] * 1e-6, i["hz"]),
    "capacitor_under_load": lambda i: (
        capacitance_under_load(Measured(i["volts"]), Measured(i["amps"]), Measured(i["hz"])).value * 1e6
    ),
    "capacitor_loss_angle": lambda i: loss_angle(*_readings(i)),
    "capacitor_esr": _esr,
    "capacitor_quadrature": lambda i: quadrature_capacitance(*_windings(i)) * 1e6,
    "capacitor_quadrature_ohm": lambda i: reactance(quadrature_capacitance(*_windings(i)), i["hz"]),
    "capacitor_start_torque": _start_torque,
    "capacitor_most_torque": lambda i: most_torque_capacitance(*_windings(i)) * 1e6,
    "capacitor_voltage_size": lambda i: abs(
        capacitor_voltage(i["supply"], complex(*i["start"]), i["uf"] * 1e-6, i["hz"])
    ),
    "capacitor_class_low": lambda i: _class(i)[0] * 1e6,
    "capacitor_class_high": lambda i: _class(i)[1] * 1e6,
    "capacitor_plug_volts": lambda _i: PLUG_PINS.volts / PLUG_PINS.seconds,
    "capacitor_minute_volts": lambda _i: IN_ONE_MINUTE.volts * 60.0 / IN_ONE_MINUTE.seconds,
    "capacitor_most_microcoulomb": lambda _i: MOST_COULOMB * 1e6,
    "capacitor_most_millijoule": lambda _i: MOST_JOULE * 1e3,
}
