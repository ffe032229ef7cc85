"""States: round trips, the zero of enthalpy, the two-phase region, superheat and subcooling, what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import NAMES, refrigerant_named
from coldwright.refrigerants.phases import Phase, describe
from coldwright.refrigerants.saturation import (
    bubble_pressure,
    bubble_temperature,
    dew_pressure,
    dew_temperature,
    saturated_liquid,
    saturated_vapour,
)
from coldwright.refrigerants.states import state_ph, state_pq, state_ps, state_pt, subcooling, superheat

NAME = st.sampled_from(NAMES)
SHARE = st.floats(0.0, 1.0)
BLENDS = ("R-404A", "R-407C", "R-410A")


def pressure_of(name: str, share: float) -> float:
    """A pressure from 0.3 bar to nine tenths of the critical one, even in its logarithm."""
    return 30e3 * (0.9 * refrigerant_named(name).critical_pa / 30e3) ** share


@given(NAME, SHARE, st.floats(0.01, 80.0))
def test_vapour_there_and_back(name, share, above):
    """Pressure with temperature, enthalpy or entropy gives one state of vapour."""
    pressure = pressure_of(name, share)
    kelvin = dew_temperature(name, pressure) + above
    if kelvin > refrigerant_named(name).most_k:
        return
    state = state_pt(name, pressure, kelvin)
    assert state.quality is None
    assert state_ph(name, pressure, state.enthalpy_j_per_kg).temperature_k == pytest.approx(kelvin, abs=1e-4)
    assert state_ps(name, pressure, state.entropy_j_per_kg_k).temperature_k == pytest.approx(kelvin, abs=1e-4)
    assert superheat(name, pressure, kelvin) == pytest.approx(above, abs=1e-6)


@given(NAME, SHARE, st.floats(0.01, 25.0))
def test_liquid_there_and_back(name, share, below):
    """The same for liquid."""
    pressure = pressure_of(name, share)
    kelvin = bubble_temperature(name, pressure) - below
    if kelvin < refrigerant_named(name).least_k:
        return
    state = state_pt(name, pressure, kelvin)
    assert state.quality is None
    assert state_ph(name, pressure, state.enthalpy_j_per_kg).temperature_k == pytest.approx(kelvin, abs=1e-4)
    assert state_ps(name, pressure, state.entropy_j_per_kg_k).temperature_k == pytest.approx(kelvin, abs=1e-4)
    assert subcooling(name, pressure, kelvin) == pytest.approx(below, abs=1e-6)


@given(NAME, SHARE, SHARE)
def test_between_bubble_and_dew_there_and_back(name, share, quality):
    """In the two-phase region the quality comes back from enthalpy and entropy, and the lever rule holds for volume."""
    pressure = pressure_of(name, share)
    state = state_pq(name, pressure, quality)
    assert state_ph(name, pressure, state.enthalpy_j_per_kg).quality == pytest.approx(quality, abs=1e-9)
    assert state_ps(name, pressure, state.entropy_j_per_kg_k).quality == pytest.approx(quality, abs=1e-9)
    liquid, vapour = saturated_liquid(name, pressure), saturated_vapour(name, pressure)
    volume = (1 - quality) / liquid.density_kg_per_m3 + quality / vapour.density_kg_per_m3
    assert 1 / state.density_kg_per_m3 == pytest.approx(volume, rel=1e-12)
    assert liquid.temperature_k <= state.temperature_k <= vapour.temperature_k


@given(st.sampled_from(BLENDS), SHARE, st.floats(0.01, 0.99))
def test_a_blend_between_bubble_and_dew_has_a_quality_by_temperature(name, share, quality):
    """Of a blend pressure and temperature give the quality between bubble and dew."""
    pressure = pressure_of(name, share)
    state = state_pq(name, pressure, quality)
    if dew_temperature(name, pressure) - bubble_temperature(name, pressure) > 0.01:
        assert state_pt(name, pressure, state.temperature_k).quality == pytest.approx(quality, abs=1e-3)


@pytest.mark.parametrize("name", NAMES)
def test_the_zero_of_enthalpy_and_entropy(name):
    """Saturated liquid at 0 °C has 200 kJ/kg and 1 kJ/(kg K): the convention of the IIR (from memory)."""
    liquid = saturated_liquid(name, bubble_pressure(name, 273.15))
    assert liquid.enthalpy_j_per_kg == pytest.approx(200e3, abs=0.5)
    assert liquid.entropy_j_per_kg_k == pytest.approx(1e3, abs=2e-3)


def test_the_global_zero_of_coolprop_is_left_alone():
    """Before and after our use, CoolProp's own functions give the same enthalpy: no reference state is set."""
    from CoolProp.CoolProp import PropsSI

    before = PropsSI("H", "P", 2e5, "T", 300.0, "R134a")
    ours = state_pt("R-134a", 2e5, 300.0).enthalpy_j_per_kg
    assert PropsSI("H", "P", 2e5, "T", 300.0, "R134a") == before
    liquid = PropsSI("H", "T", 273.15, "Q", 0, "R134a")
    assert ours - 200e3 == pytest.approx(before - liquid, abs=0.5)


@given(NAME, st.floats(1.0, 1e3), st.floats(250.0, 400.0))
def test_thin_vapour_is_an_ideal_gas(name, pressure, kelvin):
    """At a very low pressure p = ρ R T / M within 0.1 %; also where the equation has no boiling point any more."""
    density = state_pt(name, pressure, kelvin).density_kg_per_m3
    ideal = pressure * refrigerant_named(name).molar_mass_kg_per_mol / (8.314462618 * kelvin)
    assert density == pytest.approx(ideal, rel=1e-3)


@given(NAME, st.floats(1.05, 1.5), st.floats(1.02, 1.1))
def test_above_the_critical_point_there_is_one_phase(name, times_p, times_t):
    """Above the critical pressure a state has no quality, and comes back from its enthalpy."""
    found = refrigerant_named(name)
    pressure, kelvin = times_p * found.critical_pa, times_t * found.critical_k
    state = state_pt(name, pressure, kelvin)
    assert state.quality is None
    assert state_ph(name, pressure, state.enthalpy_j_per_kg).temperature_k == pytest.approx(kelvin, abs=1e-3)


def test_superheat_counts_from_dew_and_subcooling_from_bubble():
    """Halfway between bubble and dew R-407C has less than nothing of both: minus half its glide each, by hand."""
    bubble, dew = bubble_temperature("R-407C", 5e5), dew_temperature("R-407C", 5e5)
    half = (dew - bubble) / 2
    assert half > 2.0
    assert superheat("R-407C", 5e5, bubble + half) == pytest.approx(-half, abs=1e-6)
    assert subcooling("R-407C", 5e5, bubble + half) == pytest.approx(-half, abs=1e-6)


@pytest.mark.parametrize(
    ("name", "end", "above", "phase", "words"),
    [
        ("R-134a", "dew", 8.0, Phase.VAPOUR, "superheated by 8.0 K above its dew point"),
        (
            "R-134a",
            "dew",
            -5.0,
            Phase.LIQUID,
            "subcooled by 5.0 K below its bubble point. In a suction line this is no",
        ),
        ("R-134a", "dew", 0.5, Phase.UNKNOWN, "not sure enough"),
        ("R-134a", "dew", -0.5, Phase.UNKNOWN, "not sure enough"),
        ("R-407C", "dew", 3.0, Phase.VAPOUR, "superheated by 3.0 K"),
        ("R-407C", "dew", 0.5, Phase.DRY_OR_WET, "not sure enough"),
        ("R-407C", "dew", -3.0, Phase.BOTH, "it lies between bubble and dew, 3.0 K below dew"),
        ("R-407C", "bubble", 0.5, Phase.LIQUID_OR_WET, "not sure enough"),
        ("R-407C", "bubble", -3.0, Phase.LIQUID, "subcooled by 3.0 K"),
    ],
)
def test_what_is_in_the_pipe(name, end, above, phase, words):
    """Vapour, liquid or both is told only where readings that may be off by 1 K are sure of it."""
    kelvin = (dew_temperature if end == "dew" else bubble_temperature)(name, 5e5) + above
    found = describe(name, 5e5, kelvin, 1.0)
    assert found.phase is phase
    assert found.superheat_k == pytest.approx(kelvin - dew_temperature(name, 5e5), abs=1e-9)
    assert found.subcooling_k == pytest.approx(bubble_temperature(name, 5e5) - kelvin, abs=1e-9)
    assert found.sentence.startswith(f"{name}: {phase.value}; ")
    assert words in found.sentence


def test_an_uncertainty_with_a_sign_is_refused():
    """A negative uncertainty is refused by name."""
    with pytest.raises(InputError, match=r"^the uncertainty is -1 K; it must be 0 or more"):
        describe("R-134a", 5e5, 300.0, -1.0)


def test_a_pure_refrigerant_at_its_boiling_point_has_no_state_by_temperature():
    """Pressure and boiling temperature leave open how much is liquid: the message asks for more."""
    with pytest.raises(
        InputError, match=r"^R-134a boils at 0\.0 °C at 2\.93 bar absolute: .*Give the enthalpy or the qual"
    ):
        state_pt("R-134a", dew_pressure("R-134a", 273.15), 273.15)


@pytest.mark.parametrize("bad", [1.5, -0.1, 50.0, math.nan])
def test_a_quality_is_a_share(bad):
    """A quality outside 0 to 1 is refused, with a guess at percent."""
    with pytest.raises(InputError, match=rf"^the quality is {bad:g}; it is a share .*Was it in percent\?$"):
        state_pq("R-134a", 2e5, bad)


@pytest.mark.parametrize("enthalpy", [-5e6, -3e5, 9e6])
def test_an_enthalpy_beyond_the_equation(enthalpy):
    """An enthalpy colder or hotter than the equation goes is refused with its limits, and CoolProp is not named."""
    for name in NAMES:
        with pytest.raises(
            InputError, match=rf"^this state of {name} lies outside what its equation of state covers: "
        ):
            state_ph(name, 2e5, enthalpy)


def test_nan_has_no_state():
    """nan is refused as enthalpy and entropy, and so is a pressure beyond the equation."""
    with pytest.raises(InputError, match="asked for at nan; a finite number is wanted"):
        state_ph("R-134a", 2e5, math.nan)
    with pytest.raises(InputError, match="asked for at nan; a finite number is wanted"):
        state_ps("R-134a", 2e5, math.nan)
    with pytest.raises(
        InputError, match=r"^the pressure of R-134a is 5000 bar absolute; its equation of state ends at 700"
    ):
        state_pt("R-134a", 5e8, 300.0)
    with pytest.raises(InputError, match=r"^the temperature of R-134a is 500 K .*ends at 181\.9 °C\. Was it in °F\?"):
        state_pt("R-134a", 2e5, 500.0)
