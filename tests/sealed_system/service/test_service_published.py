"""The service models against every value in tests/published/service.toml."""

from __future__ import annotations

import pytest

from tests.published_values import as_printed, load
from tests.sealed_system.service.service_functions import FUNCTIONS

VALUES = [value for value in load() if value.model == "service"]


@pytest.mark.parametrize("value", VALUES, ids=[v.id for v in VALUES])
def test_what_is_printed_is_reproduced(value):
    """The printed digits come out, or what is written as the reason for another measure."""
    assert FUNCTIONS[value.function](value.inputs) == as_printed(value.printed, value.within, value.because)


def test_every_function_has_a_value():
    """No function is without a value it is held to, and no value without a function."""
    assert {v.function for v in VALUES} == set(FUNCTIONS)
