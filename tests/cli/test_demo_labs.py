"""The invented class of each lab on whole coolers, from hand-out to explained marks."""

from __future__ import annotations

import json
from pathlib import Path

from coldwright.cli.demo import run_demo
from coldwright.course.profiles import profiles
from coldwright.labs.catalogue import NUMBERS, lab

ROOT = Path(__file__).parents[2]
COOLER_LABS = ["safe_isolation", *(name for name in NUMBERS if name not in ("safe_isolation", "winding_checks"))]


def test_a_class_goes_through_each_lab(tmp_path, capsys, sample, figure):
    """Right earns 20 of 20, blank 0, no reading less than half; each who makes a slip loses marks and is told why."""
    for name in COOLER_LABS[: sample(small=1, full=len(COOLER_LABS))]:
        assert run_demo(ROOT, tmp_path / name, as_json=True, lab_name=name) == 0
        rows = {row["learner"]: row for row in json.loads(capsys.readouterr().out)["learners"]}
        people = profiles(lab(name))
        assert set(rows) == {profile.id for profile in people}
        right, blank, no_reading, *slips = people
        assert rows[right.id]["points"] == 20
        assert rows[blank.id]["points"] == 0
        assert rows[no_reading.id]["points"] < 10
        for profile in slips:
            assert rows[profile.id]["points"] < 20, (name, profile.slip)
        pages = list((tmp_path / name / "feedback").rglob("*.html"))
        assert len(pages) == len(people)
        figure(f"learners of the invented class taken through {name}", len(people))
