"""The job sheet: its file, what is found when it was touched, and its replay on the unit."""

from __future__ import annotations

import contextlib
import json
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coldwright.bench.replay import replay, same_digits
from coldwright.bench.sheet import (
    LONGEST_LINE,
    LONGEST_SHEET,
    Sheet,
    SheetLine,
    chained,
    header_chain,
    header_text,
    line_text,
    parse_sheet,
    read_sheet,
)
from coldwright.errors import BenchError, ColdwrightError, SheetError
from tests.appliance.units import INVERTER, SOUND, unit
from tests.bench.benches import HEADER, JOBS, SAFE_ORDER, bench, work, worked

SHEET = worked(SAFE_ORDER).sheet_text()
LINES = parse_sheet(SHEET).lines
UNITS = st.sampled_from([SOUND, INVERTER, unit(under_vacuum=True), unit(protector_tripped=True)])


def rechained(lines: list[SheetLine]) -> str:
    """A sheet whose chain was made good again by whoever changed it: the chain is no secret."""
    text, before = header_text(HEADER), header_chain(HEADER)
    for n, line in enumerate(lines, start=1):
        made = chained(before, n, line.at, line.act, line.on, line.shown, line.hazards)
        text += line_text(made)
        before = made.chain
    return text


# --------------------------------------------------------------- text and file


@given(JOBS, UNITS)
def test_a_sheet_is_read_back_as_it_was_written(job, which):
    """Text to sheet and back gives the same header and lines."""
    on = worked(job, which)
    sheet = parse_sheet(on.sheet_text())
    assert sheet == Sheet(HEADER, tuple(on.lines))


def test_a_sheet_is_gone_on_with_from_its_file(tmp_path):
    """A bench opened on a file stands where the job was left, and the file holds every line at once."""
    path = tmp_path / "sheet.jsonl"
    first = bench(path=path)
    work(first, SAFE_ORDER[:9])
    assert path.read_text(encoding="utf-8") == first.sheet_text()
    second = bench(path=path)
    assert second.sheet_text() == first.sheet_text()
    assert (second.at, second.winding_k, second.connected) == (first.at, first.winding_k, first.connected)
    work(second, SAFE_ORDER[9:])
    assert path.read_text(encoding="utf-8") == SHEET


@given(JOBS, st.integers(0, 25))
def test_stopping_at_any_point_changes_nothing(tmp_path_factory, job, stop):
    """A job done in two sittings leaves the same sheet as in one."""
    path = tmp_path_factory.mktemp("sheet") / "sheet.jsonl"
    work(bench(path=path), job[:stop])
    resumed = bench(path=path)
    work(resumed, job[stop:])
    assert path.read_text(encoding="utf-8") == resumed.sheet_text()
    in_one = worked(job)
    assert [line.act for line in resumed.lines] == [line.act for line in in_one.lines]
    assert resumed.sheet_text() == in_one.sheet_text()


@pytest.mark.parametrize("kept", range(1, 60, 7))
def test_a_torn_last_line_is_left_out(tmp_path, kept):
    """A last line cut off while it was written is dropped, and the job goes on from the line before."""
    whole = line_text(LINES[-1])
    torn = SHEET.removesuffix(whole) + whole[:kept]
    assert parse_sheet(torn).lines == LINES[:-1]
    path = tmp_path / "sheet.jsonl"
    path.write_text(torn, encoding="utf-8")
    again = bench(path=path)
    work(again, SAFE_ORDER[-1:])
    assert path.read_text(encoding="utf-8") == SHEET


def test_a_last_line_without_its_line_end_counts():
    """Only the line end is missing: the line is whole and stays."""
    assert parse_sheet(SHEET.removesuffix("\n")).lines == LINES


def test_two_windows_on_one_sheet(tmp_path):
    """When another window has written to the file, the first says so and adds nothing."""
    path = tmp_path / "sheet.jsonl"
    one, two = bench(path=path), bench(path=path)
    two.isolate()
    before = path.read_text(encoding="utf-8")
    with pytest.raises(BenchError, match=r"^the job sheet was changed outside this window: .* choose Kernel, Restart"):
        one.isolate()
    assert path.read_text(encoding="utf-8") == before
    two.discharge()
    assert len(read_sheet(path).lines) == 2


def test_a_sheet_that_was_deleted_meanwhile(tmp_path):
    """A file that is gone while the bench is open is told in the same way, and is not begun anew."""
    path = tmp_path / "sheet.jsonl"
    on = bench(path=path)
    path.unlink()
    with pytest.raises(BenchError, match=r"^the job sheet was changed outside this window"):
        on.isolate()
    assert not path.exists()


def test_a_sheet_of_someone_else(tmp_path):
    """A sheet of another learner, ticket or version is refused by its name."""
    path = tmp_path / "sheet.jsonl"
    for field in ("learner", "ticket", "lab", "model"):
        path.write_text(header_text(replace(HEADER, **{field: "other"})), encoding="utf-8")
        with pytest.raises(
            SheetError, match=r"^the job sheet sheet\.jsonl belongs to another job, learner or version$"
        ):
            bench(path=path)


def test_a_sheet_that_the_unit_does_not_give(tmp_path):
    """A bench does not go on with a sheet whose readings another unit gave: it names the line."""
    path = tmp_path / "sheet.jsonl"
    path.write_text(SHEET, encoding="utf-8")
    with pytest.raises(SheetError, match=r"^line \d+ of sheet\.jsonl is not what this unit shows$"):
        bench(unit(run_ohm=11.0), path=path)


# --------------------------------------------------------------- what was touched


@given(st.integers(0, len(LINES) - 1), st.sampled_from(["at", "act", "on", "shown", "hazards"]))
def test_any_change_in_a_line_is_found(number, field):
    """Whatever is changed in a line, its own number is named."""
    changed = {"at": LINES[number].at + 1, "act": "plug in", "on": ("1", "9"), "shown": "9.999 Ω", "hazards": ("X",)}
    line = replace(LINES[number], **{field: changed[field]})
    assume(line != LINES[number])
    lines = [*LINES[:number], line, *LINES[number + 1 :]]
    text = header_text(HEADER) + "".join(map(line_text, lines))
    with pytest.raises(SheetError, match=rf"^line {number + 2} of the job sheet does not hang on the line before"):
        parse_sheet(text)


@pytest.mark.parametrize("number", range(len(LINES) - 1))
def test_a_removed_line_is_found(number):
    """Where a line was taken out, the next one no longer hangs on."""
    lines = [*LINES[:number], *LINES[number + 1 :]]
    with pytest.raises(SheetError, match=rf"^line {number + 2} of the job sheet does not hang on the line before"):
        parse_sheet(header_text(HEADER) + "".join(map(line_text, lines)))


@pytest.mark.parametrize("number", range(len(LINES) - 1))
def test_a_moved_line_is_found(number):
    """Two lines that changed places are found at the first of them."""
    lines = list(LINES)
    lines[number], lines[number + 1] = lines[number + 1], lines[number]
    with pytest.raises(SheetError, match=rf"^line {number + 2} of the job sheet does not hang on the line before"):
        parse_sheet(header_text(HEADER) + "".join(map(line_text, lines)))


@pytest.mark.parametrize("number", range(1, len(LINES)))
def test_an_added_line_is_found(number):
    """A line written in between is found at its place, as a copy of another or made up."""
    for extra in (LINES[0], replace(LINES[number], chain="0" * 16)):
        lines = [*LINES[:number], extra, *LINES[number:]]
        with pytest.raises(SheetError, match=rf"^line {number + 2} of the job sheet does not hang on the line before"):
            parse_sheet(header_text(HEADER) + "".join(map(line_text, lines)))


def test_a_wrong_number_with_a_good_chain_is_found():
    """Lines are numbered from 1 without a gap, whatever their chain says."""
    before = header_chain(HEADER)
    line = chained(before, 2, LINES[0].at, LINES[0].act, LINES[0].on, LINES[0].shown, LINES[0].hazards)
    with pytest.raises(SheetError, match=r"^line 2 of the job sheet does not hang on the line before"):
        parse_sheet(HEAD + line_text(line))


def test_another_header_breaks_the_chain():
    """The lines hang on the header: under another name the first one is refused."""
    text = header_text(replace(HEADER, learner="eve")) + "".join(map(line_text, LINES))
    with pytest.raises(SheetError, match=r"^line 2 of the job sheet does not hang on the line before"):
        parse_sheet(text)


HEAD = header_text(HEADER)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", r"^the job sheet is empty; open the notebook's bench once to begin it$"),
        ("\n", r"^line 1 of the job sheet cannot be read; it was changed or cut off$"),
        ("[]\n", r"^line 1 of the job sheet is not a line that the bench writes$"),
        ('{"lab": "x"}\n', r"^line 1 of the job sheet is not a line that the bench writes$"),
        (HEAD.replace('"format": 1', '"format": 2'), r"^line 1 of the job sheet does not say whose job it is$"),
        (HEAD.replace('"ada"', "5"), r"^line 1 of the job sheet does not say whose job it is$"),
        (HEAD + "what\n", r"^line 2 of the job sheet cannot be read; it was changed or cut off$"),
        (HEAD + "[" * 1900 + "\n", r"^line 2 of the job sheet cannot be read"),
        (HEAD + "x" * (LONGEST_LINE + 1) + "\n", rf"^line 2 of the job sheet is {LONGEST_LINE + 1} characters long"),
        (HEAD + "{}\n", r"^line 2 of the job sheet is not a line that the bench writes$"),
        ("x" * (LONGEST_SHEET + 1), rf"^the job sheet is {LONGEST_SHEET + 1} characters long; no job is longer"),
    ],
)
def test_text_that_is_no_sheet(text, message):
    """Each kind of damage has its own message, with the number of the line."""
    with pytest.raises(SheetError, match=message):
        parse_sheet(text)


@pytest.mark.parametrize(
    ("field", "value"),
    [("n", 1.0), ("n", True), ("at", "30"), ("act", None), ("on", "1"), ("on", [1]), ("hazards", {}), ("chain", 5)],
)
def test_a_line_with_a_wrong_kind_of_value(field, value):
    """A field of the wrong kind is no line that the bench writes."""
    body = {**json.loads(line_text(LINES[0])), field: value}
    with pytest.raises(SheetError, match=r"^line 2 of the job sheet is not a line that the bench writes$"):
        parse_sheet(HEAD + json.dumps(body) + "\n")


@given(st.text(max_size=300))
def test_any_text_is_a_sheet_or_a_plain_refusal(text):
    """No text brings anything but a sheet or a sheet error."""
    for whole in (text, HEAD + text, HEAD + text + "\n"):
        with contextlib.suppress(SheetError):
            assert isinstance(parse_sheet(whole), Sheet)


@given(st.lists(st.text(max_size=20), max_size=3), st.text(max_size=20), st.text(max_size=20), st.integers())
def test_any_line_with_a_good_chain_replays_or_is_named(on, act, shown, at):
    """A made-up line in a good chain never replays by accident and never breaks the replay."""
    before = header_chain(HEADER)
    line = chained(before, 1, at, act, tuple(on), shown, ())
    result = replay(Sheet(HEADER, (line,)), bench())
    assert result.first_bad == 2
    assert result.reason


def test_a_file_that_is_no_sheet(tmp_path):
    """A file that is missing, no text or too large is told by its name."""
    with pytest.raises(SheetError, match=r"^there is no job sheet none\.jsonl$"):
        read_sheet(tmp_path / "none.jsonl")
    odd = tmp_path / "odd.jsonl"
    odd.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(SheetError, match=r"^the job sheet odd\.jsonl cannot be read as text$"):
        read_sheet(odd)
    with pytest.raises(SheetError, match=r"cannot be read as text$"):
        read_sheet(tmp_path)
    odd.write_bytes(b" " * (LONGEST_SHEET * 4 + 1))
    with pytest.raises(SheetError, match=r"^the job sheet odd\.jsonl is too large to be one$"):
        read_sheet(odd)


# --------------------------------------------------------------- replay


@given(JOBS, UNITS)
def test_every_job_replays_on_its_own_unit(job, which):
    """Whatever was done, the sheet replays line by line on the same unit and seed, with the same readings."""
    on = worked(job, which)
    result = replay(parse_sheet(on.sheet_text()), bench(which))
    assert result.holds
    assert result.bench.lines == on.lines
    assert [t.line for t in result.bench.taken] == [t.line for t in on.taken]


@given(JOBS)
def test_it_replays_however_often_acts_were_repeated(job):
    """Each act done three times in a row gives a sheet that replays all the same."""
    on = worked([act for act in job for _ in range(3)])
    assert replay(parse_sheet(on.sheet_text()), bench()).holds


def test_a_sheet_of_another_unit_does_not_replay():
    """On a unit with another run winding the first reading of that winding is named."""
    result = replay(parse_sheet(SHEET), bench(unit(run_ohm=11.0)))
    first = next(line for line in LINES if line.act == "ohms" and "3" in line.on)
    assert result.first_bad == first.n + 1
    assert result.reason == f"'ohms' on {' and '.join(first.on)} would not show {first.shown!r}"
    assert len(result.bench.lines) == first.n


READINGS = [i for i, line in enumerate(LINES) if line.shown and line.act == "ohms"]


@pytest.mark.parametrize("number", READINGS)
@pytest.mark.parametrize(("counts", "holds"), [(1, True), (-1, True), (2, False), (-2, False)])
def test_a_digit_may_be_off_by_one_count(number, counts, holds):
    """A reading changed by one count replays, as another machine may round; by two it does not, and is named."""
    digits, unit_text = LINES[number].shown.split(" ", 1)
    places = len(digits.partition(".")[2])
    shown = f"{float(digits) + counts * 10.0**-places:.{places}f} {unit_text}"
    lines = [*LINES[:number], replace(LINES[number], shown=shown), *LINES[number + 1 :]]
    result = replay(parse_sheet(rechained(lines)), bench())
    assert result.holds is holds
    assert result.first_bad == (None if holds else number + 2)


def test_a_removed_line_with_a_good_chain_is_found_by_replay():
    """Without the discharge the connector was pulled off a charged capacitor: time and hazards do not fit."""
    lines = [line for line in LINES if line.act != "discharge"]
    result = replay(parse_sheet(rechained(lines)), bench())
    assert result.first_bad == 5
    assert result.reason == "'disconnect' has another time or other hazards than the bench gives"


def test_a_changed_time_with_a_good_chain_is_found_by_replay():
    """Time is on the bench's own grid: a line that says another time is named."""
    lines = [*LINES[:4], replace(LINES[4], at=LINES[4].at + 1), *LINES[5:]]
    result = replay(parse_sheet(rechained(lines)), bench())
    assert result.first_bad == 6
    assert result.reason == "'disconnect' has another time or other hazards than the bench gives"


def test_a_hazard_struck_out_is_found_by_replay():
    """A hazard taken off the sheet, its chain made good: the replay meets it again."""
    on = worked([("disconnect", ()), *SAFE_ORDER])
    lines = [replace(line, hazards=()) for line in on.lines]
    result = replay(parse_sheet(rechained(lines)), bench())
    assert result.first_bad == 2


def test_an_act_written_twice_is_found_by_replay():
    """A copied line with a good chain would not have been written: the bench knows it was already done."""
    lines = [LINES[0], LINES[0], *LINES[1:]]
    result = replay(parse_sheet(rechained(lines)), bench())
    assert result.first_bad == 3
    assert result.reason == "'isolate' would not have been written here: it was already done"


def test_an_unknown_act_is_found_by_replay():
    """An act that the bench does not know is named, whatever its chain."""
    result = replay(parse_sheet(rechained([replace(LINES[0], act="fly")])), bench())
    assert result.first_bad == 2
    assert result.reason == "the bench knows no act 'fly' on ()"


def test_an_empty_sheet_replays():
    """A sheet on which nothing was done holds."""
    assert replay(Sheet(HEADER, ()), bench()).holds


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("4.200 Ω", "4.200 Ω", True),
        ("4.200 Ω", "4.201 Ω", True),
        ("4.200 Ω", "4.202 Ω", False),
        ("9.99 Ω", "10.00 Ω", True),
        ("-0.001 Ω", "0.000 Ω", True),
        ("4.200 Ω", "4.20 Ω", False),
        ("4.200 Ω", "4.200 kΩ", False),
        ("250 MΩ", "251 MΩ", True),
        ("OL", "OL", True),
        ("OL", "59.99 MΩ", False),
        ("----", "0.000 Ω", False),
        ("0.000 Ω", "-0.000 Ω", True),
        ("4.200 Ω", "4.200", False),
    ],
)
def test_digits_within_one(one, other, same):
    """Two displays agree within one of the last digit, with the same places and unit."""
    assert same_digits(one, other) is same
    assert same_digits(other, one) is same


def test_errors_are_for_people():
    """Sheet and bench errors are of the one family that a person may meet."""
    assert issubclass(SheetError, ColdwrightError)
    assert issubclass(BenchError, ColdwrightError)
