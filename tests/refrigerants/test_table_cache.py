"""The cache of tables: kept, shared by two processes, and worked out again whenever a file cannot be trusted."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from coldwright.refrigerants import table_cache
from coldwright.refrigerants.table_cache import PLACE, cache_folder, tables_of

SOURCE = Path(__file__).parents[2] / "src"
SCRIPT = """
from coldwright.refrigerants.table_cache import tables_of
import hashlib, json
print(hashlib.sha256(json.dumps(list(tables_of("R-600a"))).encode()).hexdigest())
"""


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty cache folder for this process."""
    monkeypatch.setenv(PLACE, str(tmp_path / "kept"))
    tables_of.cache_clear()
    yield tmp_path / "kept"
    tables_of.cache_clear()


@pytest.fixture
def built(monkeypatch):
    """Names of the refrigerants that were worked out; the tables themselves are the real ones, worked out once."""
    names = []
    real = table_cache.building.build_tables("R-600a")

    def count(name):
        names.append(name)
        return real

    monkeypatch.setattr(table_cache.building, "build_tables", count)
    return names


def only(folder: Path) -> Path:
    """The one file in the folder."""
    (found,) = folder.iterdir()
    return found


def again():
    """The tables as the next process would get them."""
    tables_of.cache_clear()
    return tables_of("R-600a")


def test_the_folder_is_the_users_own(monkeypatch):
    """Without the variable the tables lie in a folder of the course's name in the user's cache."""
    monkeypatch.delenv(PLACE, raising=False)
    assert cache_folder().name == "coldwright"
    monkeypatch.setenv(PLACE, "elsewhere")
    assert cache_folder() == Path("elsewhere")


@pytest.mark.usefixtures("folder")
def test_a_second_run_reads_what_the_first_wrote(built):
    """The file gives the same tables to the last bit, and nothing is worked out twice."""
    first = tables_of("R-600a")
    assert tables_of("isobutane") is first
    second = again()
    assert second == first
    assert built == ["R-600a"]


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text[: len(text) // 2],
        lambda _text: "",
        lambda text: text.replace("2", "3", 1),
        lambda text: text[:-400] + text[-400:].replace("1", "7"),
        lambda _text: "no table at all",
        lambda _text: "0" * 64 + "\n[1, 2, 3]",
        lambda text: text[:200] + "é" + text[201:],
    ],
    ids=["truncated", "empty", "wrong digest", "a digit changed", "words", "another list", "not ascii"],
)
def test_a_damaged_file_is_rebuilt(folder, built, spoil):
    """Whatever was done to the file, the right tables come, and the file is right again."""
    first = tables_of("R-600a")
    path = only(folder)
    good = path.read_bytes()
    path.write_text(spoil(good.decode("ascii")), encoding="utf-8")
    assert again() == first
    assert built == ["R-600a", "R-600a"]
    assert only(folder).read_bytes() == good


def test_a_stale_file_is_rebuilt_and_goes(folder, built, monkeypatch):
    """Tables of another version of CoolProp or of the code are not used, and do not stay."""
    tables_of("R-600a")
    old = only(folder)
    (folder / "R-600-0123456789abcdef.json").write_text("of another refrigerant", encoding="ascii")
    table_cache._follows_from.cache_clear()
    monkeypatch.setattr(table_cache, "version", lambda _name: "0.0.1")
    again()
    monkeypatch.undo()
    table_cache._follows_from.cache_clear()
    assert built == ["R-600a", "R-600a"]
    assert not old.exists()
    assert (folder / "R-600-0123456789abcdef.json").exists()
    assert len(list(folder.iterdir())) == 2


def test_what_the_tables_follow_from_is_in_the_name(monkeypatch):
    """Another version of CoolProp gives another name of the file."""
    before = table_cache._follows_from()
    table_cache._follows_from.cache_clear()
    monkeypatch.setattr(table_cache, "version", lambda _name: "0.0.1")
    after = table_cache._follows_from()
    table_cache._follows_from.cache_clear()
    assert before != after


def test_a_folder_that_cannot_be_written_is_left_alone(tmp_path, monkeypatch, built):
    """Where a file stands in the folder's place the tables are worked out each time; nothing is raised."""
    blocked = tmp_path / "blocked"
    blocked.write_text("a file, not a folder", encoding="ascii")
    monkeypatch.setenv(PLACE, str(blocked))
    first = again()
    assert again() == first
    assert built == ["R-600a", "R-600a"]
    assert blocked.read_text(encoding="ascii") == "a file, not a folder"
    tables_of.cache_clear()


@pytest.mark.usefixtures("built")
def test_a_read_only_folder_is_left_alone(folder, monkeypatch):
    """The same for a folder without the right to write."""
    folder.mkdir()

    def refused(**_where):
        raise PermissionError("read-only")

    monkeypatch.setattr(table_cache.tempfile, "mkstemp", refused)
    assert again() == again()
    assert list(folder.iterdir()) == []


@pytest.mark.usefixtures("built")
def test_a_disk_that_is_full_leaves_nothing_behind(folder, monkeypatch):
    """When the move fails the half-made file is taken away, and the tables come all the same."""

    def full(*_paths):
        raise OSError("no space left on device")

    monkeypatch.setattr(table_cache.os, "replace", full)
    assert again().rows > 100
    assert list(folder.iterdir()) == []


def test_two_processes_at_once(tmp_path):
    """Two processes that begin with the same empty folder get the same tables and leave one whole file."""
    environment = {**os.environ, PLACE: str(tmp_path), "PYTHONPATH": str(SOURCE)}
    command = [sys.executable, "-c", SCRIPT]
    running = [
        subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for _ in range(2)
    ]
    results = [process.communicate(timeout=120) for process in running]
    assert [process.returncode for process in running] == [0, 0], results
    assert results[0][0] == results[1][0]
    kept = only(tmp_path)
    third = subprocess.run(command, env=environment, capture_output=True, text=True, timeout=120, check=True)
    assert third.stdout == results[0][0]
    assert only(tmp_path) == kept
