"""The docstring is a contract: what it says of parameters is held against the signature, in every module."""

from __future__ import annotations

import ast
import inspect
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "src" / "coldwright"
ENTRY = re.compile(r"\*{0,2}\w+(, \*{0,2}\w+)* : \S.*|\*{1,2}\w+")
UNIT = re.compile(r"\[[^\[\]]+\]\.?$")
NUMERIC = re.compile(r"\b(float|int|complex|ndarray|array)\b")
Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Place:
    """A function, class or module with a name to show."""

    name: str
    node: Function | ast.ClassDef | ast.Module

    @property
    def docstring(self) -> str:
        """Its docstring, or nothing."""
        return inspect.cleandoc(ast.get_docstring(self.node) or "")


def sections(docstring: str) -> dict[str, list[str]]:
    """Lines of each underlined section."""
    found: dict[str, list[str]] = {}
    lines = docstring.splitlines()
    name = ""
    for number, line in enumerate(lines):
        below = lines[number + 1] if number + 1 < len(lines) else ""
        if below and set(below) == {"-"} and len(below) == len(line):
            name = line
            found[name] = []
        elif name and not (line and set(line) == {"-"}):
            found[name].append(line)
    return found


def entries(lines: list[str]) -> list[tuple[str, str]]:
    """Head and description of each entry of a section."""
    found: list[tuple[str, list[str]]] = []
    for line in lines:
        if line and not line.startswith(" "):
            found.append((line, []))
        elif line.strip() and found:
            found[-1][1].append(line.strip())
    return [(head, " ".join(description)) for head, description in found]


def signature(node: Function) -> list[str]:
    """Names of the parameters, without self and cls, with the stars of *args and **kwargs."""
    args = node.args
    names = [a.arg for a in (*args.posonlyargs, *args.args)]
    if names[:1] in (["self"], ["cls"]):
        names = names[1:]
    names += [f"*{args.vararg.arg}"] if args.vararg else []
    names += [a.arg for a in args.kwonlyargs]
    return names + ([f"**{args.kwarg.arg}"] if args.kwarg else [])


def faults_of_function(node: Function, docstring: str) -> Iterator[str]:
    """What a function's docstring gets wrong, or what its class's says of __init__."""
    parts = sections(docstring)
    documented: list[str] = []
    for head, description in entries(parts.get("Parameters", [])):
        if not ENTRY.fullmatch(head):
            yield f"parameter line {head!r} is not 'name : type'"
            continue
        documented += re.findall(r"\*{0,2}\w+", head.partition(" : ")[0])
        if not UNIT.search(description):
            yield f"the description of {head.partition(' : ')[0]} does not end in its [unit]"
    if documented != signature(node):
        yield f"documents {documented}, the signature has {signature(node)}"
    for head, description in entries(parts.get("Returns", [])):
        if NUMERIC.search(head) and not UNIT.search(description):
            yield f"the returned {head} does not end in its [unit]"


def faults(place: Place) -> list[str]:
    """All that is wrong with a docstring."""
    found = []
    if not place.docstring:
        return [f"{place.name}: no docstring"]
    if not re.search(r"[.?!:]$", place.docstring.partition("\n\n")[0]):
        found.append("the first sentence does not end")
    if isinstance(place.node, Function):
        found += faults_of_function(place.node, place.docstring)
    if isinstance(place.node, ast.ClassDef):
        made = [n for n in place.node.body if isinstance(n, ast.FunctionDef) and n.name == "__init__"]
        found += [fault for init in made for fault in faults_of_function(init, place.docstring)]
    return [f"{place.name}: {fault}" for fault in found]


def public(nodes: list[ast.stmt], inside: str) -> Iterator[Place]:
    """Public functions and classes, with the methods of public classes."""
    for node in nodes:
        if not isinstance(node, Function | ast.ClassDef) or node.name.startswith("_"):
            continue
        name = f"{inside}.{node.name}"
        yield Place(name, node)
        if isinstance(node, ast.ClassDef):
            yield from public(node.body, name)


def places(path: Path) -> list[Place]:
    """A module and all that is public in it."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    name = ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts)
    whole = [] if not tree.body else [Place(name, tree)]
    return [*whole, *public(tree.body, name)]


MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=[str(p.relative_to(PACKAGE)) for p in MODULES])
def test_docstrings_say_what_the_signature_says(path):
    """Module, classes and functions have docstrings; parameters are those of the signature, each with its [unit]."""
    assert [fault for place in places(path) for fault in faults(place)] == []


def test_the_package_is_walked():
    """The walk finds the functions of the physics: an empty walk would pass everything."""
    names = {place.name for path in MODULES for place in places(path)}
    for name in (
        "coldwright.electrical.windings.resistance_at",
        "coldwright.electrical.network.Network.voltage",
        "coldwright.bench.compressor_bench.CompressorBench.ohms",
        "coldwright.answers.tolerance.one_slip",
    ):
        assert name in names


GOOD = '''
def f(first, second=2, *more, kind):
    """What comes out.

    Parameters
    ----------
    first, second : float
        Two of a kind,
        told in two lines [Ω]
    *more : float
        More of them [Ω]
    kind : str
        What kind [-]

    Returns
    -------
    float
        Their sum [Ω]
    """
'''


def faults_in(text: str) -> list[str]:
    """Faults of a module given as text."""
    return [fault for place in public(ast.parse(text).body, "m") for fault in faults(place)]


def test_a_good_docstring_passes():
    """A docstring that says all has no fault."""
    assert faults_in(GOOD) == []


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        (
            "second=2",
            "other=2",
            "m.f: documents ['first', 'second', '*more', 'kind'], the signature has ['first', 'other'",
        ),
        ("first, second : float", "second, first : float", "m.f: documents ['second', 'first'"),
        (
            "    kind : str\n        What kind [-]\n",
            "",
            "m.f: documents ['first', 'second', '*more'], the signature has",
        ),
        ("in two lines [Ω]", "in two lines", "m.f: the description of first, second does not end in its [unit]"),
        ("Their sum [Ω]", "Their sum", "m.f: the returned float does not end in its [unit]"),
        ("kind : str", "kind (str)", "m.f: parameter line 'kind (str)' is not 'name : type'"),
        ("What comes out.", "What comes out", "m.f: the first sentence does not end"),
    ],
)
def test_each_fault_is_found(old, new, fault):
    """A docstring with one thing wrong is found with that thing named."""
    assert old in GOOD
    assert any(found.startswith(fault) for found in faults_in(GOOD.replace(old, new)))


def test_nothing_public_goes_without():
    """A class or function without a docstring is found, and so are an undocumented method and __init__."""
    assert faults_in("def f(): pass") == ["m.f: no docstring"]
    assert faults_in('class A:\n    """An A."""\n    def f(self, x): pass') == ["m.A.f: no docstring"]
    assert faults_in('class A:\n    """An A."""\n    def __init__(self, x): pass') == [
        "m.A: documents [], the signature has ['x']"
    ]
    assert faults_in("def _f(x): pass") == []
