"""Whole units on the bench for the tests of their panel and desk."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.sheet import SheetHeader
from coldwright.bench.unit_bench import UnitBench
from coldwright.labs.ticket import practice_ticket
from coldwright.labs.unit_draw import drawn_unit

SEED = b"a seed for the tests"
HEADER: SheetHeader = practice_ticket("a lab", 28).header
CURRENT_RELAY, FROST_FREE, INVERTER = "Tarn 14", "Tarn 17", "Tarn 28"


def unit_bench(model: str = CURRENT_RELAY, fault: FaultName = FaultName.NONE, **changes: Any) -> UnitBench:
    """A unit of a model, plug pulled, on which nothing has been done."""
    return UnitBench(replace(drawn_unit(SEED, [model], [fault]), **changes), SEED, 0.4, HEADER)
