"""A quantity as a person reads it."""

import math
from decimal import Decimal

from coldwright.errors import InputError
from coldwright.quantities.convert import in_unit
from coldwright.quantities.kinds import Kind
from coldwright.quantities.lookup import named_unit
from coldwright.quantities.units import UNITS

_LADDERS: dict[Kind, tuple[str, ...]] = {  # largest first; the last one also serves for anything smaller
    Kind.RESISTANCE: ("GΩ", "MΩ", "kΩ", "Ω", "mΩ"),
    Kind.VOLTAGE: ("kV", "V", "mV"),
    Kind.CURRENT: ("A", "mA", "µA"),
    Kind.POWER: ("kW", "W", "mW"),
    Kind.ENERGY: ("MJ", "kJ", "J", "mJ"),
    Kind.CAPACITANCE: ("F", "µF", "nF", "pF"),
    Kind.CHARGE: ("C", "mC", "µC"),
    Kind.FREQUENCY: ("kHz", "Hz"),
    Kind.TIME: ("h", "min", "s", "ms"),
    Kind.MASS: ("kg", "g", "mg"),
    Kind.LENGTH: ("m", "mm"),
    Kind.TEMPERATURE: ("°C",),
    Kind.TEMPERATURE_DIFFERENCE: ("K",),
    Kind.PRESSURE_ABSOLUTE: ("MPa abs", "kPa abs", "Pa abs"),
    Kind.PRESSURE_GAUGE: ("MPa gauge", "kPa gauge", "Pa gauge"),
    Kind.RATIO: ("",),
}
_FOR_ZERO = {Kind.PRESSURE_ABSOLUTE: "kPa abs", Kind.PRESSURE_GAUGE: "kPa gauge"}
_WRITTEN_OUT = range(-4, 9)  # powers of ten of the first digit that are written without an exponent
_MOST_DIGITS = 15
_DUST = 1e-12  # part of the SI value below which a number next to the zero of its scale is rounding


def _first_power(number: float, digits: int) -> int:
    return int(f"{number:.{digits - 1}e}".partition("e")[2])


def _pick(value: float, kind: Kind, digits: int) -> str:
    if value == 0:
        return _FOR_ZERO.get(kind, UNITS[kind][0].name)
    ladder = _LADDERS[kind]
    return next((name for name in ladder if _first_power(in_unit(value, kind, name), digits) >= 0), ladder[-1])


def show(value: float, kind: Kind, unit: str | None = None, digits: int = 3) -> str:
    """A readable number with its unit, such as "3.10 Ω" or "4.20 kΩ".

    Parameters
    ----------
    value : float
        Value, finite [SI]
    kind : Kind
        Kind of the quantity [-]
    unit : str, optional
        Unit to show it in; None picks one in which the number is short [-]
    digits : int
        Digits that count, 1 to 15 [-]

    Raises
    ------
    InputError
        If the value is not finite, the digits are out of range or the kind has no such unit.

    Examples
    --------
    >>> show(4200.0, Kind.RESISTANCE)
    '4.20 kΩ'
    """
    if not math.isfinite(value):
        raise InputError(f"the {kind.noun} to show is {value}; only a finite number can be shown")
    if digits not in range(1, _MOST_DIGITS + 1):
        raise InputError(f"digits is {digits}; a number is shown with 1 to {_MOST_DIGITS} digits")
    found = named_unit(kind, _pick(value, kind, digits) if unit is None else unit)
    number = in_unit(value, kind, found.name)
    if abs(number) <= _DUST * abs(value / float(found.factor)):
        number = 0.0
    text = f"{number:.{digits - 1}e}"
    if _first_power(number, digits) in _WRITTEN_OUT:
        text = f"{Decimal(text):f}"
    return f"{text} {found.name}".rstrip()
