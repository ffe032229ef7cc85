"""Checklists that a person signs at a real bench."""

from __future__ import annotations

import pytest

from coldwright.errors import InputError
from coldwright.sealed_system.service.checklist import NAMES, Signature, checklist, open_steps


def signatures(name: str) -> list[Signature]:
    """Every step of a list signed in order."""
    return [Signature(step.key, "A. Person", "2024-05-03") for step in checklist(name).steps]


@pytest.mark.parametrize("name", NAMES)
def test_each_list_is_whole(name):
    """Cautions first, a source, different keys, a text and a why for each step, and at least one place to stop."""
    found = checklist(name)

    assert found.cautions
    assert "maker" in found.standing
    assert len({step.key for step in found.steps}) == len(found.steps)
    assert all(step.text and step.why for step in found.steps)
    assert any(step.hold for step in found.steps)


@pytest.mark.parametrize("name", NAMES)
def test_signed_in_order_nothing_is_open(name):
    """All signed leaves nothing; one fewer leaves the last."""
    signed = signatures(name)

    assert open_steps(checklist(name), signed) == ()
    assert open_steps(checklist(name), signed[:-1]) == (checklist(name).steps[-1],)


def test_never_sold_as_safe_before_the_system_is_open():
    """On the brazing list the refrigerant is out before anything is heated, and work stops there."""
    steps = checklist("brazing").steps
    keys = [step.key for step in steps]

    assert keys.index("recovered") < keys.index("heat")
    assert steps[keys.index("recovered")].hold


def test_a_step_without_a_stop_may_wait():
    """A step at which work does not stop may be signed after the next one."""
    signed = signatures("brazing")
    place = [s.step for s in signed].index("fit")
    swapped = [*signed[:place], signed[place + 1], signed[place], *signed[place + 2 :]]

    assert open_steps(checklist("brazing"), swapped) == ()


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: checklist("../secrets"), r"no checklist '../secrets'; there are brazing"),
        (lambda: Signature("heat", "  ", "2024-05-03"), r"'heat' is signed by nobody"),
        (lambda: Signature("heat", "A. Person", "3 May"), r"'heat' is signed on '3 May'.*year-month-day"),
        (lambda: Signature("heat", "A. Person", "2024-13-45"), r"'2024-13-45'.*year-month-day"),
        (
            lambda: open_steps(checklist("brazing"), [Signature("heat", "A. Person", "2024-05-03")]),
            r"'heat' is signed before 'unplugged', at which work stops",
        ),
        (
            lambda: open_steps(checklist("brazing"), [*signatures("brazing"), signatures("brazing")[0]]),
            r"'unplugged' is signed twice",
        ),
        (
            lambda: open_steps(checklist("brazing"), [Signature("dance", "A. Person", "2024-05-03")]),
            r"'dance' is no step",
        ),
    ],
)
def test_bad_signatures_are_named(act, message):
    """Nobody, no date, out of order, twice, and no such step."""
    with pytest.raises(InputError, match=message):
        act()
