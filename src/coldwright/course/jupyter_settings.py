"""What JupyterLab starts with: the course's own settings, apart from any other Jupyter of the person."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from coldwright.course.start_page import PAGE
from coldwright.labs.files import write_whole

HOST = "127.0.0.1"

SERVER = {
    "ServerApp": {
        "ip": HOST,
        "open_browser": False,
        "jpserver_extensions": {  # for instructors, or of no use here
            "nbgrader.server_extensions.formgrader": False,
            "nbgrader.server_extensions.assignment_list": False,
            "nbgrader.server_extensions.course_list": False,
            "nbgrader.server_extensions.validate_assignment": False,
            "jupyterlab_jupytext": False,
            "jupyter_lsp": False,
        },
    },
    "LabApp": {
        "default_url": f"/lab/tree/{PAGE}",
        "news_url": None,
        "check_for_updates_class": "jupyterlab.NeverCheckForUpdate",
        "extension_manager": "readonly",
    },
}
LEFT_OUT = {
    "@jupyter/nbgrader": True,
    "jupyterlab-jupytext": True,
    "@jupyterlab/apputils-extension:announcements": True,
    "@jupyterlab/extensionmanager-extension": True,
    "@jupyterlab/lsp-extension": True,
}
DEFAULTS = {
    "@jupyterlab/docmanager-extension:plugin": {"defaultViewers": {"markdown": "Markdown Preview"}},
    "@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False},
}
FROM_OUTSIDE = ("JUPYTER", "IPYTHON", "PYTHONSTARTUP")  # settings of another Jupyter stay out


def write_settings(private: Path) -> None:
    """Write what JupyterLab starts with; what a learner sets in its menus lies elsewhere and stays.

    Parameters
    ----------
    private : Path
        Folder for the course's own files in the learner's copy [-]
    """
    files: Mapping[str, Mapping[str, Any]] = {
        "jupyter_server_config.json": SERVER,
        "labconfig/page_config.json": {"disabledExtensions": LEFT_OUT},
        "labconfig/default_setting_overrides.json": DEFAULTS,
    }
    for name, data in files.items():
        write_whole(private / "config" / name, (json.dumps(data, indent=1) + "\n").encode())


def command(folder: Path, port: int | None) -> list[str]:
    """The command that starts JupyterLab.

    Parameters
    ----------
    folder : Path
        The learner's own copy [-]
    port : int or None
        Port to serve on [-]
    """
    found = [sys.executable, "-m", "jupyterlab", f"--ServerApp.root_dir={folder}"]
    if port is not None:
        found += [f"--ServerApp.port={port}", "--ServerApp.port_retries=0"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        found.append("--allow-root")
    return found


def environment(outside: Mapping[str, str], private: Path, runtime: Path) -> dict[str, str]:
    """The settings JupyterLab runs with: a person's own Jupyter stays out of it.

    Parameters
    ----------
    outside : mapping of str to str
        This process's settings [-]
    private : Path
        Folder for the course's own files in the learner's copy [-]
    runtime : Path
        Folder for this run alone [-]
    """
    kept = {name: value for name, value in outside.items() if not name.upper().startswith(FROM_OUTSIDE)}
    return kept | {
        "JUPYTER_CONFIG_DIR": str(private / "config"),
        "JUPYTER_DATA_DIR": str(private / "data"),
        "JUPYTER_RUNTIME_DIR": str(runtime),
        "JUPYTERLAB_SETTINGS_DIR": str(private / "settings"),
        "JUPYTERLAB_WORKSPACES_DIR": str(private / "workspaces"),
        "JUPYTER_PREFER_ENV_PATH": "1",
        "IPYTHONDIR": str(private / "ipython"),
    }
