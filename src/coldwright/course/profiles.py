"""The invented class of each lab: who works right, who makes which slip, who hands in nothing, who took no reading."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any

from coldwright.course.demo_class import PROFILES
from coldwright.course.demo_work import Profile, Work
from coldwright.labs.question import Lab


def profiles(lab: Lab) -> tuple[Profile, ...]:
    """The invented class of a lab.

    Parameters
    ----------
    lab : Lab
        The lab [-]

    Returns
    -------
    tuple of Profile
        For lab 03 every way of working and every trick; for the others right, each slip, blank and no reading.
    """
    if lab.name == "winding_checks":
        return PROFILES
    people = import_module(f"coldwright.course.people.{lab.name}")
    right: Callable[[Any], dict[str, str]] = people.right
    works: list[tuple[str, str | None, Callable[[Any, Any], Work]]] = [
        ("measures and answers right", None, lambda bench, _spare: Work(right(bench))),
        ("hands in a blank notebook", None, lambda _bench, _spare: Work()),
        ("right answers, no reading taken", None, lambda _bench, spare: Work(right(spare))),
    ]
    works += [(f"slip: {slip}", slip, _works(does)) for slip, does in people.SLIPS.items()]
    named = zip(works, PROFILES, strict=False)
    return tuple(Profile(p.id, p.first_name, p.last_name, about, does, slip=slip) for (about, slip, does), p in named)


def _works(does: Callable[[Any], dict[str, str]]) -> Callable[[Any, Any], Work]:
    return lambda bench, _spare: Work(does(bench))
