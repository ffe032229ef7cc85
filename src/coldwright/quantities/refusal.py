"""Why a text cannot be read as one number with one unit, in words that say what to write instead."""

import re

from coldwright.errors import AnswerError
from coldwright.quantities.kinds import Kind
from coldwright.quantities.lookup import could_mean, kinds_of
from coldwright.quantities.units import EXAMPLES, UNITS, Unit

_SPREAD = re.compile(r"±|\+ ?/? ?-")
_GROUPED = re.compile(r" *[ _'] *[0-9]")
_SUM = re.compile(r"[-+–*/^×] *[0-9(]")


def listed(words: list[str]) -> str:
    """Words joined with commas and an "or" before the last.

    Parameters
    ----------
    words : list of str
        At least one word [-]
    """
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _name(unit: Unit) -> str:
    return unit.name if unit.name.isascii() else f"{unit.name} ({unit.spoken})"


def no_number(shown: str, example: str) -> AnswerError:
    """Error for a text that does not start with a number.

    Parameters
    ----------
    shown : str
        The text as a message shows it [-]
    example : str
        A good answer [-]
    """
    return AnswerError(
        f"{shown} does not start with a number; write the number first, nothing before it, as in {example}"
    )


def after_number(rest: str, shown: str, example: str) -> AnswerError | None:
    """Error for more than one plain number; None if what follows the number could be a unit.

    Parameters
    ----------
    rest : str
        What follows the number [-]
    shown : str
        The whole text as a message shows it [-]
    example : str
        A good answer [-]
    """
    if _SPREAD.search(rest):
        rule = "write the number alone, without ±"
    elif rest[:1] in (".", ","):
        rule = "the number has a point or comma too many; write it with one point and no thousands separators"
    elif _GROUPED.match(rest):
        rule = "write one number, its digits together"
    elif _SUM.search(rest):
        rule = "it holds a sum, a power, a fraction or a range; work it out and write one number"
    elif any(sign in "0123456789" for sign in rest):
        rule = "digits follow after the unit; write one number and one unit"
    else:
        return None
    return AnswerError(f"{shown}: {rule}, as in {example}")


def unit_error(kind: Kind, rest: str, shown: str) -> AnswerError:
    """Error for a unit that is missing, unclear, of another kind or not known.

    Parameters
    ----------
    kind : Kind
        Kind wanted [-]
    rest : str
        What follows the number [-]
    shown : str
        The whole text as a message shows it [-]
    """
    example = EXAMPLES[kind]
    known = listed([_name(unit) for unit in UNITS[kind] if unit.name])
    if not rest.strip(" ."):
        return AnswerError(f"{shown} has no unit; {kind.phrase} needs one: {known}, as in {example}")
    meant = could_mean(kind, rest)
    if meant:
        names = listed([f"{unit.name} ({unit.spoken})" for unit in meant])
        note = "; small m and capital M are not the same" if rest.strip()[0] in "mM" else ""
        return AnswerError(f"{shown} is not clear: write {names}{note}")
    others = kinds_of(rest)
    if others:
        found = listed([other.phrase for other in others])
        return AnswerError(f"{shown} is {found}; {kind.phrase} is wanted, as in {example}")
    return AnswerError(f"{shown}: this unit is not known here; {kind.phrase} is written in {known}, as in {example}")
