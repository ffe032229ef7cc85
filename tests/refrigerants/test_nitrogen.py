"""Nitrogen as a real gas, against an independent virial equation, its own round trip and the ideal gas."""

from __future__ import annotations

import pytest
from chemicals.virial import BVirial_Tsonopoulos, CVirial_Orbey_Vera, Z_from_virial_density_form
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.refrigerants.nitrogen import nitrogen_density, nitrogen_pressure

CRITICAL = (126.192, 3395800.0, 0.0372)  # critical point and acentric factor of nitrogen (from memory)
CONSTANT, MOLAR_MASS = 8.314462618, 0.02801348


@pytest.mark.parametrize("kelvin", [263.15, 288.15, 300.0, 333.15])
@pytest.mark.parametrize("pressure", [2e5, 1e6, 4e6])
def test_density_against_a_virial_equation(kelvin, pressure):
    """Tsonopoulos and Orbey-Vera, as the library chemicals has them, give the same density within 0.15 %."""
    second = BVirial_Tsonopoulos(kelvin, *CRITICAL)
    third = CVirial_Orbey_Vera(kelvin, *CRITICAL)
    factor = Z_from_virial_density_form(kelvin, pressure, (second, third[0] if isinstance(third, tuple) else third))
    independent = pressure * MOLAR_MASS / (factor * CONSTANT * kelvin)

    assert nitrogen_density(pressure, kelvin) == pytest.approx(independent, rel=1.5e-3)


@given(pressure=st.floats(1e3, 15e6), kelvin=st.floats(210.0, 390.0))
def test_pressure_and_density_undo_each_other(pressure, kelvin):
    """The pressure of the density of a pressure is that pressure."""
    assert nitrogen_pressure(nitrogen_density(pressure, kelvin), kelvin) == pytest.approx(pressure, rel=1e-8)


def test_thin_nitrogen_is_an_ideal_gas():
    """At 100 Pa the ideal gas law holds to 1e-5: the equation of state carries the gas constant of 1986."""
    ideal = 100.0 * MOLAR_MASS / (CONSTANT * 293.15)

    assert nitrogen_density(100.0, 293.15) == pytest.approx(ideal, rel=1e-5)


def test_celsius_typed_for_kelvin_is_named():
    """20 °C typed where kelvin is asked for brings the question."""
    with pytest.raises(InputError, match=r"temperature of the nitrogen is 20 K.*Was it °C"):
        nitrogen_density(1e5, 20.0)


def test_a_pressure_of_zero_is_named():
    """An absolute pressure of zero asks whether it was a gauge pressure."""
    with pytest.raises(InputError, match=r"pressure of the nitrogen is 0 kPa absolute.*gauge"):
        nitrogen_density(0.0, 293.15)


def test_a_density_of_liquid_is_named():
    """800 kg/m³ is liquid nitrogen, and the message says so."""
    with pytest.raises(InputError, match=r"density of the nitrogen is 800 kg/m³.*liquid"):
        nitrogen_pressure(800.0, 293.15)
