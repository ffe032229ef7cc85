"""What a technician types of a real unit: readings, the meter's accuracy and the maker's values, read."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from coldwright.answers.forms import NumberForm, is_blank, read_answer
from coldwright.electrical.measured import Measured
from coldwright.electrical.winding_data import WindingData
from coldwright.electrical.windings import Conductor
from coldwright.errors import AnswerError, InputError
from coldwright.labs.winding_checks.lab import OL
from coldwright.panels.typed_checks import check_sense
from coldwright.quantities import Kind, read, read_number

OHMS = NumberForm(Kind.RESISTANCE, "4.2 ohm", OL)
MEGOHMS = NumberForm(Kind.RESISTANCE, "250 Mohm", OL)
_ACCURACY = re.compile(
    r"[±\s(]*(?P<percent>[0-9]+(?:[.,][0-9]+)?)\s*%[^+0-9]{0,20}\+\s*(?P<digits>[0-9]{1,3})[^0-9]{0,12}"
)


@dataclass(frozen=True)
class Accuracy:
    """A meter's accuracy as its manual gives it: ±(percent of reading + digits)."""

    percent: float
    digits: int

    def measured(self, value: float, digit: float) -> Measured:
        """A reading with its limit.

        Parameters
        ----------
        value : float
            What the meter showed [any]
        digit : float
            One of the last digit that was typed [same unit]
        """
        return Measured(value, value * self.percent / 100 + self.digits * digit)


def read_accuracy(text: str) -> Accuracy:
    """A meter's accuracy from text such as "0.5 % + 3 digits".

    Parameters
    ----------
    text : str
        What was typed [-]

    Raises
    ------
    AnswerError
        If it cannot be read so, or is 20 % or more.
    """
    found = _ACCURACY.fullmatch(text.strip()) if len(text) <= 64 else None
    if found is None:
        raise AnswerError(
            "the meter's accuracy cannot be read; write it as its manual does, percent first, such as "
            '"0.5 % + 3 digits"'
        )
    percent = read_number(found["percent"]).value
    if not percent < 20:
        raise AnswerError(f"the meter's accuracy is {percent:g} % of the reading; it must be below 20 %")
    return Accuracy(percent, int(found["digits"]))


def read_measured(name: str, text: str, accuracy: Accuracy, form: NumberForm = OHMS) -> Measured:
    """One reading with its limit; inf where the meter showed over range.

    Parameters
    ----------
    name : str
        What was read, for a message [-]
    text : str
        What was typed, such as "4.21 ohm" or "OL" [-]
    accuracy : Accuracy
        The meter's [-]
    form : NumberForm
        Form wanted [-]

    Raises
    ------
    AnswerError
        If it cannot be read.
    """
    if is_blank(text):
        raise AnswerError(f'{name} is not filled in; type what the meter showed, such as "{form.example}" or "OL"')
    if text.strip().startswith(">"):  # "> 1000 MΩ": beyond what the instrument shows
        return Measured(math.inf)
    try:
        if read_answer(form, text).word is not None:
            return Measured(math.inf)
        reading = read(text, form.kind)
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None
    if reading.value < 0:
        raise AnswerError(f"{name} is {reading.number} {reading.unit}; a resistance is never below zero")
    check_sense(name, text, reading.value, form.kind)
    return accuracy.measured(reading.value, reading.step)


def read_positive(name: str, text: str, kind: Kind, hint: str = "") -> float:
    """A value above zero that was typed with its unit, in SI.

    Parameters
    ----------
    name : str
        What it is, for the message [-]
    text : str
        Such as "352.4 V" [-]
    kind : Kind
        What kind of value is wanted [-]
    hint : str
        Likely slip where it is zero or less, from a full stop on [-]

    Raises
    ------
    AnswerError
        If it is blank or cannot be read.
    InputError
        If it is not above zero, or outside what makes sense.
    """
    value = _value(name, text, kind)
    if not value > 0:
        raise InputError(f"{name} is {text.strip()}; it must be above zero{hint}")
    check_sense(name, text, value, kind)
    return value


def read_kelvin(name: str, text: str) -> float:
    """A temperature that was typed with its unit, in kelvin.

    Parameters
    ----------
    name : str
        What it is, for the message [-]
    text : str
        Such as "25 °C" or "77 °F" [-]

    Raises
    ------
    AnswerError
        If it is blank or cannot be read.
    InputError
        If it is outside what makes sense.
    """
    value = _value(name, text, Kind.TEMPERATURE)
    check_sense(name, text, value, Kind.TEMPERATURE)
    return value


def without_leads(name: str, reading: Measured, leads: Measured) -> Measured:
    """A reading with the resistance of the meter's leads taken off.

    Parameters
    ----------
    name : str
        What was read, for a message [-]
    reading, leads : Measured
        What the meter showed on the pair, and with its tips together [Ω]

    Raises
    ------
    InputError
        If the leads have no finite resistance, or more than the reading.
    """
    if reading.is_open:
        return reading
    if not leads.value < reading.value:
        raise InputError(
            f"the leads read {leads.value:g} Ω and {name} reads {reading.value:g} Ω, which is not more; "
            "press the tips together hard and read the leads again"
        )
    return Measured(reading.value - leads.value, reading.limit + leads.limit)


def read_maker(run: str, start: str, pair: str, tolerance: str, conductor: str) -> WindingData | None:
    """The maker's values at 20 °C; None if none are given.

    Parameters
    ----------
    run, start : str
        Run and start winding, such as "4.1 ohm" [-]
    pair : str
        Each pair of pins of an inverter compressor [-]
    tolerance : str
        Such as "7 %" [-]
    conductor : str
        "copper" or "aluminium" [-]

    Raises
    ------
    AnswerError
        If a value cannot be read, or one is missing.
    """
    metals = {"copper": Conductor.COPPER, "aluminium": Conductor.ALUMINIUM, "aluminum": Conductor.ALUMINIUM}
    metal = metals.get(conductor.strip().casefold())
    if metal is None:
        raise AnswerError(f'the metal of the windings is {conductor[:20]!r}; write "copper" or "aluminium"')
    if all(map(is_blank, (run, start, pair))):
        return None
    if is_blank(pair) == (is_blank(run) and is_blank(start)) or (is_blank(pair) and (is_blank(run) or is_blank(start))):
        raise AnswerError(
            "of the maker's values give either maker_run and maker_start, or maker_pair for an inverter compressor"
        )
    fraction = read_percent(tolerance)
    if not is_blank(pair):
        return WindingData(read_positive("maker_pair", pair, Kind.RESISTANCE), None, fraction, metal)
    run_ohm = read_positive("maker_run", run, Kind.RESISTANCE)
    return WindingData(run_ohm, read_positive("maker_start", start, Kind.RESISTANCE), fraction, metal)


def read_percent(text: str, name: str = "the maker's tolerance", below: int = 100) -> float:
    """A fraction from text such as "7 %" or "±7 %".

    Parameters
    ----------
    text : str
        What was typed [-]
    name : str
        What it is, for the message [-]
    below : int
        Percentage that it must stay below [%]

    Raises
    ------
    AnswerError
        If it is no percentage.
    InputError
        If it is negative or too high.
    """
    number, sign, rest = text.strip().lstrip("±").partition("%")
    if not sign or rest.strip():
        raise AnswerError(f'{name} is written as a percentage, such as "7 %"')
    percent = read_number(number).value
    if not 0 <= percent < below:
        raise InputError(f"{name} is {percent:g} %; it must be from 0 % to below {below} %")
    return percent / 100


def _value(name: str, text: str, kind: Kind) -> float:
    if is_blank(text):
        raise AnswerError(f"{name} is not filled in; {kind.phrase} is wanted here")
    try:
        return read(text, kind).value
    except AnswerError as error:
        raise AnswerError(f"{name}: {error}") from None
