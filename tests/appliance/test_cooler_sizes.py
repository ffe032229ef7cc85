"""The sizes of a small cooler's values: what the course invents passes, and a slipped decimal point is named."""

from __future__ import annotations

import math
import tomllib
from importlib import resources

import pytest

from coldwright.appliance.cooler import cooler_from, coolers
from coldwright.appliance.cooler_sizes import FAN, PLAIN_SIZES, SIZES, check_sizes
from coldwright.errors import InputError

COOLERS = tomllib.loads(resources.files("coldwright.appliance").joinpath("data/coolers.toml").read_text("utf-8"))
TABLES = {entry["model"]: entry for entry in COOLERS["cooler"]}
NO_SIZE = {"volts", "hertz", "poles", "shell_share"}  # checked one by one, by their own rules
SPANS = [(what, key) for what, spans in SIZES.items() for key in spans]


def sound(**changes):
    """The table of Tarn 11, with some of it changed; `motor__run_ohm` changes a key of a table in it."""
    found = dict(TABLES["Tarn 11"])
    for key, value in changes.items():
        table, _, leaf = key.partition("__")
        found[table] = {**found[table], leaf: value} if leaf else value
    return found


def test_every_number_of_the_invented_coolers_has_a_span_and_lies_inside():
    """No key is forgotten, and all fourteen models are made."""
    assert len(coolers()) == len(TABLES)
    for entry in TABLES.values():
        assert {key for key, value in entry.items() if isinstance(value, (int, float))} <= NO_SIZE | set(PLAIN_SIZES)
        for what, table in entry.items():
            if what == "fans":
                assert all(set(fan) <= set(FAN) for fan in table.values())
            elif isinstance(table, dict):
                assert set(table) <= NO_SIZE | set(SIZES[what])


@pytest.mark.parametrize(("what", "key"), SPANS)
def test_above_and_below_its_span_a_value_is_refused(what, key):
    """Both ends pass, a step beyond either is named with the model, the key and the table."""
    low, high, _unit = SIZES[what][key]
    for good in (low, high):
        check_sizes("M", {what: {key: good}})
    beyond = [low / 2 if low > 0 else low - 1.0] + ([] if math.isinf(high) else [2 * high])
    for bad in beyond:
        with pytest.raises(InputError, match=rf"^M: {key} of {what} is .*; small coolers have .* typing error"):
            check_sizes("M", {what: {key: bad}})


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        (
            {"motor__run_ohm": 410},
            "Tarn 11: run_ohm of motor is 410 Ω; small coolers have 0.1 to 200 Ω. Is there a typ",
        ),
        ({"motor__run_ohm": 0.0041}, "run_ohm of motor is 0.0041 Ω; small coolers have 0.1 to 200 Ω"),
        ({"motor__turns_ratio": 1e30}, "turns_ratio of motor is 1e+30; small coolers have 0.2 to 5. Is there"),
        ({"motor__friction_w": 1e30}, "friction_w of motor is 1e+30 W; small coolers have"),
        ({"lamp_w": 1e-30}, "lamp_w is 1e-30 W; small coolers have 0.1 to 200 W"),
        ({"fans": {"condenser fan": {"watts": 9000}}}, "watts of condenser fan is 9000 W; small coolers have"),
        ({"wiring": []}, "Tarn 11: wiring is []; write its name in quotes"),
        ({"wiring": {}}, "Tarn 11: wiring is {}; write its name in quotes"),
        ({"refrigerant": None}, "Tarn 11: refrigerant is None; write its name in quotes"),
        ({"model": [1]}, "the model of a cooler is [1]; write it in quotes"),
        ({"overload": 5}, "Tarn 11: overload is 5; it must be a table"),
        ({"relay": [1]}, "Tarn 11: relay is [1]; it must be a table"),
        ({"start_capacitor": 5}, "Tarn 11: start_capacitor is 5; it must be a table"),
        ({"board": {"bus_uf": 220, "bleed_ohm": 1e5, "watts": 85, "amps": 1}}, "board has 'amps', which is unknown"),
    ],
)
def test_a_typing_error_is_refused_in_words(changes, message):
    """Sizes that no small cooler has, and values that are not of their kind."""
    with pytest.raises(InputError) as refused:
        cooler_from(sound(**changes))
    assert message in str(refused.value)


@pytest.mark.parametrize("key", ["nameplate", "ptc", "start_capacitor"])
def test_with_a_nameplate_a_table_must_be_a_table(key):
    """What the estimate reads is looked at before it."""
    whole = sound(nameplate={"run_ohm": 4.1, "start_ohm": 14.5, "rated_w": 95, "rated_amps": 1.8})
    whole["nameplate"] |= {"locked_rotor_amps": 15, "poles": 2}
    del whole["motor"], whole["load"]
    with pytest.raises(InputError, match=rf"^Tarn 11: {key} is 5; it must be a table"):
        cooler_from({**whole, key: 5})


def test_a_cooler_that_is_no_table_is_refused():
    """A number in its place is told so."""
    with pytest.raises(InputError, match="a cooler is 5; it must be a table"):
        cooler_from(5)
