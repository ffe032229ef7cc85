"""Saturation: properties that must hold, independent tables and correlations, and what is refused."""

from __future__ import annotations

import math

import pytest
from chemicals import vapor_pressure
from chemicals.dippr import EQ101
from chemicals.miscdata import lookup_VDI_tabular_data
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.refrigerants.catalogue import NAMES, refrigerant_named, refrigerants
from coldwright.refrigerants.saturation import (
    bubble_pressure,
    bubble_temperature,
    dew_pressure,
    dew_temperature,
    glide,
    latent_heat,
    saturated_liquid,
    saturated_vapour,
)

NAME = st.sampled_from(NAMES)
SHARE = st.floats(0.0, 1.0)
CAS = {"R-134a": "811-97-2", "R-600a": "75-28-5", "R-290": "74-98-6", "R-22": "75-45-6", "R-12": "75-71-8"}


def between(name: str, share: float, below_critical_k: float = 1.0) -> float:
    """A temperature between 210 K and just below the critical point, so far as the equation goes."""
    found = refrigerant_named(name)
    low, high = max(210.0, found.least_k), found.critical_k - below_critical_k
    return low + share * (high - low)


@given(NAME, SHARE)
def test_there_and_back(name, share):
    """The temperature of a saturation pressure's temperature is the same again."""
    kelvin = between(name, share)
    assert bubble_temperature(name, bubble_pressure(name, kelvin)) == pytest.approx(kelvin, abs=1e-5)
    assert dew_temperature(name, dew_pressure(name, kelvin)) == pytest.approx(kelvin, abs=1e-5)


@given(NAME, SHARE, SHARE)
def test_warmer_stands_higher(name, one, other):
    """Saturation pressure rises with temperature."""
    cold, warm = sorted((between(name, one), between(name, other)))
    if warm - cold > 1e-3:
        assert bubble_pressure(name, cold) < bubble_pressure(name, warm)
        assert dew_pressure(name, cold) < dew_pressure(name, warm)


@given(NAME, SHARE)
def test_bubble_lies_on_dew_or_above(name, share):
    """At one temperature bubble pressure is not below dew pressure, at one pressure the glide is not below 0."""
    kelvin = between(name, share)
    low, high = dew_pressure(name, kelvin), bubble_pressure(name, kelvin)
    assert high >= low * (1 - 1e-9)
    assert glide(name, low) >= 0.0
    if not refrigerant_named(name).is_blend:
        assert high == pytest.approx(low, rel=1e-9)
        assert glide(name, low) == 0.0


@given(NAME, SHARE)
def test_clausius_and_clapeyron(name, share):
    """Of one substance dp/dT is latent heat over T times the change of volume (Clausius-Clapeyron), within 1e-4."""
    if refrigerant_named(name).is_blend:
        return
    kelvin, step = between(name, share, 10.0), 0.01
    slope = (bubble_pressure(name, kelvin + step) - bubble_pressure(name, kelvin - step)) / (2 * step)
    pressure = bubble_pressure(name, kelvin)
    liquid, vapour = saturated_liquid(name, pressure), saturated_vapour(name, pressure)
    volume = 1 / vapour.density_kg_per_m3 - 1 / liquid.density_kg_per_m3
    assert slope == pytest.approx(latent_heat(name, pressure) / (kelvin * volume), rel=1e-4)


@given(NAME, SHARE)
def test_latent_heat_is_temperature_times_entropy(name, share):
    """Of one substance latent heat is T times the change of entropy, and vapour is lighter than liquid."""
    kelvin = between(name, share)
    pressure = dew_pressure(name, kelvin)
    liquid, vapour = saturated_liquid(name, pressure), saturated_vapour(name, pressure)
    assert vapour.density_kg_per_m3 < liquid.density_kg_per_m3
    assert (liquid.quality, vapour.quality) == (0.0, 1.0)
    if not refrigerant_named(name).is_blend:
        change = vapour.entropy_j_per_kg_k - liquid.entropy_j_per_kg_k
        assert latent_heat(name, pressure) == pytest.approx(kelvin * change, rel=1e-5)


@pytest.mark.parametrize("name", NAMES)
def test_latent_heat_goes_to_nothing_at_the_critical_point(name):
    """Close below the critical point less than a fifth of the latent heat at 0 °C is left."""
    near = refrigerant_named(name).critical_pa * 0.999
    assert 0 < latent_heat(name, near) < 0.2 * latent_heat(name, bubble_pressure(name, 273.15))


def test_which_blends_glide():
    """At 1 bar R-410A glides by about 0.1 K, R-404A by 0.7 K, R-407C by 7 K (common knowledge, from memory)."""
    assert glide("R-410A", 101_325.0) == pytest.approx(0.1, abs=0.1)
    assert glide("R-404A", 101_325.0) == pytest.approx(0.7, abs=0.2)
    assert glide("R-407C", 101_325.0) == pytest.approx(7.0, abs=0.5)


VDI = {
    "P": (5e-4, lambda _name, p: p),
    "Density (l)": (3e-4, lambda name, p: saturated_liquid(name, p).density_kg_per_m3),
    "Density (g)": (2e-3, lambda name, p: saturated_vapour(name, p).density_kg_per_m3),
    "Hvap": (2e-4, lambda name, p: latent_heat(name, p) * refrigerant_named(name).molar_mass_kg_per_mol),
}


@pytest.mark.parametrize("name", ["R-134a", "R-600a", "R-290", "R-22"])
@pytest.mark.parametrize("what", VDI)
def test_against_the_vdi_heat_atlas(name, what, figure):
    """The VDI Heat Atlas's tables (stored in the library chemicals), -50 °C to 20 K below the critical point.

    Spread allowed: pressure 0.05 %, densities 0.03 % and 0.2 %, latent heat 0.02 %.
    """
    allowed, ours = VDI[what]
    kelvins, printed = lookup_VDI_tabular_data(CAS[name], what)
    top = refrigerant_named(name).critical_k - 4.0
    pairs = [(k, value) for k, value in zip(kelvins, printed, strict=True) if 223.0 < k < top]
    off = [ours(name, bubble_pressure(name, k)) / value - 1 for k, value in pairs]
    figure(f"VDI {what} {name}, most off", f"{100 * max(map(abs, off)):.3f} %")
    assert len(off) >= 6
    assert max(map(abs, off)) < allowed


def ppds(cas: str, k: float) -> float:
    """Wagner 2.5,5 with the constants of the VDI-PPDS table."""
    r = vapor_pressure.Psat_data_VDI_PPDS_3.loc[cas]
    return float(vapor_pressure.Wagner(k, r.Tc, r.Pc, r.A, r.B, r.C, r.D))


def mcgarry(cas: str, k: float) -> float:
    """Wagner 3,6 with McGarry's constants."""
    r = vapor_pressure.Psat_data_WagnerMcGarry.loc[cas]
    return float(vapor_pressure.Wagner_original(k, r.Tc, r.Pc, r.A, r.B, r.C, r.D))


def perry(cas: str, k: float) -> float:
    """DIPPR equation 101 with Perry's constants."""
    r = vapor_pressure.Psat_data_Perrys2_8.loc[cas]
    return float(EQ101(k, r.C1, r.C2, r.C3, r.C4, r.C5))


def trc(cas: str, k: float) -> float:
    """Extended Antoine equation with the TRC's constants."""
    r = vapor_pressure.Psat_data_AntoineExtended.loc[cas]
    return float(vapor_pressure.TRC_Antoine_extended(k, r.Tc, r.to, r.A, r.B, r.C, r.n, r.E, r.F))


def antoine(cas: str, k: float) -> float:
    """Antoine equation with the constants in Poling, Prausnitz and O'Connell."""
    r = vapor_pressure.Psat_data_AntoinePoling.loc[cas]
    return float(vapor_pressure.Antoine(k, r.A, r.B, r.C))


@pytest.mark.parametrize(
    ("name", "correlation", "low_c", "high_c", "spread"),
    [
        ("R-134a", trc, -5, 90, 0.003),
        ("R-134a", antoine, -50, -11, 0.003),
        ("R-600a", ppds, -40, 100, 0.001),
        ("R-600a", mcgarry, -40, 100, 0.006),
        ("R-600a", perry, -40, 100, 0.008),
        ("R-290", ppds, -40, 80, 0.002),
        ("R-290", mcgarry, -40, 80, 0.003),
        ("R-290", perry, -40, 80, 0.002),
        ("R-22", ppds, -40, 80, 0.0015),
        ("R-22", mcgarry, -40, 80, 0.002),
        ("R-22", trc, -25, 80, 0.002),
        ("R-12", ppds, -40, 100, 0.001),
        ("R-12", mcgarry, -40, 100, 0.004),
        ("R-12", trc, -10, 100, 0.003),
    ],
)
def test_against_correlations_of_others(name, correlation, low_c, high_c, spread, figure):
    """At least two correlations fitted by others for each of five pure refrigerants, each with the spread it keeps."""
    kelvins = [273.15 + low_c + (high_c - low_c) * n / 12 for n in range(13)]
    off = [bubble_pressure(name, k) / correlation(CAS[name], k) - 1 for k in kelvins]
    figure(f"{correlation.__name__} {name}, most off", f"{100 * max(map(abs, off)):.2f} %")
    assert max(map(abs, off)) < spread


@pytest.mark.parametrize("name", NAMES)
def test_above_the_critical_point_nothing_boils(name):
    """Above the critical temperature or pressure the message says what is there, and never speaks of CoolProp."""
    found = refrigerant_named(name)
    with pytest.raises(InputError, match=r"above its critical temperature of .* °C it does not boil .* Was it in °F\?"):
        bubble_pressure(name, found.critical_k + 5.0)
    with pytest.raises(InputError, match=rf"^{name} has no boiling point at .*: from its critical pressure of"):
        dew_temperature(name, found.critical_pa * 1.05)


@pytest.mark.parametrize("name", NAMES)
def test_below_the_equation(name):
    """Below the lowest temperature or pressure the message says where the equation begins."""
    found = refrigerant_named(name)
    with pytest.raises(InputError, match=r"the course has data of it from -.* °C, .* Was it in °C or °F\? Kelvin"):
        dew_pressure(name, max(found.least_k, 150.0) - 1.0)
    with pytest.raises(InputError, match=r"^at 10 Pa absolute no boiling point of .* Was it in bar or kPa"):
        bubble_temperature(name, 10.0)


@pytest.mark.parametrize("function", [bubble_temperature, dew_temperature, glide, latent_heat, saturated_liquid])
@pytest.mark.parametrize("bad", [0.0, -20_000.0, math.nan])
def test_a_pressure_that_cannot_be(function, bad):
    """Zero, a vacuum's gauge reading and nan are refused as absolute pressures."""
    with pytest.raises(InputError, match=rf"^the pressure of R-134a is {bad:g} Pa; .*Was it a gauge pressure\?$"):
        function("R-134a", bad)


@pytest.mark.parametrize("bad", [math.nan, math.inf, 1000.0])
def test_a_temperature_that_cannot_be(bad):
    """nan, inf and a temperature beyond the equation are refused with the value."""
    with pytest.raises(InputError, match=rf"^the temperature of R-600a is {bad:g} K .*its equation of state ends at"):
        bubble_pressure("R-600a", bad)


@pytest.mark.parametrize("typed", [20.0, -10.0, 68.0, 120.0])
@pytest.mark.parametrize("name", NAMES)
def test_celsius_or_fahrenheit_for_kelvin(name, typed):
    """A temperature typed in °C or °F is refused with that guess, also where the equation would go on."""
    with pytest.raises(InputError, match=rf"is {typed:g} K .*Was it in °C or °F\? Kelvin are wanted here"):
        bubble_pressure(name, typed)


def test_every_refrigerant_boils_somewhere_below_the_room():
    """Each has a boiling point below 20 °C at one atmosphere: a cold machine could run on it."""
    for each in refrigerants():
        assert bubble_temperature(each.name, 101_325.0) < 293.15
