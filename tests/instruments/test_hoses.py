"""Hoses: what they hold, what is lost, what air they push in."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.instruments.hoses import (
    Filling,
    Fitting,
    Hose,
    air_left,
    held_mass,
    hose_density,
    joining_events,
    lost_mass,
)
from coldwright.instruments.service_events import ServiceEvent

ROOM_K = 298.15


@pytest.mark.parametrize(
    ("refrigerant", "name"), [("R-134a", "R134a"), ("R-600a", "IsoButane"), ("R-290", "n-Propane")]
)
def test_density_agrees_with_coolprop(refrigerant, name):
    """Saturated and superheated densities are those of CoolProp called directly."""
    from CoolProp.CoolProp import PropsSI

    pascal = PropsSI("P", "T", ROOM_K, "Q", 0, name)
    liquid, vapour = (PropsSI("D", "T", ROOM_K, "Q", quality, name) for quality in (0, 1))
    assert hose_density(refrigerant, pascal, ROOM_K, Filling.LIQUID) == pytest.approx(liquid, rel=1e-4)
    assert hose_density(refrigerant, pascal, ROOM_K, Filling.VAPOUR) == pytest.approx(vapour, rel=1e-4)
    thin = PropsSI("D", "T", ROOM_K, "P", 1.5e5, name)
    assert hose_density(refrigerant, 1.5e5, ROOM_K, Filling.VAPOUR) == pytest.approx(thin, rel=1e-4)


def test_a_hose_full_of_liquid_by_hand():
    """π/4·(4.8 mm)²·1.5 m is 27.1 cm³; with R-134a liquid of about 1.21 g/cm³ at 25 °C that is 33 g (handbooks)."""
    hose = Hose()
    assert hose.volume_m3 == pytest.approx(27.1e-6, rel=2e-3)
    assert held_mass(hose, "R-134a", 6.65e5, ROOM_K, Filling.LIQUID) == pytest.approx(0.0328, abs=0.0005)


def test_vapour_in_a_hose_is_next_to_nothing():
    """R-600a vapour at 1.5 bar, 25 °C: ideal gas gives 3.5 kg/m³, a tenth of a gram; the true value is within 5 %."""
    ideal = 1.5e5 * 0.058122 / (8.314462618 * ROOM_K) * Hose().volume_m3
    assert held_mass(Hose(), "R-600a", 1.5e5, ROOM_K, Filling.VAPOUR) == pytest.approx(ideal, rel=0.05)


def test_cold_liquid_is_denser():
    """Liquid below its boiling point has its own density, not the saturated one."""
    warm = hose_density("R-134a", 6.65e5, ROOM_K, Filling.LIQUID)
    assert hose_density("R-134a", 6.65e5, ROOM_K - 20, Filling.LIQUID) > 1.04 * warm


@given(st.floats(0.2, 5.0), st.floats(0.003, 0.01), st.floats(1.1, 3.0))
def test_longer_and_wider_holds_more(length, bore, factor):
    """By geometry: with length in proportion, with bore squared; air goes with the volume."""
    hose = Hose(length, bore)
    assert Hose(length * factor, bore).volume_m3 == pytest.approx(factor * hose.volume_m3)
    assert Hose(length, bore * factor).volume_m3 == pytest.approx(factor**2 * hose.volume_m3)
    assert air_left(Hose(length * factor, bore), 0.0) == pytest.approx(factor * air_left(hose, 0.0))


def test_a_low_loss_fitting_keeps_most():
    """A plain end lets all out; the others a small share; none more than there is."""
    assert lost_mass(Hose(fitting=Fitting.PLAIN), 0.03) == 0.03
    assert lost_mass(Hose(fitting=Fitting.LOW_LOSS), 0.03) < 0.002
    assert lost_mass(Hose(fitting=Fitting.BALL_VALVE), 0.03) < 0.002


def test_air_in_a_hose_and_what_purging_leaves():
    """By hand: 27.1 cm³ of air at 1.204 g/l is 33 mg; each volume of vapour leaves 1/e if they mix."""
    assert air_left(Hose(), 0.0) == pytest.approx(1.204 * 27.1e-6, rel=3e-3)
    assert air_left(Hose(), 1.0) == pytest.approx(air_left(Hose(), 0.0) / math.e)


def test_an_unpurged_hose_pushes_air_in():
    """Not purged is told; purged with three volumes is in order."""
    assert joining_events(0.0) == (ServiceEvent.AIR_PUSHED_IN,)
    assert joining_events(3.0) == ()


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: Hose(1500.0), r"^the length of the hose is 1500 m; .*at most 30 m\. Was it typed in mm\?$"),
        (lambda: Hose(1.5, 4.8), r"^the bore of the hose is 4\.8 m; .* Was it typed in mm\?$"),
        (lambda: Hose(-1.0), r"^the length of the hose is -1 m; it must be above 0 m, at most 30 m$"),
        (lambda: lost_mass(Hose(), -0.1), r"^the refrigerant in the hose is -0\.1 kg; it must be zero or more"),
        (lambda: air_left(Hose(), -1.0), r"^the hose is purged with -1 of its volumes; that must be zero or more$"),
    ],
)
def test_what_is_refused(act, message):
    """Each message names the thing, its value, the rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        act()
