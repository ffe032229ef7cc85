"""Numbers as people type them."""

import math
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.errors import AnswerError
from coldwright.quantities import Kind, read, read_number

digit_runs = st.text(alphabet="0123456789", min_size=0, max_size=8)


@pytest.mark.parametrize(
    ("text", "value", "number", "step"),
    [
        ("4.2", 4.2, "4.2", 0.1),
        ("4,20", 4.2, "4.20", 0.01),
        (" +007 ", 7.0, "7", 1.0),
        ("\u22125.0", -5.0, "-5.0", 0.1),
        ("- 5", -5.0, "-5", 1.0),
        (".5", 0.5, "0.5", 0.1),
        (",125", 0.125, "0.125", 0.001),
        ("4.200", 4.2, "4.200", 0.001),
        ("1234,567", 1234.567, "1234.567", 0.001),
        ("1,2345", 1.2345, "1.2345", 0.0001),
        ("4.2e3", 4200.0, "4.2e3", 100.0),
        ("4.2E-05", 4.2e-5, "4.2e-5", 1e-6),
        ("\u00a05\u00a0", 5.0, "5", 1.0),
    ],
)
def test_plain_numbers_read(text: str, value: float, number: str, step: float):
    """Value, digits as typed and the worth of the last digit, each worked out by hand."""
    assert read_number(text) == (value, number, step)


@pytest.mark.parametrize("text", ["-0", "-0.0", "\u22120", "-0e3"])
def test_minus_zero_is_plain_zero(text: str):
    """No sign hides in a zero."""
    assert math.copysign(1, read_number(text).value) == 1.0
    assert not read_number(text).number.startswith("-")


@settings(max_examples=300, deadline=None)
@given(digit_runs, digit_runs, st.sampled_from(["", "-", "+"]), st.sampled_from(["", "e2", "e-3"]))
def test_a_comma_means_a_point_or_nothing(whole, part, sign, exponent):
    """A text with one comma reads as the same text with a point; it is refused where thousands are possible."""
    typed = f"{sign}{whole},{part}{exponent}"
    could_be_thousands = len(part) == 3 and 1 <= len(whole) <= 3
    if part and not could_be_thousands:
        assert read_number(typed) == read_number(typed.replace(",", "."))
        assert read_number(typed).value == float(Decimal(typed.replace(",", ".")))
    else:
        with pytest.raises(AnswerError):
            read_number(typed)


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet="0123456789.,", min_size=1, max_size=14))
def test_points_and_commas_never_change_a_value(typed):
    """Whatever mix of digits, points and commas is typed: the value with every comma a point, or a refusal."""
    try:
        value = read_number(typed).value
    except AnswerError:
        return
    assert value == float(Decimal(typed.replace(",", ".")))


@settings(max_examples=200, deadline=None)
@given(st.decimals(min_value=-(10**9), max_value=10**9, places=6, allow_nan=False, allow_infinity=False))
def test_the_value_is_the_nearest_float(number):
    """No digit is lost on the way: the value is the decimal number rounded once."""
    assert read_number(str(number)).value == float(number)


THOUSANDS = "a comma before three digits can part thousands; write"
POINTS = "the number has a point or comma too many; write it with one point and no thousands separators, as in 4.2"
TOGETHER = "write one number, its digits together, as in 4.2"
ALONE = "write the number alone, without ±, as in 4.2"
SUM = "it holds a sum, a power, a fraction or a range; work it out and write one number, as in 4.2"
FIRST = " does not start with a number; write the number first, nothing before it, as in 4.2"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("4,200", f'"4,200": {THOUSANDS} 4.200 (decimal point) or 4200 (no comma)'),
        ("0,125", f'"0,125": {THOUSANDS} 0.125 (decimal point)'),
        ("1.234,5", f'"1.234,5": {POINTS}'),
        ("1,234.5", f'"1,234.5": {POINTS}'),
        ("1,234,567", f'"1,234,567": {POINTS}'),
        ("5.", f'"5.": {POINTS}'),
        ("1 000", f'"1 000": {TOGETHER}'),
        ("1\u2009000", f'"1 000": {TOGETHER}'),
        ("1'000", f'"1\u0027000": {TOGETHER}'),
        ("1_000", f'"1_000": {TOGETHER}'),
        ("3.1 ± 0.1", f'"3.1 ± 0.1": {ALONE}'),
        ("3.1 +/- 0.1", f'"3.1 +/- 0.1": {ALONE}'),
        ("1/6", f'"1/6": {SUM}'),
        ("3-4", f'"3-4": {SUM}'),
        ("3x10^3", f'"3x10^3": {SUM}'),
        ("4k7", '"4k7": digits follow after the unit; write one number and one unit, as in 4.2'),
        ("~3", f'"~3"{FIRST}'),
        ("about 3", f'"about 3"{FIRST}'),
        ("3 ohm", '"3 ohm": only a number is wanted here, without a unit, as in 4.2'),
        ("1e31", '"1e31": the power of ten is outside -30 to 30; write a number such as 4.2'),
        ("", "nothing is typed here; type a number, such as 4.2"),
        (" \u00a0\t\n", "nothing is typed here; type a number, such as 4.2"),
        ("٣", '"?": digits must be the plain 0 to 9; type it again by hand, such as 4.2'),
        ("３", '"?": digits must be the plain 0 to 9; type it again by hand, such as 4.2'),
        ("3\u202e", '"3?": the sign U+202E cannot be read; type it again by hand, such as 4.2'),
    ],
)
def test_what_is_not_one_plain_number_is_refused(text: str, message: str):
    """Each refusal quotes what was typed and says what to write instead."""
    with pytest.raises(AnswerError) as caught:
        read_number(text)
    assert str(caught.value) == message


@pytest.mark.parametrize("value", [4.2, 4, None, True, b"4.2", ["4.2"]])
def test_only_text_is_read(value: object):
    """Anything but text is refused, without asking the thing itself."""
    with pytest.raises(AnswerError, match=r"^this is not text; type the answer in quotes, such as 4\.2 ohm$"):
        read(value, Kind.RESISTANCE)
