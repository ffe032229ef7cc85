"""What every typed entry must be: text in quotes, and a value that a small cooler or an instrument on it can have."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import wraps
from inspect import signature
from typing import ParamSpec, TypeVar

from coldwright.electrical.capacitor import MOST_FARAD
from coldwright.errors import AnswerError, InputError
from coldwright.quantities import Kind
from coldwright.quantities.constants import ICE_POINT_K

SENSE: Mapping[Kind, tuple[float, float, str]] = {
    Kind.VOLTAGE: (0.0, 2000.0, "at most 2000 V"),
    Kind.CURRENT: (0.0, 1000.0, "at most 1000 A"),
    Kind.RESISTANCE: (0.0, 1e13, "at most 10 TΩ"),
    Kind.POWER: (0.0, 20e3, "at most 20 kW"),
    Kind.CAPACITANCE: (0.0, MOST_FARAD, f"at most {MOST_FARAD:g} F"),
    Kind.FREQUENCY: (45.0, 65.0, "45 Hz to 65 Hz on mains"),
    Kind.TIME: (0.0, 7 * 86400.0, "at most 7 days"),
    Kind.TEMPERATURE: (ICE_POINT_K - 60.0, ICE_POINT_K + 300.0, "-60 °C to 300 °C"),
}
"""What a value on or near a small cooler can be, wide: lowest, highest, in words."""

P = ParamSpec("P")
R = TypeVar("R")


def takes_text(function: Callable[P, R]) -> Callable[P, R]:
    """The same function, which first refuses an argument that is no text, such as a number without quotes.

    Parameters
    ----------
    function : callable
        It takes what a person types, each argument text [-]

    Raises
    ------
    AnswerError
        If an argument is no text; the message names it.
    """
    form = signature(function)

    @wraps(function)
    def checked(*args: P.args, **kwargs: P.kwargs) -> R:
        for name, value in form.bind(*args, **kwargs).arguments.items():
            if not isinstance(value, str):
                raise AnswerError(f"{name} is {str(value)[:20]}; write it in quotes with its unit")
        return function(*args, **kwargs)

    return checked


def check_sense(name: str, text: str, value: float, kind: Kind) -> None:
    """Refuse a value that no small cooler, and no instrument on it, has.

    Parameters
    ----------
    name : str
        What it is, for the message [-]
    text : str
        What was typed [-]
    value : float
        The value in SI; inf stands for over range [any]
    kind : Kind
        What kind of value it is [-]

    Raises
    ------
    InputError
        If it lies outside `SENSE`.
    """
    low, high, words = SENSE[kind]
    if not low <= value <= high and not math.isinf(value):
        raise InputError(f"{name} is {text.strip()}; it can be {words}. Is there a typing error, or another unit?")
