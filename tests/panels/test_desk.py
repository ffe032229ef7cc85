"""Opening the desk of a lab: ticket, job sheet, and what is said when they do not fit."""

from pathlib import Path

import pytest

from coldwright.errors import BenchError, InputError, TicketError
from coldwright.labs.ticket import Ticket, issue_ticket, parse_ticket, practice_ticket
from coldwright.panels import desk as desk_module
from coldwright.panels import new_practice, open_desk, practice_desk

SECRET = b"a secret for the tests"
SHEET = "job_sheet.jsonl"


def put(folder: Path, ticket: Ticket) -> Path:
    """A lab's folder with a ticket in it."""
    (folder / "ticket.json").write_text(ticket.text(), encoding="utf-8")
    return folder


def ticket_of(learner: str, lab: str = "winding_checks", model: str | None = None) -> Ticket:
    """A learner's ticket, of this version unless told."""
    extra = {} if model is None else {"model": model}
    return issue_ticket(SECRET, "a course", lab, learner, **extra)  # type: ignore[arg-type]


def forget() -> None:
    """As after a restart of the kernel."""
    desk_module._open_benches.clear()


def test_the_desk_stands_on_the_learners_own_ticket(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Ticket and job sheet are those beside the notebook."""
    ticket = ticket_of("ada")
    desk = open_desk(folder=put(tmp_path, ticket))

    assert desk.bench.header == ticket.header
    assert capsys.readouterr().out == "Ticket of ada, attempt 1.\nThe job sheet is job_sheet.jsonl: 0 lines so far.\n"
    desk.isolate()
    assert '"act": "isolate"' in (tmp_path / SHEET).read_text(encoding="utf-8")


def test_without_a_ticket_one_for_practice_is_made_and_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is said that it earns no marks; the next start has the same unit."""
    desk = open_desk(folder=tmp_path)

    out = capsys.readouterr().out
    assert "There was no ticket.json here, so one for practice was made." in out
    assert "This is a unit for practice and earns no marks." in out
    made = parse_ticket((tmp_path / "ticket.json").read_text(encoding="utf-8"))
    assert (made.course, made.signature) == ("practice", "")
    forget()
    assert open_desk(folder=tmp_path).bench.unit == desk.bench.unit


def test_a_job_goes_on_where_it_stopped(tmp_path: Path) -> None:
    """After a restart the bench stands as the sheet says, and the sheet is unchanged."""
    desk = open_desk(folder=put(tmp_path, practice_ticket("winding_checks", 6)))
    desk.isolate()
    desk.volts_ac("L", "N")
    before = (tmp_path / SHEET).read_bytes()
    forget()

    again = open_desk(folder=tmp_path)

    assert again.bench is not desk.bench
    assert not again.bench.plugged
    assert (tmp_path / SHEET).read_bytes() == before


def test_running_the_cell_again_keeps_the_bench(tmp_path: Path) -> None:
    """In one kernel both desks hold the same bench, so neither takes the sheet from the other."""
    first = open_desk(folder=put(tmp_path, practice_ticket("winding_checks", 6)))
    second = open_desk(folder=tmp_path)
    second.isolate()
    first.volts_ac("L", "N")

    assert first.bench is second.bench
    assert len((tmp_path / SHEET).read_text(encoding="utf-8").splitlines()) == 3


@pytest.mark.parametrize("spoil", ["another learner", "a changed line", "no sheet at all", "another reading"])
def test_a_sheet_that_does_not_fit_is_set_aside_whole(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], spoil: str
) -> None:
    """It is kept byte for byte under another name, that is said, and a new sheet is begun."""
    folder = put(tmp_path, ticket_of("ada"))
    desk = open_desk(folder=folder)
    desk.isolate()
    desk.volts_ac("L", "N")
    sheet = folder / SHEET
    text = sheet.read_text(encoding="utf-8")
    if spoil == "another learner":
        put(folder, ticket_of("ben"))
    elif spoil == "a changed line":
        sheet.write_text(text.replace("isolate", "plug in"), encoding="utf-8")
    elif spoil == "no sheet at all":
        sheet.write_bytes(b"\xff\xfe\x00")
    else:
        sheet.write_text(text.replace('"at": 30', '"at": 31'), encoding="utf-8")
    before = sheet.read_bytes()
    forget()
    capsys.readouterr()

    fresh = open_desk(folder=folder)

    out = capsys.readouterr().out
    assert "The job sheet that was here does not fit: " in out
    assert "It is kept as 'job_sheet (set aside 1).jsonl'; nothing is lost." in out
    assert (folder / "job_sheet (set aside 1).jsonl").read_bytes() == before
    assert fresh.bench.lines == []


def test_a_second_sheet_set_aside_does_not_replace_the_first(tmp_path: Path) -> None:
    """Each gets a name of its own."""
    for learner in ("ada", "ben", "cara"):
        forget()
        open_desk(folder=put(tmp_path, ticket_of(learner))).bench.let_stand()

    names = sorted(path.name for path in tmp_path.glob("job_sheet*"))
    assert names == ["job_sheet (set aside 1).jsonl", "job_sheet (set aside 2).jsonl", SHEET]


def test_a_ticket_of_another_version_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The learner hears to tell the instructor, and that it is not held against them."""
    open_desk(folder=put(tmp_path, ticket_of("ada", model="0")))

    assert "made with version 0 of the simulation" in capsys.readouterr().out


def test_a_ticket_that_cannot_be_used_is_said(tmp_path: Path) -> None:
    """Another lab's ticket, and one that is no ticket: the message says what to do."""
    put(tmp_path, ticket_of("ada", lab="start_circuits"))
    with pytest.raises(TicketError, match=r"ticket.json is for the lab 'start_circuits', but this notebook is"):
        open_desk(folder=tmp_path)
    (tmp_path / "ticket.json").write_text("{", encoding="utf-8")
    with pytest.raises(TicketError, match=r"the ticket cannot be read; copy ticket\.json again"):
        open_desk(folder=tmp_path)


def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A file in the folder's place stands for any folder that takes no file."""
    (tmp_path / "a file").write_text("", encoding="utf-8")

    with pytest.raises(BenchError, match="the files of this lab cannot be written in its folder"):
        open_desk(folder=tmp_path / "a file")


def test_a_practice_unit_can_be_had_again_by_its_number(capsys: pytest.CaptureFixture[str]) -> None:
    """The number is printed; the same one gives the same unit, a new practice another number."""
    first = new_practice()
    assert f"practice_desk({first.number})" in capsys.readouterr().out

    assert practice_desk(first.number).bench.unit == first.bench.unit
    assert len({new_practice().number for _ in range(5)}) > 1


@pytest.mark.parametrize("number", [-1, 1_000_000, "7", 7.0, True])
def test_a_number_that_is_none_is_said(number: object) -> None:
    """Only whole numbers from 0 to 999999 name a unit."""
    with pytest.raises(InputError, match=r"the number of a practice unit is .*; give a whole number from 0 to 999999"):
        practice_desk(number)  # type: ignore[arg-type]
