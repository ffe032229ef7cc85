"""The multimeter's further functions: continuity, low impedance, capacitance, amps and its fuse, lowest volts."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import BenchError, InputError
from coldwright.instruments.display import Error, LiveCircuit
from coldwright.instruments.meter_ranges import (
    BEEPS_BELOW_OHM,
    CAPACITANCE_REFUSES_ABOVE_V,
    FUSE_A,
    INPUT_OHM,
    LOW_INPUT_OHM,
    OHMS_RATING_V,
    RANGES,
    SHUNT_OHM,
    Function,
    charging_time,
    limit_of,
)
from coldwright.instruments.misuse import CONSEQUENCES, MeterEvent
from coldwright.instruments.multimeter import Multimeter
from tests.instruments.circuits import Between, Live

STAND = st.floats(-0.7, 0.7)
ADDED = st.sampled_from([Function.VOLTS_AC_LOW, Function.CAPACITANCE, Function.AMPS_AC, Function.CONTINUITY])


def on(function: Function, circuit: Between, lead_ohm: float = 0.0, error: Error | None = None):
    """What a fresh meter shows on a function, and what happened."""
    meter = Multimeter(lead_ohm, lambda _f, _r: error or Error(), function=function)
    return meter.read(circuit, "a", "b")


@given(ADDED, STAND, STAND)
def test_every_function_is_within_its_accuracy(function, gain, offset):
    """Wherever the meter stands, the truth is within ±(% + digits) of what it shows, at the start and near the end."""
    for chosen in RANGES[function]:
        for share in (0.0, 0.001, 0.11, 0.9):
            true = share * chosen.full_scale
            loop = math.inf if true == 0 else 10.0 / true - SHUNT_OHM
            circuit = {
                Function.CONTINUITY: Live(true),
                Function.CAPACITANCE: Live(farad=true),
                Function.VOLTS_AC_LOW: Live(alternating_v=true),
                Function.AMPS_AC: Live(alternating_v=10.0, loop_ohm=loop),
            }[function]
            shown, events = on(function, circuit, error=Error(gain, offset))
            assert events == ()
            assert shown.value >= 0
            assert abs(shown.value - true) <= shown.limit * (1 + 1e-9)


@pytest.mark.parametrize(
    ("ohm", "text"),
    [(0.0, "0.3 Ω, beeps"), (29.6, "29.9 Ω, beeps"), (29.7, "30.0 Ω"), (470.0, "470.3 Ω"), (math.inf, "OL")],
)
def test_continuity_beeps_below_thirty_ohms(ohm, text):
    """Leads of 0.3 Ω count; below 30 Ω shown it beeps, at 30 Ω and above it is silent, past 600 Ω there is no path."""
    assert BEEPS_BELOW_OHM == 30.0
    assert on(Function.CONTINUITY, Live(ohm), lead_ohm=0.3)[0].text == text


def test_a_motor_winding_of_forty_ohms_does_not_beep():
    """By hand: a start winding of 40 Ω is a whole path and does not beep, so no beep is no proof of a break."""
    shown, _ = on(Function.CONTINUITY, Live(40.0))
    assert "beeps" not in shown.text
    assert shown.value == pytest.approx(40.0)


def test_zeroed_leads_stay_in_continuity():
    """What was zeroed on ohms is not taken off on continuity."""
    meter = Multimeter(0.6, function=Function.OHMS)
    meter.zero_leads()
    meter.function = Function.CONTINUITY
    assert meter.read(Live(0.0), "a", "b")[0].text == "0.6 Ω, beeps"


def test_a_ghost_voltage_breaks_down_on_low_impedance():
    """By hand: 230 V behind 10 MΩ is halved on 10 MΩ, and is 230 · 3/10003 = 0.069 V on 3 kΩ; a true one stays."""
    assert (INPUT_OHM, LOW_INPUT_OHM) == (10e6, 3e3)
    ghost, true = Live(alternating_v=230.0, source_ohm=10e6), Live(alternating_v=230.0, source_ohm=0.5)
    assert on(Function.VOLTS_AC, ghost)[0].text == "115.0 V a.c."
    assert on(Function.VOLTS_AC_LOW, ghost)[0].text == "0.069 V a.c."
    assert on(Function.VOLTS_AC, true)[0].text == "230.0 V a.c."
    assert on(Function.VOLTS_AC_LOW, true)[0].text == "230.0 V a.c."


@pytest.mark.parametrize(
    ("farad", "text"),
    [
        (0.0, "0.00 nF"),
        (47e-9, "47.00 nF"),
        (470e-9, "470.0 nF"),
        (4.7e-6, "4.700 µF"),
        (15e-6, "15.00 µF"),
        (99e-6, "99.0 µF"),
        (100e-6, "100.0 µF after 1 s"),
        (247e-6, "247.0 µF after 2 s"),
        (5e-3, "5.000 mF after 50 s"),
        (6.1e-3, "OL"),
        (math.inf, "OL"),
    ],
)
def test_what_the_display_says_on_capacitance(farad, text):
    """Four digits with n, µ or m; how long it took where that is a second or more; OL past 6 mF and for a short."""
    assert on(Function.CAPACITANCE, Live(farad=farad))[0].text == text


@given(st.floats(1e-9, 5e-3))
def test_charging_by_a_constant_current(farad):
    """Twice the capacitance takes twice as long, and 100 µF to 1 V at 100 µA takes C·V/I = 1 s."""
    assert charging_time(2 * farad) == pytest.approx(2 * charging_time(farad))
    assert charging_time(100e-6) == pytest.approx(1.0)


@given(st.floats(CAPACITANCE_REFUSES_ABOVE_V + 0.01, OHMS_RATING_V / 2))
def test_capacitance_on_a_voltage_is_refused(volts):
    """Live or charged, up to the rating: no number, an event, and the meter lives."""
    for circuit, expected in (
        (Live(farad=1e-4, alternating_v=volts), (MeterEvent.CAPACITANCE_ON_LIVE,)),
        (Live(farad=1e-4, direct_v=-volts), (MeterEvent.CAPACITANCE_ON_CHARGED,)),
    ):
        meter = Multimeter(0.0, function=Function.CAPACITANCE)
        shown, events = meter.read(circuit, "a", "b")
        assert (shown.text, events, meter.ruined) == ("voltage on it, no test", expected, False)
        assert math.isnan(shown.value)


@given(st.floats(1.0, OHMS_RATING_V / 2), st.booleans())
def test_continuity_on_a_voltage_does_not_beep(volts, is_live):
    """A voltage on continuity is told, and a whole path of 0.5 Ω looks open."""
    circuit = Live(0.5, alternating_v=volts) if is_live else Live(0.5, direct_v=volts)
    shown, events = on(Function.CONTINUITY, circuit)
    assert events == (MeterEvent.CONTINUITY_ON_LIVE if is_live else MeterEvent.CONTINUITY_ON_CHARGED,)
    assert shown.text == "OL"


@pytest.mark.parametrize("function", [Function.OHMS, Function.CONTINUITY, Function.CAPACITANCE])
def test_the_peak_of_the_mains_ruins_every_function_for_dead_circuits(function):
    """A capacitor charged to the peak of 230 V, 325 V, is above the 250 V that these inputs stand."""
    meter = Multimeter(0.0, function=function)
    shown, events = meter.read(Live(direct_v=230 * math.sqrt(2)), "a", "b")
    assert (shown.text, events[-1], meter.ruined) == ("----", MeterEvent.RUINED, True)
    assert meter.lowest_volts([(0.0, 230.0)]).text == "----"


def test_amps_go_through_shunt_and_leads():
    """By hand: 12 V on 11.49 Ω with 0.01 Ω of shunt and 0.5 Ω of leads in the path is 1.000 A."""
    assert SHUNT_OHM == 0.01
    shown, events = on(Function.AMPS_AC, Live(alternating_v=12.0, loop_ohm=11.49), lead_ohm=0.5)
    assert (shown.text, events) == ("1.000 A a.c.", ())


@pytest.mark.parametrize(("amps", "text"), [(0.0, "0.000 A a.c."), (5.9994, "5.999 A a.c."), (6.0, "6.00 A a.c.")])
def test_what_the_display_says_on_amps(amps, text):
    """Four digits up to 6 A, then hundredths."""
    loop = math.inf if amps == 0 else 100.0 / amps - SHUNT_OHM
    assert on(Function.AMPS_AC, Live(alternating_v=100.0, loop_ohm=loop))[0].text == text


def test_the_current_input_across_the_supply_blows_its_fuse():
    """By hand: 230 V over 0.5 Ω of house wiring and 0.51 Ω of meter is 228 A. Amps are dead until a new fuse is in."""
    meter = Multimeter(0.5, function=Function.AMPS_AC)
    assert meter.read(Live(alternating_v=230.0, loop_ohm=0.5), "a", "b")[1] == (MeterEvent.FUSE_BLOWN,)
    load = Live(alternating_v=230.0, loop_ohm=229.49)
    shown, events = meter.read(load, "a", "b")
    assert (shown.text, events, meter.fuse_blown, meter.ruined) == ("----", (), True, False)
    meter.function = Function.VOLTS_AC
    assert meter.read(load, "a", "b")[0].text == "230.0 V a.c."
    meter.replace_fuse()
    meter.function = Function.AMPS_AC
    assert meter.read(load, "a", "b")[0].text == "1.000 A a.c."


@given(st.floats(0.01, 2.0))
def test_the_fuse_blows_above_its_current_only(part):
    """Above 11 A the fuse blows, below it does not; between 10 A and 11 A the display is over range."""
    amps = part * FUSE_A
    meter = Multimeter(0.0, function=Function.AMPS_AC)
    shown, events = meter.read(Live(alternating_v=100.0, loop_ohm=100.0 / amps - SHUNT_OHM), "a", "b")
    assert meter.fuse_blown == (events == (MeterEvent.FUSE_BLOWN,)) == (amps > FUSE_A)
    if 10.0 < amps <= FUSE_A:
        assert shown.text == "OL"


def test_lowest_volts_while_a_motor_starts():
    """230 V sag to 211 V for half a second: on hold 211.0 V stays, and a dip of 20 ms in 100 ms counts for a fifth."""
    meter = Multimeter(0.0, function=Function.OHMS)
    assert meter.lowest_volts([(0.0, 230.0), (1.0, 211.0), (1.5, 229.0)]).text == "211.0 V a.c."
    short = meter.lowest_volts([(0.0, 230.0), (1.0, 0.0), (1.02, 230.0)]).value
    assert short == pytest.approx(230 * math.sqrt(0.8), abs=0.05)


def test_lowest_volts_need_samples():
    """Without a sample the message says when to put the meter on."""
    with pytest.raises(InputError, match=r"^there are no samples to hold; the instrument must be on before the start$"):
        Multimeter(0.0).lowest_volts([])


@pytest.mark.parametrize("function", [Function.CAPACITANCE, Function.AMPS_AC])
def test_a_bench_without_capacitors_and_loops_says_so(function):
    """A circuit that only knows ohms and volts is not asked for more."""
    assert not isinstance(Between(), LiveCircuit)
    assert isinstance(Live(), LiveCircuit)
    with pytest.raises(BenchError, match=rf"^{function.value} cannot be measured on this bench$"):
        on(function, Between())


def test_limits_by_hand():
    """15 µF: 1.5 % and 5 digits of 0.01 µF is 0.275 µF; 230 V on 3 kΩ: 4.6 V and 0.3 V; 2 A: 0.03 A and 5 mA."""
    assert limit_of(Function.CAPACITANCE, 15e-6) == (pytest.approx(0.275e-6), pytest.approx(0.01e-6))
    assert limit_of(Function.VOLTS_AC_LOW, 230.0) == (pytest.approx(4.9), 0.1)
    assert limit_of(Function.AMPS_AC, 2.0) == (pytest.approx(0.035), 0.001)
    assert limit_of(Function.AMPS_AC, 10.0) == (math.inf, math.inf)


def test_every_event_has_its_consequence_in_words():
    """What happened can be told to the learner, each in its own words."""
    assert set(CONSEQUENCES) == set(MeterEvent)
    assert len(set(CONSEQUENCES.values())) == len(MeterEvent)
