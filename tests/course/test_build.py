"""Notebooks built from percent scripts: what comes out, what is refused, and that nbgrader takes them."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import nbformat
import pytest

from coldwright.course.build import build, check_built
from coldwright.errors import CourseError
from tests.course.small_course import LAB, LESSON, lab_script, write_sources


def read(course: Path, kind: str) -> Any:
    """One built notebook as parsed JSON."""
    return json.loads((course / LAB.folder / f"{kind}.ipynb").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small course, built."""
    folder = tmp_path_factory.mktemp("built")
    build(write_sources(folder / "sources"), folder / "course")
    return folder / "course"


def test_every_question_has_a_locked_check_cell_with_its_points(course: Path) -> None:
    """The check cells carry the lab's points, 20 in all, and nothing a learner could have typed."""
    cells = {cell["id"]: cell for cell in read(course, "lab")["cells"]}

    points = 0
    for question in LAB.questions:
        cell = cells[f"check-{question.name.replace('_', '-')}"]
        grading = cell["metadata"]["nbgrader"]
        assert (grading["grade"], grading["solution"], grading["locked"]) == (True, False, True)
        assert grading["grade_id"] == f"check_{question.name}"
        assert "".join(cell["source"]).split("\n") == [
            "from coldwright.panels import check",
            "",
            f'check("winding_checks", "{question.name}", globals())',
        ]
        points += grading["points"]
    assert points == 20


def test_answer_cells_are_solution_cells_as_written(course: Path) -> None:
    """An answer cell is nbgrader's solution cell, open to the learner, without points."""
    cell = next(c for c in read(course, "lab")["cells"] if c["id"] == "answer-sum-rule")

    assert cell["metadata"]["nbgrader"] == {
        "grade": False,
        "grade_id": "answer_sum_rule",
        "locked": False,
        "schema_version": 3,
        "solution": True,
        "task": False,
    }
    assert "".join(cell["source"]).startswith('sum_rule = ""')


def test_keys_name_cells_and_the_others_are_named_by_place(course: Path) -> None:
    """A cell id is its key, or topic, kind and position; a hidden cell is folded away."""
    cells = read(course, "lesson")["cells"]

    assert [cell["id"] for cell in cells] == ["title", "set-up", "03-winding-checks-lesson-3"]
    assert [cell["metadata"] for cell in cells] == [{}, {"jupyter": {"source_hidden": True}}, {}]
    assert [cell["cell_type"] for cell in cells] == ["markdown", "code", "code"]


@pytest.mark.parametrize("kind", ["lesson", "lab"])
def test_a_notebook_is_valid_blank_and_plain(course: Path, kind: str) -> None:
    """nbformat accepts it; it has no output, no version of a tool in it, and ends with one line end."""
    text = (course / LAB.folder / f"{kind}.ipynb").read_text(encoding="utf-8")

    notebook = nbformat.reads(text, as_version=4)
    nbformat.validate(notebook)
    assert all(not cell.outputs and cell.execution_count is None for cell in notebook.cells if cell.cell_type == "code")
    assert notebook.metadata == {
        "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
        "language_info": {"name": "python"},
    }
    assert text.endswith("}\n")
    assert not text.endswith("\n\n")


def test_two_builds_are_the_same_byte_for_byte(course: Path, tmp_path: Path) -> None:
    """Another build of the same sources, by another process with another hash seed, gives the same bytes."""
    sources = write_sources(tmp_path / "sources")
    program = "import sys; from pathlib import Path; from coldwright.course.build import build\n"
    program += "build(Path(sys.argv[1]), Path(sys.argv[2]))"
    command = [sys.executable, "-c", program, str(sources), str(tmp_path / "course")]
    subprocess.run(command, check=True, env={**os.environ, "PYTHONHASHSEED": "7"})

    files = sorted(path.relative_to(course) for path in course.rglob("*") if path.is_file())
    assert [path.as_posix() for path in files] == [f"{LAB.folder}/lab.ipynb", f"{LAB.folder}/lesson.ipynb", "START.md"]
    for name in files:
        assert (tmp_path / "course" / name).read_bytes() == (course / name).read_bytes()


def test_the_check_names_what_is_missing_stale_and_extra(tmp_path: Path) -> None:
    """A course folder that differs from its sources is told apart file by file; one that does not gives nothing."""
    sources, course = write_sources(tmp_path / "sources"), tmp_path / "course"
    build(sources, course)
    assert check_built(sources, course) == []

    (course / LAB.folder / "lab.ipynb").unlink()
    (course / LAB.folder / "lesson.ipynb").write_text("{}", encoding="utf-8")
    (course / LAB.folder / "old.ipynb").write_text("{}", encoding="utf-8")

    assert check_built(sources, course) == [
        "03_winding_checks/lesson.ipynb is stale: the source builds something else; build the course",
        "03_winding_checks/lab.ipynb is missing; build the course",
        "03_winding_checks/old.ipynb is extra: no source builds it; delete it",
    ]


def test_the_start_page_links_what_there_is(tmp_path: Path) -> None:
    """With only the lab written, the start page links the lab, calls the lesson to come, and names all 13 topics."""
    build(write_sources(tmp_path / "sources", lesson=None), tmp_path / "course")
    page = (tmp_path / "course" / "START.md").read_text(encoding="utf-8")

    rows = [line for line in page.splitlines() if line.startswith(("| 0", "| 1"))]
    assert [row[2:4] for row in rows] == [f"{number:02}" for number in range(13)]
    assert rows[3].endswith("| to come | [Lab](03_winding_checks/lab.ipynb) |")
    assert rows[4].endswith("| to come | to come |")
    assert "{" not in page


PINS = '# %% answer="pins"\ncommon = ""  # type it here\nrun = ""  # type it here\nstart = ""  # type it here\n'
CHECK_PINS = '# %% check="pins"\n'
WRONG_LABS = {
    "unknown answer": (lab_script() + '# %% answer="colour"\ncolour = ""\n', "has no question 'colour'; it has pairs"),
    "unknown check": (lab_script() + '# %% check="colour"\n', "has no question 'colour'; it has pairs"),
    "no check": (lab_script().replace(CHECK_PINS, ""), "question 'pins' has no check cell"),
    "no answer": (lab_script().replace(PINS, ""), "question 'pins' has no answer cell"),
    "name missing": (lab_script().replace('run = ""', 'walk = ""'), "the answer cell 'pins' must hold run = \"\""),
    "solved": (lab_script().replace('run = ""', 'run = "2"'), 'run must be left blank, as run = ""'),
    "no Python": (lab_script().replace('run = ""', "run = ="), "the answer cell is no Python"),
    "answer twice": (lab_script() + PINS, "cell id 'answer-pins' is there twice"),
    "check first": (lab_script().replace(PINS, "").replace(CHECK_PINS, CHECK_PINS + PINS), "stands before its answer"),
    "check filled": (lab_script().replace(CHECK_PINS, CHECK_PINS + "check()\n"), "leave the check cell 'pins' empty"),
}


@pytest.mark.parametrize("case", WRONG_LABS)
def test_a_wrong_lab_is_refused_and_nothing_is_written(tmp_path: Path, case: str) -> None:
    """A lab whose cells do not fit its questions is refused with the script's name, and no notebook is half built."""
    text, message = WRONG_LABS[case]
    sources = write_sources(tmp_path / "sources", lab_text=text)

    with pytest.raises(CourseError, match=r"03_winding_checks/lab\.py") as refused:
        build(sources, tmp_path / "course")

    assert message in str(refused.value)
    assert not (tmp_path / "course").exists()


WRONG_LESSONS = {
    "key twice": (LESSON + '# %% key="title"\nx = 1\n', "line 11: the cell id 'title' is there twice"),
    "graded": (LESSON + '# %% answer="pins"\nx = 1\n', "line 11: answer and check cells belong in lab.py"),
    "unknown marker": (LESSON + '# %% colour="red"\nx = 1\n', "line 11: marker 'colour' is not known; there are key"),
    "bad key": (LESSON + '# %% key="First cell"\nx = 1\n', "line 11: key 'First cell' must be small letters"),
    "two markers": (LESSON + '# %% key="a" answer="pins"\nx = 1\n', "line 11: give one of key, answer and check"),
    "bad hide": (LESSON + '# %% hide="yes"\nx = 1\n', "line 11: hide is 'yes'; write hide=\"true\""),
    "markdown": (
        LESSON + '# %% [markdown] hide="true"\n# text\n',
        "line 11: answer, check and hide are for code cells",
    ),
    "pip": (LESSON + "# %%\n# !pip install numpy\n", "line 11: a cell must not install anything"),
    "percent pip": (LESSON + "# %%\n# %pip install numpy\n", "line 11: a cell must not install anything"),
    "subprocess": (LESSON + '# %%\nrun(["python", "-m", "pip"])\n', "line 11: a cell must not install anything"),
    "no cell": ("# only a comment\n", "lesson.py has no cell; a cell begins with a line # %%"),
    "early text": ("x = 1\n" + LESSON, "line 1: text stands before the first cell"),
}


@pytest.mark.parametrize("case", WRONG_LESSONS)
def test_a_wrong_lesson_is_refused_with_its_line(tmp_path: Path, case: str) -> None:
    """The message names the script and the line of the cell."""
    text, message = WRONG_LESSONS[case]

    with pytest.raises(CourseError, match=r"03_winding_checks/lesson\.py") as refused:
        build(write_sources(tmp_path / "sources", lesson=text), tmp_path / "course")

    assert message in str(refused.value)


def test_talk_of_installing_in_text_and_comments_is_no_install_cell(tmp_path: Path) -> None:
    """ "Install a new relay" in Markdown or in a string of the trade is not taken for an install cell."""
    talk = '# %% [markdown]\n# Do not pip install anything.\n\n# %%\nprint("install the new relay")\n'

    build(write_sources(tmp_path / "sources", lesson=LESSON + talk), tmp_path / "course")

    assert len(read(tmp_path / "course", "lesson")["cells"]) == 5


def test_a_line_like_a_cell_inside_a_string_is_no_cell(tmp_path: Path) -> None:
    """A string that holds `# %%` stays whole, and an error after it counts cells where lines cannot be told."""
    text = LESSON + '# %%\ntext = """\n# %% not a cell\n"""\n'
    build(write_sources(tmp_path / "one", lesson=text), tmp_path / "course")
    assert "".join(read(tmp_path / "course", "lesson")["cells"][-1]["source"]) == 'text = """\n# %% not a cell\n"""'

    with pytest.raises(CourseError, match=r"lesson\.py, cell 5: marker 'colour' is not known"):
        build(write_sources(tmp_path / "two", lesson=text + '\n# %% colour="red"\nx = 1\n'), tmp_path / "course")


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("03_winding_checks/extra.py", "a topic has lesson.py and lab.py, nothing else"),
        ("14_magic/lesson.py", "folder '14_magic' is no topic of the course; it has 00_safe_isolation"),
        ("08_cycle/lab.py", "there is no lab '08_cycle'"),
    ],
)
def test_a_script_that_belongs_nowhere_is_refused(tmp_path: Path, name: str, message: str) -> None:
    """A script of another name, in no topic's folder, or of a lab that the package does not know, is named."""
    sources = write_sources(tmp_path / "sources")
    (sources / name).parent.mkdir(exist_ok=True)
    (sources / name).write_text(LESSON, encoding="utf-8")

    with pytest.raises(CourseError, match=message):
        build(sources, tmp_path / "course")


def test_sources_without_a_script_are_refused(tmp_path: Path) -> None:
    """An empty folder of sources is not taken for a course without topics."""
    with pytest.raises(CourseError, match=r"there is no lesson\.py or lab\.py in a topic's folder under"):
        build(tmp_path, tmp_path / "course")


PLAIN_CONFIG = """c = get_config()
c.CourseDirectory.course_id = "small"
c.GenerateAssignment.preprocessors = [
    "nbgrader.preprocessors." + name
    for name in (
        "IncludeHeaderFooter", "InstantiateTests", "LockCells", "ClearOutput", "CheckCellMetadata", "ComputeChecksums",
        "SaveCells", "ClearHiddenTests", "ClearMarkScheme", "ComputeChecksums", "CheckCellMetadata",
    )
]
"""


def test_stock_nbgrader_releases_and_validates_the_lab(course: Path, tmp_path: Path) -> None:
    """`nbgrader generate_assignment` releases the lab with every point, `nbgrader validate` runs it without a failure.

    nbgrader's own steps, less ClearSolutions: the notebooks hold no solution to clear.
    """
    source = tmp_path / "source" / LAB.folder
    source.mkdir(parents=True)
    (source / "lab.ipynb").write_bytes((course / LAB.folder / "lab.ipynb").read_bytes())
    (tmp_path / "nbgrader_config.py").write_text(PLAIN_CONFIG, encoding="utf-8")
    tools = Path(sys.executable).parent
    env = {**os.environ, "PATH": f"{tools}{os.pathsep}{os.environ.get('PATH', '')}", "HOME": str(tmp_path)}

    def nbgrader(*words: str) -> str:
        command = [sys.executable, "-m", "nbgrader", *words]
        done = subprocess.run(command, cwd=tmp_path, env=env, capture_output=True, text=True, timeout=120)
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    nbgrader("generate_assignment", LAB.folder, "--create")
    release = tmp_path / "release" / LAB.folder / "lab.ipynb"
    released = json.loads(release.read_text(encoding="utf-8"))["cells"]
    grading = [cell["metadata"].get("nbgrader", {}) for cell in released]
    assert sum(each.get("points", 0) for each in grading) == 20
    assert all("checksum" in each for each in grading if each)
    sources = json.loads((source / "lab.ipynb").read_text(encoding="utf-8"))["cells"]
    assert [cell["source"] for cell in released] == [cell["source"] for cell in sources]

    (release.parent / "ticket.json").write_text(ticket_text(), encoding="utf-8")
    assert "Success! Your notebook passes all the tests." in nbgrader("validate", str(release))


def ticket_text() -> str:
    """A practice ticket, as a learner's own copy has it."""
    from coldwright.labs.ticket import practice_ticket

    return practice_ticket(LAB.name, 1).text()
