"""Vapour pressure of water and of ice, for vacuum work.

Above the triple point the values are CoolProp's (IAPWS-95). Below it water is ice, and the sublimation equation of
IAPWS R14-08 is worked out here.
"""

from __future__ import annotations

import math
from functools import lru_cache

from coldwright.errors import InputError

TRIPLE_K = 273.16
TRIPLE_PA = 611.657
LEAST_K = 50.0
CRITICAL_K = 647.096
_CRITICAL_PA = 22.064e6
_A = (-0.212144006e2, 0.273203819e2, -0.610598130e1)
_B = (0.333333333e-2, 0.120666667e1, 0.170333333e1)


def water_vapour_pressure(temperature_k: float) -> float:
    r"""Pressure at which vapour stands over water, or over ice below 0.01 °C.

    .. math:: \ln (p / p_t) = \theta^{-1} \sum a_i \theta^{b_i}, \quad \theta = T / T_t \quad \text{(ice)}

    Parameters
    ----------
    temperature_k : float
        Temperature of the water or the ice, 50 K to the critical point [K]

    Returns
    -------
    float
        Absolute pressure [Pa]

    Raises
    ------
    InputError
        If the temperature is outside these bounds.

    References
    ----------
    .. [1] IAPWS R14-08(2011), *Release on the Pressure along the Melting and Sublimation Curves of Ordinary Water
       Substance*, equation 6 (from memory; tested against two independent programs).

    Examples
    --------
    >>> round(water_vapour_pressure(273.15 - 24.48) / 0.133322)
    500
    """
    if not LEAST_K <= temperature_k <= CRITICAL_K:
        slip = ". Was it typed in °C?" if -60.0 <= temperature_k < LEAST_K else ""
        raise InputError(
            f"the temperature of the water is {temperature_k:g} K; "
            f"it must be {LEAST_K:g} K to {CRITICAL_K:g} K, its critical point{slip}"
        )
    return _over_ice(temperature_k) if temperature_k < TRIPLE_K else _over_liquid(temperature_k)


def water_boiling_temperature(pressure_pa: float) -> float:
    """Temperature at which water boils, or ice turns to vapour, under a pressure.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, above zero, up to the critical point [Pa]

    Returns
    -------
    float
        Temperature; below 0.01 °C it is that of ice [K]

    Raises
    ------
    InputError
        If the pressure is outside these bounds.
    """
    least = _over_ice(LEAST_K)
    if not least <= pressure_pa <= _CRITICAL_PA:
        raise InputError(
            f"the pressure is {pressure_pa:g} Pa; water boils at {least:.2g} Pa to {_CRITICAL_PA:.4g} Pa absolute. "
            "Was it a gauge pressure?"
        )
    if pressure_pa >= TRIPLE_PA:
        from CoolProp.CoolProp import PropsSI

        return float(PropsSI("T", "P", pressure_pa, "Q", 0, "Water"))
    low, high = LEAST_K, TRIPLE_K
    while high - low > 1e-9 * high:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _over_ice(middle) < pressure_pa else (low, middle)
    return 0.5 * (low + high)


def _over_ice(temperature_k: float) -> float:
    theta = temperature_k / TRIPLE_K
    return TRIPLE_PA * math.exp(sum(a * theta**b for a, b in zip(_A, _B, strict=True)) / theta)


@lru_cache(maxsize=256)
def _over_liquid(temperature_k: float) -> float:
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI("P", "T", temperature_k, "Q", 0, "Water"))
