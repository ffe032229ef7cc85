"""Closed forms for a cabinet that is one body: duty, the time of a pull-down, seconds on and off of a cycle."""

from __future__ import annotations

import math

from coldwright.cabinet.checks import KILOWATTS, check_between, check_temperature
from coldwright.errors import InputError


def duty(load_w: float, capacity_w: float) -> float:
    """Share of the time that the compressor has to run; above 1 it cannot hold the temperature.

    Parameters
    ----------
    load_w : float
        Mean heat load [W]
    capacity_w : float
        Heat taken out while it runs [W]

    Returns
    -------
    float
        Load over capacity [1]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    check_between("the heat load", load_w, "W", 0.0, 20000.0, KILOWATTS)
    check_between("the capacity", capacity_w, "W", 1.0, 20000.0, KILOWATTS)
    return load_w / capacity_w


def cycle_times(
    cut_in_k: float, cut_out_k: float, warm_end_k: float, cold_end_k: float, time_constant_s: float
) -> tuple[float, float]:
    r"""Seconds running and seconds at rest of one cycle of a cabinet that is one body.

    .. math:: t_{on} = \tau \ln \frac{T_{in} - T_c}{T_{out} - T_c}, \quad
       t_{off} = \tau \ln \frac{T_w - T_{out}}{T_w - T_{in}}

    Parameters
    ----------
    cut_in_k, cut_out_k : float
        Temperatures between which it cycles [K]
    warm_end_k, cold_end_k : float
        Where it would settle at rest, and running for ever [K]
    time_constant_s : float
        Time constant of the cabinet [s]

    Returns
    -------
    tuple of float
        Time on, inf where it never cuts out, and time off, inf where it never cuts in [s]

    Raises
    ------
    InputError
        If a value is outside its span, or it cuts in at or below where it cuts out.
    """
    for name, kelvin in (("cut-in", cut_in_k), ("cut-out", cut_out_k)):
        check_temperature(f"the {name} temperature", kelvin, 223.15, 303.15)
    check_between("the time constant", time_constant_s, "s", 1.0, 1e7)
    if not cut_in_k > cut_out_k:
        raise InputError(
            f"the thermostat cuts in at {cut_in_k - 273.15:.1f} °C and out at {cut_out_k - 273.15:.1f} °C; it must cut "
            "in above. Were they swapped?"
        )
    on = off = math.inf
    if cold_end_k < cut_out_k:
        on = time_constant_s * math.log((cut_in_k - cold_end_k) / (cut_out_k - cold_end_k))
    if warm_end_k > cut_in_k:
        off = time_constant_s * math.log((warm_end_k - cut_out_k) / (warm_end_k - cut_in_k))
    return on, off


def lumped_time(
    start_k: float, wanted_k: float, room_k: float, ua_w_per_k: float, heat_j_per_k: float, net_capacity_w: float
) -> float:
    r"""Time for one body with constant capacity to cool to a temperature, inf if it never does.

    .. math:: t = \tau \ln \frac{T_0 - T_\infty}{T - T_\infty}, \quad \tau = C/UA, \quad T_\infty = T_r - Q/UA

    Parameters
    ----------
    start_k, wanted_k, room_k : float
        Temperatures at the beginning, to reach, and of the room [K]
    ua_w_per_k : float
        Conductance to the room [W/K]
    heat_j_per_k : float
        Heat capacity of all that cools [J/K]
    net_capacity_w : float
        Capacity less the heat made inside [W]

    Returns
    -------
    float
        Time [s]

    Raises
    ------
    InputError
        If a value is outside its span.
    """
    for name, kelvin in (("at the start", start_k), ("to reach", wanted_k), ("of the room", room_k)):
        check_temperature(f"the temperature {name}", kelvin)
    check_between("the conductance", ua_w_per_k, "W/K", 1e-3, 1000.0)
    check_between("the heat capacity", heat_j_per_k, "J/K", 1.0, 1e8)
    check_between("the capacity", net_capacity_w, "W", -20000.0, 20000.0)
    settles = room_k - net_capacity_w / ua_w_per_k
    if wanted_k >= start_k:
        return 0.0
    if wanted_k <= settles:
        return math.inf
    return heat_j_per_k / ua_w_per_k * math.log((start_k - settles) / (wanted_k - settles))
