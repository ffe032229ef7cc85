"""What is refused at the door, each with the thing, the rule and the likely slip."""

from __future__ import annotations

import math

import pytest

from coldwright.errors import InputError
from coldwright.sealed_system.service.inputs import check_charge, check_positive, check_pressure, check_temperature

ICE = 273.15


@pytest.mark.parametrize(
    ("kelvin", "message"),
    [
        (ICE + 200.0, r"the room is 200 °C; .*-50 °C and 70 °C.*decimal point"),
        (ICE + 95.0, r"the room is 95 °C; .*Was it 95 °F, which is 35 °C"),
        (25.0, r"Was it 25 °C, typed where kelvin"),
        (math.nan, r"the room is nan"),
    ],
)
def test_a_temperature_outside_service_work(kelvin, message):
    """200 °C, °F for °C, °C for kelvin, and no number at all."""
    with pytest.raises(InputError, match=message):
        check_temperature("the room", kelvin)


@pytest.mark.parametrize(
    ("pascal", "message"),
    [
        (-20e3, r"the test pressure is -20 kPa absolute.*gauge"),
        (150e5, r"at most 60 bar. Was it 150 psi, which is 10.3 bar"),
        (10.0, r"Was it 10 bar or psi, typed where pascal"),
        (math.nan, r"absolute pressure is above zero"),
    ],
)
def test_a_pressure_outside_service_work(pascal, message):
    """Negative, psi taken for bar, bar typed for pascal, no number."""
    with pytest.raises(InputError, match=message):
        check_pressure("the test pressure", pascal)


@pytest.mark.parametrize(
    ("kg", "message"),
    [
        (-0.08, r"the charge is -80 g; a charge is above zero"),
        (120.0 * 0.028349523125, r"the charge is 3401.9 g; .*at most 2268 g. Was it 120 g, taken for ounces"),
        (0.0035, r"the charge is 3.5 g; .*Was it 3.5 oz, which is 99.2 g"),
        (80.0, r"Was it 80 g, typed where kilograms"),
        (math.nan, r"a charge is above zero"),
    ],
)
def test_a_charge_no_small_unit_holds(kg, message):
    """Negative, grams taken for ounces and the other way, grams typed for kilograms, no number."""
    with pytest.raises(InputError, match=message):
        check_charge("the charge", kg)


def test_what_service_work_meets_passes():
    """Edges of each range are taken."""
    for kelvin in (ICE - 50.0, ICE + 70.0):
        check_temperature("the room", kelvin)
    for pascal in (1000.0, 60e5):
        check_pressure("the pressure", pascal)
    for kg in (0.010, 5 * 0.45359237):
        check_charge("the charge", kg)


def test_infinity_is_not_positive_enough():
    """Infinity and nan are refused with the unit and the slip."""
    with pytest.raises(InputError, match=r"the volume is inf m³; it must be above zero and finite. Was it L\?"):
        check_positive("the volume", math.inf, "m³", "Was it L?")
