"""The catalogue: nameplate spellings, names that are near, and its facts against outside sources."""

from __future__ import annotations

import threading
from fractions import Fraction

import pytest
from chemicals.identifiers import MW, CAS_from_any

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import NAMES, likely_meant, refrigerant_named, refrigerants, standing
from coldwright.refrigerants.coolprop import fluid_of
from coldwright.refrigerants.limits import mass_per_volume

PURE = [each.name for each in refrigerants() if not each.is_blend]
CAS = {
    "R-134a": "811-97-2",
    "R-600a": "75-28-5",
    "R-290": "74-98-6",
    "R-12": "75-71-8",
    "R-22": "75-45-6",
    "R-152a": "75-37-6",
    "R-32": "75-10-5",
    "R-1234yf": "754-12-1",
}
PART_MASSES = {"R-32": 52.024, "R-125": 120.021, "R-134a": 102.032, "R-143a": 84.041}  # g/mol, sums of atomic masses


@pytest.mark.parametrize(
    ("spelling", "name"),
    [
        ("R-134a", "R-134a"),
        ("R134a", "R-134a"),
        ("r 134 A", "R-134a"),
        ("HFC-134a", "R-134a"),
        ("134a", "R-134a"),
        ("r600a", "R-600a"),
        ("HC-600a", "R-600a"),
        ("Isobutane", "R-600a"),
        ("iso-butane", "R-600a"),
        ("propane", "R-290"),
        ("CFC-12", "R-12"),
        ("HCFC 22", "R-22"),
        ("R404A", "R-404A"),
        ("R404a", "R-404A"),
        ("HFO-1234YF", "R-1234yf"),
        ("  R-32 ", "R-32"),
    ],
)
def test_nameplate_spellings(spelling, name):
    """A nameplate's way of writing a refrigerant is understood."""
    assert refrigerant_named(spelling).name == name


def test_every_refrigerant_is_found_by_its_own_name_and_spellings():
    """No two refrigerants share a spelling."""
    for each in refrigerants():
        for spelling in (each.name, each.name.replace("-", ""), *each.spellings):
            assert refrigerant_named(spelling) is each
    assert len(set(NAMES)) == len(NAMES) >= 11


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("R-143a", ("R-134a",)), ("R-600", ("R-600a",)), ("R-134", ("R-134a",)), ("R-404", ("R-404A",))],
)
def test_a_slip_is_told_with_what_was_likely_meant(typed, meant):
    """A swapped, missing or changed sign leads to the refrigerant that was likely meant, without taking it."""
    assert likely_meant(typed) == meant
    with pytest.raises(
        InputError, match=rf"^the refrigerant '{typed}' is not one .*: did you mean {meant[0]}\?.*do not"
    ):
        refrigerant_named(typed)


@pytest.mark.parametrize("typed", ["R-436A", "", "water", "99"])
def test_an_unknown_refrigerant_gets_the_list(typed):
    """A name that is near none gets the names that are known, and no wild guess."""
    with pytest.raises(
        InputError, match=rf"^the refrigerant '{typed}' is not one .* it knows R-134a, R-600a"
    ) as caught:
        refrigerant_named(typed)
    assert "did you mean" not in str(caught.value)


@pytest.mark.parametrize("name", PURE)
def test_molar_mass_against_the_chemicals_library(name):
    """The molar mass of each pure refrigerant is that of its CAS number in the library chemicals, to 0.01 %."""
    assert refrigerant_named(name).molar_mass_kg_per_mol * 1e3 == pytest.approx(MW(CAS[name]), rel=1e-4)


@pytest.mark.parametrize("name", [name for name in PURE if name not in ("R-134a", "R-1234yf")])
def test_chemical_name_is_that_of_the_cas_number(name):
    """The chemical name leads the library chemicals to the same CAS number."""
    assert CAS_from_any(refrigerant_named(name).chemical_name) == CAS[name]


@pytest.mark.parametrize("name", [each.name for each in refrigerants() if each.is_blend])
def test_blends_are_whole_and_weigh_what_their_parts_weigh(name):
    """Shares by mass add up to 1, and 1/M is the sum of share/M of the parts, within 0.05 %."""
    blend = refrigerant_named(name)
    assert sum(Fraction(str(share)) for share in blend.parts.values()) == 1
    moles = sum(share / PART_MASSES[part] for part, share in blend.parts.items())
    assert blend.molar_mass_kg_per_mol * 1e3 == pytest.approx(1 / moles, rel=5e-4)


@pytest.mark.parametrize("name", NAMES)
def test_the_ranges_are_those_of_the_equation(name):
    """Lowest and highest temperature and the critical point in the file are those the equation of state states."""
    found, fluid = refrigerant_named(name), fluid_of(name)
    assert (found.least_k, found.most_k) == pytest.approx((fluid.least_k, fluid.most_k), abs=0.01)
    assert found.critical_k == pytest.approx(fluid.critical_k, abs=0.01)
    assert found.critical_pa == pytest.approx(fluid.critical_pressure_pa, rel=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_what_burns_has_a_flammable_limit_and_nothing_else(name):
    """Class 1 has no lower flammable limit, the others have; every one has a concentration limit."""
    found = refrigerant_named(name)
    assert found.is_flammable == (found.lfl_kg_per_m3 is not None) == (found.safety_class != "A1")
    assert found.rcl_kg_per_m3
    assert found.rcl_ppm


@pytest.mark.parametrize("name", NAMES)
def test_concentration_limit_by_mass_and_by_volume_agree(name):
    """ASHRAE 34 gives the RCL by mass and by volume, two digits each: as an ideal gas they agree within 4 %."""
    found = refrigerant_named(name)
    assert mass_per_volume(name, found.rcl_ppm) == pytest.approx(found.rcl_kg_per_m3, rel=0.04)


def test_each_group_of_facts_names_its_source():
    """Every group of the file has a source and says whether it was read."""
    words = ("read", "from memory", "run", "common practice, no source")
    assert {"names", "compositions", "molar_masses", "safety_classes", "lfl", "rcl", "oils", "ranges"} == set(
        standing()
    )
    assert all(any(word in text for word in words) for text in standing().values())


def test_each_thread_has_an_equation_of_its_own():
    """Two threads never share an equation of state, and one thread gets the same one again by any spelling."""
    found = []
    other = threading.Thread(target=lambda: found.append(fluid_of("R-134a")))
    other.start()
    other.join()
    assert fluid_of("R-134a") is fluid_of("r134A")
    assert found[0] is not fluid_of("R-134a")
