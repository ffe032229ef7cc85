"""How hard a lesson's text is to read, as a school grade."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from coldwright.course.build import scripts
from coldwright.course.percent_script import read_script
from coldwright.errors import CourseError

HIGHEST_GRADE = 9.0  # the readers are at school grade 8 to 9
_DROPPED = (
    r"(?s)```.*?```|\$\$.*?\$\$",  # code and formulas that stand alone
    r"(?m)^\s*\|.*$",  # tables
    r"`[^`]*`|\$[^$]*\$|<[^>]*>",  # code, formulas and tags in a line
    r"(?<=\])\([^)]*\)",  # where a link goes
)
_LINE_STARTS = re.compile(r"(?m)^\s*(?:#{1,6}|[-*+]|\d+\.)\s+")
_SENTENCE_ENDS = re.compile(r"\n\s*\n|\x00|[.!?:]+(?:\s|$)")


def plain_sentences(markdown: str) -> str:
    """The sentences alone, one a line, each with a full stop [-].

    Tables, code, formulas, where links go, and words without a letter (numbers, signs) are left out. A heading and an
    item of a list are sentences of their own.

    Parameters
    ----------
    markdown : str
        Text of a lesson [-]
    """
    for pattern in _DROPPED:
        markdown = re.sub(pattern, " ", markdown)
    sentences = _SENTENCE_ENDS.split(_LINE_STARTS.sub("\x00", markdown))
    words = ([word.replace(".", "") for word in s.split() if re.search("[A-Za-z]", word)] for s in sentences)
    return "\n".join(" ".join(each) + "." for each in words if each)


def reading_grade(markdown: str) -> float:
    """School grade by Flesch and Kincaid, as the library textstat measures it; 0 where there is no sentence [grade].

    Parameters
    ----------
    markdown : str
        Text of a lesson [-]

    Raises
    ------
    CourseError
        If textstat is not there; the message says how to get it.

    Notes
    -----
    Syllables come from a dictionary of pronunciations; of a word not in it, from where it may be hyphenated. Sentences
    of one or two words are not counted as sentences, so their words make others longer.

    References
    ----------
    .. [1] J. P. Kincaid et al., Derivation of New Readability Formulas for Navy Enlisted Personnel, Research Branch
       Report 8-75, 1975.
    """
    try:
        import textstat
    except ImportError:
        raise CourseError(
            'the reading grade needs the package textstat, which is not here. "python3 tests" installs it'
        ) from None
    text = plain_sentences(markdown)
    return float(textstat.flesch_kincaid_grade(text)) if text else 0.0


def reading_grades(source_dir: Path) -> dict[str, float]:
    """School grade of each script's text, by its name [grade].

    Parameters
    ----------
    source_dir : Path
        Folder with the scripts [-]
    """
    texts = {
        f"{path.parent.name}/{path.name}": [cell.source for cell in read_script(path) if not cell.is_code]
        for path in scripts(source_dir)
    }
    return {name: reading_grade("\n\n".join(cells)) for name, cells in texts.items()}


def too_hard(grades: Mapping[str, float]) -> list[str]:
    """One line for each script that reads above the highest grade; none where all is well [-].

    Parameters
    ----------
    grades : mapping of str to float
        School grade of each script [grade]
    """
    return [
        f"{name} reads at school grade {grade:.1f}, above {HIGHEST_GRADE:.1f}. Use shorter sentences and simpler words"
        for name, grade in grades.items()
        if not grade <= HIGHEST_GRADE
    ]
