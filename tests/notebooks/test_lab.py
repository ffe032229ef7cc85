"""The lab of winding checks: blank, worked right, and where things go wrong; the marks are the judge's."""

from pathlib import Path

import nbformat
import pytest
from nbformat import NotebookNode

from coldwright.course.learners import Habits, answers_from, take_readings
from coldwright.labs.catalogue import lab
from coldwright.labs.ticket import Ticket, issue_ticket
from coldwright.marking.judge import judge, load_key
from tests.notebooks.run_notebook import ROOT, WIDGET, data, filled, printed, run, streams

LAB = lab("winding_checks")
KEY = load_key(ROOT / "autograde" / "keys", LAB)
SECRET = b"a secret for the tests"
WORK = """from coldwright.course.learners import Habits, take_readings

take_readings(desk.bench, Habits())
desk"""


def ticket_of(learner: str) -> Ticket:
    """A learner's own ticket."""
    return issue_ticket(SECRET, "a course", LAB.name, learner)


def folder_with(ticket: Ticket, folder: Path) -> Path:
    """The lab's folder as handed out."""
    (folder / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    return folder


def answer_cells(answers: dict[str, str]) -> dict[str, str]:
    """Sources of the answer cells with these answers typed in."""
    return {
        f"answer-{question.name.replace('_', '-')}": "\n".join(
            f'{a.name} = "{answers[a.name]}"' for a in question.answers
        )
        for question in LAB.questions
        if question.answers
    }


def test_the_table_of_marks_is_that_of_the_lab(lab_notebook: NotebookNode) -> None:
    """Each question stands in it with its points, 20 in all."""
    text = next(cell.source for cell in lab_notebook.cells if cell.id == "job")
    rows = dict(line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| "))
    rows.pop("Question")

    assert rows == {question.title: str(question.points) for question in LAB.questions}
    assert sum(map(int, rows.values())) == LAB.points == 20


def test_each_question_has_its_heading_in_order(lab_notebook: NotebookNode) -> None:
    """Numbered headings carry the titles of the questions."""
    text = "\n".join(cell.source for cell in lab_notebook.cells if cell.cell_type == "markdown")
    headings = [line for line in text.splitlines() if line.startswith("## ") and line[3].isdigit()]

    assert headings == [f"## {n}. {question.title}" for n, question in enumerate(LAB.questions, 1)]


def test_answer_cells_name_the_forms_that_are_read(lab_notebook: NotebookNode) -> None:
    """Every word that an answer may be stands in the comment of its cell or of the first of its kind."""
    cells = {cell.id: cell.source for cell in lab_notebook.cells}
    for question in LAB.questions:
        for answer in question.answers:
            source = cells[f"answer-{question.name.replace('_', '-')}"]
            assert f'{answer.name} = ""' in source
            for word in getattr(answer.form, "choices", None) or answer.form.words:
                assert f'"{word}"' in source, (answer.name, word)


def test_the_cautions_and_the_hand_in_are_there(lab_notebook: NotebookNode) -> None:
    """Cautions before the bench; three files named at the end."""
    ids = [cell.id for cell in lab_notebook.cells]
    cells = {cell.id: cell.source for cell in lab_notebook.cells}

    assert ids.index("cautions") < ids.index("desk")
    for word in ("Isolate", "prove it dead", "Discharge", "blow out", "Never under vacuum", "Local codes"):
        assert word in cells["cautions"]
    assert all(name in cells["hand-in"] for name in ("lab.ipynb", "ticket.json", "job_sheet.jsonl", "whole folder"))


def test_the_blank_lab_runs_from_top_to_bottom(lab_notebook: NotebookNode, tmp_path: Path) -> None:
    """The panel comes up, every check asks for its form, the sheet has no line, and no marks are to be had."""
    ticket = ticket_of("bea")
    done = run(filled(lab_notebook, {}, {}), folder_with(ticket, tmp_path))

    assert streams(done) == {"stdout"}
    assert WIDGET in data(done, "desk")
    assert printed(done, "desk").startswith("Ticket of bea, attempt 1.\n")
    for question in LAB.questions:
        said = printed(done, f"check-{question.name.replace('_', '-')}")
        assert said.count("not answered yet; ") == len(question.answers)
    assert "Marked from your job sheet: 0 lines so far." in printed(done, "check-safe-order")
    sheet = (tmp_path / "job_sheet.jsonl").read_text(encoding="utf-8")
    assert judge(LAB, KEY, {}, ticket, sheet).points == 0


@pytest.mark.parametrize("learner", ["ada", "ben"])
def test_who_works_it_right_gets_twenty(lab_notebook: NotebookNode, tmp_path: Path, learner: str) -> None:
    """Readings on the notebook's own desk, answers typed in: each is read back, and the judge gives 20 of 20."""
    ticket = ticket_of(learner)
    spare = LAB.open_bench(ticket, None)
    answers = answers_from(spare, take_readings(spare, Habits()))
    notebook = filled(lab_notebook, answer_cells(answers), {"desk": WORK})

    done = run(notebook, folder_with(ticket, tmp_path))

    sheet = (tmp_path / "job_sheet.jsonl").read_text(encoding="utf-8")
    assert sheet == spare.sheet_text()
    assert f"Job sheet, {len(spare.lines)} lines:" in data(done, "after-desk")["text/plain"]
    for question in LAB.questions:
        said = printed(done, f"check-{question.name.replace('_', '-')}")
        assert not any(word in said for word in ("not answered", "cannot be read", "not there yet", "✓", "✗"))
    assert f"  verdict: {answers['verdict']}\n" in printed(done, "check-verdict")
    assert f"Marked from your job sheet: {len(spare.lines)} lines so far." in printed(done, "check-safe-order")
    assert judge(LAB, KEY, answers, ticket, sheet).points == 20


def test_running_it_all_twice_loses_no_marks(lab_notebook: NotebookNode, tmp_path: Path) -> None:
    """The whole notebook run again, in a new kernel, leaves a sheet that still earns 20."""
    ticket = ticket_of("ada")
    spare = LAB.open_bench(ticket, None)
    answers = answers_from(spare, take_readings(spare, Habits()))
    folder_with(ticket, tmp_path)
    for _ in range(2):
        run(filled(lab_notebook, answer_cells(answers), {"desk": WORK}), tmp_path)

    sheet = (tmp_path / "job_sheet.jsonl").read_text(encoding="utf-8")
    assert not list(tmp_path.glob("job_sheet (*"))
    assert judge(LAB, KEY, answers, ticket, sheet).points == 20


def test_an_error_of_the_bench_is_one_message(lab_notebook: NotebookNode, tmp_path: Path) -> None:
    """In a notebook a wrong terminal shows the bench's sentence, without the way it took through the code."""
    cells = [cell for cell in lab_notebook.cells if cell.id in ("set-up", "desk")]
    wrong = nbformat.v4.new_code_cell("desk.ohms(1, 9)", id="wrong")
    notebook = nbformat.v4.new_notebook(cells=[*(nbformat.from_dict(dict(cell)) for cell in cells), wrong])

    (out,) = run(notebook, folder_with(ticket_of("ada"), tmp_path), allow_errors=True).cells[-1].outputs

    assert (out.output_type, out.ename) == ("error", "BenchError")
    assert out.traceback == ["⚠ there is no terminal '9' here; they are L, N, earth, 1, 2, 3, shell, cap a, cap b"]


def test_a_cell_that_cannot_be_read_is_one_message(lab_notebook: NotebookNode, tmp_path: Path) -> None:
    """Curly quotes in an answer cell: the line and how an answer looks, and none of Python's own words."""
    cells = [cell for cell in lab_notebook.cells if cell.id in ("set-up", "desk")]
    wrong = nbformat.v4.new_code_cell("# my answer\nrun = “2”", id="wrong")
    notebook = nbformat.v4.new_notebook(cells=[*(nbformat.from_dict(dict(cell)) for cell in cells), wrong])

    (out,) = run(notebook, folder_with(ticket_of("ada"), tmp_path), allow_errors=True).cells[-1].outputs

    assert out.traceback == [
        "⚠ Line 2 of this cell cannot be read, so the cell did not run. An answer looks like this: "
        'run = "2", with straight quotes at both ends and one = sign'
    ]


def test_a_slip_in_an_answer_cell_is_said_under_it(lab_notebook: NotebookNode, tmp_path: Path) -> None:
    """A number without a unit and a word that is none: the check says so and the notebook runs on."""
    sources = {"answer-pairs": 'resistance_12 = "4.2"\nresistance_13 = "OL"', "answer-pins": 'common = "left"'}
    done = run(filled(lab_notebook, sources, {}), folder_with(ticket_of("ada"), tmp_path))

    said = printed(done, "check-pairs")
    assert '  resistance_12: cannot be read: "4.2" has no unit' in said
    assert "  resistance_13: OL\n" in said
    assert "  resistance_23: not there yet; run the answer cell above first" in said
    assert "  common: cannot be read: this is none of the words asked for" in printed(done, "check-pins")
