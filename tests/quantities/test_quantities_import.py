"""What it costs to import the reader, and the examples in the docstrings."""

import doctest
import subprocess
import sys

import pytest

from coldwright.quantities import convert, display, reader, registry

MEASURE = """
import sys, time
start = time.perf_counter()
import coldwright.quantities
print(time.perf_counter() - start, *{"pint", "numpy", "IPython", "matplotlib"}.intersection(sys.modules))
"""


def test_import_is_light():
    """Importing loads no heavy library and stays under 30 ms in the best of five fresh interpreters."""
    runs = [
        subprocess.run([sys.executable, "-c", MEASURE], capture_output=True, text=True, check=True).stdout.split()
        for _ in range(5)
    ]
    assert {tuple(loaded) for _, *loaded in runs} == {()}
    assert min(float(seconds) for seconds, *_ in runs) < 0.030


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
