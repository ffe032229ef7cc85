"""The cabinet's models against every value in tests/published/cabinet.toml."""

from __future__ import annotations

import pytest

from tests.cabinet.cabinet_functions import FUNCTIONS
from tests.published_values import as_printed, load

VALUES = [value for value in load() if value.model == "cabinet"]


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_there_are_enough_sources():
    """At least eight sources, none of them from memory, and no function without a value it is held to."""
    assert len({v.source for v in VALUES if v.standing != "from memory"}) >= 8
    assert {v.function for v in VALUES} == set(FUNCTIONS)
