"""The cycle against every value in tests/published/cycles.toml."""

from __future__ import annotations

import pytest

from tests.published_values import as_printed, load
from tests.sealed_system.cycle_functions import FUNCTIONS

VALUES = [value for value in load() if value.model == "cycle"]


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_there_are_enough_textbook_cycles():
    """At least four worked cycles that were seen, three refrigerants, and no function without a value."""
    seen = {v.source for v in VALUES if v.standing != "from memory"}
    assert len(seen) >= 4
    assert {v.inputs["refrigerant"] for v in VALUES} >= {"R-134a", "R-12", "R-22"}
    assert {v.function for v in VALUES} == set(FUNCTIONS)
