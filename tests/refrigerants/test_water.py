"""Vapour pressure of water and ice: independent programs, properties of the curve, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.refrigerants.water import (
    CRITICAL_K,
    TRIPLE_K,
    TRIPLE_PA,
    water_boiling_temperature,
    water_vapour_pressure,
)

MOLAR_GAS, MOLAR_MASS = 8.314462618, 0.018015268


@pytest.mark.parametrize("kelvin", [190.0, 210.0, 230.0, 248.7, 260.0, 273.0])
def test_ice_agrees_with_iapws(kelvin):
    """Against the package `iapws`, which has the sublimation equation of R14-08 from other hands (MPa there)."""
    from iapws._iapws import _Sublimation_Pressure

    assert water_vapour_pressure(kelvin) == pytest.approx(1e6 * _Sublimation_Pressure(kelvin), rel=1e-9)


@pytest.mark.parametrize("kelvin", [200.0, 230.0, 250.0, 270.0])
def test_ice_agrees_with_another_equation(kelvin):
    """Murphy and Koop 2005, equation 7 (from memory), an equation of its own: within 0.1 %."""
    other = math.exp(9.550426 - 5723.265 / kelvin + 3.53068 * math.log(kelvin) - 0.00728332 * kelvin)

    assert water_vapour_pressure(kelvin) == pytest.approx(other, rel=1e-3)


@pytest.mark.parametrize("celsius", [0.02, 5.0, 20.0, 37.0, 60.0, 100.0, 180.0])
def test_liquid_agrees_with_if97(celsius):
    """Against IF97 in the package `iapws`, a formulation of its own: within 0.05 % up to 180 °C."""
    from iapws.iapws97 import _PSat_T

    kelvin = 273.15 + celsius
    assert water_vapour_pressure(kelvin) == pytest.approx(1e6 * _PSat_T(kelvin), rel=5e-4)


@pytest.mark.parametrize("celsius", [1.0, 25.0, 80.0])
def test_boiling_temperature_agrees_with_chemicals(celsius):
    """Against the package `chemicals`, IAPWS-95: the way back gives the temperature."""
    from chemicals.iapws import iapws95_Psat

    assert water_boiling_temperature(iapws95_Psat(273.15 + celsius)) == pytest.approx(273.15 + celsius, abs=1e-4)


@given(st.floats(150.0, 640.0), st.floats(0.5, 5.0))
def test_there_and_back_and_always_rising(kelvin, step):
    """The boiling temperature at the vapour pressure is the temperature, and warmer water has more pressure."""
    pascal = water_vapour_pressure(kelvin)
    assert water_boiling_temperature(pascal) == pytest.approx(kelvin, rel=1e-6)
    assert water_vapour_pressure(kelvin + step) > pascal


def test_both_equations_meet_at_the_triple_point():
    """By definition: 273.16 K; R14-08 gives 611.657 Pa there, and the liquid comes to the same within 0.01 Pa."""
    assert water_vapour_pressure(TRIPLE_K - 1e-9) == pytest.approx(TRIPLE_PA, abs=1e-3)
    assert water_vapour_pressure(TRIPLE_K) == pytest.approx(TRIPLE_PA, abs=0.01)


def test_the_slope_is_the_heat_of_sublimation():
    """Clausius and Clapeyron: R T² d(ln p)/dT / M at -1 °C is 2.83 MJ/kg, the heat that ice needs (handbooks)."""
    kelvin, step = 272.15, 0.01
    slope = math.log(water_vapour_pressure(kelvin + step) / water_vapour_pressure(kelvin - step)) / (2 * step)

    assert MOLAR_GAS * kelvin**2 * slope / MOLAR_MASS == pytest.approx(2.834e6, rel=3e-3)


@pytest.mark.parametrize(
    ("kelvin", "message"),
    [
        (20.0, r"^the temperature of the water is 20 K; .* critical point\. Was it typed in °C\?$"),
        (-300.0, r"^the temperature of the water is -300 K; it must be 50 K to 647\.096 K, its critical point$"),
        (CRITICAL_K + 1, r"^the temperature of the water is 648\.096 K"),
        (math.nan, r"^the temperature of the water is nan K"),
    ],
)
def test_a_temperature_outside(kelvin, message):
    """The message names the temperature, the bounds and the likely slip."""
    with pytest.raises(InputError, match=message):
        water_vapour_pressure(kelvin)


@pytest.mark.parametrize("pascal", [-50.0, 0.0, math.nan, 3e7])
def test_a_pressure_outside(pascal):
    """The message names the pressure and asks whether it was a gauge pressure."""
    with pytest.raises(InputError, match=r"^the pressure is .* Pa; water boils at .* Was it a gauge pressure\?$"):
        water_boiling_temperature(pascal)
