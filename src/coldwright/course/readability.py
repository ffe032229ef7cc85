"""How hard a lesson's text is to read, as a school grade."""

from __future__ import annotations

import re
from pathlib import Path

from coldwright.course.build import scripts
from coldwright.course.percent_script import read_script

_DROPPED = (
    r"(?s)```.*?```|\$\$.*?\$\$",  # code and formulas that stand alone
    r"(?m)^\s*\|.*$",  # tables
    r"`[^`]*`|\$[^$]*\$|<[^>]*>",  # code, formulas and tags in a line
    r"(?<=\])\([^)]*\)",  # where a link goes
)
_LINE_ENDS = re.compile(r"(?m)^\s*(?:#{1,6}|[-*+]|\d+\.)\s+")


def reading_grade(markdown: str) -> float:
    """School grade by Flesch and Kincaid: 0.39 words a sentence + 11.8 syllables a word - 15.59 [grade].

    Parameters
    ----------
    markdown : str
        Text; tables, code and formulas are left out [-]

    Notes
    -----
    Syllables are groups of vowels, a silent e left out: a little low for words such as "reality".

    References
    ----------
    .. [1] J. P. Kincaid et al., Derivation of New Readability Formulas for Navy Enlisted Personnel, Research Branch
       Report 8-75, 1975.
    """
    for pattern in _DROPPED:
        markdown = re.sub(pattern, " ", markdown)
    blocks = re.split(r"\n\s*\n|\x00", _LINE_ENDS.sub("\x00", markdown))
    sentences = [s for block in blocks for s in re.split(r"[.!?:]+(?:\s|$)", block) if re.search(r"[A-Za-z]", s)]
    words = [word for sentence in sentences for word in re.findall(r"[A-Za-z][A-Za-z'’]*", sentence)]
    if not words:
        return 0.0
    return 0.39 * len(words) / len(sentences) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def syllables(word: str) -> int:
    """Syllables of an English word, at least one [-].

    Parameters
    ----------
    word : str
        The word [-]
    """
    lower = word.lower()
    groups = len(re.findall(r"[aeiouy]+", lower))
    silent = bool(re.search(r"[^aeiouyl]e$|[aeiouy]le$|[^aeiouytd]ed$", lower))
    return max(1, groups - silent)


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
