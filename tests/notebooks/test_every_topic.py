"""What every lesson and lab of the course has, whatever its topic."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coldwright.course.readability import HIGHEST_GRADE, reading_grades
from coldwright.labs.catalogue import NUMBERS, lab

ROOT = Path(__file__).parents[2]
TASKS = {  # O*NET 29.3, CC BY 4.0: tasks of these two occupations that the course covers whole or in part
    "49-9021.00": {
        *("23552", "23557", "23558", "23554", "23555", "23565", "23568", "23562", "23553", "23556", "23559", "23560"),
        *("23561", "23564", "23566", "23571", "23570", "23567", "23563", "23572", "23574", "23575", "23580", "23581"),
    },
    "49-9031.00": {
        *("13799", "13793", "13801", "13790", "13792", "13796", "13788", "13810", "13791", "13794", "13795", "13802"),
        *("13797", "13806", "13800", "13807", "13811", "13798", "13804", "13805", "13815", "13803"),
    },
}
TOPICS = [f"{number}_{name}" for name, number in NUMBERS.items()]


def source(folder: str, name: str) -> str:
    """A notebook's source."""
    return (ROOT / "source_notebooks" / folder / f"{name}.py").read_text(encoding="utf-8")


def test_topics_00_to_06_are_there():
    """The seven topics of the electrical side each have a lab, in order."""
    assert [topic[:2] for topic in TOPICS] == ["00", "01", "02", "03", "04", "05", "06"]


@pytest.mark.parametrize("folder", TOPICS)
def test_a_lesson_has_its_parts_in_order(folder):
    """Cautions first, objectives, predict, measure, compare, explain, practice, a real unit, the lab."""
    text = source(folder, "lesson")
    places = []
    for words in (
        "Before you touch a real unit",
        "What you will be able to do",
        "## Predict",
        "## Measure",
        "## Compare",
        "## Explain",
        "## Practice without end",
        "## On a real unit",
        "(lab.ipynb)",
    ):
        assert words in text, words
        places.append(text.index(words))
    assert places == sorted(places)
    for words in ("Local codes", "maker's instructions", "licensed practice", "new_practice(", "_figure("):
        assert words in text, words


@pytest.mark.parametrize("folder", TOPICS)
def test_objectives_are_tied_to_competences(folder):
    """Each lesson names tasks, each of them a task of that list, and says whose list it is."""
    text = " ".join(line.removeprefix("#").strip() for line in source(folder, "lesson").splitlines())
    text = text.replace("\\*", "*")
    assert "CC BY 4.0" in text
    named = 0
    for occupation, tasks in re.findall(r"O\*NET (49-90\d\d\.00) tasks? ([\d, and]+)", text):
        found = re.findall(r"\d{5}", tasks)
        assert set(found) <= TASKS[occupation], (occupation, set(found) - TASKS[occupation])
        named += len(found)
    assert named >= 2


@pytest.mark.parametrize("folder", TOPICS)
def test_a_lab_asks_enough(folder):
    """At least eight questions, twenty marks, six misconceptions, marks for safe order, a need behind some answer."""
    found = lab(folder)
    assert len(found.questions) >= 8
    assert found.points == 20
    assert len(found.misconceptions) >= 6
    assert found.questions[-1].name == "safe_order"
    assert found.questions[-1].work
    assert any(answer.needs for question in found.questions for answer in question.answers)
    assert len({m.sentence for m in found.misconceptions}) == len(found.misconceptions)


@pytest.mark.parametrize("folder", TOPICS)
def test_the_lab_carries_the_cautions_and_says_how_it_is_marked(folder):
    """Cautions before the bench, and the way of marking before the first question."""
    text = source(folder, "lab")
    assert text.index("Local codes") < text.index("open_desk(")
    assert text.index("How it is marked") < text.index("answer=")


@pytest.mark.parametrize("folder", TOPICS)
def test_every_answer_has_its_way_and_its_rule(folder):
    """Practice can say of each answer how to get there; each need has a sentence on what counts as right."""
    found = lab(folder)
    names = {answer.name for question in found.questions for answer in question.answers}
    assert names <= set(found.how)
    numbers = {a.needs for q in found.questions for a in q.answers if a.needs and type(a.form).__name__ == "NumberForm"}
    assert numbers <= set(found.rules)


def test_reading_grade_of_every_notebook(figure):
    """School grade by Flesch and Kincaid, measured by a library; at most grade 9."""
    grades = reading_grades(ROOT / "source_notebooks")
    assert len(grades) == 2 * len(TOPICS)
    for name, grade in grades.items():
        figure(f"reading grade of {name}", f"{grade:.1f}")
        assert grade <= HIGHEST_GRADE, name
