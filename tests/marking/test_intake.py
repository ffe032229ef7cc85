"""Intake: what is taken in and how it then stands, and what is refused with nothing written."""

import io
import json
import os
import stat
import struct
import zipfile
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import nbformat
import pytest
from hypothesis import given
from hypothesis import strategies as st
from nbgrader.utils import parse_utc

from coldwright.errors import CourseError, HandInError
from coldwright.labs.ticket import issue_ticket
from coldwright.marking.collect import collect
from coldwright.marking.handed_notebook import read_handed_in
from coldwright.marking.intake import Receipt, Refusal, take_in, take_in_all
from coldwright.marking.intake_files import LARGEST_ZIP, MOST_FILES, read_hand_in
from coldwright.marking.intake_notebook import Noticed, intake_notices, parse_notebook
from tests.marking.small_class import LAB, SmallClass, filled, master_notebook

NOON = datetime(2026, 1, 31, 12, 0, tzinfo=UTC)
LATER = datetime(2026, 2, 1, 9, 30, 15, tzinfo=UTC)
Change = Callable[[Path], object]


@pytest.fixture
def small(tmp_path: Path) -> SmallClass:
    """A class of three with nothing handed in."""
    return SmallClass(tmp_path / "class", "ada", "ben", "cleo")


@pytest.fixture
def source(tmp_path: Path, small: SmallClass) -> Path:
    """Ada's own folder as she hands it in."""
    folder = tmp_path / "hand_ins" / "ada"
    folder.mkdir(parents=True)
    work = small.work("ada")
    (folder / "lab.ipynb").write_text(json.dumps(filled(work.answers)), encoding="utf-8")
    ticket = issue_ticket(small.folder.secret, small.folder.course, LAB.name, "ada")
    (folder / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    (folder / "job_sheet.jsonl").write_text(work.sheet, encoding="utf-8")
    return folder


def tree(root: Path) -> dict[str, bytes | None]:
    """Every file and folder below a place with its content."""
    return {str(p.relative_to(root)): p.read_bytes() if p.is_file() else None for p in sorted(root.rglob("*"))}


def refused(small: SmallClass, source: Path, match: str) -> None:
    """Ada's hand-in is refused with that reason, and the class folder stays as it was."""
    before = tree(small.folder.root)
    with pytest.raises(HandInError, match=match):
        take_in(source, small.folder, "ada", LAB)
    assert tree(small.folder.root) == before


def taken(small: SmallClass, source: Path) -> tuple[Receipt, dict[str, Any]]:
    """Receipt, and the notebook as it stands in the class folder."""
    receipt = take_in(source, small.folder, "ada", LAB, received=NOON)
    return receipt, json.loads((small.submitted("ada") / "lab.ipynb").read_text(encoding="utf-8"))


def answers_in(small: SmallClass) -> list[str]:
    """Sources of the answer cells that marking finds in Ada's hand-in."""
    notebook, reason = read_handed_in(small.submitted("ada") / "lab.ipynb")
    assert reason == ""
    return [cell.source for cell in collect(master_notebook(), notebook, LAB).cells]


def right_answers(small: SmallClass) -> list[str]:
    """The same of her own notebook."""
    return [cell.source for cell in collect(master_notebook(), filled(small.work("ada").answers), LAB).cells]


def pack(folder: Path, path: Path, prefix: str = "") -> Path:
    """The folder as a zip file."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for file in sorted(folder.iterdir()):
            archive.write(file, prefix + file.name)
    return path


def test_the_three_files_are_taken_and_nothing_else(small: SmallClass, source: Path) -> None:
    """Ticket and job sheet arrive byte for byte, with nbgrader's time stamp; other files and a forged stamp do not."""
    (source / "timestamp.txt").write_text("2001-01-01 00:00:00 UTC")
    (source / "numpy.py").write_text("raise SystemExit")
    (source / "jupyter_config.py").write_text("c.x = 1")

    receipt, _ = taken(small, source)

    folder = small.submitted("ada")
    assert receipt.folder == folder
    assert sorted(p.name for p in folder.iterdir()) == ["job_sheet.jsonl", "lab.ipynb", "ticket.json", "timestamp.txt"]
    for name in ("ticket.json", "job_sheet.jsonl"):
        assert (folder / name).read_bytes() == (source / name).read_bytes()
    assert (folder / "timestamp.txt").read_text() == "2026-01-31 12:00:00 UTC"
    assert parse_utc((folder / "timestamp.txt").read_text()) == NOON.replace(tzinfo=None)
    assert answers_in(small) == right_answers(small)
    assert receipt.notices == ()


@pytest.mark.parametrize("prefix", ["", "./", "03_winding_checks/", "03_winding_checks\\"])
def test_a_zip_file_gives_the_same_as_its_folder(small: SmallClass, source: Path, tmp_path: Path, prefix: str) -> None:
    """Packed flat or with its folder, by whatever system, the same three files stand there."""
    receipt, _ = taken(small, pack(source, tmp_path / "ada.zip", prefix))

    assert answers_in(small) == right_answers(small)
    for name in ("ticket.json", "job_sheet.jsonl"):
        assert (small.submitted("ada") / name).read_bytes() == (source / name).read_bytes()
    assert receipt.notices == ((Noticed.PLACE.value,) if prefix.startswith("03") else ())


def test_a_former_hand_in_is_kept_and_the_same_one_changes_nothing(small: SmallClass, source: Path) -> None:
    """A second hand-in puts the first aside whole; handing in the same again keeps the first time of receipt."""
    taken(small, source)
    first = tree(small.submitted("ada"))

    again = take_in(source, small.folder, "ada", LAB, received=LATER)
    assert again.same
    assert again.received == NOON
    assert tree(small.submitted("ada")) == first

    (source / "job_sheet.jsonl").write_text("{}\n")
    second = take_in(source, small.folder, "ada", LAB, received=LATER)
    assert not second.same
    assert second.before == small.folder.root / "submitted_before" / "ada" / LAB.folder / "2026-01-31-12-00-00-UTC"
    assert tree(second.before) == first
    assert (small.submitted("ada") / "timestamp.txt").read_text() == "2026-02-01 09:30:15 UTC"

    (source / "job_sheet.jsonl").write_text("{ }\n")
    third = take_in(source, small.folder, "ada", LAB, received=NOON)  # the clock was set back
    (source / "job_sheet.jsonl").write_text("{  }\n")
    fourth = take_in(source, small.folder, "ada", LAB, received=NOON)
    places = [second.before, third.before, fourth.before]
    assert len(set(places)) == 3
    assert all(place is not None and len(tree(place)) == 4 for place in places)


def test_a_killed_intake_leaves_the_former_hand_in_and_no_half(
    small: SmallClass, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Stopped while it writes, what stood there still stands; the next run takes the new one and clears up."""
    taken(small, source)
    first = tree(small.submitted("ada"))
    (source / "job_sheet.jsonl").write_text("{}\n")
    half = small.folder.root / "submitted_part" / f"ada~{LAB.folder}~00"
    half.mkdir(parents=True)
    (half / "lab.ipynb").write_text("half")
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", lambda _: (_ for _ in ()).throw(KeyboardInterrupt))
        with pytest.raises(KeyboardInterrupt):
            take_in(source, small.folder, "ada", LAB, received=LATER)
    assert tree(small.submitted("ada")) == first

    take_in(source, small.folder, "ada", LAB, received=LATER)
    assert (small.submitted("ada") / "job_sheet.jsonl").read_text() == "{}\n"
    assert not (small.folder.root / "submitted_part").exists()


def test_a_full_disk_is_said_and_leaves_nothing(
    small: SmallClass, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An error of the disk names the place and the system's reason, and no part of the hand-in stays."""
    before = tree(small.folder.root)
    monkeypatch.setattr(os, "fsync", lambda _: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    with pytest.raises(CourseError, match=r"hand-in of ada cannot be written to .*: No space left on device"):
        take_in(source, small.folder, "ada", LAB)
    assert {k: v for k, v in tree(small.folder.root).items() if v is not None or k in before} == before


def _plant(name: str, content: bytes) -> Change:
    return lambda folder: (folder / name).write_bytes(content)


DEEP = b'{"cells": ' + b"[" * 100_000 + b"]" * 100_000 + b"}"
BROKEN = {
    "no JSON": (b"this is no notebook", "lab.ipynb is not a notebook or was damaged in line 1"),
    "a list": (b"[1, 2]", "lab.ipynb is not a notebook"),
    "empty": (b"", "lab.ipynb is empty"),
    "blanks": (b" \n\n", "lab.ipynb is empty"),
    "NUL": (b'{"cells": [\0]}', "lab.ipynb holds zero bytes"),
    "zeros": (bytes(5000), "lab.ipynb"),
    "too deep": (DEEP, "lab.ipynb is nested too deep"),
    "long number": (b'{"cells": [], "nbformat": ' + b"9" * 5000 + b"}", "lab.ipynb holds a number too long"),
    "merge marks": (b'{\n<<<<<<< HEAD\n "cells": []\n', "lab.ipynb holds marks of two versions"),
    "no cells": (b'{"cells": [], "nbformat": 4}', "lab.ipynb has no cells"),
    "form 9, no cells": (b'{"parts": [{}], "nbformat": 9}', "lab.ipynb has no cells"),
    "old and odd": (b'{"worksheets": 3, "nbformat": 3}', "lab.ipynb is of an old form"),
    "binary": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "lab.ipynb"),
    "20 MB and more": (b" " * 20_000_001, "lab.ipynb is larger than 20 MB"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_notebook_is_refused_with_its_reason(small: SmallClass, source: Path, name: str) -> None:
    """Whatever is wrong with the file is said in words, and nothing is written."""
    content, reason = BROKEN[name]
    (source / "lab.ipynb").write_bytes(content)
    refused(small, source, reason)


def test_a_notebook_cut_off_anywhere_is_refused(source: Path) -> None:
    """Wherever a download stopped, it is refused; mostly with the word that it was cut off."""
    whole = (source / "lab.ipynb").read_bytes()
    for length in range(1, len(whole) - 1, 211):
        with pytest.raises(HandInError, match=r"lab\.ipynb (is cut off|is not a notebook or was damaged)"):
            parse_notebook(whole[:length], "lab.ipynb")


FOLDERS: dict[str, tuple[Change, str]] = {
    "a link": (lambda f: (f / "x.txt").symlink_to("/etc/hostname"), r"'x.txt' is a link or a device"),
    "the notebook a link": (
        lambda f: ((f / "lab.ipynb").rename(f / "a.txt"), (f / "lab.ipynb").symlink_to("a.txt")),
        r"'lab.ipynb' is a link",
    ),
    "a linked folder": (lambda f: (f / "more").symlink_to(f.parent), r"'more' is a link or a device"),
    "a device": (lambda f: os.mkfifo(f / "job"), r"'job' is a link or a device"),
    "a line break": (_plant("a\nb.txt", b""), r"'a\?b.txt' holds a line break"),
    "kept name": (_plant("NUL.txt", b""), r"'NUL.txt' is kept for a device"),
    "kept name, blank": (_plant("con .ipynb", b""), r"'con .ipynb' is kept for a device"),
    "very long": (_plant("n" * 200, b""), r"is 200 characters long; the most is 150"),
    "a large ticket": (_plant("ticket.json", b" " * 10_001), r"ticket.json is larger than 10 kB"),
    "no notebook": (lambda f: (f / "lab.ipynb").unlink(), "there is no notebook in it"),
    "two notebooks": (
        lambda f: (f / "lab-Copy1.ipynb").write_bytes((f / "lab.ipynb").read_bytes()),
        r"2 notebooks that could be the lab: lab-Copy1.ipynb and lab.ipynb. Leave only one",
    ),
    "a broken second": (_plant("lab (1).ipynb", b"{"), r"2 notebooks that could be the lab: lab \(1\).ipynb and lab"),
    "eleven notebooks": (
        lambda f: [(f / f"{n}.ipynb").write_bytes(b"{}") for n in range(10)],
        "more than 10 notebooks in it",
    ),
    "two job sheets": (
        lambda f: _two_sheets(f),
        r"2 files job_sheet.jsonl: a/job_sheet.jsonl and b/job_sheet.jsonl",
    ),
}


def _two_sheets(folder: Path) -> None:
    sheet = (folder / "job_sheet.jsonl").read_bytes()
    (folder / "job_sheet.jsonl").unlink()
    for name in "ab":
        (folder / name).mkdir()
        (folder / name / "job_sheet.jsonl").write_bytes(sheet)


@pytest.mark.parametrize("name", FOLDERS)
def test_a_folder_with_what_cannot_be_right_is_refused(small: SmallClass, source: Path, name: str) -> None:
    """Links, devices, odd names, no or two notebooks: refused, with nothing written."""
    change, reason = FOLDERS[name]
    change(source)
    refused(small, source, reason)


def test_a_folder_without_end_is_refused(small: SmallClass, source: Path) -> None:
    """Very many files, and very many folders inside each other, are not walked to their end."""
    deep = source.joinpath(*"abcdefghijklmnopqrstuvwxyz")
    deep.mkdir(parents=True)
    refused(small, source, "more than 20 folders inside each other")
    os.removedirs(deep)
    for number in range(MOST_FILES):
        (source / f"empty{number}").mkdir()
    refused(small, source, "more than 2000 files")


def test_a_source_that_is_no_hand_in_is_refused(small: SmallClass, source: Path, tmp_path: Path) -> None:
    """A linked folder, a missing one, a loose file, and somebody who is not on the roster."""
    linked = tmp_path / "linked"
    linked.symlink_to(source)
    refused(small, linked, "linked is a link or a device")
    refused(small, tmp_path / "gone", "there is no gone")
    refused(small, source / "lab.ipynb", "lab.ipynb is neither a folder nor a whole zip file")
    for name in ("../ada", "zed", "ada/../ben", ""):
        with pytest.raises(HandInError, match="nobody on the roster has the id"):
            take_in(source, small.folder, name, LAB)
    assert not small.folder.part("submitted").exists()


def entry(name: str, mode: int = 0o100644) -> zipfile.ZipInfo:
    """A zip entry of any name and kind."""
    info = zipfile.ZipInfo("x")
    info.filename = info.orig_filename = name
    info.external_attr = mode << 16
    return info


ZIP_NAMES = {
    "up": ("../lab2.ipynb", "leads out of it"),
    "up in the middle": ("a/../../x", "leads out of it"),
    "up the other way": ("a\\..\\..\\x", "leads out of it"),
    "absolute": ("/etc/cron.d/x", "names a place outside it"),
    "a drive": ("C:\\x.txt", "names a place outside it"),
    "NUL": ("lab.ipynb\0.txt", "holds a line break or another control character"),
    "line break": ("a\nb", "holds a line break"),
    "escape": ("a\x1b[2Jb", "holds a line break or another control character"),
    "kept": ("aux/x.txt", "is kept for a device"),
    "long": ("a/" + "n" * 300, "is 300 characters long"),
}


@pytest.mark.parametrize("name", ZIP_NAMES)
def test_a_zip_file_with_an_odd_name_is_refused(small: SmallClass, source: Path, tmp_path: Path, name: str) -> None:
    """One name that leads elsewhere or cannot be a file is enough; nothing of the zip file is written."""
    path = pack(source, tmp_path / "ada.zip")
    bad, reason = ZIP_NAMES[name]
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr(entry(bad), b"x")
    with zipfile.ZipFile(path) as archive:
        assert bad in [info.orig_filename for info in archive.infolist()]
    refused(small, path, reason)


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFCHR, stat.S_IFBLK, stat.S_IFSOCK])
def test_a_link_or_device_in_a_zip_file_is_refused(small: SmallClass, source: Path, tmp_path: Path, kind: int) -> None:
    """An entry that would become a link or a device is not passed over but refused."""
    path = pack(source, tmp_path / "ada.zip")
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr(entry("notes", kind | 0o777), b"/etc/passwd")
    refused(small, path, "'notes' in the zip file is a link or a device")


def test_zip_bombs_are_refused_quickly(small: SmallClass, source: Path, tmp_path: Path) -> None:
    """Too much by what is declared, too much by what comes out, too many files: each refused before it costs much."""
    for file in source.iterdir():
        file.unlink()
    declared, many, lying = tmp_path / "declared.zip", tmp_path / "many.zip", tmp_path / "lying.zip"
    with zipfile.ZipFile(declared, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("lab.ipynb", b" " * 30_000_000)
    refused(small, declared, "lab.ipynb is larger than 20 MB")

    with zipfile.ZipFile(many, "w") as archive:
        for number in range(MOST_FILES + 1):
            archive.writestr(f"{number}", b"")
    refused(small, many, "more than 2000 files in the zip file")

    content = declared.read_bytes()
    size = struct.pack("<I", 30_000_000)
    assert content.count(size) == 2
    lying.write_bytes(content.replace(size, struct.pack("<I", 100)))
    refused(small, lying, "the zip file is damaged")

    total = tmp_path / "total.zip"
    with zipfile.ZipFile(total, "w", zipfile.ZIP_DEFLATED) as archive:
        for number in range(7):
            archive.writestr(f"{number}.bin", b"\0" * 30_000_000)
    refused(small, total, "the zip file unpacks to 210 MB; the most is 200 MB")

    huge = tmp_path / "huge.zip"
    with huge.open("wb") as file:
        file.truncate(LARGEST_ZIP + 1)
    refused(small, huge, "the zip file has 50 MB; the most is 50 MB")


def test_a_zip_file_of_an_unusual_kind_is_refused(small: SmallClass, source: Path, tmp_path: Path) -> None:
    """Locked with a password, packed in a way that needs much memory, damaged, or with an overlong list."""
    path = pack(source, tmp_path / "ada.zip")
    content = bytearray(path.read_bytes())
    at = content.rindex(b"PK\x01\x02")
    content[at + 8] |= 1
    locked = tmp_path / "locked.zip"
    locked.write_bytes(bytes(content))
    refused(small, locked, "locked with a password")

    lzma = tmp_path / "lzma.zip"
    with zipfile.ZipFile(lzma, "w", zipfile.ZIP_LZMA) as archive:
        archive.writestr("lab.ipynb", b"{}")
    refused(small, lzma, "packed in an unusual way")

    for name, broken in {"half": content[: len(content) // 2], "end": content[-40:-20], "none": b""}.items():
        (tmp_path / name).write_bytes(bytes(broken))
        refused(small, tmp_path / name, f"{name} is neither a folder nor a whole zip file")

    end = content.rindex(b"PK\x05\x06")
    content[end + 12 : end + 16] = b"\xff\xff\xff\x7f"
    (tmp_path / "long").write_bytes(bytes(content))
    refused(small, tmp_path / "long", "more than 2000 files in the zip file, or it is of an unusual kind")


def test_a_zip_file_inside_is_not_opened(small: SmallClass, source: Path, tmp_path: Path) -> None:
    """A nested zip file is passed over; where nothing else is there, the reason says to unpack it."""
    inner = pack(source, tmp_path / "inner.zip").read_bytes()
    (source / "extra.zip").write_bytes(b"not even a zip")
    taken(small, source)

    only = tmp_path / "only"
    only.mkdir()
    (only / "ada.zip").write_bytes(inner)
    refused(small, only, r"there is no notebook in it; unpack ada.zip and hand in what is in it")


@given(data=st.data())
def test_no_damage_to_a_zip_file_gets_past_intake(tmp_path_factory: pytest.TempPathFactory, data: Any) -> None:
    """Whatever bytes of a zip file are changed, it is read or refused; no other error comes out."""
    memory = io.BytesIO()
    with zipfile.ZipFile(memory, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("lab.ipynb", json.dumps(master_notebook()))
        archive.writestr("a/job_sheet.jsonl", "{}\n" * 20)
    content = bytearray(memory.getvalue())
    for _ in range(data.draw(st.integers(1, 4))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    path = tmp_path_factory.getbasetemp() / "damaged.zip"
    path.write_bytes(content)
    try:
        files = read_hand_in(path).files
    except HandInError:
        return
    assert all(len(file.parts) <= 2 and ".." not in file.parts for file in files)


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(
                ["cell_type", "source", "id", "metadata", "nbgrader", "grade_id", "cells", "input", "outputs"]
            ),
            inner,
            max_size=4,
        )
    ),
    max_leaves=12,
)


@given(JSON, JSON, st.sampled_from([1, 2, 3, 4, 5, 99, "4", None]))
def test_no_shape_of_a_notebook_gets_past_intake(cells: Any, rest: Any, version: Any) -> None:
    """Whatever a notebook's parts are, it is made clean or refused; what comes out is a notebook that marking reads."""
    from coldwright.marking.intake_notebook import belongs, clean_notebook

    for notebook in (
        {"cells": cells, "metadata": rest, "nbformat": version},
        {"cells": [cells, rest], "nbformat": version},
        {"worksheets": [{"cells": [cells, rest]}], "nbformat": version},
        {"worksheets": cells, "nbformat": version},
    ):
        try:
            found, noticed = parse_notebook(json.dumps(notebook).encode(), "x")
        except HandInError:
            continue
        belongs(found, LAB)
        clean = json.loads(clean_notebook(found, noticed))
        ids = [cell["id"] for cell in clean["cells"]]
        if len(set(ids)) == len(ids):
            nbformat.validate(nbformat.from_dict(clean))
        collect(master_notebook(), clean, LAB)


ENCODINGS = ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32"]


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_another_encoding_is_read_with_a_notice(small: SmallClass, source: Path, encoding: str) -> None:
    """A byte order mark or UTF-16 changes no answer; the learner is told, and what stands there is plain UTF-8."""
    text = (source / "lab.ipynb").read_text(encoding="utf-8")
    (source / "lab.ipynb").write_bytes(text.encode(encoding))

    receipt, notebook = taken(small, source)

    assert receipt.notices == (Noticed.ENCODING.value,)
    assert intake_notices(notebook) == [Noticed.ENCODING.value]
    assert answers_in(small) == right_answers(small)


@pytest.mark.parametrize("version", [2, 3])
def test_an_old_notebook_is_brought_up_to_date(small: SmallClass, source: Path, version: int) -> None:
    """A notebook saved as nbformat 3 or 2 gives the same answers, with a notice."""
    cells = []
    for cell in filled(small.work("ada").answers).cells:
        code = {"cell_type": "code", "input": cell.source, "language": "python", "outputs": [{"odd": 1}]}
        cells.append(code if cell.cell_type == "code" else {"cell_type": "markdown", "source": cell.source})
    old = {"nbformat": version, "nbformat_minor": 0, "metadata": {"name": "lab"}, "worksheets": [{"cells": cells}]}
    (source / "lab.ipynb").write_text(json.dumps(old), encoding="utf-8")

    receipt, notebook = taken(small, source)

    assert receipt.notices == (Noticed.OLD_FORM.value,)
    assert (notebook["nbformat"], notebook["nbformat_minor"]) == (4, 5)
    assert answers_in(small) == right_answers(small)
    assert take_in(source, small.folder, "ada", LAB, LATER).same
    assert not small.folder.part("submitted_before").exists()


@pytest.mark.parametrize("version", [5, 99, "four", None])
def test_an_unknown_form_with_cells_is_read(small: SmallClass, source: Path, version: Any) -> None:
    """A form that nobody knows yet is read as the known one as long as there are cells, with a notice."""
    notebook = {**json.loads((source / "lab.ipynb").read_text()), "nbformat": version}
    (source / "lab.ipynb").write_text(json.dumps(notebook))

    receipt, _ = taken(small, source)

    assert receipt.notices == (Noticed.OTHER_FORM.value,)
    assert answers_in(small) == right_answers(small)


def test_only_cells_ids_and_sources_are_kept(small: SmallClass, source: Path) -> None:
    """Outputs, attachments, widget state and all other metadata are gone; the result is valid nbformat 4.5."""
    notebook = json.loads((source / "lab.ipynb").read_text())
    junk = "junk-that-must-not-stay"
    notebook["metadata"] |= {"widgets": {"state": junk}, "kernelspec": {"name": junk}, "coldwright": {"intake": [junk]}}
    for cell in notebook["cells"]:
        cell["metadata"] |= {"tags": ["skip-execution", junk]}
        if cell["cell_type"] == "code":
            cell["outputs"] = [{"output_type": "stream", "name": "stdout", "text": junk * 10_000}]
            cell["execution_count"] = 7
        else:
            cell["attachments"] = {"x.svg": {"image/svg+xml": junk}}
    (source / "lab.ipynb").write_text(json.dumps(notebook))

    _, clean = taken(small, source)

    text = (small.submitted("ada") / "lab.ipynb").read_text()
    assert junk not in text
    assert "skip-execution" not in text
    nbformat.validate(nbformat.from_dict(clean))
    assert [c["source"] for c in clean["cells"]] == ["".join(c["source"]) for c in notebook["cells"]]
    assert [c["metadata"].get("nbgrader") for c in clean["cells"]] == [
        c["metadata"].get("nbgrader") for c in notebook["cells"]
    ]
    assert intake_notices(clean) == []


def test_ids_that_stand_twice_and_odd_cells_do_no_harm(small: SmallClass, source: Path) -> None:
    """A copied cell keeps its id for the step that collects the answers; cells that are no cells are dropped."""
    notebook = json.loads((source / "lab.ipynb").read_text())
    copied = next(c for c in notebook["cells"] if c["id"] == "answer-pins")
    notebook["cells"] += [copied, 5, None, {}, {"cell_type": "x", "id": 3, "source": ["a", 1, "b"], "metadata": []}]
    (source / "lab.ipynb").write_text(json.dumps(notebook))

    _, clean = taken(small, source)

    assert [c["id"] for c in clean["cells"]].count("answer-pins") == 2
    assert clean["cells"][-1]["source"] == "ab"
    assert answers_in(small) == right_answers(small)


def test_the_notebook_is_found_under_another_name_and_one_folder_down(small: SmallClass, source: Path) -> None:
    """A renamed notebook and one in a folder are found, each with a notice; Jupyter's own copies are passed over."""
    notebook = (source / "lab.ipynb").read_bytes()
    (source / "lab.ipynb").unlink()
    inside = source / "my lab"
    inside.mkdir()
    for name in ("ticket.json", "job_sheet.jsonl"):
        (source / name).rename(inside / name)
    (inside / "Winding checks FINAL.ipynb").write_bytes(notebook)
    for place in (source / ".ipynb_checkpoints", inside / ".ipynb_checkpoints", source / "__MACOSX"):
        place.mkdir()
        (place / "lab.ipynb").write_bytes(notebook)
    (inside / "._lab.ipynb").write_bytes(b"\0\5\x16\7")

    receipt, _ = taken(small, source)

    assert receipt.notices == (Noticed.NAME.value, Noticed.PLACE.value)
    assert answers_in(small) == right_answers(small)
    assert (small.submitted("ada") / "ticket.json").exists()


def test_other_notebooks_beside_the_lab_are_passed_over(small: SmallClass, source: Path) -> None:
    """The lesson beside the lab is no second lab; that it was there is said."""
    lesson = nbformat.v4.new_notebook(cells=[nbformat.v4.new_markdown_cell("# Lesson")])
    (source / "lesson.ipynb").write_text(nbformat.writes(lesson))

    receipt, _ = taken(small, source)

    assert receipt.notices == (Noticed.OTHERS.value,)
    assert answers_in(small) == right_answers(small)


def test_the_wrong_lab_is_refused_and_a_battered_right_one_is_not(small: SmallClass, source: Path) -> None:
    """Another lab is told by its check cells or by having none of these answers; ids lost or cells gone do no harm."""
    notebook = json.loads((source / "lab.ipynb").read_text())
    other = json.loads(json.dumps(notebook).replace(LAB.name, "start_circuits"))
    (source / "lab.ipynb").write_text(json.dumps(other))
    refused(small, source, r"lab.ipynb has no answer cell of the lab 03 'Winding checks'. Is it from another lab\?")

    plain = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell("verdict = 'good'\nx = 1")])
    (source / "lab.ipynb").write_text(nbformat.writes(plain))
    refused(small, source, "has no answer cell of the lab 03")

    cells = [c for c in notebook["cells"] if c["id"].startswith("answer-")]
    bare = [{"cell_type": "code", "source": c["source"], "metadata": {}, "outputs": []} for c in cells]
    only_checks = [c for c in notebook["cells"] if c["id"].startswith("check-")]
    for kept in (cells[2:3], bare, only_checks):
        (source / "lab.ipynb").write_text(json.dumps({**notebook, "cells": kept}))
        taken(small, source)


def test_every_enrolled_learner_ends_in_exactly_one_result(small: SmallClass, source: Path, tmp_path: Path) -> None:
    """One good, one refused, one with nothing; names nobody has come after them; one fault stops nobody."""
    (source.parent / "Ben.zip").write_bytes(b"no zip")
    (source.parent / "stran\x1bger").mkdir()
    (source.parent / ".DS_Store").write_bytes(b"")

    results = take_in_all(source.parent, small.folder, LAB)

    assert [(each.learner, type(each)) for each in results] == [
        ("ada", Receipt),
        ("ben", Refusal),
        ("cleo", Refusal),
        ("stran?ger", Refusal),
    ]
    assert [each.reason for each in results if isinstance(each, Refusal)] == [
        "Ben.zip is neither a folder nor a whole zip file",
        "nothing was handed in",
        "nobody on the roster has this id",
    ]
    assert [each.taken for each in results] == [True, False, False, False]
    assert str(results[1]) == "ben: not taken in: Ben.zip is neither a folder nor a whole zip file."
    assert [p.name for p in small.folder.part("submitted").iterdir()] == ["ada"]

    pack(source, source.parent / "ADA.zip")
    (both, *_) = take_in_all(source.parent, small.folder, LAB)
    assert isinstance(both, Refusal)
    assert both.reason == "there are two hand-ins: ADA.zip and ada. Leave only one"
    empty = tmp_path / "empty"
    empty.mkdir()
    (first, *_) = take_in_all(empty, small.folder, LAB)
    assert isinstance(first, Refusal)
    assert first.reason.startswith("nothing was handed in this time; that of 20")
    with pytest.raises(CourseError, match=r"there is no folder .*gone with hand-ins; check its name\. Give the folder"):
        take_in_all(tmp_path / "gone", small.folder, LAB)
    with pytest.raises(
        CourseError, match=r"ADA\.zip is a file, not a folder with hand-ins\. Give the folder that holds"
    ):
        take_in_all(source.parent / "ADA.zip", small.folder, LAB)


def test_a_fault_of_intake_itself_stops_nobody(
    small: SmallClass, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An error that is a bug becomes that learner's refusal, naming itself; the others are taken in."""
    import coldwright.marking.intake as intake

    (source.parent / "ben").mkdir()
    real = intake.read_hand_in

    def fails(path: Path) -> Any:
        if path.name == "ben":
            raise ZeroDivisionError
        return real(path)

    monkeypatch.setattr(intake, "read_hand_in", fails)
    ada, ben, _ = take_in_all(source.parent, small.folder, LAB)

    assert isinstance(ada, Receipt)
    assert isinstance(ben, Refusal)
    assert "ZeroDivisionError" in ben.reason


def test_a_place_that_cannot_be_written_is_said(small: SmallClass, source: Path) -> None:
    """Where something stands in the way, the place and the system's reason are said."""
    small.folder.part("submitted").write_text("a file where a folder should be")
    with pytest.raises(CourseError, match=r"hand-in of ada cannot be written to .*: (File exists|Not a directory)"):
        take_in(source, small.folder, "ada", LAB)
    (first, *_) = take_in_all(source.parent, small.folder, LAB)
    assert isinstance(first, Refusal)
    assert "cannot be written" in first.reason
