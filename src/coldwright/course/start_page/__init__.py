"""The page that a learner sees first."""

from __future__ import annotations

from collections.abc import Collection
from importlib.resources import files

from coldwright.course.syllabus import TOPICS, Topic

PAGE = "START.md"


def start_page(built: Collection[str]) -> str:
    """Text of the start page, in Markdown, with links to what there is.

    Parameters
    ----------
    built : collection of str
        Notebooks that there are, such as `03_winding_checks/lesson` [-]
    """
    text = files(__package__).joinpath("page.md").read_text(encoding="utf-8")
    return text.replace("{topics}", "\n".join(_row(each, built) for each in TOPICS))


def _row(topic: Topic, built: Collection[str]) -> str:
    cells = [topic.number, f"**{topic.title}**<br>{topic.line}"]
    for word, kind in (("Lesson", "lesson"), ("Lab", "lab")):
        name = f"{topic.folder}/{kind}"
        cells.append(f"[{word}]({name}.ipynb)" if name in built else "to come")
    return f"| {' | '.join(cells)} |"
