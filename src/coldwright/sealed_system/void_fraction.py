"""How much of a tube is vapour where liquid and vapour flow together, and what a zone of it then weighs.

Zivi 1964 gives the void as a closed form of quality and the two densities, so its mean over a zone whose quality runs
evenly has one too: the plant uses it. Hughmark 1962 needs the flow as well; it is here for those who want to compare.
"""

from __future__ import annotations

import math
from itertools import pairwise

from coldwright.errors import InputError
from coldwright.refrigerants.kernels import kernel

HUGHMARK = (
    (1.3, 0.185),
    (1.5, 0.225),
    (2.0, 0.325),
    (3.0, 0.49),
    (4.0, 0.605),
    (5.0, 0.675),
    (6.0, 0.72),
    (8.0, 0.767),
    (10.0, 0.78),
    (15.0, 0.808),
    (20.0, 0.83),
    (40.0, 0.88),
    (70.0, 0.93),
    (130.0, 0.98),
)
"""Z and the share K_H of the homogeneous void fraction: Hughmark, Chem. Eng. Prog. 58 (1962) 62."""
GRAVITY = 9.80665
TURNS = 60


@kernel
def void_ratio(liquid: float, vapour: float) -> float:
    """Slip as Zivi has it: densities' ratio to the power 2/3, by which the liquid counts in the void fraction.

    Parameters
    ----------
    liquid, vapour : float
        Densities [kg/m³]

    Returns
    -------
    float
        Ratio [-]
    """
    return (vapour / liquid) ** (2.0 / 3.0)


@kernel
def void_sum(ratio: float, x: float) -> float:
    """Integral of Zivi's void fraction from quality 0 to x.

    Parameters
    ----------
    ratio : float
        From `void_ratio` [-]
    x : float
        Quality [-]

    Returns
    -------
    float
        Integral [-]
    """
    rest = 1.0 - ratio
    return x / rest - ratio / (rest * rest) * math.log((ratio + rest * x) / ratio)


@kernel
def mean_density(liquid: float, vapour: float, ratio: float, x_from: float, x_to: float) -> float:
    """Density over a zone whose quality runs evenly from one value to another.

    Parameters
    ----------
    liquid, vapour : float
        Densities [kg/m³]
    ratio : float
        From `void_ratio` [-]
    x_from, x_to : float
        Qualities at its ends [-]

    Returns
    -------
    float
        Mass over volume [kg/m³]
    """
    if abs(x_to - x_from) < 1e-6:
        void = x_from / (x_from + ratio * (1.0 - x_from)) if x_from > 0.0 else 0.0
    else:
        void = (void_sum(ratio, x_to) - void_sum(ratio, x_from)) / (x_to - x_from)
    return liquid + (vapour - liquid) * void


@kernel
def density_at(liquid: float, vapour: float, ratio: float, x: float) -> float:
    """Density at one quality.

    Parameters
    ----------
    liquid, vapour : float
        Densities [kg/m³]
    ratio : float
        From `void_ratio` [-]
    x : float
        Quality [-]

    Returns
    -------
    float
        Mass over volume [kg/m³]
    """
    return liquid + (vapour - liquid) * x / (x + ratio * (1.0 - x))


@kernel
def quality_of_mass(
    liquid: float, vapour: float, ratio: float, x_from: float, tube: float, line: float, mass: float, wet_end: float
) -> float:
    """Quality at a zone's end, at which tube and line behind it hold a mass; 1 where vapour is too much.

    Parameters
    ----------
    liquid, vapour : float
        Densities [kg/m³]
    ratio : float
        From `void_ratio` [-]
    x_from : float
        Quality at the other end of the tube [-]
    tube, line : float
        Volumes [m³]
    mass : float
        Refrigerant in both [kg]
    wet_end : float
        The wettest end that is meant [-]

    Returns
    -------
    float
        Quality [-]
    """
    dry, wet = 1.0, wet_end
    short = tube * mean_density(liquid, vapour, ratio, x_from, dry) + line * vapour - mass
    if short >= 0.0:
        return 1.0
    over = (
        tube * mean_density(liquid, vapour, ratio, x_from, wet) + line * density_at(liquid, vapour, ratio, wet) - mass
    )
    if over <= 0.0:
        return wet
    for n in range(40):
        # regula falsi after Illinois, in steps that alternate with halving while far away
        part = 0.5 if n % 3 == 2 else over / (over - short)
        x = wet + (dry - wet) * part
        gap = tube * mean_density(liquid, vapour, ratio, x_from, x) + line * density_at(liquid, vapour, ratio, x) - mass
        if abs(gap) < 1e-12 or dry - wet < 1e-12:
            return x
        if gap > 0.0:
            wet, over = x, gap
        else:
            dry, short = x, gap
    return 0.5 * (wet + dry)


def homogeneous_void(x: float, liquid: float, vapour: float) -> float:
    """Void fraction where both run at one speed.

    Parameters
    ----------
    x : float
        Quality [-]
    liquid, vapour : float
        Densities [kg/m³]

    Returns
    -------
    float
        Share of the tube's section that is vapour [1]
    """
    return x / (x + (1.0 - x) * vapour / liquid)


def hughmark_share(z: float) -> float:
    """Share of the homogeneous void fraction after Hughmark's table; its first and last value beyond the ends.

    Parameters
    ----------
    z : float
        Hughmark's number [-]

    Returns
    -------
    float
        K_H, straight between the printed points in ln Z [1]
    """
    if z <= HUGHMARK[0][0]:
        return HUGHMARK[0][1]
    for (z_low, k_low), (z_high, k_high) in pairwise(HUGHMARK):
        if z <= z_high:
            return k_low + (k_high - k_low) * math.log(z / z_low) / math.log(z_high / z_low)
    return HUGHMARK[-1][1]


def hughmark_void(
    x: float, liquid: float, vapour: float, flux: float, bore: float, liquid_mu: float, vapour_mu: float
) -> float:
    r"""Void fraction after Hughmark: a share of the homogeneous one that rises with the flow.

    .. math:: Z = \frac{Re^{1/6} Fr^{1/8}}{y_L^{1/4}}, \quad
       Re = \frac{D G}{\mu_L + \alpha (\mu_G - \mu_L)}, \quad Fr = \frac{1}{g D}\left(\frac{G x}{\rho_G \beta}\right)^2

    with the homogeneous void fraction β and y_L = 1 - β; the void fraction itself stands in Re [1]_.

    Parameters
    ----------
    x : float
        Quality, between 0 and 1 [-]
    liquid, vapour : float
        Densities [kg/m³]
    flux : float
        Flow over section [kg/(m² s)]
    bore : float
        Inside diameter [m]
    liquid_mu, vapour_mu : float
        Viscosities [Pa s]

    Returns
    -------
    float
        Share of the tube's section that is vapour [1]

    Raises
    ------
    InputError
        If the quality is not between 0 and 1, or a flow, bore or density is not above zero.

    References
    ----------
    .. [1] G. A. Hughmark, Chemical Engineering Progress 58 (1962) 62-65; the form of Z from memory.
    """
    if not 0.0 < x < 1.0:
        raise InputError(f"the quality is {x:g}; liquid and vapour flow together only between 0 and 1")
    if not min(liquid, vapour, flux, bore, liquid_mu, vapour_mu) > 0.0:
        raise InputError("densities, flow, bore and viscosities must all be above zero")
    even = homogeneous_void(x, liquid, vapour)
    froude = (flux * x / (vapour * even)) ** 2 / (GRAVITY * bore)
    void = even
    for _ in range(TURNS):
        reynolds = bore * flux / (liquid_mu + void * (vapour_mu - liquid_mu))
        share = hughmark_share(reynolds ** (1 / 6) * froude ** (1 / 8) / (1.0 - even) ** 0.25)
        void = 0.5 * (void + share * even)
    return void
