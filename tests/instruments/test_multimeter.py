"""The multimeter: accuracy, leads, ranges, over-range, and what a voltage does to its ohms."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import BenchError
from coldwright.instruments.display import Error
from coldwright.instruments.multimeter import (
    INPUT_OHM,
    OHMS,
    OHMS_MISREADS_ABOVE_V,
    OHMS_RATING_V,
    Function,
    MeterEvent,
    Multimeter,
    limit_of_ohms,
)
from tests.instruments.circuits import Between

STAND = st.floats(-0.7, 0.7)
ERRORS = st.lists(st.tuples(STAND, STAND), min_size=8, max_size=8)
LEADS = st.floats(0.0, 2.0)
ANY_OHM = st.floats(-2, 7.77).map(lambda power: 10**power)


def stands(draws: list[tuple[float, float]]) -> Callable[[Function, int], Error]:
    """A meter that stands somewhere else on each range."""
    return lambda _function, number: Error(*draws[number])


def ohmmeter(lead_ohm: float = 0.0, draws: list[tuple[float, float]] | None = None) -> Multimeter:
    """A meter on ohms."""
    meter = Multimeter(lead_ohm, stands(draws or [(0.0, 0.0)] * 8))
    meter.function = Function.OHMS
    return meter


def reads(meter: Multimeter, circuit: Between) -> str:
    """What the meter shows."""
    return meter.read(circuit, "a", "b")[0].text


@given(ANY_OHM, LEADS, ERRORS)
def test_ohms_are_within_the_accuracy_of_winding_and_leads(ohm, lead, draws):
    """Leads not zeroed: the reading is that of winding and leads, within ±(% + digits)."""
    shown, events = ohmmeter(lead, draws).read(Between(ohm), "a", "b")
    assert events == ()
    if math.isfinite(shown.value):
        assert abs(shown.value - (ohm + lead)) <= shown.limit * (1 + 1e-9)


@given(ANY_OHM, LEADS, ERRORS)
def test_zeroed_ohms_are_within_the_accuracy_of_the_winding(ohm, lead, draws):
    """Leads zeroed: the reading is that of the winding alone, within ±(% + digits), whatever range zeroed and read."""
    meter = ohmmeter(lead, draws)
    meter.zero_leads()
    shown, _ = meter.read(Between(ohm), "a", "b")
    if math.isfinite(shown.value):
        assert abs(shown.value - ohm) <= shown.limit * (1 + 1e-9)
        limit, resolution = limit_of_ohms(shown.value, meter.zero_ohm)
        assert resolution in (shown.resolution, shown.resolution * 10, shown.resolution / 10)
        if resolution == shown.resolution:
            assert limit == shown.limit


@given(st.sampled_from([Function.VOLTS_AC, Function.VOLTS_DC]), st.floats(0, 599), ERRORS)
def test_volts_are_within_the_accuracy(function, volts, draws):
    """Volts are within ±(% + digits), and leads do not matter."""
    meter = Multimeter(0.9, stands(draws), function=function)
    shown, events = meter.read(Between(alternating_v=volts, direct_v=volts), "a", "b")
    assert events == ()
    assert abs(shown.value - volts) <= shown.limit * (1 + 1e-9)


@pytest.mark.parametrize(
    ("ohm", "text"),
    [
        (0.0, "0.000 Ω"),
        (4.2, "4.200 Ω"),
        (5.9994, "5.999 Ω"),
        (6.0, "6.00 Ω"),
        (42.0, "42.00 Ω"),
        (420.0, "420.0 Ω"),
        (4200.0, "4.200 kΩ"),
        (42e3, "42.00 kΩ"),
        (420e3, "420.0 kΩ"),
        (4.2e6, "4.200 MΩ"),
        (42e6, "42.00 MΩ"),
        (59.99e6, "59.99 MΩ"),
        (60e6, "OL"),
        (math.inf, "OL"),
    ],
)
def test_what_the_display_says_on_ohms(ohm, text):
    """A meter without error shows four digits on the lowest range that fits, and OL past 60 MΩ."""
    assert reads(ohmmeter(), Between(ohm)) == text


@pytest.mark.parametrize(
    ("function", "volts", "text"),
    [
        (Function.VOLTS_AC, 0.0, "0.000 V a.c."),
        (Function.VOLTS_AC, 229.96, "230.0 V a.c."),
        (Function.VOLTS_DC, 12.346, "12.35 V d.c."),
        (Function.VOLTS_DC, 600.0, "OL"),
    ],
)
def test_what_the_display_says_on_volts(function, volts, text):
    """Volts with their kind, and OL past 600 V."""
    meter = Multimeter(0.5, function=function)
    assert reads(meter, Between(alternating_v=volts, direct_v=volts)) == text


def test_swapped_tips_show_a_minus():
    """Direct voltage has a sign: red on the other terminal shows a minus."""
    meter = Multimeter(0.0, function=Function.VOLTS_DC)
    assert meter.read(Between(direct_v=12.0), "b", "a")[0].text == "-12.00 V d.c."


def test_the_range_is_picked_with_the_leads():
    """5.9 Ω with 0.5 Ω of leads is over 6 Ω: the next range shows it, zeroed or not."""
    meter = ohmmeter(0.5)
    assert reads(meter, Between(5.9)) == "6.40 Ω"
    meter.zero_leads()
    assert reads(meter, Between(5.9)) == "5.90 Ω"
    assert limit_of_ohms(5.9, 0.5) == (pytest.approx(0.0418), 0.01)
    assert limit_of_ohms(5.9) == (pytest.approx(0.0148), 0.001)


def test_zeroing_takes_the_leads_off_once():
    """Zeroing shows the leads and takes them off every ohms reading from then on, and off no volts."""
    meter = ohmmeter(0.6)
    assert not meter.is_zeroed
    assert meter.zero_leads().text == "0.600 Ω"
    assert meter.is_zeroed
    assert reads(meter, Between(4.0)) == "4.000 Ω"
    meter.function = Function.VOLTS_DC
    assert reads(meter, Between(direct_v=4.0)) == "4.000 V d.c."


def test_zeroing_is_for_ohms():
    """On volts there is nothing to zero: the message says what to set."""
    with pytest.raises(BenchError, match=r"^the meter is not set to ohms; set it to ohms, then zero the leads$"):
        Multimeter(0.5, function=Function.VOLTS_AC).zero_leads()


def test_limit_past_the_last_range():
    """Past 60 MΩ there is no limit to give."""
    assert limit_of_ohms(60e6) == (math.inf, math.inf)
    assert limit_of_ohms(10e6) == (pytest.approx(0.13e6), 1e4)


@given(st.floats(0.0, OHMS_MISREADS_ABOVE_V), st.floats(0.1, 1e4))
def test_next_to_no_voltage_leaves_ohms_alone(volts, ohm):
    """Up to 50 mV the reading is a resistance and nothing happened."""
    shown, events = ohmmeter().read(Between(ohm, alternating_v=volts), "a", "b")
    assert events == ()
    assert shown.value == pytest.approx(ohm, abs=shown.limit)


@given(st.floats(1.0, OHMS_RATING_V / 2), st.floats(1.0, OHMS_RATING_V / 2), st.floats(0.1, 1e4))
def test_ohms_on_a_voltage_show_no_resistance(alternating, direct, ohm):
    """A voltage on ohms is told as live or charged, and the number shown is far from the resistance."""
    for circuit, expected in (
        (Between(ohm, alternating_v=alternating), (MeterEvent.OHMS_ON_LIVE,)),
        (Between(ohm, direct_v=-direct), (MeterEvent.OHMS_ON_CHARGED,)),
        (Between(ohm, alternating, direct), (MeterEvent.OHMS_ON_LIVE, MeterEvent.OHMS_ON_CHARGED)),
    ):
        meter = ohmmeter()
        shown, events = meter.read(circuit, "a", "b")
        assert events == expected
        assert not meter.ruined
        assert not math.isfinite(shown.value) or abs(shown.value - ohm) > 10 * shown.limit


@pytest.mark.parametrize(
    "circuit", [Between(5.0, alternating_v=250.1), Between(5.0, 200.0, 60.0), Between(5.0, 0, -251)]
)
def test_beyond_its_rating_the_meter_is_ruined(circuit):
    """More than 250 V on ohms ruins the meter: it shows dashes then and on every function after."""
    meter = ohmmeter(0.5)
    shown, events = meter.read(circuit, "a", "b")
    assert shown.text == "----"
    assert events[-1] is MeterEvent.RUINED
    assert meter.ruined
    for function in Function:
        meter.function = function
        later, more = meter.read(Between(5.0), "a", "b")
        assert (later.text, more) == ("----", ())
        assert math.isnan(later.value)
    meter.function = Function.OHMS
    assert meter.zero_leads().text == "----"
    assert not meter.is_zeroed


def test_just_within_its_rating_it_survives():
    """250 V on ohms misreads and does not ruin; 600 V on volts is what volts are for."""
    meter = ohmmeter()
    meter.read(Between(5.0, alternating_v=250.0), "a", "b")
    assert not meter.ruined
    meter.function = Function.VOLTS_AC
    meter.read(Between(5.0, alternating_v=599.0), "a", "b")
    assert not meter.ruined


def test_the_volts_input_is_ten_megohm():
    """The meter puts 10 MΩ on what it measures."""

    class Noting(Between):
        loads: list[float] = []  # noqa: RUF012 - a note for this test

        def ac_voltage(self, _a: str, _b: str, load_ohm: float) -> float:
            self.loads.append(load_ohm)
            return 1.0

    Multimeter(0.0).read(Noting(), "a", "b")
    assert Noting.loads == [INPUT_OHM] == [10e6]


def test_an_error_belongs_to_one_range():
    """A meter that stands high on one range only reads high there and nowhere else."""
    draws = [(0.0, 0.0)] * 8
    draws[1] = (0.7, 0.7)
    assert reads(ohmmeter(0.0, draws), Between(5.0)) == "5.000 Ω"
    assert reads(ohmmeter(0.0, draws), Between(50.0)) == "50.09 Ω"
    assert reads(ohmmeter(0.0, draws), Between(500.0)) == "500.0 Ω"
    assert OHMS[1].limit(50.0) == pytest.approx(0.13)
