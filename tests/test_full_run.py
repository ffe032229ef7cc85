"""How the tests are run: figures, full runs that go on where they ended, and no silent skip in CI."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
TESTS = """
from pathlib import Path
import pytest

def test_counts(sample, figure):
    figure("tries", sample(small=3, full=30))
    with Path("ran.txt").open("a") as file:
        file.write("counts ")

def test_waits():
    with Path("ran.txt").open("a") as file:
        file.write("waits ")
    assert Path("ready.txt").exists()
"""
SKIPS = {
    "mark": "import pytest\n@pytest.mark.skip(reason='no meter')\ndef test_a(): pass\n",
    "call": "import pytest\ndef test_a(): pytest.skip('no meter')\n",
    "file": "import pytest\npytest.skip('no meter', allow_module_level=True)\n",
}


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A small project with our conftest; its tests need a file to pass."""
    (tmp_path / "tests").mkdir()
    (tmp_path / "src").mkdir()
    (tmp_path / "src" / "part.py").write_text("x = 1\n")
    (tmp_path / "pytest.ini").write_text("[pytest]\ntestpaths = tests\n")
    shutil.copy(HERE / "conftest.py", tmp_path / "tests" / "conftest.py")
    (tmp_path / "tests" / "test_small.py").write_text(TESTS)
    return tmp_path


def run(project: Path, *args: str, ci: str = "") -> tuple[int, str]:
    """Exit code and output of pytest in the project."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST")}
    settings = kept | {"CI": ci, "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    command = [sys.executable, "-B", "-m", "pytest", "-p", "no:cacheprovider", *args]
    done = subprocess.run(command, cwd=project, env=settings, capture_output=True, text=True, timeout=120)
    return done.returncode, done.stdout + done.stderr


def ran(project: Path) -> list[str]:
    """Names of the tests that really ran since the last question, in order of name."""
    file = project / "ran.txt"
    names = sorted(file.read_text().split()) if file.exists() else []
    file.unlink(missing_ok=True)
    return names


@pytest.mark.parametrize("workers", [(), ("-p", "xdist", "-n", "2", "--dist", "loadfile")], ids=["alone", "workers"])
def test_a_full_run_goes_on_where_the_last_one_ended(project: Path, workers: tuple[str, ...]) -> None:
    """A test that passed is not run again for the same sources, but its figure is shown; a failed one is run again."""
    code, text = run(project, "--full", *workers)
    assert code == 1, text
    assert "tries: 30" in text
    assert ran(project) == ["counts", "waits"]

    (project / "ready.txt").touch()
    code, text = run(project, "--full", *workers)
    assert code == 0, text
    assert "tries: 30" in text
    assert "1 not run again: they passed in an earlier full run of the same sources." in text
    assert ran(project) == ["waits"]

    code, text = run(project, "--full", *workers)
    assert code == 0, text
    assert "2 not run again" in text
    assert ran(project) == []

    (project / "src" / "part.py").write_text("x = 2\n")
    code, text = run(project, "--full", *workers)
    assert code == 0, text
    assert "not run again" not in text
    assert ran(project) == ["counts", "waits"]


def test_a_plain_run_takes_the_small_sample_and_leaves_nothing_out(project: Path) -> None:
    """Without `--full` every test runs each time, with its small count, and nothing is written down."""
    (project / "ready.txt").touch()

    for _ in range(2):
        code, text = run(project)
        assert code == 0, text
        assert "tries: 3\n" in text
        assert ran(project) == ["counts", "waits"]
    assert not (project / ".full_run").exists()


def test_a_line_cut_off_by_a_kill_costs_only_its_own_test(project: Path) -> None:
    """Half a line at the end of the list is passed over: that test runs again, and what follows is readable."""
    (project / "ready.txt").touch()
    run(project, "--full")
    ran(project)
    (state,) = (project / ".full_run").glob("*.jsonl")
    state.write_text(state.read_text()[:-10])

    code, text = run(project, "--full")
    assert code == 0, text
    assert ran(project) == ["waits"]
    assert run(project, "--full")[0] == 0
    assert ran(project) == []


@pytest.mark.parametrize("how", SKIPS)
def test_a_skip_is_an_error_in_ci_and_only_there(project: Path, how: str) -> None:
    """With CI=true a test or a file that skips itself fails the run and its reason is said; elsewhere it is a skip."""
    (project / "tests" / "test_small.py").write_text(SKIPS[how])

    code, text = run(project, ci="true")
    assert code in (1, 2), text
    assert "skipped, which is an error where CI=true" in text
    assert "no meter" in text

    code, text = run(project)
    assert code in (0, 5), text
    assert "1 skipped" in text


def test_an_expected_failure_is_no_skip(project: Path) -> None:
    """A test marked as failing for a known reason runs, so it does not count as skipped in CI."""
    marked = "import pytest\n@pytest.mark.xfail(reason='known', strict=True)\ndef test_a(): assert False\n"
    (project / "tests" / "test_small.py").write_text(marked)

    code, text = run(project, ci="true")
    assert code == 0, text
    assert "1 xfailed" in text


def test_the_browser_opens_a_page_and_leaves_asyncio_usable(project: Path) -> None:
    """The browser fixture shows a page; a test file that runs after it can use asyncio."""
    page = "def test_a(browser):\n    p = browser.new_page()\n    p.set_content('<h1>x</h1>')\n"
    (project / "tests" / "test_small.py").write_text(page + "    assert p.inner_text('h1') == 'x'\n")
    later = "import asyncio\nasync def one(): return 1\ndef test_b(): assert asyncio.run(one()) == 1\n"
    (project / "tests" / "test_then.py").write_text(later)

    code, text = run(project, ci=os.environ.get("CI", ""))
    if "no browser here" in text and not os.environ.get("CI"):
        pytest.skip("no browser here")
    assert code == 0, text
    assert "2 passed" in text
