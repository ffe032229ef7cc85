"""The number at the start of what a person typed: one sign, digits, one point or comma, an exponent."""

import re
from fractions import Fraction
from typing import NamedTuple

from coldwright.errors import AnswerError
from coldwright.quantities.lookup import BLANKS, one_sign_each

MOST_CHARACTERS = 64
_MOST_ECHOED = 32
_MOST_EXPONENT = 30
_READABLE = frozenset(map(chr, range(0x20, 0x7F))) | frozenset("Ωωµ°±×–…")
_START = re.compile(r"([+-]?) ?([0-9]*)(?:([.,])([0-9]+))?(?:[eE]([+-]?[0-9]+))?")


class Typed(NamedTuple):
    """A number as typed: its exact value, its digits, the worth of one unit of its last digit, what comes after it."""

    value: Fraction
    digits: str
    step: Fraction
    rest: str


def quoted(text: str) -> str:
    """What was typed, in quotes, cut and made harmless for a message.

    Parameters
    ----------
    text : str
        What was typed [-]
    """
    start = one_sign_each(text[:MOST_CHARACTERS].strip(BLANKS))
    safe = "".join(sign if sign in _READABLE else "?" for sign in start)
    if len(safe) > _MOST_ECHOED or len(text) > MOST_CHARACTERS:
        safe = f"{safe[: _MOST_ECHOED - 1]}…"
    return f'"{safe}"'


def clean(text: str, example: str) -> str:
    """Text without blanks around it and with one sign for those that look alike; refused at once if it is no answer.

    Parameters
    ----------
    text : str
        What was typed [-]
    example : str
        A good answer, for the message [-]

    Raises
    ------
    AnswerError
        If it is no text, empty, too long, or holds a sign that no answer needs.
    """
    if type(text) is not str:
        raise AnswerError(f"this is not text; type the answer in quotes, such as {example}")
    if len(text) > MOST_CHARACTERS:
        raise AnswerError(
            f"{quoted(text)} is {len(text)} characters long; an answer has at most {MOST_CHARACTERS}, such as {example}"
        )
    plain = one_sign_each(text.strip(BLANKS))
    if not plain:
        raise AnswerError(f"nothing is typed here; type a number, such as {example}")
    strange = next((sign for sign in plain if sign not in _READABLE), None)
    if strange is not None:
        rule = (
            "digits must be the plain 0 to 9"
            if strange.isnumeric()
            else f"the sign U+{ord(strange):04X} cannot be read"
        )
        raise AnswerError(f"{quoted(text)}: {rule}; type it again by hand, such as {example}")
    return plain


def take_number(plain: str, shown: str, example: str) -> Typed | None:
    """Number at the start of a cleaned text; None if there is none.

    A single comma is a decimal comma. It is refused where it could also part thousands ("4,200").

    Parameters
    ----------
    plain : str
        Cleaned text [-]
    shown : str
        The text as a message shows it [-]
    example : str
        A good answer, for the message [-]

    Raises
    ------
    AnswerError
        If the comma can be read in two ways or the exponent is out of range.
    """
    found = _START.match(plain)
    if found is None or not (found[2] or found[4]):
        return None
    sign, whole, mark, part, exponent = found.groups(default="")
    rest = plain[found.end() :]
    if mark == "," and len(part) == 3 and 1 <= len(whole) <= 3 and rest[:1] not in (".", ","):
        thousands = "" if whole.startswith("0") else f" or {whole}{part} (no comma)"
        raise AnswerError(
            f"{shown}: a comma before three digits can part thousands; write {whole}.{part} (decimal point){thousands}"
        )
    power = int(exponent or 0)
    if abs(power) > _MOST_EXPONENT:
        limits = f"-{_MOST_EXPONENT} to {_MOST_EXPONENT}"
        raise AnswerError(f"{shown}: the power of ten is outside {limits}; write a number such as {example}")
    value = Fraction(int(whole + part)) * Fraction(10) ** (power - len(part))
    digits = (whole.lstrip("0") or "0") + (f".{part}" if part else "") + (f"e{power}" if exponent else "")
    negative = sign == "-" and value != 0
    return Typed(
        -value if negative else value,
        f"-{digits}" if negative else digits,
        Fraction(10) ** (power - len(part)),
        rest,
    )
