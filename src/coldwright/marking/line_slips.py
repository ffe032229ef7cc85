"""Why a line of an answer cell cannot be read: one plain sentence, with the slip that is most likely behind it."""

from __future__ import annotations

import re

_NAME = r"[^\W\d]\w*"
_SET = re.compile(rf"\s*({_NAME})\s*(?::[^=]*)?=(?!=)\s*(.*)")
_COMPARED = re.compile(rf"\s*({_NAME})\s*==")
_NO_EQUALS = re.compile(rf"\s*({_NAME})\s*(?::\s*|\s+)([\"'\d+.-].*)")
_CURLY = "“”„‟‘’‚‛«»‹›``´"
_LONGEST_SHOWN = 40


def set_name(line: str) -> str | None:
    """The name that a line looks as if it set; None if it looks as if it set none.

    Parameters
    ----------
    line : str
        One line, in any state [-]
    """
    found = _SET.match(line) or _COMPARED.match(line) or _NO_EQUALS.match(line)
    return found[1] if found else None


def is_notebook_command(line: str) -> bool:
    """Whether a line is a command to the notebook or the system, not Python.

    Parameters
    ----------
    line : str
        One line [-]
    """
    return line.lstrip().startswith(("!", "%", "?")) or bool(re.match(rf"\s*{_NAME}\s*=\s*[!%]|[^\"'#]*\?\s*$", line))


def _shown(text: str) -> str:
    safe = "".join(sign for sign in text if sign.isprintable() and sign not in "\"'\\" + _CURLY).strip()
    return safe if safe and len(safe) <= _LONGEST_SHOWN else "4.2 ohm"


def broken_line(number: int, line: str) -> str:
    """One sentence on a line that cannot be read.

    Parameters
    ----------
    number : int
        Its place in the cell, from 1 [-]
    line : str
        The line [-]
    """
    return f"Line {number} cannot be read: {_slip(line)}."


def _slip(line: str) -> str:
    if is_notebook_command(line):
        return "it is a command to the notebook, which is not carried out here; an answer is typed as name = value"
    if line[:1] in (" ", "\t"):
        return "it begins with a blank; take that away"
    if any(sign in line for sign in _CURLY):
        return 'it has curly quotes; type straight ones, as in "your answer"'
    if any(not sign.isprintable() for sign in line.strip()) or "\xa0" in line:
        return "it holds a sign that cannot be seen; type the line again by hand"
    found = _SET.match(line)
    if found is None:
        return _no_assignment(line)
    name, value = found[1], found[2].split("#")[0].strip()
    if not value:
        return f'nothing stands after the =; type the value there, as in {name} = "your answer"'
    if (value.count('"') + value.count("'")) % 2:
        return f'a quote is missing; put one on each side of the value, as in {name} = "{_shown(value)}"'
    if not set(value) & set("\"'"):
        if value.count("(") != value.count(")") or value.count("[") != value.count("]"):
            return "a bracket is missing"
        return f'put the value in quotes, as in {name} = "{_shown(value)}"'
    return f'it must be one value in quotes, as in {name} = "your answer"'


def _no_assignment(line: str) -> str:
    compared = _COMPARED.match(line)
    if compared:
        return f'two = compare; type one, as in {compared[1]} = "your answer"'
    without = _NO_EQUALS.match(line)
    if without:
        return f'the = is missing; type it between name and value, as in {without[1]} = "{_shown(without[2])}"'
    return 'it is not of the form name = value; an answer is typed as in run_winding = "your answer"'
