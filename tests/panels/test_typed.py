"""What all entries of the lessons' cells have in common: text in quotes, percentages, and values that make sense."""

from __future__ import annotations

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures import winding_figure
from coldwright.panels.figures_capacitors import size_figure
from coldwright.panels.figures_overloads import trip_figure
from coldwright.panels.figures_reading_the_circuit import one_load, schematic, way_figure
from coldwright.panels.figures_safe_isolation import ghost_figure
from coldwright.panels.figures_start_circuits import relay_figure
from coldwright.panels.figures_stored_charge import discharge_figure
from coldwright.panels.real_capacitor import real_capacitor, study_real_capacitor
from coldwright.panels.real_charge import real_charge, study_real_charge
from coldwright.panels.real_overloads import real_overload, study_real_overload
from coldwright.panels.real_reading_the_circuit import real_joint, study_real_joint
from coldwright.panels.real_safe_isolation import real_meter, real_reading, study_reading
from coldwright.panels.real_start_circuit import real_relay, study_real_relay
from coldwright.panels.real_unit import real_unit, study_real_unit
from coldwright.panels.typed import read_percent

WINDINGS = {"run_r": "4.5 ohm", "run_x": "3.7 ohm", "start_r": "9.5 ohm", "start_x": "3.5 ohm"}
UNIT = {"r12": "4.2 ohm", "r23": "12 ohm", "r13": "16.2 ohm", "temperature": "23 °C", "meter": "0.5 % + 3 digits"}
JOINT = {"across": "0.05 V", "supply": "119.6 V", "amps": "1.80 A", "meter": "0.8 % + 3", "clamp": "2 % + 5"}
CAPACITOR = {
    "volts": "352.4 V",
    "amps": "1.63 A",
    "frequency": "60 Hz",
    "volts_meter": "1 % + 3 digits",
    "amps_meter": "2 % + 5 digits",
    "marked": "12 uF",
    "tolerance": "5 %",
    "marked_volts": "450 V",
}
STUDIES = [
    (study_real_capacitor, "marked"),
    (study_real_charge, "volts"),
    (study_real_overload, "room"),
    (study_real_joint, "allowed"),
    (study_real_relay, "clamp"),
    (study_real_unit, "meter"),
    (winding_figure, "tolerance"),
    (size_figure, "supply"),
    (trip_figure, "amps"),
    (way_figure, "case"),
    (schematic, "model"),
    (ghost_figure, "hertz"),
    (relay_figure, "volts"),
    (discharge_figure, "resistor"),
]


@pytest.mark.parametrize(("study", "name"), STUDIES, ids=[study.__name__ for study, _ in STUDIES])
@pytest.mark.parametrize("value", [5, None, 4.2])
def test_an_entry_without_quotes_is_told_by_name(study, name, value):
    """A number or None in place of text: the entry, the value and what to do. Other entries may still be missing."""
    needed = {"winding_figure": ("reading", "temperature", "maker"), "size_figure": tuple(WINDINGS)}
    rest = dict.fromkeys(needed.get(study.__name__, ()), "1 ohm")
    rest |= {"capacitance": "1 uF", "volts": "9 V"} if study is discharge_figure else {}
    with pytest.raises(AnswerError, match=rf"^{name} is {value}; write it in quotes with its unit$"):
        study(**rest, **{name: value})


@pytest.mark.parametrize(
    ("real", "typed"),
    [
        (real_capacitor, {"marked": 5}),
        (real_charge, {"volts": 5}),
        (real_overload, {"room": 5}),
        (real_joint, {"allowed": 5}),
        (real_relay, {"clamp": 5}),
        (real_unit, {"r12": 5}),
        (real_reading, {"plate": 5}),
        (real_meter, {"mains": 5}),
    ],
)
def test_in_a_cell_it_is_one_line(real, typed, capsys):
    """No traceback in the lesson's last section."""
    real(**typed)
    (name,) = typed
    assert capsys.readouterr().out == f"⚠ {name} is 5; write it in quotes with its unit\n"


@pytest.mark.parametrize(("text", "shown"), [("-7 %", "-7"), ("100 %", "100"), ("1e9 %", "1e+09")])
def test_a_percentage_must_be_one(text, shown):
    """Below zero, or all of it and more: refused with the value and the rule."""
    with pytest.raises(InputError) as refused:
        read_percent(text)
    assert str(refused.value) == f"the maker's tolerance is {shown} %; it must be from 0 % to below 100 %"
    assert read_percent("0 %") == 0.0
    assert read_percent("±99.9 %") == pytest.approx(0.999)


SENSELESS = [
    (lambda: one_load("230 V", "0 ohm"), "resistance is 0 ohm; it must be above zero. Nothing limits the current"),
    (lambda: one_load("1e12 V", "3 ohm"), "volts is 1e12 V; it can be at most 2000 V. Is there a typing error"),
    (lambda: trip_figure(shell="1e12 °C"), "shell is 1e12 °C; it can be -60 °C to 300 °C"),
    (lambda: trip_figure(room="-80 °C"), "room is -80 °C; it can be -60 °C to 300 °C"),
    (lambda: ghost_figure(hertz="1e12 Hz"), "hertz is 1e12 Hz; it can be 45 Hz to 65 Hz on mains"),
    (lambda: study_real_capacitor(**{**CAPACITOR, "frequency": "1e12 Hz"}), "frequency is 1e12 Hz; it can be 45 Hz to"),
    (lambda: study_real_capacitor(**{**CAPACITOR, "marked": "12 F"}), "marked is 12 F; it can be at most 0.1 F"),
    (lambda: study_real_joint(**JOINT, allowed="1e12 V"), "allowed is 1e12 V; it can be at most 2000 V"),
    (lambda: study_real_joint(**JOINT, allowed="120 V"), "allowed is 120 V; it must be below the supply of 119.6 V"),
    (lambda: study_real_unit(**{**UNIT, "temperature": "900 °C"}), "temperature is 900 °C; it can be -60 °C to 300 °C"),
    (lambda: study_real_unit(**{**UNIT, "r12": "1e25 ohm"}), "r12 is 1e25 ohm; it can be at most 10 TΩ"),
    (lambda: study_reading("1e12 V", "1 % + 3", "120 V", "10 %"), "reading is 1e12 V; it can be at most 2000 V"),
    (lambda: study_reading("118 V", "1 % + 3", "120 V", "-7 %"), "tolerance is -7 %; it must be from 0 % to below"),
    (lambda: size_figure(**WINDINGS, frequency="400 Hz"), "frequency is 400 Hz; it can be 45 Hz to 65 Hz on mains"),
    (lambda: relay_figure(volts="1e9 V"), "volts is 1e9 V; it can be at most 2000 V"),
    (lambda: winding_figure("4 ohm", "85 °C", "0 ohm"), "maker is 0 ohm; it must be above zero"),
    (lambda: discharge_figure("9 F", "325 V", "1 kohm"), "capacitance is 9 F; it can be at most 0.1 F"),
]


@pytest.mark.parametrize(("study", "message"), SENSELESS, ids=range(len(SENSELESS)))
def test_what_no_small_cooler_has_is_refused(study, message):
    """A slipped power of ten gives no verdict and no picture: the entry, the value and what it can be."""
    with pytest.raises(InputError) as refused:
        study()
    assert message in str(refused.value)
