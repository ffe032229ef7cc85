"""What it costs to import the reader, and the examples in the docstrings."""

import doctest
import subprocess
import sys

import pytest

from coldwright.quantities import convert, display, reader, registry

LOADED = """
import sys
import coldwright.quantities
print(*{"pint", "numpy", "IPython", "matplotlib", "CoolProp"}.intersection(sys.modules))
"""


def test_import_is_light():
    """Importing loads no heavy library."""
    run = subprocess.run([sys.executable, "-c", LOADED], capture_output=True, text=True, check=True)
    assert run.stdout.split() == []


def test_there_is_one_registry():
    """Quantities made in two places can be added, because the registry is one."""
    metre = registry().Quantity(1, "meter")
    assert registry() is registry()
    assert (metre + registry().Quantity(1, "inch")).to("mm").magnitude == pytest.approx(1025.4)


@pytest.mark.parametrize("module", [convert, display, reader])
def test_docstring_examples_hold(module):
    """Each example in a docstring gives what it says."""
    result = doctest.testmod(module)
    assert result.attempted > 0
    assert result.failed == 0
