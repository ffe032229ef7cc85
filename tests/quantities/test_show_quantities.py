"""A quantity as it is shown."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.quantities import Kind, read, show


@pytest.mark.parametrize(
    ("value", "kind", "text"),
    [
        (3.1, Kind.RESISTANCE, "3.10 Ω"),
        (4200.0, Kind.RESISTANCE, "4.20 kΩ"),
        (999.4, Kind.RESISTANCE, "999 Ω"),
        (999.9, Kind.RESISTANCE, "1.00 kΩ"),
        (0.05, Kind.RESISTANCE, "50.0 mΩ"),
        (0.0, Kind.RESISTANCE, "0.00 Ω"),
        (-0.0, Kind.RESISTANCE, "0.00 Ω"),
        (1e20, Kind.RESISTANCE, "1.00e+11 GΩ"),
        (15e-6, Kind.CAPACITANCE, "15.0 µF"),
        (0.085, Kind.MASS, "85.0 g"),
        (268.15, Kind.TEMPERATURE, "-5.00 °C"),
        (273.15, Kind.TEMPERATURE, "0.00 °C"),
        (55.0, Kind.TEMPERATURE_DIFFERENCE, "55.0 K"),
        (-3e4, Kind.PRESSURE_GAUGE, "-30.0 kPa gauge"),
        (0.0, Kind.PRESSURE_GAUGE, "0.00 kPa gauge"),
        (0.35, Kind.RATIO, "0.350"),
    ],
)
def test_a_short_number_with_a_fitting_unit(value: float, kind: Kind, text: str):
    """Without a unit asked for, the prefix is picked after rounding, so that the number is short."""
    assert show(value, kind) == text


@pytest.mark.parametrize(
    ("value", "kind", "unit", "digits", "text"),
    [
        (4200.0, Kind.RESISTANCE, "ohm", 3, "4200 Ω"),
        (12345.0, Kind.RESISTANCE, "ohm", 3, "12300 Ω"),
        (310.15, Kind.TEMPERATURE, "F", 3, "98.6 °F"),
        (0.35, Kind.RATIO, "%", 2, "35 %"),
        (6894.757, Kind.PRESSURE_GAUGE, "psig", 4, "1.000 psig"),
        (-6894.757, Kind.PRESSURE_GAUGE, "inHg vac", 4, "2.036 inHg vac"),
    ],
)
def test_in_the_unit_and_with_the_digits_asked_for(value: float, kind: Kind, unit: str, digits: int, text: str):
    """A unit asked for is kept, under its usual spelling, with so many digits."""
    assert show(value, kind, unit, digits) == text


def test_rounding_dust_beside_the_zero_of_a_scale_is_zero():
    """0 °C stays 0 °C when the kelvins are off by their last bit."""
    assert show(math.nextafter(273.15, 300.0), Kind.TEMPERATURE) == "0.00 °C"


@settings(max_examples=300, deadline=None)
@given(st.floats(min_value=1e-9, max_value=1e9), st.sampled_from(Kind), st.integers(1, 15))
def test_what_is_shown_reads_back(value, kind, digits):
    """The reader reads what is shown, to half a unit of the last digit shown."""
    reading = read(show(value, kind, digits=digits), kind)
    shown_to = reading.step * 0.5
    if digits < 15 and "e" not in reading.number:
        whole = reading.number.lstrip("-").partition(".")[0]
        shown_to *= 10 ** max(0, len(whole) - digits)
    assert abs(reading.value - value) <= shown_to * (1 + 1e-9) + 1e-12 * value


@pytest.mark.parametrize("value", [math.inf, -math.inf, math.nan])
def test_only_a_finite_number_is_shown(value: float):
    """Over-range and no reading have their own words; they are not shown as numbers."""
    with pytest.raises(InputError, match=rf"^the resistance to show is {value}; only a finite number can be shown$"):
        show(value, Kind.RESISTANCE)


@pytest.mark.parametrize("digits", [0, 16, -1])
def test_digits_stay_in_their_range(digits: int):
    """No digits, or more than a float holds, are refused."""
    with pytest.raises(InputError, match=rf"^digits is {digits}; a number is shown with 1 to 15 digits$"):
        show(1.0, Kind.VOLTAGE, digits=digits)


def test_a_unit_of_another_kind_is_not_shown():
    """A resistance is not shown in volts."""
    with pytest.raises(InputError, match=r'^"V" is no unit of a resistance; use one of Ω'):
        show(1.0, Kind.RESISTANCE, "V")
