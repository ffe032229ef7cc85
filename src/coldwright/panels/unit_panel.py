"""The bench of a whole unit as a panel: schematic, buttons, display, job sheet. It forwards and shows, no more."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from html import escape

import ipywidgets as widgets

from coldwright.appliance.schematic import schematic_text
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.acts import Told
from coldwright.bench.unit_bench import UnitBench
from coldwright.errors import ColdwrightError
from coldwright.panels.panel_parts import EDGE, TEXT, busy_html, display_html, group, row, sheet_html
from coldwright.panels.unit_buttons import LISTS, SLOW, TO_THE_UNIT, WITH_INSTRUMENTS, Button, Group, Options, options
from coldwright.panels.unit_drawing import UnitDrawing
from coldwright.panels.words import bench_text, tips_words

NARROWEST = "760px"  # of the schematic; in a narrower window it scrolls by itself


class UnitPanel:
    """A panel over one bench. `buttons` and `lists` are what a person works it with; `widget` is what is shown.

    Parameters
    ----------
    bench : UnitBench
        The bench [-]
    """

    def __init__(self, bench: UnitBench) -> None:
        self.bench = bench
        self.told: Told | None = None
        self.problem = ""
        self.buttons: dict[str, widgets.Button] = {}
        self._words = schematic_text(bench.unit.wiring)
        self.lists = {
            name: dropdown(LISTS[name], found) for name, found in options(bench.unit.wiring).items()
        } | self._more_lists()
        self.lists["black"].index = 1
        self._looks, self._picture, self._tips = widgets.HTML(), widgets.HTML(), widgets.HTML()
        self._display, self._sheet = widgets.HTML(), widgets.HTML()
        self._offer_spares()
        self.widget = self._laid_out()
        for name in ("red", "black"):
            self.lists[name].observe(lambda _change: self._draw(), names="value")
        self.lists["component"].observe(lambda _change: self._offer_spares(), names="value")
        self.refresh()

    @property
    def tips(self) -> tuple[str, str]:
        """Terminals that the red and the black tip are on."""
        return self.lists["red"].value, self.lists["black"].value

    def text(self) -> str:
        """All that the panel shows, as text."""
        words = f"{self._words}{bench_text(self.bench, self.tips, self.told)}"
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
        looks = "".join(f"<div>{escape(line)}</div>" for line in self.bench.look().splitlines())
        self._looks.value = f"<div style='{TEXT}'>{looks}</div>"
        self._draw()
        self._display.value = display_html(self.told, self.problem)
        self._sheet.value = sheet_html(self.bench)

    # ---------------------------------------------------------------- inside

    @cached_property
    def _drawing(self) -> UnitDrawing:
        return UnitDrawing(self.bench.unit.wiring)

    def _more_lists(self) -> dict[str, widgets.Dropdown]:
        """Lists beside those of every whole unit."""
        return {}

    def _draw(self) -> None:
        svg = self._drawing.svg(self.bench, self.tips)
        self._picture.value = (
            f"<div style='{TEXT};display:grid;grid-template-columns:minmax(0,1fr)'>"
            "<div role='region' aria-label='Schematic' tabindex='0' style='overflow-x:auto'>"
            f"<div style='min-width:{NARROWEST}'>{svg}</div></div></div>"
        )
        self._tips.value = f"<div style='{TEXT}'>{escape(tips_words(self.tips))}</div>"

    def _offer_spares(self) -> None:
        spares = list(self.bench.unit.spares_for(self.lists["component"].value))
        if list(self.lists["spare"].options) != spares:
            self.lists["spare"].options = spares
            self.lists["spare"].index = 0

    def _do(self, act: str, button: Button) -> None:
        on = tuple(self.lists[name].value for name in button.lists)
        if act == "fit" and len(self.lists["spare"].options) == 1:
            on = on[:1]  # the only one goes without saying, on the job sheet too
        self._perform(act, button, act, on)

    def _perform(self, name: str, button: Button, act: str, on: tuple[str, ...]) -> None:
        """Do an act; `name` is that of the button, for two buttons can do one act on different things."""
        with self._busy(name, button.words):
            try:
                self.told, self.problem = self.bench.perform(act, on), ""
            except ColdwrightError as error:
                self.told, self.problem = None, str(error)
        self.refresh()

    def _is_slow(self, act: str) -> bool:
        return act in SLOW

    @contextmanager
    def _busy(self, act: str, words: str) -> Iterator[None]:
        """While a slow act is worked out it cannot be pressed again; a second press would be a second act."""
        if not self._is_slow(act):
            yield
            return
        self._display.value = busy_html(f"{words}: this is being worked out.")
        self.buttons[act].disabled = True
        try:
            yield
        finally:
            self.buttons[act].disabled = False
            self.buttons[act].focus()  # a browser takes it from a button that is disabled

    def _button(self, act: str, button: Button) -> widgets.Button:
        layout = widgets.Layout(width="auto", height="auto", min_height="32px", margin="2px 6px 4px 0")
        made = widgets.Button(description=button.words, tooltip=button.words, layout=layout)
        made.on_click(lambda _button: self._do(act, button))
        self.buttons[act] = made
        return made

    def _group(self, found: Group, standing: set[str]) -> widgets.Box:
        """A group on this unit; each list stands once on the panel, before the first button that needs it."""
        inside: list[widgets.Widget] = []
        for act, button in found.buttons.items():
            if not self._has(act):
                continue
            inside += [self.lists[name] for name in button.lists if name not in standing]
            standing.update(button.lists)
            inside.append(self._button(act, button))
        return group(found.title, inside, flex="none")

    def _has(self, act: str) -> bool:
        """Whether an act makes sense on this unit at all."""
        if act == "advance timer":
            return bool(self.bench.unit.wiring.of_kind(ComponentKind.DEFROST_TIMER))
        return act != "discharge" or bool(self.lists["charged"].options)

    def _laid_out(self) -> widgets.Box:
        standing: set[str] = set()
        unit, instruments = (
            [self._group(found, standing) for found in groups] for groups in (TO_THE_UNIT, WITH_INSTRUMENTS)
        )
        column = widgets.Layout(flex="1 1 420px", min_width="0", margin="0 8px 0 0")
        columns = [
            widgets.VBox(inside, layout=column) for inside in ([*unit, self._tips, self._display], instruments)
        ]  # one below the other in a narrow window, with the display between the two
        in_words = widgets.HTML(
            f"<details style='{TEXT}'><summary>The schematic in words</summary>"
            f"<div style='white-space:pre-wrap;border:{EDGE};padding:6px'>{escape(self._words)}</div></details>"
        )
        inside = [self._looks, self._picture, in_words, row(columns), self._sheet]
        for html in (self._looks, self._picture, in_words, self._tips, self._display, self._sheet):
            html.layout = widgets.Layout(width="auto", min_width="0")
        return widgets.VBox(
            inside, layout=widgets.Layout(padding="10px", border=EDGE, width="100%", max_width="1080px")
        )


def dropdown(words: str, found: Options) -> widgets.Dropdown:
    """A list with its label.

    Parameters
    ----------
    words : str
        The label [-]
    found : list of tuple
        Words and value of each thing that can be chosen [-]
    """
    layout = widgets.Layout(width="290px", max_width="100%", margin="4px 6px 4px 0")
    return widgets.Dropdown(options=found, description=words, layout=layout, style={"description_width": "90px"})
