"""Opening the course in JupyterLab, with settings of its own."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from coldwright.course.jupyter_settings import HOST, command, environment, write_settings
from coldwright.course.start_page import PAGE
from coldwright.course.study import PRIVATE
from coldwright.errors import CourseError

LOG = "jupyter.log"
START_S = 90.0
STOP_S = 10.0


def open_course(folder: Path, browser: bool = True, port: int | None = None) -> int:
    """Open a copy of the course in JupyterLab and wait until it is closed; gives the exit code.

    Parameters
    ----------
    folder : Path
        The learner's own copy [-]
    browser : bool
        Whether to open a browser at it [-]
    port : int, optional
        Port to serve on; a free one if left out [-]

    Raises
    ------
    CourseError
        If the port cannot be had or JupyterLab does not start; the message says where its log lies.
    """
    check_port(port)
    private = folder.absolute() / PRIVATE
    log = private / LOG
    try:
        write_settings(private)
        handle = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    except OSError as error:
        raise CourseError(f"JupyterLab cannot keep its settings in {private}: {error.strerror}") from None
    with (
        os.fdopen(handle, "wb") as noise,
        tempfile.TemporaryDirectory(prefix="coldwright-", ignore_cleanup_errors=True) as runtime,
        _signals_stop(),
    ):
        child: subprocess.Popen[bytes] | None = None
        try:
            child = subprocess.Popen(
                command(folder.absolute(), port),
                env=environment(os.environ, private, Path(runtime)),
                cwd=folder,
                stdin=subprocess.DEVNULL,
                stdout=noise,
                stderr=subprocess.STDOUT,
                **_own_group(),
            )
            address = _wait_for_address(child, Path(runtime), log)
            print(f"The course is open at {address} (press Ctrl-C here to close it)", flush=True)
            if browser and not open_browser(address):
                print("No browser was found. Copy the address into one yourself.", file=sys.stderr, flush=True)
            if child.wait() != 0:
                raise CourseError(f"JupyterLab stopped by itself (exit code {child.returncode}); its log is {log}")
        except KeyboardInterrupt:
            print("\nThe course is closed. What you saved is kept.", file=sys.stderr, flush=True)
        finally:
            if child is not None:
                _stop(child)
    return 0


def check_port(port: int | None) -> None:
    """Check that a port is one, and free.

    Parameters
    ----------
    port : int or None
        The port asked for; None is always right [-]

    Raises
    ------
    CourseError
        If it is out of range, taken, or not allowed.
    """
    if port is None:
        return
    if not 1 <= port <= 65535:
        raise CourseError(f"port is {port}; it must lie between 1 and 65535. Leave --port out and a free one is used")
    with socket.socket() as tried:
        if os.name == "posix":  # a port that was just in use is free again; elsewhere the option means something else
            tried.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            tried.bind((HOST, port))
        except PermissionError:
            raise CourseError(f"port {port} is not allowed on this machine; leave --port out") from None
        except OSError:
            raise CourseError(
                f"port {port} is taken by another program, or the course is open already. "
                "Leave --port out and a free one is used"
            ) from None


def open_browser(address: str) -> bool:
    """Whether a browser with a window opened at an address.

    Parameters
    ----------
    address : str
        The address [-]
    """
    if sys.platform.startswith("linux") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return False
    try:
        return webbrowser.open(address)
    except webbrowser.Error:
        return False


def _wait_for_address(child: subprocess.Popen[bytes], runtime: Path, log: Path) -> str:
    end = time.monotonic() + START_S
    while time.monotonic() < end:
        if child.poll() is not None:
            raise CourseError(f"JupyterLab did not start (exit code {child.returncode}); its log is {log}")
        for info in runtime.glob("jpserver-*.json"):
            try:
                found = json.loads(info.read_text(encoding="utf-8"))
                if not _answers(found["port"]):  # it says where it will be before it is there
                    break
                return f"{found['url']}lab/tree/{PAGE}?token={found['token']}"
            except ValueError:  # it is being written just now
                break
        time.sleep(0.1)
    raise CourseError(f"JupyterLab did not start within {START_S:.0f} s; its log is {log}")


def _answers(port: int) -> bool:
    try:
        with socket.create_connection((HOST, port), timeout=1.0):
            return True
    except OSError:
        return False


def _own_group() -> dict[str, Any]:
    """So that Ctrl-C reaches us alone, and we close JupyterLab without its asking back."""
    if sys.platform == "win32":
        return {"creationflags": subprocess.CREATE_NEW_PROCESS_GROUP}
    return {"start_new_session": True}


@contextmanager
def _signals_stop() -> Iterator[None]:
    """A closed terminal and a request to end do the same as Ctrl-C."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    names = [name for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    before = {name: signal.signal(getattr(signal, name), stop) for name in names}
    try:
        yield
    finally:
        for name, handler in before.items():
            signal.signal(getattr(signal, name), handler)


def _stop(child: subprocess.Popen[bytes]) -> None:
    if child.poll() is None:
        child.terminate()
        try:
            child.wait(STOP_S)
        except subprocess.TimeoutExpired:
            child.kill()
            child.wait()
