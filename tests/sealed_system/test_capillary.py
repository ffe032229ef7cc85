"""The capillary against a published case, two published relations and what a tube must do."""

from __future__ import annotations

import itertools
import math
import random
import statistics

import pytest
from fluids.friction import Churchill_1977

from coldwright.refrigerants.kernels import compiled, saturation
from coldwright.refrigerants.saturation import bubble_pressure, bubble_temperature
from coldwright.refrigerants.table_cache import tables_of
from coldwright.sealed_system.capillary import ENTRANCE, capillary_flow, churchill
from coldwright.sealed_system.engine import as_arrays
from tests.sealed_system.sealed_functions import (
    ROUGHNESS,
    ashrae_subcooled,
    ashrae_two_phase,
    choi,
    enthalpy_at,
    subcooled,
    tube_flow,
)

NAMES = ("R-134a", "R-600a", "R-290")
BORE, LENGTH = 0.8e-3, 3.0


def tubes(name: str, count: int) -> list[tuple[float, float, float, float]]:
    """Bores, lengths, pressures at the inlet and subcoolings as plug-in coolers have them."""
    dice = random.Random(f"tubes {name}")
    return [
        (
            dice.uniform(0.66e-3, 1.1e-3),
            dice.uniform(1.5, 3.3),
            bubble_pressure(name, dice.uniform(305.0, 328.0)),
            dice.uniform(3.0, 15.0),
        )
        for _ in range(count)
    ]


def share_within(off: list[float], limit: float) -> float:
    """Share of deviations inside a limit."""
    return sum(abs(each) < limit for each in off) / len(off)


def told(off: list[float]) -> str:
    """Mean and spread of deviations in words."""
    return f"mean {statistics.mean(off):+.1%}, from {min(off):+.1%} to {max(off):+.1%}"


def test_subcooled_r134a_within_5_percent_of_ashrae(sample, figure):
    """Against the ASHRAE relation: 97 of 100 tubes within 5 %, every one within 7 %."""
    off = [
        tube_flow("R-134a", bore, length, p, subcooled("R-134a", p, below))
        / ashrae_subcooled("R-134a", bore, length, p, below)
        - 1.0
        for bore, length, p, below in tubes("R-134a", sample(small=100, full=2000))
    ]
    figure("capillary, subcooled R-134a against ASHRAE", f"{told(off)}; within 5 %: {share_within(off, 0.05):.1%}")
    assert share_within(off, 0.05) > 0.97
    assert share_within(off, 0.07) == 1.0


@pytest.mark.parametrize("name", ["R-600a", "R-290"])
def test_other_subcooled_refrigerants_within_15_percent_of_ashrae(name, sample, figure):
    """The same for hydrocarbons: every tube within 15 %."""
    off = [
        tube_flow(name, bore, length, p, subcooled(name, p, below)) / ashrae_subcooled(name, bore, length, p, below)
        - 1.0
        for bore, length, p, below in tubes(name, sample(small=100, full=2000))
    ]
    figure(f"capillary, subcooled {name} against ASHRAE", told(off))
    assert share_within(off, 0.15) == 1.0


@pytest.mark.parametrize(("name", "least"), [("R-134a", 0.95), ("R-600a", 0.9), ("R-290", 0.65)])
def test_subcooled_against_choi(name, least, sample, figure):
    """Within 15 % of Choi et al. for most tubes; the two relations are as far from each other as we are from either.

    Choi et al. give 97 % of the literature's data within 15 % (abstract, seen).
    """
    ours, theirs = [], []
    for bore, length, p, below in tubes(name, sample(small=100, full=2000)):
        flow, relation = tube_flow(name, bore, length, p, subcooled(name, p, below)), choi(name, bore, length, p, below)
        ours.append(flow / relation - 1.0)
        theirs.append(ashrae_subcooled(name, bore, length, p, below) / relation - 1.0)
    figure(
        f"capillary, subcooled {name} against Choi et al.",
        f"{told(ours)}; within 15 %: {share_within(ours, 0.15):.1%}; ASHRAE against Choi et al.: {told(theirs)}",
    )
    assert share_within(ours, 0.15) > least
    assert all(off < max(0.2, other + 0.05) for off, other in zip(ours, theirs, strict=True))
    assert all(off > min(-0.2, other - 0.15) for off, other in zip(ours, theirs, strict=True))


@pytest.mark.parametrize("name", NAMES)
def test_two_phase_inlet_against_ashrae(name, sample, figure):
    """With vapour at the inlet: within 15 % of the ASHRAE relation on the mean, nine tubes of ten within 30 %."""
    dice = random.Random(f"wet {name}")
    off = []
    for bore, length, p, _ in tubes(name, sample(small=100, full=2000)):
        x = dice.uniform(0.03, 0.25)
        flow = tube_flow(name, bore, length, p, enthalpy_at(name, p, x))
        off.append(flow / ashrae_two_phase(name, bore, length, p, x) - 1.0)
    figure(f"capillary, two-phase {name} against ASHRAE", f"{told(off)}; within 15 %: {share_within(off, 0.15):.1%}")
    assert abs(statistics.mean(off)) < 0.15
    assert share_within(off, 0.3) > 0.9


@pytest.mark.parametrize("reynolds", [3.0, 500.0, 2100.0, 3000.0, 8e3, 3e4, 1e6])
@pytest.mark.parametrize("roughness", [1e-6, 5e-4, 5e-3])
def test_friction_is_churchills(reynolds, roughness):
    """The friction factor is that of the library fluids for the same correlation."""
    assert churchill(reynolds, roughness) == pytest.approx(Churchill_1977(reynolds, roughness), rel=2e-3)


def test_slow_flow_is_laminar():
    """Far below the transition the factor is 64 / Re (Hagen-Poiseuille)."""
    assert churchill(20.0, 1e-4) == pytest.approx(64.0 / 20.0, rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_liquid_alone_by_hand(name):
    """Liquid that never boils: Darcy-Weisbach, with one and a half velocity heads at the inlet, solved by hand."""
    pressure = bubble_pressure(name, 313.15)
    enthalpy = subcooled(name, pressure, 30.0)
    outside = 0.8 * pressure
    flow = capillary_flow(tables_of(name), BORE, LENGTH, ROUGHNESS, pressure, enthalpy, outside)
    s = saturation(tables_of(name), pressure)
    area = math.pi * BORE**2 / 4.0
    speed = 1.0
    for _ in range(60):
        factor = Churchill_1977(speed * BORE / (s.liquid_mu * s.liquid_v), ROUGHNESS)
        speed = math.sqrt(2.0 * (pressure - outside) * s.liquid_v / (factor * LENGTH / BORE + 2.0 * ENTRANCE))
    assert flow == pytest.approx(area * speed / s.liquid_v, rel=4e-3)  # ours turns three times from its first guess


@pytest.mark.parametrize("name", NAMES)
def test_no_drop_no_flow(name):
    """Equal pressures move nothing, and a small drop moves little."""
    p = bubble_pressure(name, 313.15)
    enthalpy = subcooled(name, p, 5.0)
    tables = tables_of(name)
    assert capillary_flow(tables, BORE, LENGTH, ROUGHNESS, p, enthalpy, p) == 0.0
    small, wide = (capillary_flow(tables, BORE, LENGTH, ROUGHNESS, p, enthalpy, p * part) for part in (0.9999, 0.5))
    assert 0.0 < small < 0.05 * wide


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("border", [0.0, 1.0])
def test_nothing_jumps_from_liquid_to_mixture_to_vapour(name, border):
    """Across the bubble point and the dew point at the inlet the flow is the same from both sides to 1e-6."""
    for kelvin in (305.0, 315.0, 328.0):
        p = bubble_pressure(name, kelvin)
        below, above = (tube_flow(name, BORE, LENGTH, p, enthalpy_at(name, p, border) + step) for step in (-1e-3, 1e-3))
        assert below == pytest.approx(above, rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_jumps_where_boiling_begins_outside(name):
    """The flow is the same whether the tube ends just above or just below the pressure at which boiling begins."""
    p = bubble_pressure(name, 315.0)
    boiling = bubble_pressure(name, 305.0)
    enthalpy = subcooled(name, p, bubble_temperature(name, p) - 305.0)
    above, below = (
        capillary_flow(tables_of(name), BORE, LENGTH, ROUGHNESS, p, enthalpy, boiling * (1.0 + step))
        for step in (3e-3, -3e-3)
    )
    assert below == pytest.approx(above, rel=2e-2)
    assert below > above


@pytest.mark.parametrize("name", NAMES)
def test_more_heat_at_the_inlet_less_flow(name):
    """From 20 K of subcooling to superheated vapour the flow only falls, by small steps."""
    p = bubble_pressure(name, 315.0)
    s = saturation(tables_of(name), p)
    start, end = subcooled(name, p, 20.0), s.vapour_h + 15.0 * s.vapour_cp
    flows = [tube_flow(name, BORE, LENGTH, p, start + (end - start) * n / 400.0) for n in range(401)]
    for one, other in itertools.pairwise(flows):
        assert one > other > 0.9 * one


@pytest.mark.parametrize("name", NAMES)
def test_more_pressure_more_flow(name):
    """At one enthalpy the flow rises with the pressure at the inlet; a longer tube or a finer bore passes less."""
    enthalpy = subcooled(name, bubble_pressure(name, 310.0), 2.0)
    flows = [tube_flow(name, BORE, LENGTH, bubble_pressure(name, 300.0 + n), enthalpy) for n in range(35)]
    assert all(more > less for less, more in itertools.pairwise(flows))
    p = bubble_pressure(name, 315.0)
    assert tube_flow(name, BORE, 1.1 * LENGTH, p, enthalpy) < tube_flow(name, BORE, LENGTH, p, enthalpy)
    assert tube_flow(name, 0.9 * BORE, LENGTH, p, enthalpy) < tube_flow(name, BORE, LENGTH, p, enthalpy)


@pytest.mark.parametrize("name", NAMES)
def test_a_choked_tube_does_not_feel_its_outlet(name):
    """Below the choking pressure the flow stays within 0.6 % however far the outlet falls; above it falls."""
    p = bubble_pressure(name, 315.0)
    enthalpy = subcooled(name, p, 5.0)
    flows = [
        capillary_flow(tables_of(name), BORE, LENGTH, ROUGHNESS, p, enthalpy, bubble_pressure(name, kelvin))
        for kelvin in (240.0, 245.0, 250.0, 255.0, 260.0)
    ]
    assert max(flows) / min(flows) < 1.006
    assert capillary_flow(tables_of(name), BORE, LENGTH, ROUGHNESS, p, enthalpy, 0.8 * p) < 0.85 * min(flows)


def test_choking_is_where_the_mixture_reaches_its_own_sound():
    """At a choked outlet G² (-dv/dp) is 1 along the enthalpy of the flow (definition of choking), within 3 %.

    The speed of sound of a homogeneous mixture in equilibrium follows from the same slope of volume with pressure.
    """
    name, p = "R-134a", bubble_pressure("R-134a", 315.0)
    tables, enthalpy = tables_of(name), subcooled("R-134a", bubble_pressure("R-134a", 315.0), 5.0)
    flux = tube_flow(name, BORE, LENGTH, p, enthalpy) / (math.pi * BORE**2 / 4.0)

    def volume(pressure: float) -> float:
        s = saturation(tables, pressure)
        x = (enthalpy - s.liquid_h) / (s.vapour_h - s.liquid_h)
        return s.liquid_v + x * (s.vapour_v - s.liquid_v)

    def mach_squared(pressure: float) -> float:
        return flux**2 * (volume(pressure * 0.999) - volume(pressure * 1.001)) / (0.002 * pressure)

    low, high = 0.05 * p, 0.9 * p
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if mach_squared(middle) > 1.0 else (low, middle)
    choking = capillary_flow(tables, BORE, LENGTH, ROUGHNESS, p, enthalpy, low)
    assert choking == pytest.approx(tube_flow(name, BORE, LENGTH, p, enthalpy), rel=6e-3)
    assert capillary_flow(tables, BORE, LENGTH, ROUGHNESS, p, enthalpy, 2.0 * low) < 0.98 * choking


def test_machine_code_gives_the_same():
    """Compiled flow agrees with plain Python to 1e-12."""
    pytest.importorskip("numba")
    tables = tables_of("R-600a")
    arrays, fast = as_arrays(tables), compiled(capillary_flow)
    for bore, length, p, below in tubes("R-600a", 10):
        arguments = (bore, length, ROUGHNESS, p, subcooled("R-600a", p, below), 0.1 * p)
        assert fast(arrays, *arguments) == pytest.approx(capillary_flow(tables, *arguments), rel=1e-12)
