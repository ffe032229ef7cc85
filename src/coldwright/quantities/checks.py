"""Checks of values, shared by every constructor and function: each refuses by name, value, unit and rule.

All but `check_flag`, `check_complex` and `check_phasor` first ask for a real number: no text, no None, no True.
"""

from __future__ import annotations

import cmath
import math
from numbers import Complex, Real
from typing import Any

import numpy as np

from coldwright.errors import InputError

PLAIN = (float, int)
LEAST_K = 200.0


def is_number(value: object) -> bool:
    """Whether something is a real number: int, float or one of numpy's, not True or False.

    Parameters
    ----------
    value : object
        What was given [-]
    """
    return type(value) in PLAIN or (isinstance(value, Real) and not isinstance(value, bool))


def check_number(name: str, value: float) -> None:
    """Refuse what is no real number, such as text that was left in quotes.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : float
        The value [any]

    Raises
    ------
    InputError
        If it is no number.
    """
    if not is_number(value):
        raise InputError(f"{name} is {value!r}; it must be a number")


def _refuse(name: str, value: Any, unit: str, rule: str, hint: str = "") -> InputError:
    check_number(name, value)
    return InputError(f"{f'{name} is {value:g} {unit}'.rstrip()}; it must be {rule}{f'. {hint}' if hint else ''}")


def check_positive(name: str, value: float, unit: str, hint: str = "", above: float = 0.0) -> None:
    """Refuse what is not above zero and finite.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : float
        The value [any]
    unit : str
        Its unit [-]
    hint : str
        Likely slip, a sentence [-]
    above : float
        What it must be above, where that is not zero [unit of the value]

    Raises
    ------
    InputError
        If the value is no number, not above zero, nan or infinite.
    """
    if not (is_number(value) and above < value < math.inf):
        raise _refuse(name, value, unit, f"{f'above {above:g} {unit}'.rstrip()} and finite", hint)


def check_not_negative(name: str, value: float, unit: str, hint: str = "") -> None:
    """Refuse what is negative or not finite.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : float
        The value [any]
    unit : str
        Its unit; empty for a plain number [-]
    hint : str
        Likely slip, a sentence [-]

    Raises
    ------
    InputError
        If the value is no number, negative, nan or infinite.
    """
    if not (is_number(value) and 0 <= value < math.inf):
        raise _refuse(name, value, unit, "zero or more and finite", hint)


def check_finite(name: str, value: float, unit: str) -> None:
    """Refuse nan and what is infinite.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : float
        The value [any]
    unit : str
        Its unit [-]

    Raises
    ------
    InputError
        If the value is no number, nan or infinite.
    """
    if not (is_number(value) and math.isfinite(value)):
        raise _refuse(name, value, unit, "finite")


def check_ohms(name: str, ohm: float, hint: str = "") -> None:
    """Refuse a resistance that is not above zero; inf stands for no path.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    ohm : float
        The resistance [Ω]
    hint : str
        Likely slip, a sentence [-]

    Raises
    ------
    InputError
        If the resistance is no number, zero, negative or nan.
    """
    if not (is_number(ohm) and ohm > 0):
        raise _refuse(name, ohm, "Ω", "above 0 Ω", hint)


def check_wire(name: str, ohm: float) -> None:
    """Refuse a resistance below zero; 0 is an ideal wire and inf a broken one.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    ohm : float
        The resistance [Ω]

    Raises
    ------
    InputError
        If the resistance is no number, negative or nan.
    """
    if not (is_number(ohm) and ohm >= 0):
        raise _refuse(name, ohm, "Ω", "zero or more; inf stands for a broken wire")


def check_between(name: str, value: float, low: float, high: float, unit: str, hint: str = "") -> None:
    """Refuse what lies outside a span; its ends are allowed.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : float
        The value [any]
    low, high : float
        Ends of the span [unit of the value]
    unit : str
        Its unit; empty for a plain number [-]
    hint : str
        Likely slip, a sentence [-]

    Raises
    ------
    InputError
        If the value is no number, or outside.
    """
    if not (is_number(value) and low <= value <= high):
        raise _refuse(name, value, unit, f"from {low:g} to {high:g} {unit}".rstrip(), hint)


def check_farad(farad: float, what: str = "the capacitance", hint: str = "") -> None:
    """Refuse a capacitance that is not above zero and finite; the message is in µF.

    Parameters
    ----------
    farad : float
        Value to check [F]
    what : str
        Name of the value in the message [-]
    hint : str
        Likely slip, a sentence [-]

    Raises
    ------
    InputError
        If the value is no number, zero, negative, nan or infinite.
    """
    check_positive(what, farad * 1e6 if is_number(farad) else farad, "µF", hint)


def check_kelvin(name: str, value: float) -> None:
    """Refuse a temperature that no part of a cooler has.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : float
        The temperature [K]

    Raises
    ------
    InputError
        If the temperature is no number, below 200 K or not finite.
    """
    if not (is_number(value) and LEAST_K <= value < math.inf):
        raise _refuse(name, value, "K", f"{LEAST_K:g} K or more and finite", "Was it in °C?")


def check_complex(name: str, value: complex) -> None:
    """Refuse what is no complex or real number.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : complex
        The value [any]

    Raises
    ------
    InputError
        If it is no number.
    """
    if isinstance(value, bool) or not isinstance(value, Complex):
        raise InputError(f"{name} is {value!r}; it must be a number")


def check_phasor(name: str, value: complex, unit: str) -> None:
    """Refuse what is no complex or real number, or not finite.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : complex
        The value [any]
    unit : str
        Its unit [-]

    Raises
    ------
    InputError
        If the value is no number, or not finite.
    """
    check_complex(name, value)
    if not cmath.isfinite(value):
        raise InputError(f"{name} is {value:g} {unit}; it must be finite")


def check_flag(name: str, value: bool) -> None:
    """Refuse what is neither True nor False, such as "no", which Python takes for true.

    Parameters
    ----------
    name : str
        What it is, with its part [-]
    value : bool
        The value [-]

    Raises
    ------
    InputError
        If the value is neither.
    """
    if not isinstance(value, (bool, np.bool_)):
        raise InputError(f"{name} is {value!r}; it must be True or False")
