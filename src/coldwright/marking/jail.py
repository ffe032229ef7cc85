"""The jail: the command line of bubblewrap, what of the machine is seen inside it, and the system calls it refuses.

Nothing of the machine is visible but Python, its packages and this package, read-only. One small folder in memory can
be written. There is no network, no other process, no environment and no way to become root.
"""

from __future__ import annotations

import os
import platform
import re
import secrets
import shutil
import struct
import subprocess
import sys
from dataclasses import dataclass
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[1]
INSIDE = PACKAGE / "marking" / "inside.py"
JOB_FOLDER = "/job"
ENVIRONMENT = {
    "HOME": JOB_FOLDER,
    "LANG": "C.UTF-8",
    "OPENBLAS_NUM_THREADS": "1",
    "OMP_NUM_THREADS": "1",
    "PYTHONHASHSEED": "0",  # so that marking again gives the same values
}
PYTHON_FLAGS = "-sPSB"  # no user packages, no script folder on the path, no start-up hooks, no compiled files written

_SYSTEM = ("/usr/lib", "/usr/lib64", "/usr/lib32", "/usr/local/lib")
_LINKS = ("/lib", "/lib64", "/lib32")
_OF_ETC = ("/etc/ld.so.cache", "/etc/alternatives")
_FREE_USERS = (2_000_000_000, 100_000_000)  # numbers that no distribution gives to a user: first, how many
_OLDEST, _HAS_TMPFS_SIZE = (0, 5), (0, 7)

_EPERM, _ENOSYS = 1, 38
_NEW_NAMESPACES = 0x7E020000  # the CLONE_NEW... flags of clone
_REFUSED = {  # system calls: number on x86_64, number on aarch64
    "socket": (41, 198),
    "ptrace": (101, 117),
    "unshare": (272, 97),
    "setns": (308, 268),
    "mount": (165, 40),
    "umount2": (166, 39),
    "pivot_root": (155, 41),
    "chroot": (161, 51),
    "open_tree": (428, 428),
    "move_mount": (429, 429),
    "fsopen": (430, 430),
    "fsmount": (432, 432),
    "mount_setattr": (442, 442),
    "add_key": (248, 217),
    "request_key": (249, 218),
    "keyctl": (250, 219),
    "bpf": (321, 280),
    "perf_event_open": (298, 241),
    "userfaultfd": (323, 282),
    "io_uring_setup": (425, 425),
    "process_vm_readv": (310, 270),
    "process_vm_writev": (311, 271),
    "memfd_create": (319, 279),  # memory that the limit on a process does not count, as the three after it
    "shmget": (29, 194),
    "msgget": (68, 186),
    "semget": (64, 190),
    "mq_open": (240, 180),
    "syslog": (103, 116),
    "acct": (163, 89),
}
_MACHINES = {"x86_64": (0, 0xC000003E, 56), "aarch64": (1, 0xC00000B7, 220)}  # column, audit number, number of clone
_CLONE3 = 435  # on both


@dataclass(frozen=True)
class Jail:
    """bubblewrap as it is on this machine. `version` as (major, minor)."""

    program: str
    version: tuple[int, int]


@cache
def find_jail() -> Jail | None:
    """The jail that this machine offers, not yet tried; None if there is none."""
    program = shutil.which("bwrap") if sys.platform == "linux" and platform.machine() in _MACHINES else None
    if program is None:
        return None
    said = subprocess.run([program, "--version"], capture_output=True, text=True, check=False).stdout
    found = re.search(r"(\d+)\.(\d+)", said)
    version = (int(found[1]), int(found[2])) if found else (0, 0)
    return Jail(program, version) if version >= _OLDEST else None


def system_call_filter(machine: str) -> bytes:
    """Program for the kernel (seccomp, classic BPF) that refuses system calls no answer needs.

    Refused are sockets, new namespaces and mounts, memory that no limit counts, and looking into other processes. All
    else is let through; what it may touch is up to the other walls.

    Parameters
    ----------
    machine : str
        Kind of processor, `x86_64` or `aarch64` [-]
    """
    column, audit_number, clone = _MACHINES[machine]
    load, jump_equal, jump_from, jump_bits, give = 0x20, 0x15, 0x35, 0x45, 0x06
    kill, allow = 0x80000000, 0x7FFF0000
    refuse, unknown = 0x00050000 | _EPERM, 0x00050000 | _ENOSYS
    steps = [(load, 0, 0, 4), (jump_equal, 1, 0, audit_number), (give, 0, 0, kill)]
    steps += [(load, 0, 0, 0), (jump_from, 0, 1, 0x40000000), (give, 0, 0, kill)]  # the second set of x86_64's numbers
    steps += [(jump_equal, 0, 1, _CLONE3), (give, 0, 0, unknown)]  # its flags cannot be seen; libraries then use clone
    for numbers in _REFUSED.values():
        steps += [(jump_equal, 0, 1, numbers[column]), (give, 0, 0, refuse)]
    steps += [(jump_equal, 0, 3, clone), (load, 0, 0, 16), (jump_bits, 0, 1, _NEW_NAMESPACES), (give, 0, 0, refuse)]
    steps += [(give, 0, 0, allow)]
    return b"".join(struct.pack("=HBBI", *step) for step in steps)


def package_folders() -> list[str]:
    """Folders to look for packages in: where this package lies, then Python's own."""
    found = [path for path in sys.path if Path(path).name in ("site-packages", "dist-packages") and Path(path).is_dir()]
    return list(dict.fromkeys([str(PACKAGE.parent), *found]))


def python_program() -> str:
    """The real Python program behind the environment that runs this."""
    return os.path.realpath(sys.executable)


def free_user() -> int | None:
    """Number of a user that owns nothing, a new one for each run; None where this is not root anyway."""
    if os.getuid() != 0:
        return None
    first, count = _FREE_USERS
    with open("/proc/self/uid_map", encoding="ascii") as file:
        most = max(int(line.split()[0]) + int(line.split()[2]) for line in file)
    return first + secrets.randbelow(count) if most >= first + count else min(most, 65_535) - 1


def visible_paths() -> list[str]:
    """What of this machine is seen inside, all of it read-only."""
    prefix = Path(sys.base_prefix)
    python = [prefix / "lib", prefix / "lib64", Path(python_program())]
    paths = [*_SYSTEM, *_OF_ETC, *map(str, python), *package_folders()[1:], str(PACKAGE)]
    return [path for path in dict.fromkeys(paths) if os.path.exists(path)]


def jail_command(jail: Jail, filter_fd: int, folder_bytes: int) -> list[str]:
    """Command line that starts the program inside, in the jail.

    Parameters
    ----------
    jail : Jail
        What this machine offers [-]
    filter_fd : int
        Open file with the system call filter [-]
    folder_bytes : int
        Size of the folder that can be written [B]
    """
    spaces = ["--unshare-ipc", "--unshare-pid", "--unshare-net", "--unshare-uts", "--unshare-cgroup-try"]
    if os.getuid() == 0:
        # Root stays root until the program inside changes to a user of its own: the limit on processes binds only one.
        rights = ["--cap-drop", "ALL", "--cap-add", "CAP_SETUID", "--cap-add", "CAP_SETGID"]
    else:
        rights = ["--unshare-user", "--uid", "65534", "--gid", "65534"]
    settings = [part for name, value in ENVIRONMENT.items() for part in ("--setenv", name, value)]
    command = [jail.program, *spaces, *rights, "--die-with-parent", "--new-session", "--clearenv", *settings]
    paths = visible_paths()
    above = dict.fromkeys(str(folder) for path in paths for folder in reversed(Path(path).parents))
    for folder in above:
        if folder != "/":
            command += ["--perms", "0755", "--dir", folder]
    for path in paths:
        command += ["--ro-bind", path, path]
    for link in _LINKS:
        if os.path.islink(link):
            command += ["--symlink", os.readlink(link), link]
        elif os.path.isdir(link):
            command += ["--ro-bind", link, link]
    command += ["--dev", "/dev", "--remount-ro", "/dev"]
    if jail.version >= _HAS_TMPFS_SIZE:
        command += ["--perms", "1777", "--size", str(folder_bytes), "--tmpfs", JOB_FOLDER]
    else:
        command += ["--dir", JOB_FOLDER]
    command += ["--remount-ro", "/", "--chdir", JOB_FOLDER, "--seccomp", str(filter_fd)]
    return [*command, python_program(), PYTHON_FLAGS, str(INSIDE)]
