"""A real capacitor: what a technician types, and the verdict with its limits and reasons."""

import math

import pytest

from coldwright.electrical.capacitor_rule import Within
from coldwright.errors import AnswerError, InputError
from coldwright.panels.real_capacitor import read_allowed, real_capacitor, study_real_capacitor

TYPED = {
    "volts": "300.0 V",
    "amps": "1.000 A",
    "frequency": "60 Hz",
    "volts_meter": "1 % + 5 digits",
    "amps_meter": "1 % + 5 digits",
    "marked": "9 uF",
    "tolerance": "±10 %",
    "marked_volts": "370 V",
}


def lines(**changed: str) -> str:
    """All that is said, as one text."""
    return "\n".join(study_real_capacitor(**{**TYPED, **changed}).lines)


def test_capacitance_and_its_limit_by_hand():
    """1 A / (2π · 60 Hz · 300 V) = 8.842 µF; at worst 1.015 A over 296.5 V, which is 2.698 % more."""
    farad = study_real_capacitor(**TYPED).farad

    assert farad.value == pytest.approx(1 / (2 * math.pi * 60 * 300))
    assert farad.limit == pytest.approx(farad.value * (1.015 * 300 / 296.5 - 1), rel=1e-6)


def test_the_trades_figures_for_both_supplies():
    """µF = 2652 · A / V at 60 Hz and 3183 · A / V at 50 Hz, to the digits of the trade (common practice, no source)."""
    for hertz, figure in ((60, 2652.0), (50, 3183.0)):
        farad = study_real_capacitor(**{**TYPED, "frequency": f"{hertz} Hz"}).farad.value
        assert farad * 1e6 == pytest.approx(figure / 300, rel=3e-4)


@pytest.mark.parametrize(
    ("amps", "within", "word"),
    [
        ("1.000 A", Within.YES, "GOOD"),
        ("0.930 A", Within.CANNOT_TELL, "CANNOT TELL"),
        ("0.800 A", Within.NO, "REPLACE IT. It is below the least"),
        ("1.300 A", Within.NO, "REPLACE IT. It is above the most"),
        ("0.020 A", Within.NO, "OPEN OR NEARLY SO"),
    ],
)
def test_the_verdict_allows_for_the_meters(amps, within, word):
    """8.1 to 9.9 µF are 0.916 to 1.120 A at 300 V and 60 Hz: near an edge the meters cannot tell."""
    found = study_real_capacitor(**{**TYPED, "amps": amps})

    assert found.within is within
    assert word in "\n".join(found.lines)


def test_the_caution_comes_first_and_the_replacement_is_told():
    """Live test, local codes; then value, volts, type, frequency and bleed resistor of a new one."""
    text = lines()

    assert text.startswith("⚠ This test is live")
    assert "Local codes and the maker's instructions come first" in text
    for words in (
        "a run capacitor, not a start",
        "9 µF, with its own",
        "370 V a.c. or more",
        "60 Hz",
        "only if the maker",
    ):
        assert words in text
    assert "a start capacitor, not a run" in lines(kind="start", bleed="yes", tolerance="-0 +20 %", marked="8 uF")


@pytest.mark.parametrize(
    ("volts", "words"), [("300.0 V", "enough, even if"), ("360.0 V", "may meet 40"), ("390.0 V", "too much for it")]
)
def test_the_volts_across_it_are_held_against_its_rating(volts, words):
    """370 V marked: 300 V plus a tenth is enough, 360 V may meet over 400 V, 390 V is too much already."""
    assert words in lines(volts=volts)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("±5 %", (95.0, 105.0)),
        ("5%", (95.0, 105.0)),
        ("-0 +20 %", (100.0, 120.0)),
        ("-0 % / +20 %", (100.0, 120.0)),
        ("−10 +15 %", (90.0, 115.0)),
        ("88-108 uF", (88.0, 108.0)),
        ("88 µF – 108 µF", (88.0, 108.0)),
    ],
)
def test_a_tolerance_is_read_as_labels_print_it(text, expected):
    """Of 100 µF; 88 to 108 µF is the printed range of a start capacitor."""
    assert [farad * 1e6 for farad in read_allowed(text, 100e-6)] == pytest.approx(expected)


@pytest.mark.parametrize(
    ("changed", "error", "message"),
    [
        ({"volts": ""}, AnswerError, "volts is not filled in"),
        ({"volts": "300"}, AnswerError, 'volts: "300" has no unit'),
        ({"amps": "0.00 A"}, InputError, "it must be above zero. Power on and the clamp shows nothing"),
        ({"volts_meter": "good"}, AnswerError, "volts_meter: the meter's accuracy cannot be read"),
        ({"tolerance": ""}, AnswerError, "tolerance is not filled in"),
        ({"tolerance": "small"}, AnswerError, "tolerance cannot be read"),
        ({"tolerance": "60 %"}, AnswerError, "tolerance is 60 %"),
        ({"tolerance": "88-108 uF"}, InputError, "does not hold the marked value, 9 µF"),
        ({"kind": "both"}, AnswerError, "kind is 'both'; write run or start"),
        ({"frequency": "0 Hz"}, InputError, "frequency is 0 Hz; it must be above zero"),
        ({"amps": "0.004 A"}, InputError, "its limit must be smaller than the reading"),
    ],
)
def test_what_cannot_be_is_said_by_name(changed, error, message):
    """Each bad entry is named with the form wanted."""
    with pytest.raises(error, match=message):
        study_real_capacitor(**{**TYPED, **changed})


def test_in_a_notebook_an_error_is_one_line(capsys):
    """A missing entry and one that does not exist are said, and nothing is raised."""
    real_capacitor(**{**TYPED, "marked": ""})
    real_capacitor(ohms="3 ohm")
    first, second = capsys.readouterr().out.splitlines()[:2]

    assert first == "⚠ marked is not filled in; a capacitance is wanted here"
    assert second.startswith("⚠ there is no entry 'ohms'; there are volts, amps")
