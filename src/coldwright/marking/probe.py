"""The hostile probe: what learner code must not be able to do, tried in the sandbox of this machine."""

from __future__ import annotations

import os
import socket
from pathlib import Path

from coldwright.marking.child import Limits
from coldwright.marking.jail import PACKAGE, visible_paths
from coldwright.marking.sandbox import CellToRun, RunStatus, Sandbox

BLOCKED = "blocked"
_LOOP_LIMITS = Limits(wall_s=0.3)
_ACTS = {  # what is tried: the name of its outcome in the probe
    "being root": "root",
    "a connection to this machine": "network",
    "reading /etc/shadow": "shadow",
    "reading the home folder": "home_folder",
    "writing outside its folder": "writing",
    "starting processes without end": "processes",
    "new namespaces": "namespaces",
    "more memory than allowed": "memory",
}
_PROBE = """
import ctypes, os, socket, time

def tried(act):
    try:
        return "open" if act() else "blocked"
    except BaseException:
        return "blocked"

def connect():
    return socket.create_connection(("127.0.0.1", port), 1)

def write():
    for folder in ("/", "/tmp", "/etc", "/dev", "/dev/shm", "/usr/lib", "/usr/local/lib", home, package):
        path = os.path.join(folder, "coldwright_probe")
        try:
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
        except OSError:
            continue
        os.unlink(path)
        return True

def multiply():
    for _ in range(more_processes):
        if os.fork() == 0:
            time.sleep(60)
            os._exit(0)
    return True

root = tried(lambda: os.getuid() == 0)
network = tried(connect)
shadow = tried(lambda: open("/etc/shadow"))
home_folder = tried(lambda: set(os.listdir(home)) - set(on_the_way.split("/")))
writing = tried(write)
namespaces = tried(lambda: ctypes.CDLL(None).unshare(0x10000000) == 0)
memory = tried(lambda: bytearray(more_memory))
processes = tried(multiply)
"""


def _on_the_way(home: Path) -> str:
    """What may be seen in the home folder: the ways to Python and its packages, where they lie in it."""
    paths = [Path(path) for path in visible_paths()]
    names = [path.relative_to(home).parts[0] for path in paths if home in path.parents]
    return "/".join(names + ["dev", "job", "lib", "lib32", "lib64"] * (home == Path("/")))


def canary(sandbox: Sandbox) -> list[tuple[str, bool]]:
    """What was tried, and whether it was blocked. An outcome that is not known counts as not blocked.

    Parameters
    ----------
    sandbox : Sandbox
        The sandbox to try [-]
    """
    limits, home = Limits(), Path(os.path.expanduser("~"))
    with socket.create_server(("127.0.0.1", 0)) as listener:
        settings = {
            "port": listener.getsockname()[1],
            "home": os.fspath(home),
            "package": os.fspath(PACKAGE),
            "on_the_way": _on_the_way(home),
            "more_processes": limits.processes + 20,
            "more_memory": limits.memory_mb * 1_000_000 + 1,
        }
        source = "".join(f"{name} = {value!r}\n" for name, value in settings.items()) + _PROBE
        probe = sandbox.run([CellToRun("probe", source, list(_ACTS.values()))], limits)[0]
    found = [(what, probe.values.get(name) == BLOCKED) for what, name in _ACTS.items()]
    loop = sandbox.run([CellToRun("loop", "while True:\n    pass", [])], _LOOP_LIMITS)[0]
    return [*found, ("running without end", loop.status is RunStatus.STOPPED and loop.limit == "time")]
