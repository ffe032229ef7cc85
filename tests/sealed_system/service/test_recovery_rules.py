"""How much must be out before a system is opened."""

from __future__ import annotations

import pytest

from coldwright.errors import InputError
from coldwright.sealed_system.service.recovery_rules import (
    PressureClass,
    amount_to_recover,
    enough_recovered,
    evacuation_level,
    passive_allowed,
    pressure_class,
    share_to_recover,
)

POUND = 0.45359237


@pytest.mark.parametrize(
    ("refrigerant", "expected"),
    [
        ("R-134a", PressureClass.MEDIUM),
        ("R-12", PressureClass.MEDIUM),
        ("R-22", PressureClass.HIGH),
        ("R-404A", PressureClass.HIGH),
        ("R-410A", PressureClass.HIGH),
    ],
)
def test_class_of_common_refrigerants(refrigerant, expected):
    """The agency's lists name R-12 and R-134a medium, R-22, R-404A and R-410A high pressure (from memory)."""
    assert pressure_class(refrigerant) is expected


def test_vacuum_as_absolute_pressure_by_hand():
    """10 in. Hg below 29.9 in. Hg leaves 19.9 in. Hg, 67.39 kPa."""
    level = evacuation_level("R-134a", 20.0)

    assert level.inches_of_vacuum == 10.0
    assert level.absolute_pa == pytest.approx(67.39e3, abs=5.0)


def test_the_line_between_small_and_large():
    """200 lb counts as large, a pound less does not."""
    assert evacuation_level("R-134a", 200 * POUND).inches_of_vacuum == 15.0
    assert evacuation_level("R-134a", 199 * POUND).inches_of_vacuum == 10.0


@pytest.mark.parametrize(
    ("works", "new", "share"), [(True, True, 0.9), (False, True, 0.8), (True, False, 0.8), (False, False, 0.8)]
)
def test_share_by_compressor_and_machine(works, new, share):
    """Only a compressor that works with a machine made since 1993 asks for 90 % (from memory)."""
    assert share_to_recover(works, new) == share
    assert amount_to_recover(0.100, works, new) == pytest.approx(0.1 * share, rel=1e-12)


def test_either_share_or_vacuum_is_enough():
    """90 g of 100 g, or 4 in. Hg; 89 g with 3.9 in. Hg is neither."""
    assert enough_recovered(0.100, 0.090, 0.0, True)
    assert enough_recovered(0.100, 0.010, 4.0, True)
    assert not enough_recovered(0.100, 0.089, 3.9, True)
    assert enough_recovered(0.100, 0.089, 0.0, False)


def test_passive_up_to_fifteen_pounds():
    """15 lb may be recovered passively, a little more may not (from memory)."""
    assert passive_allowed(15 * POUND)
    assert not passive_allowed(15.01 * POUND)


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: amount_to_recover(-0.1, True), r"charge of a small appliance is -100 g"),
        (lambda: amount_to_recover(120 * 0.028349523125, True), r"Was it 120 g, taken for ounces"),
        (lambda: enough_recovered(0.1, 2.8, 0.0, True), r"recovered is 2800 g from a charge of 100 g.*ounces.*tare"),
        (lambda: enough_recovered(0.1, -0.01, 0.0, True), r"mass recovered is -10 g"),
        (lambda: enough_recovered(0.1, 0.05, 60.0, True), r"vacuum is 60 in. Hg.*Was it a pressure"),
        (lambda: pressure_class("R-999"), r"R-999"),
    ],
)
def test_bad_input_is_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
