"""Coolers with their sealed system on the bench for the tests of their panel and desk, and hands for the panel."""

from __future__ import annotations

from typing import Any, ClassVar

from coldwright.appliance.cold_faults import ColdFaultName
from coldwright.bench.acts import Told
from coldwright.bench.cold_acts import COLD_SECONDS
from coldwright.bench.cold_bench import ColdBench
from coldwright.labs.ticket import practice_ticket
from coldwright.panels.cold_buttons import ON_THE_SYSTEM, SAID
from coldwright.panels.cold_panel import ColdPanel
from coldwright.panels.unit_buttons import TO_THE_UNIT, WITH_INSTRUMENTS
from tests.appliance.cold_units import cold_unit
from tests.bench.benches import Act

BUTTONS = {
    name: button
    for found in (*ON_THE_SYSTEM, *TO_THE_UNIT, *WITH_INSTRUMENTS)
    for name, button in found.buttons.items()
}


class ShopBench(ColdBench):
    """A bench with acts of its own: one plain, one done on a thing, one done on two."""

    seconds: ClassVar[dict[str, int]] = {**COLD_SECONDS, "fit drier": 900, "leak search": 600, "weigh in": 120}
    choices: ClassVar[dict[str, dict[str, tuple[str, ...]]]] = {
        "leak search": {"Leak detector": ("electronic", "soap")},
        "weigh in": {"Cylinder": ("", "R-600a"), "Grams": ("5 g", "10 g")},
    }
    slow = ("leak search",)

    def perform(self, act: str, on: tuple[str, ...] = ()) -> Told:
        """Its own acts are only written down."""
        if act in ("fit drier", "leak search", "weigh in"):
            return self._did(act, f"{act} done", on=on)
        return super().perform(act, on)


def cold_bench(
    model: str = "Tarn 21", kind: type[ColdBench] = ColdBench, fault: ColdFaultName = ColdFaultName.NONE, **more: Any
) -> ColdBench:
    """A unit of a model, plug pulled, on which nothing has been done."""
    return kind(cold_unit(model, fault, **more), b"a seed for the tests", 0.4, practice_ticket("a lab", 28).header)


def button_of(act: str, on: tuple[str, ...]) -> tuple[str, tuple[str, ...]]:
    """The button that does an act, and what its lists have to say."""
    for name, said in SAID.items():
        if said == (act, on):
            return name, ()
    return act, on


def click(panel: ColdPanel, act: str, on: tuple[str, ...] = ()) -> None:
    """Do one act as a person would, with lists and buttons."""
    name, values = button_of(act, on)
    lists = (
        BUTTONS[name].lists if name in BUTTONS else tuple(each for each in panel.lists if each.startswith(f"{act}:"))
    )
    for each, value in zip(lists, values, strict=False):
        panel.lists[each].value = value
    panel.buttons[name].click()


def clicked(panel: ColdPanel, job: list[Act]) -> ColdPanel:
    """A panel after a job."""
    for act, on in job:
        click(panel, act, on)
    return panel
