"""Flow through a capillary tube: liquid, then boiling, then choked at its end; also two-phase or vapour at its inlet.

Homogeneous equilibrium at constant enthalpy. Momentum along the tube gives the length that a flow needs from the inlet
down to a pressure, L(P) = (2 D / f) [integral of rho dP / G² - ln(v / v_in)]; so each pressure P along the way has a
flow G(P) that would use up the tube's length just there, and the greatest of them down to the pressure outside is the
flow. Where the greatest lies above that pressure the tube is choked. Stoecker & Jones, ch. 13; friction after Churchill
1977.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from coldwright.refrigerants.kernels import (
    Tables,
    boiling_pressure,
    grid_pv,
    kernel,
    saturation,
    volume_ph,
)

NODES = 20
TURNS = 3  # of the friction factor with the flux
FIRST_FLUX = 3500.0  # kg/(m² s): only to begin the friction factor with
CHOKED_BELOW = 0.3  # of the pressure where boiling begins: the viscosity follows the outlet no further down
ENTRANCE = 1.5  # velocity heads lost at a sharp inlet with the speed gained there: 0.5 + 1


@kernel
def churchill(reynolds: float, roughness: float) -> float:
    """Darcy friction factor, laminar to rough turbulent (Churchill 1977).

    Parameters
    ----------
    reynolds : float
        Above zero [-]
    roughness : float
        Height of roughness over diameter [-]

    Returns
    -------
    float
        Friction factor after Darcy [-]
    """
    a = (2.457 * math.log(1.0 / ((7.0 / reynolds) ** 0.9 + 0.27 * roughness))) ** 16
    b = (37530.0 / reynolds) ** 16
    return 8.0 * ((8.0 / reynolds) ** 12 + 1.0 / (a + b) ** 1.5) ** (1.0 / 12.0)


@kernel
def capillary_flow(
    tables: Tables, diameter: float, length: float, roughness: float, p_in: float, h_in: float, p_out: float
) -> float:
    """Flow from the inlet's side to the outlet's; 0 where the pressures are equal.

    Parameters
    ----------
    tables : Tables
        Of the refrigerant [-]
    diameter, length : float
        Bore and length [m]
    roughness : float
        Height of roughness over diameter [-]
    p_in : float
        Pressure at the inlet, absolute, not below p_out [Pa]
    h_in : float
        Enthalpy at the inlet [J/kg]
    p_out : float
        Pressure outside, absolute [Pa]

    Returns
    -------
    float
        Flow [kg/s]
    """
    if p_in <= p_out * (1.0 + 1e-9):
        return 0.0
    area = 0.25 * math.pi * diameter * diameter
    inlet = saturation(tables, p_in)
    p_boil, v_in = p_in, inlet.liquid_v
    if h_in < inlet.liquid_h:
        p_boil = boiling_pressure(tables, p_in, h_in)
    else:
        v_in = volume_ph(tables, p_in, h_in)
    liquid_drop = (p_in - max(p_boil, p_out)) / v_in  # integral of rho dP over the liquid part
    flux = FIRST_FLUX
    if p_out >= p_boil:
        for _ in range(TURNS):
            friction = churchill(flux * diameter / inlet.liquid_mu, roughness) * length / (2.0 * diameter)
            flux = math.sqrt(liquid_drop / (friction + ENTRANCE))
        return flux * area
    ratio = (p_out / p_boil) ** (1.0 / NODES)
    drops = [0.0] * (NODES + 1)  # integral of rho dP from where boiling begins
    expansions = [0.0] * (NODES + 1)  # ln(v / v_in)
    pressure, before = p_boil, v_in
    for n in range(1, NODES + 1):
        lower = pressure * ratio
        s = saturation(tables, lower)
        x = (h_in - s.liquid_h) / (s.vapour_h - s.liquid_h)
        if x > 1.0:
            volume = grid_pv(tables, lower, h_in - s.vapour_h) / lower
        else:
            volume = s.liquid_v + x * (s.vapour_v - s.liquid_v)
        step = volume - before
        mean = step / math.log(volume / before) if abs(step) > 1e-9 * before else before
        drops[n] = drops[n - 1] + (pressure - lower) / mean
        expansions[n] = math.log(volume / v_in)
        pressure, before = lower, volume
    mu = _mixed_viscosity(tables, p_boil * math.sqrt(max(CHOKED_BELOW, p_out / p_boil)), h_in)
    for _ in range(TURNS):
        f_liquid = churchill(flux * diameter / inlet.liquid_mu, roughness)
        f_boiling = churchill(flux * diameter / mu, roughness)
        friction = f_boiling * length / (2.0 * diameter) + ENTRANCE
        flux = math.sqrt(_greatest(drops, expansions, liquid_drop * f_boiling / f_liquid, friction))
    return flux * area


@kernel
def _mixed_viscosity(tables: Tables, pressure: float, enthalpy: float) -> float:
    """Viscosity of a mixture whose shares by mass add up in their inverses (McAdams) [Pa s]."""
    s = saturation(tables, pressure)
    x = min(1.0, (enthalpy - s.liquid_h) / (s.vapour_h - s.liquid_h))
    return 1.0 / (x / s.vapour_mu + (1.0 - x) / s.liquid_mu)


@kernel
def _greatest(drops: Sequence[float], expansions: Sequence[float], liquid: float, friction: float) -> float:
    """Greatest of the squared fluxes at the nodes, without a jump between them [kg²/(m⁴ s²)]."""
    best = 0.0
    for n in range(NODES + 1):
        best = max(best, (drops[n] + liquid) / (expansions[n] + friction))
    return best
