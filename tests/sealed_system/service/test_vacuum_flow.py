"""Flow at low pressure: print, an independent library, limit cases by hand, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.sealed_system.service.vacuum_flow import (
    AIR,
    NITROGEN,
    R134A,
    R600A,
    STEAM,
    Pump,
    Tube,
    line_conductance,
    mixed,
    orifice_flow,
    pump_speed,
    tube_conductance,
)

ROOM_K = 293.15


@pytest.mark.parametrize(
    ("gas", "name"),
    [(AIR, "Air"), (NITROGEN, "Nitrogen"), (STEAM, "Water"), (R134A, "R134a"), (R600A, "IsoButane")],
)
def test_gases_agree_with_coolprop(gas, name):
    """Molar mass within 0.1 % and viscosity within 3 % of the correlations in CoolProp at 20 °C and 1 kPa."""
    from CoolProp.CoolProp import PropsSI

    assert gas.molar_mass == pytest.approx(PropsSI("M", name), rel=1e-3)
    assert gas.viscosity == pytest.approx(PropsSI("V", "T", ROOM_K, "P", 1000.0, name), rel=0.03)


def test_molecular_flow_by_hand():
    """At no pressure, air at 20 °C, d = 1 cm, l = 100 cm: 12.1 d³/(l + 4d/3) l/s, the rule of vacuum handbooks."""
    litres = 1e3 * tube_conductance(Tube(0.01, 1.0), AIR, 0.0, ROOM_K)

    assert litres == pytest.approx(12.1 / (100 + 4 / 3), rel=5e-3)


@pytest.mark.parametrize("pascal", [2e3, 1e5])
def test_viscous_flow_is_that_of_fluids(pascal):
    """Against laminar pressure drop in the package `fluids`, at pressures where molecular flow is below 2 %."""
    from fluids.friction import friction_laminar

    tube, drop = Tube(0.004, 2.0), 1.0
    flow = tube_conductance(tube, AIR, pascal, ROOM_K) * drop / pascal  # m³/s at that pressure
    density = pascal * AIR.molar_mass / (8.314462618 * ROOM_K)
    speed = flow / (0.25 * math.pi * tube.bore_m**2)
    reynolds = density * speed * tube.bore_m / AIR.viscosity
    by_fluids = friction_laminar(reynolds) * tube.length_m / tube.bore_m * 0.5 * density * speed**2

    assert reynolds < 2000
    assert by_fluids == pytest.approx(drop, rel=0.02)


@given(st.floats(0.0, 1e5), st.floats(0.1, 1e4), st.sampled_from([AIR, STEAM, R134A]))
def test_tubes_in_series_add_like_one_tube(pascal, factor, gas):
    """In viscous flow two equal tubes are one of twice the length; in any flow a line is worse than its worst tube."""
    tube = Tube(0.005, 1.0)
    two = line_conductance((tube, tube), gas, pascal, ROOM_K)
    assert two == pytest.approx(0.5 * tube_conductance(tube, gas, pascal, ROOM_K))
    worse = Tube(0.005, 1.0 + factor)
    assert line_conductance((tube, worse), gas, pascal, ROOM_K) < tube_conductance(worse, gas, pascal, ROOM_K)


def test_a_hose_of_half_the_bore_takes_sixteen_times_the_time():
    """Viscous, by hand: conductance goes with the fourth power of the bore; molecular with the third."""
    wide, thin = Tube(0.01, 100.0), Tube(0.005, 100.0)
    viscous = tube_conductance(wide, AIR, 1e5, ROOM_K) / tube_conductance(thin, AIR, 1e5, ROOM_K)
    molecular = tube_conductance(wide, AIR, 0.0, ROOM_K) / tube_conductance(thin, AIR, 0.0, ROOM_K)

    assert viscous == pytest.approx(16, rel=1e-3)
    assert molecular == pytest.approx(8, rel=1e-3)


def test_a_mixture_of_one_gas_is_that_gas():
    """All of one gas flows as that gas does."""
    found = mixed((AIR, STEAM), (0.0, 1.0))
    assert (found.molar_mass, found.viscosity) == (STEAM.molar_mass, STEAM.viscosity)


@pytest.mark.parametrize(("inlet", "share"), [(1e5, 1.0), (4.0, 0.5), (2.0, 0.0), (1.0, 0.0)])
def test_speed_of_the_pump(inlet, share):
    """By hand with 2 Pa ultimate: full high up, half at twice that pressure, nothing at it and below."""
    assert pump_speed(Pump(1e-3, 2.0), inlet) == pytest.approx(1e-3 * share, rel=1e-4)


def test_flow_chokes_where_fluids_says():
    """Flow is choked below the critical pressure that the package `fluids` gives, and falls above it."""
    from fluids.compressible import P_critical_flow

    critical = P_critical_flow(P=101325.0, k=1.4)
    assert orifice_flow(1e-10, 101325.0, 0.0, ROOM_K) == orifice_flow(1e-10, 101325.0, 0.999 * critical, ROOM_K)
    assert orifice_flow(1e-10, 101325.0, 1.05 * critical, ROOM_K) < orifice_flow(1e-10, 101325.0, 0.0, ROOM_K)
    # both formulas meet where the flow chokes
    assert orifice_flow(1e-10, 101325.0, 1.0001 * critical, ROOM_K) == pytest.approx(
        orifice_flow(1e-10, 101325.0, 0.0, ROOM_K), rel=1e-6
    )


def test_no_pressure_no_flow():
    """Equal pressures: nothing flows."""
    assert orifice_flow(1e-10, 101325.0, 101325.0, ROOM_K) == 0.0


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: Tube(4.8, 1.5), r"^the bore of the tube is 4\.8 m; it must be at most 0\.1 m\. Was it typed in mm\?$"),
        (lambda: Tube(0.0, 1.5), r"^the bore of the tube is 0 m; it must be above 0 m and finite$"),
        (lambda: Tube(0.005, math.nan), r"^the length of the tube is nan m; it must be above 0 m and finite$"),
        (lambda: Pump(3.0, 2.0), r"^the speed of the pump is 3 m³/s; .* Was it typed in litres or cubic feet"),
        (lambda: Pump(1e-3, -1.0), r"^the ultimate pressure of the pump is -1 Pa; it must be above 0 Pa and finite$"),
    ],
)
def test_what_is_refused(make, message):
    """Each message names the thing, its value, the rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        make()
