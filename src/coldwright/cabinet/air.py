"""Temperatures of the cabinet's air and of what is in it: two nodes, as plain functions of numbers.

The transient of a sealed system calls `air_rates` thousands of times: it takes floats and a tuple of floats, can be
compiled, and checks nothing. `cabinet_numbers` of `coldwright.cabinet.cabinet` makes the tuple and checks it.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.kernels import kernel


class CabinetNumbers(NamedTuple):
    """What the rates of air and product need, all floats.

    Conductance of walls and gasket and of the air that doors let in [W/K]; heat made inside and latent heat of that air
    [W]; heat capacity of air with liner and shelves [J/K]; coupling of product to air [W/K]; heat capacity of the
    product above and below freezing [J/K], where it freezes [K], its latent heat [J] and the span below that in which
    it freezes [K]; what it gives off at 0 °C [W] and how many times as much at 10 K more.
    """

    walls_w_per_k: float
    door_w_per_k: float
    inside_w: float
    latent_w: float
    air_j_per_k: float
    coupling_w_per_k: float
    product_above_j_per_k: float
    product_below_j_per_k: float
    freezes_k: float
    freezing_j: float
    freezing_span_k: float
    respiration_w: float
    respiration_q10: float


@kernel
def heat_gain(air_k: float, room_k: float, heat: CabinetNumbers) -> float:
    """Heat that comes to the cabinet's air from the room and from inside; the product's is not in it.

    Parameters
    ----------
    air_k, room_k : float
        Temperatures of the cabinet's air and of the room [K]
    heat : CabinetNumbers
        The cabinet [-]

    Returns
    -------
    float
        Heat, the latent heat of moist air included [W]
    """
    return (heat.walls_w_per_k + heat.door_w_per_k) * (room_k - air_k) + heat.inside_w + heat.latent_w


@kernel
def product_capacity(product_k: float, heat: CabinetNumbers) -> float:
    """Heat that the product takes for each kelvin at a temperature; latent heat is spread over the freezing span.

    Parameters
    ----------
    product_k : float
        Temperature of the product [K]
    heat : CabinetNumbers
        The cabinet [-]

    Returns
    -------
    float
        Heat capacity [J/K]
    """
    if product_k >= heat.freezes_k:
        return heat.product_above_j_per_k
    if product_k >= heat.freezes_k - heat.freezing_span_k:
        return heat.product_below_j_per_k + heat.freezing_j / heat.freezing_span_k
    return heat.product_below_j_per_k


@kernel
def product_heat(product_k: float, heat: CabinetNumbers) -> float:
    """Heat held in the product, zero where it is about to freeze.

    Parameters
    ----------
    product_k : float
        Temperature of the product [K]
    heat : CabinetNumbers
        The cabinet [-]

    Returns
    -------
    float
        Heat [J]
    """
    above = product_k - heat.freezes_k
    if above >= 0.0:
        return heat.product_above_j_per_k * above
    frozen = min(1.0, -above / heat.freezing_span_k) if heat.freezing_span_k > 0.0 else 1.0
    return heat.product_below_j_per_k * above - heat.freezing_j * frozen


@kernel
def respiration(product_k: float, heat: CabinetNumbers) -> float:
    """Heat that the product gives off by itself.

    Parameters
    ----------
    product_k : float
        Temperature of the product [K]
    heat : CabinetNumbers
        The cabinet [-]

    Returns
    -------
    float
        Heat [W]
    """
    if heat.respiration_w <= 0.0:
        return 0.0
    return heat.respiration_w * heat.respiration_q10 ** ((product_k - ICE_POINT_K) / 10.0)


@kernel
def air_rates(
    air_k: float, product_k: float, room_k: float, q_evaporator_w: float, heat: CabinetNumbers
) -> tuple[float, float]:
    """Rates at which the temperatures of air and product change.

    Parameters
    ----------
    air_k, product_k, room_k : float
        Temperatures of the cabinet's air, of the product and of the room [K]
    q_evaporator_w : float
        Heat that the evaporator takes out, what condenses on it included [W]
    heat : CabinetNumbers
        The cabinet [-]

    Returns
    -------
    tuple of float
        Rates of the air and of the product; zero for a product of no heat capacity [K/s]
    """
    from_product = heat.coupling_w_per_k * (product_k - air_k)
    gain = heat_gain(air_k, room_k, heat)
    if heat.product_above_j_per_k <= 0.0:
        return (gain - q_evaporator_w) / heat.air_j_per_k, 0.0
    own = respiration(product_k, heat)
    air = (gain + from_product - q_evaporator_w) / heat.air_j_per_k
    return air, (own - from_product) / product_capacity(product_k, heat)


@kernel
def air_step(
    air_k: float, product_k: float, room_k: float, q_evaporator_w: float, heat: CabinetNumbers, step_s: float
) -> tuple[float, float]:
    """Temperatures of air and product after a step with a constant evaporator, by Runge and Kutta's fourth order.

    Parameters
    ----------
    air_k, product_k, room_k : float
        Temperatures at the beginning, and of the room [K]
    q_evaporator_w : float
        Heat that the evaporator takes out [W]
    heat : CabinetNumbers
        The cabinet [-]
    step_s : float
        Length of the step, below the shorter of `time_constants` [s]

    Returns
    -------
    tuple of float
        Temperatures of air and product [K]
    """
    half = 0.5 * step_s
    a1, p1 = air_rates(air_k, product_k, room_k, q_evaporator_w, heat)
    a2, p2 = air_rates(air_k + half * a1, product_k + half * p1, room_k, q_evaporator_w, heat)
    a3, p3 = air_rates(air_k + half * a2, product_k + half * p2, room_k, q_evaporator_w, heat)
    a4, p4 = air_rates(air_k + step_s * a3, product_k + step_s * p3, room_k, q_evaporator_w, heat)
    sixth = step_s / 6.0
    return air_k + sixth * (a1 + 2.0 * (a2 + a3) + a4), product_k + sixth * (p1 + 2.0 * (p2 + p3) + p4)


def time_constants(heat: CabinetNumbers) -> tuple[float, float]:
    """Shorter and longer time constant of the cabinet with its product above freezing.

    Parameters
    ----------
    heat : CabinetNumbers
        The cabinet [-]

    Returns
    -------
    tuple of float
        Time constants; the longer is inf for a product that nothing couples to the air, and both are the same for none
        at all [s]
    """
    leak = heat.walls_w_per_k + heat.door_w_per_k
    if heat.product_above_j_per_k <= 0.0:
        return heat.air_j_per_k / leak, heat.air_j_per_k / leak
    own = (leak + heat.coupling_w_per_k) / heat.air_j_per_k
    other = heat.coupling_w_per_k / heat.product_above_j_per_k
    half_sum = 0.5 * (own + other)
    product = leak * heat.coupling_w_per_k / (heat.air_j_per_k * heat.product_above_j_per_k)
    fast = half_sum + math.sqrt(half_sum * half_sum - product)
    return 1.0 / fast, fast / product if product > 0.0 else math.inf
