"""The bench of a cooler with its sealed system as a panel: two views, one of the loop and one of the wiring."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from coldwright.bench.acts import Told
from coldwright.bench.cold_bench import ColdBench
from coldwright.panels.cold_buttons import (
    ALWAYS,
    COLD_LISTS,
    ON_THE_SYSTEM,
    ON_THE_WIRING,
    SAID,
    cold_options,
    more_group,
    more_options,
)
from coldwright.panels.cold_drawing import LOOP, cold_svg
from coldwright.panels.cold_seen import ColdSeen, cold_seen
from coldwright.panels.panel_parts import EDGE, TEXT, row
from coldwright.panels.unit_buttons import SLOW, Button
from coldwright.panels.unit_panel import NARROWEST, UnitPanel, dropdown

SYSTEM, WIRING = "sealed system", "wiring"
OTHER = {SYSTEM: WIRING, WIRING: SYSTEM}
SWITCH = {SYSTEM: "Show the wiring and the multimeter", WIRING: "Show the sealed system and the gauges"}


class ColdPanel(UnitPanel):
    """A panel over the bench of a unit with its cold side.

    A kind of bench with acts of its own gets a button for each; `choices` on it says what an act can be done on, and
    `slow` which acts take long to be worked out.

    Parameters
    ----------
    bench : ColdBench
        The bench [-]
    """

    bench: ColdBench

    def __init__(self, bench: ColdBench) -> None:
        self._loop, self._readings = widgets.HTML(), widgets.HTML()
        self.view = SYSTEM
        layout = widgets.Layout(width="auto", height="auto", min_height="32px", margin="4px 0", align_self="flex-start")
        self.switch = widgets.Button(layout=layout)
        super().__init__(bench)
        self.lists["probe"].observe(lambda _change: self._draw(), names="value")
        self.switch.on_click(lambda _button: self._show(OTHER[self.view]))

    @property
    def seen(self) -> ColdSeen:
        """What can be seen of the cold side."""
        return cold_seen(self.bench, self.lists["probe"].value)

    def text(self) -> str:
        """All that the panel shows, as text."""
        return "\n".join([LOOP, *self.seen.lines(), super().text()])

    def show(self, told: Told) -> None:
        """Show what came of an act that was done elsewhere than here; the clip probe is where it was put.

        Parameters
        ----------
        told : Told
            What came of it [-]
        """
        last = self.bench.lines[-1:]
        if last and last[0].act == "probe":
            self.lists["probe"].value = last[0].on[0]
        super().show(told)

    # ---------------------------------------------------------------- inside

    def _more_lists(self) -> dict[str, widgets.Dropdown]:
        own = {name: dropdown(COLD_LISTS[name], found) for name, found in cold_options().items()}
        return own | {name: dropdown(label, found) for name, (label, found) in more_options(self.bench).items()}

    def _is_slow(self, act: str) -> bool:
        return act in SLOW or act in getattr(self.bench, "slow", ())

    def _do(self, act: str, button: Button) -> None:
        open_lists = [self.lists[name].description for name in button.lists if self.lists[name].value == ""]
        if open_lists:
            self.told, self.problem = None, f"choose first in the list: {', '.join(open_lists)}"
            self.refresh()
        elif act in SAID:
            self._perform(act, button, *SAID[act])
        else:
            super()._do(act, button)

    def _draw(self) -> None:
        seen = self.seen
        self._loop.value = _scrolled("Sealed system", cold_svg(seen))
        lines = "".join(f"<div>{escape(line)}</div>" for line in seen.lines())
        self._readings.value = f"<div style='{TEXT};margin-top:4px'>{lines}</div>"
        if self.view == WIRING:  # drawing the wiring takes longer than all the rest
            super()._draw()

    def _show(self, chosen: str) -> None:
        self.view = chosen
        self.switch.description = self.switch.tooltip = SWITCH[chosen]
        for view, inside in self._views.items():
            for each in inside:
                each.layout.display = None if view == chosen else "none"
        self._draw()

    def _laid_out(self) -> widgets.Box:
        standing: set[str] = set()
        always = [self._group(found, standing) for found in ALWAYS]
        more = more_group(self.bench)
        system = [self._group(found, standing) for found in (*ON_THE_SYSTEM, *((more,) if more.buttons else ()))]
        wiring = [self._group(found, standing) for found in ON_THE_WIRING]
        in_words = [_folded("The sealed system in words", LOOP), _folded("The schematic in words", self._words)]
        self._views = {
            SYSTEM: [self._loop, self._readings, in_words[0], *system],
            WIRING: [self._picture, in_words[1], self._tips, *wiring],
        }
        column = widgets.Layout(flex="1 1 420px", min_width="0", margin="0 8px 0 0")
        columns = [
            widgets.VBox(inside, layout=column) for inside in ([*system, *wiring, self._tips], [self._display, *always])
        ]  # one below the other in a narrow window, with the display between the two
        pictures = [self._loop, self._readings, self._picture, *in_words]
        inside = [self._looks, self.switch, *pictures, row(columns), self._sheet]
        for html in (self._looks, *pictures, self._tips, self._display, self._sheet):
            html.layout = widgets.Layout(width="auto", min_width="0")
        self._show(SYSTEM)
        return widgets.VBox(
            inside, layout=widgets.Layout(padding="10px", border=EDGE, width="100%", max_width="1080px")
        )


def _scrolled(name: str, svg: str) -> str:
    return (
        f"<div style='{TEXT};display:grid;grid-template-columns:minmax(0,1fr)'>"
        f"<div role='region' aria-label='{name}' tabindex='0' style='overflow-x:auto'>"
        f"<div style='min-width:{NARROWEST};max-width:900px;margin:0 auto'>{svg}</div></div></div>"
    )


def _folded(title: str, words: str) -> widgets.HTML:
    return widgets.HTML(
        f"<details style='{TEXT}'><summary>{escape(title)}</summary>"
        f"<div style='white-space:pre-wrap;border:{EDGE};padding:6px'>{escape(words)}</div></details>"
    )
