"""What `solution()` prints on a practice unit: equal values once, ohms in ohms."""

from __future__ import annotations

import re

import pytest

from coldwright.panels import practice_desk


def test_small_ohms_are_told_in_one_unit(capsys: pytest.CaptureFixture[str]) -> None:
    """An overload's heater below 1 Ω is told in Ω, in the answer as in the reason: a meter has no milliohms."""
    practice_desk(7, "overloads").solution()
    line = next(line for line in capsys.readouterr().out.replace("\n  ", " ").splitlines() if "overload_ohms" in line)
    assert "mΩ" not in line
    shown = re.findall(r"0\.\d+ Ω", line)
    assert len(shown) == 2
    assert shown[0] == shown[1]


def test_equal_values_are_told_once(capsys: pytest.CaptureFixture[str]) -> None:
    """Where both poles show the same, one value is printed: no "59 kΩ or 59 kΩ"."""
    desk = practice_desk(7, "overloads")
    for act in (("isolate",), ("take off", "relay"), ("take off", "overload")):
        desk.bench.perform(act[0], act[1:])
    for part in ("relay", "overload"):
        desk.bench.perform("put back", (part,))
    for pin in ("plug L", "plug N"):
        desk.bench.perform("insulation", (pin, "cabinet metal"))
    desk.solution()
    told = next(line for line in capsys.readouterr().out.splitlines() if line.startswith("insulation: "))
    values = told.removeprefix("insulation: ").split(". ")[0].split(" or ")
    assert len(values) == len(set(values))
