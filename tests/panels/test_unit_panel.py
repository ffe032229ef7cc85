"""The panel of a whole unit: worked by its buttons it does what the same acts do in code, and shows it."""

from __future__ import annotations

import math
import re
from typing import Any
from xml.etree import ElementTree

import ipywidgets
import pytest

from coldwright.appliance.parts import Parts
from coldwright.appliance.unit_circuit import CORD, OUTLET
from coldwright.appliance.wiring import wirings
from coldwright.bench.acts import Told
from coldwright.bench.unit_acts import PLACES, SECONDS, WAITS
from coldwright.errors import BenchError
from coldwright.instruments.display import Display
from coldwright.panels.unit_buttons import SLOW, TO_THE_UNIT, WITH_INSTRUMENTS
from coldwright.panels.unit_desk import UnitDesk
from coldwright.panels.unit_drawing import UnitDrawing
from coldwright.panels.unit_panel import UnitPanel
from tests.bench.benches import Act
from tests.panels.unit_benches import CURRENT_RELAY, FROST_FREE, INVERTER, unit_bench

LISTS_OF = {act: button.lists for found in (*TO_THE_UNIT, *WITH_INSTRUMENTS) for act, button in found.buttons.items()}
JOB: list[Act] = [
    ("volts ac", ("outlet L", "outlet N")),
    ("volts ac", ("plug L", "plug N")),
    ("discharge", ("start capacitor",)),
    ("take off", ("relay",)),
    ("inspect", ("relay",)),
    ("zero leads", ()),
    ("ohms", ("relay 1", "relay 2")),
    ("capacitance", ("start capacitor 1", "start capacitor 2")),
    ("insulation", ("plug L", "cabinet metal")),
    ("fit", ("relay",)),
    ("inrush", ("cord L",)),
    ("clamp", (CORD,)),
    ("watts", ()),
    ("temperature", ("shell",)),
    ("wait", ("1 min",)),
    ("open door", ()),
    ("isolate", ()),
]


def click(panel: UnitPanel, act: str, on: tuple[str, ...] = ()) -> None:
    """Do one act as a person would, with lists and buttons."""
    for name, value in zip(LISTS_OF[act], on, strict=False):
        panel.lists[name].value = value
    panel.buttons[act].click()


def clicked(panel: UnitPanel, job: list[Act]) -> UnitPanel:
    """A panel after a job."""
    for act, on in job:
        click(panel, act, on)
    return panel


def shown(panel: UnitPanel) -> str:
    """All HTML that the panel holds."""
    found: list[str] = []

    def walk(widget: Any) -> None:
        if isinstance(widget, ipywidgets.HTML):
            found.append(widget.value)
        for child in getattr(widget, "children", ()):
            walk(child)

    walk(panel.widget)
    return "\n".join(found)


def in_the_widget(panel: UnitPanel) -> set[int]:
    """Every widget that a person can reach, by its identity."""
    found: set[int] = set()

    def walk(widget: Any) -> None:
        found.add(id(widget))
        for child in getattr(widget, "children", ()):
            walk(child)

    walk(panel.widget)
    return found


def values(panel: UnitPanel, name: str) -> list[str]:
    """What a list offers."""
    return [value for _, value in panel.lists[name].options]


def test_clicking_writes_the_same_job_sheet_as_the_acts_in_code() -> None:
    """A whole job by buttons and the same job by calls end in the same sheet, byte for byte."""
    panel = clicked(UnitPanel(unit_bench()), JOB)
    in_code = unit_bench()
    for act, on in JOB:
        in_code.perform(act, on)

    assert panel.bench.sheet_text() == in_code.sheet_text()
    assert [line.act for line in panel.bench.lines] == [act for act, _ in JOB]


@pytest.mark.parametrize(
    ("model", "without"),
    [
        (FROST_FREE, set()),
        (CURRENT_RELAY, {"advance timer"}),
        (INVERTER, {"advance timer"}),
        ("Tarn 11", {"advance timer", "discharge"}),
    ],
)
def test_every_act_of_the_bench_has_a_button_with_words(model: str, without: set[str]) -> None:
    """Nothing is out of reach but the timer and the charge that a unit has not; each button stands in the panel."""
    panel = UnitPanel(unit_bench(model))

    assert set(panel.buttons) == set(SECONDS) - without
    assert all(button.description and button.tooltip for button in panel.buttons.values())
    reachable = in_the_widget(panel)
    assert all(id(button) in reachable for button in panel.buttons.values())
    needed = {name for act in panel.buttons for name in LISTS_OF[act]}
    assert {name for name, each in panel.lists.items() if id(each) in reachable} == needed


@pytest.mark.parametrize("model", [FROST_FREE, CURRENT_RELAY, INVERTER])
def test_the_lists_offer_all_that_the_bench_knows(model: str) -> None:
    """Terminals, components, wires, waits and places are those of the bench, each once, with a label to the list."""
    panel = UnitPanel(unit_bench(model))
    wiring = panel.bench.unit.wiring

    assert values(panel, "red") == values(panel, "black") == list(panel.bench.circuit.terminals())
    assert values(panel, "component") == [component.name for component in wiring.components]
    assert values(panel, "conductor") == [CORD, *wiring.terminals]
    assert values(panel, "wait") == list(WAITS)
    assert values(panel, "place") == list(PLACES)
    assert all(each.description for each in panel.lists.values())
    alone = (*OUTLET, "plug L", "plug N", "plug E")
    assert all(words == name for words, name in panel.lists["red"].options if name in alone)
    assert all(wiring.owner(name).name in words for words, name in panel.lists["red"].options if name not in alone)


def test_the_display_shows_the_reading_with_its_unit() -> None:
    """At the outlet the meter shows the supply of this unit, within what the meter may be off."""
    panel = clicked(UnitPanel(unit_bench()), JOB[:1])

    told = panel.told
    assert told is not None
    assert told.display is not None
    assert told.display.value == pytest.approx(panel.bench.parts.supply.volts, abs=told.display.limit)
    assert told.display.text.endswith(" V a.c.")
    assert f">{told.display.text}</div>" in shown(panel)
    assert f"Display: {told.display.text}" in panel.text()


def test_an_act_without_a_reading_clears_the_display() -> None:
    """No old number stands on the display once something else was done."""
    panel = clicked(UnitPanel(unit_bench()), [JOB[0], ("open door", ())])

    assert "Display: no reading" in panel.text()
    assert ">no reading</div>" in shown(panel)


def test_a_hazard_is_told_in_words_with_a_sign() -> None:
    """Ohms at the live outlet: the words, with the sign, beside the display, on the sheet and in the text."""
    panel = clicked(UnitPanel(unit_bench()), [("ohms", ("outlet L", "outlet N"))])

    words = "HAZARD: ohms measured on a live unit"
    assert shown(panel).count(f"⚠ {words}") == 2
    assert words in panel.text()


def test_an_error_of_the_bench_is_shown_and_not_raised() -> None:
    """Both tips on one terminal: the bench's own sentence stands there until the next act; nothing is written."""
    panel = clicked(UnitPanel(unit_bench()), [("ohms", ("plug L", "plug L"))])

    assert "⚠ both tips are on plug L; choose two terminals" in shown(panel)
    assert "both tips are on plug L" in panel.text()
    assert panel.bench.lines == []
    click(panel, "open door")
    assert "both tips" not in panel.text()


def test_an_error_of_the_unit_is_shown_and_not_raised() -> None:
    """What stays in its place is said by the bench, and shown with the sign."""
    panel = clicked(UnitPanel(unit_bench()), [("take off", ("compressor",))])

    assert "⚠ the compressor stays where it is" in shown(panel)


def test_the_only_spare_goes_without_saying_and_of_several_one_is_chosen() -> None:
    """The sheet names the spare only where there was a choice; the list of spares follows the component."""

    def same(parts: Parts) -> Parts:
        return parts

    panel = UnitPanel(unit_bench(spares={"relay": {"the right one": same, "a weak one": same}}))
    assert list(panel.lists["spare"].options) == ["as the plate says"]
    assert panel.lists["spare"].value == "as the plate says"

    clicked(panel, [("take off", ("lamp",)), ("fit", ("lamp",)), ("take off", ("relay",))])
    assert list(panel.lists["spare"].options) == ["the right one", "a weak one"]
    assert panel.lists["spare"].value == "the right one"
    click(panel, "fit", ("relay", "a weak one"))

    assert [line.on for line in panel.bench.lines if line.act == "fit"] == [("lamp",), ("relay", "a weak one")]
    assert "fit, relay: a weak one" in panel.text()


@pytest.mark.parametrize("fails", [False, True])
def test_a_slow_act_cannot_be_pressed_twice(monkeypatch: pytest.MonkeyPatch, fails: bool) -> None:
    """While it is worked out its button is off and the display says so; afterwards, error or not, it is on again."""
    panel = UnitPanel(unit_bench())
    seen: list[tuple[bool, bool]] = []

    def perform(act: str, on: tuple[str, ...] = ()) -> Told:
        seen.append((panel.buttons[act].disabled, "this is being worked out" in shown(panel)))
        if fails:
            raise BenchError(f"no {act} for {on}")
        return Told("done")

    monkeypatch.setattr(panel.bench, "perform", perform)
    for act in (*SLOW, "watts"):
        click(panel, act)

    assert seen == [(True, True), (True, True), (False, False)]
    assert not any(button.disabled for button in panel.buttons.values())
    assert "this is being worked out" not in shown(panel)


def test_the_schematic_says_in_its_label_how_the_unit_stands() -> None:
    """Plug, parts and tips stand in the picture's label and change with the bench; the text has the same."""
    panel = UnitPanel(unit_bench())
    assert "Schematic of the unit: plug pulled and locked off; nothing taken off. The red tip (R) is on outlet L" in (
        shown(panel)
    )

    panel.lists["red"].value = "relay 1"
    clicked(panel, [("discharge", ("start capacitor",)), ("take off", ("relay",)), ("plug in", ())])

    assert "Schematic of the unit: plugged in; taken off: relay. The red tip (R) is on relay 1" in shown(panel)
    assert "Taken off: relay." in panel.text()
    assert "The red tip (R) is on relay 1, the black tip (B) on outlet N." in panel.text()
    assert "[live] – door switch – [lamp wire] – lamp – [neutral]" in panel.text()


def test_tips_are_told_apart_without_colour() -> None:
    """One tip is a circle with R, the other a square with B; each says in words where it is."""
    drawn = shown(UnitPanel(unit_bench()))

    assert drawn.count(">R</text>") == drawn.count(">B</text>") == 1
    assert "<title>red tip on outlet L</title>" in drawn
    assert "<title>black tip on outlet N</title>" in drawn


def test_what_is_taken_off_is_framed_and_said() -> None:
    """A current relay is drawn as coil and contact: both are marked while it is off, none before and after."""
    panel = UnitPanel(unit_bench())
    counts = [shown(panel).count(">taken off</text>")]
    for act in ("take off", "put back"):
        clicked(panel, [("discharge", ("start capacitor",)), (act, ("relay",))])
        counts.append(shown(panel).count(">taken off</text>"))

    assert counts == [0, 2, 0]


@pytest.mark.parametrize("name", [name for name, wiring in wirings().items() if not wiring.is_test])
def test_every_terminal_has_its_point_where_the_schematic_writes_it(name: str) -> None:
    """Just above each point the schematic's own picture has the terminal's name or mark; no two points are one."""
    drawing = UnitDrawing(wirings()[name])
    texts = [
        (float(x), float(y), re.sub("<[^>]*>", "", inside))
        for x, y, inside in re.findall(r'<text x="([-\d.]+)" y="([-\d.]+)"[^>]*>(.*?)</text>', drawing._picture)
    ]

    for terminal in wirings()[name].terminals:
        point = drawing.points[terminal]
        near = [words for x, y, words in texts if abs(x - point.x) < 0.5 and 0 < point.y - y < 45]
        assert near, terminal
        assert any(terminal == words or terminal.endswith(f" {words}") for words in near), (terminal, near)
    spots = [(round(point.x), round(point.y)) for point in drawing.points.values()]
    assert len(set(spots)) == len(spots)
    assert set(OUTLET) <= set(drawing.points)


def test_the_picture_is_well_formed_and_holds_its_marks() -> None:
    """It reads as XML, and every mark lies inside the picture's own bounds."""
    for model in (FROST_FREE, CURRENT_RELAY, INVERTER, "Tarn 25"):
        bench = unit_bench(model)
        drawing = UnitDrawing(bench.unit.wiring)
        picture = ElementTree.fromstring(drawing.svg(bench, ("plug L", "cabinet metal")))
        left, top, width, height = map(float, picture.attrib["viewBox"].split())
        for point in drawing.points.values():
            assert left < point.x + 25 * point.side < left + width
            assert top < point.y < point.y + 31 < top + height


def test_words_of_the_complaint_are_shown_as_words() -> None:
    """A complaint with a tag in it does not become one."""
    panel = UnitPanel(unit_bench(complaint="<img src=x>"))

    assert "<img src=x>" not in shown(panel)
    assert "&lt;img src=x&gt;" in shown(panel)


def test_acts_by_name_show_on_the_panel_too() -> None:
    """What is done by a call on the desk is on its panel at once; the desk in plain text is the panel's text."""
    desk = UnitDesk(unit_bench())
    panel = desk.panel
    assert isinstance(panel, UnitPanel)
    told = desk.volts_ac("plug L", "plug N")

    assert panel.told is told
    assert "1 | 0:00:15 | volts ac, plug L to plug N | 0.000 V a.c." in panel.text()
    assert repr(desk) == panel.text()


def test_a_notebook_gets_the_panel_and_its_text() -> None:
    """The desk shows itself as a widget, and as text where no widget can be shown."""
    bundle = UnitDesk(unit_bench())._repr_mimebundle_()

    assert "application/vnd.jupyter.widget-view+json" in bundle
    assert "Cooler Tarn 14, 120 V 60 Hz" in bundle["text/plain"]


def test_a_number_is_large_and_long_words_are_smaller() -> None:
    """A number stands in large letters; a long list of sounds does not push the buttons away."""
    panel = UnitPanel(unit_bench())
    sizes = []
    for text in ("121.3 V a.c.", "hums at 0 s; click from the compressor at 10 s; silence at 10 s"):
        panel.show(Told("Read", Display(text, math.nan, math.nan, math.nan)))
        sizes += re.findall(rf"font-size:([\d.]+)em[^>]*>{re.escape(text)}<", shown(panel))

    number, words = map(float, sizes)
    assert number >= 2 > words > 1
