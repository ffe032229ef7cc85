"""The course's own Python environment, `.venv`: made, checked and used with the standard library alone.

The locked versions from `requirements/` go in. A trace file is written first and says that the folder is ours; a
marker file is written last and says that all of it is there. An environment without a matching marker is never used.

Old Pythons must be able to read this file and say what is wrong: it keeps to the syntax of Python 3.6.
"""

import contextlib
import errno
import hashlib
import importlib.util
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from typing import IO

ROOT = os.path.dirname(os.path.abspath(__file__))
OLDEST = (3, 11)
WINDOWS = "win32"
TRACE = "coldwright-made-this.txt"
MARKER = "coldwright-ready.json"
LOG = "coldwright-set-up.log"

GOOD, ABSENT, FOREIGN, REMAKE, GROW = "good", "absent", "foreign", "remake", "grow"

PIP_INSTALL = """-m pip install --require-hashes --no-deps --only-binary :all: --no-user --no-input
    --disable-pip-version-check --progress-bar off -r"""
PIP_KEEPS = """INDEX_URL EXTRA_INDEX_URL NO_INDEX FIND_LINKS TRUSTED_HOST CERT CLIENT_CERT PROXY TIMEOUT DEFAULT_TIMEOUT
    RETRIES CACHE_DIR NO_CACHE_DIR CONFIG_FILE KEYRING_PROVIDER"""  # how packages are reached; no other PIP_* comes in
LEFT_OUTSIDE = """PYTHONPATH PYTHONHOME PYTHONSTARTUP PYTHONUSERBASE PYTHONPLATLIBDIR PYTHONEXECUTABLE PYTHONSAFEPATH
    PYTHONOPTIMIZE PYTHONINSPECT __PYVENV_LAUNCHER__ VIRTUAL_ENV VIRTUAL_ENV_PROMPT CONDA_PREFIX"""
COUNT_PINS = """
import sys, importlib.metadata as installed
def there(pin):
    name, version = pin.split("==")
    try:
        return installed.version(name) == version
    except installed.PackageNotFoundError:
        return False
print(sum(there(pin) for pin in sys.argv[1:]))
"""

FULL_DISK = "The disk is full. The course needs about 1 GB. Free some space and run the same command again."
NO_RIGHTS = "You may not write in {root}. Put the course in a folder of your own and run the same command there."
IN_USE = "A program still uses .venv. Close JupyterLab and all else of the course, then run the same command again."
PIP_TROUBLES = (  # what pip's words mean for the person; the first that fits is said
    (r"No space left on device|Errno 28\b|Disk quota exceeded", FULL_DISK),
    (r"Permission denied|Errno 13\b|Read-only file system", NO_RIGHTS),
    (r"Long Path support", "The path {root} is too long for Windows. Move the course to a short one, like C:\\course."),
    (
        r"DO NOT MATCH THE HASHES|Hashes are required",
        "A fetched package is not the one the course was tested with, so it was not used. Run the same command again. "
        "If it stays so, ask whoever runs your network.",
    ),
    (
        r"NewConnectionError|NameResolutionError|Timeout|ProxyError|SSLError|connection broken|ConnectionResetError",
        "The packages cannot be fetched: there is no way to the internet from here. Connect (behind a proxy, set "
        "HTTPS_PROXY) and run the same command again.",
    ),
    (
        r"No matching distribution found for (?P<name>\S+)",
        "There is no ready package {name} for this system and Python {python}. Try another Python, 3.11 to 3.14.",
    ),
)


class SetUpError(Exception):
    """The environment cannot be made; the message says why and what to do."""


# What each system calls things


def bin_folder(venv: str, system: str = sys.platform) -> str:
    """Folder of the environment's programs."""
    return os.path.join(venv, "Scripts" if system == WINDOWS else "bin")


def python_of(venv: str, system: str = sys.platform) -> str:
    """Path of the environment's Python."""
    return os.path.join(bin_folder(venv, system), "python.exe" if system == WINDOWS else "python")


def site_packages(venv: str, system: str = sys.platform, version: "tuple[int, ...]" = sys.version_info[:2]) -> str:
    """Folder that packages are installed in."""
    if system == WINDOWS:
        return os.path.join(venv, "Lib", "site-packages")
    return os.path.join(venv, "lib", f"python{version[0]}.{version[1]}", "site-packages")


def venv_hint(system: str, os_release: str, version: "tuple[int, ...]" = sys.version_info[:2]) -> str:
    """What to do where Python came without its `venv` or `ensurepip` part."""
    if system.startswith("linux") and re.search(r"^ID(_LIKE)?=.*(debian|ubuntu)", os_release, re.MULTILINE):
        return f"Run: sudo apt install python{version[0]}.{version[1]}-venv"
    if system.startswith("linux"):
        return "Install your system's package for it; its name often ends in -venv or -pip."
    return "Install Python again with all its parts."


def outside_settings(environ: "dict[str, str]") -> "dict[str, str]":
    """The settings of the outside without those that would bend our Python or pip."""
    kept = {}
    for name, value in environ.items():
        upper = name.upper()
        if upper not in LEFT_OUTSIDE.split() and (upper[:4] != "PIP_" or upper[4:] in PIP_KEEPS.split()):
            kept[name] = value
    kept["PYTHONNOUSERSITE"] = "1"
    return kept


def working_settings(environ: "dict[str, str]", venv: str, system: str = sys.platform) -> "dict[str, str]":
    """Settings for a command in the environment: its programs come first in PATH, text is UTF-8."""
    settings = outside_settings(environ)
    name = "PATH"
    if system == WINDOWS:  # there the name may be written Path, and two of them would be one too many
        name = next((key for key in settings if key.upper() == "PATH"), "PATH")
    rest = settings.get(name)
    settings[name] = bin_folder(venv, system) + ((";" if system == WINDOWS else ":") + rest if rest else "")
    settings["VIRTUAL_ENV"] = venv
    settings.setdefault("PYTHONUTF8", "1")
    return settings


def take(file: "IO[str]", system: str = sys.platform) -> bool:
    """Whether this process now holds the lock on an open file; the system frees it when its holder ends."""
    if system == WINDOWS:
        import msvcrt

        os.lseek(file.fileno(), 1 << 30, os.SEEK_SET)  # a byte far past the end: the process number stays readable
        try:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined]
        except OSError:
            return False
        return True
    import fcntl

    try:
        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError as error:
        if error.errno not in (errno.ENOLCK, errno.ENOTSUP):
            raise
        say("This disk knows no locks: do not start two set-ups at once.")
    return True


# Talk


def say(text: str) -> None:
    """Writes one line of progress, never on the stream of the answers."""
    sys.stderr.write(text + "\n")
    sys.stderr.flush()


class Progress:
    """Counts on one line of a terminal, or as a line every so often where there is no terminal."""

    def __init__(self, step: int = 40) -> None:
        self.step = step
        self.shown = ""
        self.live = sys.stderr.isatty()

    def show(self, count: int, total: int, done: str) -> None:
        """Shows `count of total packages done`, if it is news."""
        if not self.live and count < total:
            count -= count % self.step
        text = f"  {count} of {total} packages {done}"
        if count and text != self.shown:
            sys.stderr.write("\r" + text.ljust(40) if self.live else text + "\n")
            sys.stderr.flush()
            self.shown = text

    def end(self) -> None:
        """Leaves the line of the terminal."""
        if self.live and self.shown:
            say("")


# What stands there


def check_python(version: "tuple[int, ...]", executable: str) -> None:
    """Stops where the running Python is too old."""
    if version[:2] < OLDEST:
        oldest = "{}.{}".format(*OLDEST)
        raise SetUpError(
            f"This is Python {version[0]}.{version[1]} ({executable}); Python {oldest} or newer is needed. "
            f"Install a newer one and start the same command with it: python{oldest} instead of python3."
        )


def check_parts() -> None:
    """Stops where Python came without the parts that make environments."""
    missing = [part for part in ("venv", "ensurepip") if importlib.util.find_spec(part) is None]
    if missing:
        os_release = ""
        if os.path.exists("/etc/os-release"):
            with open("/etc/os-release", encoding="utf-8") as file:
                os_release = file.read()
        parts = " and no ".join(missing)
        hint = venv_hint(sys.platform, os_release)
        raise SetUpError(f"This Python has no {parts} part. {hint}\nThen run the same command again.")


def lock_path(kind: str, root: str) -> str:
    """Path of the list of locked versions."""
    return os.path.join(root, "requirements", kind + ".txt")


def facts(kind: str, root: str) -> "dict[str, str]":
    """All that an environment must have been made from and for, to be good here and now."""
    with open(lock_path(kind, root), "rb") as file:
        digest = hashlib.sha256(file.read()).hexdigest()
    python = f"{sys.implementation.name} {sys.version.split()[0]} in {os.path.realpath(sys.base_prefix)}"
    return {"kind": kind, "the locked versions": digest, "Python": python, "the folder": os.path.realpath(root)}


def read_marker(venv: str) -> "dict[str, str]":
    """What the marker says; empty where there is none or it cannot be read."""
    try:
        with open(os.path.join(venv, MARKER), encoding="utf-8") as file:
            marker = json.load(file)
    except (OSError, ValueError):
        return {}
    return marker if isinstance(marker, dict) else {}


def look(kind: str, root: str) -> "tuple[str, str, str]":
    """State of the environment, the kind it should have, and the reason where it is not good."""
    venv = os.path.join(root, ".venv")
    if not os.path.lexists(venv):
        return ABSENT, kind, ""
    if os.path.islink(venv) or not os.path.isdir(venv):
        return FOREIGN, kind, "is a link or a file"
    names = os.listdir(venv)
    if TRACE not in names:
        return (FOREIGN, kind, "was not made by the course") if names else (ABSENT, kind, "")
    marker = read_marker(venv)
    if not marker:
        return REMAKE, kind, "is only half-made"
    made_as = "tests" if marker.get("kind") == "tests" else "course"
    wider = "tests" if "tests" in (kind, made_as) else "course"
    wanted = facts(made_as, root)
    changed = [name for name in wanted if marker.get(name) != wanted[name]]
    if changed:
        return REMAKE, wider, "does not fit any more: {} changed".format(" and ".join(changed))
    if not os.path.exists(python_of(venv)):
        return REMAKE, wider, "has lost its Python"
    return (GOOD if wider == made_as else GROW), wider, ""


# Making


@contextlib.contextmanager
def only_one(root: str) -> "Iterator[IO[str]]":
    """Holds `.venv.lock`, with the process number in it; waits while another set-up holds it."""
    with open(os.path.join(root, ".venv.lock"), "a+", encoding="ascii") as file:
        if not take(file):
            file.seek(0)
            holder = file.read(20) or "unknown"
            say(f"Another set-up is at work here (process {holder}). Waiting for it to end.")
            while not take(file):
                time.sleep(0.2)
        file.seek(0)
        file.truncate()
        file.write(str(os.getpid()))
        file.flush()
        yield file


def lay_trace(venv: str) -> None:
    """Says in the folder whose it is."""
    with open(os.path.join(venv, TRACE), "w", encoding="ascii") as file:
        file.write("The course made this folder and may throw it away and make it again.\n")


def clear(venv: str) -> None:
    """Throws an environment of ours away: marker first, trace last, so that a kill in between is seen."""
    if not os.path.isdir(venv):
        return
    lay_trace(venv)
    for name in sorted(os.listdir(venv), key=lambda name: name != MARKER):
        path = os.path.join(venv, name)
        if os.path.isdir(path) and not os.path.islink(path):
            shutil.rmtree(path)
        elif name != TRACE:
            os.remove(path)
    os.remove(os.path.join(venv, TRACE))
    os.rmdir(venv)


def write_marker(venv: str, marker: "dict[str, str]") -> None:
    """Says that all is there; the file appears whole or not at all."""
    path = os.path.join(venv, MARKER)
    with open(path + ".new", "w", encoding="utf-8") as file:
        json.dump(marker, file, indent=1)
        file.flush()
        os.fsync(file.fileno())
    os.replace(path + ".new", path)


def read_log(venv: str) -> str:
    """What the step at work has printed so far."""
    with open(os.path.join(venv, LOG), encoding="utf-8", errors="replace") as file:
        return file.read()


def meaning(printed: str, root: str) -> str:
    """What went wrong, in words for a person, from what a failed step printed."""
    for pattern, words in PIP_TROUBLES:
        found = re.search(pattern, printed)
        if found:
            python = "{}.{}".format(*sys.version_info)
            return words.format(root=root, python=python, **found.groupdict())
    return "A step failed. Its last words were:\n    " + "\n    ".join(printed.strip().splitlines()[-8:])


def call(command: "list[str]", root: str, lock: "IO[str]", tick: "Callable[[str], None] | None" = None) -> str:
    """What a step of the set-up printed. It keeps our lock as long as it lives, even if we are killed before."""
    venv = os.path.join(root, ".venv")
    held = () if sys.platform == WINDOWS else (lock.fileno(),)
    with open(os.path.join(venv, LOG), "wb") as out:
        settings = outside_settings(dict(os.environ))
        child = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=out, stderr=out, env=settings, pass_fds=held)
        try:
            while child.poll() is None:
                time.sleep(0.1)
                if tick is not None:
                    tick(read_log(venv))
        except BaseException:
            child.kill()
            child.wait()
            raise
    if child.returncode:
        raise SetUpError(meaning(read_log(venv), root))
    return read_log(venv)


def install(kind: str, root: str, lock: "IO[str]") -> None:
    """Installs the locked versions and checks that each of them is really there."""
    venv = os.path.join(root, ".venv")
    python, folder = python_of(venv), site_packages(venv)
    with open(lock_path(kind, root), encoding="utf-8") as file:
        pins = re.findall(r"^([\w.-]+==[^\s;\\]+)", file.read(), re.MULTILINE)
    progress = Progress()

    def lines(printed: str, start: str) -> int:
        return len(re.findall("^" + start, printed, re.MULTILINE))

    def present() -> int:
        return sum(name.endswith(".dist-info") for name in os.listdir(folder))

    before = present()

    def tick(printed: str) -> None:
        total = len(pins) - lines(printed, "Ignoring ")  # those are for other systems
        had = lines(printed, "Requirement already satisfied")
        if lines(printed, "Installing collected packages"):
            progress.show(min(present() - before + had, total), total, "installed")
        else:
            progress.show(lines(printed, "Collecting |Processing ") + had, total, "fetched")

    printed = call([python, "-I", *PIP_INSTALL.split(), lock_path(kind, root)], root, lock, tick)
    wanted = len(pins) - lines(printed, "Ignoring ")
    progress.show(wanted, wanted, "installed")
    progress.end()
    there = int(call([python, "-I", "-c", COUNT_PINS, *pins], root, lock))
    if there < wanted:
        raise SetUpError(
            f"Only {there} of {wanted} packages arrived in .venv. A setting of pip sends them elsewhere: run "
            "`python3 -m pip config list`, take out target, prefix or root, and run the same command again."
        )


def make(kind: str, root: str, lock: "IO[str]") -> None:
    """Makes the environment from nothing; a making that fails or is stopped leaves nothing behind."""
    venv = os.path.join(root, ".venv")
    say("Setting up the course in .venv. This is done once and takes a few minutes.")
    try:
        clear(venv)
        os.mkdir(venv)
        lay_trace(venv)
        base = getattr(sys, "_base_executable", None) or sys.executable
        call([base, "-I", "-m", "venv", venv], root, lock)
        install(kind, root, lock)
        folder = site_packages(venv)
        with open(os.path.join(folder, "coldwright.pth"), "w", encoding="ascii") as file:
            file.write(os.path.relpath(os.path.join(root, "src"), folder) + "\n")
        write_marker(venv, facts(kind, root))
    except BaseException:
        clear(venv)
        raise


def grow(kind: str, root: str, lock: "IO[str]") -> None:
    """Adds the tests' packages to the course's; where pip failed before it changed anything, all stays good."""
    venv = os.path.join(root, ".venv")
    marker = read_marker(venv)
    say("Adding what the tests need to .venv.")
    os.remove(os.path.join(venv, MARKER))
    try:
        install(kind, root, lock)
        write_marker(venv, facts(kind, root))
    except BaseException:
        if "Installing collected packages" in read_log(venv):
            clear(venv)
        else:
            write_marker(venv, marker)
        raise


def mend(kind: str, root: str, lock: "IO[str]") -> None:
    """Makes, remakes or grows the environment, as its state asks; another set-up may have done it meanwhile."""
    state, wider, reason = look(kind, root)
    if state == FOREIGN:
        raise SetUpError(
            f"The .venv in {root} {reason}, so it is left alone. Rename it, or delete it if you do not need it, and "
            "run the same command again."
        )
    if state == REMAKE:
        say(f"The .venv here {reason}. It is thrown away and made again.")
    if state in (ABSENT, REMAKE):
        make(wider, root, lock)
    elif state == GROW:
        grow(wider, root, lock)


def ensure(kind: str, root: str = ROOT) -> str:
    """Path of the Python of an environment with the locked versions, which is made first if need be.

    Parameters
    ----------
    kind : str
        "course", or "tests", which holds all of "course" too
    root : str
        Folder of the course

    Returns
    -------
    str
        Path of the environment's Python

    Raises
    ------
    SetUpError
        If it cannot be made; the message says why and what to do.
    """
    check_python(sys.version_info[:2], sys.executable)
    try:
        if look(kind, root)[0] != GOOD:
            check_parts()
            with only_one(root) as lock:
                mend(kind, root, lock)
    except OSError as error:
        raise SetUpError(system_words(error, root)) from error
    return python_of(os.path.join(root, ".venv"))


def system_words(error: OSError, root: str, system: str = sys.platform) -> str:
    """What the system's refusal means for the person."""
    if error.errno in (errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC)):
        return FULL_DISK
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        in_venv = str(error.filename or "").startswith(os.path.join(root, ".venv") + os.sep)
        return IN_USE if in_venv and system == WINDOWS else NO_RIGHTS.format(root=root)
    return f"The system says: {error}."


# Using


def run(kind: str, argv: "list[str]", root: str = ROOT, cwd: "str | None" = None) -> int:
    """Exit code of the environment's Python run with these arguments; the environment is made first if need be.

    Parameters
    ----------
    kind : str
        "course" or "tests"
    argv : list of str
        Arguments for Python, such as `["-m", "coldwright", "demo"]`
    root : str
        Folder of the course
    cwd : str, optional
        Folder to run in; the current one if left out

    Returns
    -------
    int
        The command's exit code; 2 if there is no environment, 130 if it was stopped from the keyboard
    """
    try:
        python = ensure(kind, root)
    except SetUpError as error:
        say(f"The course cannot be set up. {error}")
        return 2
    except KeyboardInterrupt:
        say("\nStopped. Nothing half-made was left. Run the same command again when you like.")
        return 130
    settings = working_settings(dict(os.environ), os.path.join(root, ".venv"))
    child = subprocess.Popen([python, *argv], env=settings, cwd=cwd)
    before = signal.signal(signal.SIGTERM, lambda *_: child.terminate())
    try:
        return wait_for(child)
    finally:
        signal.signal(signal.SIGTERM, before)


def wait_for(child: "subprocess.Popen[bytes]") -> int:
    """Exit code of a command that gets the keyboard's Ctrl-C itself and may take its time to end."""
    stopped = False
    while True:
        try:
            code = child.wait()
            break
        except KeyboardInterrupt:
            stopped = True
    if stopped and code != 0:
        return 130
    return 128 - code if code < 0 else code
