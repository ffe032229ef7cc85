"""What tests/published/motor.toml asks of the motor model, by the names used there."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from typing import Any

from coldwright.electrical.motor import currents, field_impedances, running, slip_of, synchronous_speed
from coldwright.electrical.motor_curves import Starting, starting
from coldwright.electrical.motor_types import MotorParameters, capacitor_impedance

Inputs = dict[str, Any]


def motor(i: Inputs) -> MotorParameters:
    """A textbook's motor; it has no start winding, so that one is a copy of the run winding and never used."""
    return MotorParameters(
        run_ohm=i["r1"],
        run_leakage_ohm=i["x1"],
        rotor_ohm=i["r2"],
        rotor_leakage_ohm=i["x2"],
        magnetising_ohm=i["xm"],
        start_ohm=i["r1"],
        start_leakage_ohm=i["x1"],
        turns_ratio=1.0,
        frequency_hz=i["hz"],
        poles=i["poles"],
        inertia_kg_m2=1e-3,
        core_loss_w=i.get("core", 0.0),
        friction_w=i.get("friction", 0.0),
    )


def _field(i: Inputs) -> complex:
    """A field's impedance as Chapman prints it: before the halves are taken."""
    return 2.0 * field_impedances(motor(i), i["slip"])[i["field"] == "backward"]


def _starting(i: Inputs) -> Starting:
    """Impedances given as [R, X] or by the current they draw, [A, degrees]; µF or ohms in series."""
    found = []
    for name in ("run", "start"):
        if f"{name}_current" in i:
            amps, degrees = i[f"{name}_current"]
            found.append(i["volts"] / cmath.rect(amps, math.radians(degrees)))
        else:
            found.append(complex(*i[name]))
    run, start = found
    start += i.get("added_ohm", 0.0) - 1j * i.get("added_capacitive_ohm", 0.0)
    if "uf" in i:
        start += capacitor_impedance(i["uf"] * 1e-6, i["hz"])
    return starting(run, start, i["volts"])


def _ratio(i: Inputs) -> float:
    """Starting torque with the second start current over that with the first."""
    after = _starting({**i, "start_current": i["then"]}).torque_product
    return after / _starting(i).torque_product


def _degrees(value: complex) -> float:
    return math.degrees(cmath.phase(value))


FUNCTIONS: dict[str, Callable[[Inputs], float]] = {
    "field_resistance": lambda i: _field(i).real,
    "field_reactance": lambda i: _field(i).imag,
    "running_current": lambda i: abs(running(motor(i), i["volts"], i["slip"]).current),
    "running_current_angle": lambda i: _degrees(running(motor(i), i["volts"], i["slip"]).current),
    "running_power_factor": lambda i: running(motor(i), i["volts"], i["slip"]).power_factor,
    "running_input_w": lambda i: running(motor(i), i["volts"], i["slip"]).input_w,
    "forward_gap_w": lambda i: running(motor(i), i["volts"], i["slip"]).forward_gap_w,
    "backward_gap_w": lambda i: running(motor(i), i["volts"], i["slip"]).backward_gap_w,
    "mechanical_w": lambda i: running(motor(i), i["volts"], i["slip"]).mechanical_w,
    "shaft_w": lambda i: running(motor(i), i["volts"], i["slip"]).shaft_w,
    "shaft_torque": lambda i: running(motor(i), i["volts"], i["slip"]).shaft_torque,
    "efficiency_percent": lambda i: 100.0 * running(motor(i), i["volts"], i["slip"]).efficiency,
    "motor_rpm": lambda i: (1.0 - i["slip"]) * synchronous_speed(motor(i)) * 30.0 / math.pi,
    "motor_slip": lambda i: slip_of(motor(i), i["rpm"] * math.pi / 30.0),
    "no_load_power_factor": lambda i: math.cos(cmath.phase(currents(motor(i), 1.0, 0.0)[0])),
    "start_angle": lambda i: math.degrees(_starting(i).angle),
    "start_run_current": lambda i: abs(_starting(i).run_current),
    "start_run_current_angle": lambda i: _degrees(_starting(i).run_current),
    "start_start_current": lambda i: abs(_starting(i).start_current),
    "start_start_current_angle": lambda i: _degrees(_starting(i).start_current),
    "start_line_current": lambda i: abs(_starting(i).line_current),
    "start_line_current_angle": lambda i: _degrees(_starting(i).line_current),
    "start_torque_product": lambda i: _starting(i).torque_product,
    "start_torque_ratio": _ratio,
}
