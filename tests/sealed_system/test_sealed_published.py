"""The sealed system against every value in tests/published/sealed_system.toml."""

from __future__ import annotations

import pytest

from tests.published_values import as_printed, load
from tests.sealed_system.sealed_functions import FUNCTIONS

VALUES = [value for value in load() if value.model == "sealed system"]


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_no_function_goes_without_a_value():
    """Each function of the list is held to a value."""
    assert {v.function for v in VALUES} == set(FUNCTIONS)
