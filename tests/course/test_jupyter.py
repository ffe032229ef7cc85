"""Opening the course: settings, ports, a clean end. No browser here; that is test_jupyter_browser.py."""

import json
import os
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
import webbrowser
from pathlib import Path

import pytest

from coldwright.course import jupyter
from coldwright.course.jupyter import check_port, open_browser, open_course
from coldwright.course.jupyter_settings import command, environment, write_settings
from coldwright.errors import CourseError
from tests.course.open_course import opened

POSIX = pytest.mark.skipif(os.name != "posix", reason="signals of another kind")


def test_a_taken_port_and_a_wrong_one_are_said() -> None:
    """A port in use, and one out of range, are named with what to do."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(CourseError, match=f"port {port} is taken by another program, or the course is open alr"):
            check_port(port)
    for port in (0, 65536, -1):
        with pytest.raises(CourseError, match=f"port is {port}; it must lie between 1 and 65535"):
            check_port(port)
    check_port(None)


def test_a_persons_own_jupyter_stays_out(tmp_path: Path) -> None:
    """No setting of another Jupyter or IPython comes in; the rest of the surroundings does."""
    outside = {"PATH": "/bin", "JUPYTER_PATH": "/x", "JUPYTERLAB_DIR": "/x", "IPYTHONDIR": "/x", "JUPYTER_TOKEN": "x"}

    found = environment(outside, tmp_path / "private", tmp_path / "run")

    assert found["PATH"] == "/bin"
    assert not {"JUPYTER_PATH", "JUPYTERLAB_DIR", "JUPYTER_TOKEN"} & set(found)
    assert "/x" not in found.values()
    assert found["JUPYTER_CONFIG_DIR"] == str(tmp_path / "private" / "config")


def test_only_root_is_let_run_as_root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The flag that JupyterLab wants of root is given to root alone, and a chosen port is kept to."""
    monkeypatch.setattr(os, "geteuid", lambda: 1000, raising=False)
    assert "--allow-root" not in command(tmp_path, None)
    monkeypatch.setattr(os, "geteuid", lambda: 0, raising=False)
    assert "--allow-root" in command(tmp_path, None)
    assert command(tmp_path, 9001)[-3:-1] == ["--ServerApp.port=9001", "--ServerApp.port_retries=0"]


def test_what_a_learner_set_is_kept(tmp_path: Path) -> None:
    """Starting again writes the course's defaults, not over what the learner chose in the menus."""
    write_settings(tmp_path)
    chosen = tmp_path / "settings" / "theme.jupyterlab-settings"
    chosen.parent.mkdir()
    chosen.write_text('{"theme": "dark"}', encoding="utf-8")

    write_settings(tmp_path)

    assert chosen.read_text(encoding="utf-8") == '{"theme": "dark"}'
    defaults = json.loads((tmp_path / "config" / "labconfig" / "default_setting_overrides.json").read_text())
    assert defaults["@jupyterlab/docmanager-extension:plugin"]["defaultViewers"] == {"markdown": "Markdown Preview"}


def test_without_a_window_there_is_no_browser(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no window can open, or no browser is found, the answer is no; no text browser is started."""
    asked: list[str] = []
    monkeypatch.setattr(webbrowser, "open", lambda address: asked.append(address) or True)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    assert open_browser("http://127.0.0.1/") is False
    assert asked == []

    monkeypatch.setenv("DISPLAY", ":0")
    assert open_browser("http://127.0.0.1/") is True
    assert asked == ["http://127.0.0.1/"]

    def none(_address: str) -> bool:
        raise webbrowser.Error("could not locate runnable browser")

    monkeypatch.setattr(webbrowser, "open", none)
    assert open_browser("http://127.0.0.1/") is False


def test_a_start_that_fails_names_its_log(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """If JupyterLab ends before it serves, the message gives its exit code and where the log lies."""
    failing = [sys.executable, "-c", "print('trouble'); raise SystemExit(3)"]
    monkeypatch.setattr(jupyter, "command", lambda _folder, _port: failing)

    with pytest.raises(CourseError, match=r"JupyterLab did not start \(exit code 3\); its log is .*jupyter\.log"):
        open_course(tmp_path, browser=False)

    assert (tmp_path / ".coldwright" / "jupyter.log").read_text(encoding="utf-8").strip() == "trouble"


def test_a_start_that_hangs_is_given_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """If JupyterLab never serves, it is stopped, and the message says how long was waited."""
    monkeypatch.setattr(
        jupyter, "command", lambda _folder, _port: [sys.executable, "-c", "import time; time.sleep(60)"]
    )
    monkeypatch.setattr(jupyter, "START_S", 1.0)

    with pytest.raises(CourseError, match="JupyterLab did not start within 1 s; its log is"):
        open_course(tmp_path, browser=False)


@POSIX
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_ctrl_c_ends_the_course_and_leaves_nothing_running(tmp_path: Path, name: str) -> None:
    """Ctrl-C, a request to end and a closed terminal end it with 0; nothing answers at the address any more."""
    with opened(tmp_path) as course:
        status = urllib.request.urlopen(f"{course.base}api/status?token={course.token}", timeout=10).status
        assert status == 200
        with pytest.raises(urllib.error.HTTPError, match="403"):
            urllib.request.urlopen(f"{course.base}api/sessions", timeout=10)
        course.process.send_signal(getattr(signal, name))
        assert course.process.wait(20) == 0
        with pytest.raises(OSError, match="refused"):
            urllib.request.urlopen(course.base, timeout=10)
    assert course.said == [
        f"The course is open at {course.address} (press Ctrl-C here to close it)",
        "The course is closed. What you saved is kept.",
    ]


@POSIX
def test_the_learners_jupyter_is_without_the_instructors_side(tmp_path: Path) -> None:
    """The grading server extensions are off, and the page says so to the grading menus."""
    with opened(tmp_path) as course:
        log = (tmp_path / ".coldwright" / "jupyter.log").read_text(encoding="utf-8")
        page = urllib.request.urlopen(f"{course.base}lab?token={course.token}", timeout=20).read().decode()
    assert "jupyterlab | extension was successfully loaded" in log
    assert "nbgrader" not in log
    start = page.index('<script id="jupyter-config-data" type="application/json">')
    config = json.loads(page[page.index("{", start) : page.index("</script>", start)])
    assert "@jupyter/nbgrader" in config["disabledExtensions"]
    assert config["news"] == {"disabled": True}


def test_the_log_is_for_the_learner_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The log holds the address with its token, so that other people of the machine may not read it."""
    monkeypatch.setattr(jupyter, "command", lambda _folder, _port: [sys.executable, "-c", "raise SystemExit(1)"])
    with pytest.raises(CourseError, match="did not start"):
        open_course(tmp_path, browser=False)

    if os.name == "posix":
        assert (tmp_path / ".coldwright" / "jupyter.log").stat().st_mode & 0o077 == 0


def test_the_parts_are_imported_late() -> None:
    """The commands start fast: opening and copying import neither Jupyter nor jupytext into this process."""
    program = "import sys, coldwright.course.jupyter, coldwright.course.study, coldwright.course.build\n"
    program += "print({'jupytext', 'nbformat', 'jupyterlab', 'jupyter_server'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "set()"
