"""The desk of a practice unit: as many as wanted, each answer said to be right or wrong, and why."""

from __future__ import annotations

import secrets

from coldwright.bench.cold_bench import ColdBench
from coldwright.bench.unit_bench import UnitBench
from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.practice import NUMBERS, practice_unit
from coldwright.panels.cold_desk import ColdDesk
from coldwright.panels.desk import show_errors_as_messages
from coldwright.panels.marked_desk import PracticeDesk
from coldwright.panels.unit_desk import UnitDesk
from coldwright.panels.winding_practice import WindingPracticeDesk
from coldwright.panels.words import say


class UnitPracticeDesk(PracticeDesk, UnitDesk):
    """A practice unit of the labs on whole coolers."""


class ColdPracticeDesk(PracticeDesk, ColdDesk):
    """A practice unit of the labs on the sealed system."""


def practice_desk(number: int | None = None, lab: str = "winding_checks") -> PracticeDesk:
    """A practice unit on the bench; the number is printed, so that the same unit can be had again.

    Parameters
    ----------
    number : int, optional
        Number of the unit, 0 to 999999; a new one if left out [-]
    lab : str
        Name of the lab [-]
    """
    show_errors_as_messages()
    found = practice_unit(find_lab(lab), secrets.randbelow(NUMBERS) if number is None else number)
    again = f"{found.number}" if lab == "winding_checks" else f'{found.number}, "{lab}"'
    say(f"Practice unit {found.number}. To have the same one again: practice_desk({again})")
    if isinstance(found.bench, ColdBench):
        return ColdPracticeDesk(found)
    if isinstance(found.bench, UnitBench):
        return UnitPracticeDesk(found)
    return WindingPracticeDesk(found)


def new_practice(lab: str = "winding_checks") -> PracticeDesk:
    """Another practice unit, with another number each time.

    Parameters
    ----------
    lab : str
        Name of the lab [-]
    """
    return practice_desk(lab=lab)
