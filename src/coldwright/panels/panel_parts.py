"""What every panel shows in the same way: rows, groups, the display in large text, warnings, the job sheet."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

import ipywidgets as widgets

from coldwright.bench.acts import Told
from coldwright.bench.bench import Bench
from coldwright.panels.words import display_text, line_cells, lines_words

COLUMNS = ("Line", "Time", "Act", "Shown")
TEXT = (
    "color:var(--jp-content-font-color1,#1a1a1a);font-family:var(--jp-content-font-family,sans-serif);line-height:1.4"
)
LONGEST_NUMBER = 24  # letters; what is longer is words, such as what was heard
EDGE = "1px solid var(--jp-border-color1,#767676)"


def row(inside: Sequence[widgets.Widget]) -> widgets.Box:
    """Widgets beside each other, in as many lines as they need.

    Parameters
    ----------
    inside : sequence of Widget
        The widgets [-]
    """
    return widgets.Box(list(inside), layout=widgets.Layout(display="flex", flex_flow="row wrap", width="100%"))


def group(title: str, inside: Sequence[widgets.Widget], flex: str = "1 1 300px") -> widgets.Box:
    """Widgets that belong together, below a heading.

    Parameters
    ----------
    title : str
        The heading [-]
    inside : sequence of Widget
        The widgets [-]
    flex : str
        How it grows and shrinks, as CSS writes it [-]
    """
    heading = widgets.HTML(
        f"<div role='heading' aria-level='3' style='{TEXT};font-weight:600'>{escape(title)}</div>",
        layout=widgets.Layout(width="auto"),
    )
    layout = widgets.Layout(flex=flex, min_width="0", margin="6px 8px 0 0")
    return widgets.VBox([heading, row(inside)], layout=layout)


def display_html(told: Told | None, problem: str) -> str:
    """The display in large text, what was done in words, and each hazard with a sign.

    Parameters
    ----------
    told : Told, optional
        What came of the last act [-]
    problem : str
        Why an act could not be done; blank if it could [-]
    """
    words = problem or ("Nothing done yet." if told is None else told.text)
    hazards = "" if told is None else "".join(warning(f"HAZARD: {hazard.value}.") for hazard in told.hazards)
    said = warning(words) if problem else f"<div>{escape(words)}</div>"
    return _framed(f"{_large(display_text(told))}{said}{hazards}")


def busy_html(words: str) -> str:
    """The display while an act takes its time.

    Parameters
    ----------
    words : str
        What is being done [-]
    """
    return _framed(f"{_large('…')}<div>{escape(words)}</div>")


def _large(text: str) -> str:
    size = "2em" if len(text) <= LONGEST_NUMBER else "1.3em"
    return f"<div style='font-size:{size};font-weight:600;overflow-wrap:anywhere'>{escape(text)}</div>"


def _framed(inside: str) -> str:
    return (
        f"<div role='status' aria-live='polite' style='{TEXT};border:{EDGE};border-left-width:6px;padding:8px 12px;"
        f"margin-top:8px'><div>Display</div>{inside}</div>"
    )


def warning(words: str) -> str:
    """Words in a double frame, with a sign.

    Parameters
    ----------
    words : str
        What to say [-]
    """
    return (
        "<div style='border:3px double currentColor;padding:4px 8px;margin-top:6px;font-weight:600'>"
        f"⚠ {escape(words)}</div>"
    )


def sheet_html(bench: Bench) -> str:
    """The job sheet as a table that stays scrolled to its last line.

    Parameters
    ----------
    bench : Bench
        The bench [-]
    """
    cell = f"style='border-bottom:{EDGE};padding:2px 8px;text-align:left;vertical-align:top'"
    above = cell.replace("style='", "style='position:sticky;top:0;background:var(--jp-layout-color1,#fff);")
    head = "".join(f"<th scope='col' {above}>{name}</th>" for name in COLUMNS)
    rows = []
    for line in bench.lines:
        *texts, shown, hazards = map(escape, line_cells(line))
        texts.append(f"{shown}<br>{hazards}" if hazards else shown)
        rows.append(f"<tr>{''.join(f'<td {cell}>{text}</td>' for text in texts)}</tr>")
    title = f"Job sheet, {lines_words(len(bench.lines))}"
    body = f"<thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody>"
    table = f"<table style='border-collapse:collapse;width:100%'>{body}</table>"
    return (
        f"<div style='{TEXT};margin-top:8px;display:grid;grid-template-columns:minmax(0,1fr)'>"
        f"<div style='font-weight:600'>{title}</div>"
        f"<div role='region' aria-label='{title}' tabindex='0' style='display:flex;flex-direction:column-reverse;"
        f"max-height:15em;overflow:auto;border:{EDGE}'>{table}</div></div>"
    )
