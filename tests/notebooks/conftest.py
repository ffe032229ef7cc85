"""The course, built once for all tests of its notebooks."""

from pathlib import Path

import nbformat
import pytest
from nbformat import NotebookNode

from coldwright.course.build import build
from tests.notebooks.run_notebook import SOURCES, TOPIC


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder of the topic, built from the sources."""
    folder = tmp_path_factory.mktemp("course")
    build(SOURCES, folder)
    return folder / TOPIC


@pytest.fixture(scope="session")
def lesson(built: Path) -> NotebookNode:
    """The lesson as handed out."""
    return nbformat.read(built / "lesson.ipynb", as_version=4)


@pytest.fixture(scope="session")
def lab_notebook(built: Path) -> NotebookNode:
    """The lab as handed out."""
    return nbformat.read(built / "lab.ipynb", as_version=4)
