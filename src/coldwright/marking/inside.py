"""The program that runs a hand-in's code: inside the sandbox, started as a script, standard library only.

It reads a job from its standard input, runs the cells in order in one namespace and writes one JSON record after each,
so that what ends it later takes nothing back. Learner code lives in the same process and can change everything here.
The process outside therefore takes the records as data and as nothing more than what the learner claims.

What is needed after learner code has run is bound to own names first, so that code which replaces a builtin by
accident does not spoil its own record.
"""

from __future__ import annotations

import builtins
import json
import os
import sys
from json.encoder import encode_basestring_ascii as _quote
from types import BuiltinFunctionType, FunctionType, TracebackType
from typing import Any

LONGEST_TEXT = 200  # characters of a value or of an error's text
MOST_DIGITS = 40
READY = b'{"ready": true}\n'  # the first record: the jail stands, no code has run yet
TEXT, INTEGER, DECIMAL, ODD = "text", "integer", "decimal", "odd"
NOTHING, TOO_LONG, OTHER = "None", "too long", "something that is neither a number nor a text"
BAD_TEXT, NOT_A_NUMBER, ENDLESS, ARRAY = "a text with broken signs", "not a number", "an endless number", "an array"

_KINDS = {
    type(None): NOTHING,
    bool: "True or False",
    list: "a list",
    tuple: "several values with commas between them",
    dict: "a table of names and values",
    set: "a set",
    frozenset: "a set",
    bytes: "bytes",
    complex: "a complex number",
    FunctionType: "a function",
    BuiltinFunctionType: "a function",
}
ODD_KINDS = frozenset({*_KINDS.values(), TOO_LONG, OTHER, BAD_TEXT, NOT_A_NUMBER, ENDLESS, ARRAY})

_STR, _INT, _FLOAT = str, int, float
_NUMPY_NUMBERS = (
    *("float16", "float32", "float64", "int8", "int16", "int32", "int64"),
    *("uint8", "uint16", "uint32", "uint64", "bool_", "str_"),
)
_type, _len, _getattr, _exec, _compile = type, len, getattr, exec, compile
_write, _exit, _hex, _modules = os.write, os._exit, float.hex, sys.modules
_BaseException, _UnicodeEncodeError = BaseException, UnicodeEncodeError
_SyntaxError, _IndentationError = SyntaxError, IndentationError
_class_name, _error_args = type.__dict__["__name__"].__get__, BaseException.args.__get__  # type: ignore[attr-defined]
_BIG: int = 10**MOST_DIGITS
_INF: float = float("inf")
_SPARE: list[bytearray] = []  # memory given back when a cell ends badly, so that its record can still be written
_SPARE_BYTES = 4_000_000


def wire_value(value: object) -> tuple[str, str]:
    """A value as kind and text, by its exact type; a subclass counts as something else, whatever it says of itself.

    Parameters
    ----------
    value : object
        Any value; none of its own code is run [-]

    Returns
    -------
    tuple of str
        Text, integer (decimal digits) or decimal (hexadecimal digits, so exact); else odd and the kind in words.
    """
    kind = _type(value)
    if kind is _STR:
        return _wire_text(value)  # type: ignore[arg-type]
    if kind is _INT:
        whole: int = value  # type: ignore[assignment]
        return (INTEGER, f"{whole}") if -_BIG < whole < _BIG else (ODD, TOO_LONG)
    if kind is _FLOAT:
        number: float = value  # type: ignore[assignment]
        if number != number:
            return ODD, NOT_A_NUMBER
        return (ODD, ENDLESS) if number in (_INF, -_INF) else (DECIMAL, _hex(number))
    for known, words in _KINDS.items():
        if kind is known:
            return ODD, words
    return _wire_numpy(value)


def _wire_text(text: str) -> tuple[str, str]:
    if _len(text) > LONGEST_TEXT:
        return ODD, TOO_LONG
    try:
        text.encode("utf-8")
    except _UnicodeEncodeError:
        return ODD, BAD_TEXT
    return TEXT, text


def _wire_numpy(value: Any) -> tuple[str, str]:
    """A numpy number as the plain one it stands for. numpy is only asked if the learner's code has loaded it."""
    numpy = _modules.get("numpy")
    if numpy is None:
        return ODD, OTHER
    if _type(value) is numpy.ndarray:
        return ODD, ARRAY
    for name in _NUMPY_NUMBERS:
        if _type(value) is _getattr(numpy, name):
            plain = value.item()
            return wire_value(plain) if _type(plain) is not _type(value) else (ODD, OTHER)
    return ODD, OTHER


def plain_value(kind: str, text: str) -> str | int | float:
    """The value that `wire_value` wrote; odd ones have none.

    Parameters
    ----------
    kind : str
        Text, integer or decimal [-]
    text : str
        Its text [-]

    Raises
    ------
    ValueError
        If it is not of that form.
    """
    if kind == TEXT and wire_value(text) == (kind, text):
        return text
    if kind == INTEGER and len(text) <= MOST_DIGITS + 1:
        return int(text)
    if kind == DECIMAL and len(text) <= MOST_DIGITS:
        number = float.fromhex(text)
        if -_INF < number < _INF:
            return number
    raise ValueError(f"no plain value: {kind}")


def _error_record(error: BaseException, label: str) -> tuple[str, int, str]:
    """Class, line and text of an error, without running code of its class."""
    kind = _type(error)
    text, line = "", 0
    for arg in _error_args(error):
        if _type(arg) is _STR and not text:
            text = arg[:LONGEST_TEXT]
    if kind is _SyntaxError or kind is _IndentationError:
        line = error.lineno or 0  # type: ignore[attr-defined]
    step: TracebackType | None = error.__traceback__
    while step is not None:
        if step.tb_frame.f_code.co_filename == label:
            line = step.tb_lineno
        step = step.tb_next
    return _class_name(kind), line, text


def _run_cell(number: int, source: str, names: list[str], namespace: dict[str, Any]) -> bytes:
    label = f"<answer cell {number}>"
    name, line, text = "", 0, ""
    try:
        _exec(_compile(source, label, "exec"), namespace)
    except _BaseException as error:
        _SPARE.clear()
        try:
            name, line, text = _error_record(error, label)
        except _BaseException:
            name = "Error"
    values = []
    for wanted in names:
        try:
            if wanted in namespace:
                kind, words = wire_value(namespace[wanted])
                values.append(f"{_quote(wanted)}: [{_quote(kind)}, {_quote(words)}]")
        except _BaseException:
            values.append(f'{_quote(wanted)}: ["{ODD}", "{OTHER}"]')
    error_part = f'"error": {_quote(name)}, "line": {line}, "text": {_quote(text)}'
    return f'{{"cell": {number}, {error_part}, "values": {{{", ".join(values)}}}}}\n'.encode("ascii")


def _send(channel: int, record: bytes) -> None:
    while record:
        record = record[_write(channel, record) :]


def _drop_rights(user: int | None) -> None:
    """From root to a user that owns nothing, for good. None where the program was not started as root."""
    if user is not None:
        os.setgroups([])
        os.setresgid(user, user, user)
        os.setresuid(user, user, user)
        if os.getuid() == 0:
            raise PermissionError("still root")


def _set_limits(limits: dict[str, list[int]], strict: bool) -> None:
    try:
        import resource
    except ImportError:  # this system has none; only a trusted run comes here
        return
    for name, (soft, hard) in limits.items():
        try:
            which = getattr(resource, f"RLIMIT_{name}")
            most = resource.getrlimit(which)[1]
            if most != resource.RLIM_INFINITY:
                soft, hard = min(soft, most), min(hard, most)
            resource.setrlimit(which, (soft, hard))
        except (AttributeError, ValueError, OSError):
            if strict:
                raise


def _private_channel() -> int:
    """The pipe that was standard output, under another number; the three standard streams lead nowhere from here on."""
    channel = os.dup(1)
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)
    os.close(nowhere)
    return channel


def main() -> None:
    """Run the job on standard input."""
    job = json.loads(sys.stdin.buffer.read())
    sys.path += job["paths"]
    _drop_rights(job["user"])
    _set_limits(job["limits"], job["strict"])
    channel = _private_channel()
    _send(channel, READY)
    namespace: dict[str, Any] = {"__name__": "__main__", "__builtins__": builtins}
    cells = job["cells"]
    given = [{name: plain_value(*wire) for name, wire in cell["given"].items()} for cell in cells]
    _SPARE.append(bytearray(_SPARE_BYTES))
    for number, cell in enumerate(cells):
        namespace.update(given[number])
        _send(channel, _run_cell(number, cell["source"], cell["names"], namespace))
    _exit(0)


if __name__ == "__main__":
    main()
