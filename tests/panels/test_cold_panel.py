"""The panel of the cold side: worked by its buttons it does what the same acts do in code, and shows no more."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from html import unescape
from typing import Any

import ipywidgets
import pytest

from coldwright.bench.acts import Told
from coldwright.bench.cold_acts import ALL, COLD_SECONDS, GRAMS, PROBES
from coldwright.errors import BenchError
from coldwright.panels.cold_buttons import ALWAYS, ON_THE_SYSTEM, ON_THE_WIRING, SAID
from coldwright.panels.cold_panel import SWITCH, SYSTEM, WIRING, ColdPanel
from coldwright.panels.unit_buttons import SLOW, TO_THE_UNIT, WITH_INSTRUMENTS
from coldwright.refrigerants.catalogue import NAMES
from tests.bench.benches import Act
from tests.panels.cold_benches import BUTTONS, ShopBench, click, clicked, cold_bench

JOB: list[Act] = [
    ("barometer", ()),
    ("join gauges", ("purged",)),
    ("gauge", ("low side",)),
    ("plug in", ()),
    ("wait", ("5 min",)),
    ("gauge", ("low side",)),
    ("gauge", ("high side",)),
    ("probe", ("evaporator outlet",)),
    ("frost line", ()),
    ("tare", ()),
    ("add", ("R-600a", "5 g")),
    ("scale", ()),
    ("recover", ("2 g",)),
    ("watts", ()),
    ("open door", ()),
    ("take off gauges", ()),
    ("join gauges", ("not purged",)),
    ("isolate", ()),
    ("ohms", ("plug L", "plug N")),
]
OPENS_S, ANSWERS_S = 2.0, 0.3  # asked of the panel
NEW_PROCESS = """
import time
from coldwright.appliance.cold_unit import with_cold_side
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.cold_bench import ColdBench
from coldwright.labs.ticket import practice_ticket
from coldwright.labs.unit_draw import drawn_unit
from coldwright.panels.cold_panel import ColdPanel

def spent(*buttons):
    began = time.process_time()
    for name in buttons:
        panel.buttons[name].click()
    return time.process_time() - began

ticket = practice_ticket("a lab", 28)
unit = with_cold_side(drawn_unit(ticket.seed_bytes, ["Tarn 21"], [FaultName.NONE]))
panel = ColdPanel(ColdBench(unit, ticket.seed_bytes, 0.4, ticket.header))
spent("probe")
print(time.process_time(), spent("join gauges, purged"))
spent("plug in", "wait")
panel.lists["cylinder"].value = panel.bench.refrigerant
print(spent("add"), len(panel.bench.lines))
"""


def panel_of(**more: Any) -> ColdPanel:
    """A panel on which nothing has been done."""
    return ColdPanel(cold_bench(**more))


def widgets_of(panel: ColdPanel, *, visible: bool = False) -> list[Any]:
    """Every widget in the panel, or those that are not hidden."""
    found: list[Any] = []

    def walk(widget: Any) -> None:
        if visible and widget.layout.display == "none":
            return
        found.append(widget)
        for child in getattr(widget, "children", ()):
            walk(child)

    walk(panel.widget)
    return found


def shown(panel: ColdPanel) -> str:
    """All HTML that a person can see."""
    found = (each.value for each in widgets_of(panel, visible=True) if isinstance(each, ipywidgets.HTML))
    return unescape("\n".join(found))


def values(panel: ColdPanel, name: str) -> list[str]:
    """What a list offers."""
    return [value for _, value in panel.lists[name].options]


def test_clicking_writes_the_same_job_sheet_as_the_acts_in_code() -> None:
    """A whole job by buttons and the same job by calls end in the same sheet, byte for byte."""
    panel = clicked(panel_of(), JOB)
    in_code = cold_bench()
    for act, on in JOB:
        in_code.perform(act, on)

    assert panel.bench.sheet_text() == in_code.sheet_text()
    assert [(line.act, line.on) for line in panel.bench.lines] == JOB


def test_every_act_of_the_bench_has_a_button_that_can_be_reached() -> None:
    """All of the bench is in reach but the timer and the charge that this unit has not; each list stands once."""
    panel = panel_of()
    acts = {SAID[name][0] if name in SAID else name for name in panel.buttons}

    assert acts == set(COLD_SECONDS) - {"advance timer", "discharge"}
    assert all(button.description and button.tooltip for button in panel.buttons.values())
    inside = [id(each) for each in widgets_of(panel)]
    assert all(inside.count(id(button)) == 1 for button in panel.buttons.values())
    needed = {each for name in panel.buttons for each in BUTTONS[name].lists}
    assert {name for name, each in panel.lists.items() if id(each) in inside} == needed
    assert all(inside.count(id(panel.lists[name])) == 1 for name in needed)


def test_every_group_of_the_units_panel_is_taken_over_once() -> None:
    """What a whole unit's panel has stands here too: on the wiring's view or always."""
    assert sorted(found.title for found in (*ALWAYS, *ON_THE_WIRING)) == sorted(
        found.title for found in (*TO_THE_UNIT, *WITH_INSTRUMENTS)
    )
    assert len(ON_THE_WIRING) == 3


def test_the_lists_offer_all_that_the_bench_knows() -> None:
    """Places, refrigerants and grams are those of the bench; no cylinder is chosen for the learner."""
    panel = panel_of()

    assert values(panel, "probe") == list(PROBES)
    assert values(panel, "cylinder") == ["", *NAMES]
    assert panel.lists["cylinder"].value == ""
    assert values(panel, "let in") == list(GRAMS)
    assert values(panel, "take out") == [*GRAMS, ALL]
    assert all(each.description for each in panel.lists.values())


def test_a_cylinder_must_be_chosen_before_anything_is_let_in() -> None:
    """The panel says in which list; nothing comes on the sheet; the next act clears it."""
    panel = clicked(panel_of(), JOB[:2])
    click(panel, "add")

    assert "⚠ choose first in the list: Cylinder of" in shown(panel)
    assert "choose first in the list: Cylinder of" in panel.text()
    assert [line.act for line in panel.bench.lines] == ["barometer", "join gauges"]
    click(panel, "add", ("R-600a", "1 g"))
    assert "choose first" not in panel.text()
    assert panel.bench.lines[-1].on == ("R-600a", "1 g")
    assert "| add, R-600a: 1 g" in panel.text()


@pytest.mark.parametrize(
    ("job", "words"),
    [
        ([("join gauges", ("not purged",))], "HAZARD: gauge hoses joined without purging"),
        (
            [("join gauges", ("purged",)), ("add", ("R-134a", "5 g"))],
            "HAZARD: another refrigerant than the nameplate's",
        ),
    ],
)
def test_a_hazard_is_told_in_words_with_a_sign(job: list[Act], words: str) -> None:
    """The words with the sign stand on the display, on the sheet and in the text."""
    panel = clicked(panel_of(), job)

    assert shown(panel).count(f"⚠ {words}") == 2
    assert words in panel.text()


def test_an_error_of_the_bench_is_shown_and_not_raised() -> None:
    """Adding without gauges: the bench's own sentence stands there; nothing is written."""
    panel = clicked(panel_of(), [("add", ("R-600a", "5 g"))])

    assert "⚠ the cylinder is joined through the gauge set: join the gauges first" in shown(panel)
    assert panel.bench.lines == []


def test_one_view_shows_the_sealed_system_and_the_other_the_wiring() -> None:
    """Each view has its picture and its buttons; plug, waiting, power meter, display and job sheet stand in both."""
    panel = panel_of()
    always = [name for found in ALWAYS for name in found.buttons if name in panel.buttons]
    views = {SYSTEM: ON_THE_SYSTEM, WIRING: ON_THE_WIRING}

    for view, groups in views.items():
        if panel.view != view:
            panel.switch.click()
        assert panel.switch.description == SWITCH[view]
        seen = {id(each) for each in widgets_of(panel, visible=True)}
        own = [name for found in groups for name in found.buttons]
        assert sorted(name for name, button in panel.buttons.items() if id(button) in seen) == sorted([*own, *always])
        assert ("Sealed system. Gauge" in shown(panel)) is (view == SYSTEM)
        assert ("Schematic of the unit" in shown(panel)) is (view == WIRING)
        assert "Job sheet, 0 lines" in shown(panel)
        assert ">Display</div>" in shown(panel)


def test_the_wirings_view_follows_the_bench_when_it_is_shown_again() -> None:
    """What was done while the sealed system was shown stands in the schematic's label."""
    panel = panel_of()
    panel.switch.click()
    panel.switch.click()
    clicked(panel, [("plug in", ())])
    panel.switch.click()

    assert "Schematic of the unit: plugged in" in shown(panel)


def test_a_kind_of_bench_adds_its_acts_as_buttons() -> None:
    """Each act of its own has a button named as the act, with the lists that it says; pressed, it is on the sheet."""
    panel = panel_of(kind=ShopBench)
    own = {act: panel.buttons[act].description for act in ShopBench.choices | {"fit drier": {}}}
    assert own == {"leak search": "Leak search", "weigh in": "Weigh in", "fit drier": "Fit drier"}
    assert set(panel.buttons) - set(own) == set(panel_of().buttons)
    assert "More work on the sealed system" in shown(panel)
    assert "More work on the sealed system" not in shown(panel_of())
    assert panel.lists["leak search: Leak detector"].description == "Leak detector"

    click(panel, "weigh in")
    assert "choose first in the list: Cylinder" in panel.text()
    job: list[Act] = [("fit drier", ()), ("leak search", ("soap",)), ("weigh in", ("R-600a", "10 g"))]
    clicked(panel, job)
    assert [(line.act, line.on) for line in panel.bench.lines] == job


def test_a_slow_act_cannot_be_pressed_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    """While it is worked out its button is off, an act that a kind of bench calls slow too; afterwards it is on."""
    panel = panel_of(kind=ShopBench)
    seen: dict[str, bool] = {}

    def perform(act: str, on: tuple[str, ...] = ()) -> Told:
        seen[act] = panel.buttons[act].disabled
        raise BenchError(f"no {act} for {on}")

    monkeypatch.setattr(panel.bench, "perform", perform)
    for act in (*SLOW, "leak search", "fit drier", "watts"):
        click(panel, act)

    assert seen == {**dict.fromkeys((*SLOW, "leak search"), True), "fit drier": False, "watts": False}
    assert not any(button.disabled for button in panel.buttons.values())


def test_it_opens_and_answers_soon(figure: Callable[[str, Any], None]) -> None:
    """In a new process, with all it loads: first reading within two seconds, charge let in within 0.3 s of its time."""
    clicked(panel_of(), JOB[:1])  # the refrigerant's tables are kept from now on
    run = subprocess.run([sys.executable, "-c", NEW_PROCESS], capture_output=True, text=True, check=True)
    opened, joined, answered, lines = map(float, run.stdout.split())

    figure("cold panel: a new process to the first reading, ms", round(1000 * opened))
    figure("cold panel: the gauges joined for the first time, ms", round(1000 * joined))
    figure("cold panel: refrigerant let in, ms", round(1000 * answered))
    assert lines == 5
    assert opened < OPENS_S
    assert answered < ANSWERS_S
