"""The plug-in power meter: what it shows, its accuracy, power factor and energy."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.instruments.display import Error
from coldwright.instruments.power_meter import (
    KWH,
    RANGES,
    PowerMeter,
    Quantity,
    energy_of,
    limit_of_power_meter,
    power_factor,
)
from tests.instruments.circuits import Live

STAND = st.floats(-0.7, 0.7)
VOLTS, AMPS, FACTOR = st.floats(80, 270), st.floats(0.02, 15), st.floats(0, 1)


@given(VOLTS, AMPS, FACTOR, STAND, STAND)
def test_every_quantity_is_within_its_accuracy(volts, amps, factor, gain, offset):
    """Wherever the meter stands, the truth is within ±(1 % + digits) of what it shows; no power factor above 1."""
    meter = PowerMeter(lambda _quantity: Error(gain, offset))
    circuit = Live(plug=(volts * amps * factor, volts, amps))
    shown = {
        volts: meter.volts(circuit),
        amps: meter.amps(circuit),
        volts * amps * factor: meter.watts(circuit),
        volts * amps: meter.volt_amps(circuit),
        factor: meter.power_factor(circuit),
        volts * 3600.0: meter.energy(volts * 3600.0),
    }
    for true, display in shown.items():
        assert abs(display.value - true) <= display.limit * (1 + 1e-6)
    assert shown[factor].value <= 1


def test_each_quantity_stands_for_itself():
    """The place within the accuracy is asked for by the name of the quantity, so that none moves another."""
    asked: list[str] = []
    meter = PowerMeter(lambda quantity: asked.append(quantity) or Error())
    circuit = Live(plug=(60.0, 120.0, 1.0))
    for read in (meter.volts, meter.amps, meter.watts, meter.volt_amps, meter.power_factor):
        read(circuit)
    meter.energy(KWH)
    assert asked == [quantity.value for quantity in Quantity]


def test_what_the_meter_says():
    """A cooler by hand: 230 V, 0.8 A, 110 W is 184 VA and a power factor of 110/184 = 0.598."""
    circuit, meter = Live(plug=(110.0, 230.0, 0.8)), PowerMeter()
    texts = [d.text for d in (meter.volts(circuit), meter.amps(circuit), meter.watts(circuit))]
    assert texts == ["230.0 V", "0.800 A", "110.0 W"]
    assert meter.volt_amps(circuit).text == "184.0 VA"
    assert meter.power_factor(circuit).text == "0.60"
    assert meter.energy(0.375 * KWH).text == "0.375 kWh"


def test_nothing_runs():
    """A stopped unit: volts, no watts, and no power factor to show; pulled, no volts either."""
    meter = PowerMeter()
    stopped, pulled = Live(plug=(0.0, 231.0, 0.0)), Live()
    assert [meter.volts(stopped).text, meter.watts(stopped).text] == ["231.0 V", "0.0 W"]
    assert meter.power_factor(stopped).text == "-.--"
    assert math.isnan(meter.power_factor(stopped).value)
    assert meter.volts(pulled).text == "0.0 V"


def test_limit_cases_of_the_power_factor():
    """A heater alone gives 1, a capacitor alone gives 0."""
    assert power_factor(460.0, 230.0, 2.0) == 1.0
    assert power_factor(0.0, 230.0, 2.0) == 0.0


def test_a_meter_that_reads_high_shows_no_more_than_one():
    """A heater on a meter at the upper end of its accuracy would show 1.02; there is no power factor above 1."""
    meter = PowerMeter(lambda _quantity: Error(0.7, 0.7))
    assert meter.power_factor(Live(plug=(460.0, 230.0, 2.0))).text == "1.00"


@given(st.lists(st.tuples(st.floats(0, 3000), st.floats(0, 1e5)), max_size=6), st.floats(0, 1))
def test_energy_does_not_depend_on_how_time_is_cut(spans, cut):
    """Each span cut in two gives the same energy; 100 W for ten hours is 1 kWh."""
    parts = [piece for w, s in spans for piece in ((w, cut * s), (w, (1 - cut) * s))]
    assert energy_of(parts) == pytest.approx(energy_of(spans), rel=1e-9, abs=1e-6)
    assert energy_of([(100.0, 36000.0)]) == pytest.approx(KWH)


def test_limits_by_hand():
    """110 W: 1.1 W and 5 digits of 0.1 W is 1.6 W; 0.375 kWh: 0.00375 and 0.001 kWh; 5 kW is over range."""
    assert limit_of_power_meter(Quantity.WATTS, 110.0) == (pytest.approx(1.6), 0.1)
    assert limit_of_power_meter(Quantity.ENERGY, 0.375 * KWH) == (pytest.approx(0.00475 * KWH), pytest.approx(3600.0))
    assert limit_of_power_meter(Quantity.WATTS, 5000.0) == (math.inf, math.inf)
    assert PowerMeter().watts(Live(plug=(5000.0, 230.0, 22.0))).text == "OL"
    assert set(RANGES) == set(Quantity)


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ((10.0, 0.0, 1.0), r"^the volts are 0 V; a power factor needs more than zero$"),
        ((10.0, 230.0, 0.0), r"^the amps are 0 A; a power factor needs more than zero$"),
        ((300.0, 230.0, 1.0), r"^the power is 300 W of 230 VA; it must lie between zero .* at the same time\?$"),
        ((-5.0, 230.0, 1.0), r"^the power is -5 W of 230 VA; it must lie between zero and the volt-amps"),
    ],
)
def test_what_gives_no_power_factor(values, message):
    """Each message names the value and the rule."""
    with pytest.raises(InputError, match=message):
        power_factor(*values)


@pytest.mark.parametrize("span", [(-1.0, 5.0), (100.0, -5.0), (math.nan, 5.0)])
def test_what_gives_no_energy(span):
    """A power or a time below zero, or no number, is refused."""
    with pytest.raises(InputError, match=r"^a span has .* W for .* s; both must be zero or more$"):
        energy_of([(100.0, 60.0), span])
