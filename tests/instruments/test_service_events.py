"""Wrong uses of the instruments of the cold side: each has its consequence, and the page has them all."""

from __future__ import annotations

from pathlib import Path

import pytest

from coldwright.instruments.gauge_set import HIGH_NEEDLE, LOW_NEEDLE
from coldwright.instruments.service_events import CONSEQUENCES, ServiceEvent

PAGE = (Path(__file__).parents[2] / "docs" / "instruments.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("event", list(ServiceEvent))
def test_each_has_a_consequence_and_a_line_of_the_page(event):
    """No event without its sentence, and none that the page leaves out."""
    assert CONSEQUENCES[event].endswith(".")
    assert f"| {event.value} |" in PAGE


@pytest.mark.parametrize("scale", [LOW_NEEDLE, HIGH_NEEDLE])
def test_the_page_has_the_scales(scale):
    """Ends and strain of the needles stand on the page as the code has them."""
    row = next(line for line in PAGE.splitlines() if line.startswith(f"| {scale.name}, needle"))
    assert f"to {scale.high_pa / 1e5:.0f} bar" in row
    assert f"above {scale.strained_pa / 1e5:.0f} bar" in row
