"""The panel in JupyterLab: it comes up, works by mouse and by keyboard, and fits a narrow window."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from coldwright.course.build import build
from coldwright.course.study import own_copy
from coldwright.labs.ticket import practice_ticket
from tests.course.open_course import opened

ROOT = Path(__file__).resolve().parents[2]
LAB = "03_winding_checks"
WAIT_MS = 60_000
SHELL_PX = 700  # JupyterLab itself needs some of the window


@pytest.fixture
def page(browser: Any, tmp_path: Path) -> Iterator[Any]:
    """The lab of unit 28, open, with its cells up to the bench run."""
    build(ROOT / "source_notebooks", tmp_path / "course")
    own_copy(tmp_path / "course", tmp_path / "mine")
    ticket = practice_ticket("winding_checks", 28)
    (tmp_path / "mine" / LAB / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    with opened(tmp_path / "mine") as course:
        page = browser.new_page(viewport={"width": 1200, "height": 2400})
        page.goto(course.address.replace("START.md", f"{LAB}/lab.ipynb"))
        page.get_by_text("Python 3 (ipykernel) | Idle").wait_for(timeout=WAIT_MS)
        page.get_by_role("menuitem", name="Run", exact=True).click()
        page.get_by_text("Run All Cells", exact=True).click()
        page.get_by_role("button", name="Pull the plug, lock it off").wait_for(timeout=WAIT_MS)
        yield page
        page.close()


def test_the_panel_works_in_the_browser(page: Any) -> None:
    """Buttons by mouse, one by keyboard, tips by their lists; the display and the job sheet follow."""
    status = page.get_by_role("status").filter(has_text="Display")
    page.get_by_role("button", name="Pull the plug, lock it off").click()
    status.filter(has_text="Plug pulled and locked off.").wait_for(timeout=WAIT_MS)
    page.get_by_role("button", name="Read volts a.c.").focus()
    page.keyboard.press("Enter")
    status.filter(has_text="0.000 V a.c.").wait_for(timeout=WAIT_MS)

    for button in ("Discharge the capacitor", "Pull the connector off"):
        page.get_by_role("button", name=button).click()
    page.get_by_label("Red tip (R)", exact=True).select_option(label="pin 1")
    page.get_by_label("Black tip (B)", exact=True).select_option(label="pin 3")
    page.get_by_role("img", name="The red tip (R) is on pin 1, the black tip (B) on pin 3.").wait_for(timeout=WAIT_MS)
    page.get_by_role("button", name="Read ohms").click()

    status.filter(has_text="ohms, 1 to 3:").wait_for(timeout=WAIT_MS)
    sheet = page.get_by_role("region", name="Job sheet, 5 lines")
    sheet.wait_for(timeout=WAIT_MS)
    assert "ohms, pin 1 to pin 3" in sheet.inner_text()

    page.set_viewport_size({"width": SHELL_PX, "height": 2400})
    page.wait_for_timeout(500)
    panel = page.locator(".widget-vbox").first
    assert panel.evaluate("element => element.scrollWidth - element.clientWidth") <= 1
