"""Evacuation against every value in tests/published/evacuation.toml."""

from __future__ import annotations

import pytest

from tests.published_values import as_printed, load
from tests.sealed_system.service.evacuation_functions import FUNCTIONS

VALUES = [value for value in load() if value.model == "evacuation"]


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_all_functions_have_a_value():
    """No function without a value that it is held to."""
    assert {value.function for value in VALUES} == set(FUNCTIONS)
