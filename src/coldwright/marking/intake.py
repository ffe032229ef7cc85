"""Intake: what a learner handed in, checked and put where nbgrader looks for it.

Only the notebook, the ticket and the job sheet are taken, the notebook made clean. A hand-in stands in `submitted`
whole or not at all. The one before it is kept in `submitted_before`. The time that counts is when it was taken in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from coldwright.errors import ColdwrightError, CourseError, HandInError
from coldwright.labs.class_folder import NOTEBOOK, SHEET_NAME, ClassFolder
from coldwright.labs.question import Lab
from coldwright.labs.ticket import FILE_NAME as TICKET_NAME
from coldwright.marking.intake_files import HandedFile, HandIn, read_hand_in, shown
from coldwright.marking.intake_notebook import Noticed, belongs, clean_notebook, parse_notebook
from coldwright.marking.intake_store import TIME_FORM, store, stored, time_of

NOTEBOOK_NAME = f"{NOTEBOOK}.ipynb"
KNOWN_FILES = (NOTEBOOK_NAME, TICKET_NAME, SHEET_NAME)
NOTHING = "nothing was handed in"


@dataclass(frozen=True)
class Receipt:
    """A hand-in that was taken in. `same` says that it stood there already; `before` is where the former one went."""

    learner: str
    folder: Path
    received: datetime
    notices: tuple[str, ...] = ()
    same: bool = False
    before: Path | None = None
    taken: bool = True

    def __str__(self) -> str:
        what = "was taken in before" if self.same else "taken in"
        return " ".join((f"{self.learner}: {what}, {self.received.strftime(TIME_FORM)}.", *self.notices))


@dataclass(frozen=True)
class Refusal:
    """A hand-in that was not taken in, and why. Nothing of it was written.

    `handed_in` is False where there was nothing; `enrolled` is False where the name is not on the roster.
    """

    learner: str
    reason: str
    handed_in: bool = True
    enrolled: bool = True
    taken: bool = False

    def __str__(self) -> str:
        return f"{self.learner}: not taken in: {self.reason}."


def take_in(
    source: Path, class_folder: ClassFolder, learner: str, lab: Lab, received: datetime | None = None
) -> Receipt:
    """The receipt of one learner's hand-in, which then stands in the class's `submitted`.

    Parameters
    ----------
    source : Path
        The learner's folder or zip file [-]
    class_folder : ClassFolder
        The class [-]
    learner : str
        Learner's id; it must be on the roster [-]
    lab : Lab
        The lab [-]
    received : datetime, optional
        When it was received; now, by default [-]

    Raises
    ------
    HandInError
        If it is refused; nothing is written then.
    CourseError
        If it cannot be written.
    """
    if learner not in {each.id for each in class_folder.learners()}:
        raise HandInError(f"nobody on the roster has the id {shown(learner)!r}")
    files, noticed = _known_files(read_hand_in(source), lab)
    target = class_folder.part("submitted", learner, lab.folder)
    notices = tuple(each.value for each in noticed)
    if stored(target, KNOWN_FILES) == files:
        return Receipt(learner, target, time_of(target) or datetime.now(UTC), notices, same=True)
    when = (received or datetime.now(UTC)).astimezone(UTC).replace(microsecond=0)
    try:
        before = store(class_folder, learner, lab.folder, files, when)
    except OSError as error:
        raise CourseError(f"the hand-in of {learner} cannot be written to {target}: {error.strerror}") from None
    return Receipt(learner, target, when, notices, before=before)


def _known_files(hand_in: HandIn, lab: Lab) -> tuple[dict[str, bytes], list[Noticed]]:
    """The files to keep by their right names, the notebook made clean, and what had to be overlooked."""
    chosen, notebook, noticed = _choose(hand_in, lab)
    if chosen.parts[-1] != NOTEBOOK_NAME:
        noticed.append(Noticed.NAME)
    if len(chosen.parts) > 1:
        noticed.append(Noticed.PLACE)
    if sum(file.is_notebook for file in hand_in.files) > 1:
        noticed.append(Noticed.OTHERS)
    files = {NOTEBOOK_NAME: clean_notebook(notebook, noticed).encode()}
    for name in KNOWN_FILES[1:]:
        found = _beside(hand_in, chosen, name)
        if found is not None:
            files[name] = found.content
    return files, noticed


def _choose(hand_in: HandIn, lab: Lab) -> tuple[HandedFile, Mapping[str, Any], list[Noticed]]:
    """The one notebook that is the lab's; one that cannot be read could be it."""
    notebooks = [file for file in hand_in.files if file.is_notebook]
    if not notebooks:
        hint = f"; unpack {hand_in.zips[0]} and hand in what is in it" if hand_in.zips else ""
        raise HandInError(f"there is no notebook in it{hint}")
    could_be: list[tuple[HandedFile, tuple[dict[str, Any], list[Noticed]] | HandInError]] = []
    for file in notebooks:
        try:
            parsed = parse_notebook(file.content, file.shown)
        except HandInError as error:
            could_be.append((file, error))
            continue
        if belongs(parsed[0], lab):
            could_be.append((file, parsed))
    if not could_be:
        raise HandInError(
            f"{notebooks[0].shown} has no answer cell of the lab {lab.number} {lab.title!r}. Is it from another lab?"
        )
    if len(could_be) > 1:
        names = " and ".join(file.shown for file, _ in could_be)
        raise HandInError(f"there are {len(could_be)} notebooks that could be the lab: {names}. Leave only one")
    chosen, found = could_be[0]
    if isinstance(found, HandInError):
        raise found
    return chosen, *found


def _beside(hand_in: HandIn, notebook: HandedFile, name: str) -> HandedFile | None:
    """The file of that name in the notebook's own folder, or else the only one there is."""
    found = [file for file in hand_in.files if file.name == name]
    near = [file for file in found if file.parts[:-1] == notebook.parts[:-1]]
    chosen = near or found
    if len(chosen) > 1:
        names = " and ".join(file.shown for file in chosen)
        raise HandInError(f"there are {len(chosen)} files {name}: {names}. Leave only the one beside the notebook")
    return chosen[0] if chosen else None


def take_in_all(folder: Path, class_folder: ClassFolder, lab: Lab) -> list[Receipt | Refusal]:
    """What became of each learner's hand-in: one entry for each enrolled learner, then names that nobody has.

    Parameters
    ----------
    folder : Path
        Folder with a folder or a zip file for each learner's id [-]
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]

    Raises
    ------
    CourseError
        If there is no such folder, or no roster.
    """
    sources = _sources(folder)
    by_id: dict[str, list[Path]] = {}
    for path in sources:
        name = path.name.casefold()
        by_id.setdefault(name if path.is_dir() else name.removesuffix(".zip"), []).append(path)
    ids = [learner.id for learner in class_folder.learners()]
    results = [_take_in_one(by_id.pop(learner.casefold(), []), class_folder, learner, lab) for learner in ids]
    strange = [shown(path.name) for paths in by_id.values() for path in paths]
    return [*results, *(Refusal(name, "nobody on the roster has this id", enrolled=False) for name in strange)]


def _sources(folder: Path) -> list[Path]:
    """What stands in a folder of hand-ins."""
    wanted = "the folder that holds a folder or a zip file for each learner's id"
    try:
        return sorted(path for path in folder.iterdir() if not path.name.startswith((".", "__MACOSX")))
    except FileNotFoundError:
        raise CourseError(f"there is no folder {folder} with hand-ins; check its name. Give {wanted}") from None
    except NotADirectoryError:
        raise CourseError(f"{folder} is a file, not a folder with hand-ins. Give {wanted}") from None
    except OSError as error:
        raise CourseError(f"the hand-ins in {folder} cannot be read: {error.strerror}") from None


def _take_in_one(sources: list[Path], class_folder: ClassFolder, learner: str, lab: Lab) -> Receipt | Refusal:
    if not sources:
        stands = time_of(class_folder.part("submitted", learner, lab.folder))
        reason = f"{NOTHING} this time; that of {stands.strftime(TIME_FORM)} stands" if stands else NOTHING
        return Refusal(learner, reason, handed_in=False)
    if len(sources) > 1:
        names = " and ".join(shown(path.name) for path in sources)
        return Refusal(learner, f"there are two hand-ins: {names}. Leave only one")
    try:
        return take_in(sources[0], class_folder, learner, lab)
    except ColdwrightError as error:
        return Refusal(learner, str(error).rstrip("."))
    except Exception as error:  # a fault of ours in one hand-in must not keep the others waiting
        return Refusal(learner, f"intake itself failed at it ({type(error).__name__}); please report this")
