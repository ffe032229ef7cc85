"""A cycle at work: flows by hand, the way there and back, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.sealed_system.cycle import cycle_at
from coldwright.sealed_system.cycle_duty import (
    clearance_efficiency,
    displacement_rate,
    duty_from_capacity,
    duty_from_displacement,
    duty_from_flow,
)
from coldwright.sealed_system.cycle_states import Settings

CYCLE = cycle_at("R-134a", 253.15, 318.15, Settings(superheat_k=8, subcooling_k=6, isentropic_efficiency=0.6))


@given(st.floats(20, 2000), st.floats(0.4, 1.0))
def test_displacement_and_back(watts, share):
    """The displacement that a capacity needs gives that capacity."""
    swept = duty_from_capacity(CYCLE, watts).displacement(share)
    assert duty_from_displacement(CYCLE, swept, share).capacity_w == pytest.approx(watts, rel=1e-9)


@given(st.floats(1e-5, 0.1))
def test_watts_are_flow_times_heat(flow):
    """Capacity plus work is the condenser's heat where nothing is lost on the way; COP is their ratio."""
    duty = duty_from_flow(CYCLE, flow)
    assert duty.capacity_w + duty.power_w == pytest.approx(duty.condenser_w, rel=1e-9)
    assert duty.capacity_w / duty.power_w == pytest.approx(CYCLE.cop, rel=1e-9)
    assert duty.suction_m3_per_s * CYCLE.suction.density_kg_per_m3 == pytest.approx(flow, rel=1e-12)


def test_displacement_of_a_small_compressor_by_hand():
    """5 cm³ at 48 turns a second sweep 240 cm³ a second; at 70 % it takes in 168 cm³."""
    swept = displacement_rate(5e-6, 48.0)
    assert swept == pytest.approx(240e-6, rel=1e-12)
    assert duty_from_displacement(CYCLE, swept, 0.7).suction_m3_per_s == pytest.approx(168e-6, rel=1e-12)


def test_clearance_at_its_limits():
    """No clearance takes in all that is swept; 4 % takes off 4 % of (volume ratio less one)."""
    assert clearance_efficiency(CYCLE, 0.0) == 1.0
    ratio = CYCLE.ideal_discharge.density_kg_per_m3 / CYCLE.suction.density_kg_per_m3
    assert clearance_efficiency(CYCLE, 0.04) == pytest.approx(1.04 - 0.04 * ratio, rel=1e-12)
    assert clearance_efficiency(cycle_at("R-134a", 263.15, 263.65), 0.04) == pytest.approx(1.0, abs=1e-3)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: duty_from_flow(CYCLE, 0.0), r"^mass flow is 0 kg/s; it must be above zero and finite$"),
        (lambda: duty_from_capacity(CYCLE, -130.0), r"^capacity is -130 W; it must be above zero"),
        (lambda: duty_from_displacement(CYCLE, math.nan, 0.7), r"^displacement is nan m³/s"),
        (lambda: duty_from_displacement(CYCLE, 1e-4, 70.0), r"^volumetric efficiency is 70; .* Was 70 % meant"),
        (
            lambda: duty_from_capacity(CYCLE, 130.0).displacement(0.0),
            r"^volumetric efficiency is 0; it must be above 0",
        ),
        (lambda: displacement_rate(5.0, 48.0), r"^swept volume is 5 m³; it must be below 0\.001 m³\. Was it in cm³\?$"),
        (lambda: displacement_rate(5e-6, 0.0), r"^turns in a second is 0 Hz"),
        (lambda: clearance_efficiency(CYCLE, 4.0), r"^clearance is 4; it must be from 0 to 1\. Was 4 % meant\?"),
        (
            lambda: clearance_efficiency(CYCLE, 0.5),
            r"^a clearance of 0\.5 at a pressure ratio of 8\.7 takes in nothing",
        ),
    ],
)
def test_what_cannot_be_is_said(call, message):
    """Name, value with unit, rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        call()
