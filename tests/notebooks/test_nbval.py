"""Every built notebook under nbval, with every address but this machine's own refused."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

COURSE = Path(__file__).resolve().parents[2] / "course"
NOTEBOOKS = sorted(path.relative_to(COURSE) for path in COURSE.glob("*/*.ipynb"))
NO_NETWORK = """
import socket

_connect = socket.socket.connect

def connect(self, address):
    if self.family in (socket.AF_INET, socket.AF_INET6) and address[0] not in ("127.0.0.1", "::1", "localhost"):
        raise OSError(f"the network is cut for this test: {address[0]}")
    return _connect(self, address)

socket.socket.connect = connect
"""


def test_there_are_notebooks():
    """The course is built: lesson and lab of topic 03 are among them."""
    assert {Path("03_winding_checks/lesson.ipynb"), Path("03_winding_checks/lab.ipynb")} <= set(NOTEBOOKS)


@pytest.mark.parametrize("notebook", NOTEBOOKS, ids=str)
def test_runs_under_nbval_with_the_network_cut(notebook, tmp_path):
    """As handed out, from top to bottom, no cell raises; its outcomes are asserted in the files beside this one."""
    shutil.copytree(COURSE / notebook.parent, tmp_path / "topic")
    (tmp_path / "cut").mkdir()
    (tmp_path / "cut" / "sitecustomize.py").write_text(NO_NETWORK)
    env = {**os.environ, "HOME": str(tmp_path), "PYTHONPATH": str(tmp_path / "cut")}
    refused = subprocess.run(
        [sys.executable, "-c", "import socket; socket.create_connection(('192.0.2.1', 80), timeout=2)"],
        env=env, capture_output=True, text=True,
    )  # fmt: skip
    assert "the network is cut for this test" in refused.stderr
    command = [sys.executable, "-m", "pytest", "--nbval-lax", "-q", "-p", "no:cacheprovider", notebook.name]
    done = subprocess.run(command, cwd=tmp_path / "topic", env=env, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout[-3000:]
    assert " passed" in done.stdout
