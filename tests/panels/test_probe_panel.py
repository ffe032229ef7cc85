"""The panel: worked by its buttons, it does what the same acts do in code, and shows it."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import ipywidgets
import pytest

from coldwright.appliance.compressor import TERMINALS
from coldwright.bench.acts import SECONDS
from coldwright.bench.compressor_bench import CompressorBench
from coldwright.panels.compressor_desk import CompressorDesk
from coldwright.panels.probe_panel import ProbePanel
from tests.appliance.units import PLATE, SOUND, unit
from tests.bench.benches import SAFE_ORDER, Act, bench, worked


def click(panel: ProbePanel, act: str, on: tuple[str, ...]) -> None:
    """Do one act as a person would, with tips and buttons."""
    if len(on) == 2 and on[1] != "shell":
        for tip, place in zip(panel.tips, on, strict=True):
            tip.value = place
        panel.buttons[act].click()
    else:
        panel.buttons[" ".join([act, *on[:1]])].click()


def clicked(panel: ProbePanel, job: list[Act]) -> ProbePanel:
    """A panel after a job."""
    for act, on in job:
        click(panel, act, on)
    return panel


def shown(panel: ProbePanel) -> str:
    """All HTML that the panel holds."""
    found: list[str] = []

    def walk(widget: Any) -> None:
        if isinstance(widget, ipywidgets.HTML):
            found.append(widget.value)
        for child in getattr(widget, "children", ()):
            walk(child)

    walk(panel.widget)
    return "\n".join(found)


def test_a_callback_that_fails_fails_the_test() -> None:
    """The fixture works: what a button's callback raises comes out of the click."""
    button = ipywidgets.Button()
    button.on_click(lambda _button: 1 / 0)

    with pytest.raises(ZeroDivisionError, match="division by zero"):
        button.click()


def test_clicking_writes_the_same_job_sheet_as_the_acts_in_code() -> None:
    """A whole job by buttons and the same job by calls end in the same sheet, byte for byte."""
    panel = clicked(ProbePanel(bench()), SAFE_ORDER)

    assert panel.bench.sheet_text() == worked(SAFE_ORDER).sheet_text()
    assert len(panel.bench.lines) == len(SAFE_ORDER)


def test_every_act_of_the_bench_has_a_button_with_words() -> None:
    """Nothing that the bench can do is out of reach of the panel, and each button says in words what it does."""
    panel = ProbePanel(bench())

    reachable = {
        name for name in SECONDS if any(button == name or button.startswith(f"{name} ") for button in panel.buttons)
    }
    assert reachable == set(SECONDS)
    assert all(button.description and button.tooltip for button in panel.buttons.values())
    assert [[value for _, value in tip.options] for tip in panel.tips] == [list(TERMINALS)] * 2
    assert all(tip.description for tip in panel.tips)


def test_the_display_shows_the_reading_with_its_unit() -> None:
    """10 Ω and 30 Ω in series, cold and with the leads zeroed, show 40.0 Ω within the meter's 0.11 Ω."""
    panel = clicked(ProbePanel(bench()), [*SAFE_ORDER[:-2], ("ohms", ("1", "3"))])

    told = panel.told
    assert told is not None
    assert told.display is not None
    assert told.display.value == pytest.approx(40.0, abs=0.11)
    assert told.display.text.endswith(" Ω")
    assert f">{told.display.text}</div>" in shown(panel)
    assert f"Display: {told.display.text}" in panel.text()


def test_an_act_without_a_reading_clears_the_display() -> None:
    """No old number stands on the display once something else was done."""
    panel = clicked(ProbePanel(bench()), [("volts ac", ("L", "N")), ("isolate", ())])

    assert "Display: no reading" in panel.text()
    assert "230" not in shown(panel).split("Display")[1].split("Job sheet")[0]


def test_a_hazard_is_told_in_words_with_a_sign() -> None:
    """Ohms on a live circuit: the words, with the sign, beside the display, on the sheet and in the text."""
    panel = clicked(ProbePanel(bench()), [("ohms", ("L", "N"))])

    words = "HAZARD: ohms measured on a live unit"
    assert shown(panel).count(f"⚠ {words}") == 2
    assert words in panel.text()


def test_an_error_of_the_bench_is_shown_and_not_raised() -> None:
    """Both tips on one terminal: the bench's own sentence stands in the panel, nothing is written."""
    panel = clicked(ProbePanel(bench()), [("ohms", ("1", "1"))])

    assert "both tips are on 1; choose two terminals" in panel.text()
    assert "⚠ both tips are on 1" in shown(panel)
    assert panel.bench.lines == []
    click(panel, "isolate", ())
    assert "both tips" not in panel.text()


def test_a_sheet_that_another_window_holds_is_said_in_the_panel(tmp_path: Path) -> None:
    """A job sheet that grew elsewhere stops the act with the bench's sentence."""
    sheet = tmp_path / "job_sheet.jsonl"
    panel = ProbePanel(CompressorBench(SOUND, b"a seed", 0.5, bench().header, sheet))
    sheet.write_text(sheet.read_text(encoding="utf-8") + "\n", encoding="utf-8")

    click(panel, "isolate", ())

    assert "the job sheet was changed outside this window" in panel.text()


def test_the_drawing_says_in_its_label_what_it_shows() -> None:
    """Plug, connector, vacuum and tips stand in the picture's label; it changes with the bench."""
    panel = ProbePanel(bench(unit(under_vacuum=True)))
    assert "The bench: plug pulled and locked off; connector on the three pins; a gauge shows vacuum." in shown(panel)

    panel.tips[0].value = "cap a"
    clicked(panel, [("discharge", ()), ("disconnect", ()), ("break vacuum", ())])

    assert "The bench: plug pulled and locked off; connector off, three bare pins. The red tip (R)" in shown(panel)
    assert "The red tip (R) is on capacitor a, the black tip (B) on N (neutral)." in panel.text()


def test_tips_are_told_apart_without_colour() -> None:
    """One tip is a circle with R, the other a square with B."""
    drawn = shown(ProbePanel(bench()))

    assert drawn.count(">R</text>") == drawn.count(">B</text>") == 1
    assert "<title>red tip on L (line)</title>" in drawn
    assert "<title>black tip on N (neutral)</title>" in drawn


def test_words_from_a_nameplate_are_shown_as_words() -> None:
    """A model with a tag in its name does not become one."""
    panel = ProbePanel(bench(unit(plate=replace(PLATE, model="<img src=x>"))))

    assert "<img src=x>" not in shown(panel)
    assert "&lt;img src=x&gt;" in shown(panel)


def test_acts_by_name_show_on_the_panel_too() -> None:
    """What is done by a call on the desk is on its panel at once; the desk in plain text is the panel's text."""
    desk = CompressorDesk(bench())
    panel = desk.panel
    desk.isolate()
    told = desk.volts_ac("L", "N")

    assert panel.told is told
    assert "2 | 0:00:45 | volts ac, L (line) to N (neutral) | 0.000 V a.c." in panel.text()
    assert repr(desk) == panel.text()


def test_a_notebook_gets_the_panel_and_its_text() -> None:
    """The desk shows itself as a widget, and as text where no widget can be shown."""
    desk = CompressorDesk(bench())
    bundle = desk._repr_mimebundle_()

    assert "application/vnd.jupyter.widget-view+json" in bundle
    assert bundle["text/plain"].startswith("Compressor T 1, 230 V 50 Hz")
