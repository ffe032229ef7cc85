"""The marks table: one sentence for each hand-in, a terminal's width, a CSV that reads back and runs nothing."""

import csv
import json
import re
import unicodedata
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.class_folder import Learner
from coldwright.marking.gradebook import Held
from coldwright.marking.intake import Refusal
from coldwright.marking.judge import NO_READING, NOT_ANSWERED, WRONG
from coldwright.marking.mark_class import NOTHING_HANDED_IN, Result
from coldwright.marking.marks import LabMarks, Mark, Outcome, Standing
from coldwright.marking.table import BY_PERSON, Row, as_json, inert, read_csv, row_of, show_points, write_csv
from coldwright.marking.terminal_table import marks_table
from coldwright.marking.what_went_wrong import what_went_wrong

LAB = find_lab("winding_checks")
ONE = Fraction(1)


def mark(name: str, standing: Standing, points: int | None = 0, most: int = 1, sentence: str = "", **more: str) -> Mark:
    """One mark; answers that are right or wrong were read."""
    given = None if points is None else Fraction(points)
    read_as = more.get("read_as", "4 Ω")
    return Mark("q", name, given, Fraction(most), standing, read_as, sentence or WRONG, more.get("slip"))


def right(name: str, most: int = 1) -> Mark:
    """A right answer."""
    return mark(name, Standing.RIGHT, most, most, "Right.")


def work(name: str, sentence: str) -> Mark:
    """A point for the way of working, not earned."""
    return mark(name, Standing.WRONG, sentence=sentence, read_as="")


def judged(*marks: Mark, outcome: Outcome = Outcome.MARKED, notices: tuple[str, ...] = ()) -> LabMarks:
    """A hand-in with these marks."""
    return LabMarks(outcome, marks, notices)


SENTENCES = {
    "all right": (judged(right("a"), right("b")), "Nothing: all right."),
    "the slip that cost most, not the first": (
        judged(
            mark("a", Standing.WRONG, sentence="Leads.", slip="leads"),
            mark("b", Standing.WRONG, most=2, sentence="Wrong way.", slip="way"),
        ),
        "Wrong way. And 1 more.",
    ),
    "one slip in several answers adds up": (
        judged(
            mark("a", Standing.WRONG, most=2, sentence="Wrong way.", slip="way"),
            *(mark(n, Standing.WRONG, sentence="Leads.", slip="leads") for n in "bcd"),
        ),
        "Leads. And 1 more.",
    ),
    "a known slip before a dearer unknown one": (
        judged(mark("a", Standing.WRONG, most=3), mark("b", Standing.WRONG, sentence="Leads.", slip="leads")),
        "Leads. And 1 more.",
    ),
    "no known slip": (
        judged(mark("run", Standing.WRONG), mark("start", Standing.WRONG), right("a")),
        f"run, start: {WRONG}",
    ),
    "blank": (
        judged(
            mark("a", Standing.NOT_ANSWERED, sentence=NOT_ANSWERED, read_as=""),
            mark("b", Standing.NOT_ANSWERED, sentence=NOT_ANSWERED, read_as=""),
            work("zeroed", "Zero the leads."),
        ),
        "Nothing was answered.",
    ),
    "half": (
        judged(right("a"), mark("b", Standing.NOT_ANSWERED, sentence=NOT_ANSWERED, read_as="")),
        "Not answered: b.",
    ),
    "no readings": (
        judged(
            *(mark(n, Standing.NO_READING, sentence=NO_READING) for n in "abcde"), work("zeroed", "Zero the leads.")
        ),
        "No reading was taken for a, b, c and 2 others. And 1 more.",
    ),
    "only the way of working": (judged(right("a"), work("zeroed", "Zero the leads.")), "Zero the leads."),
    "nothing lost but for want of readings": (
        replace(
            judged(right("a"), replace(work("zeroed", "Not counted."), standing=Standing.NOT_COUNTED)),
            missing=("the start test", "a look at the overload", "the room's temperature"),
        ),
        "3 readings missing.",
    ),
    "a slip, and readings missing": (
        replace(
            judged(
                mark("a", Standing.WRONG, sentence="Leads.", slip="leads"),
                replace(work("zeroed", "Not counted."), standing=Standing.NOT_COUNTED),
                replace(work("no_hazard", "Not counted."), standing=Standing.NOT_COUNTED),
            ),
            missing=("the start test",),
        ),
        "Leads. 1 reading missing.",
    ),
    "stopped": (
        judged(right("a"), mark("b", Standing.STOPPED, sentence="It was stopped after 5 s.", read_as="")),
        "b: It was stopped after 5 s.",
    ),
    "refused": (judged(outcome=Outcome.REFUSED, notices=("Not marked: cut off.",)), "Not marked: cut off."),
    "waits, with a flag": (
        replace(
            judged(
                mark("a", Standing.NEEDS_PERSON, None), outcome=Outcome.NEEDS_PERSON, notices=("A copy was found.",)
            ),
            flags=("Job sheet: line 7: not what the unit gives.",),
        ),
        "Job sheet: line 7: not what the unit gives.",
    ),
    "waits, without one": (
        judged(
            right("a"),
            mark("b", Standing.NEEDS_PERSON, None, sentence="No sandbox here."),
            outcome=Outcome.NEEDS_PERSON,
            notices=("A copy was found.",),
        ),
        "No sandbox here.",
    ),
}


@pytest.mark.parametrize("name", SENTENCES)
def test_what_went_wrong_in_one_sentence(name: str) -> None:
    """The slip that cost most is named, then what else cost most; the number of other things is told."""
    marks, sentence = SENTENCES[name]
    assert what_went_wrong(marks) == sentence


def row(learner: str = "ada", name: str = "Ada Renner", sentence: str = "Nothing: all right.", **more: object) -> Row:
    """A row with what is not given filled in."""
    made = Row(learner, name, Fraction(20), Fraction(20), "marked", sentence)
    return replace(made, **more)  # type: ignore[arg-type]


NAMES = [
    "Renner, Ada",
    'Ada "the ohm" Renner',
    '=HYPERLINK("http://x.example","click")',
    "+1",
    "-2+3",
    "@SUM(A1)",
    "\t=1+1",
    "\r=1",
    "x;=1+1;y",
    "'=1",
    "''+1",
    "'tis",
    "  =1",
    "＝1",
    "line\n=2",
    "🔧 Ada 👩‍🔧",
    "עדה רנר",
    "آدا",
    unicodedata.normalize("NFC", "Zoë Ångström"),
    unicodedata.normalize("NFD", "Zoë Ångström"),
    "",
]
FORMULA = tuple("=+-@\t\r＝＋－＠")


def fields(line: str, separator: str) -> list[str]:
    """What a spreadsheet that splits lines at a separator puts into its cells."""
    return [field for row in csv.reader([line], delimiter=separator) for field in row]


@pytest.mark.parametrize("name", NAMES)
def test_csv_reads_back_equal_and_is_inert(tmp_path: Path, name: str) -> None:
    """Every text comes back letter for letter; no cell begins as a formula, however the lines are split."""
    path = tmp_path / "marks.csv"
    given_row = row(name=name, sentence=name, notices=("one", "=two") if name else (), points=None)
    write_csv(path, [given_row, row(feedback=Path("feedback/ada/lab.html"))])

    assert read_csv(path) == [given_row, row(feedback=Path("feedback/ada/lab.html"))]
    content = path.read_bytes()
    assert content.startswith(b"\xef\xbb\xbf")
    text = content.decode("utf-8-sig")
    with path.open(encoding="utf-8-sig", newline="") as file:
        cells = [cell for line in csv.reader(file) for cell in line]
    assert not [cell for cell in cells if cell.lstrip(" ").startswith(FORMULA)]
    for separator in ";\t|":
        loose = [cell.strip(' "') for line in text.splitlines() for cell in line.split(separator)]
        assert not [cell for cell in loose if cell.startswith(FORMULA)]


@given(st.text(alphabet=st.sampled_from("=+-@\t\r\n;,|' \"＝ab"), max_size=12))
def test_what_is_made_inert_reads_back(text: str) -> None:
    """For any mix of signs, the ' goes in and comes off again, and the text does not begin as a formula."""
    from coldwright.marking.table import _as_it_was

    made = inert(text)
    assert _as_it_was(made) == text
    assert not made.lstrip(" ").startswith(FORMULA)
    assert not re.search(r"[;,|\t\r\n] *[=+\-@]", made)


@given(st.integers(0, 20_000), st.integers(1, 500))
def test_points_read_back_exactly(numerator: int, denominator: int) -> None:
    """Thirds and other parts of a point come back as the same fraction, not as a rounded number."""
    from coldwright.marking.table import LARGEST_DENOMINATOR, _decimal

    points = Fraction(numerator, denominator)
    assert Fraction(_decimal(points)).limit_denominator(LARGEST_DENOMINATOR) == points


def test_whole_points_are_plain_numbers(tmp_path: Path) -> None:
    """A spreadsheet can add the points up: whole ones have no decimals, none are empty."""
    path = tmp_path / "marks.csv"
    some, none = row(points=Fraction(37, 3), final=False), row(points=None, final=False)
    write_csv(path, [row(points=Fraction(15)), some, none])
    with path.open(encoding="utf-8-sig", newline="") as file:
        lines = list(csv.DictReader(file))
    assert [line["points"] for line in lines] == ["15", "12.333333", ""]
    assert [line["final"] for line in lines] == ["yes", "no", "no"]
    assert read_csv(path)[1:] == [some, none]


def test_the_table_fits_the_terminal() -> None:
    """No line is wider than the terminal, and a sentence goes on below: every word of it stands in the table."""
    long = "The room was 25 °C and the formula was used with it upside down, so the resistance went the wrong way."
    rows = [row(sentence=long), row("ben", "b" * 60, points=None, outcome="needs a person's look"), row("cleo", "")]
    for width in (69, 80, 100, 160):
        lines = marks_table(rows, width).splitlines()
        assert max(map(len, lines)) <= width
        column = lines[0].index("what")
        told = [line[column:].strip() for line in lines[2:]]
        assert " ".join(told[: told.index("Nothing: all right.") if width > 80 else None]).startswith(long)
        below = [line for line in lines[2:] if not line[:column].strip()]
        assert len(lines) == 5 + len(below)
        assert "…" not in "".join(told)
    wide = marks_table(rows, 400)
    assert long in wide
    assert "20 / 20" in wide
    assert "– / 20" in wide


def test_a_name_cannot_drive_the_terminal() -> None:
    """Escape sequences, line breaks and carriage returns in a name or sentence do not reach the terminal."""
    shown = marks_table([row(name="A\x1b[2J\r\nb\x07", sentence="x\x9b31m\u2028y")], 120)
    assert not [c for c in shown if unicodedata.category(c) in ("Cc", "Zl", "Zp") and c != "\n"]
    assert len(shown.splitlines()) == 3


def test_columns_stay_in_line_with_wide_and_combined_letters() -> None:
    """Wide letters take two columns and accents none, so that what follows stands under its head."""
    plain, wide, combined = marks_table([row(name="abcd"), row(name="冷凍"), row(name="a\u0301bcd")], 100).splitlines()[
        2:
    ]
    assert plain.index("20 / 20") == wide.index("20 / 20") + 2 == combined.index("20 / 20") - 1


def test_points_in_words() -> None:
    """Whole points have no decimals, thirds have two."""
    assert [show_points(p) for p in (Fraction(20), Fraction(37, 3), Fraction(1, 2))] == ["20", "12.33", "0.50"]


def test_json_says_the_same(tmp_path: Path) -> None:
    """The data hold the rows with numbers as numbers, in plain ASCII that no terminal can be driven with."""
    rows = [
        row(name="\x1b[2J Zoë"),
        row("ben", points=None, final=False, notices=("n",), feedback=tmp_path / "lab.html"),
    ]
    text = as_json(LAB, rows, {"gradebook": tmp_path})
    data = json.loads(text)

    assert text.isascii()
    assert data["lab"] == "winding_checks"
    assert [each["points"] for each in data["learners"]] == [20, None]
    assert [each["final"] for each in data["learners"]] == [True, False]
    assert data["learners"][0]["name"] == "\x1b[2J Zoë"
    assert data["learners"][1]["feedback"] == str(tmp_path / "lab.html")
    assert data["learners"][1]["notices"] == ["n"]
    assert data["places"] == {"gradebook": str(tmp_path)}


def test_a_row_from_each_kind_of_result() -> None:
    """Marked, marking failed, nothing handed in, refused at intake: each has its outcome and its reason."""
    ada = Learner("ada", "Ada", "Renner")
    marks = judged(right("a"), outcome=Outcome.MARKED_WITH_NOTICE, notices=("A notice.",))
    found = row_of(Result(ada, marks.outcome, marks), LAB, Path("p.html"))
    said = "marked, with a notice", "Nothing: all right."
    assert found == Row("ada", "Ada Renner", ONE, LAB.points, *said, ("A notice.",), Path("p.html"))

    failed = row_of(Result(ada, Outcome.NEEDS_PERSON, None, "Marking stopped."), LAB)
    assert (failed.points, failed.outcome, failed.sentence) == (None, "needs a person's look", "Marking stopped.")

    none = Result(ada, None, None, NOTHING_HANDED_IN)
    assert (row_of(none, LAB).outcome, row_of(none, LAB).sentence) == ("nothing handed in", "Nothing was handed in.")
    assert row_of(none, LAB, refusal=Refusal("ada", "nothing was handed in", handed_in=False)) == row_of(none, LAB)

    refusal = Refusal("ada", "lab.ipynb is empty")
    refused = row_of(none, LAB, refusal=refusal)
    assert (refused.outcome, refused.sentence) == ("not taken in", "The hand-in was not taken in: lab.ipynb is empty.")
    later = row_of(Result(ada, marks.outcome, marks), LAB, refusal=refusal)
    assert later.points == 1
    assert later.notices[1] == "The hand-in was not taken in: lab.ipynb is empty. The one before it was marked."


def waiting(outcome: Outcome = Outcome.NEEDS_PERSON) -> LabMarks:
    """A hand-in with a right answer, and a question of two of which one answer waits."""
    half = replace(right("b", 2), question="r"), replace(mark("c", Standing.NEEDS_PERSON, None), question="r")
    return judged(right("a", 8), *half, outcome=outcome)


def result(marks: LabMarks | None, held: Held | None = None, outcome: Outcome = Outcome.NEEDS_PERSON) -> Result:
    """Ada's result with what the gradebook holds."""
    return Result(Learner("ada"), outcome, marks, held=held)


def test_what_waits_is_no_zero() -> None:
    """Nothing marked: a dash; some of it: the points of whole questions so far; neither is final."""
    some, all_waits = waiting(), judged(mark("a", Standing.NEEDS_PERSON, None), outcome=Outcome.NEEDS_PERSON)
    rows = [row_of(result(marks), LAB) for marks in (some, all_waits, None)]
    assert [(each.points, each.final) for each in rows] == [(8, False), (None, False), (None, False)]
    lines = marks_table(rows, 120).splitlines()[2:]
    assert "8 / 20 so far" in lines[0]
    assert all("– / 20  " in line for line in lines[1:])
    refused = judged(mark("a", Standing.NEEDS_PERSON, None), outcome=Outcome.REFUSED, notices=("Cut off.",))
    held = Held(Fraction(0), frozenset(), frozenset({"check_q"}))
    assert row_of(result(refused, held, Outcome.REFUSED), LAB).points is None


@pytest.mark.parametrize("outcome", [Outcome.NEEDS_PERSON, Outcome.REFUSED])
def test_marks_of_a_person_count(outcome: Outcome) -> None:
    """The gradebook's total stands in the table; once nothing waits in it, the row says who marked, and is final."""
    both = frozenset({"check_q", "check_r"})
    part = row_of(result(waiting(outcome), Held(Fraction(19, 2), both, frozenset({"check_r"})), outcome), LAB)
    assert (part.points, part.final, part.outcome) == (Fraction(19, 2), False, outcome.value)
    done = row_of(result(waiting(outcome), Held(Fraction(21, 2), both, frozenset()), outcome), LAB)
    assert (done.points, done.final, done.outcome) == (Fraction(21, 2), True, BY_PERSON)
    assert done.sentence == "A person set the marks that waited."


@pytest.mark.parametrize(
    ("width", "heads"),
    [(68, "learner marks outcome what"), (58, "learner marks outcome"), (40, "learner marks"), (12, "learner")],
)
def test_a_narrow_terminal_gets_fewer_columns(width: int, heads: str) -> None:
    """No line is wider than the terminal: the sentence goes first, then the outcome; the learner stays to the last."""
    rows = [row(sentence="x" * 90), row("ben", "b" * 60, "y", outcome="marked, with a notice", final=False)]
    lines = marks_table(rows, width).splitlines()
    assert max(map(len, lines)) <= width
    assert len(lines) == 4
    assert " ".join(lines[0].split()).startswith(heads)
    assert ("outcome" in lines[0]) == ("outcome" in heads)
    assert ("what" in lines[0]) == ("what" in heads)
    assert lines[2].startswith("ada")


def test_a_name_cannot_turn_the_table_round() -> None:
    """Signs that turn the direction of writing do not reach the terminal; joined emoji stay whole."""
    shown = marks_table([row(name="A\u202eda\u2066\u200f 👩\u200d🔧", sentence="x\u2069y")], 120)
    assert not re.search("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]", shown)
    assert "Ada 👩\u200d🔧" in shown
