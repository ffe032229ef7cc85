"""The picture of volts along the way, the worked example, and the verdict on a real joint."""

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_reading_the_circuit import (
    CASES,
    LOOSE_OHM,
    WAY,
    one_load,
    schematic,
    volts_on_the_way,
    way_figure,
)
from coldwright.panels.real_reading_the_circuit import real_joint, study_real_joint
from tests.published_values import as_printed, load

READINGS = {
    "supply": "120.0 V",
    "amps": "2.000 A",
    "meter": "0.8 % + 3 digits",
    "clamp": "2 % + 4 digits",
}


@pytest.mark.parametrize("case", list(CASES))
def test_what_is_lost_on_the_way_adds_up_to_the_supply(case: str) -> None:
    """Kirchhoff's voltage law: the steps from the outlet's live pin to its neutral add up to the volts between them."""
    way = volts_on_the_way(case)

    assert sum(way.steps.values()) == pytest.approx(way.volts[0], abs=0.05)
    assert way.volts[0] == pytest.approx(120.0, abs=0.5)
    assert way.volts[-1] == 0.0


@pytest.mark.parametrize(
    ("case", "ends"),
    [
        ("all good", ("condenser fan 1", "condenser fan 2")),
        ("thermostat open", ("thermostat 1", "thermostat 2")),
        ("fan open", ("condenser fan 1", "condenser fan 2")),
        ("neutral broken", ("cord N", "outlet N")),
    ],
)
def test_the_supply_stands_across_what_is_open(case: str, ends: tuple[str, str]) -> None:
    """An open switch or wire has the supply across it; where all is good, or the fan itself open, the fan has it."""
    steps = volts_on_the_way(case).steps

    assert steps[ends] == pytest.approx(120.0, abs=0.5)
    assert all(volts < 0.5 for pair, volts in steps.items() if pair != ends)


def test_a_loose_joint_loses_its_ohms_times_the_fans_amps() -> None:
    """Two fans of 0.21 A and 0.14 A at 120 V lag: their sum lies between 0.14 A and 0.36 A, so 5.6 V to 14.4 V."""
    step = volts_on_the_way("loose joint").steps["thermostat 2", "timer 1"]

    assert 0.14 * LOOSE_OHM < step < 0.36 * LOOSE_OHM


def test_picture_and_words_stand_together() -> None:
    """The words name the place where the volts stop, and the line drawn has a point for each terminal."""
    picture = way_figure("thermostat open")
    (line,) = picture.figure.axes[0].lines

    assert "Lost on the way: thermostat 1 to thermostat 2: 120.0 V." in picture.text
    assert len(line.get_ydata()) == len(WAY)
    assert repr(picture) == picture.text


def test_an_unknown_case_is_told_with_those_there_are() -> None:
    """The message lists the cases."""
    with pytest.raises(InputError, match="there is no case 'cold'; there are all good, thermostat open, loose joint"):
        way_figure("cold")


def test_the_schematic_has_a_twin_in_words() -> None:
    """Picture and words in one, the words as text where no picture can be shown."""
    shown = schematic("Tarn 17")

    assert "<svg" in shown._repr_html_()
    assert "The schematic in words" in shown._repr_html_()
    assert "- [cooling]: timer 4, overload 1, condenser fan 1, evaporator fan 1" in repr(shown)


def test_the_worked_example_gives_the_printed_numbers(capsys: pytest.CaptureFixture[str]) -> None:
    """Kuphaldt, Calculating electric power: 18 V on 3 Ω is 6 A and 108 W; on 36 V it is 12 A."""
    printed = {value.id: value.printed for value in load()}
    one_load("18 V", "3 ohm")
    one_load("36 V", "3 ohm")
    first, second = capsys.readouterr().out.splitlines()

    assert float(first.split(" are ")[1].removesuffix(" W.")) == as_printed(printed["reading-one-load-18-v"])
    assert float(second.split(": ")[1].split(" A")[0]) == as_printed(printed["reading-one-load-36-v"])


def test_a_poor_joint_by_hand() -> None:
    """0.500 V at 2.000 A are 0.25 Ω and 1 W; the meter may be off by 0.007 V, the clamp by 0.044 A."""
    lines = study_real_joint(across="0.500 V", **READINGS).lines

    assert "Across it: 0.5 V ± 0.007 V of 120 V ± 1.3 V." in lines
    assert "At 2 A ± 0.044 A it has 0.25 Ω ± 0.009 Ω." in lines  # 0.007/2 + 0.5·0.044/4 = 0.0090
    assert "It turns 1 W ± 0.036 W into heat." in lines  # 0.007·2 + 0.5·0.044 = 0.036
    assert any(line.startswith("Verdict: POOR.") for line in lines)


@pytest.mark.parametrize(
    ("across", "more", "verdict"),
    [
        ("119.0 V", {}, "OPEN"),
        ("0.020 V", {}, "GOOD"),
        ("0.500 V", {}, "POOR"),
        ("0.101 V", {}, "CANNOT TELL. The edge"),
        ("0.000 V", {"amps": ""}, "CANNOT TELL. No current"),
        ("0.000 V", {"amps": "0.010 A"}, "CANNOT TELL. No current"),
    ],
)
def test_the_verdict(across: str, more: dict[str, str], verdict: str) -> None:
    """Supply across it: open. Without a load nothing can be told. Else what is lost decides, the ± allowed for."""
    assert study_real_joint(**{**READINGS, "across": across, **more}).verdict.startswith(verdict)


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ({"across": ""}, 'across is not filled in; type what the meter showed, such as "0.35 V"'),
        ({"across": "0.62"}, 'across: "0.62" has no unit'),
        ({"across": "-1 V"}, "across is -1 V; volts and amps a.c. are never below zero"),
        ({"across": "150.0 V"}, r"across is 150.0 V, more than the supply of 120.0 V. Were the two mixed up\?"),
        ({"supply": "0.0 V"}, r"supply is 0.0 V; it must be above zero. Is the plug in\?"),
        ({"allowed": "0 V"}, "allowed is 0 V; it must be above zero"),
        ({"meter": "good"}, "the meter's accuracy cannot be read"),
    ],
)
def test_bad_input_is_told(typed: dict[str, str], message: str) -> None:
    """Each message names the entry, its value and the rule."""
    with pytest.raises((AnswerError, InputError), match=message):
        study_real_joint(**{**READINGS, "across": "0.500 V", **typed})


def test_the_notebook_s_call_prints_and_never_raises(capsys: pytest.CaptureFixture[str]) -> None:
    """The caution comes first; a wrong entry or value is one line."""
    real_joint(across="0.500 V", **READINGS)
    real_joint(acros="0.5 V")
    real_joint(across="much", **READINGS)
    said = capsys.readouterr().out

    assert said.startswith("⚠ This reading is live")
    assert "there is no entry 'acros'; there are across, supply, amps, meter, clamp, allowed" in said
    assert "⚠ across: " in said
