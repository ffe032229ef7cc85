"""The set-up: what it says, what it takes for good, and that nothing half-made is ever used.

The environments here are real ones, made by the real pip from small packages that lie in a folder: no network.
"""

import ast
import base64
import errno
import hashlib
import json
import os
import re
import signal
import subprocess
import sys
import time
import tomllib
import types
import zipfile
from pathlib import Path
from typing import Any

import pytest

import environment

ROOT = Path(environment.ROOT)
SYSTEMS = ["linux", "darwin", "win32"]
ONE_RUN = "import environment, sys; sys.exit(environment.run(sys.argv[1], sys.argv[3:], root=sys.argv[2]))"
DEBIAN = 'PRETTY_NAME="Debian GNU/Linux 12 (bookworm)"\nNAME="Debian GNU/Linux"\nID=debian\n'
MINT = 'NAME="Linux Mint"\nID=linuxmint\nID_LIKE="ubuntu debian"\n'
FEDORA = 'NAME="Fedora Linux"\nID=fedora\n'
PIP_WORDS = {  # as pip prints them, and what a person must read
    "WARNING: Retrying after connection broken by 'NewConnectionError(...)'\n"
    "ERROR: No matching distribution found for numpy==2": "no way to the internet",
    "ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device": "The disk is full",
    "ERROR: Could not install packages due to an OSError: [Errno 13] Permission denied: 'x'": "You may not write in",
    "ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.": "not the one the course was tested",
    "ERROR: No matching distribution found for numpy==2.4.6": "no ready package numpy==2.4.6 for this system",
    "HINT: This error might have occurred since this system does not have Windows Long Path support": "is too long",
    "one\nsomething new": "Its last words were:\n    one\n    something new",
}


# What it says and what each system calls things


def annotations(tree: ast.AST) -> list[ast.expr]:
    """Every annotation of a module's functions and variables."""
    found: list[ast.expr | None] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            found.append(node.returns)
        if isinstance(node, ast.arg | ast.AnnAssign):
            found.append(node.annotation)
    return [annotation for annotation in found if annotation is not None]


@pytest.mark.parametrize("name", ["environment.py", "course/__main__.py", "tests/__main__.py"])
def test_old_pythons_can_read_the_set_up(name: str) -> None:
    """The syntax is that of Python 3.6, and no annotation is worked out that 3.6 does not know."""
    tree = ast.parse((ROOT / name).read_text(encoding="utf-8"), feature_version=(3, 6))

    assert all(isinstance(annotation, ast.Name | ast.Constant) for annotation in annotations(tree))


def test_a_python_too_old_is_named_with_what_to_do() -> None:
    """The message says which Python this is, which is needed and how to start."""
    with pytest.raises(environment.SetUpError) as caught:
        environment.check_python((3, 10), "/usr/bin/python3")

    assert str(caught.value).startswith("This is Python 3.10 (/usr/bin/python3); Python 3.11 or newer is needed.")
    environment.check_python((3, 11), "/usr/bin/python3")
    environment.check_python((4, 0), "/usr/bin/python3")


@pytest.mark.parametrize(
    ("system", "os_release", "hint"),
    [
        ("linux", DEBIAN, "sudo apt install python3.12-venv"),
        ("linux", MINT, "sudo apt install python3.12-venv"),
        ("linux", FEDORA, "Install your system's package"),
        ("darwin", "", "Install Python again"),
        ("win32", "", "Install Python again"),
    ],
)
def test_a_missing_venv_part_is_told_in_the_systems_own_way(system: str, os_release: str, hint: str) -> None:
    """Debian and its kin leave `venv` out of Python: there the package is named."""
    assert hint in environment.venv_hint(system, os_release, (3, 12))


def test_a_python_without_ensurepip_stops_before_anything_is_made(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The missing part is named, the exit code is 2 and no folder is made."""
    monkeypatch.setitem(sys.modules, "ensurepip", None)

    assert environment.run("course", [], root=str(tmp_path)) == 2
    assert "This Python has no ensurepip part." in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("system", "folder", "python", "packages"),
    [
        ("linux", "bin", "bin/python", "lib/python3.12/site-packages"),
        ("darwin", "bin", "bin/python", "lib/python3.12/site-packages"),
        ("win32", "Scripts", "Scripts/python.exe", "Lib/site-packages"),
    ],
)
def test_each_system_has_its_own_folders(system: str, folder: str, python: str, packages: str) -> None:
    """The places are those that the `venv` pages of Python's manual give for the system."""
    assert Path(environment.bin_folder("v", system)) == Path("v", folder)
    assert Path(environment.python_of("v", system)) == Path("v", python)
    assert Path(environment.site_packages("v", system, (3, 12))) == Path("v", packages)


def test_nothing_from_outside_bends_our_python_or_pip() -> None:
    """What redirects imports or installs stays outside; how packages are reached comes in; the rest is untouched."""
    bent = dict.fromkeys(["PYTHONPATH", "PYTHONHOME", "PIP_TARGET", "PIP_USER", "pip_prefix", "VIRTUAL_ENV"], "x")
    reached = {"PIP_INDEX_URL": "a", "PIP_CERT": "b", "HTTPS_PROXY": "c", "LANG": "d"}

    assert environment.outside_settings(bent | reached) == reached | {"PYTHONNOUSERSITE": "1"}


@pytest.mark.parametrize(
    ("system", "outside", "name", "path"),
    [
        ("linux", {"PATH": "/usr/bin"}, "PATH", "v/bin:/usr/bin"),
        ("darwin", {}, "PATH", "v/bin"),
        ("win32", {"Path": "C:\\Windows"}, "Path", os.path.join("v", "Scripts") + ";C:\\Windows"),
    ],
)
def test_the_environments_programs_come_first(system: str, outside: dict[str, str], name: str, path: str) -> None:
    """PATH begins with the environment's programs, under the name that the system writes it with."""
    settings = environment.working_settings(outside, "v", system)

    assert settings[name] == path
    assert [key for key in settings if key.upper() == "PATH"] == [name]
    assert settings["VIRTUAL_ENV"] == "v"


@pytest.mark.parametrize("words", PIP_WORDS)
def test_what_pip_says_is_put_into_plain_words(words: str) -> None:
    """Each known trouble has its sentence; an unknown one is shown by pip's last lines."""
    assert PIP_WORDS[words] in environment.meaning(words, "/here")


@pytest.mark.parametrize(
    ("number", "file", "system", "words"),
    [
        (errno.ENOSPC, "a", "linux", "The disk is full."),
        (errno.EACCES, "/here/.venv.lock", "linux", "You may not write in /here."),
        (errno.EROFS, "a", "darwin", "You may not write in /here."),
        (errno.EACCES, os.path.join("/here", ".venv", "x.pyd"), "win32", "A program still uses .venv."),
        (errno.ENOENT, "requirements", "linux", "The system says: [Errno 2] no: 'requirements'."),
    ],
)
def test_what_the_system_refuses_is_put_into_plain_words(number: int, file: str, system: str, words: str) -> None:
    """A full disk, a folder of someone else's and files in use are told apart."""
    assert environment.system_words(OSError(number, "no", file), "/here", system).startswith(words)


def test_progress_without_a_terminal_is_a_line_now_and_then(capsys: pytest.CaptureFixture[str]) -> None:
    """Counts go to the stream of talk: one line every 40 packages, and the last."""
    progress = environment.Progress(step=40)
    for count in range(118):
        progress.show(count, 117, "fetched")
    out, err = capsys.readouterr()

    assert out == ""
    assert err.splitlines() == [f"  {count} of 117 packages fetched" for count in (40, 80, 117)]


# The lock


def test_only_one_holds_the_lock(tmp_path: Path) -> None:
    """A second try fails while the first holds the file, and succeeds when the first has closed it."""
    path = tmp_path / "lock"
    with path.open("a+") as first, path.open("a+") as second:
        assert environment.take(first)
        assert not environment.take(second)
        first.close()
        assert environment.take(second)


def test_the_lock_on_windows_is_one_byte_past_the_end(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """One byte is locked without waiting, away from the process number; a byte held elsewhere means no."""
    asked: list[tuple[int, int, int]] = []

    def locking(number: int, mode: int, count: int) -> None:
        asked.append((mode, count, os.lseek(number, 0, os.SEEK_CUR)))
        if len(asked) > 1:
            raise OSError(errno.EACCES, "held")

    monkeypatch.setitem(sys.modules, "msvcrt", types.SimpleNamespace(LK_NBLCK=2, locking=locking))
    with (tmp_path / "lock").open("a+") as file:
        assert environment.take(file, "win32")
        assert not environment.take(file, "win32")
    assert asked[0][:2] == (2, 1)
    assert asked[0][2] > 1000


def test_the_number_of_a_dead_process_is_no_lock(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A lock file left by a killed set-up is taken over at once, with our own number in it."""
    lock = tmp_path / ".venv.lock"
    lock.write_text("999999999")

    with environment.only_one(str(tmp_path)):
        assert lock.read_text() == str(os.getpid())
    assert capsys.readouterr().err == ""


# The lists of locked versions


def pins(kind: str) -> dict[str, str]:
    """Locked version of each package, with the systems it is for."""
    text = (ROOT / "requirements" / f"{kind}.txt").read_text(encoding="utf-8")
    return dict(re.findall(r"^([\w.-]+)==(.*?) \\$", text, re.MULTILINE))


def test_the_two_lists_agree_and_hold_what_the_project_asks_for() -> None:
    """The tests' list holds all of the course's, in the same versions; every dependency stands in its list."""
    course, tests = pins("course"), pins("tests")
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]

    assert course.items() <= tests.items()
    assert {name.lower() for name in project["dependencies"]} <= course.keys()
    assert {name.lower() for name in project["optional-dependencies"]["tests"]} <= tests.keys()


@pytest.mark.parametrize("kind", ["course", "tests"])
def test_a_list_holds_hashes_and_no_hosts(kind: str) -> None:
    """Each package has the digest of its files; no address of an index or folder of a machine is written down."""
    text = (ROOT / "requirements" / f"{kind}.txt").read_text(encoding="utf-8")
    entries = re.split(r"^(?=[\w.-]+==)", text, flags=re.MULTILINE)[1:]

    assert len(entries) == len(pins(kind)) > 50
    assert all(re.search(r"--hash=sha256:[0-9a-f]{64}", entry) for entry in entries)
    assert not re.search(r"://|--(extra-)?index|--find-links|^-|file:|@ ", text, re.MULTILINE)


# Real environments


def wheel(folder: Path, name: str) -> str:
    """Line of a lock for a small package, which is put into the folder as a wheel."""
    info = f"{name}-1.0.dist-info"
    files = {
        f"{name}.py": "VALUE = 1\n",
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: by hand\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = ""
    for path, text in files.items():
        digest = base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).rstrip(b"=").decode()
        record += f"{path},sha256={digest},{len(text)}\n"
    files[f"{info}/RECORD"] = f"{record}{info}/RECORD,,\n"
    file = folder / f"{name}-1.0-py3-none-any.whl"
    with zipfile.ZipFile(file, "w") as archive:
        for path, text in files.items():
            archive.writestr(path, text)
    return f"{name}==1.0 \\\n    --hash=sha256:{hashlib.sha256(file.read_bytes()).hexdigest()}\n"


def lay_out(root: Path) -> Path:
    """A course of two small packages, one of them for the tests only, and one that is for another system."""
    wheels = root / "wheels"
    for folder in (wheels, root / "requirements", root / "src" / "small_course"):
        folder.mkdir(parents=True)
    (root / "src" / "small_course" / "__init__.py").write_text("PLACE = 'src'\n")
    first, second = wheel(wheels, "first_part"), wheel(wheels, "second_part")
    foreign = "nowhere==9.9 ; sys_platform == 'nowhere' \\\n    --hash=sha256:" + "0" * 64 + "\n"
    (root / "requirements" / "course.txt").write_text(first + foreign)
    (root / "requirements" / "tests.txt").write_text(first + foreign + second)
    return root


@pytest.fixture(scope="module")
def outside(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """No index anywhere, and settings outside that would bend pip and Python."""
    evil = tmp_path_factory.mktemp("evil")
    (evil / "first_part.py").write_text("raise SystemExit('taken from PYTHONPATH')\n")
    with pytest.MonkeyPatch.context() as patch:
        for name in [name for name in os.environ if name.startswith("PIP_")]:
            patch.delenv(name)
        patch.setenv("PIP_CONFIG_FILE", os.devnull)
        patch.setenv("PIP_NO_INDEX", "1")
        patch.setenv("PIP_TARGET", str(evil))
        patch.setenv("PIP_USER", "1")
        patch.setenv("PYTHONPATH", str(evil))
        yield patch


@pytest.fixture(scope="module")
def made(outside: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A course whose environment stands; tests that use it must leave it good."""
    root = lay_out(tmp_path_factory.mktemp("made"))
    outside.setenv("PIP_FIND_LINKS", str(root / "wheels"))
    environment.ensure("course", str(root))
    return root


@pytest.fixture
def course(made: Path, outside: pytest.MonkeyPatch, tmp_path: Path) -> Any:
    """A course without an environment."""
    root = lay_out(tmp_path / "course")
    outside.setenv("PIP_FIND_LINKS", str(root / "wheels"))
    yield root
    outside.setenv("PIP_FIND_LINKS", str(made / "wheels"))


def start(kind: str, root: Path, *argv: str) -> "subprocess.Popen[str]":
    """A set-up in a process group of its own, followed by a command."""
    command = [sys.executable, "-c", ONE_RUN, kind, str(root), *argv]
    settings = os.environ | {"PYTHONPATH": str(ROOT) + os.pathsep + os.environ["PYTHONPATH"]}
    pipe = subprocess.PIPE
    return subprocess.Popen(command, env=settings, stdout=pipe, stderr=pipe, text=True, start_new_session=True)


def wait_until(path: Path) -> None:
    """Waits until a set-up has come so far that the file is there."""
    end = time.monotonic() + 60
    while not path.exists():
        assert time.monotonic() < end, f"{path} never came"
        time.sleep(0.01)


def test_the_environment_holds_the_packages_and_the_course(made: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """The command sees the locked package and src, not what PYTHONPATH holds; its answer alone is on stdout."""
    code = environment.run("course", ["-c", "import first_part, small_course; print(small_course.PLACE)"], str(made))

    assert code == 0
    assert capfd.readouterr() == ("src\n", "")


def test_a_standing_environment_is_found_in_a_tenth_of_a_second(made: Path) -> None:
    """The check of an environment that is good takes less than 0.1 s."""
    took = []
    for _ in range(5):
        before = time.perf_counter()
        environment.ensure("course", str(made))
        took.append(time.perf_counter() - before)

    assert min(took) < 0.1


def test_exit_codes_and_programs_pass_through(made: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """The command's exit code comes back, a signal as 128 + its number; `python` in PATH is the environment's."""
    assert environment.run("course", ["-c", "raise SystemExit(7)"], str(made)) == 7
    assert environment.run("course", ["-c", "import os; os.kill(os.getpid(), 15)"], str(made)) == 128 + 15
    code = "import shutil, sys; print(shutil.which('python') == sys.executable)"
    assert environment.run("course", ["-c", code], str(made)) == 0
    assert capfd.readouterr().out == "True\n"


def test_the_keyboards_stop_gives_130_without_a_traceback_of_ours(made: Path) -> None:
    """Ctrl-C reaches the command; when that has ended in its own time, the exit code is 130."""
    slow = "import pathlib, sys, time\ntry: pathlib.Path(sys.argv[1]).touch(); time.sleep(60)\n"
    slow += "except KeyboardInterrupt: time.sleep(0.5); print('saved', flush=True); sys.exit(3)"
    sign = made / "began"
    process = start("course", made, "-c", slow, str(sign))
    wait_until(sign)
    os.killpg(process.pid, signal.SIGINT)
    out, err = process.communicate(timeout=30)

    assert (process.returncode, out, err) == (130, "saved\n", "")


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"the folder": "/old/place"}, "the folder changed"),
        ({"Python": "cpython 3.11.0 in /usr"}, "Python changed"),
        ({"the locked versions": "0"}, "the locked versions changed"),
        (None, "is only half-made"),
    ],
)
def test_what_no_longer_fits_is_not_good(made: Path, change: dict[str, str] | None, reason: str) -> None:
    """A moved folder, another Python, other locked versions and a marker that is not there each ask for a remake."""
    marker = made / ".venv" / environment.MARKER
    text = marker.read_text()
    try:
        marker.write_text(json.dumps(json.loads(text) | change) if change else text[:20])
        state, _, why = environment.look("course", str(made))
    finally:
        marker.write_text(text)

    assert state == environment.REMAKE
    assert reason in why
    assert environment.look("course", str(made)) == (environment.GOOD, "course", "")


def test_an_environment_whose_python_is_gone_is_not_good(made: Path) -> None:
    """Where the link to Python leads nowhere, the environment is made again."""
    python = Path(environment.python_of(str(made / ".venv")))
    target = python.readlink()
    python.unlink()
    try:
        python.symlink_to("/nowhere/python")
        state, _, why = environment.look("course", str(made))
    finally:
        python.unlink()
        python.symlink_to(target)

    assert (state, why) == (environment.REMAKE, "has lost its Python")


@pytest.mark.parametrize("what", ["foreign venv", "file", "link"])
def test_what_the_course_did_not_make_is_left_alone(
    what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """An environment of someone else's, a file or a link called .venv is not touched, and it is said what to do."""
    lay_out(tmp_path)
    venv = tmp_path / ".venv"
    if what == "foreign venv":
        venv.mkdir()
        (venv / "pyvenv.cfg").write_text("home = /usr/bin\n")
    elif what == "file":
        venv.write_text("mine")
    else:
        venv.symlink_to(tmp_path / "wheels")

    assert environment.run("course", [], str(tmp_path)) == 2
    said = capsys.readouterr().err
    assert "so it is left alone. Rename it, or delete it if you do not need it" in said
    assert os.path.lexists(venv)
    assert what != "foreign venv" or (venv / "pyvenv.cfg").exists()
    assert len(list((tmp_path / "wheels").iterdir())) == 2


def test_the_tests_packages_are_added_and_a_failed_try_costs_nothing(
    course: Path, outside: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """Where a package cannot be fetched the course stays good; later both kinds are good at once."""
    environment.ensure("course", str(course))
    outside.setenv("PIP_FIND_LINKS", str(course / "src"))
    assert environment.run("tests", [], str(course)) == 2
    assert "There is no ready package second_part==1.0" in capfd.readouterr().err
    assert environment.look("course", str(course))[0] == environment.GOOD

    outside.setenv("PIP_FIND_LINKS", str(course / "wheels"))
    assert environment.run("tests", ["-c", "import first_part, second_part, small_course"], str(course)) == 0
    assert environment.look("course", str(course)) == (environment.GOOD, "tests", "")


def test_a_package_that_is_not_the_locked_one_is_refused(course: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A wheel with another digest is not installed, and nothing is left that could pass for an environment."""
    with zipfile.ZipFile(course / "wheels" / "first_part-1.0-py3-none-any.whl", "a") as archive:
        archive.writestr("first_part_more.py", "x = 1\n")

    assert environment.run("course", [], str(course)) == 2
    assert "is not the one the course was tested with" in capsys.readouterr().err
    assert not (course / ".venv").exists()


@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGINT], ids=["kill", "ctrl-c"])
def test_a_set_up_that_was_stopped_is_never_taken_for_good(
    course: Path, number: signal.Signals, capfd: pytest.CaptureFixture[str]
) -> None:
    """Killed half-way: the rest is seen and thrown away. Stopped from the keyboard: exit 130 and nothing is left."""
    process = start("course", course)
    wait_until(course / ".venv" / "pyvenv.cfg")
    os.killpg(process.pid, number)
    _, said = process.communicate(timeout=30)

    if number == signal.SIGKILL:
        assert environment.look("course", str(course))[::2] == (environment.REMAKE, "is only half-made")
        assert environment.run("course", ["-c", "import first_part, small_course"], str(course)) == 0
        assert "is only half-made. It is thrown away and made again.\n" in capfd.readouterr().err
    else:
        assert process.returncode == 130
        assert "Stopped. Nothing half-made was left." in said
        assert "Traceback" not in said
        assert not (course / ".venv").exists()


def test_of_two_set_ups_at_once_one_waits_for_the_other(course: Path) -> None:
    """The second says whom it waits for, makes nothing itself, and both can work."""
    first = start("course", course, "-c", "import first_part")
    wait_until(course / ".venv")
    second = start("course", course, "-c", "import first_part")
    first_said, second_said = first.communicate(timeout=60)[1], second.communicate(timeout=60)[1]

    assert (first.returncode, second.returncode) == (0, 0)
    assert "Setting up" in first_said
    assert f"Another set-up is at work here (process {first.pid})." in second_said
    assert "Setting up" not in second_said


def test_changed_locked_versions_leave_nothing_of_the_old_ones(course: Path) -> None:
    """After a change of the list the environment holds what the list holds, and no more."""
    environment.ensure("course", str(course))
    lock = course / "requirements" / "course.txt"
    lock.write_text(wheel(course / "wheels", "third_part"))
    looking = "import importlib.util as u; assert u.find_spec('third_part') and not u.find_spec('first_part')"

    assert environment.run("course", ["-c", looking], str(course)) == 0
