"""Thermostat: a sensor that lags behind the air, two temperatures, and a rest before it may start again.

All but the settings is plain functions of numbers, so that a compiled loop can call them.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from coldwright.cabinet.checks import MINUTES, check_between, check_temperature
from coldwright.errors import InputError
from coldwright.refrigerants.kernels import kernel

LEAST_DIFFERENCE_K = 0.3  # common practice, no source: closer than this a compressor starts too often
_HALVINGS = 50


class Thermostat(NamedTuple):
    """Sensor temperatures at which it cuts in and out [K], time constant of the sensor and rest after a stop [s].

    The rest is that of an electronic one; a bulb thermostat has none. All fields are plain numbers.
    """

    cut_in_k: float
    cut_out_k: float
    sensor_s: float = 60.0
    rest_s: float = 0.0


def check_thermostat(thermostat: Thermostat) -> None:
    """Refuse settings that no thermostat has.

    Parameters
    ----------
    thermostat : Thermostat
        The settings [-]

    Raises
    ------
    InputError
        If a value is outside its span, or it cuts in at or below where it cuts out.
    """
    check_temperature("the cut-in temperature", thermostat.cut_in_k, 223.15, 303.15)
    check_temperature("the cut-out temperature", thermostat.cut_out_k, 223.15, 303.15)
    check_between("the time constant of the sensor", thermostat.sensor_s, "s", 0.0, 3600.0)
    check_between("the rest of the compressor", thermostat.rest_s, "s", 0.0, 3600.0, MINUTES)
    difference = thermostat.cut_in_k - thermostat.cut_out_k
    if not difference >= LEAST_DIFFERENCE_K:
        raise InputError(
            f"the thermostat cuts in at {thermostat.cut_in_k - 273.15:.1f} °C and out at "
            f"{thermostat.cut_out_k - 273.15:.1f} °C; it must cut in at least {LEAST_DIFFERENCE_K:g} K above. "
            "Were they swapped?"
        )


@kernel
def sensor_rate(sensor_k: float, air_k: float, sensor_s: float) -> float:
    """Rate at which the sensor follows the air; zero for a sensor without lag, which is the air itself.

    Parameters
    ----------
    sensor_k, air_k : float
        Temperatures of the sensor and of the air round it [K]
    sensor_s : float
        Time constant [s]

    Returns
    -------
    float
        Rate [K/s]
    """
    return (air_k - sensor_k) / sensor_s if sensor_s > 0.0 else 0.0


@kernel
def sensor_after(sensor_k: float, air_k: float, air_rate: float, step_s: float, sensor_s: float) -> float:
    r"""Sensor temperature after a step in which the air changes in a straight line; exact for that.

    .. math:: T_s = T + r (t - \tau) + (T_{s0} - T_0 + r \tau) e^{-t/\tau}

    Parameters
    ----------
    sensor_k, air_k : float
        Temperatures of sensor and air at the beginning [K]
    air_rate : float
        Rate of the air [K/s]
    step_s, sensor_s : float
        Length of the step and time constant [s]

    Returns
    -------
    float
        Sensor temperature [K]
    """
    if sensor_s <= 0.0:
        return air_k + air_rate * step_s
    behind = sensor_k - air_k + air_rate * sensor_s
    return air_k + air_rate * (step_s - sensor_s) + behind * math.exp(-step_s / sensor_s)


@kernel
def calls(running: bool, sensor_k: float, stopped_s: float, thermostat: Thermostat) -> bool:
    """Whether the compressor is to run.

    Parameters
    ----------
    running : bool
        Whether it runs now [-]
    sensor_k : float
        Temperature of the sensor [K]
    stopped_s : float
        Time since it stopped; of no account while it runs [s]
    thermostat : Thermostat
        The settings [-]
    """
    if running:
        return sensor_k > thermostat.cut_out_k
    return sensor_k >= thermostat.cut_in_k and stopped_s >= thermostat.rest_s


@kernel
def next_threshold(running: bool, thermostat: Thermostat) -> float:
    """Sensor temperature at which it will switch next [K].

    Parameters
    ----------
    running : bool
        Whether the compressor runs now [-]
    thermostat : Thermostat
        The settings [-]
    """
    return thermostat.cut_out_k if running else thermostat.cut_in_k


@kernel
def crossing_time(
    before: float, rate_before: float, after: float, rate_after: float, step_s: float, threshold: float
) -> float:
    """When within a step a value passes a threshold, on the cubic through both ends with their rates.

    Parameters
    ----------
    before, rate_before : float
        Value at the beginning of the step, and its rate for each second [any]
    after, rate_after : float
        Value and rate at the end [any]
    step_s : float
        Length of the step [s]
    threshold : float
        The value to pass [any]

    Returns
    -------
    float
        Time from the beginning of the step, inf if the ends lie on one side [s]

    Notes
    -----
    Where the value stands on the threshold at the end of the step, that is the time. Errors are of the fourth power of
    the step, so a caller that steps afresh to this time switches where a much shorter step would.
    """
    if (before - threshold) * (after - threshold) > 0.0:
        return math.inf
    if before == threshold:
        return 0.0
    rising = before < threshold
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        x = 0.5 * (low + high)
        value = (
            before * (1.0 + 2.0 * x) * (1.0 - x) ** 2
            + rate_before * step_s * x * (1.0 - x) ** 2
            + after * x * x * (3.0 - 2.0 * x)
            + rate_after * step_s * x * x * (x - 1.0)
        )
        if (value < threshold) == rising:
            low = x
        else:
            high = x
    return step_s * 0.5 * (low + high)
