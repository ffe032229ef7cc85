"""Gas through a hose, against an independent library and limit cases."""

from __future__ import annotations

import math

import pytest
from fluids.compressible import P_isothermal_critical_flow, isothermal_gas
from fluids.friction import friction_factor as library_friction
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.sealed_system.service.gas_flow import Hose, choked_ratio, friction_factor, hose_flow, isothermal_flow

CONSTANT = 8.314462618 / 0.102032
KELVIN = 293.15


@pytest.mark.parametrize("outlet", [0.95, 0.7, 0.4])
@pytest.mark.parametrize("loss", [2.0, 10.0, 60.0])
def test_flow_against_the_library(outlet, loss):
    """`fluids.isothermal_gas` gives the same flow; where it chokes, asked at its own choking pressure."""
    bore, inlet = 5e-3, 5e5
    area, length = math.pi / 4 * bore**2, 1.5
    density = inlet / (CONSTANT * KELVIN)

    factor = loss * bore / length
    choking = P_isothermal_critical_flow(P=inlet, fd=factor, D=bore, L=length)
    library = isothermal_gas(rho=density, fd=factor, P1=inlet, P2=max(outlet * inlet, choking), L=length, D=bore)

    assert isothermal_flow(inlet, outlet * inlet, CONSTANT, KELVIN, loss, area) == pytest.approx(library, rel=1e-6)


@pytest.mark.parametrize("loss", [1.0, 10.0, 100.0])
def test_choking_against_the_library(loss):
    """The pressure at which flow chokes is the library's."""
    assert choked_ratio(loss) * 5e5 == pytest.approx(P_isothermal_critical_flow(P=5e5, fd=loss, D=1.0, L=1.0), rel=1e-6)


@given(loss=st.floats(0.5, 200.0), ratio=st.floats(0.01, 0.999))
def test_the_choked_flow_is_the_greatest(loss, ratio):
    """No outlet pressure gives more than the choked one, and below it nothing changes."""
    best = isothermal_flow(1e5, 1.0, CONSTANT, KELVIN, loss, 1e-5)

    assert isothermal_flow(1e5, ratio * 1e5, CONSTANT, KELVIN, loss, 1e-5) <= best * (1 + 1e-12)


@pytest.mark.parametrize("reynolds", [100.0, 1500.0, 10_000.0, 80_000.0])
def test_friction_against_the_library(reynolds):
    """Laminar exactly, turbulent within 5 % of the library's smooth pipe."""
    assert friction_factor(reynolds) == pytest.approx(library_friction(Re=reynolds, eD=0.0), rel=0.05)


def test_a_very_long_hose_follows_poiseuille():
    """Slow flow through a long thin hose: compressible Poiseuille, pi D⁴ (p1² - p2²) / (256 mu R T L), by hand."""
    bore, length, viscosity, inlet, outlet = 2e-3, 100.0, 1.2e-5, 1.02e5, 1.0e5
    by_hand = math.pi * bore**4 * (inlet**2 - outlet**2) / (256 * viscosity * CONSTANT * KELVIN * length)

    found = hose_flow(Hose(length, bore), inlet, outlet, 0.102032, KELVIN, viscosity)

    assert found == pytest.approx(by_hand, rel=0.02)


def test_length_bore_and_core_in_the_right_direction():
    """Longer is less, wider is more, a core left in is less; nothing flows uphill."""

    def flow(hose: Hose) -> float:
        return hose_flow(hose, 3e5, 1e5, 0.102032, KELVIN, 1.2e-5)

    plain = flow(Hose(1.5, 4.8e-3))

    assert flow(Hose(3.0, 4.8e-3)) < plain < flow(Hose(1.5, 8e-3))
    assert flow(Hose(1.5, 4.8e-3, 2e-3)) < 0.6 * plain
    assert hose_flow(Hose(1.5, 4.8e-3), 1e5, 1e5, 0.102, KELVIN, 1.2e-5) == 0.0


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: Hose(1.5, 4.8), r"bore of the hose is 4.8 m.*Was it 4.8 mm"),
        (lambda: Hose(-1.0, 4.8e-3), r"length of the hose is -1 m"),
        (lambda: Hose(1.5, 4.8e-3, 0.0), r"opening of the valve core is 0 m"),
        (lambda: choked_ratio(0.0), r"the loss is 0"),
        (lambda: friction_factor(-1.0), r"Reynolds number is -1"),
    ],
)
def test_bad_hoses_are_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
