"""Windings by resistance: properties of the straight line, limit cases by hand, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coldwright.electrical.measured import Measured
from coldwright.electrical.windings import REFERENCE_K, Conductor, resistance_at, temperature_rise, winding_temperature
from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

OHMS = st.floats(0.01, 1e4)
KELVIN = st.floats(233.15, 423.15)
METALS = st.sampled_from(Conductor)


@given(OHMS, KELVIN, KELVIN, METALS)
def test_there_and_back(resistance, one_k, other_k, metal):
    """Correcting to another temperature and back gives the same resistance."""
    there = resistance_at(resistance, one_k, other_k, metal)
    assert resistance_at(there, other_k, one_k, metal) == pytest.approx(resistance, rel=1e-12)


@given(OHMS, KELVIN, KELVIN, KELVIN, METALS)
def test_a_stop_on_the_way_changes_nothing(resistance, one_k, middle_k, last_k, metal):
    """Correcting in two steps is the same as in one."""
    in_two = resistance_at(resistance_at(resistance, one_k, middle_k, metal), middle_k, last_k, metal)
    assert in_two == pytest.approx(resistance_at(resistance, one_k, last_k, metal), rel=1e-12)


@given(OHMS, KELVIN, KELVIN, METALS)
def test_temperature_from_resistance_undoes_the_correction(resistance, cold_k, hot_k, metal):
    """The temperature found from two resistances is the one that the hot resistance was worked out for."""
    hot = resistance_at(resistance, cold_k, hot_k, metal)
    assert winding_temperature(hot, resistance, cold_k, metal) == pytest.approx(hot_k, rel=1e-12)


@given(OHMS, KELVIN, KELVIN, st.floats(273.15, 323.15), METALS)
def test_rise_is_hot_less_the_room_at_the_end(resistance, start_k, hot_k, end_k, metal):
    """The rise counts from the room as it is at the end."""
    hot = resistance_at(resistance, start_k, hot_k, metal)
    rise = temperature_rise(resistance, hot, start_k, end_k, metal)
    assert rise == pytest.approx(hot_k - end_k, abs=1e-9)


@given(OHMS, OHMS, st.floats(-20, 60), st.floats(-20, 60), METALS)
def test_rise_is_the_standards_formula(cold, hot, start_c, end_c, metal):
    """(R2 - R1)/R1 · (k + t1) - (t2 - t1), as IEC 60335-1, 11.3 writes it (from memory), in °C."""
    by_the_standard = (hot - cold) / cold * (metal.value + start_c) - (end_c - start_c)
    ours = temperature_rise(cold, hot, start_c + ICE_POINT_K, end_c + ICE_POINT_K, metal)
    assert ours == pytest.approx(by_the_standard, rel=1e-9, abs=1e-7 * hot / cold)


@given(OHMS, KELVIN, KELVIN, METALS)
def test_warmer_reads_more(resistance, one_k, other_k, metal):
    """A metal reads more when it is warmer."""
    assume(abs(one_k - other_k) > 1e-6)
    there = resistance_at(resistance, one_k, other_k, metal)
    assert (there > resistance) == (other_k > one_k)


@given(OHMS, KELVIN, METALS)
def test_the_same_temperature_changes_nothing(resistance, kelvin, metal):
    """No correction where there is nothing to correct."""
    assert resistance_at(resistance, kelvin, kelvin, metal) == pytest.approx(resistance, rel=1e-15)


def test_twice_the_resistance_by_hand():
    """At 20 °C copper stands 254.5 K above its zero; 254.5 K further up it reads twice as much."""
    assert resistance_at(5.0, REFERENCE_K, REFERENCE_K + 254.5) == pytest.approx(10.0, rel=1e-12)
    assert winding_temperature(10.0, 5.0, REFERENCE_K) == pytest.approx(REFERENCE_K + 254.5, rel=1e-12)


def test_nothing_is_left_at_the_zero_of_the_line():
    """Close to -234.5 °C next to nothing is left of a copper winding's resistance."""
    assert resistance_at(5.0, REFERENCE_K, ICE_POINT_K - 234.5 + 1e-9) == pytest.approx(0.0, abs=1e-9)


def test_a_tenth_more_by_hand():
    """A tenth more resistance from 20 °C is 25.45 K in copper and 24.5 K in aluminium."""
    assert temperature_rise(10.0, 11.0, REFERENCE_K, REFERENCE_K) == pytest.approx(25.45, rel=1e-12)
    assert temperature_rise(10.0, 11.0, REFERENCE_K, REFERENCE_K, Conductor.ALUMINIUM) == pytest.approx(24.5, rel=1e-12)


def test_a_warmer_room_at_the_end_takes_off_the_rise():
    """If the room went from 20 °C to 25 °C, the same winding is 5 K less above it."""
    still = temperature_rise(10.0, 12.0, REFERENCE_K, REFERENCE_K)
    assert temperature_rise(10.0, 12.0, REFERENCE_K, REFERENCE_K + 5.0) == pytest.approx(still - 5.0, rel=1e-12)


def test_a_colder_winding_has_a_negative_rise():
    """A winding colder than the room is not refused: its rise is below zero."""
    assert temperature_rise(10.0, 9.0, REFERENCE_K, REFERENCE_K) == pytest.approx(-25.45, rel=1e-12)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_a_resistance_that_cannot_be(bad):
    """A resistance of zero or less, nan or inf is refused by its name, with its value."""
    with pytest.raises(InputError, match=rf"^the resistance is {bad:g} Ω; it must be above 0 Ω and finite$"):
        resistance_at(bad, 300.0)
    with pytest.raises(InputError, match=rf"^the hot resistance is {bad:g} Ω"):
        winding_temperature(bad, 5.0, 300.0)
    with pytest.raises(InputError, match=rf"^the cold resistance is {bad:g} Ω"):
        winding_temperature(5.0, bad, 300.0)
    with pytest.raises(InputError, match=rf"^the cold resistance is {bad:g} Ω"):
        temperature_rise(bad, 5.0, 300.0, 300.0)


def test_degrees_celsius_for_kelvin_is_refused():
    """20 in place of 293.15 K lies below the zero of the line and is refused with the value."""
    with pytest.raises(InputError, match=r"^the winding's temperature is 20 K; it must be above 38\.65 K"):
        resistance_at(5.0, 20.0)
    with pytest.raises(InputError, match=r"^the wanted temperature is 20 K; it must be above 38\.65 K"):
        resistance_at(5.0, 300.0, 20.0)
    with pytest.raises(InputError, match=r"^the cold temperature is 20 K; it must be above 48\.15 K"):
        winding_temperature(5.0, 4.0, 20.0, Conductor.ALUMINIUM)


def test_a_measured_value_is_zero_or_more():
    """A negative value or limit, or nan, is refused with the value."""
    with pytest.raises(
        InputError, match=r"^a measured value is -1\.0; it must be zero or more\. Were the leads swapped"
    ):
        Measured(-1.0)
    with pytest.raises(InputError, match=r"^a measured value is nan"):
        Measured(math.nan)
    with pytest.raises(InputError, match=r"^the limit of a measured value is -0\.1; it must be zero or more$"):
        Measured(1.0, -0.1)
    with pytest.raises(InputError, match=r"^the limit of a measured value is nan"):
        Measured(1.0, math.nan)


def test_scaling_keeps_the_share_of_the_limit():
    """A reading times a factor keeps its limit in proportion; over-range stays over-range."""
    assert Measured(4.0, 0.1).scaled(2.5) == Measured(10.0, 0.25)
    assert Measured(math.inf).scaled(2.5) == Measured(math.inf)
    assert Measured(math.inf).is_open
    assert not Measured(4.0).is_open
