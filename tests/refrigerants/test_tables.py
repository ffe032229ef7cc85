"""Tables of refrigerants against CoolProp itself, and what must hold between the numbers looked up in them."""

from __future__ import annotations

import math
import random

import pytest

from coldwright.refrigerants.coolprop import Side, fluid_of
from coldwright.refrigerants.kernels import (
    KERNELS,
    boiling_pressure,
    compiled,
    compressed_enthalpy,
    dew_pressure_at,
    enthalpy_pt,
    saturation,
    temperature_ph,
    volume_ph,
)
from coldwright.refrigerants.saturation import bubble_pressure, dew_pressure
from coldwright.refrigerants.states import state_ph, state_pq, state_ps, state_pt
from coldwright.refrigerants.table_cache import tables_of
from coldwright.refrigerants.tables import LEAST_PA, MOST_OF_CRITICAL
from coldwright.sealed_system.engine import as_arrays

NAMES = ("R-134a", "R-600a", "R-290", "R-404A", "R-22")
CLOSE = 1e-4  # share of error that is allowed up to `ORDINARY`
ORDINARY = 0.6  # of the critical pressure; R-134a 24 bar, 76 °C
NEAR_CRITICAL = 3e-3  # allowed above that, where latent heat and volumes run together


def pressures_of(name: str, count: int) -> list[float]:
    """Random pressures over the whole table, even in the logarithm."""
    tables, dice = tables_of(name), random.Random(f"pressures of {name}")
    top = tables.low + tables.step * (tables.rows - 1)
    return [math.exp(dice.uniform(tables.low, top)) for _ in range(count)]


@pytest.mark.parametrize("name", NAMES)
def test_saturation_is_coolprops(name, sample, figure):
    """Temperatures, latent heat and volumes are CoolProp's within 1e-4; above 0.6 of the critical pressure, 3e-3."""
    tables, fluid = tables_of(name), fluid_of(name)
    names = ("bubble_k", "dew_k", "latent", "liquid_h", "liquid_v", "vapour_v")
    worst, hot = dict.fromkeys(names, 0.0), dict.fromkeys(names, 0.0)
    for pressure in pressures_of(name, sample(small=150, full=3000)):
        ours = saturation(tables, pressure)
        wet, dry = fluid.at_quality(pressure, 0.0), fluid.at_quality(pressure, 1.0)
        latent = dry.enthalpy - wet.enthalpy
        off = {
            "bubble_k": ours.bubble_k / wet.temperature - 1.0,
            "dew_k": ours.dew_k / dry.temperature - 1.0,
            "latent": (ours.vapour_h - ours.liquid_h) / latent - 1.0,
            "liquid_h": (ours.liquid_h - wet.enthalpy) / latent,
            "liquid_v": ours.liquid_v * wet.density - 1.0,
            "vapour_v": ours.vapour_v * dry.density - 1.0,
        }
        kept = worst if pressure < ORDINARY * fluid.critical_pressure_pa else hot
        for key, value in off.items():
            kept[key] = max(kept[key], abs(value))
    figure(f"table of {name}: worst of saturation", ", ".join(f"{k} {v:.1e}" for k, v in worst.items()))
    figure(f"table of {name}: worst near the critical point", f"{max(hot.values()):.1e}")
    assert max(worst.values()) < CLOSE
    assert max(hot.values()) < NEAR_CRITICAL


@pytest.mark.parametrize("name", NAMES)
def test_the_table_reaches_from_1_kpa(name):
    """The first row is at 1 kPa, or where the equation of state begins; the last near the critical pressure."""
    tables, fluid = tables_of(name), fluid_of(name)
    least = max(LEAST_PA, fluid.least_pressure_pa, fluid.least_dew_pa)
    assert math.exp(tables.low) == pytest.approx(least, rel=2e-3)
    assert math.exp(tables.low + tables.step * (tables.rows - 1)) == pytest.approx(
        MOST_OF_CRITICAL * fluid.critical_pressure_pa, rel=1e-9
    )
    for pressure in (1000.0, 2000.0, 5000.0):
        if pressure >= least:
            assert saturation(tables, pressure).dew_k == pytest.approx(
                fluid.at_quality(pressure, 1.0).temperature, rel=CLOSE
            )


@pytest.mark.parametrize("name", NAMES)
def test_vapour_is_coolprops(name, sample, figure):
    """Temperature and volume of superheated vapour are CoolProp's within 1e-4, to half the critical pressure."""
    tables, fluid, dice = tables_of(name), fluid_of(name), random.Random(name)
    worst_t = worst_v = 0.0
    for pressure in pressures_of(name, sample(small=100, full=2000)):
        pressure = min(pressure, 0.5 * fluid.critical_pressure_pa)
        width = tables.above_step * (tables.columns - 1)
        enthalpy = fluid.at_quality(pressure, 1.0).enthalpy + dice.uniform(0.001, 1.0) * width
        true = fluid.at_enthalpy(pressure, enthalpy, Side.VAPOUR)
        worst_t = max(worst_t, abs(temperature_ph(tables, pressure, enthalpy) / true.temperature - 1.0))
        worst_v = max(worst_v, abs(volume_ph(tables, pressure, enthalpy) * true.density - 1.0))
    figure(f"table of {name}: worst of vapour", f"T {worst_t:.1e}, v {worst_v:.1e}")
    assert worst_t < CLOSE
    assert worst_v < CLOSE


@pytest.mark.parametrize("name", NAMES)
def test_enthalpy_from_temperature_there_and_back(name):
    """Enthalpy looked up from a temperature gives CoolProp's, and the same temperature back."""
    tables, dice = tables_of(name), random.Random(f"back {name}")
    for pressure in pressures_of(name, 60):
        pressure = min(pressure, 0.5 * fluid_of(name).critical_pressure_pa)
        kelvin = saturation(tables, pressure).dew_k + dice.uniform(0.5, 70.0)
        enthalpy = enthalpy_pt(tables, pressure, kelvin)
        assert temperature_ph(tables, pressure, enthalpy) == pytest.approx(kelvin, abs=1e-3)
        true = state_pt(name, pressure, kelvin).enthalpy_j_per_kg
        latent = saturation(tables, pressure).vapour_h - saturation(tables, pressure).liquid_h
        assert abs(enthalpy - true) < 5e-4 * latent


@pytest.mark.parametrize("name", NAMES)
def test_compression_without_loss_is_coolprops(name, sample, figure):
    """Work of compression along constant entropy is CoolProp's within 0.2 %, from dry vapour to 50 K above it."""
    tables, dice = tables_of(name), random.Random(f"work {name}")
    worst = 0.0
    for _ in range(sample(small=60, full=1000)):
        low = dew_pressure(name, dice.uniform(240.0, 275.0))
        high = bubble_pressure(name, dice.uniform(295.0, 325.0))
        start = state_pt(name, low, saturation(tables, low).dew_k + dice.uniform(0.5, 50.0))
        true = state_ps(name, high, start.entropy_j_per_kg_k).enthalpy_j_per_kg - start.enthalpy_j_per_kg
        ours = compressed_enthalpy(tables, low, start.enthalpy_j_per_kg, high) - start.enthalpy_j_per_kg
        worst = max(worst, abs(ours / true - 1.0))
    figure(f"table of {name}: worst work of compression", f"{worst:.1e}")
    assert worst < 2e-3


def test_wet_suction_dries_on_the_way():
    """Compression of wet vapour follows CoolProp's entropy within 1 % of the latent heat."""
    name = "R-134a"
    low, high = 1.6e5, 10e5
    for quality in (0.85, 0.9, 0.95, 0.99):
        start = state_pq(name, low, quality)
        true = state_ps(name, high, start.entropy_j_per_kg_k).enthalpy_j_per_kg
        ours = compressed_enthalpy(tables_of(name), low, start.enthalpy_j_per_kg, high)
        assert ours == pytest.approx(true, abs=2e3)


@pytest.mark.parametrize("name", NAMES)
def test_pressures_come_back(name):
    """Dew pressure at a temperature is CoolProp's within 5e-4; liquid boils where its enthalpy is saturated."""
    tables = tables_of(name)
    for kelvin in (235.0, 255.0, 275.0, 300.0, 325.0):
        assert dew_pressure_at(tables, kelvin) == pytest.approx(dew_pressure(name, kelvin), rel=5e-4)
        boiling = bubble_pressure(name, kelvin)
        liquid = state_pq(name, boiling, 0.0).enthalpy_j_per_kg
        assert boiling_pressure(tables, 2.0 * boiling, liquid) == pytest.approx(boiling, rel=5e-4)
        assert boiling_pressure(tables, 0.5 * boiling, liquid) == pytest.approx(0.5 * boiling)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_jumps_at_saturation(name):
    """Temperature and volume are the same from either side of the bubble point and the dew point."""
    tables = tables_of(name)
    for pressure in pressures_of(name, 40):
        s = saturation(tables, pressure)
        for at in (s.liquid_h, s.vapour_h):
            for look_up in (temperature_ph, volume_ph):
                below, above = (look_up(tables, pressure, at + step) for step in (-1e-6, 1e-6))
                assert below == pytest.approx(above, rel=1e-6)


def test_a_mixture_follows_the_lever_rule():
    """Half liquid and half vapour by mass has the mean of their volumes, by hand and by CoolProp."""
    tables, pressure = tables_of("R-600a"), 1.2e5
    s = saturation(tables, pressure)
    half = 0.5 * (s.liquid_h + s.vapour_h)
    assert volume_ph(tables, pressure, half) == pytest.approx(0.5 * (s.liquid_v + s.vapour_v), rel=1e-12)
    assert 1.0 / volume_ph(tables, pressure, half) == pytest.approx(
        state_ph("R-600a", pressure, half).density_kg_per_m3, rel=CLOSE * 2
    )


def test_far_vapour_goes_on_to_an_ideal_gas():
    """Far below one bar P v is R T over the molar mass (definition of the ideal gas), within 0.5 %."""
    tables, pressure, kelvin = tables_of("R-134a"), 2000.0, 300.0
    volume = volume_ph(tables, pressure, enthalpy_pt(tables, pressure, kelvin))
    assert pressure * volume == pytest.approx(8.314462618 * kelvin / 0.102032, rel=5e-3)


@pytest.mark.parametrize("look_up", [temperature_ph, volume_ph, boiling_pressure, enthalpy_pt])
def test_machine_code_gives_the_same(look_up):
    """Compiled look-ups agree with plain Python to 1e-12."""
    pytest.importorskip("numba")
    tables = tables_of("R-290")
    arrays, fast = as_arrays(tables), compiled(look_up)
    assert look_up in KERNELS
    for pressure in pressures_of("R-290", 20):
        s = saturation(tables, pressure)
        second = s.dew_k + 12.0 if look_up is enthalpy_pt else s.liquid_h + 0.6 * (s.vapour_h - s.liquid_h)
        assert fast(arrays, pressure, second) == pytest.approx(look_up(tables, pressure, second), rel=1e-12)
