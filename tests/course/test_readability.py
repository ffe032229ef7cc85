"""How hard a text is to read."""

from __future__ import annotations

import builtins
import sys
from pathlib import Path

import pytest

from coldwright import cli
from coldwright.course import readability
from coldwright.course.readability import plain_sentences, reading_grade, reading_grades, too_hard
from coldwright.course.start_page import start_page
from coldwright.errors import CourseError
from tests.course.small_course import LESSON, write_sources

ROOT = Path(__file__).parents[2]

# "is an 11.3 as it has 24 syllables and 13 words": WikiSummaries, "Flesch-Kincaid Readability Test",
# wikisum.wiki/wiki/Flesch-Kincaid_Readability_Test, after the encyclopaedia's article.
PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."
# Reading ease 69 in the same encyclopaedia's article, from memory. With 16 words that is 23 syllables:
# (206.835 - 1.015*16 - 69) / 84.6 * 16 = 23.0.
PROVE_A_POINT = "This sentence, taken as a reading passage unto itself, is being used to prove a point."


@pytest.mark.parametrize(("text", "grade"), [(PLATYPUS, 11.3), (PROVE_A_POINT, 0.39 * 16 + 11.8 * 23 / 16 - 15.59)])
def test_published_sentences(text: str, grade: float) -> None:
    """The published grade comes out, to the digit printed."""
    assert reading_grade(text) == pytest.approx(grade, abs=0.05)


def test_grade_by_hand() -> None:
    """The formula of 1975 on six words of one syllable, counted by hand: 0.39*6 + 11.8*1 - 15.59."""
    assert reading_grade("The cat sat on the mat.") == pytest.approx(-1.45, abs=1e-9)


@pytest.mark.parametrize(("word", "count"), [("pulled", 1), ("tested", 2), ("table", 2), ("compressor", 3)])
def test_syllables_counted_by_ear(word: str, count: int) -> None:
    """A sentence of three times the word: each syllable more is worth 11.8 grades."""
    assert reading_grade(f"{word} {word} {word}.") == pytest.approx(0.39 * 3 + 11.8 * count - 15.59, abs=1e-9)


def test_long_sentences_and_long_words_are_harder() -> None:
    """What the measure is for: the same message in one long sentence of long words has a higher grade."""
    easy = "Pull the plug out of the wall. Then wait five minutes. Now read the meter twice."
    hard = (
        "Subsequent to disconnection of the appliance from the electrical installation, and following an interval of "
        "approximately five minutes, determine the resistance by repeated measurement."
    )

    assert reading_grade(easy) < 4 < readability.HIGHEST_GRADE < reading_grade(hard)


def test_only_sentences_count() -> None:
    """Tables, code, formulas, where links go, the marks of headings and lists, and numbers do not change the grade."""
    plain = "Pull the plug.\n\nRead the meter now.\n"
    marked = (
        "- Pull the [plug](https://example.org/electromechanical).\n- Read the meter now.\n\n"
        "| electromechanical | characterisation |\n\n```\nelectromechanical()\n```\n\n$$characterisation$$\n"
    )

    assert reading_grade(marked) == reading_grade(plain)
    assert plain_sentences("The meter shows 12.4 Ω at the pins.") == "The meter shows at the pins."
    assert reading_grade("| a |\n") == 0.0


def test_a_list_item_is_a_sentence_of_its_own() -> None:
    """Items without a full stop are not run together into one long sentence."""
    assert plain_sentences("# The plug\n- Pull the plug\n- Read\nthe meter\n") == (
        "The plug.\nPull the plug.\nRead the meter."
    )


def test_each_script_has_its_grade(tmp_path: Path) -> None:
    """The grades are by script, from its text alone."""
    grades = reading_grades(write_sources(tmp_path))

    assert list(grades) == ["03_winding_checks/lesson.py", "03_winding_checks/lab.py"]
    text = "\n".join(line.removeprefix("#").strip() for line in LESSON.splitlines()[1:4])
    assert grades["03_winding_checks/lesson.py"] == reading_grade(text)


def test_the_limit_is_grade_nine() -> None:
    """At 9.0 a text passes; above, or where nothing was measured, the line names script, grade and way out."""
    assert too_hard({"a": 9.0, "b": 2.0}) == []
    assert too_hard({"00_x/lab.py": 9.26, "b": float("nan")}) == [
        "00_x/lab.py reads at school grade 9.3, above 9.0. Use shorter sentences and simpler words",
        "b reads at school grade nan, above 9.0. Use shorter sentences and simpler words",
    ]


def test_every_script_of_the_course_is_within_the_limit() -> None:
    """No lesson or lab asks for more than school grade 9."""
    grades = reading_grades(ROOT / "source_notebooks")

    assert len(grades) >= 2
    assert too_hard(grades) == []


def test_the_start_page_reads_at_grade_eight() -> None:
    """The page that everyone meets first stays at or below grade 8."""
    assert reading_grade(start_page(())) <= 8.0


@pytest.mark.parametrize("options", [[], ["--check"]])
def test_the_build_prints_the_grades_and_fails_above_the_limit(
    options: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Easy sources end with 0; after one hard sentence the same command ends with 1. Each time every grade is told."""
    monkeypatch.setattr(cli, "repository", lambda: tmp_path)
    sources = tmp_path / "source_notebooks"
    codes = []
    for lesson in (
        LESSON,
        LESSON.replace("Pull the plug first.", "Electromechanical disconnection necessitates care."),
    ):
        write_sources(sources, lesson)
        cli.main(["build"])
        capsys.readouterr()
        codes.append(cli.main(["build", *options]))
        shown = capsys.readouterr()
        assert shown.err.count("reading grade of 03_winding_checks/") == 2

    assert codes == [0, 1]
    assert "03_winding_checks/lesson.py reads at school grade" in shown.out


def test_without_the_library_the_message_says_what_brings_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where textstat cannot be imported, no grade is made up."""
    there = builtins.__import__

    def without(name: str, *args: object, **kwargs: object) -> object:
        if name == "textstat":
            raise ImportError(name)
        return there(name, *args, **kwargs)  # type: ignore[arg-type]

    monkeypatch.delitem(sys.modules, "textstat", raising=False)
    monkeypatch.setattr(builtins, "__import__", without)

    with pytest.raises(
        CourseError, match=r'needs the package textstat, which is not here. "python3 tests" installs it'
    ):
        reading_grade("Pull the plug.")
