"""Text meant to hurt, or merely odd: read or refused, at once, and never shown back raw."""

import re
import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from coldwright.errors import AnswerError
from coldwright.quantities import Kind, read, read_number

HOSTILE = [
    "9^9^9 ohm",
    "10**1000",
    "9" * 10_000_000,
    "9" * 65 + " ohm",
    "1e999 ohm",
    "1e-999 ohm",
    "1e99999999999999999999999999999 ohm",
    "nan ohm",
    "inf ohm",
    "Infinity",
    "0x10 ohm",
    "1_000 ohm",
    "4.2\x00 ohm",
    "\x00",
    "4.2 \u202eohm",
    "\u2067" * 60,
    "4.2 o\u0301hm",
    "\u0301" * 64,
    "4.2\u200b ohm",
    "\x1b[31m4.2 ohm",
    "\ud800",
    "\U0010ffff",
    "４.２ ohm",
    "٤٫٢ ohm",
    "²ohm",
    "Ⅳ ohm",
    "4.2 ohm\nohm",
    "4.2\tohm",
    "__import__('os').system('true')",
    "<script>alert(1)</script>",
    "(" * 64,
    "-" * 64,
    "," * 64,
    "1 " * 32,
    " " * 64,
    " " * 1_000_000,
    "1" + " " * 62 + "x",
    "1" + "." * 63,
    "{0.__class__} %s %n",
]
UNSAFE = re.compile(r"[^\x20-\x7eΩωµ°±×–…]")


def attempt(text: str, kind: Kind = Kind.RESISTANCE) -> str | None:
    """The message with which a text is refused; None if it reads."""
    try:
        read(text, kind)
    except AnswerError as error:
        return str(error)
    return None


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_is_refused_within_a_millisecond(text: str):
    """The best of a few tries counts, so that a busy machine does not fail it; a slow reader fails all of them."""
    times = []
    for _ in range(9):
        start = time.perf_counter()
        message = attempt(text)
        times.append(time.perf_counter() - start)
    assert message is not None
    assert min(times) < 1e-3


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_is_not_shown_back_raw(text: str):
    """A refusal shows at most 32 printable signs of what was typed."""
    message = attempt(text)
    assert message is not None
    assert not UNSAFE.search(message)
    quoted = re.match(r'^"(.*?)"(?=:| is | has | does | cannot )', message)
    assert message.startswith("nothing is typed here") or (quoted and len(quoted[1]) <= 32)
    assert len(message) < 250


@settings(max_examples=500, deadline=None)
@given(st.text(max_size=80), st.sampled_from(Kind))
@example("4.2 ohm", Kind.RESISTANCE)
def test_any_text_reads_or_is_refused(text, kind):
    """No text at all makes anything but a reading or an AnswerError, in well under a tenth of a second."""
    start = time.perf_counter()
    message = attempt(text, kind)
    assert time.perf_counter() - start < 0.1
    assert message is None or not UNSAFE.search(message)


@settings(max_examples=500, deadline=None)
@given(st.text(alphabet="0123456789.,eE+- kmMuµΩohmVAFCK°psiagbrx*/^()±%_'", max_size=20), st.sampled_from(Kind))
def test_near_misses_read_or_are_refused(text, kind):
    """Text made of the very signs that answers use does not slip past either, and what reads is finite."""
    try:
        reading = read(text, kind)
    except AnswerError:
        return
    assert abs(reading.value) < float("inf")
    assert 0 < reading.step < float("inf")
    assert read(f"{reading.number} {reading.unit}", kind) == reading


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=80))
def test_any_text_is_a_number_or_refused(text):
    """The same holds for a plain number."""
    try:
        number = read_number(text)
    except AnswerError:
        return
    assert abs(number.value) < float("inf")
