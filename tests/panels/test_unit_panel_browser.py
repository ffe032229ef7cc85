"""The panel of a whole unit in JupyterLab: by mouse and by keyboard, in a usual and in a narrow window."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import nbformat
import pytest

from tests.course.open_course import opened

WAIT_MS = 60_000
SOON_S = 2.0  # an act with its way through browser and kernel, on a busy machine
SIZES = ((1366, 768), (820, 1180))
CELL = """
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_bench import UnitBench
from coldwright.labs.ticket import practice_ticket
from coldwright.labs.unit_draw import drawn_unit
from coldwright.panels.desk import desk_for
ticket = practice_ticket("a lab", 28)
unit = drawn_unit(ticket.seed_bytes, ["Tarn 14"], [FaultName.NONE])
desk_for(UnitBench(unit, ticket.seed_bytes, 0.4, ticket.header))
"""


@pytest.fixture
def page(browser: Any, tmp_path: Path) -> Iterator[Any]:
    """A notebook with a healthy practice unit on the bench, its only cell run."""
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3 (ipykernel)", "language": "python"}}
    notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(CELL.strip())], metadata=kernel)
    (tmp_path / "unit").mkdir()
    nbformat.write(notebook, tmp_path / "unit" / "unit.ipynb")
    with opened(tmp_path) as course:
        page = browser.new_page(viewport={"width": SIZES[0][0], "height": SIZES[0][1]})
        page.goto(course.address.replace("START.md", "unit/unit.ipynb"))
        page.get_by_text("Python 3 (ipykernel) | Idle").wait_for(timeout=WAIT_MS)
        page.get_by_role("menuitem", name="Run", exact=True).click()
        page.get_by_text("Run All Cells", exact=True).click()
        page.get_by_role("button", name="Pull the plug, lock it off").wait_for(timeout=WAIT_MS)
        yield page
        page.close()


def test_the_panel_works_in_the_browser(page: Any, figure: Callable[[str, Any], None]) -> None:
    """Lists, buttons by mouse and by keyboard; display, schematic and job sheet follow; all stays inside the window."""
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

    choose("Component", "relay")
    page.get_by_role("button", name="Take it off").click()
    status.filter(has_text="The relay is off; its terminals are bare.").wait_for(timeout=WAIT_MS)
    choose("Red tip (R)", "relay 1")
    choose("Black tip (B)", "relay 3")
    label = "taken off: relay. The red tip (R) is on relay 1, the black tip (B) on relay 3."
    page.get_by_role("img", name=label).wait_for(timeout=WAIT_MS)
    took = press("Ohms", "ohms, relay 1 to relay 3:")
    figure("unit panel: from a key to the reading, ms", round(1000 * took))
    assert took < SOON_S

    press("Take the lock off, plug in", "Plugged in.")
    press("Ohms", "⚠ HAZARD: ohms measured on a live unit")
    choose("How long", "1 min")
    press("Wait", "Waited 1 min.")
    assert page.evaluate("document.activeElement.textContent") == "Wait"  # the keyboard stays where it was
    sheet = page.get_by_role("region", name="Job sheet, 5 lines")
    sheet.wait_for(timeout=WAIT_MS)
    assert "ohms, relay 1 to relay 3" in sheet.inner_text()

    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_timeout(500)
        panel = page.locator(".widget-vbox").first
        assert panel.evaluate("element => element.scrollWidth - element.clientWidth") <= 1
