"""How hard a text is to read."""

from pathlib import Path

import pytest

from coldwright.course.readability import reading_grade, reading_grades, syllables
from coldwright.course.start_page import start_page
from tests.course.small_course import LESSON, write_sources

# A sentence whose counts are published: 13 words and 24 syllables, in the encyclopaedia article on these tests
# (Wikipedia, "Flesch-Kincaid readability tests", section on the Flesch reading-ease test).
PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."


def test_syllables_of_the_published_sentence() -> None:
    """The published count of 24 syllables in 13 words comes out."""
    words = PLATYPUS.rstrip(".").split()

    assert (len(words), sum(map(syllables, words))) == (13, 24)


@pytest.mark.parametrize(("word", "count"), [("a", 1), ("the", 1), ("pulled", 1), ("tested", 2), ("table", 2)])
def test_syllables_of_words_counted_by_ear(word: str, count: int) -> None:
    """Short words, a silent e and a spoken one."""
    assert syllables(word) == count


def test_grade_by_hand() -> None:
    """The formula of 1975, worked by hand: 13 words, one sentence, 24 syllables give 0.39*13 + 11.8*24/13 - 15.59."""
    assert reading_grade(PLATYPUS) == pytest.approx(5.07 + 21.785 - 15.59, abs=0.001)


def test_only_sentences_count() -> None:
    """Tables, code, formulas, where links go, and the marks of headings and lists do not change the grade."""
    plain = "Pull the plug.\n\nRead the meter now.\n"
    marked = (
        "- Pull the [plug](https://example.org/electromechanical).\n- Read the meter now.\n\n"
        "| electromechanical | characterisation |\n\n```\nelectromechanical()\n```\n\n$$characterisation$$\n"
    )

    assert reading_grade(marked) == reading_grade(plain)
    assert reading_grade("| a |\n") == 0.0


def test_a_list_item_is_a_sentence_of_its_own() -> None:
    """Items without a full stop are not run together into one long sentence."""
    assert reading_grade("- Pull the plug\n- Read the meter\n") == reading_grade("Pull the plug. Read the meter.")


def test_each_script_has_its_grade(tmp_path: Path) -> None:
    """The grades are by script, from its text alone."""
    grades = reading_grades(write_sources(tmp_path))

    assert list(grades) == ["03_winding_checks/lesson.py", "03_winding_checks/lab.py"]
    text = "\n".join(line.removeprefix("#").strip() for line in LESSON.splitlines()[1:4])
    assert grades["03_winding_checks/lesson.py"] == reading_grade(text)


def test_the_start_page_reads_at_grade_eight() -> None:
    """The page that everyone meets first stays at or below grade 8."""
    assert reading_grade(start_page(())) <= 8.0
