"""Running a built notebook in a kernel, with some cells filled in as a person would."""

import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import nbformat
from nbclient import NotebookClient
from nbformat import NotebookNode

ROOT = Path(__file__).resolve().parents[2]
SOURCES = ROOT / "source_notebooks"
TOPIC = "03_winding_checks"
CELL_LIMIT_S = 60
START_LIMIT_S = 180
WIDGET = "application/vnd.jupyter.widget-view+json"


def filled(notebook: NotebookNode, sources: Mapping[str, str], after: Mapping[str, str]) -> NotebookNode:
    """A copy with some cells' sources replaced, and code cells put after others; both by cell id."""
    cells = []
    for cell in notebook.cells:
        new = nbformat.from_dict(dict(cell))
        if cell.id in sources:
            new.source = sources[cell.id]
        cells.append(new)
        if cell.id in after:
            cells.append(nbformat.v4.new_code_cell(after[cell.id], id=f"after-{cell.id}"))
    copy = nbformat.from_dict(dict(notebook))
    copy.cells = cells
    return copy


def run(notebook: NotebookNode, folder: Path, allow_errors: bool = False) -> NotebookNode:
    """The notebook with its outputs, run from top to bottom in a folder."""
    options: dict[str, Any] = {
        "timeout": CELL_LIMIT_S,
        "startup_timeout": START_LIMIT_S,
        "kernel_name": "python3",
        "allow_errors": allow_errors,
    }
    NotebookClient(notebook, resources={"metadata": {"path": str(folder)}}, **options).execute()
    return notebook


def printed(notebook: NotebookNode, cell_id: str) -> str:
    """What one cell printed, lines that were broken for width put together again."""
    text = "".join(out.text for out in _outputs(notebook, cell_id) if out.output_type == "stream")
    return re.sub(r"\n {4,}", " ", text)


def data(notebook: NotebookNode, cell_id: str) -> dict[str, Any]:
    """What one cell displayed, by kind; empty for nothing."""
    found: dict[str, Any] = {}
    for out in _outputs(notebook, cell_id):
        found |= dict(out.get("data", {}))
    return found


def streams(notebook: NotebookNode) -> Iterable[str]:
    """Names of the streams that were written to."""
    return {out.name for cell in notebook.cells for out in cell.get("outputs", ()) if out.output_type == "stream"}


def _outputs(notebook: NotebookNode, cell_id: str) -> list[Any]:
    return list(next(cell.outputs for cell in notebook.cells if cell.id == cell_id))
