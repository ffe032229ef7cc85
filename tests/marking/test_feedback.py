"""The feedback page: what it says, what never gets onto it, and that nothing in it runs."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

from coldwright.bench.replay import replay
from coldwright.bench.sheet import parse_sheet
from coldwright.errors import CourseError
from coldwright.labs.class_folder import Learner
from coldwright.labs.ticket import issue_ticket
from coldwright.marking.feedback import GivenByHand, write_feedback
from coldwright.marking.gradebook import open_gradebook
from coldwright.marking.hand_in import NO_TICKET, REFUSED, STRANGE_TICKET
from coldwright.marking.judge import NOT_COUNTED, load_key
from coldwright.marking.mark_class import feedback_class, mark_class
from coldwright.marking.marks import LabMarks, Mark, Outcome, Standing
from coldwright.marking.nbgrader_runs import release
from coldwright.marking.record import load_marks
from tests.marking.small_class import KEYS, LAB, SmallClass, cell, filled

SECRET = bytes(range(32)).hex()
CANARY = "canary-7f31"
SCRIPT = "<script>document.title='taken over'</script>"
IMAGE = "<img src=x onerror=\"document.title='taken over'\">"
FRAME = "<iframe srcdoc='x'></iframe><svg onload=alert(1)>"
TAGS = (
    {"html", "head", "meta", "title", "style", "body", "header", "main", "section", "footer", "h1", "h2", "p", "span"}
    | {"bdi", "div", "strong", "ul", "li", "table", "thead", "tbody", "tr", "th", "td", "details", "summary", "pre"}
)  # fmt: skip
ATTRIBUTES = {"lang", "charset", "http-equiv", "content", "name", "class", "role", "data-head", "aria-hidden", "dir"}


class Parts(HTMLParser):
    """Tags, attributes and texts of a page, as a browser would find them."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: dict[str, str] = {}
        self.texts: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keeps a tag with its attributes."""
        self.tags.add(tag)
        self.attributes |= {name: value or "" for name, value in attrs}

    def handle_data(self, data: str) -> None:
        """Keeps a text."""
        self.texts.append(data)


def words(html: str) -> str:
    """What a person reads on a page."""
    body = BeautifulSoup(html, "html.parser").body
    assert body is not None
    return " ".join(body.get_text(" ").split())


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> SmallClass:
    """A class, marked: ada types hostile text, ben is right, cleo is wrong and gets a person's marks and comment."""
    root = tmp_path_factory.mktemp("class")
    (root / "class_secret").write_text(SECRET)
    made = SmallClass(root, "ada", "ben", "cleo")
    keys = tmp_path_factory.mktemp("keys")
    real = (KEYS / f"{LAB.name}.py").read_text(encoding="utf-8")
    added = (
        "\n\nfrom dataclasses import replace as _replace\n_real = key\n\n\ndef key(case):\n"
        f'    return {{n: _replace(e, words=(*e.words, "{CANARY}")) for n, e in _real(case).items()}}\n'
    )
    (keys / f"{LAB.name}.py").write_text(real + added, encoding="utf-8")
    settings = root / "class.toml"
    settings.write_text(settings.read_text().replace(str(made.folder.keys), str(keys)))
    made.folder = replace(made.folder, keys=keys)
    roster = 'id,first_name,last_name\nada,"<script>document.title=1</script>",عدا 🔧\nben,Ben,Colby\ncleo,,\n'
    made.folder.learners_file.write_text(roster, encoding="utf-8")
    release(made.folder, LAB)
    made.hand_in("ben")
    hostile = filled({**made.work("ada").answers, "verdict": SCRIPT, "common": IMAGE.replace('"', "'")})
    cell(hostile, "answer-insulation").source += f"\n# {FRAME}\n# </pre></details>{SCRIPT}"
    made.hand_in("ada", hostile)
    wrong = {**dict.fromkeys(made.work("cleo").answers, ""), "verdict": "shorted", "resistance_12": "0.001 ohm"}
    made.hand_in("cleo", filled(wrong))
    sheet = made.submitted("cleo") / "job_sheet.jsonl"
    lines = sheet.read_text(encoding="utf-8").splitlines(keepends=True)
    sheet.write_text("".join(lines[:3] + lines[4:]), encoding="utf-8")
    mark_class(made.folder, LAB)
    with open_gradebook(made.folder) as gradebook:
        grade = gradebook.find_grade("check_verdict", "lab", LAB.folder, "cleo")
        grade.manual_score, grade.needs_manual_grade = 1.5, False
        gradebook.find_comment("answer_verdict", "lab", LAB.folder, "cleo").manual_comment = f"Look again.\n{IMAGE}"
        gradebook.db.commit()
    assert all(feedback_class(made.folder, LAB).values())
    return made


@pytest.fixture(scope="module")
def pages(small: SmallClass) -> dict[str, str]:
    """The pages by learner."""
    where = {name: small.folder.part("feedback", name, LAB.folder) / "lab.html" for name in ("ada", "ben", "cleo")}
    return {name: path.read_text(encoding="utf-8") for name, path in where.items()}


def test_the_page_says_what_each_answer_earned(pages: dict[str, str]) -> None:
    """Title, name, total, and for each answer its name, how it was read, its marks and its standing as a word."""
    text = words(pages["ben"])

    assert text.startswith("Your marks: 03 Winding checks Ben Colby (learner id ben ) 20 / 20 marks ")
    for question in LAB.questions:
        assert f"{question.title} {question.points} / {question.points}" in text
        for answer in question.answers:
            assert answer.name in text
    assert text.count("✓ Right.") == sum(len(q.answers) for q in LAB.questions)
    assert "✓ Done. You zeroed the leads before you read the windings." in text
    assert "prove it dead" in text
    assert "Ask your instructor" in text
    assert "Your instructor" not in text
    assert "so far" not in text


def test_points_comment_and_waiting_of_a_person_stand_on_the_page(pages: dict[str, str]) -> None:
    """A mark set by hand replaces the judge's, its comment is shown, and what still waits is said to wait."""
    text = words(pages["cleo"])

    assert text.startswith("Your marks: 03 Winding checks cleo (learner id cleo ) 1.50 / 20 marks so far")
    assert "The total can still rise." in text
    assert "The verdict 1.50 / 3 Your instructor set the marks of this question." in text
    assert f"Your instructor says: Look again. {IMAGE}" in text
    assert "… Waits for a person." in text
    assert "– Not answered." in text


@pytest.mark.parametrize("learner", ["ada", "ben", "cleo"])
def test_a_page_holds_no_script_and_asks_for_nothing(pages: dict[str, str], learner: str) -> None:
    """Only the template's own tags and attributes are there: no script, frame, picture, link or handler."""
    page = Parts(pages[learner])

    assert page.tags <= TAGS, page.tags - TAGS
    assert set(page.attributes) <= ATTRIBUTES, set(page.attributes) - ATTRIBUTES
    assert "url(" not in pages[learner]
    assert "@import" not in pages[learner]
    policy = BeautifulSoup(pages[learner], "html.parser").find("meta", {"http-equiv": "Content-Security-Policy"})
    rules = str(policy["content"])  # type: ignore[index]
    assert rules.startswith("default-src 'none'; style-src 'unsafe-inline'; img-src data:;")
    assert pages[learner].index("Content-Security-Policy") < pages[learner].index("<title>")


def test_what_was_typed_stands_there_as_text(pages: dict[str, str]) -> None:
    """Hostile text in a name, an answer and an answer cell can be read letter for letter."""
    text = words(pages["ada"])

    assert "<script>document.title=1</script> عدا 🔧" in text
    assert SCRIPT[:40] in text
    assert FRAME in text
    assert f"</pre></details>{SCRIPT}" in text


def test_no_expected_value_secret_or_flag_gets_onto_a_page(small: SmallClass, pages: dict[str, str]) -> None:
    """The key's planted word, the secret, the seed, the flags and the right numbers of a wrong hand-in are absent."""
    flags = load_marks(small.autograded("cleo") / "marks.json").flags
    assert flags
    for learner, html in pages.items():
        ticket = issue_ticket(bytes.fromhex(SECRET), small.folder.course, LAB.name, learner)
        for hidden in (CANARY, SECRET, ticket.seed, ticket.signature, str(small.folder.root), *flags):
            assert hidden not in html

    ticket = issue_ticket(bytes.fromhex(SECRET), small.folder.course, LAB.name, "cleo")
    bench = LAB.open_bench(ticket, None)
    case = LAB.make_case(ticket, replay(parse_sheet(small.work("cleo").sheet), bench))
    expected = load_key(small.folder.keys, LAB)(case)
    values = [number for one in expected.values() for number, _ in one.numbers]
    shown = {f"{value * scale:.{digits}g}" for value in values for scale in (1, 1e-6) for digits in (3, 4, 5)}
    right = {word for word in expected["verdict"].words if word != CANARY}
    assert len(shown) > 10
    text = words(pages["cleo"])
    assert not [each for each in {s for s in shown if len(s) > 3} | right if each in text]


def test_only_the_known_files_lie_beside_a_page(small: SmallClass, pages: dict[str, str]) -> None:
    """The record with the instructor's flags is not handed on with the page."""
    assert pages
    names = {path.name for path in small.folder.part("feedback", "cleo", LAB.folder).iterdir()}
    assert "lab.html" in names
    assert "marks.json" not in names


def test_the_page_without_nbgrader_is_the_same(small: SmallClass, pages: dict[str, str], tmp_path: Path) -> None:
    """The same template, filled without nbgrader, gives the same page."""
    notebook = json.loads((small.autograded("ben") / "lab.ipynb").read_text(encoding="utf-8"))
    typed = {
        c["metadata"]["nbgrader"]["grade_id"].removeprefix("answer_"): "".join(c["source"])
        for c in notebook["cells"]
        if c["metadata"].get("nbgrader", {}).get("solution")
    }
    marks = load_marks(small.autograded("ben") / "marks.json")
    path = tmp_path / "page.html"

    write_feedback(marks, LAB, Learner("ben", "Ben", "Colby"), path, GivenByHand(typed=typed))

    assert str(BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")) == pages["ben"]


def one_mark(standing: Standing, points: int | None, **more: Any) -> LabMarks:
    """A hand-in with one mark on the verdict."""
    given = None if points is None else Fraction(points)
    mark = Mark("verdict", "verdict", given, Fraction(3), standing, more.get("read_as", "good"), more.get("say", ""))
    return LabMarks(Outcome.MARKED, (mark,), tuple(more.get("notices", ())), ("a flag",))


@pytest.mark.parametrize("standing", Standing)
def test_every_standing_is_a_word_and_a_sign(tmp_path: Path, standing: Standing) -> None:
    """No standing is told by its colour alone."""
    path = tmp_path / "page.html"
    write_feedback(one_mark(standing, 0, say="A sentence."), LAB, Learner("ada"), path)
    cell_ = BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser").find("span", {"class": "standing"})
    assert cell_ is not None
    sign, word = cell_.get_text(" ", strip=True).split(" ", 1)
    assert sign in "✓✗–?…"
    assert word.rstrip(".").casefold() == standing.value


def test_missing_readings_stand_once_above_the_table_uncut(tmp_path: Path) -> None:
    """Each missing reading stands once, whole, before the first question; rows only say that they are not counted."""
    path = tmp_path / "page.html"
    readings = tuple(f"reading number {n} of the bench, with all that it takes" for n in range(12))
    rows = tuple(
        Mark("safe_order", name, Fraction(0), Fraction(1), Standing.NOT_COUNTED, "", NOT_COUNTED)
        for name in (point.name for question in LAB.questions for point in question.work)
    )
    write_feedback(LabMarks(Outcome.MARKED, rows, missing=readings), LAB, Learner("ada"), path)
    page = BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")
    assert [each.get_text(strip=True) for each in page.select("header li")] == list(readings)
    said = words(path.read_text(encoding="utf-8"))
    assert all(said.count(reading) == 1 for reading in readings)
    assert said.count("Not counted: readings are missing (above).") == len(rows) > 0
    assert "Not done" not in said
    assert "(cut)" not in said


def test_long_and_odd_text_is_cut_and_cleaned(tmp_path: Path) -> None:
    """A flood of text is cut with a word that it was, and control characters become visible marks."""
    path = tmp_path / "page.html"
    flood = one_mark(Standing.WRONG, 0, read_as="x" * 10_000, say="y" * 10_000, notices=["n" * 10_000, "a\x00b\x1bc"])
    given = GivenByHand(typed={"verdict": "z" * 100_000}, comments={"verdict": "\ud800"}, penalty=Fraction(2))
    write_feedback(flood, LAB, Learner("ada"), path, given)
    html = path.read_text(encoding="utf-8")
    assert len(html) < 20_000
    assert html.count("… (cut)") == 4
    assert "a�b�c" in html
    assert "2 marks were taken off because it came late." in html
    assert "a flag" not in html


def test_a_mark_by_hand_ends_the_waiting(tmp_path: Path) -> None:
    """Where a person gave the marks, nothing is said to wait any more."""
    path = tmp_path / "page.html"
    waits = one_mark(Standing.NEEDS_PERSON, None, say="Your instructor will look at it.")
    write_feedback(waits, LAB, Learner("ada"), path)
    text = words(path.read_text(encoding="utf-8"))
    assert "Not marked yet: – / 20 marks … Your answers wait for your instructor." in text
    assert "– / 3, waits" in text
    assert "so far" not in text

    by_hand = GivenByHand(points={"verdict": Fraction(5, 2)})
    write_feedback(waits, LAB, Learner("ada"), path, by_hand)
    text = words(path.read_text(encoding="utf-8"))
    assert "2.50 / 20 marks This" not in text
    assert "2.50 / 20 marks" in text
    assert "Marked by your instructor." in text
    assert "so far" not in text
    assert "will look at it" not in text


@pytest.mark.parametrize(
    ("notice", "settled"),
    [
        (STRANGE_TICKET, "The ticket with this hand-in is not yours; your instructor looked at it."),
        (
            REFUSED.format("it is cut off"),
            "This hand-in could not be marked by the program: it is cut off. Your instructor marked it.",
        ),
        (NO_TICKET, NO_TICKET),
    ],
)
def test_a_notice_does_not_announce_what_is_done(tmp_path: Path, notice: str, settled: str) -> None:
    """Once a person marked all that waited, no notice says that it still has to be looked at."""
    path = tmp_path / "page.html"
    waits = one_mark(Standing.NEEDS_PERSON, None, notices=[notice])
    write_feedback(waits, LAB, Learner("ada"), path)
    assert notice in words(path.read_text(encoding="utf-8"))

    write_feedback(waits, LAB, Learner("ada"), path, GivenByHand(points={"verdict": Fraction(2)}))
    text = words(path.read_text(encoding="utf-8"))
    assert "Your instructor set the marks of this question." in text
    assert settled in text
    assert "will look at it" not in text


def test_a_page_without_marks_says_so(small: SmallClass, tmp_path: Path) -> None:
    """Without the record there is no page and the reason names the file."""
    with pytest.raises(CourseError, match=r"there are no marks .*marks.json; mark the lab first"):
        load_marks(tmp_path / "marks.json")
    record = small.autograded("ben") / "marks.json"
    kept = record.read_bytes()
    record.unlink()
    try:
        assert feedback_class(small.folder, LAB, ["ben"]) == {}
    finally:
        record.write_bytes(kept)


@pytest.fixture
def opened(browser: Any, small: SmallClass, pages: dict[str, str]) -> Iterator[Any]:
    """Ada's hostile page in a browser of a phone's size, with everything it asks for noted."""
    assert pages
    page = browser.new_page(viewport={"width": 360, "height": 740})
    page.asked = []
    page.shouted = []
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("dialog", lambda dialog: (page.shouted.append(dialog.message), dialog.dismiss()))
    page.goto((small.folder.part("feedback", "ada", LAB.folder) / "lab.html").as_uri())
    yield page
    page.close()


def test_in_a_browser_nothing_runs_and_a_phone_can_show_it(opened: Any) -> None:
    """The hostile page keeps its title, opens no dialog, asks for nothing, and is no wider than a phone."""
    for summary in opened.query_selector_all("summary"):
        summary.click()

    assert opened.title().startswith("03 Winding checks: marks of <script>")
    assert opened.shouted == []
    assert len(opened.asked) == 1
    assert opened.evaluate("document.scripts.length + document.images.length + frames.length") == 0
    assert opened.evaluate("document.documentElement.scrollWidth") <= 360
    for scheme in ("light", "dark"):
        opened.emulate_media(color_scheme=scheme)
        style = opened.evaluate(
            "(({color, backgroundColor}) => [color, backgroundColor])(getComputedStyle(document.body))"
        )
        assert contrast(*style) > 7


def contrast(one: str, other: str) -> float:
    """Contrast of two colours by the formula of the web's accessibility guidelines (WCAG 2.1)."""

    def light(colour: str) -> float:
        parts = [int(part) / 255 for part in colour.strip("rgb()").split(",")]
        linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    dark, bright = sorted((light(one), light(other)))
    return (bright + 0.05) / (dark + 0.05)
