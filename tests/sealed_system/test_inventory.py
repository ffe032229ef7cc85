"""What zones weigh: void fraction and densities against an independent library, mass by hand."""

from __future__ import annotations

import itertools
import math
import random

import pytest
from fluids.two_phase_voidage import Zivi, homogeneous
from scipy.integrate import quad

from coldwright.errors import InputError
from coldwright.refrigerants.kernels import saturation
from coldwright.refrigerants.saturation import dew_pressure
from coldwright.refrigerants.table_cache import tables_of
from coldwright.sealed_system.balance import at_once
from coldwright.sealed_system.plant import dry_low_side, oil_at_rest, oil_holds, pressures
from coldwright.sealed_system.void_fraction import (
    density_at,
    homogeneous_void,
    hughmark_share,
    hughmark_void,
    mean_density,
    quality_of_mass,
    void_ratio,
    void_sum,
)
from tests.sealed_system.plants import COOLER, PLATES, built, drawn, engine
from tests.sealed_system.states import settled_of, some_states

DENSITIES = [(1250.0, 8.0), (1100.0, 60.0), (550.0, 4.0), (480.0, 35.0), (1200.0, 1.0)]
HUGHMARK_INPUTS = {"liquid": 1150.0, "vapour": 50.0, "bore": 6e-3, "liquid_mu": 1.6e-4, "vapour_mu": 1.2e-5}


@pytest.mark.parametrize(("liquid", "vapour"), DENSITIES)
@pytest.mark.parametrize("x", [0.01, 0.2, 0.5, 0.9, 0.99])
def test_density_at_a_quality_is_zivis(liquid, vapour, x):
    """Density at one quality from the void fraction of the library fluids (Zivi 1964)."""
    void = Zivi(x, liquid, vapour)
    by_hand = liquid * (1.0 - void) + vapour * void
    assert density_at(liquid, vapour, void_ratio(liquid, vapour), x) == pytest.approx(by_hand, rel=1e-12)


def test_zivi_of_the_library_is_the_published_number():
    """The library's own documentation prints 0.9689339909 for x 0.4, 800 and 2.5 kg/m³; ours is the same."""
    void = 1.0 - density_at(800.0, 0.0, void_ratio(800.0, 2.5), 0.4) / 800.0
    assert void == pytest.approx(0.9689339909056356, rel=1e-12)


@pytest.mark.parametrize(("liquid", "vapour"), DENSITIES)
@pytest.mark.parametrize(("start", "end"), [(0.0, 1.0), (0.2, 1.0), (0.35, 0.9), (1.0, 0.1), (0.5, 0.5001)])
def test_mean_density_is_the_integral(liquid, vapour, start, end):
    """Mean over a zone whose quality runs evenly: numerical integration of the library's void fraction."""

    def density(x: float) -> float:
        void = Zivi(x, liquid, vapour) if x > 0.0 else 0.0
        return liquid * (1.0 - void) + vapour * void

    integral = quad(density, start, end, epsrel=1e-10, limit=400)[0] / (end - start)
    assert mean_density(liquid, vapour, void_ratio(liquid, vapour), start, end) == pytest.approx(integral, rel=1e-6)


def test_the_ends_are_liquid_and_vapour():
    """A zone of nothing but quality 0 is liquid, of 1 vapour; the integral of the void over nothing is nothing."""
    ratio = void_ratio(1200.0, 10.0)
    assert mean_density(1200.0, 10.0, ratio, 0.0, 0.0) == 1200.0
    assert mean_density(1200.0, 10.0, ratio, 1.0, 1.0) == pytest.approx(10.0)
    assert density_at(1200.0, 10.0, ratio, 1.0) == pytest.approx(10.0)
    assert void_sum(ratio, 0.0) == 0.0


@pytest.mark.parametrize(("liquid", "vapour"), DENSITIES)
def test_quality_comes_back_from_the_mass(liquid, vapour):
    """Tube and line filled to a quality at the end: the quality comes back from their mass."""
    ratio = void_ratio(liquid, vapour)
    for x_from, x in itertools.product((0.25, 1.0), (0.35, 0.6, 0.95)):
        tube, line = 1.5e-4, 4e-5
        mass = tube * mean_density(liquid, vapour, ratio, x_from, x) + line * density_at(liquid, vapour, ratio, x)
        assert quality_of_mass(liquid, vapour, ratio, x_from, tube, line, mass, 0.0) == pytest.approx(x, abs=1e-6)
    assert quality_of_mass(liquid, vapour, ratio, 1.0, 1e-4, 0.0, 0.0, 0.0) == 1.0
    assert quality_of_mass(liquid, vapour, ratio, 1.0, 1e-4, 0.0, 1.0, 0.3) == 0.3


def test_homogeneous_void_is_the_librarys():
    """Without slip the void fraction is that of the library fluids."""
    assert homogeneous_void(0.4, 800.0, 2.5) == pytest.approx(homogeneous(0.4, 800.0, 2.5), rel=1e-12)


def test_hughmark_lies_between_nothing_and_no_slip():
    """Slip makes less void: Hughmark's is below the homogeneous one, and rises with quality and with flow."""
    for flux in (60.0, 150.0, 400.0):
        voids = [hughmark_void(x, flux=flux, **HUGHMARK_INPUTS) for x in (0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 0.95)]
        assert all(less < more for less, more in itertools.pairwise(voids))
        for x, void in zip((0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 0.95), voids, strict=True):
            assert 0.0 < void < homogeneous(x, 1150.0, 50.0)
    slow, fast = (hughmark_void(0.3, flux=flux, **HUGHMARK_INPUTS) for flux in (20.0, 400.0))
    assert slow < fast


def test_hughmark_by_hand():
    """One point by hand: Z from Reynolds and Froude number at the void found gives just the share that was used."""
    x, flux = 0.3, 150.0
    void = hughmark_void(x, flux=flux, **HUGHMARK_INPUTS)
    even = homogeneous(x, 1150.0, 50.0)
    reynolds = 6e-3 * flux / (1.6e-4 * (1.0 - void) + 1.2e-5 * void)
    speed = flux * x / 50.0 / even
    z = reynolds ** (1 / 6) * (speed**2 / (9.80665 * 6e-3)) ** (1 / 8) / (1.0 - even) ** 0.25
    assert void == pytest.approx(hughmark_share(z) * even, rel=1e-9)
    assert 5.0 < z < 20.0


def test_hughmark_table_stays_between_its_points():
    """Between two printed points the share lies between them; beyond the ends it stays."""
    assert 0.605 < hughmark_share(4.5) < 0.675
    assert hughmark_share(0.5) == 0.185
    assert hughmark_share(500.0) == 0.98


@pytest.mark.parametrize("x", [0.0, 1.0, -0.1, float("nan")])
def test_hughmark_refuses_one_phase(x):
    """Liquid alone or vapour alone has no void fraction of two phases."""
    with pytest.raises(InputError, match="liquid and vapour flow together only between 0 and 1"):
        hughmark_void(x, flux=100.0, **HUGHMARK_INPUTS)
    with pytest.raises(InputError, match="must all be above zero"):
        hughmark_void(0.5, flux=0.0, **HUGHMARK_INPUTS)


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_the_plates_charge_is_found_again_in_the_zones(plate):
    """Healthy and steady: liquid, mixture and vapour of each zone, weighed by hand, add to the charge."""
    plant, tables = built(plate), engine(plate).tables
    state, now = settled_of(plate)
    c, e = saturation(tables, now.discharge_pa), saturation(tables, now.suction_pa)

    def mean(start: float, s) -> float:
        def density(x: float) -> float:
            void = Zivi(x, 1.0 / s.liquid_v, 1.0 / s.vapour_v) if x > 0.0 else 0.0
            return (1.0 - void) / s.liquid_v + void / s.vapour_v

        return quad(density, start, 1.0, epsrel=1e-9)[0] / (1.0 - start)

    # condenser: the share of vapour from its own heat, the liquid's from the subcooling that is read

    units = math.log((now.discharge_k - 298.15) / (c.dew_k - 298.15))
    hot = units * now.flow * c.vapour_cp / plant.condenser_vapour_w_per_k
    left = (now.liquid_k - 298.15) / (c.bubble_k - 298.15)
    cold = -math.log(left) * now.capillary * c.liquid_cp / plant.condenser_liquid_w_per_k
    hot_density = c.dew_k / (0.5 * (c.dew_k + now.discharge_k)) / c.vapour_v
    high = plant.condenser_m3 * (hot * hot_density + (1.0 - hot - cold) * mean(0.0, c) + cold / c.liquid_v)
    high += plant.discharge_m3 / c.vapour_v + plant.liquid_line_m3 / c.liquid_v
    assert state.high_kg == pytest.approx(high, rel=1e-3)

    inlet = (state.inlet_h - e.liquid_h) / (e.vapour_h - e.liquid_h)
    low = plant.evaporator_m3 * (now.wetted * mean(inlet, e) + (1.0 - now.wetted) / e.vapour_v)
    low += plant.suction_m3 / e.vapour_v + plant.shell_m3 / e.vapour_v * e.dew_k / state.shell_k
    oil = plant.oil_kg * plant.oil_solubility * now.suction_pa / dew_pressure(plate.refrigerant, state.shell_k)
    assert high + low + oil == pytest.approx(plate.charge_kg, rel=2e-3)


def test_mass_is_kept_whatever_the_state():
    """High side, low side and oil are the charge to 1e-12 in any state, and no rate makes or loses any."""
    for number in range(60):
        draw = drawn(number)
        for state in some_states(draw, 3, random.Random(number)):
            now = at_once(engine(draw.plate).tables, draw.plant, draw.around, state)
            whole = state.high_kg + now.low_kg + state.oil_kg
            assert whole == pytest.approx(draw.around.charge_kg, rel=1e-12)
            assert now.rates.high_kg == pytest.approx(now.flow - now.capillary, abs=1e-18)


def test_oil_holds_more_when_pressed_and_cold():
    """Refrigerant in the oil rises with pressure, falls with temperature, and stops at saturation."""
    tables, plant = tables_of("R-134a"), built(COOLER)
    assert oil_holds(tables, plant, 2e5, 330.0) > oil_holds(tables, plant, 1.5e5, 330.0)
    assert oil_holds(tables, plant, 2e5, 320.0) > oil_holds(tables, plant, 2e5, 330.0)
    assert oil_holds(tables, plant, 9e5, 290.0) == pytest.approx(plant.oil_kg * plant.oil_solubility)


def test_a_nearly_empty_system_is_an_ideal_gas():
    """With one gram left both sides are thin vapour: pressures fall in proportion to the mass that is there."""
    draw = drawn(0)
    tables = engine(draw.plate).tables
    for state in some_states(draw, 5, random.Random(5)):
        high = state._replace(high_kg=1e-4)
        half = state._replace(high_kg=0.5e-4)
        plant = draw.plant._replace(air_mol=0.0)
        full, thin = (pressures(tables, plant, draw.around, each)[0] for each in (high, half))
        assert thin == pytest.approx(0.5 * full, rel=1e-9)
        charge = state.high_kg + 1e-3
        oil = oil_at_rest(tables, plant, charge, state.log_low, state.high_kg, state.shell_k)
        assert 0.0 < oil < 1e-3

        dry = dry_low_side(tables, plant, math.exp(state.log_low), state.shell_k)
        if dry > 1e-3:
            wanted = oil_holds(tables, plant, math.exp(state.log_low), state.shell_k)
            assert oil / (charge - state.high_kg - oil) == pytest.approx(wanted / dry, rel=1e-9)
