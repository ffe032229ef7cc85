"""`demo`: an invented class taken through a lab, from hand-out to explained marks."""

from __future__ import annotations

import hashlib
import json
import shutil
import time
from collections.abc import Sequence
from pathlib import Path

from coldwright.answers.tolerance import separable_slips
from coldwright.bench.replay import replay
from coldwright.bench.sheet import parse_sheet
from coldwright.cli.talk import say
from coldwright.cli.teaching import report, take_in_and_mark
from coldwright.course.build import build
from coldwright.course.demo_work import Profile, fill_notebook
from coldwright.course.hand_out import hand_out
from coldwright.course.profiles import profiles
from coldwright.errors import CourseError
from coldwright.labs.catalogue import lab as find_lab
from coldwright.labs.class_folder import NOTEBOOK, SECRET_NAME, SHEET_NAME, ClassFolder, Learner, make_class
from coldwright.labs.question import Key, Lab
from coldwright.labs.ticket import FILE_NAME as TICKET_NAME
from coldwright.labs.ticket import issue_ticket, read_ticket
from coldwright.marking.judge import load_key
from coldwright.marking.nbgrader_config import write_class_config
from coldwright.marking.nbgrader_runs import release

COURSE = "demo"
SECRET = hashlib.sha256(b"the demo class is invented, and so is its secret").digest()
MARK_OF_DEMO = "demo_class.txt"
LAST_ATTEMPT = 400


def run_demo(
    root: Path, into: Path, as_json: bool = False, trusted: bool = False, lab_name: str = "winding_checks"
) -> int:
    """Run the demo class and print its marks; gives the exit code.

    Parameters
    ----------
    root : Path
        The clone [-]
    into : Path
        Folder for the class; an older demo class there is replaced [-]
    as_json : bool
        Print data in place of the table [-]
    trusted : bool
        Run learner code also where there is no sandbox [-]

    lab_name : str
        Name of the lab [-]

    Raises
    ------
    CourseError
        If the folder holds something that is not a demo class.
    """
    started = time.monotonic()
    lab = find_lab(lab_name)
    people = profiles(lab)
    key = load_key(root / "autograde" / "keys", lab)
    say("1 of 5  building the notebooks and making the class")
    class_folder = _fresh_class(root, into, people)
    built = class_folder.root / "built"
    build(root / "source_notebooks", built)
    say(f"2 of 5  handing out {lab.title.lower()} to {len(people)} invented learners, a unit for each")
    attempts = {profile.id: _fitting_attempt(profile, lab, key) for profile in people}
    folders = hand_out(class_folder, lab, built, release, attempts=attempts)
    say("3 of 5  the learners take their readings and answer")
    for profile, folder in zip(people, folders, strict=True):
        _work(profile, lab, folder)
    hand_ins = class_folder.root / "hand_ins"
    _collect(class_folder, lab, people, hand_ins)
    rows = take_in_and_mark(class_folder, lab, hand_ins, trusted)
    say(f"done in {time.monotonic() - started:.0f} s")
    report(class_folder, lab, rows, as_json)
    return 0


def _fresh_class(root: Path, into: Path, people: Sequence[Profile]) -> ClassFolder:
    if into.exists() and not into.is_dir():
        raise CourseError(f"{into} is a file; give a folder with --into")
    try:
        _clear(into)
    except OSError as error:
        raise CourseError(
            f"the demo class cannot be written to {into} ({error.strerror}); give another folder with --into"
        ) from None
    learners = tuple(Learner(p.id, p.first_name, p.last_name) for p in people)
    class_folder = make_class(into, COURSE, root / "autograde" / "keys", learners)
    write_class_config(class_folder)
    return class_folder


def _clear(into: Path) -> None:
    """Take an older demo class away and begin a new one with its fixed secret."""
    if into.exists() and any(into.iterdir()):
        if not (into / MARK_OF_DEMO).is_file():
            raise CourseError(f"{into} is not empty and holds no demo class; give another folder with --into")
        shutil.rmtree(into)
    into.mkdir(parents=True, exist_ok=True)
    (into / MARK_OF_DEMO).write_text(
        "An invented class: people, units and hand-ins are made up. The demo command writes this folder anew.\n",
        encoding="utf-8",
    )
    (into / SECRET_NAME).write_text(SECRET.hex() + "\n", encoding="ascii")


def _fitting_attempt(profile: Profile, lab: Lab, key: Key) -> int:
    """Number of the first attempt whose unit lets the profile show what it is there to show."""
    for attempt in range(1, LAST_ATTEMPT):
        ticket = issue_ticket(SECRET, COURSE, lab.name, profile.id, attempt)
        bench = lab.open_bench(ticket, None)
        if profile.plugged and not getattr(bench, "plugged", False):
            continue
        if profile.slip is None:
            return attempt
        profile.works(bench, lab.open_bench(ticket, None))
        case = lab.make_case(ticket, replay(parse_sheet(bench.sheet_text()), lab.open_bench(ticket, None)))
        expected = key(case)
        names = [name for m in lab.misconceptions if m.key == profile.slip for name in m.answers]
        for name in names:
            right = expected[name]
            if profile.slip in separable_slips(right.right, right.tolerance, lab.slips(case, name)):
                return attempt
    raise CourseError(f"no unit was found on which {profile.slip!r} can be told")


def _work(profile: Profile, lab: Lab, folder: Path) -> None:
    """One invented learner at work in their own folder."""
    ticket = read_ticket(folder / TICKET_NAME)
    bench = lab.open_bench(ticket, folder / SHEET_NAME)
    work = profile.works(bench, lab.open_bench(ticket, None))
    path = folder / f"{NOTEBOOK}.ipynb"
    notebook = fill_notebook(json.loads(path.read_text(encoding="utf-8")), work)
    path.write_text(json.dumps(notebook, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")


def _collect(class_folder: ClassFolder, lab: Lab, people: Sequence[Profile], hand_ins: Path) -> None:
    """The learners' folders as an instructor gets them back."""
    for profile in people:
        shutil.copytree(class_folder.part("handed_out", profile.id, lab.folder), hand_ins / profile.id)
