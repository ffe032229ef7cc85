"""The instructor's commands: a class, hand-out, take-in, marks."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from coldwright.cli.talk import say
from coldwright.course.hand_out import hand_out
from coldwright.errors import CourseError, SandboxError
from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.class_folder import SETTINGS, ClassFolder, make_class, open_class, read_roster
from coldwright.labs.files import write_whole
from coldwright.labs.question import Lab
from coldwright.marking.intake import Receipt, Refusal, take_in_all
from coldwright.marking.mark_class import feedback_class, mark_class
from coldwright.marking.marks import Outcome
from coldwright.marking.nbgrader_config import write_class_config
from coldwright.marking.nbgrader_runs import release
from coldwright.marking.sandbox import sandbox_that_holds
from coldwright.marking.table import Row, as_json, row_of, write_csv
from coldwright.marking.terminal_table import marks_table

MARKS_FILE = "marks.csv"
REFUSED_FILE = "not_taken_in.json"


def new_class(root: Path, folder: Path, course: str, roster: Path) -> int:
    """Make a class folder from a roster file; gives the exit code.

    Parameters
    ----------
    root : Path
        The clone [-]
    folder : Path
        Class folder to make [-]
    course : str
        Name of the course on tickets [-]
    roster : Path
        CSV file with the columns id, first_name, last_name [-]

    Raises
    ------
    CourseError
        If the roster cannot be read or names nobody, or the folder is in use.
    """
    learners = read_roster(roster)
    if not learners:
        raise CourseError(f"{roster} names nobody; write one line for each learner below id,first_name,last_name")
    _check_free(folder)
    class_folder = make_class(folder, course, root / "autograde" / "keys", learners)
    write_class_config(class_folder)
    print(f"{class_folder.root}: {_count(len(learners), 'learner')}. Keep {class_folder.secret_file.name} to yourself.")
    return 0


def _check_free(folder: Path) -> None:
    if (folder / SETTINGS).exists():
        raise CourseError(
            f"{folder} is a class already. To add learners, add a line for each to learners.csv in it and hand the lab "
            "out again; for another class choose another folder"
        )
    if folder.is_dir() and any(folder.iterdir()):
        raise CourseError(f"{folder} is not empty and is no class; choose another folder")


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def hand_out_lab(root: Path, folder: Path, lab_name: str) -> int:
    """Hand a lab out to every learner of a class; gives the exit code.

    Parameters
    ----------
    root : Path
        The clone [-]
    folder : Path
        Class folder [-]
    lab_name : str
        Name of the lab [-]
    """
    class_folder, lab = open_class(folder), find_lab(lab_name)
    folders = hand_out(class_folder, lab, root / "course", release, progress=say)
    print(f"{_count(len(folders), 'folder')} in {class_folder.root / 'handed_out'}: give each learner their own.")
    return 0


def take_in_lab(folder: Path, lab_name: str, hand_ins: Path) -> int:
    """Take hand-ins into a class; gives the exit code: 1 where one was refused.

    Parameters
    ----------
    folder : Path
        Class folder [-]
    lab_name : str
        Name of the lab [-]
    hand_ins : Path
        Folder with one folder or zip file for each learner's id [-]
    """
    class_folder, lab = open_class(folder), find_lab(lab_name)
    found = _take_in(class_folder, lab, hand_ins)
    for each in found:
        print(each)
    return 0 if all(each.taken for each in found) else 1


def mark_lab(folder: Path, lab_name: str, as_json: bool = False, trusted: bool = False) -> int:
    """Mark what was taken in and print the table; gives the exit code.

    Parameters
    ----------
    folder : Path
        Class folder [-]
    lab_name : str
        Name of the lab [-]
    as_json : bool
        Print data in place of the table [-]
    trusted : bool
        Run learner code also where there is no sandbox [-]
    """
    class_folder, lab = open_class(folder), find_lab(lab_name)
    report(class_folder, lab, _mark(class_folder, lab, trusted), as_json)
    return 0


def take_in_and_mark(class_folder: ClassFolder, lab: Lab, hand_ins: Path, trusted: bool) -> list[Row]:
    """Take hand-ins in and mark them: the last two steps of a demo.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    hand_ins : Path
        Folder with one folder for each learner's id [-]
    trusted : bool
        Run learner code also where there is no sandbox [-]
    """
    say("4 of 5  taking the hand-ins in")
    _take_in(class_folder, lab, hand_ins)
    say("5 of 5  marking")
    return _mark(class_folder, lab, trusted)


def _take_in(class_folder: ClassFolder, lab: Lab, hand_ins: Path) -> list[Receipt | Refusal]:
    """Take hand-ins in, and write down who was refused for the marks table."""
    known = _known_refusals(class_folder)
    found = take_in_all(hand_ins, class_folder, lab)
    refused = [each for each in found if isinstance(each, Refusal) and each.enrolled and each.handed_in]
    known[lab.folder] = {each.learner: each.reason for each in refused}
    write_whole(class_folder.root / REFUSED_FILE, (json.dumps(known, indent=1) + "\n").encode())
    return found


def _known_refusals(class_folder: ClassFolder) -> dict[str, dict[str, str]]:
    """Who was refused so far and why, by lab and learner."""
    path = class_folder.root / REFUSED_FILE
    try:
        known = json.loads(path.read_text(encoding="utf-8"))
        return {lab: {learner: str(reason) for learner, reason in found.items()} for lab, found in known.items()}
    except FileNotFoundError:
        return {}
    except (OSError, ValueError, AttributeError, RecursionError):
        raise CourseError(f"{path} is damaged; delete it and take the hand-ins in again") from None


def _refusals(class_folder: ClassFolder, lab: Lab) -> dict[str, Refusal]:
    known = _known_refusals(class_folder).get(lab.folder, {})
    return {learner: Refusal(learner, reason) for learner, reason in known.items()}


def _mark(class_folder: ClassFolder, lab: Lab, trusted: bool) -> list[Row]:
    def tell(what: str) -> Callable[[int, int, str], None]:
        return lambda done, of, learner: say(f"        {what} {done} of {of}: {learner}")

    refused = _refusals(class_folder, lab)
    results = mark_class(class_folder, lab, trusted=trusted, progress=tell("marked"))
    pages = feedback_class(class_folder, lab, progress=tell("feedback page"))
    rows = [row_of(each, lab, pages.get(each.learner.id), refused.get(each.learner.id)) for each in results]
    write_csv(class_folder.root / MARKS_FILE, rows)
    if not trusted and any(row.outcome == Outcome.NEEDS_PERSON.value for row in rows):
        _say_if_no_sandbox()
    return rows


def _say_if_no_sandbox() -> None:
    try:
        sandbox_that_holds()
    except SandboxError as error:
        say(f"Some hand-ins wait for a person: {error}.")


def report(class_folder: ClassFolder, lab: Lab, rows: list[Row], as_json_form: bool) -> None:
    """Print a class's marks, and where everything lies.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    rows : list of Row
        What marking gave [-]
    as_json_form : bool
        Print data in place of the table [-]
    """
    places = {
        "hand-outs": class_folder.root / "handed_out",
        "hand-ins": class_folder.root / "submitted",
        "feedback pages": class_folder.root / "feedback",
        "gradebook": class_folder.gradebook_file,
        "marks table": class_folder.root / MARKS_FILE,
    }
    if as_json_form:
        print(as_json(lab, rows, places))
        return
    print(marks_table(rows))
    print()
    for what, path in places.items():
        print(f"{what:<15} {path}")
