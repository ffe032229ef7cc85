"""Finding the unit that a spelling stands for."""

import re

from coldwright.errors import InputError
from coldwright.quantities.kinds import PRESSURES, Kind
from coldwright.quantities.units import UNITS, Unit

BLANKS = " \t\r\n\u00a0\u2009\u202f"
_SAME_SIGN = {
    0x2126: "Ω",  # ohm sign
    0x03BC: "µ",  # Greek mu
    0x212A: "K",  # kelvin sign
    0x00BA: "°",  # ordinal sign, on Spanish keyboards
    0x02DA: "°",  # ring above
    0x2103: "°C",
    0x2109: "°F",
    0x2212: "-",  # minus sign
    0x2033: '"',  # double prime, for inches
    0x00A0: " ",  # blanks that do not break, and thin ones
    0x2009: " ",
    0x202F: " ",
}

_AFTER_LETTER = re.compile(r"(?<=[A-Za-z])\.")

_EXACT: dict[Kind, dict[str, Unit]] = {
    kind: {spelling: unit for unit in units for spelling in unit.exact} for kind, units in UNITS.items()
}
_ANY_CASE: dict[Kind, dict[str, Unit]] = {
    kind: {spelling: unit for unit in units for spelling in unit.any_case} for kind, units in UNITS.items()
}


def one_sign_each(text: str) -> str:
    """Text in which signs that look alike stand as one: both ohm signs, both mu, minus signs, blanks.

    Parameters
    ----------
    text : str
        What was typed [-]
    """
    return text.translate(_SAME_SIGN)


def bare(spelling: str) -> str:
    """A unit without blanks and without the points of abbreviations ("in. Hg" is "inHg").

    Parameters
    ----------
    spelling : str
        What stands after the number [-]
    """
    return _AFTER_LETTER.sub("", one_sign_each(spelling)).replace(" ", "")


def find(kind: Kind, spelling: str) -> Unit | None:
    """Unit of a kind that a spelling stands for; None if it stands for none, or not clearly.

    Parameters
    ----------
    kind : Kind
        Kind wanted [-]
    spelling : str
        Unit as typed [-]
    """
    word = bare(spelling)
    return _EXACT[kind].get(word) or _ANY_CASE[kind].get(word.casefold())


def could_mean(kind: Kind, spelling: str) -> tuple[Unit, ...]:
    """Units that an unclear spelling may be meant for; empty if none.

    Parameters
    ----------
    kind : Kind
        Kind wanted; for a pressure, gauge and absolute are both looked at [-]
    spelling : str
        Unit as typed [-]
    """
    word = bare(spelling).casefold()
    kinds = PRESSURES if kind in PRESSURES else (kind,)
    return tuple(unit for one in kinds for unit in UNITS[one] if word and word in unit.unclear)


def kinds_of(spelling: str) -> tuple[Kind, ...]:
    """Kinds that a spelling is a unit of, a pressure without gauge or absolute included.

    Parameters
    ----------
    spelling : str
        Unit as typed [-]
    """
    return tuple(kind for kind in Kind if find(kind, spelling) or (kind in PRESSURES and could_mean(kind, spelling)))


def named_unit(kind: Kind, name: str) -> Unit:
    """Unit of a kind, for use in code.

    Parameters
    ----------
    kind : Kind
        Kind of the quantity [-]
    name : str
        Any clear spelling of the unit [-]

    Raises
    ------
    InputError
        If the kind has no such unit.
    """
    unit = find(kind, name)
    if unit is None:
        names = ", ".join(unit.name or "a plain number" for unit in UNITS[kind])
        raise InputError(f'"{name}" is no unit of {kind.phrase}; use one of {names}')
    return unit
