"""The cycle: what holds for every cycle, limit cases by hand, independent equations, and what is refused."""

from __future__ import annotations

import math

import pytest
from chemicals.miscdata import lookup_VDI_tabular_data
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K
from coldwright.refrigerants.saturation import dew_pressure, saturated_liquid, saturated_vapour
from coldwright.refrigerants.states import state_pt
from coldwright.sealed_system.cycle import closed, cycle, cycle_at, liquid_at, vapour_at
from coldwright.sealed_system.cycle_states import Settings, carnot_cop

NAMES = st.sampled_from(["R-134a", "R-600a", "R-290", "R-404A"])
COLD_K, WARM_K = st.floats(243.15, 278.15), st.floats(298.15, 328.15)
SHARES = st.floats(0.6, 1.0)  # below it the discharge can leave R-134a's equation of state
SETTINGS = st.builds(
    Settings,
    superheat_k=st.floats(0, 12),
    subcooling_k=st.floats(0, 10),
    isentropic_efficiency=SHARES,
    suction_gain_k=st.floats(0, 8),
    exchanger=st.floats(0, 0.6),
    shell_loss=st.floats(0, 8e3),
    evaporator_drop_pa=st.floats(0, 4e3),
    suction_drop_pa=st.floats(0, 4e3),
    condenser_drop_pa=st.floats(0, 2e4),
)
USUAL = ("R-134a", 253.15, 318.15)


@given(NAMES, COLD_K, WARM_K, SETTINGS)
def test_energy_closes(name, cold_k, warm_k, settings):
    """Heat in from the cabinet and from the room, and work, is the heat out of condenser and shell, to 1e-9."""
    made = cycle_at(name, cold_k, warm_k, settings)
    heat_in = made.refrigerating_effect + made.useless_gain + made.work
    assert heat_in == pytest.approx(made.condenser_heat + made.shell_loss, rel=1e-9)
    assert made.suction.enthalpy_j_per_kg - made.evaporator_outlet.enthalpy_j_per_kg == pytest.approx(
        made.exchanged + made.useless_gain, abs=1e-6
    )


@given(NAMES, COLD_K, WARM_K, SETTINGS)
def test_no_cycle_beats_carnot_or_makes_entropy_vanish(name, cold_k, warm_k, settings):
    """The COP stays below Carnot's between the warmest cold and the coldest warm point; the throttle makes entropy."""
    made = cycle_at(name, cold_k, warm_k, settings)
    cold, warm = made.evaporator_outlet.temperature_k, made.condenser_outlet.temperature_k
    if cold < warm:
        assert made.cop < carnot_cop(cold, warm)
    assert made.evaporator_inlet.entropy_j_per_kg_k > made.liquid.entropy_j_per_kg_k
    assert made.evaporator_inlet.enthalpy_j_per_kg == pytest.approx(made.liquid.enthalpy_j_per_kg, abs=1e-3)


@given(NAMES, COLD_K, WARM_K, SHARES)
def test_the_efficiency_is_what_was_set(name, cold_k, warm_k, share):
    """Work is that of a perfect compressor over the efficiency, with or without a loss through the shell."""
    for loss in (0.0, 5e3):
        made = cycle_at(name, cold_k, warm_k, Settings(isentropic_efficiency=share, shell_loss=loss))
        assert made.isentropic_efficiency == pytest.approx(share, rel=1e-6)
        assert made.ideal_discharge.entropy_j_per_kg_k == pytest.approx(made.suction.entropy_j_per_kg_k, abs=1e-4)


@given(NAMES, COLD_K, WARM_K, SHARES)
def test_a_measured_discharge_undoes_the_efficiency(name, cold_k, warm_k, share):
    """The discharge temperature that an efficiency gives leads back to it."""
    made = cycle_at(name, cold_k, warm_k, Settings(isentropic_efficiency=share, superheat_k=10))
    back = cycle_at(name, cold_k, warm_k, Settings(discharge_k=made.discharge.temperature_k, superheat_k=10))
    assert back.isentropic_efficiency == pytest.approx(share, rel=1e-6)
    assert back.cop == pytest.approx(made.cop, rel=1e-6)


@given(COLD_K, WARM_K, st.floats(0.1, 12))
def test_superheat_and_subcooling_come_back(cold_k, warm_k, kelvin):
    """What was set is what the cycle shows, and one kelvin more of subcooling only adds cold."""
    made = cycle_at("R-134a", cold_k, warm_k, Settings(superheat_k=kelvin, subcooling_k=kelvin))
    assert made.superheat == pytest.approx(kelvin, abs=1e-6)
    assert made.suction_superheat == pytest.approx(kelvin, abs=1e-6)
    assert made.subcooling == pytest.approx(kelvin, abs=1e-6)
    more = cycle_at("R-134a", cold_k, warm_k, Settings(superheat_k=kelvin, subcooling_k=kelvin + 1))
    assert more.refrigerating_effect > made.refrigerating_effect
    assert more.work == pytest.approx(made.work, rel=1e-12)


@given(COLD_K, WARM_K, st.floats(0.0, 0.95))
def test_the_exchanger_moves_heat_within_its_effectiveness(cold_k, warm_k, share):
    """The vapour takes that share of the heat which would warm it to the liquid; its cold is what the liquid lost."""
    plain = cycle_at("R-134a", cold_k, warm_k)
    made = cycle_at("R-134a", cold_k, warm_k, Settings(exchanger=share))
    warmest = state_pt("R-134a", plain.suction.pressure_pa, plain.condenser_outlet.temperature_k)
    most = warmest.enthalpy_j_per_kg - plain.suction.enthalpy_j_per_kg
    assert made.exchanged == pytest.approx(share * most, abs=1e-3)
    assert made.refrigerating_effect - plain.refrigerating_effect == pytest.approx(made.exchanged, abs=1e-3)
    assert made.suction.temperature_k <= made.condenser_outlet.temperature_k


def test_a_perfect_exchanger_warms_the_vapour_to_the_liquid():
    """Effectiveness one: the suction gas reaches the liquid's temperature."""
    made = cycle_at(*USUAL, Settings(exchanger=1.0, subcooling_k=4))
    assert made.suction.temperature_k == pytest.approx(318.15 - 4, abs=1e-3)


def test_a_vanishing_lift_nears_carnot():
    """For a lift towards zero the COP is Carnot's times (1 - liquid volume / vapour volume).

    By hand: work is v" dp and cold is h", so Clapeyron's dp/dT = h" / (T (v" - v')) leaves T/dT (1 - v'/v"). The
    missing part is the work that a throttle does not give back.
    """
    liquid, vapour = saturated_liquid("R-134a", 292.8e3), saturated_vapour("R-134a", 292.8e3)
    limit = 1 - vapour.density_kg_per_m3 / liquid.density_kg_per_m3
    missing = []
    for lift in (2.0, 0.4):
        made = cycle_at("R-134a", 273.15, 273.15 + lift)
        missing.append(limit - made.cop / made.carnot_cop)
    assert 0 < missing[1] < 0.002
    assert missing[0] / missing[1] == pytest.approx(5.0, rel=0.1)


def test_a_gas_far_from_saturation_follows_the_ideal_gas():
    """R-290 at 2 kPa, 60 K above dew, to 4 kPa: T2 = T1 · 2^(R/cp), cp from the two enthalpies, within 0.2 K."""
    suction = vapour_at("R-290", 2e3, 60.0)
    warmer = state_pt("R-290", 2e3, suction.temperature_k + 20)
    cp = (warmer.enthalpy_j_per_kg - suction.enthalpy_j_per_kg) / 20
    by_hand = suction.temperature_k * 2 ** (8.314462618 / 0.0440956 / cp)
    made = cycle("R-290", 2e3, 4e3, Settings(superheat_k=60))
    assert made.ideal_discharge.temperature_k == pytest.approx(by_hand, abs=0.2)


def test_the_rating_point_for_low_temperature():
    """-10/130/90 °F is -23.3/54.4/32.2 °C; the pressures are those of a printed table within 0.3 %.

    The point is that of ASHRAE Standard 23 (from memory); the table is that of the VDI Heat Atlas in the
    library chemicals, between whose rows ln p follows 1/T.
    """
    evaporating, condensing, other = ((f - 32) / 1.8 + ICE_POINT_K for f in (-10.0, 130.0, 90.0))
    assert (evaporating - ICE_POINT_K, condensing - ICE_POINT_K) == pytest.approx((-23.3, 54.4), abs=0.05)
    settings = Settings(superheat_k=other - evaporating, subcooling_k=condensing - other, isentropic_efficiency=0.6)
    made = cycle_at("R-134a", evaporating, condensing, settings)
    kelvins, pascals = lookup_VDI_tabular_data("811-97-2", "P")
    curve = CubicSpline([-1 / kelvin for kelvin in kelvins], [math.log(pascal) for pascal in pascals])
    low, high = (math.exp(curve(-1 / kelvin)) for kelvin in (evaporating, condensing))
    assert made.suction.pressure_pa == pytest.approx(low, rel=3e-3)
    assert made.discharge.pressure_pa == pytest.approx(high, rel=3e-3)
    assert made.pressure_ratio == pytest.approx(high / low, rel=5e-3)
    assert made.suction.temperature_k == pytest.approx(other, abs=1e-6)
    ideal_gas = low * 0.102032 / (8.314462618 * other)
    assert made.suction.density_kg_per_m3 == pytest.approx(ideal_gas, rel=0.03)
    assert made.suction.density_kg_per_m3 > ideal_gas


def test_wet_compression_is_not_hidden():
    """R-600a from saturated vapour ends up wet or close to dry; the ideal discharge keeps the suction's entropy."""
    made = cycle_at("R-600a", 253.15, 318.15)
    assert made.ideal_discharge.entropy_j_per_kg_k == pytest.approx(made.suction.entropy_j_per_kg_k, abs=1e-4)
    assert made.discharge == made.ideal_discharge


def test_a_blend_condenses_between_two_temperatures():
    """R-404A: subcooling counts from bubble, superheat from dew; both temperatures given are dew temperatures."""
    made = cycle_at("R-404A", 253.15, 318.15, Settings(superheat_k=5, subcooling_k=5))
    assert made.discharge.pressure_pa == pytest.approx(dew_pressure("R-404A", 318.15), rel=1e-9)
    assert made.condenser_outlet.temperature_k < 318.15 - 5
    assert made.evaporator_outlet.temperature_k == pytest.approx(253.15 + 5, abs=1e-3)


def test_the_states_are_named_in_the_order_of_the_flow():
    """A plain cycle has four states; exchanger and suction line add two."""
    plain, full = cycle_at(*USUAL), cycle_at(*USUAL, Settings(exchanger=0.5))
    assert [name for name, _ in plain.states] == ["suction", "discharge", "condenser outlet", "evaporator inlet"]
    assert [name for name, _ in full.states] == [
        "suction",
        "discharge",
        "condenser outlet",
        "liquid after the exchanger",
        "evaporator inlet",
        "evaporator outlet",
    ]


@pytest.mark.parametrize(
    ("settings", "message"),
    [
        ({"superheat_k": -3.0}, r"^superheat is -3 K; it is a difference of zero or more"),
        ({"subcooling_k": -1.0}, r"^subcooling is -1 K; it is a difference of zero or more"),
        ({"superheat_k": 283.0}, r"^superheat is 283 K; .* Was a temperature typed in place of a difference\?$"),
        ({"suction_gain_k": math.nan}, r"^suction gain is nan K; it must be from 0 K to 100 K"),
        ({"isentropic_efficiency": 70.0}, r"^isentropic efficiency is 70; .* Was 70 % meant\? Then it is 0\.7$"),
        ({"isentropic_efficiency": 0.0}, r"^isentropic efficiency is 0; it must be above 0 and up to 1$"),
        ({"isentropic_efficiency": math.nan}, r"^isentropic efficiency is nan; it must be above 0 and up to 1$"),
        ({"exchanger": -0.1}, r"^exchanger effectiveness is -0\.1; it must be from 0 to 1$"),
        ({"suction_drop_pa": -1.0}, r"^suction drop is -1 Pa; it must be zero or more and finite$"),
        ({"shell_loss": math.inf}, r"^shell loss is inf J/kg; it must be zero or more and finite$"),
        ({"isentropic_efficiency": 0.7, "discharge_k": 360.0}, r"are both given; each follows from the other"),
    ],
)
def test_settings_that_cannot_be(settings, message):
    """Each is refused by its name, with its value, its rule and the likely slip."""
    with pytest.raises(InputError, match=message):
        Settings(**settings)


@pytest.mark.parametrize(
    ("pressures", "settings", "message"),
    [
        ((8e5, 1.4e5), {}, r"^condensing pressure is 140\.0 kPa, not above .* 800\.0 kPa\. Were they swapped"),
        ((1.4e5, 1.4e5), {}, r"Were they swapped, or has the compressor not run\?$"),
        ((1.4, 8.0), {}, r"^evaporating pressure is 1\.4 Pa absolute; .* or in bar or kPa\?$"),
        ((-2e4, 8e5), {}, r"^evaporating pressure is -20000 Pa absolute; .* Was it a gauge pressure"),
        ((math.nan, 8e5), {}, r"^evaporating pressure is nan Pa absolute"),
        ((1.4e5, 6e6), {}, r"^condensing pressure: .*critical"),
        ((1.4e5, 8e5), {"suction_drop_pa": 1.4e5}, r"^the suction line's drop of 140000 Pa leaves no pressure"),
        ((1.4e5, 8e5), {"condenser_drop_pa": 7e5}, r"nothing would flow\. Was a drop in bar or kPa\?$"),
        (
            (1.4e5, 8e5),
            {"discharge_k": 300.0},
            r"^the discharge is at 26\.9 °C, not above the dew temperature .* 31\.3",
        ),
        (
            (1.4e5, 8e5),
            {"discharge_k": 312.0, "superheat_k": 90.0},
            r"compression takes work\. Was it measured too far",
        ),
    ],
)
def test_cycles_that_cannot_be(pressures, settings, message):
    """Swapped, in the wrong unit, beyond the critical point, drops that eat the pressure, a discharge that is none."""
    with pytest.raises(InputError, match=message):
        cycle("R-134a", *pressures, Settings(**settings))


def test_temperatures_that_cannot_be():
    """Swapped temperatures, and °C for K, are said by name."""
    with pytest.raises(
        InputError, match=r"^condensing at -20\.0 °C is not above evaporating at 45\.0 °C\. Were they swa"
    ):
        cycle_at("R-134a", 318.15, 253.15)
    with pytest.raises(InputError, match=r"^evaporating temperature: "):
        cycle_at("R-134a", -20.0, 45.0)
    with pytest.raises(InputError, match=r"^condensing temperature: "):
        cycle_at("R-134a", 253.15, 390.0)


def test_a_discharge_beyond_the_equation_of_state_is_said():
    """An efficiency of 15 % would make the discharge hotter than anything the refrigerant stands."""
    with pytest.raises(InputError, match=r"^discharge: .*R-134a.* Is an isentropic efficiency of 0\.15 right\?$"):
        cycle_at(*USUAL, Settings(isentropic_efficiency=0.15))


def test_an_unknown_refrigerant_is_said():
    """The name stands in the message."""
    with pytest.raises(InputError, match="R-143z"):
        cycle_at("R-143z", 253.15, 318.15)


def test_an_exchanger_needs_a_warm_liquid():
    """Where the liquid is no warmer than the suction gas nothing can be exchanged."""
    with pytest.raises(InputError, match=r"an exchanger has nothing to exchange$"):
        cycle_at("R-134a", 283.15, 293.15, Settings(superheat_k=20, subcooling_k=5, exchanger=0.5))


def test_liquid_that_holds_as_much_as_the_vapour_gives_no_cold():
    """If vapour stands where the liquid should, there is no refrigerating effect, and it is said."""
    outlet, hot = vapour_at("R-134a", 1.4e5, 0.0), vapour_at("R-134a", 8e5, 30.0)
    with pytest.raises(InputError, match=r"there is no cold to be had$"):
        closed("R-134a", outlet, outlet, liquid_at("R-134a", 8e5, 0.0), hot, (8e5, 1.4e5), Settings())


@pytest.mark.parametrize(
    ("temperatures", "message"),
    [
        ((-10.0, 300.0), r"^the cold temperature is -10 K; .* Was it in °C\?$"),
        ((300.0, 273.0), r"^the warm temperature is 273 K; .* Were they swapped\?$"),
        ((273.0, math.nan), r"^the warm temperature is nan K"),
    ],
)
def test_carnot_needs_two_temperatures(temperatures, message):
    """Cold first, warm second, both in kelvin."""
    with pytest.raises(InputError, match=message):
        carnot_cop(*temperatures)
