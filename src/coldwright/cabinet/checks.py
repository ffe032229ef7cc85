"""Values refused by name, with the slip that is likely behind each: litres for m³, kW for W, °F for °C."""

from __future__ import annotations

import math
from typing import NamedTuple

from coldwright.errors import InputError
from coldwright.quantities.constants import ICE_POINT_K

COLDEST_K, HOTTEST_K = 223.15, 333.15  # -50 °C and 60 °C: no room or cabinet of a small cooler lies outside


class Slip(NamedTuple):
    """Another unit that a number may have been given in, and what one of it is in SI."""

    unit: str
    factor: float


MILLIMETRES = Slip("mm", 1e-3)
CENTIMETRES = Slip("cm", 1e-2)
INCHES = Slip("in", 0.0254)
LITRES = Slip("L", 1e-3)
KILOWATTS = Slip("kW", 1e3)
MILLIWATTS = Slip("mW", 1e-3)
KILOJOULES = Slip("kJ", 1e3)
GRAMS = Slip("g", 1e-3)
PERCENT = Slip("%", 1e-2)
MINUTES = Slip("min", 60.0)


def check_between(name: str, value: float, unit: str, least: float, most: float, *slips: Slip) -> None:
    """Refuse what is outside a span, and name the unit that would put it inside.

    Parameters
    ----------
    name : str
        What it is [-]
    value : float
        The value [any]
    unit : str
        Its unit, and that of the span [-]
    least, most : float
        Ends of the span, both allowed [any]
    *slips : Slip
        Units that are mixed up with it, the likeliest first [-]

    Raises
    ------
    InputError
        If the value is outside the span or not a number.
    """
    if least <= value <= most:
        return
    message = f"{name} is {_with(value, unit)}; it must be from {least:g} to {_with(most, unit)}"
    for slip in slips:
        if least <= value * slip.factor <= most:
            message += f". Was it in {slip.unit}? {value:g} {slip.unit} is {_with(value * slip.factor, unit)}"
            break
    raise InputError(message)


def check_temperature(name: str, kelvin: float, least_k: float = COLDEST_K, most_k: float = HOTTEST_K) -> None:
    """Refuse a temperature that lies outside a span, and say whether it was °C or °F.

    Parameters
    ----------
    name : str
        What has the temperature [-]
    kelvin, least_k, most_k : float
        The temperature, and the ends of the span, both allowed [K]

    Raises
    ------
    InputError
        If the temperature is outside the span or not a number.
    """
    if least_k <= kelvin <= most_k:
        return
    celsius = kelvin - ICE_POINT_K
    span = f"from {least_k - ICE_POINT_K:.0f} °C to {most_k - ICE_POINT_K:.0f} °C"
    message = f"{name} is {kelvin:g} K ({celsius:.0f} °C); it must be {span}"
    if least_k <= kelvin + ICE_POINT_K <= most_k:
        message += f". Was it in °C? {kelvin:g} °C is {kelvin + ICE_POINT_K:g} K"
    elif least_k <= fahrenheit_k(kelvin) <= most_k:
        message += f". Was it in °F? {kelvin:g} °F is {fahrenheit_k(kelvin):.2f} K"
    elif least_k <= fahrenheit_k(celsius) <= most_k:
        message += f". Was it °F taken for °C? {celsius:.0f} °F is {fahrenheit_k(celsius) - ICE_POINT_K:.0f} °C"
    raise InputError(message)


def fahrenheit_k(fahrenheit: float) -> float:
    """Temperature of a number of degrees Fahrenheit [K].

    Parameters
    ----------
    fahrenheit : float
        The number [°F]
    """
    return (fahrenheit - 32.0) / 1.8 + ICE_POINT_K


def _with(value: float, unit: str) -> str:
    return f"{value:g} {unit}".rstrip() if math.isfinite(value) else f"{value}"
