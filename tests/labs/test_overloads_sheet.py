"""What the lab on overloads works out from a data sheet and hears from clicks: print, by hand, the full model."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.appliance.cooler import cooler
from coldwright.errors import InputError
from coldwright.labs.overloads.amps import average_of, spread
from coldwright.labs.overloads.dead import hot_by_resistance
from coldwright.labs.overloads.heard import heard
from coldwright.labs.overloads.sheet import TripSheet, amps_for_rise, trip_sheet
from coldwright.labs.overloads.unit import MODELS
from coldwright.quantities.constants import ICE_POINT_K
from tests.published_values import as_printed, load

SHEET = TripSheet(20.0, 5.0, 6.0, ICE_POINT_K + 115, ICE_POINT_K + 62, 0.4)


def test_rise_with_the_square_is_as_printed():
    """20 kW for 30 K in an hour: 25.8 kW for 50 K (Chakrabarti and others, Example 1.25; see tests/published)."""
    (value,) = (v for v in load() if v.id == "overload-one-hour-overload")
    found = amps_for_rise(value.inputs["rated"], value.inputs["rise_one_h"], value.inputs["allowed"])
    assert found == as_printed(value.printed)


def test_hot_winding_is_as_printed():
    """3.42 Ω at 20 °C and 4.22 Ω hot give the rise of Kulshreshtha's Example 2.18 (see tests/published)."""
    (value,) = (v for v in load() if v.id == "winding-rise-kulshreshtha-2-18")
    cold, hot, room_c = (value.inputs[key] for key in ("cold", "hot", "start_c"))
    assert hot_by_resistance(cold, hot, room_c) - room_c == as_printed(value.printed, value.within, value.because)


def test_twice_the_amps_in_a_quarter_of_the_time():
    """By hand: 5 s at 20 A are 20 s at 10 A and 1.25 s at 40 A."""
    assert SHEET.trip_estimate(10.0) == pytest.approx(20.0)
    assert SHEET.trip_estimate(40.0) == pytest.approx(1.25)


def test_lowest_amps_by_hand():
    """All at 25 °C it is the sheet's figure; with a quarter of the warmth left, half of it; none left, none."""
    assert SHEET.ultimate(ICE_POINT_K + 25) == pytest.approx(6.0)
    assert SHEET.ultimate(ICE_POINT_K + 115 - 90 / 4) == pytest.approx(3.0)
    assert SHEET.ultimate(ICE_POINT_K + 120) == 0.0
    assert SHEET.around(ICE_POINT_K + 85, ICE_POINT_K + 25) == pytest.approx(ICE_POINT_K + 49)


@pytest.mark.parametrize("model", MODELS)
def test_the_rules_agree_with_the_full_model(model):
    """The sheet's lowest amps are the model's anywhere; the I²t estimate is never above the model's time from 25 °C."""
    overload, sheet = cooler(model).parts.overload, trip_sheet(cooler(model))
    for shell_c, room_c in ((25, 25), (60, 25), (90, 32)):
        shell, room = ICE_POINT_K + shell_c, ICE_POINT_K + room_c
        full = overload.ultimate_trip_current(shell, room)
        assert sheet.ultimate(sheet.around(shell, room)) == pytest.approx(full, abs=0.006)
    at = ICE_POINT_K + 25
    for share in (0.9, 0.6, 0.45):
        amps = share * sheet.amps
        assert sheet.trip_estimate(amps) < overload.trip_time(amps, at, at, at) + 0.05 / share**2


@pytest.mark.parametrize("model", MODELS)
def test_the_sheet_says_what_it_is_read_for(model):
    """Every figure that the answers need stands in its lines."""
    sheet = trip_sheet(cooler(model))
    text = " ".join(sheet.lines())
    for figure in (
        f"{sheet.seconds:.1f} s at {sheet.amps:.0f} A",
        f"{sheet.ultimate_a:.2f} A",
        "opens at 115 °C",
        "40 %",
    ):
        assert figure in text


@given(st.floats(1, 4000), st.floats(0, 500), st.floats(1, 500), st.floats(1, 500))
def test_an_average_lies_between(on_w, off_w, on_s, off_s):
    """It lies between the two, and equals both where they are equal."""
    mean = average_of(on_w, off_w, on_s, off_s)
    assert min(on_w, off_w) - 1e-9 <= mean <= max(on_w, off_w) + 1e-9
    assert average_of(on_w, on_w, on_s, off_s) == pytest.approx(on_w)


def test_a_limit_is_carried_by_its_corners():
    """By hand: 3 ± 1 times 4 ± 1 is 12, at most 4 · 5 = 20, so 8 off."""
    assert spread(lambda a, b: a * b, (3.0, 1.0), (4.0, 1.0)) == (12.0, 8.0)


def test_clicks_make_spans():
    """By hand: on at 70, off at 80, on at 150; a thermostat's click in between spoils a span."""
    click = "click from the compressor"
    sounds = [(0, "silence"), (70, click), (70, "hums"), (80, click), (81, "silence"), (150, click), (150, "hums")]
    found = heard(sounds)
    assert (found.on, found.off, found.words) == ((10,), (70,), frozenset({"hums and clicks off"}))
    spoilt = heard([*sounds[:5], (100, "click: the thermostat opens"), *sounds[5:]])
    assert (spoilt.on, spoilt.off) == ((10,), ())
    assert heard([(0, "runs")]).words == {"runs and stays on"}
    assert heard([(1, "silence")]).words == {"stays silent"}


def test_what_cannot_be_is_refused_by_name():
    """No current, or a rise of nothing, gets a message that says so."""
    with pytest.raises(InputError, match="the current is 0 A; a trip time needs more than 0 A"):
        SHEET.trip_estimate(0.0)
    with pytest.raises(InputError, match="the known rise is 0 K and the one wanted 5 K"):
        amps_for_rise(1.0, 0.0, 5.0)
