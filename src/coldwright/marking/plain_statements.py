"""What plain statements set: values kept by name, sums worked out within bounds, nothing run."""

from __future__ import annotations

import ast
import operator
from collections.abc import Callable, Sequence

_MOST_WORKED = 10**100  # a number that is still worked with
_MOST_BITS = 400  # of a whole power
_LONGEST_NUMBER = 200  # signs of a number as typed
TOO_LONG_NUMBER = 10 * _MOST_WORKED  # stands for any number that is too long to be read whole
_IN_CODE, _MORE = "is worked out in code", "is more than values: it has to be run"
_TOO_LARGE = "works with a number too large to be read; type the value itself"

Number = int | float
_OPERATIONS: dict[type[ast.operator], Callable[[Number, Number], object]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.FloorDiv: operator.floordiv,
    ast.Mod: operator.mod,
    ast.Pow: operator.pow,
}


class _NeedsRunning(Exception):
    """Right Python, but more than is read here."""


class _Broken(Exception):
    """A statement that cannot be worked out."""


class PlainStatements:
    """What the statements of a cell taken so far set. `broken` holds a sentence by line number.

    Parameters
    ----------
    names : frozenset of str
        Names that the cell is to set [-]
    """

    def __init__(self, names: frozenset[str]) -> None:
        self.names = names
        self.known: dict[str, object] = {}
        self.broken: dict[int, str] = {}
        self.beyond = ""

    def fail(self, number: int, sentence: str, names: Sequence[str | None]) -> None:
        """Notes a broken line; what it was to set is not known any more.

        Parameters
        ----------
        number : int
            Number of the line [-]
        sentence : str
            What is wrong with it [-]
        names : sequence of str or None
            What it was to set [-]
        """
        self.broken.setdefault(number, sentence)
        self._forget(names)

    def _forget(self, names: Sequence[str | None]) -> None:
        for name in names:
            self.known.pop(name or "", None)

    def take(self, statement: ast.stmt, number: int) -> None:
        """Adds one statement, at a line of the cell.

        Parameters
        ----------
        statement : ast.stmt
            The statement [-]
        number : int
            Number of its line [-]
        """
        stored = [n.id for n in ast.walk(statement) if isinstance(n, ast.Name) and not isinstance(n.ctx, ast.Load)]
        try:
            self._statement(statement)
        except _NeedsRunning as reason:
            self.beyond = self.beyond or f"Line {number} {reason}."
            self._forget(stored)
        except _Broken as reason:
            self.fail(number, f"Line {number} {reason}.", stored)

    def _statement(self, statement: ast.stmt) -> None:
        match statement:
            case ast.Pass():
                return
            case ast.Assign(targets=targets, value=value):
                for target in targets:
                    self._assign(target, value)
            case ast.AnnAssign(target=ast.Name(id=name), annotation=annotation, value=value):
                if not isinstance(annotation, ast.Constant) and ast.unparse(annotation) not in ("str", "int", "float"):
                    raise _NeedsRunning(_IN_CODE)
                if value is not None:
                    self.known[name] = self._value(value)
            case ast.AugAssign(target=ast.Name(id=name), op=op, value=value):
                self.known[name] = _work_out(op, self._named(name), self._value(value))
            case ast.Expr(value=ast.Compare(left=ast.Name(id=name), ops=[ast.Eq()])) if name in self.names:
                self._forget([name])
                raise _Broken(f'compares with two =; type one, as in {name} = "your answer"')
            case ast.Expr(value=value):
                self._value(value)
            case _:
                raise _NeedsRunning(_MORE)

    def _assign(self, target: ast.expr, value: ast.expr) -> None:
        match target, value:
            case ast.Name(id=name), _:
                self.known[name] = self._value(value)
            case (
                (ast.Tuple(elts=targets) | ast.List(elts=targets)),
                (ast.Tuple(elts=values) | ast.List(elts=values)),
            ) if len(targets) == len(values) and all(isinstance(each, ast.Name) for each in targets):
                worked = [self._value(each) for each in values]
                self.known |= {
                    each.id: one for each, one in zip(targets, worked, strict=True) if isinstance(each, ast.Name)
                }
            case _:
                raise _NeedsRunning(_MORE)

    def _named(self, name: str) -> object:
        if name not in self.known:
            raise _NeedsRunning(
                f"uses the name {name}, which this cell does not set; if you mean the word, put it in quotes"
            )
        return self.known[name]

    def _value(self, node: ast.expr) -> object:
        match node:
            case ast.Constant(value=int() | float()) if (node.end_col_offset or 0) - node.col_offset > _LONGEST_NUMBER:
                return TOO_LONG_NUMBER
            case ast.Constant(value=value):
                return value
            case ast.Name(id=name):
                return self._named(name)
            case ast.UnaryOp(op=ast.USub() | ast.UAdd() as sign, operand=operand):
                worked = _number(self._value(operand))
                return -worked if isinstance(sign, ast.USub) else worked
            case ast.BinOp(left=left, op=op, right=right):
                return _work_out(op, self._value(left), self._value(right))
            case ast.List(elts=parts) | ast.Tuple(elts=parts) | ast.Set(elts=parts):
                for part in parts:
                    self._value(part)
                return {ast.List: [], ast.Tuple: (), ast.Set: set()}[type(node)]
            case ast.Dict(keys=keys, values=parts):
                for part in (*[key for key in keys if key], *parts):
                    self._value(part)
                return {}
            case _:
                raise _NeedsRunning(_IN_CODE)


def _number(value: object) -> Number:
    if type(value) is not int and type(value) is not float:
        raise _NeedsRunning(_IN_CODE)
    return value


def _work_out(op: ast.operator, left: object, right: object) -> object:
    """The outcome of a calculation with two numbers, both of a readable size."""
    if type(op) not in _OPERATIONS:
        raise _NeedsRunning(_IN_CODE)
    a, b = _number(left), _number(right)
    whole = [abs(number) for number in (a, b) if type(number) is int]
    if max(whole, default=0) > _MOST_WORKED:
        raise _Broken(_TOO_LARGE)
    if isinstance(op, ast.Pow) and type(a) is int and type(b) is int and a.bit_length() * b > _MOST_BITS:
        raise _Broken(_TOO_LARGE)
    try:
        return _OPERATIONS[type(op)](a, b)
    except ZeroDivisionError:
        raise _Broken("divides by zero; check the numbers in it") from None
    except OverflowError:
        raise _Broken(_TOO_LARGE) from None
