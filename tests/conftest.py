"""What every test may use: sample sizes, figures, a browser; and how a full run goes on where the last one ended.

Plain mode takes small fixed samples. `--full` takes the large counts and writes down each test that passed, with its
figures, under the digest of the sources: the same sources are not tried twice.
"""

import hashlib
import json
import os
import shutil
import sys
from collections.abc import Callable, Generator, Iterator
from pathlib import Path
from typing import Any

import hypothesis
import pytest

ROOT = Path(__file__).resolve().parent.parent
STATE = ROOT / ".full_run"
SOURCES = "src tests autograde source_notebooks course demo_data docs requirements environment.py pyproject.toml"
PASSING = ("__pycache__", ".ipynb_checkpoints")  # folders that come and go without being a source
PLAIN_EXAMPLES, FULL_EXAMPLES = 25, 1000
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
BROWSER_ARGS = """--no-sandbox --disable-gpu --disable-background-networking --disable-component-update --disable-sync
    --no-first-run"""

Figures = list[tuple[str, Any]]
Report = pytest.TestReport | pytest.CollectReport
DONE_BEFORE = pytest.StashKey[set[str]]()


def source_digest(root: Path, sources: list[str]) -> str:
    """Digest of every source file with its name, and of the Python that runs it."""
    digest = hashlib.sha256(sys.version.encode())
    for source in sources:
        start = root / source
        files = [start] if start.is_file() else sorted(path for path in start.rglob("*") if path.is_file())
        for path in files:
            if not set(PASSING) & set(path.parts):
                digest.update(f"\0{path.relative_to(root).as_posix()}\0".encode())
                digest.update(hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()


class FullRun:
    """The tests that passed already for these sources, and their figures; one line of a file for each."""

    def __init__(self, folder: Path, digest: str) -> None:
        self.path = folder / f"{digest[:16]}.jsonl"
        self.passed: dict[str, Figures] = {}
        folder.mkdir(exist_ok=True)
        for other in folder.glob("*.jsonl"):
            if other != self.path:
                other.unlink(missing_ok=True)
        if self.path.exists():
            for line in self.path.read_text(encoding="utf-8").splitlines():
                self._read(line)

    def _read(self, line: str) -> None:
        try:
            record = json.loads(line)
        except ValueError:  # the run was killed while it wrote this line: that test runs again
            return
        self.passed[record["test"]] = [(name, value) for name, value in record["figures"]]

    def add(self, test: str, figures: Figures) -> None:
        """Writes down that a test passed."""
        with self.path.open("a", encoding="utf-8") as file:
            file.write("\n" + json.dumps({"test": test, "figures": figures}))


class Book:
    """Keeps the figures of a run, and in a full run what has passed. Lives in the process that reports."""

    def __init__(self, full_run: FullRun | None) -> None:
        self.full_run = full_run
        self.figures: dict[str, Figures] = dict(full_run.passed) if full_run else {}
        self.left_out = 0
        self.spoilt: set[str] = set()

    @pytest.hookimpl(optionalhook=True)
    def pytest_configure_node(self, node: Any) -> None:
        """Gives each worker the same list of what has passed."""
        node.workerinput["done_before"] = list(self.full_run.passed) if self.full_run else []

    @pytest.hookimpl(optionalhook=True)
    def pytest_testnodedown(self, node: Any) -> None:
        """Takes from a worker how many tests it left out; each leaves out the same ones."""
        self.left_out = max(self.left_out, getattr(node, "workeroutput", {}).get("left_out", 0))

    def pytest_deselected(self, items: list[pytest.Item]) -> None:
        """Counts what is left out where there are no workers."""
        before = set(self.full_run.passed) if self.full_run else set()
        self.left_out += sum(item.nodeid in before for item in items)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Notes a test's figures, and that it passed once its last phase is over."""
        if report.outcome != "passed":
            self.spoilt.add(report.nodeid)
        if report.when != "teardown":
            return
        properties = report.user_properties
        figures = [(str(pair[0]), pair[1]) for name, pair in properties if name == "figure" and isinstance(pair, tuple)]
        self.figures[report.nodeid] = figures
        if self.full_run and report.nodeid not in self.spoilt:
            self.full_run.add(report.nodeid, figures)

    def pytest_terminal_summary(self, terminalreporter: Any) -> None:
        """Prints the figures, those of earlier full runs included."""
        rows = [(name, value) for test in sorted(self.figures) for name, value in self.figures[test]]
        if rows:
            terminalreporter.section("figures")
            for name, value in rows:
                terminalreporter.write_line(f"{name}: {value}")
        if self.left_out:
            left_out = f"{self.left_out} not run again: they passed in an earlier full run of the same sources."
            terminalreporter.write_line(left_out)


def pytest_addoption(parser: pytest.Parser) -> None:
    """Adds `--full`."""
    parser.addoption("--full", action="store_true", help="the large counts; goes on where the last full run ended")


def pytest_configure(config: pytest.Config) -> None:
    """Sets hypothesis up for the mode, and opens the book where this process is the one that reports."""
    full = config.getoption("--full")
    hypothesis.settings.register_profile(
        "coldwright",
        derandomize=True,
        database=None,
        deadline=None,
        max_examples=FULL_EXAMPLES if full else PLAIN_EXAMPLES,
    )
    hypothesis.settings.load_profile("coldwright")
    if hasattr(config, "workerinput"):
        config.stash[DONE_BEFORE] = set(config.workerinput["done_before"])
        return
    full_run = FullRun(STATE, source_digest(ROOT, SOURCES.split())) if full else None
    config.stash[DONE_BEFORE] = set(full_run.passed) if full_run else set()
    config.pluginmanager.register(Book(full_run), "coldwright-book")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leaves out what has passed already for the same sources."""
    before = config.stash[DONE_BEFORE]
    done = [item for item in items if item.nodeid in before]
    if hasattr(config, "workeroutput"):
        config.workeroutput["left_out"] = len(done)
    if done:
        config.hook.pytest_deselected(items=done)
        items[:] = [item for item in items if item.nodeid not in before]


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """A full run with nothing left to do has passed."""
    before = session.config.stash[DONE_BEFORE]
    if session.exitstatus == pytest.ExitCode.NO_TESTS_COLLECTED and before:
        session.exitstatus = pytest.ExitCode.OK


def _no_skip(report: Report) -> None:
    if os.environ.get("CI") == "true" and report.skipped and not hasattr(report, "wasxfail"):
        reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome = "failed"
        report.longrepr = f"skipped, which is an error where CI=true. {reason}"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, Report, Report]:
    """In CI nothing is skipped silently: a skipped test is an error."""
    report = yield
    _no_skip(report)
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, Report, Report]:
    """In CI a file that skips itself is an error."""
    report = yield
    _no_skip(report)
    return report


@pytest.fixture(scope="session")
def sample(pytestconfig: pytest.Config) -> Callable[..., int]:
    """How many to try: `sample(small=20, full=200)` is 20, and 200 with `--full`."""

    def count(small: int = 20, full: int = 200) -> int:
        return full if pytestconfig.getoption("--full") else small

    return count


@pytest.fixture
def figure(request: pytest.FixtureRequest) -> Callable[[str, Any], None]:
    """Puts a named figure into the list at the end of the run: `figure("tickets told apart", "84 %")`."""

    def record(name: str, value: Any) -> None:
        request.node.user_properties.append(("figure", (name, value if isinstance(value, int | float) else str(value))))

    return record


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """A headless Chromium, by playwright's plain (not async) interface.

    One for each test file, not one for all: as long as it is open, `asyncio.run` refuses to work in this process.
    """
    path = next(filter(None, map(shutil.which, BROWSERS)), None)
    if path is None:
        pytest.skip(f"no browser here; one of {', '.join(BROWSERS)} is needed")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=path, args=BROWSER_ARGS.split(), headless=True)
        yield opened
        opened.close()
