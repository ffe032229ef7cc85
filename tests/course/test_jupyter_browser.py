"""The course in a browser: the start page, from there the lesson, and a cell run with the button."""

from pathlib import Path
from typing import Any

import pytest

from coldwright.course.build import build
from coldwright.course.study import own_copy
from tests.course.open_course import opened
from tests.course.small_course import write_sources

WAIT_MS = 60_000


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A learner's own copy of the small course."""
    build(write_sources(tmp_path / "sources"), tmp_path / "course")
    own_copy(tmp_path / "course", tmp_path / "mine")
    return tmp_path / "mine"


def test_the_start_page_opens_and_leads_to_the_lesson(browser: Any, folder: Path) -> None:
    """The start page comes up rendered, its link opens the lesson, the button runs cells, nothing goes outside."""
    outside: list[str] = []
    page = browser.new_page()
    page.on("request", lambda request: outside.append(request.url))
    with opened(folder) as course:
        page.goto(course.address)
        page.get_by_role("heading", name="Servicing small hermetic refrigeration").wait_for(timeout=WAIT_MS)
        assert page.get_by_role("heading", name="Before you touch a real unit").is_visible()
        page.get_by_role("link", name="Lesson", exact=True).click()
        page.get_by_role("heading", name="Winding checks: the lesson").wait_for(timeout=WAIT_MS)
        page.locator(".jp-NotebookPanel-toolbar").get_by_title("Run this cell", exact=False).first.wait_for()
        page.get_by_text("Python 3 (ipykernel) | Idle").wait_for(timeout=WAIT_MS)
        for _ in range(3):
            page.locator(".jp-NotebookPanel-toolbar").get_by_title("Run this cell", exact=False).first.click()
        page.locator(".jp-OutputArea-output", has_text="The room is at 20 °C").wait_for(timeout=WAIT_MS)
        menus = page.locator(".lm-MenuBar-itemLabel").all_inner_texts()
        page.close()
    assert "Nbgrader" not in menus
    assert "File" in menus
    assert [url for url in outside if not url.startswith((course.base, "data:", "blob:"))] == []
