"""The bench as a panel of buttons, a drawing, a display and the job sheet. It forwards and shows; it knows no rule."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

import ipywidgets as widgets

from coldwright.appliance.compressor import PINS, TERMINALS
from coldwright.bench.acts import Told
from coldwright.bench.compressor_bench import PLACES, CompressorBench
from coldwright.errors import ColdwrightError
from coldwright.panels.drawing import drawing
from coldwright.panels.panel_parts import EDGE, TEXT, display_html, group, row, sheet_html
from coldwright.panels.words import TERMINAL_WORDS, bench_text, tips_words

ACTS = {
    "Make it safe": {
        "isolate": "Pull the plug, lock it off",
        "discharge": "Discharge the capacitor",
        "disconnect": "Pull the connector off",
    },
    "Put it back": {"reconnect": "Put the connector on", "plug in": "Plug it in"},
    "Wait, and the sealed system": {
        "let stand": "Let it stand for 12 hours",
        "break vacuum": "Let dry nitrogen in",
    },
    "Multimeter leads": {"zero leads": "Tips together, zero the leads", "new meter": "Take another meter"},
}
READINGS = {"ohms": "Read ohms", "volts ac": "Read volts a.c.", "volts dc": "Read volts d.c."}


class ProbePanel:
    """A panel over one bench. `buttons` and `tips` are what a person works it with; `widget` is what is shown.

    Parameters
    ----------
    bench : CompressorBench
        The bench [-]
    """

    def __init__(self, bench: CompressorBench) -> None:
        self.bench = bench
        self.told: Told | None = None
        self.problem = ""
        self.buttons: dict[str, widgets.Button] = {}
        tip_layout = widgets.Layout(width="230px", max_width="100%", margin="4px 6px 4px 0")
        options = [(TERMINAL_WORDS[name], name) for name in TERMINALS]
        self.tips = tuple(
            widgets.Dropdown(options=options, value=start, description=words, layout=tip_layout)
            for words, start in (("Red tip (R)", "L"), ("Black tip (B)", "N"))
        )
        self._looks, self._picture = widgets.HTML(), widgets.HTML()
        self._display, self._sheet = widgets.HTML(), widgets.HTML()
        self._display.layout.width = self._sheet.layout.width = "auto"
        self.widget = self._laid_out()
        for tip in self.tips:
            tip.observe(lambda _change: self.refresh(), names="value")
        self.refresh()

    @property
    def on(self) -> tuple[str, str]:
        """Terminals that the red and the black tip are on."""
        red, black = self.tips
        return red.value, black.value

    def text(self) -> str:
        """All that the panel shows, as text."""
        words = bench_text(self.bench, self.on, self.told)
        return f"{words}\n{self.problem}" if self.problem else words

    def show(self, told: Told) -> None:
        """Show what came of an act that was done elsewhere than here.

        Parameters
        ----------
        told : Told
            What came of it [-]
        """
        self.told, self.problem = told, ""
        self.refresh()

    def refresh(self) -> None:
        """Bring all that is shown up to date with the bench."""
        looks = "".join(f"<p style='margin:0 0 .4em'>{escape(line)}</p>" for line in self.bench.look().splitlines())
        self._looks.value = f"<div style='{TEXT}'>{looks}<p style='margin:0'>{escape(tips_words(self.on))}</p></div>"
        self._picture.value = f"<div style='{TEXT};width:100%'>{drawing(self.bench, self.on)}</div>"
        self._display.value = display_html(self.told, self.problem)
        self._sheet.value = sheet_html(self.bench)

    # ---------------------------------------------------------------- inside

    def _do(self, act: Callable[[], Told]) -> None:
        try:
            self.told, self.problem = act(), ""
        except ColdwrightError as error:
            self.told, self.problem = None, str(error)
        self.refresh()

    def _button(self, name: str, words: str, act: Callable[[], Told]) -> widgets.Button:
        layout = widgets.Layout(width="auto", height="auto", min_height="32px", margin="2px 6px 4px 0")
        button = widgets.Button(description=words, tooltip=words, layout=layout)
        button.on_click(lambda _button: self._do(act))
        self.buttons[name] = button
        return button

    def _laid_out(self) -> widgets.Box:
        safe, back, wait, leads = (
            group(title, [self._act_button(act, words) for act, words in acts.items()]) for title, acts in ACTS.items()
        )
        meter = group(
            "Multimeter: choose where the tips go, then read",
            [*self.tips, *(self._reading_button(act, words) for act, words in READINGS.items())],
        )
        tester = group("Insulation tester, 500 V d.c., to the shell", [self._insulation_button(pin) for pin in PINS])
        thermometer = group("Thermometer", [self._temperature_button(place) for place in PLACES])
        top = row([self._looks, self._picture])
        self._looks.layout = widgets.Layout(flex="1 1 240px", min_width="0")
        self._picture.layout = widgets.Layout(flex="2 1 380px", min_width="0")
        shown = widgets.Layout(padding="10px", border=EDGE, width="100%", max_width="1080px")
        rows = [top, row([safe, back]), row([wait, leads]), row([meter]), row([tester, thermometer])]
        return widgets.VBox([*rows, self._display, self._sheet], layout=shown)

    def _act_button(self, act: str, words: str) -> widgets.Button:
        return self._button(act, words, lambda: self.bench.perform(act))

    def _reading_button(self, act: str, words: str) -> widgets.Button:
        return self._button(act, words, lambda: self.bench.perform(act, self.on))

    def _insulation_button(self, pin: str) -> widgets.Button:
        return self._button(f"insulation {pin}", f"Test pin {pin}", lambda: self.bench.insulation(pin))

    def _temperature_button(self, place: str) -> widgets.Button:
        return self._button(f"temperature {place}", f"Read the {place}", lambda: self.bench.temperature(place))
