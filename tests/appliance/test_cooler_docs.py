"""The example in docs/cooler_model.md: it runs as it stands there, and does what it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

DOC = (Path(__file__).parents[2] / "docs" / "cooler_model.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"^```python\n(.*?)^```", DOC, re.MULTILINE | re.DOTALL)


def test_the_shop_s_cooler_of_the_page_is_made_and_draws_what_its_plate_says(capsys):
    """One example; the amps it prints are those of the nameplate in it, within the 10 % that an estimate is held to."""
    (example,) = EXAMPLES
    exec(compile(example, "docs/cooler_model.md", "exec"), {})
    said = capsys.readouterr().out
    running, locked = (float(found) for found in re.findall(r"([0-9.]+) A", said.splitlines()[0]))
    typed = {key: float(value) for key, value in re.findall(r"(rated_amps|locked_rotor_amps) = ([0-9.]+)", example)}
    assert running == pytest.approx(typed["rated_amps"], rel=0.1)
    assert locked == pytest.approx(typed["locked_rotor_amps"], rel=0.1)
    assert "Rated slip is 4.2%" in said
