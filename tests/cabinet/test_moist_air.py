"""Moist air against IAPWS and CoolProp, limits by hand, and what is refused."""

from __future__ import annotations

import re

import pytest
from chemicals.iapws import iapws95_Psat
from CoolProp.HumidAirProp import HAPropsSI
from iapws._iapws import _Sublimation_Pressure

from coldwright.cabinet.moist_air import (
    air_density,
    air_enthalpy,
    dew_point,
    dry_air_density,
    humidity_ratio,
    saturation_pressure,
)
from coldwright.errors import InputError

STATES = [(c + 273.15, rh) for c in (-20.0, -5.0, 4.0, 16.0, 25.0, 32.0, 43.0) for rh in (0.2, 0.5, 0.9)]


@pytest.mark.parametrize("kelvin", [273.16, 278.15, 293.15, 303.15, 323.15])
def test_vapour_pressure_of_water(kelvin):
    """That of IAPWS-95 by the library `chemicals`, within 0.05 %."""
    assert saturation_pressure(kelvin) == pytest.approx(iapws95_Psat(kelvin), rel=5e-4)


@pytest.mark.parametrize("kelvin", [228.15, 243.15, 255.15, 268.15, 273.1])
def test_vapour_pressure_of_ice(kelvin):
    """That of IAPWS R14-08 by the library `iapws`, within 0.1 %."""
    assert saturation_pressure(kelvin) == pytest.approx(_Sublimation_Pressure(kelvin) * 1e6, rel=1e-3)


@pytest.mark.parametrize(("kelvin", "share"), STATES)
def test_moist_air_against_coolprop(kelvin, share):
    """Moisture, enthalpy and density of CoolProp's real moist air: 0.3 %, 0.15 kJ/kg and 0.1 %."""
    state = ("T", kelvin, "P", 101325.0, "R", share)
    moisture = humidity_ratio(kelvin, share)
    assert moisture == pytest.approx(HAPropsSI("W", *state), rel=3e-3)
    dry = HAPropsSI("H", "T", 273.15, "P", 101325.0, "W", 0.0)
    assert air_enthalpy(kelvin, moisture) == pytest.approx(HAPropsSI("H", *state) - dry, abs=250)
    assert air_density(kelvin, moisture) == pytest.approx((1 + moisture) / HAPropsSI("V", *state), rel=1e-3)


@pytest.mark.parametrize(("kelvin", "share"), [s for s in STATES if s[0] > 270])
def test_dew_point_against_coolprop(kelvin, share):
    """CoolProp's dew point, frost point below 0 °C, within 0.05 K."""
    assert dew_point(kelvin, share) == pytest.approx(HAPropsSI("D", "T", kelvin, "P", 101325.0, "R", share), abs=0.05)


def test_saturated_air_is_at_its_dew_point():
    """At 100 % the dew point is the temperature itself."""
    assert dew_point(293.15, 1.0) == pytest.approx(293.15, abs=1e-9)


def test_dry_air_by_hand():
    """Dry air at 0 °C and one atmosphere: 1.2923 kg/m³ (101325/(287.042 · 273.15)), no moisture, no heat."""
    assert dry_air_density(273.15, 0.0) == pytest.approx(1.2923, abs=5e-5)
    assert air_density(273.15, 0.0) == dry_air_density(273.15, 0.0)
    assert humidity_ratio(293.15, 0.0) == 0.0
    assert air_enthalpy(273.15, 0.0) == 0.0


def test_thin_air_holds_more_for_each_kilogram():
    """On a mountain of 80 kPa the same relative humidity is more water for each kilogram of dry air."""
    assert humidity_ratio(293.15, 0.5, 8e4) > 1.2 * humidity_ratio(293.15, 0.5)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: humidity_ratio(298.15, 60.0),
            "the relative humidity is 60; it must be from 0 to 1. Was it in %? 60 % is 0.6",
        ),
        (lambda: saturation_pressure(25.0), "the temperature of the water is 25 K (-248 °C); it must be from -50 °C"),
        (lambda: humidity_ratio(298.15, 0.5, 1013.25), "the pressure of the air is 1013.25 Pa; it must be from 50000"),
        (lambda: dew_point(298.15, 0.0), "the relative humidity is 0; it must be from 0.001 to 1"),
        (lambda: dew_point(233.15, 0.01), "the vapour pressure in the air is 0.128"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value and rule; per cent for a share is named."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()
