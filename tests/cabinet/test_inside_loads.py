"""Fan, lamp and defrost heater: by hand, and what is refused."""

from __future__ import annotations

import re

import pytest

from coldwright.cabinet.inside_loads import Defrost, defrost_heat, fan_heat, lamp_heat
from coldwright.errors import InputError


def test_a_fan_leaves_all_its_watts():
    """6 W that turn half the time are 3 W of heat."""
    assert fan_heat(6.0) == 6.0
    assert fan_heat(6.0, 0.5) == pytest.approx(3.0, rel=1e-12)


def test_a_lamp_that_stays_on_heats_all_day():
    """15 W for 864 s are 0.15 W in mean; with the door switch stuck 15 W."""
    assert lamp_heat(15.0, 864.0) == pytest.approx(0.15, rel=1e-12)
    assert lamp_heat(15.0, 864.0, switch_stuck_on=True) == 15.0


def test_a_defrost_heater_by_hand():
    """200 W for 20 min three times a day is 200 · 3600/86400 = 8.33 W; with 0.6 of it staying inside 5 W."""
    assert defrost_heat(Defrost(200.0, 1200.0, 3.0, 0.6)) == pytest.approx(5.0, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (
            lambda: fan_heat(0.006),
            "the power of the fan is 0.006 W; it must be from 0.1 to 200 W. Was it in kW? 0.006 kW is 6 W",
        ),
        (
            lambda: fan_heat(6.0, 50.0),
            "the running share of the fan is 50; it must be from 0 to 1. Was it in %? 50 % is 0.5",
        ),
        (lambda: lamp_heat(-15.0, 10.0), "the power of the lamp is -15 W; it must be from 0.1 to 200 W"),
        (lambda: lamp_heat(15.0, 1e5), "the time that the door is open in a day is 100000 s; it must be from 0 to"),
        (
            lambda: defrost_heat(Defrost(0.2, 1200.0, 3.0)),
            "the power of the defrost heater is 0.2 W; it must be from 1 to 2000 W. Was it in kW? 0.2 kW is 200 W",
        ),
        (
            lambda: defrost_heat(Defrost(200.0, 30000.0, 3.0)),
            "the time that the defrost heater is on in a day is 90000 s; it must be from 0 to 86400 s",
        ),
        (
            lambda: defrost_heat(Defrost(200.0, 1200.0, 3.0, 80.0)),
            "the share of the defrost heat that stays inside is 80; it must be from 0 to 1. Was it in %? 80 % is 0.8",
        ),
        (lambda: defrost_heat(Defrost(200.0, 12.0, 100.0)), "the defrosts in a day is 100; it must be from 0 to 48"),
    ],
)
def test_what_is_refused(call, message):
    """Name, value, rule and the likely slip."""
    with pytest.raises(InputError, match="^" + re.escape(message)):
        call()
