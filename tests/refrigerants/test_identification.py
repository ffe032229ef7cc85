"""Identification by the pressure at rest: what fits, what cannot be told apart, and what fits nothing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import NAMES, refrigerant_named
from coldwright.refrigerants.identification import AtRest, against_nameplate, ambiguous_pairs, candidates
from coldwright.refrigerants.saturation import bubble_pressure, dew_pressure

ROOM_K = 293.15


@given(st.sampled_from(NAMES), st.floats(0.0, 1.0), st.floats(263.15, 313.15), st.floats(-1, 1), st.floats(-1, 1))
def test_the_true_one_is_among_those_that_fit(name, liquid, kelvin, off_p, off_t):
    """Whatever part of a blend is liquid, and however the readings are off within their limits, the true one fits."""
    low, high = dew_pressure(name, kelvin), bubble_pressure(name, kelvin)
    pressure = low + liquid * (high - low) + off_p * 5e3
    found = candidates(pressure, kelvin + off_t * 1.0, 5e3 * 1.001, 1.001)
    assert name in found.names
    assert against_nameplate(name, pressure, kelvin + off_t * 1.0, 5e3 * 1.001, 1.001)[0] is AtRest.FITS


@given(st.floats(1.5e5, 18e5), st.floats(263.15, 313.15), st.floats(0, 2e4), st.floats(0, 2e4), st.floats(0, 2))
def test_better_readings_never_let_more_fit(pressure, kelvin, one, other, u_kelvin):
    """A smaller uncertainty leaves out candidates, and never brings one in."""
    fine, coarse = sorted((one, other))
    narrow = set(candidates(pressure, kelvin, fine, u_kelvin / 2).names)
    assert narrow <= set(candidates(pressure, kelvin, coarse, u_kelvin).names)


def test_r134a_and_r12_cannot_be_told_apart_in_a_room():
    """At 20 °C R-134a stands at 5.72 bar and R-12 at 5.67 bar (ASHRAE tables, from memory): both fit."""
    found = candidates(5.70e5, ROOM_K, 0.1e5, 0.5)
    assert {"R-134a", "R-12"} <= set(found.names)
    assert found.ambiguous
    assert "the pressure at rest cannot tell them apart" in found.sentence
    assert "R-290" not in found.names


def test_r134a_and_r12_can_be_told_apart_when_warm():
    """At 60 °C R-134a stands at 16.8 bar and R-12 at 15.3 bar (ASHRAE tables, from memory)."""
    found = candidates(16.8e5, 333.15, 0.2e5, 0.5).names
    assert "R-134a" in found
    assert "R-12" not in found
    assert ("R-134a", "R-12") not in ambiguous_pairs(333.15, 0.2e5, 0.5)
    assert ("R-134a", "R-12") in ambiguous_pairs(ROOM_K, 0.2e5, 0.5)


def test_r22_and_propane_are_told_apart_only_by_good_readings():
    """At 20 °C R-22 stands at 9.10 bar and R-290 at 8.36 bar (ASHRAE tables, from memory)."""
    assert ("R-290", "R-22") in ambiguous_pairs(ROOM_K, 0.3e5, 1.0)
    assert ("R-290", "R-22") not in ambiguous_pairs(ROOM_K, 0.1e5, 0.5)
    between = candidates(8.75e5, ROOM_K, 0.3e5, 1.5)
    assert {"R-22", "R-290"} <= set(between.names)
    assert "R-290 burns: work as with a flammable refrigerant until you know." in between.sentence


def test_isobutane_stands_alone():
    """At 20 °C R-600a stands at 3.02 bar (from memory); nothing else is near, and the sentence says it is no proof."""
    found = candidates(3.02e5, ROOM_K, 0.1e5, 1.0)
    assert found.names == ("R-600a",)
    assert "no proof: compare the nameplate" in found.sentence
    assert not any("R-600a" in pair for pair in ambiguous_pairs(ROOM_K, 0.1e5, 1.0))


def test_air_on_top_fits_none():
    """R-134a at 20 °C with 1.2 bar of air on top fits none, and reads too high against the nameplate: Dalton's sum."""
    pressure = bubble_pressure("R-134a", ROOM_K) + 1.2e5
    found = candidates(pressure, ROOM_K, 0.1e5, 0.5)
    assert found.names == ()
    assert "fits none that the course knows: there is air in it, or a mixture, or no liquid is left" in found.sentence
    side, sentence = against_nameplate("R-134a", pressure, ROOM_K, 0.1e5, 0.5)
    assert side is AtRest.HIGH
    assert "too high: air in it" in sentence


def test_without_liquid_it_reads_too_low():
    """A system with no liquid left stands below saturation: 4 bar where R-134a has 5.72."""
    side, sentence = against_nameplate("R-134a", 4.0e5, ROOM_K, 0.1e5, 0.5)
    assert side is AtRest.LOW
    assert "too low: no liquid is left" in sentence
    assert candidates(4.0e5, ROOM_K, 0.1e5, 0.5).names == ()


def test_a_blend_may_stand_anywhere_between_dew_and_bubble():
    """R-407C stands anywhere from dew to bubble, by how much is liquid; a single refrigerant at one pressure."""
    low, high = dew_pressure("R-407C", ROOM_K), bubble_pressure("R-407C", ROOM_K)
    tried = {each.name: each for each in candidates(9.5e5, ROOM_K, 0.0, 0.0).tried}
    assert (tried["R-407C"].low_pa, tried["R-407C"].high_pa) == pytest.approx((low, high), rel=1e-9)
    assert tried["R-22"].low_pa == pytest.approx(tried["R-22"].high_pa, rel=1e-9)
    for share in (0.01, 0.5, 0.99):
        assert "R-407C" in candidates(low + share * (high - low), ROOM_K, 0.0, 0.0).names
    for outside in (low * 0.99, high * 1.01):
        assert "R-407C" not in candidates(outside, ROOM_K, 0.0, 0.0).names


def test_a_pair_is_ambiguous_where_one_reading_fits_both():
    """For each pair named, a pressure half-way between the bands fits both; for the others none does."""
    pairs = set(ambiguous_pairs(ROOM_K, 0.2e5, 0.5))
    tried = {each.name: each for each in candidates(5e5, ROOM_K, 0.2e5, 0.5).tried}
    assert 3 < len(pairs) < len(NAMES) * (len(NAMES) - 1) / 2
    for one in tried.values():
        for other in tried.values():
            if one.name < other.name:
                middle = (max(one.low_pa, other.low_pa) + min(one.high_pa, other.high_pa)) / 2
                both = {one.name, other.name} <= set(candidates(middle, ROOM_K, 0.2e5, 0.5).names)
                assert both == ((one.name, other.name) in pairs or (other.name, one.name) in pairs)


def test_above_the_critical_temperature_nothing_is_expected():
    """R-404A at 70 °C is too near its critical point to be asked, and is told to cool down."""
    assert refrigerant_named("R-404A").critical_k < 346.0
    with pytest.raises(InputError, match=r"^at 70\.0 °C R-404A is too near its critical temperature .*Let the system"):
        against_nameplate("R-404A", 30e5, 343.15, 1e4, 5.0)
    assert "R-404A" not in {each.name for each in candidates(30e5, 343.15, 1e4, 5.0).tried}


@pytest.mark.parametrize(
    ("values", "message"),
    [
        (
            (-2e4, ROOM_K, 1e3, 1.0),
            r"^the pressure at rest is -20000 Pa; .*Was it a gauge pressure",
        ),
        ((5e7, ROOM_K, 1e3, 1.0), r"^the pressure at rest is 5e\+07 Pa; an absolute pressure is above 0"),
        ((5e5, 20.0, 1e3, 1.0), r"^the temperature at rest is 20 K; .*Was it in °C or °F\?$"),
        ((5e5, 473.15, 1e3, 1.0), r"^the temperature at rest is 473\.15 K; it must be from 223\.15 K to 343\.15 K"),
        ((5e5, ROOM_K, -1.0, 1.0), r"^the uncertainty of the pressure is -1 Pa; it must be 0 or more and below"),
        ((5e5, ROOM_K, 6e5, 1.0), r"^the uncertainty of the pressure is 600000 Pa"),
        (
            (5e5, ROOM_K, 1e3, 15.0),
            r"^the uncertainty of the temperature is 15 K; .*not at one temperature yet",
        ),
    ],
)
def test_readings_that_cannot_be(values, message):
    """Each reading that no system at rest can have is refused by name, with the likely slip."""
    with pytest.raises(InputError, match=message):
        candidates(*values)
