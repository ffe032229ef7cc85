"""A real compressor: what a technician types, and the verdict with its limits and reasons."""

import math

import pytest

from coldwright.electrical.measured import Measured
from coldwright.electrical.verdict import Verdict
from coldwright.errors import AnswerError, InputError
from coldwright.panels import real_unit
from coldwright.panels.real_unit import study_real_unit
from coldwright.panels.typed import Accuracy, read_accuracy, read_maker, read_measured, read_percent, without_leads

READINGS = {"r12": "4.21 ohm", "r23": "16.60 ohm", "r13": "12.40 ohm", "temperature": "20 °C"}
METER = {"meter": "0.5 % + 3 digits"}
MAKER = {"maker_run": "4.1 ohm", "maker_start": "12.4 ohm", "maker_tolerance": "7 %"}


@pytest.mark.parametrize(
    "text", ["0.6 % + 1 digit", "±(0.6 % + 1)", "0,6% + 1 d", "±(0.6 % of reading + 1 dgt)", "0.6 % rdg + 1 count"]
)
def test_an_accuracy_is_read_in_the_spellings_of_manuals(text: str) -> None:
    """All of these are ±(0.6 % of the reading + 1 digit)."""
    assert read_accuracy(text) == Accuracy(0.6, 1)


def test_the_limit_of_a_reading_is_that_of_the_textbook_example() -> None:
    """20.0 V on a meter of ±(0.6 % + 1 digit) may be off by 0.22 V (Bell, Electronic Instrumentation, Example 6-2)."""
    assert read_accuracy("0.6 % + 1 digit").measured(20.0, 0.1).limit == pytest.approx(0.22)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the meter's accuracy cannot be read; write it as its manual does"),
        ("good", "the meter's accuracy cannot be read"),
        ("0.5 %", "the meter's accuracy cannot be read"),
        ("50 % + 3", "the meter's accuracy is 50 % of the reading; it must be below 20 %"),
    ],
)
def test_an_accuracy_that_cannot_be_read_is_said(text: str, message: str) -> None:
    """The message shows how it is written."""
    with pytest.raises(AnswerError, match=message):
        read_accuracy(text)


def test_the_last_digit_typed_sets_the_digits_of_the_limit() -> None:
    """4.21 Ω at ±(0.5 % + 3 digits): 0.02105 Ω and 0.03 Ω; over range has no limit."""
    accuracy = Accuracy(0.5, 3)

    assert read_measured("r12", "4.21 ohm", accuracy).limit == pytest.approx(0.05105)
    assert read_measured("r12", "4.2 ohm", accuracy).limit == pytest.approx(0.321)
    assert read_measured("r12", "OL", accuracy).value == math.inf
    assert read_measured("insulation", "> 1000 Mohm", accuracy).value == math.inf


def test_readings_that_cannot_be_are_said_by_name() -> None:
    """Blank, without unit and below zero: the message begins with the entry."""
    for text, message in (
        ("", "r13 is not filled in; type what the meter showed"),
        ("4.2", 'r13: "4.2" has no unit'),
        ("-1 ohm", "r13 is -1 Ω; a resistance is never below zero"),
    ):
        with pytest.raises(AnswerError, match=message):
            read_measured("r13", text, Accuracy(0.5, 3))


def test_leads_are_taken_off_with_their_limit() -> None:
    """5.0 Ω less leads of 0.6 Ω is 4.4 Ω, and the limits add; leads above the reading are a mistake."""
    bare = without_leads("r12", Measured(5.0, 0.1), Measured(0.6, 0.05))
    assert (bare.value, bare.limit) == (pytest.approx(4.4), pytest.approx(0.15))
    assert without_leads("r12", Measured(math.inf), Measured(0.6)).is_open
    with pytest.raises(InputError, match=r"the leads read 6 Ω and r12 reads 5 Ω, which is not more"):
        without_leads("r12", Measured(5.0), Measured(6.0))


def test_the_makers_values_come_in_two_kinds() -> None:
    """Run and start, or one pair for an inverter compressor; anything between is said."""
    assert read_maker("", "", "", "", "copper") is None
    both = read_maker("4.1 ohm", "12.4 ohm", "", "7 %", "copper")
    pair = read_maker("", "", "6.8 ohm", "±5 %", "aluminum")
    assert both is not None
    assert pair is not None
    assert (both.run, both.start, both.tolerance) == (4.1, 12.4, pytest.approx(0.07))
    assert (pair.run, pair.is_inverter, pair.conductor.value) == (6.8, True, 225.0)
    for run, start, single in (("4 ohm", "", ""), ("", "12 ohm", ""), ("4 ohm", "12 ohm", "6 ohm")):
        with pytest.raises(AnswerError, match="give either maker_run and maker_start, or maker_pair"):
            read_maker(run, start, single, "7 %", "copper")
    with pytest.raises(AnswerError, match="the metal of the windings is 'silver'"):
        read_maker("", "", "", "", "silver")
    with pytest.raises(AnswerError, match='written as a percentage, such as "7 %"'):
        read_percent("0.07")


def test_a_good_compressor_is_good_with_all_values_known() -> None:
    """By hand: 4.21 + 12.40 - 16.60 = 0.01 Ω; limits 0.051 + 0.092 + 0.113 = 0.256 Ω; both inside ±7 %."""
    unit = study_real_unit(**READINGS, **METER, **MAKER, insulation="> 1000 Mohm")
    text = "\n".join(unit.lines)

    assert unit.finding.verdict is Verdict.GOOD
    assert "Pins: common is pin 1, run is pin 2, start is pin 3; the highest pair, 2 and 3, leaves out common." in text
    assert "0.010 Ω apart, where the meter allows 0.256 Ω in all" in text
    assert "Verdict on the windings: GOOD." in text
    assert "Ohms do not see a seized rotor" in text


@pytest.mark.parametrize(
    ("changed", "verdict", "words"),
    [
        ({"insulation": "1.2 Mohm"}, Verdict.GROUNDED, "not above the 2 MΩ"),
        ({"insulation": ""}, Verdict.UNDECIDED, "Next test: test from each pin to the shell at 500 V d.c."),
        ({"temperature": "85 °C"}, Verdict.SHORTED_TURNS, "too low for its temperature: turns are shorted"),
        ({"r12": "OL", "r13": "OL"}, Verdict.OPEN_PROTECTOR, "the internal protector"),
        ({"r12": "OL", "r13": "OL", "temperature": "150 °F"}, Verdict.UNDECIDED, "the winding is hot"),
        ({"r23": "17.3 ohm"}, Verdict.UNDECIDED, "Next test: zero the leads"),
        ({"maker_run": "", "maker_start": ""}, Verdict.UNDECIDED, "compare each winding with the maker's value"),
    ],
)
def test_each_verdict_has_its_reason_or_its_next_test(changed: dict[str, str], verdict: Verdict, words: str) -> None:
    """One thing changed on the good compressor, and what must follow from it."""
    entries = {**READINGS, **METER, **MAKER, "insulation": "500 Mohm", **changed}
    unit = study_real_unit(**entries)

    assert unit.finding.verdict is verdict
    assert words in "\n".join(unit.lines)


def test_the_correction_to_20_degrees_is_printed() -> None:
    """At 20 °C nothing changes; at 68 °F it is the same temperature; one degree is 1/254.5 of a copper reading."""
    celsius, fahrenheit = (
        study_real_unit(**{**READINGS, "temperature": text}, **METER).lines for text in ("20 °C", "68 °F")
    )

    assert celsius == fahrenheit
    assert "  pins 1 and 2: 4.210 Ω ± 0.051 Ω; at 20 °C 4.210 Ω" in celsius
    assert "  One degree Celsius more or less in the windings is 0.4 % of these." in celsius


def test_a_missing_or_unknown_entry_is_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    """No traceback for a technician: a line that begins with a sign."""
    real_unit(**READINGS)
    real_unit(**{**READINGS, "r12": 4.2}, **METER)
    real_unit(**{**READINGS, "temperature": "warm"}, **METER)
    real_unit(color="red")

    lines = capsys.readouterr().out.splitlines()
    assert [line[:2] for line in lines] == ["⚠ "] * 4
    assert "the meter's accuracy cannot be read" in lines[0]
    assert "r12 is 4.2; write it in quotes with its unit" in lines[1]
    assert "temperature: " in lines[2]
    assert "there is no entry 'color'; there are r12, r23, r13" in lines[3]
