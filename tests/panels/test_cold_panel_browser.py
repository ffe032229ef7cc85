"""The panel of the sealed system in JupyterLab: by keyboard and mouse, two views, in a usual and in a narrow window."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import nbformat
import pytest

from tests.course.open_course import opened
from tests.panels.cold_benches import cold_bench

WAIT_MS = 60_000
SOON_S = 2.0  # an act with its way through browser and kernel, on a busy machine
SIZES = ((1366, 768), (820, 1180))
CELL = """
from coldwright.appliance.cold_unit import with_cold_side
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.cold_bench import ColdBench
from coldwright.labs.ticket import practice_ticket
from coldwright.labs.unit_draw import drawn_unit
from coldwright.panels.desk import desk_for
ticket = practice_ticket("a lab", 28)
unit = with_cold_side(drawn_unit(ticket.seed_bytes, ["Tarn 21"], [FaultName.NONE]))
desk_for(ColdBench(unit, ticket.seed_bytes, 0.4, ticket.header))
"""


@pytest.fixture
def page(browser: Any, tmp_path: Path, figure: Callable[[str, Any], None]) -> Iterator[Any]:
    """A notebook with a healthy practice unit on the bench, its only cell run."""
    cold_bench()  # the refrigerant's tables are kept from now on
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3 (ipykernel)", "language": "python"}}
    notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(CELL.strip())], metadata=kernel)
    (tmp_path / "unit").mkdir()
    nbformat.write(notebook, tmp_path / "unit" / "unit.ipynb")
    with opened(tmp_path) as course:
        page = browser.new_page(viewport={"width": SIZES[0][0], "height": SIZES[0][1]})
        page.goto(course.address.replace("START.md", "unit/unit.ipynb"))
        page.get_by_text("Python 3 (ipykernel) | Idle").wait_for(timeout=WAIT_MS)
        page.get_by_role("menuitem", name="Run", exact=True).click()
        began = time.perf_counter()
        page.get_by_text("Run All Cells", exact=True).click()
        page.get_by_role("button", name="Read the low side").wait_for(timeout=WAIT_MS)
        figure("cold panel: from running the cell to the panel, ms", round(1000 * (time.perf_counter() - began)))
        yield page
        page.close()


def test_the_panel_works_in_the_browser(page: Any, figure: Callable[[str, Any], None]) -> None:
    """Buttons by keyboard; display, picture, words and job sheet follow; views change; all stays inside the window."""
    status = page.get_by_role("status").filter(has_text="Display")

    def choose(label: str, option: str) -> None:
        page.get_by_label(label, exact=True).select_option(label=option)

    def press(name: str, then: str) -> float:
        button = page.get_by_role("button", name=name, exact=True)
        button.focus()
        began = time.perf_counter()
        page.keyboard.press("Enter")
        status.filter(has_text=then).wait_for(timeout=WAIT_MS)
        return time.perf_counter() - began

    page.get_by_role("img", name="Gauge of the low side: not joined.").wait_for(timeout=WAIT_MS)
    press("Join gauges, hoses purged", "Gauge hoses on both sides, purged.")
    page.get_by_role("img", name="Gauge of the low side: joined, not read yet.").wait_for(timeout=WAIT_MS)
    took = press("Read the low side", "Gauge, low side:")
    figure("cold panel: from a key to the reading, ms", round(1000 * took))
    assert took < SOON_S
    page.get_by_role("img", name="at 0:02:10. Gauge of the high side: joined, not read yet.").wait_for(timeout=WAIT_MS)
    press("Let refrigerant in as vapour", "choose first in the list: Cylinder of")
    choose("Cylinder of", "R-600a")
    choose("Let in", "5 g")
    took = press("Let refrigerant in as vapour", "5 g of R-600a let in as vapour on the low side.")
    figure("cold panel: from a key to the charge let in, ms", round(1000 * took))
    choose("Clip probe (P)", "liquid line")
    page.get_by_role("img", name="The clip probe is on: liquid line.").wait_for(timeout=WAIT_MS)
    sheet = page.get_by_role("region", name="Job sheet, 3 lines")
    sheet.wait_for(timeout=WAIT_MS)
    assert "add, R-600a: 5 g" in sheet.inner_text()

    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_timeout(500)
        panel = page.locator(".widget-vbox").first
        assert panel.evaluate("element => element.scrollWidth - element.clientWidth") <= 1

    page.get_by_role("button", name="Show the wiring and the multimeter").focus()
    page.keyboard.press("Enter")
    page.get_by_role("img", name="Schematic of the unit: plug pulled").wait_for(timeout=WAIT_MS)
    assert not page.get_by_role("button", name="Read the low side").is_visible()
    press("Ohms", "ohms, outlet L to outlet N:")
