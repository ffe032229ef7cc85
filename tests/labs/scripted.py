"""Scripted people on tickets of one lab, judged with the real key: what the tests of every lab have in common."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from coldwright.answers.tolerance import separable_slips
from coldwright.bench.replay import replay
from coldwright.bench.sheet import parse_sheet
from coldwright.bench.unit_bench import UnitBench
from coldwright.labs.catalogue import lab
from coldwright.labs.question import Key, Lab
from coldwright.labs.ticket import Ticket
from coldwright.marking.judge import judge, load_key
from coldwright.marking.marks import LabMarks

KEYS = Path(__file__).parents[2] / "autograde" / "keys"
Person = Callable[[UnitBench], Mapping[str, str]]


@dataclass(frozen=True)
class Scripted:
    """One lab, by name."""

    name: str

    @cached_property
    def lab(self) -> Lab:
        """The lab."""
        return lab(self.name)

    @cached_property
    def key(self) -> Key:
        """Its real key."""
        return load_key(KEYS, self.lab)

    def bench_for(self, ticket: Ticket) -> UnitBench:
        """The ticket's unit on a bench of its own."""
        bench = self.lab.open_bench(ticket, None)
        assert isinstance(bench, UnitBench)
        return bench

    def hand_in(self, person: Person, ticket: Ticket) -> LabMarks:
        """What judging makes of one person's work."""
        bench = self.bench_for(ticket)
        return judge(self.lab, self.key, dict(person(bench)), ticket, bench.sheet_text())

    def case_of(self, ticket: Ticket, sheet: str) -> Any:
        """The case that marking would look at."""
        return self.lab.make_case(ticket, replay(parse_sheet(sheet), self.bench_for(ticket)))

    def separable(self, case: Any, slip: str) -> list[str]:
        """Names of the answers in which a slip can be told."""
        expected = self.key(case)
        names = next(m.answers for m in self.lab.misconceptions if m.key == slip)
        return [
            name
            for name in names
            if slip in separable_slips(expected[name].right, expected[name].tolerance, self.lab.slips(case, name))
        ]


def lost(marks: LabMarks) -> list[tuple[str, str, str]]:
    """What did not get its marks."""
    return [(m.name, m.read_as, m.sentence) for m in marks.marks if m.points != m.max_points]
