"""Where a way in may be fitted, and what may be left in place (common practice, no source)."""

from __future__ import annotations

import pytest

from coldwright.errors import InputError
from coldwright.sealed_system.service.access_valves import (
    Contents,
    Fitting,
    Place,
    Spot,
    TubeMetal,
    may_fit,
    may_stay,
)

TUBE = Spot(Place.PROCESS_TUBE, TubeMetal.COPPER, 6.35e-3)


@pytest.mark.parametrize(
    ("fitting", "contents"),
    [
        (Fitting.CLAMP_ON_PIERCING, Contents.UNDER_PRESSURE),
        (Fitting.PIERCING_PLIERS, Contents.UNDER_PRESSURE),
        (Fitting.BRAZED_PIERCING, Contents.RECOVERED),
        (Fitting.QUICK_COUPLER, Contents.RECOVERED),
        (Fitting.BRAZED_STEM, Contents.RECOVERED),
    ],
)
def test_a_copper_process_tube_takes_each_in_its_turn(fitting, contents):
    """A 1/4 in. copper process tube on R-134a takes every fitting once the system is ready for it."""
    assert may_fit(fitting, TUBE, "R-134a", contents).allowed


@pytest.mark.parametrize(
    ("fitting", "spot", "refrigerant", "contents", "reason"),
    [
        (Fitting.CLAMP_ON_PIERCING, Spot(Place.CAPILLARY, TubeMetal.COPPER, 5e-3), "R-134a", 0, "capillary"),
        (Fitting.CLAMP_ON_PIERCING, Spot(Place.EVAPORATOR, TubeMetal.ALUMINIUM, 8e-3), "R-134a", 0, "thin"),
        (Fitting.CLAMP_ON_PIERCING, Spot(Place.SUCTION_LINE, TubeMetal.STEEL, 8e-3), "R-134a", 0, "steel"),
        (Fitting.CLAMP_ON_PIERCING, Spot(Place.SUCTION_LINE, TubeMetal.COPPER, 16e-3), "R-134a", 0, "4 mm to 10.5 mm"),
        (Fitting.PIERCING_PLIERS, Spot(Place.SUCTION_LINE, TubeMetal.COPPER, 8e-3, False), "R-134a", 0, "straight"),
        (Fitting.QUICK_COUPLER, Spot(Place.SUCTION_LINE, TubeMetal.COPPER, 8e-3), "R-134a", 1, "process tube only"),
        (Fitting.QUICK_COUPLER, TUBE, "R-134a", 0, "cut off"),
        (Fitting.BRAZED_STEM, TUBE, "R-134a", 0, "no flame on a system under pressure"),
        (Fitting.BRAZED_STEM, TUBE, "R-600a", 1, "purge with nitrogen"),
        (
            Fitting.BRAZED_STEM,
            Spot(Place.PROCESS_TUBE, TubeMetal.ALUMINIUM, 6e-3),
            "R-134a",
            1,
            "not brazed in the field",
        ),
    ],
)
def test_each_rule_forbids_alone(fitting, spot, refrigerant, contents, reason):
    """Where one rule is broken, the ruling is no, and names that rule and no other."""
    ruling = may_fit(fitting, spot, refrigerant, list(Contents)[contents])

    assert not ruling.allowed
    assert len(ruling.reasons) == 1
    assert reason in ruling.reasons[0]


def test_flammable_takes_a_flame_only_when_purged():
    """On R-600a a stem may be brazed on once the system is purged and the air tested."""
    assert not may_fit(Fitting.BRAZED_STEM, TUBE, "R-600a", Contents.RECOVERED).allowed
    assert may_fit(Fitting.BRAZED_STEM, TUBE, "R-600a", Contents.PURGED).allowed


@pytest.mark.parametrize("fitting", Fitting)
@pytest.mark.parametrize("refrigerant", ["R-134a", "R-600a"])
def test_what_may_stay(fitting, refrigerant):
    """Only what is brazed on may stay, and never with a flammable refrigerant."""
    brazed = fitting in (Fitting.BRAZED_STEM, Fitting.BRAZED_PIERCING)

    assert may_stay(fitting, refrigerant).allowed is (brazed and refrigerant == "R-134a")


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: Spot(Place.PROCESS_TUBE, TubeMetal.COPPER, 6.35), r"outside diameter of the tube is 6.35 m.*6.35 mm"),
        (lambda: Spot(Place.PROCESS_TUBE, TubeMetal.COPPER, -1e-3), r"outside diameter of the tube is -0.001 m"),
        (lambda: may_stay(Fitting.BRAZED_STEM, "R-999"), r"R-999"),
    ],
)
def test_bad_input_is_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
