"""From readings to the cycle: a known cycle comes back, how far results can be off, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.quantities.constants import SEA_LEVEL_PA
from coldwright.sealed_system.cycle import cycle_at
from coldwright.sealed_system.cycle_readings import CycleReadings, ReadingLimits, cycle_from_readings
from coldwright.sealed_system.cycle_states import Cycle, Settings

TRUE = Settings(superheat_k=8, subcooling_k=6, isentropic_efficiency=0.6, exchanger=0.7)
LIMITS = ReadingLimits(3e3, 20e3, 1.0)


def readings_of(made: Cycle, atmosphere_pa: float = SEA_LEVEL_PA) -> CycleReadings:
    """What perfect instruments would show on a unit with this cycle."""
    return CycleReadings(
        suction_gauge_pa=made.suction.pressure_pa - atmosphere_pa,
        discharge_gauge_pa=made.discharge.pressure_pa - atmosphere_pa,
        suction_k=made.suction.temperature_k,
        discharge_k=made.discharge.temperature_k,
        liquid_k=made.condenser_outlet.temperature_k,
        evaporator_outlet_k=made.evaporator_outlet.temperature_k,
        has_exchanger=True,
        atmosphere_pa=atmosphere_pa,
    )


MADE = cycle_at("R-134a", 253.15, 318.15, TRUE)
READ = readings_of(MADE)


@given(
    st.sampled_from(["R-134a", "R-600a", "R-290"]),
    st.floats(243.15, 268.15),
    st.floats(303.15, 328.15),
    st.floats(75e3, 105e3),
)
def test_a_known_cycle_comes_back(name, cold_k, warm_k, atmosphere_pa):
    """Perfect readings of a cycle give that cycle, whatever the weather and the height."""
    made = cycle_at(name, cold_k, warm_k, TRUE)
    found = cycle_from_readings(name, readings_of(made, atmosphere_pa)).cycle
    assert found.cop == pytest.approx(made.cop, rel=1e-6)
    assert found.refrigerating_effect == pytest.approx(made.refrigerating_effect, rel=1e-6)
    assert found.exchanged == pytest.approx(made.exchanged, rel=1e-5)
    assert found.isentropic_efficiency == pytest.approx(0.6, rel=1e-5)


def test_without_an_exchanger_the_warm_suction_line_is_no_gain():
    """Without an exchanger the same readings give less cold: the vapour was warmed by the room."""
    found = cycle_from_readings("R-134a", replace(READ, has_exchanger=False)).cycle
    assert found.refrigerating_effect == pytest.approx(MADE.refrigerating_effect - MADE.exchanged, rel=1e-6)
    assert found.useless_gain == pytest.approx(MADE.exchanged, rel=1e-6)


def test_perfect_instruments_leave_no_spread():
    """Limits of zero give ± zero for every result."""
    assert set(cycle_from_readings("R-134a", READ).limits.values()) == {0.0}


def test_superheat_is_off_by_thermometer_and_gauge():
    """A gauge of ±3 kPa and a thermometer of ±1 K: the root of their squares, the slope of the table by hand.

    R-134a at 20 °C below zero boils 0.52 K warmer for 3 kPa more: 132.7 kPa at -20 °C, 138.2 kPa at -19 °C (from
    memory), so 1 K is 5.4 kPa.
    """
    limits = cycle_from_readings("R-134a", READ, LIMITS).limits
    assert limits["superheat"] == pytest.approx(math.hypot(1.0, 3.0 / 5.4), abs=0.02)
    assert limits["cop"] > 0
    assert limits["pressure_ratio"] == pytest.approx(
        MADE.pressure_ratio * math.hypot(3e3 / MADE.suction.pressure_pa, 20e3 / MADE.discharge.pressure_pa), rel=0.03
    )


def test_finer_instruments_leave_a_smaller_spread():
    """A tenth of the limits leaves about a tenth of the ±."""
    coarse = cycle_from_readings("R-134a", READ, LIMITS).limits
    fine = cycle_from_readings("R-134a", READ, ReadingLimits(300.0, 2e3, 0.1)).limits
    for name, value in coarse.items():
        assert fine[name] == pytest.approx(value / 10, rel=0.1), name


def test_just_below_dew_counts_as_no_superheat():
    """Half a kelvin below dew with a thermometer of ±1 K is no superheat, is said, and keeps its ±."""
    low = replace(READ, evaporator_outlet_k=253.15 - 0.5, discharge_k=373.15)
    found = cycle_from_readings("R-134a", low, LIMITS)
    assert found.cycle.superheat == pytest.approx(0.0, abs=1e-6)
    assert found.limits["superheat"] > 1.0
    assert found.remarks == ("No superheat at the evaporator's outlet: liquid may go on towards the compressor.",)


def test_remarks_say_what_stands_out():
    """No subcooling, a discharge colder than perfect, and one above 120 °C are each said; a healthy unit has none."""
    assert cycle_from_readings("R-134a", READ).remarks[-1:] == ("The discharge is above 120 °C: oil breaks down.",)
    cool = replace(READ, discharge_k=MADE.ideal_discharge.temperature_k - 5)
    assert "cannot be relied on" in cycle_from_readings("R-134a", cool).remarks[0]
    warm = replace(READ, liquid_k=318.15 + 0.5, discharge_k=373.15)
    assert cycle_from_readings("R-134a", warm, LIMITS).remarks == (
        "No subcooling: vapour may go along into the capillary.",
    )
    assert cycle_from_readings("R-134a", replace(READ, discharge_k=373.15)).remarks == ()


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        (
            {"evaporator_outlet_k": 248.15},
            r"^the evaporator outlet reads 5\.0 K below the dew temperature .* liquid comes",
        ),
        ({"suction_k": 243.15}, r"^the suction line reads 10\.0 K below the dew temperature"),
        ({"evaporator_outlet_k": None, "suction_k": 243.15}, r"^the suction line reads 10\.0 K below"),
        (
            {"liquid_k": 323.15},
            r"^the liquid line reads 5\.0 K above the bubble temperature .* it cannot be all liquid",
        ),
        ({"suction_gauge_pa": 1.1e6}, r"^the discharge gauge shows 1058\.\d kPa, not above .* Were the hoses swapped"),
        ({"discharge_k": 310.0}, r"^the discharge is at 36\.9 °C, not above the dew temperature"),
        ({"discharge_k": 318.5}, r"compression takes work"),
    ],
)
def test_readings_that_fit_no_cycle(changed, message):
    """Each is refused by its place, with how far it is out and what may be behind it."""
    with pytest.raises(InputError, match=message):
        cycle_from_readings("R-134a", replace(READ, **changed))


def test_a_limit_below_zero_is_refused():
    """Limits are zero or more."""
    with pytest.raises(InputError, match=r"^the limit temperature_k is -1; it must be zero or more and finite$"):
        ReadingLimits(temperature_k=-1.0)
