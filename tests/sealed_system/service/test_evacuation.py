"""Evacuation and hold: closed forms, balances by hand, what comes to rest where, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from coldwright.errors import InputError
from coldwright.quantities.constants import SEA_LEVEL_PA
from coldwright.refrigerants.water import water_vapour_pressure
from coldwright.sealed_system.service.evacuation import evacuate, hold
from coldwright.sealed_system.service.vacuum_flow import (
    AIR,
    QUARTER_INCH_HOSE,
    VALVE_CORE,
    Pump,
    Tube,
    orifice_flow,
)
from coldwright.sealed_system.service.vacuum_system import (
    MANIFOLD_M3,
    Rig,
    Side,
    VacuumState,
    VacuumSystem,
    diluted_share,
    filled_to,
    opened,
)

MICRON = 0.133322387415
PUMP = Pump(1e-3, 2.0)
HOSE = (QUARTER_INCH_HOSE, VALVE_CORE)
SHUT = Tube(1e-6, 1000.0)  # lets nothing through that counts
GAS_J, ROOM_K = 8.314462618, 293.15


def state_of(near: float, far: float, **more: float) -> VacuumState:
    """Air alone at two pressures, nothing in the manifold."""
    return VacuumState((near, 0.0, 0.0, 0.0), (far, 0.0, 0.0, 0.0), (near, 0.0, 0.0, 0.0), **more)


def held(system: VacuumSystem, state: VacuumState) -> float:
    """All gas in a system without rig, and all water, as if vapour [Pa·m³]."""
    as_gas = GAS_J * system.wall_k / 0.018015
    return state.near_pa * system.near_m3 + state.far_pa * system.far_m3 + state.water_kg * as_gas


def test_pump_on_a_wide_short_tube_is_exponential():
    """By hand: p = p_u + (p_0 - p_u) e^(-S t / V) where nothing but the pump is in the way."""
    system = replace(VacuumSystem(), capillary=SHUT, oil_kg=0.0)
    rig = Rig(PUMP, (Tube(0.05, 0.05),))
    volume = system.near_m3 + rig.volume_m3
    record = evacuate(system, opened(system), rig, 20.0, readings=5)
    exact = 2.0 + (SEA_LEVEL_PA - 2.0) * np.exp(-1e-3 * record.seconds / volume)

    assert record.near_pa == pytest.approx(exact, rel=0.01)


def test_the_far_side_empties_through_the_capillary_as_by_hand():
    """Laminar into a vacuum, C = k·p/2: 1/p - 1/p_0 = k t / (2 V), as long as the flow is viscous."""
    system = replace(VacuumSystem(), oil_kg=0.0)
    record = evacuate(system, opened(system), Rig(PUMP, (Tube(0.02, 0.3),)), 1800.0, readings=4)
    k = math.pi * system.capillary.bore_m**4 / (128 * AIR.viscosity * system.capillary.length_m)
    exact = 1 / (1 / SEA_LEVEL_PA + k * record.seconds / (2 * system.far_m3))

    assert record.far_pa == pytest.approx(exact, rel=0.03)
    # half an hour of pumping on one side leaves far more than ten thousand microns behind the capillary
    assert record.far_pa[-1] > 10_000 * MICRON


def test_the_gauge_at_the_pump_flatters():
    """While gas flows, the pump has less than the system, and the system less than what is behind the capillary."""
    record = evacuate(VacuumSystem(), opened(VacuumSystem(), 1e-3), Rig(PUMP, HOSE), 900.0)
    later = slice(5, None)

    assert np.all(record.pump_pa[later] < 0.5 * record.near_pa[later])
    assert np.all(record.near_pa[later] < record.far_pa[later])


def test_two_hoses_beat_one_and_a_core_slows():
    """Pumping from both sides leaves the far side far lower; taking the core out of the valve is quicker."""
    system = VacuumSystem()
    one, both, no_core = (
        evacuate(system, opened(system), rig, 900.0, readings=3).end
        for rig in (Rig(PUMP, HOSE), Rig(PUMP, HOSE, HOSE), Rig(PUMP, (QUARTER_INCH_HOSE,)))
    )
    assert both.far_pa < one.far_pa / 100
    assert no_core.near_pa < one.near_pa


def test_a_tight_system_keeps_its_gas():
    """Held closed, what was in it stays in it, to 1e-6, and both sides come to one pressure weighted by volume."""
    system = replace(VacuumSystem(), oil_kg=0.0)
    start = state_of(50.0, 5000.0)
    record = hold(system, start, 5 * 86400.0, readings=11)
    rest = held(system, start) / (system.near_m3 + system.far_m3)

    assert [held(system, state) for state in record.states] == pytest.approx([held(system, start)] * 11, rel=1e-6)
    assert record.end.near_pa == pytest.approx(rest, rel=0.01)
    assert record.end.far_pa == pytest.approx(rest, rel=0.02)


def test_hoses_count_in_the_balance():
    """With the pump's valve shut and the hoses on, gas spreads over the hoses too."""
    system = replace(VacuumSystem(), capillary=SHUT, oil_kg=0.0)
    rig = Rig(PUMP, HOSE)
    assert rig.volume_m3 == pytest.approx(MANIFOLD_M3 + sum(tube.volume_m3 for tube in HOSE))
    start = replace(state_of(100.0, 100.0), manifold=(10.0, 0.0, 0.0, 0.0))
    end = hold(system, start, 3600.0, rig, readings=2).end
    rest = (100.0 * system.near_m3 + 10.0 * rig.volume_m3) / (system.near_m3 + rig.volume_m3)

    assert (end.near_pa, end.pump_pa) == (pytest.approx(rest, rel=1e-3), pytest.approx(rest, rel=1e-3))


@pytest.mark.parametrize("side", list(Side))
def test_a_leak_rises_in_a_straight_line(side):
    """By hand: choked flow over the volume of its side, the same at each reading; air comes in, nothing else."""
    system = replace(VacuumSystem(), capillary=SHUT, leak_m2=1e-11, leak_side=side, oil_kg=0.0)
    record = hold(system, state_of(40.0, 40.0), 1200.0, readings=13)
    volume = system.near_m3 if side is Side.NEAR else system.far_m3
    rise = orifice_flow(1e-11, SEA_LEVEL_PA, 0.0, ROOM_K) / volume
    pascal = record.near_pa if side is Side.NEAR else record.far_pa

    assert pascal == pytest.approx(40.0 + rise * record.seconds, rel=1e-4)
    assert record.end.near[1:] == (0.0, 0.0, 0.0)


def test_a_leak_works_outward_as_well():
    """Above the pressure of the room gas goes out, until both are equal."""
    system = replace(VacuumSystem(), leak_m2=1e-7, oil_kg=0.0, capillary=Tube(0.005, 1.0))
    end = hold(system, state_of(1.4e5, 1.4e5), 3600.0, readings=3).end
    assert end.near_pa == pytest.approx(SEA_LEVEL_PA, rel=1e-3)


@pytest.mark.parametrize("celsius", [10.0, 20.0, 35.0])
def test_water_levels_off_at_its_vapour_pressure(celsius):
    """Held with water in it, the pressure comes to the vapour pressure at the walls and stays."""
    system = replace(VacuumSystem(), wall_k=273.15 + celsius, wet_w_per_k=0.3)
    start = replace(state_of(0.0, 0.0), water_kg=5e-3, wet_k=system.wall_k)
    record = hold(system, start, 6 * 3600.0, readings=7)

    assert record.near_pa[-2:] == pytest.approx([water_vapour_pressure(system.wall_k)] * 2, rel=0.01)
    assert 4.8e-3 < record.end.water_kg < 5e-3


def test_a_cold_wall_hides_the_water_as_ice():
    """At -25 °C ice levels off at its own vapour pressure, below 500 microns: tight to the eye, wet in truth."""
    system = replace(VacuumSystem(), wall_k=248.15)
    start = replace(state_of(0.0, 0.0), water_kg=2e-3, wet_k=system.wall_k)
    end = hold(system, start, 12 * 3600.0, readings=3).end

    assert end.near_pa == pytest.approx(water_vapour_pressure(248.15), rel=0.01)
    assert end.near_pa < 500 * MICRON
    assert end.is_ice


def test_pumped_fast_the_water_freezes():
    """A large pump on a wide hose takes heat faster than the wall gives it: the water turns to ice."""
    system = VacuumSystem()
    record = evacuate(system, opened(system, 3e-3), Rig(Pump(3e-3, 1.0), (Tube(0.01, 0.5),)), 1800.0)

    assert record.end.is_ice
    assert np.all(np.diff(record.water_kg) <= 1e-9)
    # heat by hand: what left took at most what the wall gave to a patch at the end's temperature, plus its own heat
    given = system.wet_w_per_k * (system.wall_k - record.end.wet_k) * 1800.0
    own = 3e-3 * (4186 * 20 + 333.6e3 + 2100 * 40) + system.wet_j_per_k * 60
    assert record.water_kg[0] - record.end.water_kg < (given + own) / 2.5e6


def test_drying_takes_the_time_that_heat_needs():
    """By hand: with ice at T, mass × 2.83 MJ/kg = U·(T_wall - T)·t; halving the heat doubles the time."""
    rig = Rig(Pump(3e-3, 1.0), (Tube(0.01, 0.5),))

    def rate(heat: float) -> tuple[float, float]:
        system = replace(VacuumSystem(), wet_w_per_k=heat)
        record = evacuate(system, opened(system, 3e-3), rig, 3000.0, readings=31)
        grams = record.water_kg[20] - record.water_kg[30]
        kelvin = float(np.mean([state.wet_k for state in record.states[20:]]))
        return float(grams) / 1000.0, heat * (system.wall_k - kelvin) / 2.834e6

    for heat in (0.02, 0.04):
        found, by_hand = rate(heat)
        assert found == pytest.approx(by_hand, rel=0.03)


def test_water_is_kept_in_the_balance():
    """Water that leaves as vapour is in the gas: held closed, gas and water together stay, to 1e-5."""
    system = replace(VacuumSystem(), oil_kg=0.0)
    start = replace(state_of(20.0, 20.0), water_kg=1e-3)
    record = hold(system, start, 7200.0, readings=5)

    assert [held(system, state) for state in record.states] == pytest.approx([held(system, start)] * 5, rel=1e-5)


def test_oil_gives_its_refrigerant_back():
    """By hand: oil at Henry's law and gas share what there is, m = p (m_oil / H + V M / (R T))."""
    system = replace(VacuumSystem(), capillary=SHUT)
    start = replace(state_of(0.0, 0.0), dissolved_kg=2e-3)
    end = hold(system, start, 86400.0, readings=3).end
    gas_kg_per_pa = system.near_m3 * system.refrigerant.molar_mass / (GAS_J * system.wall_k)
    by_hand = 2e-3 / (system.oil_kg / system.henry_pa + gas_kg_per_pa)

    assert end.near_pa == pytest.approx(by_hand, rel=5e-3)
    assert end.dissolved_kg == pytest.approx(by_hand * system.oil_kg / system.henry_pa, rel=5e-3)


def test_each_break_dilutes_the_air():
    """Two evacuations with a break of nitrogen between: of the first air only the product of the shares is left."""
    system = replace(VacuumSystem(), oil_kg=0.0)
    rig = Rig(PUMP, HOSE, HOSE)
    state, shares = opened(system), []
    for _ in range(2):
        state = evacuate(system, state, rig, 60.0, readings=2).end
        shares.append(state.near_pa / SEA_LEVEL_PA)
        state = filled_to(system, state, SEA_LEVEL_PA, both_sides=True)
        assert (state.near_pa, state.far_pa) == (pytest.approx(SEA_LEVEL_PA), pytest.approx(SEA_LEVEL_PA))
    assert state.near[0] / SEA_LEVEL_PA == pytest.approx(shares[0] * shares[1], rel=0.05)


def test_dilution_by_hand():
    """1500 microns of 760 000, three times: 0.001974³ = 7.7e-9; one evacuation alone leaves its own share."""
    reached = 1500 * MICRON
    assert diluted_share((reached,), 760_000 * MICRON) == pytest.approx(1500 / 760_000)
    assert diluted_share((reached,) * 3, 760_000 * MICRON) == pytest.approx(7.69e-9, rel=1e-3)


def test_a_break_on_one_side_leaves_the_far_side():
    """Filled quickly from one side, the far side keeps its vacuum; in time both share, 0.8 and 0.2 by volume."""
    system = replace(VacuumSystem(), oil_kg=0.0)
    filled = filled_to(system, state_of(100.0, 100.0), 1.1e5)
    assert (filled.near_pa, filled.far_pa) == (pytest.approx(1.1e5), 100.0)
    assert hold(system, filled, 3600.0, readings=2).end.far_pa == pytest.approx(0.8 * 1.1e5 + 0.2 * 100.0, rel=0.01)


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: VacuumSystem(near_m3=2.0), r"^the volume of the near side is 2 m³; .* Was it typed in litres\?$"),
        (lambda: VacuumSystem(far_m3=-1e-3), r"^the volume of the far side is -0\.001 m³; it must be above 0 m³"),
        (lambda: VacuumSystem(wall_k=20.0), r"^the temperature of the walls is 20 K; .* Was it typed in °C\?$"),
        (lambda: VacuumSystem(leak_m2=1.0), r"^the leak is 1 m²; it must be 0 to 1e-6 m²\. Was it typed in mm²\?$"),
        (lambda: opened(VacuumSystem(), water_kg=5.0), r"^the water is 5 kg; .* Was it typed in grams\?$"),
        (
            lambda: opened(VacuumSystem(), 0.0, -1e-3),
            r"^the dissolved refrigerant is -0\.001 kg; it must be 0 to 0\.2 kg",
        ),
        (lambda: Rig(PUMP, ()), r"^the rig has no hose to the near side; give at least one tube$"),
        (
            lambda: filled_to(VacuumSystem(), opened(VacuumSystem()), 2e4),
            r"^the vacuum is to be broken to 20000 Pa absolute; .* Was it a gauge pressure\?",
        ),
        (
            lambda: diluted_share((1500.0, 2e5), SEA_LEVEL_PA),
            r"^an evacuation reached 200000 Pa; .* Was it typed in microns\?$",
        ),
        (
            lambda: hold(VacuumSystem(), opened(VacuumSystem()), 0.0),
            r"^the time is 0 s; it must be above 0 s and at most a week",
        ),
        (
            lambda: hold(VacuumSystem(), opened(VacuumSystem()), 10.0, readings=1),
            r"^the number of readings is 1; it must be at least 2",
        ),
    ],
)
def test_what_is_refused(act, message):
    """Each message names the thing, its value, the rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        act()
