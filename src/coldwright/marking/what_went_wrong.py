"""One sentence on a hand-in, for the marks table: the slip that cost most."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from coldwright.marking.marks import LabMarks, Mark, Outcome, Standing

RIGHT = "Nothing: all right."
NOTHING_ANSWERED = "Nothing was answered."
WAITS = "A person has to look at it first."


def what_went_wrong(marks: LabMarks) -> str:
    """What went wrong in a hand-in, in one sentence. It may hold a flag, so it is for the instructor.

    Parameters
    ----------
    marks : LabMarks
        The hand-in, judged [-]

    Returns
    -------
    str
        A refusal or what waits first; then the known slip that cost most points; else what cost most. How many
        readings are missing comes last.
    """
    if marks.outcome is Outcome.REFUSED:
        return next(iter(marks.notices), "It was refused.")
    if marks.outcome is Outcome.NEEDS_PERSON:
        return _what_waits(marks)
    short = [mark for mark in marks.marks if mark.points is not None and mark.points < mark.max_points]
    if not short:
        return RIGHT
    answered = [mark for mark in marks.marks if mark.standing is not Standing.NOT_ANSWERED]
    if len(answered) < len(marks.marks) and not any(map(_is_answer, answered)):
        return NOTHING_ANSWERED
    return " ".join([*_most_costly([mark for mark in short if not _lacks(mark)]), *_missing(marks)])


def _most_costly(lost: Sequence[Mark]) -> list[str]:
    """What cost most, and how much else there is; nothing where nothing was lost but for want of readings."""
    if not lost:
        return []
    groups = _groups(lost)
    first = max(groups, key=_rank)
    return [_say(first), *([f"And {len(groups) - 1} more."] if len(groups) > 1 else [])]


def _lacks(mark: Mark) -> bool:
    return mark.standing is Standing.NOT_COUNTED


def _missing(marks: LabMarks) -> list[str]:
    count = len(marks.missing)
    return [f"{count} reading{'s' if count > 1 else ''} missing."] if count else []


def _what_waits(marks: LabMarks) -> str:
    waits = [mark for mark in marks.marks if mark.points is None]
    return next(iter((*marks.flags, *(mark.sentence for mark in waits), *marks.notices)), WAITS)


def _is_answer(mark: Mark) -> bool:
    """Whether a mark is for an answer; one for the way of working has nothing read."""
    return bool(mark.read_as) or mark.standing not in (Standing.RIGHT, Standing.WRONG, Standing.NOT_COUNTED)


def _group(mark: Mark) -> tuple[str, str]:
    if mark.misconception is not None:
        return "slip", mark.misconception
    if mark.standing in (Standing.NOT_ANSWERED, Standing.NO_READING):
        return "standing", mark.standing.value
    return "sentence", mark.sentence


def _groups(lost: Sequence[Mark]) -> list[list[Mark]]:
    """Marks gathered by what they share: a slip, a standing or a sentence; in order of appearance."""
    found: dict[tuple[str, str], list[Mark]] = {}
    for mark in lost:
        found.setdefault(_group(mark), []).append(mark)
    return list(found.values())


def _rank(group: Sequence[Mark]) -> tuple[bool, Fraction]:
    cost = sum((mark.max_points - (mark.points or 0) for mark in group), Fraction(0))
    return group[0].misconception is not None, cost


def _names(group: Sequence[Mark]) -> str:
    names = [mark.name for mark in group]
    return ", ".join(names[:3]) + (f" and {len(names) - 3} others" if len(names) > 3 else "")


def _say(group: Sequence[Mark]) -> str:
    first = group[0]
    said: dict[Standing, Callable[[], str]] = {
        Standing.NOT_ANSWERED: lambda: f"Not answered: {_names(group)}.",
        Standing.NO_READING: lambda: f"No reading was taken for {_names(group)}.",
    }
    if first.misconception is not None or (not _is_answer(first) and len(group) == 1):
        return first.sentence
    return said.get(first.standing, lambda: f"{_names(group)}: {first.sentence}")()
