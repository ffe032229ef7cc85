"""Circuits of ours written for ngspice, and what ngspice makes of them: another program, another hand.

Each element gets an ammeter (a source of 0 V) in front of it, so that every current can be compared. Two coils with a
mutual inductance are ngspice's own coupled inductors. Other windings that act on each other are built from controlled
sources: the current of each drives an inductor of its own, whose voltage is added to the other winding. Resistances are
voltages driven by the current of their own ammeter: as plain resistors ngspice turns them into conductances, and loses
digits where a milliohm stands beside a gigohm. All circuits of a list run in one process.
"""

from __future__ import annotations

import math
import os
import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest

from coldwright.electrical.elements import Branch, Coupled, Source, Switch
from coldwright.electrical.network import Network


@dataclass(frozen=True)
class Answer:
    """What ngspice says: volts of each node against the grounded node of its island, `zero`; amps of each element."""

    zero: dict[str, str]
    volts: dict[str, complex]
    amps: dict[str, complex]


def need_ngspice() -> str:
    """Path of ngspice. Where it is missing the test is skipped, and fails where CI=true."""
    path = shutil.which("ngspice")
    if path is None:
        message = "ngspice is not installed"
        if os.environ.get("CI") == "true":
            pytest.fail(message)
        pytest.skip(message)
    return path


def _is_transformer(pair: Coupled) -> bool:
    (z11, z12), (z21, z22) = pair.impedance
    return z12 == z21 and z12.real == 0 and 0 < z12.imag < math.sqrt(max(0.0, z11.imag * z22.imag))


class Deck:
    """One circuit at one frequency in ngspice's words."""

    def __init__(self, net: Network, hertz: float) -> None:
        self.hertz = hertz
        self.lines: list[str] = []
        self.node = {name: f"n{i}" for i, name in enumerate(net.nodes)}
        self.meters: dict[str, str] = {}
        self._inside = 0
        self.zero: dict[str, str] = {}
        returns = [source.b for source in net.sources]
        for island in net.islands(hertz):
            grounded = next((node for node in returns if node in island), min(island))
            self.zero |= dict.fromkeys(island, grounded)
            self.node[grounded] = "0"
        for branch in net.branches:
            self._branch(branch)
        for source in net.sources:
            self._source(source)
        for switch in net.switches:
            self._switch(switch)
        for pair in net.coupled:
            self._coupled(pair)

    def text(self) -> str:
        """The whole netlist."""
        return "\n".join(["circuit", *self.lines, ".option noopac", ".end", ""])

    def _new(self) -> str:
        self._inside += 1
        return f"x{self._inside}"

    def _add(self, kind: str, *words: object) -> None:
        written = (f"{word:.17g}" if isinstance(word, float) else str(word) for word in words)
        self.lines.append(" ".join([f"{kind}{len(self.lines)}", *written]))

    def _ammeter(self, name: str, a: str, to: str) -> None:
        label = f"v{len(self.lines)}"
        self._add("v", a, to, "dc 0 ac 0")
        self.meters[name] = label

    def _open(self, name: str) -> None:
        self.meters[name] = ""

    def _chain(self, meter: str, a: str, b: str, parts: Sequence[tuple[str, float]]) -> None:
        """Parts in series behind an ammeter; none at all is a wire."""
        here = a
        for k, (kind, value) in enumerate(parts):
            there = b if k == len(parts) - 1 else self._new()
            if kind == "r":
                self._add("h", here, there, meter, value)
            else:
                self._add(kind, here, there, value)
            here = there
        if not parts:
            self._add("v", a, b, "dc 0 ac 0")

    def _branch(self, branch: Branch) -> None:
        if branch.capacitance is not None and self.hertz == 0:
            self._open(branch.name)
            return
        inside = self._new()
        self._ammeter(branch.name, self.node[branch.a], inside)
        parts = [("r", branch.resistance), ("l", branch.inductance), ("c", branch.capacitance or 0.0)]
        self._chain(
            self.meters[branch.name], inside, self.node[branch.b], [(kind, value) for kind, value in parts if value > 0]
        )

    def _source(self, source: Source) -> None:
        inside, behind = self._new(), self._new()
        self._ammeter(source.name, self.node[source.a], inside)
        emf = source.emf(self.hertz)
        size, degrees = abs(emf), math.degrees(math.atan2(emf.imag, emf.real))
        self._add("v", inside, behind, "dc", emf.real if self.hertz == 0 else 0.0, "ac", size, degrees)
        self._chain(self.meters[source.name], behind, self.node[source.b], [("r", source.resistance)])

    def _switch(self, switch: Switch) -> None:
        if not switch.closed:
            self._open(switch.name)
            return
        inside = self._new()
        self._ammeter(switch.name, self.node[switch.a], inside)
        self._chain(
            self.meters[switch.name],
            inside,
            self.node[switch.b],
            [("r", switch.contact_ohm)] if switch.contact_ohm > 0 else [],
        )

    def _coupled(self, pair: Coupled) -> None:
        insides = self._new(), self._new()
        for name, (a, _), inside in zip(pair.names, (pair.first, pair.second), insides, strict=True):
            self._ammeter(name, self.node[a], inside)
        meters = [self.meters[name] for name in pair.names]
        if self.hertz == 0:
            for meter, inside, (_, b), ohm in zip(meters, insides, (pair.first, pair.second), pair.dc_ohm, strict=True):
                self._chain(meter, inside, self.node[b], [("r", ohm)] if ohm > 0 else [])
            return
        if _is_transformer(pair):
            self._transformer(pair, meters, insides)
            return
        turned = [self._one_volt_per_ampere_turned(meter) for meter in meters]
        for inside, (_, b), row in zip(insides, (pair.first, pair.second), pair.impedance, strict=True):
            here = inside
            for k, (z, meter, sense) in enumerate(zip(row, meters, turned, strict=True)):
                between, there = self._new(), self.node[b] if k == 1 else self._new()
                self._add("h", here, between, meter, z.real)
                self._add("e", between, there, sense, "0", z.imag)
                here = there

    def _transformer(self, pair: Coupled, meters: list[str], insides: tuple[str, str]) -> None:
        omega = 2 * math.pi * self.hertz
        (z11, z12), (_, z22) = pair.impedance
        coils = []
        for z, meter, inside, (_, b) in zip((z11, z22), meters, insides, (pair.first, pair.second), strict=True):
            self._chain(
                meter, inside, self.node[b], [(k, v) for k, v in (("r", z.real), ("l", z.imag / omega)) if v > 0]
            )
            coils.append(self.lines[-1].split()[0])
        self._add("k", *coils, z12.imag / math.sqrt(z11.imag * z22.imag))

    def _one_volt_per_ampere_turned(self, meter: str) -> str:
        """A node whose voltage is +j times the current of a meter."""
        sense = self._new()
        self._add("f", "0", sense, meter, 1.0)
        self._add("l", sense, "0", 1 / (2 * math.pi * self.hertz))
        return sense


def control(decks: Sequence[Deck], folder: Path) -> str:
    """The file that has ngspice run every deck of a folder."""
    lines = ["all circuits", ".control", "set filetype=ascii"]
    for k, deck in enumerate(decks):
        (folder / f"{k}.cir").write_text(deck.text(), encoding="utf-8")
        run = f"ac lin 1 {deck.hertz:.17g} {deck.hertz:.17g}" if deck.hertz > 0 else "op"
        lines += [f"source {folder / f'{k}.cir'}", run, f"write {folder / f'{k}.raw'} all"]
    return "\n".join([*lines, "quit", ".endc", ".end", ""])


def read_raw(path: Path) -> dict[str, complex]:
    """Vectors of a raw file with one point."""
    words = iter(path.read_text(encoding="utf-8").splitlines())
    names: list[str] = []
    for line in words:
        if line.startswith("Values:"):
            break
        fields = line.split("\t")
        if len(fields) >= 4 and fields[1].isdigit():
            names.append(fields[2].lower())
    texts = [line.split()[-1] for line in words if line.strip()]
    return {name: complex(*map(float, text.split(","))) for name, text in zip(names, texts, strict=True)}


def run(circuits: Sequence[tuple[Network, float]], folder: Path) -> list[Answer]:
    """Answers for circuits at their frequencies, from one process."""
    decks = [Deck(net, hertz) for net, hertz in circuits]
    start = folder / "all.cir"
    start.write_text(control(decks, folder), encoding="utf-8")
    done = subprocess.run([need_ngspice(), "-b", str(start)], capture_output=True, text=True, timeout=60, cwd=folder)
    answers = []
    for k, deck in enumerate(decks):
        raw = folder / f"{k}.raw"
        assert raw.exists(), f"ngspice gave no answer to circuit {k}:\n{done.stdout}\n{done.stderr}\n{deck.text()}"
        found = read_raw(raw)
        volts = {name: 0j if node == "0" else found[f"v({node})"] for name, node in deck.node.items()}
        amps = {name: found[f"i({meter})"] if meter else 0j for name, meter in deck.meters.items()}
        answers.append(Answer(deck.zero, volts, amps))
    return answers
