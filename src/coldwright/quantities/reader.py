"""Reading what a person typed: one number and one unit, nothing else.

Never evaluates anything and never guesses: what could be meant in two ways is refused with what to write instead.
"""

from typing import NamedTuple

from coldwright.errors import AnswerError
from coldwright.quantities.kinds import Kind
from coldwright.quantities.lookup import find
from coldwright.quantities.number import Typed, clean, quoted, take_number
from coldwright.quantities.refusal import after_number, no_number, unit_error
from coldwright.quantities.units import EXAMPLES, Unit

_PLAIN_EXAMPLE = "4.2"
_NEVER_BELOW_ZERO = {
    Kind.TEMPERATURE: "it lies below absolute zero (-273.15 °C, -459.67 °F); check the number and its unit",
    Kind.PRESSURE_ABSOLUTE: "an absolute pressure is never below zero; was it a gauge pressure?",
}


class Reading(NamedTuple):
    """A quantity as it was read.

    `value` is in SI, `unit` the unit's usual spelling ("" for a plain number), `number` the digits as typed,
    `step` the worth in SI of one unit of the last digit typed.
    """

    value: float
    kind: Kind
    unit: str
    number: str
    step: float


class Number(NamedTuple):
    """A plain number as it was read; `number` and `step` as in `Reading`."""

    value: float
    number: str
    step: float


def _number_in(text: str, plain: str, example: str) -> Typed:
    shown = quoted(text)
    typed = take_number(plain, shown, example)
    if typed is None:
        raise no_number(shown, example)
    error = after_number(typed.rest, shown, example)
    if error is not None:
        raise error
    return typed


def _check_range(typed: Typed, unit: Unit, kind: Kind, shown: str) -> None:
    if unit.factor < 0 and typed.value < 0:
        raise AnswerError(f"{shown}: a vacuum is written without a minus sign, as in 20 {unit.name}")
    rule = _NEVER_BELOW_ZERO.get(kind)
    if rule is not None and typed.value * unit.factor + unit.offset < 0:
        raise AnswerError(f"{shown} cannot be: {rule}")


def read(text: str, kind: Kind) -> Reading:
    """Quantity that a person typed, in SI.

    A single comma is a decimal comma; "4,200" could also part thousands and is refused. Capitals count where they
    change the meaning (mΩ, MΩ).

    Parameters
    ----------
    text : str
        What was typed, at most 64 characters [-]
    kind : Kind
        Kind of quantity wanted [-]

    Raises
    ------
    AnswerError
        If it is not clearly one number with a unit of that kind; the message says what to write.

    Examples
    --------
    >>> read("4,2 kohm", Kind.RESISTANCE)
    Reading(value=4200.0, kind=<Kind.RESISTANCE: 'resistance'>, unit='kΩ', number='4.2', step=100.0)
    """
    example = EXAMPLES[kind]
    typed = _number_in(text, clean(text, example), example)
    unit = find(kind, typed.rest)
    if unit is None:
        raise unit_error(kind, typed.rest, quoted(text))
    _check_range(typed, unit, kind, quoted(text))
    value = float(typed.value * unit.factor + unit.offset)
    return Reading(value, kind, unit.name, typed.digits, float(typed.step * abs(unit.factor)))


def read_number(text: str) -> Number:
    """Plain number that a person typed, without a unit.

    Parameters
    ----------
    text : str
        What was typed, at most 64 characters [-]

    Raises
    ------
    AnswerError
        If it is not clearly one plain number; the message says what to write.

    Examples
    --------
    >>> read_number("4,20")
    Number(value=4.2, number='4.20', step=0.01)
    """
    typed = _number_in(text, clean(text, _PLAIN_EXAMPLE), _PLAIN_EXAMPLE)
    if typed.rest.strip():
        raise AnswerError(f"{quoted(text)}: only a number is wanted here, without a unit, as in {_PLAIN_EXAMPLE}")
    return Number(float(typed.value), typed.digits, float(typed.step))
