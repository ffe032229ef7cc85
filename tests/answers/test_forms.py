"""Answers read into their form: words, spellings, numbers with units, and what cannot be read."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.answers.forms import ChoiceForm, Given, NumberForm, is_blank, normalise, read_answer
from coldwright.errors import AnswerError
from coldwright.quantities import Kind

PIN = ChoiceForm({"1": (), "2": (), "none": ("no such pin",), "cannot tell": ("can't tell",)})
OHM = NumberForm(Kind.RESISTANCE, "4.2 ohm", {"OL": ("over range", "∞")})


@pytest.mark.parametrize(
    ("raw", "word"),
    [
        ("1", "1"),
        (1, "1"),
        (" 1 ", "1"),
        ("pin 1", "1"),
        ("Pin 1", "1"),
        ("PIN_1", "1"),
        ("pin-1.", "1"),
        ("'1'", "1"),
        ("none", "none"),
        ("No such pin", "none"),
        ("no_such-pin", "none"),
        ("no\u00a0such  pin", "none"),
        ("Can't tell", "cannot tell"),
        ("can’t tell", "cannot tell"),
        ("CANNOT TELL", "cannot tell"),
    ],
)
def test_spellings_that_count_as_the_same(raw, word):
    """Case, blanks, hyphens, quotes and a leading "pin" do not matter."""
    assert read_answer(PIN, raw) == Given(word, word=word)


@pytest.mark.parametrize("raw", ["3", "pin", "", "11", "1 2", "noone", 3, 1.0, "pin pin 1"])
def test_a_word_that_is_none_of_them(raw):
    """A word that is not asked for is refused with all that are."""
    with pytest.raises(
        AnswerError, match=r'^this is none of the words asked for; choose one of "1", "2", "none", "cannot tell"$'
    ):
        read_answer(PIN, raw)


@given(st.text(max_size=64))
def test_any_text_is_a_choice_or_a_plain_refusal(text):
    """No text brings anything but one of the choices or an answer error."""
    try:
        found = read_answer(PIN, text)
    except AnswerError:
        return
    assert found.word in PIN.choices
    assert found.number is None


@given(st.text(max_size=30))
def test_setting_aside_twice_changes_nothing_more(text):
    """Case and blanks set aside once are set aside for good, but for a second "pin"."""
    once = normalise(text)
    assert normalise(once) in (once, once.removeprefix("pin ").strip())


@pytest.mark.parametrize(
    ("raw", "ohms"),
    [
        ("4.2 ohm", 4.2),
        ("4,2 Ω", 4.2),
        ("4.2Ω", 4.2),
        ("0.0042 kohm", 4.2),
        ("4200 mΩ", 4.2),
        ("250 Mohm", 250e6),
        ("0 ohm", 0.0),
        ("-0.2 ohm", -0.2),
    ],
)
def test_numbers_are_read_in_any_unit_of_the_kind(raw, ohms):
    """A number with any unit of its kind is read in SI."""
    found = read_answer(OHM, raw)
    assert found.number == pytest.approx(ohms)
    assert found.word is None


def test_an_answer_is_shown_back_as_it_was_read():
    """The digits as typed, with a point, and the usual spelling of the unit; a word as the word it counts as."""
    assert read_answer(OHM, "4,20 ohm").shown == "4.20 Ω"
    assert read_answer(OHM, "4.2 kOhm").shown == "4.2 kΩ"
    assert read_answer(OHM, "over range").shown == "OL"
    assert read_answer(PIN, "pin 1").shown == "1"


@pytest.mark.parametrize("raw", ["OL", "ol", " OL ", "over range", "Over-Range", "∞"])
def test_words_beside_numbers(raw):
    """OL and its spellings are words of a number's form."""
    assert read_answer(OHM, raw) == Given("OL", word="OL")


@pytest.mark.parametrize(
    "raw", ["4.2", 4.2, 4, "4.2 V", "4.2 °C", "four ohm", "O L", "1e999 ohm", "nan ohm", "inf ohm", "4,200 ohm"]
)
def test_a_number_that_cannot_be_read(raw):
    """No unit, a wrong unit, no number, or one that could mean two things: refused, and never reinterpreted."""
    with pytest.raises(AnswerError) as refused:
        read_answer(OHM, raw)
    assert len(str(refused.value)) > 20


@given(st.floats(allow_nan=True, allow_infinity=True))
def test_no_number_read_is_infinite_or_nan(number):
    """Whatever float is typed with a unit, what is read is a finite number or nothing."""
    try:
        found = read_answer(OHM, f"{number} ohm")
    except AnswerError:
        return
    assert found.number is not None
    assert math.isfinite(found.number)


@pytest.mark.parametrize("raw", [True, None, [4.2], (1,), {"a": 1}, 4.2j, b"4.2 ohm", type("S", (str,), {})("1")])
def test_what_is_not_one_value(raw):
    """A list, a bool, bytes or a class of one's own is no answer; an example of one is given."""
    with pytest.raises(AnswerError, match=r"^this is not one value; type one value in quotes, such as 4\.2 ohm$"):
        read_answer(OHM, raw)


@pytest.mark.parametrize("form", [PIN, OHM])
def test_too_long_to_be_read(form):
    """More than 64 characters are refused with their number, not cut."""
    with pytest.raises(AnswerError, match=r"^this is 65 characters long; an answer has at most 64, such as "):
        read_answer(form, "4.2 ohm" + " " * 58)
    assert read_answer(OHM, "4.2 ohm" + " " * 57).number == 4.2


@pytest.mark.parametrize("raw", [None, "", "  ", "?", "...", "…", " ? "])
def test_blank(raw):
    """Nothing, blanks, a question mark or dots are no answer."""
    assert is_blank(raw)


@pytest.mark.parametrize("raw", [0, 0.0, "0", "none", False, [], "??"])
def test_not_blank(raw):
    """Zero is an answer, and so is the word none."""
    assert not is_blank(raw)
