"""Cylinders: filling limit, liquid-full temperature, pressure, and whether one holds."""

from __future__ import annotations

import pytest
from chemicals.miscdata import lookup_VDI_tabular_data
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.refrigerants.saturation import bubble_pressure
from coldwright.sealed_system.service.cylinder import (
    FILLING_DENSITY,
    FillRule,
    cylinder_volume,
    filling_limit,
    liquid_density,
    room_left,
)
from coldwright.sealed_system.service.cylinder_heating import (
    CylinderOutcome,
    cylinder_outcome,
    cylinder_pressure,
    liquid_full_temperature,
    liquid_share,
)

ICE = 273.15
VDI = {"R-134a": "811-97-2", "R-600a": "75-28-5", "R-290": "74-98-6", "R-22": "75-45-6"}
POUND = 0.45359237


@pytest.mark.parametrize("refrigerant", VDI)
def test_density_of_liquid_against_the_vdi_tables(refrigerant):
    """Every row of the VDI Heat Atlas from -40 °C to 60 °C (library chemicals) agrees within 0.2 %."""
    temperatures, densities = lookup_VDI_tabular_data(VDI[refrigerant], "Density (l)")
    rows = [(t, d) for t, d in zip(temperatures, densities, strict=True) if 233.0 < t < 333.0]

    assert len(rows) >= 3
    for kelvin, density in rows:
        assert liquid_density(refrigerant, kelvin) == pytest.approx(density, rel=2e-3)


def test_the_limit_by_hand():
    """47.7 lb of water capacity, R-134a of 1206.7 kg/m³ at 25 °C (from memory): 80 % holds 46.1 lb."""
    limit = filling_limit("R-134a", 47.7 * POUND)

    assert limit.rule is FillRule.EIGHTY_PER_CENT
    assert limit.mass_kg / POUND == pytest.approx(0.8 * 47.7 * 1206.7 / 999.0, rel=1e-3)


@pytest.mark.parametrize("refrigerant", ["R-134a", "R-600a", "R-290", "R-404A", "R-12", "R-22"])
def test_the_limit_leaves_room_when_hot(refrigerant):
    """Filled to the limit, liquid does not fill the cylinder at 55 °C, and the filling density is not passed."""
    limit, volume = filling_limit(refrigerant, 12.0).mass_kg, cylinder_volume(12.0)

    assert liquid_share(refrigerant, limit, volume, ICE + 55.0) < 1.0
    assert limit <= FILLING_DENSITY.get(refrigerant, 9.9) * 12.0
    assert liquid_share(refrigerant, limit, volume, ICE + 25.0) == pytest.approx(0.8, abs=0.02)


def test_the_blend_comes_closest_to_full():
    """80 % of R-404A at 25 °C is above 95 % at 54.4 °C; R-600a stays below 87 %."""
    volume = cylinder_volume(12.0)
    shares = {
        name: liquid_share(name, filling_limit(name, 12.0).mass_kg, volume, ICE + 54.4) for name in ("R-404A", "R-600a")
    }

    assert shares["R-404A"] > 0.95
    assert shares["R-600a"] < 0.87


@settings(max_examples=10)
@given(share=st.floats(0.84, 0.98))
def test_full_is_full(share):
    """At the liquid-full temperature the share of liquid is one, and more refrigerant is full sooner."""
    volume = 0.012
    mass = share * volume * liquid_density("R-134a", ICE + 10.0)
    full = liquid_full_temperature("R-134a", mass, volume)

    assert liquid_share("R-134a", mass, volume, min(full, ICE + 69.9)) == pytest.approx(1.0, abs=1e-6)
    assert liquid_full_temperature("R-134a", 1.01 * mass, volume) < full


def test_a_full_cylinder_gains_bars_a_kelvin():
    """Before it is full the pressure is the vapour pressure; past it each kelvin adds 4 bar to 8 bar, and it may burst.

    Thermal expansion over compressibility of R-134a near 50 °C, 0.0037 over 0.0006 per bar, is about 6 bar a kelvin
    (both from memory).
    """
    volume = 0.012
    mass = volume * liquid_density("R-134a", ICE + 45.0)
    before = cylinder_pressure("R-134a", mass, volume, ICE + 44.0)
    after = [cylinder_pressure("R-134a", mass, volume, ICE + kelvin) for kelvin in (47.0, 48.0, 60.0)]

    assert before == pytest.approx(bubble_pressure("R-134a", ICE + 44.0), rel=1e-9)
    assert 4e5 < after[1] - after[0] < 8e5
    assert cylinder_outcome(after[2] - 1.01325e5, 400 * 6894.757) is CylinderOutcome.MAY_BURST
    assert cylinder_outcome(before - 1.01325e5, 400 * 6894.757) is CylinderOutcome.HOLDS


def test_vapour_alone_is_near_an_ideal_gas():
    """20 g of R-134a in 12 L at 25 °C: 40.5 kPa by the ideal gas law, a little less in truth."""
    found = cylinder_pressure("R-134a", 0.020, 0.012, 298.15)
    ideal = 0.020 / 0.102032 * 8.314462618 * 298.15 / 0.012

    assert 0.97 * ideal < found < ideal
    assert liquid_share("R-134a", 0.020, 0.012, 298.15) == 0.0


def test_outcome_between_service_and_test_pressure():
    """Above 400 psi and up to 800 psi the relief device decides."""
    psi = 6894.757
    assert cylinder_outcome(400 * psi, 400 * psi) is CylinderOutcome.HOLDS
    assert cylinder_outcome(800 * psi, 400 * psi) is CylinderOutcome.ABOVE_SERVICE
    assert cylinder_outcome(801 * psi, 400 * psi) is CylinderOutcome.MAY_BURST


def test_room_left_by_hand():
    """13.0 kg on the scale, 8.0 kg tare, 9.0 kg limit: 4.0 kg; an overfilled one is below zero."""
    assert room_left(13.0, 8.0, 9.0) == pytest.approx(4.0)
    assert room_left(18.0, 8.0, 9.0) == pytest.approx(-1.0)


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: room_left(7.0, 8.0, 9.0), r"gross weight is 7 kg, below the tare of 8 kg.*swapped"),
        (lambda: room_left(7.0, -8.0, 9.0), r"tare is -8 kg.*TW"),
        (lambda: filling_limit("R-134a", 0.0), r"water capacity is 0 kg.*WC"),
        (lambda: filling_limit("R-134a", 477.0), r"water capacity is 477 kg.*lb"),
        (lambda: liquid_share("R-134a", 5.0, 0.012, 473.15), r"temperature of the cylinder is 200 °C"),
        (lambda: liquid_full_temperature("R-134a", 30.0, 0.012), r"do not fit even at -40 °C.*lb"),
        (lambda: liquid_full_temperature("R-134a", 2.0, 0.012), r"still have room at 65 °C"),
        (lambda: cylinder_outcome(1e6, 0.0), r"service pressure is 0"),
    ],
)
def test_bad_input_is_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
