"""Collecting answer cells out of notebooks in any state."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import nbformat
import pytest
from nbformat import NotebookNode
from nbformat.v4 import new_code_cell, new_markdown_cell

from coldwright.marking.collect import Collected, collect
from coldwright.marking.handed_notebook import LARGEST, read_handed_in
from coldwright.marking.plain import LONGEST_CELL
from tests.marking.small_class import LAB, answer_source, cell, filled, master_notebook

PINS = LAB.question("pins")
TYPED = {"common": "1", "run": "2", "start": "3"}
OTHER = {"common": "3", "run": "2", "start": "1"}


def found(collected: Collected, question: str = "pins") -> str:
    """Source of the answer cell that counts."""
    return next(each.source for each in collected.cells if each.question == question)


def handed(change: Any = None) -> Collected:
    """What is collected from a filled-in notebook after a change to it."""
    notebook = filled(TYPED)
    if change is not None:
        change(notebook)
    return collect(master_notebook(), notebook, LAB)


def test_an_untouched_hand_in_gives_each_answer_cell_once_and_no_notice():
    """Every question with answers has one cell, in the notebook's order, as it was typed."""
    collected = handed()

    assert [each.question for each in collected.cells] == [q.name for q in LAB.questions if q.answers]
    assert found(collected) == answer_source(PINS, TYPED)
    assert collected.notices == ()


def test_only_the_answer_cells_come_from_the_hand_in():
    """Check cells, texts, points, outputs, tags, attachments and the kernel's name are the master's own."""

    def change(notebook: NotebookNode) -> None:
        notebook.metadata.kernelspec = {"name": "evil", "display_name": "evil"}
        notebook.metadata.widgets = {"state": 1}
        for each in notebook.cells:
            each.metadata["tags"] = ["skip-execution"]
            if "nbgrader" in each.metadata and each.metadata.nbgrader.grade:
                each.metadata.nbgrader.points = 1000
                each.source = "print('full marks')"
        cell(notebook, "answer-pins").outputs = [nbformat.v4.new_output("stream", text="20 of 20")]
        cell(notebook, "intro").attachments = {"x.svg": {"image/svg+xml": "<svg onload=alert(1)>"}}
        cell(notebook, "intro").source = "<script>alert(1)</script>"
        notebook.cells.append(new_code_cell("raise SystemExit"))

    expected = master_notebook()
    cell(expected, "answer-pins").source = answer_source(PINS, TYPED)

    assert handed(change).notebook == expected


def test_the_last_filled_in_copy_counts_and_it_is_said():
    """Of a copied cell (same nbgrader id, new cell id) the last filled-in one counts, also before a blank one."""

    def change(notebook: NotebookNode) -> None:
        own = cell(notebook, "answer-pins")
        place = notebook.cells.index(own)
        for offset, values in enumerate((OTHER, {}), start=1):
            again = copy.deepcopy(own)
            again.id, again.source = f"copy{offset}", answer_source(PINS, values)
            notebook.cells.insert(place + offset, again)

    collected = handed(change)

    assert found(collected) == answer_source(PINS, OTHER)
    assert collected.notices == (
        "A copy of the answer cell for 'Which pin is which' was found; the last one you filled in counts.",
    )


def test_copies_that_say_the_same_need_no_notice():
    """Two equal cells leave no doubt."""

    def change(notebook: NotebookNode) -> None:
        again = copy.deepcopy(cell(notebook, "answer-pins"))
        again.id = "again"
        notebook.cells.append(again)

    collected = handed(change)

    assert found(collected) == answer_source(PINS, TYPED)
    assert collected.notices == ()


def test_a_deleted_answer_cell_is_not_answered_and_it_is_said():
    """The rebuilt notebook holds the master's blank cell in its place."""
    collected = handed(lambda notebook: notebook.cells.remove(cell(notebook, "answer-pins")))

    assert found(collected) == answer_source(PINS)
    assert collected.notices == (
        "The answer cell for 'Which pin is which' is not in the notebook any more, so nothing is answered there.",
    )


def test_a_deleted_check_cell_changes_nothing():
    """Check cells are the master's, so one that is gone, copied or moved does not matter."""
    collected = handed(lambda notebook: notebook.cells.remove(cell(notebook, "check-pins")))

    assert collected.notebook == handed().notebook
    assert collected.notices == ()


def test_a_cell_turned_into_text_is_still_read():
    """Markdown in place of code: the source counts, and it is said."""

    def change(notebook: NotebookNode) -> None:
        own = cell(notebook, "answer-pins")
        own.cell_type = "markdown"
        del own["outputs"], own["execution_count"]

    collected = handed(change)

    assert found(collected) == answer_source(PINS, TYPED)
    assert cell(collected.notebook, "answer-pins").cell_type == "code"
    assert collected.notices == (
        "The answer cell for 'Which pin is which' had been turned into text; it was read anyway.",
    )


@pytest.mark.parametrize("lost", ["id", "nbgrader", "both"])
def test_a_cell_that_lost_its_marks_is_found(lost):
    """By nbgrader's id without the cell id, by the cell id without nbgrader's, by its names without either."""

    def change(notebook: NotebookNode) -> None:
        own = cell(notebook, "answer-pins")
        if lost in ("id", "both"):
            own.id = "new"
        if lost in ("nbgrader", "both"):
            own.metadata = NotebookNode()

    collected = handed(change)

    assert found(collected) == answer_source(PINS, TYPED)
    by_names = (
        "The answers for 'Which pin is which' stood in a cell that had lost its mark; it was found by the names in it."
    )
    assert collected.notices == ((by_names,) if lost == "both" else ())


def test_a_cell_without_marks_or_names_is_found_by_its_place():
    """The cell right above the check is taken, so that what is wrong with it can be said."""

    def change(notebook: NotebookNode) -> None:
        own = cell(notebook, "answer-pins")
        own.id, own.metadata, own.source = "new", NotebookNode(), "the common pin is 1"

    collected = handed(change)

    assert found(collected) == "the common pin is 1"
    assert collected.notices == (
        "The answers for 'Which pin is which' stood in a cell that had lost its mark; "
        "it was found by its place above the check.",
    )


def test_answers_typed_into_a_cell_of_ones_own_are_read_where_the_answer_cell_is_blank():
    """Such a cell fills the check line in the notebook too, so it must not be lost at marking."""

    def change(notebook: NotebookNode) -> None:
        own = cell(notebook, "answer-pins")
        notebook.cells.insert(notebook.cells.index(own) + 1, new_code_cell(own.source, id="mine"))
        own.source = answer_source(PINS)

    collected = handed(change)

    assert found(collected) == answer_source(PINS, TYPED)
    assert collected.notices == (
        "The answers for 'Which pin is which' stood in another cell; they were read from there.",
    )


def test_ids_that_contradict_each_other_follow_the_cell_id():
    """With two nbgrader ids exchanged each cell id still says which cell is which."""

    def change(notebook: NotebookNode) -> None:
        one, other = cell(notebook, "answer-pins"), cell(notebook, "answer-verdict")
        one.metadata.nbgrader.grade_id, other.metadata.nbgrader.grade_id = "answer_verdict", "answer_pins"

    assert found(handed(change)) == answer_source(PINS, TYPED)


def test_answers_typed_into_a_check_cell_are_not_taken():
    """A check cell is the master's own, also where it came back with another cell id."""

    def change(notebook: NotebookNode) -> None:
        notebook.cells.remove(cell(notebook, "answer-pins"))
        check = cell(notebook, "check-pins")
        check.id, check.source = "new", answer_source(PINS, TYPED)

    assert found(handed(change)) == answer_source(PINS)


def test_a_longer_source_than_may_be_read_stays_too_long():
    """It is cut one character past the limit, so that the reader refuses it and reads no part of it."""
    collected = handed(lambda notebook: cell(notebook, "answer-pins").update(source="x" * 5_000_000))

    assert len(found(collected)) == LONGEST_CELL + 1


def test_half_a_character_does_not_stop_the_notebook_from_being_written():
    """A lone surrogate in JSON is no text that a file can hold; it is replaced."""
    collected = handed(lambda notebook: cell(notebook, "answer-pins").update(source='common = "\ud800"'))

    assert found(collected) == 'common = "?"'
    nbformat.writes(collected.notebook).encode()


ODD: list[Any] = [
    {},
    {"cells": None},
    {"cells": [None, 3, "x", [], {}]},
    {"cells": [{"source": 7, "metadata": 3, "id": [], "cell_type": {}}]},
    {"cells": [{"source": ["common ", 4, '= "1"'], "metadata": {"nbgrader": "yes"}, "id": None}]},
    {"cells": [{"source": "x", "metadata": {"nbgrader": {"grade_id": ["answer_pins"]}}}]},
]


@pytest.mark.parametrize("odd", ODD)
def test_no_odd_notebook_raises(odd):
    """Whatever a notebook's cells are, the rebuilt one has the master's cells and is valid."""
    collected = collect(master_notebook(), odd, LAB)

    nbformat.validate(collected.notebook)
    assert [each.id for each in collected.notebook.cells] == [each.id for each in master_notebook().cells]


def test_a_source_given_as_a_list_of_lines_is_joined():
    """Files hold sources as lists of lines; both forms count."""
    notebook = json.loads(nbformat.writes(filled(TYPED)))

    assert found(collect(master_notebook(), notebook, LAB)) == answer_source(PINS, TYPED)


BROKEN = {
    "empty": b"",
    "no JSON": b"common = 1",
    "cut off": json.dumps(filled(TYPED)).encode()[:-40],
    "NUL": b"\0" * 100,
    "no notebook": b'{"cells": 3}',
    "a list": b"[1, 2]",
    "very deep": b"[" * 200_000,
    "bad version 3": b'{"worksheets": 3, "nbformat": 3}',
    "half UTF-16": b"\xff\xfe\x00",
}


@pytest.mark.parametrize("content", BROKEN.values(), ids=BROKEN.keys())
def test_what_is_no_notebook_is_told_and_not_raised(tmp_path, content):
    """Damaged files give no cells and the reason."""
    path = tmp_path / "lab.ipynb"
    path.write_bytes(content)

    assert read_handed_in(path) == ({"cells": []}, "lab.ipynb cannot be read as a notebook; it is damaged or cut off")


def test_files_that_are_missing_too_large_or_links_are_told(tmp_path):
    """Each has its own reason; a link is never followed."""
    secret = tmp_path / "secret"
    secret.write_text(json.dumps(filled(TYPED)))
    (tmp_path / "link.ipynb").symlink_to(secret)
    with (tmp_path / "large.ipynb").open("wb") as file:
        file.truncate(LARGEST + 1)

    reasons = [read_handed_in(tmp_path / name)[1] for name in ("none.ipynb", "link.ipynb", "large.ipynb")]

    assert reasons == [
        "there is no none.ipynb in it",
        "link.ipynb is a link, not a file",
        "large.ipynb is larger than 20 MB",
    ]


def write(path: Path, notebook: NotebookNode, encoding: str) -> Path:
    """A notebook file in an encoding."""
    path.write_text(json.dumps(notebook), encoding=encoding)
    return path


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_other_encodings_are_read(tmp_path, encoding):
    """A byte order mark or UTF-16 changes nothing."""
    read, reason = read_handed_in(write(tmp_path / "lab.ipynb", filled(TYPED), encoding))

    assert reason == ""
    assert found(collect(master_notebook(), read, LAB)) == answer_source(PINS, TYPED)


def test_a_notebook_of_format_3_is_read(tmp_path):
    """An old notebook has no nbgrader marks that fit; the names in its cells are enough."""
    cells = [{"cell_type": "code", "input": answer_source(PINS, TYPED), "language": "python", "outputs": []}]
    old = {"nbformat": 3, "nbformat_minor": 0, "metadata": {}, "worksheets": [{"cells": cells, "metadata": {}}]}

    read, reason = read_handed_in(write(tmp_path / "lab.ipynb", old, "utf-8"))

    assert reason == ""
    assert found(collect(master_notebook(), read, LAB)) == answer_source(PINS, TYPED)


def test_a_text_cell_of_ones_own_is_left_out():
    """Notes do not get in the way of answers."""
    collected = handed(lambda notebook: notebook.cells.insert(3, new_markdown_cell("common was hard to find")))

    assert collected.notebook == handed().notebook
