"""The air around: against an independent library and by hand; gauge and absolute."""

from __future__ import annotations

import math

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.quantities.constants import SEA_LEVEL_PA
from coldwright.refrigerants.atmosphere import absolute_of, gauge_of, station_pressure

HEIGHT = st.floats(-500.0, 5500.0)
WEATHER = st.floats(95_000.0, 105_000.0)
EARTH_M = 6_356_766.0  # radius of the 1976 standard, between height and geopotential


@pytest.mark.parametrize("metres", [-400.0, 0.0, 500.0, 1609.0, 3000.0, 5200.0])
def test_against_the_library_fluids(metres):
    """The standard atmosphere of the library fluids, which takes true heights: turned to geopotential, 0.001 %."""
    geopotential = EARTH_M * metres / (EARTH_M + metres)
    assert station_pressure(geopotential) == pytest.approx(ATMOSPHERE_1976(metres).P, rel=1e-5)
    assert station_pressure(metres) == pytest.approx(ATMOSPHERE_1976(metres).P, rel=6e-4)


def test_at_the_sea_the_weather_report_is_the_pressure():
    """At height 0 the pressure is what the weather report says."""
    for reported in (SEA_LEVEL_PA, 98_000.0, 104_000.0):
        assert station_pressure(0.0, reported) == pytest.approx(reported, rel=1e-12)


def test_the_first_metres_by_hand():
    """Over 10 m the pressure falls by ρ g h with air of 1.225 kg/m³: 120.1 Pa."""
    assert station_pressure(0.0) - station_pressure(10.0) == pytest.approx(1.225 * 9.80665 * 10.0, rel=1e-3)


@given(HEIGHT, HEIGHT, WEATHER)
def test_higher_is_thinner(one, other, reported):
    """Pressure falls with height."""
    low, high = sorted((one, other))
    if high - low > 1e-3:
        assert station_pressure(high, reported) < station_pressure(low, reported)


@given(HEIGHT, WEATHER)
def test_a_gauge_reads_zero_in_the_air_of_the_place(height, reported):
    """Whatever the place and the weather, a gauge open to the air reads 0; and gauge and absolute go there and back."""
    air = station_pressure(height, reported)
    assert gauge_of(air, air) == 0.0
    assert absolute_of(gauge_of(2.5e5, air), air) == pytest.approx(2.5e5, rel=1e-12)
    assert absolute_of(-air, air) == 0.0


def test_the_same_refrigerant_reads_more_on_a_mountain():
    """3 bar absolute reads 1.987 bar on a gauge at the sea, and 0.178 bar more where the air has 0.835 bar: by hand."""
    assert gauge_of(3e5) == pytest.approx(198_675.0)
    assert gauge_of(3e5, 83_500.0) - gauge_of(3e5) == pytest.approx(17_825.0)


@pytest.mark.parametrize("bad", [5280.0 * 2, -1000.0, math.nan])
def test_feet_for_metres(bad):
    """A height where nobody works is refused, with a guess at feet."""
    with pytest.raises(InputError, match=rf"^the altitude is {bad:g} m; .*Was it in feet\?$"):
        station_pressure(bad)


@pytest.mark.parametrize("bad", [1013.25, 29.92, 60_000.0, math.nan])
def test_hectopascals_for_pascals(bad):
    """A weather that never was is refused, with a guess at the unit."""
    with pytest.raises(InputError, match=rf"^the pressure at sea level is {bad:g} Pa; .*Was it in hPa \(mbar\)"):
        station_pressure(100.0, bad)


def test_below_a_perfect_vacuum():
    """Nothing is below a perfect vacuum, gauge or absolute; and air has a pressure of this world."""
    with pytest.raises(InputError, match=r"^the absolute pressure is -1 Pa; nothing is below .*Was it a gauge"):
        gauge_of(-1.0)
    with pytest.raises(InputError, match=r"^the gauge pressure is -200000 Pa where the air has 101325 Pa; a perfect"):
        absolute_of(-2e5)
    with pytest.raises(InputError, match=r"^the gauge pressure is nan Pa"):
        absolute_of(math.nan)
    with pytest.raises(InputError, match=r"^the pressure of the air is 1013 Pa; .*Was it in another unit\?$"):
        gauge_of(2e5, 1013.0)
