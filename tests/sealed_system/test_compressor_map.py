"""The ten-coefficient map: against an independent evaluation, each term by hand, its envelope and what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.sealed_system.compressor_map import (
    CompressorMap,
    Envelope,
    MapResult,
    MapTemperature,
    flow_at_other_suction,
)

SPAN = Envelope((-35.0, 0.0), (30.0, 65.0))
SUCTION_K, DISCHARGE_K = st.floats(238.15, 273.15), st.floats(303.15, 338.15)
POWERS = ((0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2), (3, 0), (2, 1), (1, 2), (0, 3))
"""Powers of S and D in each term, in the order of AHRI 540 (from memory) and of an open heat-pump model's source."""


def made(coefficients, result=MapResult.WATT, temperature=MapTemperature.CELSIUS, envelope=SPAN) -> CompressorMap:
    """A map of an invented compressor."""
    return CompressorMap("an invented compressor", tuple(coefficients), temperature, result, envelope)


@given(st.lists(st.floats(-5, 5), min_size=10, max_size=10), SUCTION_K, DISCHARGE_K)
def test_against_numpys_polynomial(coefficients, suction_k, discharge_k):
    """numpy's polynomial in two variables, an independent evaluation, gives the same."""
    grid = np.zeros((4, 4))
    for (s_power, d_power), coefficient in zip(POWERS, coefficients, strict=True):
        grid[s_power, d_power] = coefficient
    s, d = suction_k - 273.15, discharge_k - 273.15
    size = sum(abs(c * s**a * d**b) for (a, b), c in zip(POWERS, coefficients, strict=True))
    ours = made(coefficients).in_map_unit(suction_k, discharge_k)
    assert ours == pytest.approx(np.polynomial.polynomial.polyval2d(s, d, grid), abs=1e-9 * (size + 1))


@pytest.mark.parametrize("place", range(10))
def test_each_term_by_hand(place):
    """With one coefficient of one, the map is that power product: S = -20 °C, D = 50 °C."""
    one = [0.0] * 10
    one[place] = 1.0
    s_power, d_power = POWERS[place]
    assert made(one).in_map_unit(253.15, 323.15) == pytest.approx((-20.0) ** s_power * 50.0**d_power, rel=1e-9)


def test_a_sheet_in_fahrenheit_and_pounds():
    """-10 °F and 130 °F go into the terms; a pound an hour is 0.000125998 kg/s (read in an open model's source)."""
    wide = Envelope((-30.0, 30.0), (80.0, 150.0))
    of_s = made([0, 1, 0, 0, 0, 0, 0, 0, 0, 0], MapResult.POUND_PER_HOUR, MapTemperature.FAHRENHEIT, wide)
    of_d = made([0, 0, 1, 0, 0, 0, 0, 0, 0, 0], MapResult.POUND_PER_HOUR, MapTemperature.FAHRENHEIT, wide)
    evaporating_k, condensing_k = (-10 + 459.67) / 1.8, (130 + 459.67) / 1.8
    assert of_s.in_map_unit(evaporating_k, condensing_k) == pytest.approx(-10.0, abs=1e-9)
    assert of_d.in_map_unit(evaporating_k, condensing_k) == pytest.approx(130.0, abs=1e-9)
    assert of_d.in_si(evaporating_k, condensing_k) == pytest.approx(130 * 0.000125998, rel=1e-5)


@pytest.mark.parametrize(
    ("result", "one"),
    [
        (MapResult.WATT, 1.0),
        (MapResult.KILOGRAM_PER_HOUR, 1 / 3600),
        (MapResult.GRAM_PER_SECOND, 1e-3),
        (MapResult.BTU_PER_HOUR, 0.29307107),
        (MapResult.AMPERE, 1.0),
    ],
)
def test_units_of_a_result(result, one):
    """One of each unit in SI; 1 Btu/h is 0.29307107 W (NIST SP 811, from memory)."""
    flat = made([1.0, *[0.0] * 9], result)
    assert flat.in_si(253.15, 323.15) == pytest.approx(one, rel=1e-7)
    assert result.unit


def test_the_edge_belongs_to_the_envelope():
    """The lowest and highest tested temperatures are inside, a tenth beyond is not."""
    flat = made([1.0, *[0.0] * 9])
    assert flat.in_map_unit(238.15, 338.15) == 1.0
    with pytest.raises(
        InputError, match=r"^evaporating temperature is -35\.1 °C; the map of an invented compressor hol"
    ):
        flat.in_map_unit(238.05, 338.15)
    with pytest.raises(InputError, match=r"from 30 °C to 65 °C and says nothing beyond$"):
        flat.in_map_unit(250.0, 338.25)


def test_celsius_for_kelvin_is_said():
    """-20 in place of 253.15 K is far outside, and the slip is named."""
    with pytest.raises(InputError, match=r"Was it in °C in place of K\?$"):
        made([1.0, *[0.0] * 9]).in_map_unit(-20.0, 323.15)


def test_maps_that_cannot_be():
    """Nine coefficients, one that is no number, and an envelope the wrong way round."""
    with pytest.raises(InputError, match=r"^the map of an invented compressor has 9 coefficients; the form has ten$"):
        made([1.0] * 9)
    with pytest.raises(InputError, match=r"^a coefficient of the map of an invented compressor is no finite number$"):
        made([math.nan] * 10)
    with pytest.raises(InputError, match=r"^the envelope's evaporating span is 0 to -35; it must rise\."):
        Envelope((0.0, -35.0), (30.0, 65.0))


def test_flow_with_denser_suction_gas():
    """The same density leaves the flow; with F of one it goes with the density, with none it stays."""
    assert flow_at_other_suction(10.0, 5.0, 5.0) == 10.0
    assert flow_at_other_suction(10.0, 5.0, 6.0, share=1.0) == pytest.approx(12.0)
    assert flow_at_other_suction(10.0, 5.0, 6.0, share=0.0) == 10.0
    assert flow_at_other_suction(10.0, 5.0, 6.0) == pytest.approx(11.5)
    with pytest.raises(InputError, match=r"^the real suction density is 0 kg/m³; it must be above zero and finite$"):
        flow_at_other_suction(10.0, 5.0, 0.0)
    with pytest.raises(InputError, match=r"^the share F is 75; it must be from 0 to 1$"):
        flow_at_other_suction(10.0, 5.0, 6.0, share=75.0)
