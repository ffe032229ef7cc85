"""Limits of rooms and appliances: by hand, by their defining property, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import NAMES, refrigerant_named
from coldwright.refrigerants.limits import (
    RELEASE_HEIGHTS_M,
    SAFE_SHARE,
    charge_ceiling_split,
    charge_for_floor,
    charge_for_room,
    charge_free_of_room,
    charge_limit_household,
    concentration,
    mass_per_volume,
    room_for_charge,
    share_of_flammable_limit,
)

BURNS = [name for name in NAMES if refrigerant_named(name).is_flammable]
SAFE = [name for name in NAMES if name not in BURNS]


@given(st.sampled_from(BURNS), st.floats(0.001, 5.0), st.floats(0.05, 1.0))
def test_the_least_room_comes_to_the_share(name, mass, share):
    """In the least room for a charge a full leak comes to just the share of the limit that was asked."""
    room = room_for_charge(name, mass, share)
    assert share_of_flammable_limit(name, mass, room) == pytest.approx(share, rel=1e-12)


def test_a_household_charge_of_isobutane_by_hand():
    """150 g of R-600a: 3.5 m³ at the limit of 43 g/m³, 14 m³ at a quarter of it; in 30 m³ it is 5 g/m³, 12 %."""
    assert room_for_charge("R-600a", 0.150, 1.0) == pytest.approx(150 / 43, rel=1e-12)
    assert room_for_charge("R-600a", 0.150) == pytest.approx(4 * 150 / 43, rel=1e-12)
    assert concentration(0.150, 30.0) == pytest.approx(0.005, rel=1e-12)
    assert share_of_flammable_limit("R-600a", 0.150, 30.0) == pytest.approx(5 / 43, rel=1e-12)
    assert SAFE_SHARE == 0.25


@pytest.mark.parametrize("name", NAMES)
def test_household_limit_is_for_what_burns(name):
    """150 g for classes 2L, 2 and 3; class 1 has no limit in that rule."""
    assert charge_limit_household(name) == (0.150 if name in BURNS else None)


@given(st.sampled_from(NAMES), st.floats(1.0, 1000.0))
def test_a_room_twice_as_large_takes_twice_the_charge(name, volume):
    """The charge by the RCL grows with the volume, and its concentration is the RCL."""
    charge = charge_for_room(name, volume)
    assert charge_for_room(name, 2 * volume) == pytest.approx(2 * charge, rel=1e-12)
    assert charge / volume == pytest.approx(refrigerant_named(name).rcl_kg_per_m3, rel=1e-12)


@pytest.mark.parametrize("name", ["R-600a", "R-290"])
def test_the_rcl_of_a_hydrocarbon_is_a_quarter_of_its_flammable_limit(name):
    """ASHRAE 34 sets the RCL of what burns at no more than a quarter of the LFL (rule from memory); 12 % for rounding.

    R-600a has 43 g/m³ by ISO 817 and 38 g/m³ by ASHRAE 34; the RCL is a quarter of the latter.
    """
    found = refrigerant_named(name)
    assert found.rcl_kg_per_m3 == pytest.approx(0.25 * 0.038, rel=0.02)
    assert found.rcl_kg_per_m3 <= 0.25 * found.lfl_kg_per_m3 * 1.001


@given(st.sampled_from(BURNS), st.floats(1.0, 200.0), st.sampled_from(sorted(RELEASE_HEIGHTS_M.values())))
def test_four_times_the_floor_takes_twice_the_charge(name, floor, height):
    """The formula grows with the root of the floor and with the height of the leak."""
    charge = charge_for_floor(name, floor, height)
    assert charge_for_floor(name, 4 * floor, height) == pytest.approx(2 * charge, rel=1e-12)
    assert charge_for_floor(name, floor, 2 * height) == pytest.approx(2 * charge, rel=1e-12)


def test_free_charge_by_hand():
    """4 m³ of R-290 at 38 g/m³ are 152 g; 6 m³ of R-32 at 307 g/m³ are 1.842 kg; 26 m³ of R-290 are 988 g."""
    assert charge_free_of_room("R-290") == pytest.approx(0.152, rel=1e-12)
    assert charge_free_of_room("R-32") == pytest.approx(1.842, rel=1e-12)
    assert charge_ceiling_split("R-290") == pytest.approx(0.988, rel=1e-12)


def test_pure_vapour_by_hand():
    """A million ppm is the vapour's own density as an ideal gas: R-290, 44.1 g/mol, 24.465 L/mol: 1.802 kg/m³."""
    assert mass_per_volume("R-290", 1e6) == pytest.approx(44.0956 / 24.4654, rel=1e-4)
    assert mass_per_volume("R-290", 0.0) == 0.0


@pytest.mark.parametrize("name", SAFE)
def test_what_does_not_burn_has_no_flammable_limit(name):
    """The message names the class and the limit that does hold."""
    for ask in (
        lambda: room_for_charge(name, 0.1),
        lambda: share_of_flammable_limit(name, 0.1, 10.0),
        lambda: charge_for_floor(name, 10.0),
        lambda: charge_free_of_room(name),
        lambda: charge_ceiling_split(name),
    ):
        with pytest.raises(InputError, match=rf"^{name} has no lower flammable limit: its safety class is A1.*RCL$"):
            ask()


@pytest.mark.parametrize("bad", [0.0, -0.1, 85.0, math.nan])
def test_grams_for_kilograms(bad):
    """85 g typed as 85 kg, and masses that cannot be, are refused with the likely slip."""
    with pytest.raises(InputError, match=rf"^the mass of refrigerant is {bad:g} kg; .*Was it in grams or ounces\?$"):
        concentration(bad, 30.0)
    with pytest.raises(InputError, match=rf"^the mass of refrigerant is {bad:g} kg"):
        room_for_charge("R-600a", bad)


@pytest.mark.parametrize("bad", [0.0, -1.0, 1e6, math.nan])
def test_litres_for_cubic_metres(bad):
    """A room that cannot be is refused with the likely slip."""
    with pytest.raises(InputError, match=r"^the volume of the room is .* m³; .*Was it in litres or cubic feet\?$"):
        concentration(0.1, bad)
    with pytest.raises(InputError, match=r"^the volume of the room is .* m³"):
        charge_for_room("R-134a", bad)


def test_other_values_that_cannot_be():
    """Floor, height, share and parts per million are refused by name."""
    with pytest.raises(InputError, match=r"^the floor is 0 m²; .*Was it in square feet\?$"):
        charge_for_floor("R-32", 0.0)
    with pytest.raises(InputError, match=r"^the height of the leak is 60 m; .*Was it in centimetres or feet\?$"):
        charge_for_floor("R-32", 10.0, 60.0)
    with pytest.raises(InputError, match=r"^the share of the limit is 25; it is above 0 .*Was it in percent\?$"):
        room_for_charge("R-600a", 0.1, 25.0)
    with pytest.raises(InputError, match=r"^the share is -1 ppm; it is from 0 to 1 000 000 ppm$"):
        mass_per_volume("R-600a", -1.0)
