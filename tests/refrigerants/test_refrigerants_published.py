"""The refrigerants against every value in tests/published/{saturation,refrigerant_limits}.toml."""

from __future__ import annotations

import pytest

from tests.published_values import as_printed, load
from tests.refrigerants.refrigerant_functions import FUNCTIONS

VALUES = [value for value in load() if value.function in FUNCTIONS]


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_there_are_enough_sources():
    """At least ten sources that are not from memory, and no function without a value it is held to."""
    assert len({v.source for v in VALUES if v.standing != "from memory"}) >= 10
    assert {v.function for v in VALUES} == set(FUNCTIONS)


def test_the_blend_has_a_printed_table_and_five_pure_ones_two_correlations():
    """R-404A is held to a printed table of bubble and dew; five pure refrigerants to two correlations each."""
    table = {v.function for v in VALUES if v.inputs.get("refrigerant") == "R-404A" and v.standing == "published"}
    assert table == {"bubble_pressure_psig", "dew_pressure_psig"}
    for name in ("R-134a", "R-600a", "R-290", "R-22", "R-12"):
        found = [v for v in VALUES if v.inputs.get("refrigerant") == name and v.standing == "companion"]
        assert len({v.source for v in found if "chemicals" in v.source}) >= 2, name
