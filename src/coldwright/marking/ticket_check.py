"""Which ticket counts for a hand-in: the one that the class's secret draws for this learner, never what a file says."""

from __future__ import annotations

import csv
import os
from dataclasses import dataclass
from pathlib import Path

from coldwright.errors import CourseError, TicketError
from coldwright.labs import ticket as tickets
from coldwright.labs.class_folder import ClassFolder
from coldwright.labs.question import Lab
from coldwright.labs.ticket import Ticket, check_ticket, issue_ticket, read_ticket

HANDED_OUT = "handed_out.csv"


@dataclass(frozen=True)
class Checked:
    """The ticket to mark against, or why there is none: `refused`, or another learner's id in `belongs_to`.

    `was_missing` tells that none was handed in, so that it was issued again.
    """

    ticket: Ticket | None = None
    was_missing: bool = False
    refused: str = ""
    belongs_to: str = ""


def last_attempt(class_folder: ClassFolder, lab: Lab, learner: str) -> int | None:
    """Number of the last try handed out to a learner; None where none is on record.

    Parameters
    ----------
    class_folder : ClassFolder
        The class [-]
    lab : Lab
        The lab [-]
    learner : str
        Learner's id [-]

    Raises
    ------
    CourseError
        If the record of what was handed out cannot be read.
    """
    path = class_folder.root / HANDED_OUT
    try:
        with path.open(encoding="utf-8", newline="") as file:
            rows = [row for row in csv.DictReader(file) if row["learner"] == learner]
            numbers = [int(row["attempt"]) for row in rows if row["lab"] in (lab.name, lab.folder)]
    except FileNotFoundError:
        return None
    except (KeyError, TypeError, ValueError):
        raise CourseError(f"{path} cannot be read; its columns are learner, lab, attempt") from None
    return numbers[-1] if numbers else None


def ticket_of(folder: Path, learner: str, lab: Lab, class_folder: ClassFolder) -> Checked:
    """The ticket of a hand-in, checked against the class's secret and the record of what was handed out.

    Parameters
    ----------
    folder : Path
        What was handed in [-]
    learner : str
        Whose hand-in it is [-]
    lab : Lab
        The lab [-]
    class_folder : ClassFolder
        The class [-]

    Returns
    -------
    Checked
        A missing ticket is issued again for the last try on record, else for the first.
    """
    secret, last = class_folder.secret, last_attempt(class_folder, lab, learner)
    path = folder / tickets.FILE_NAME
    if not os.path.lexists(path):
        return Checked(issue_ticket(secret, class_folder.course, lab.name, learner, last or 1), was_missing=True)
    if path.is_symlink():
        return Checked(refused="the ticket is a link, not a file")
    try:
        found = read_ticket(path)
        check_ticket(secret, found, class_folder.course, lab.name, found.learner)
    except TicketError as error:
        return Checked(refused=str(error))
    if found.learner != learner:
        return Checked(belongs_to=found.learner)
    if last is not None and found.attempt != last:
        return Checked(refused=f"the ticket is for try {found.attempt}, and the last one handed out was try {last}")
    return Checked(issue_ticket(secret, class_folder.course, lab.name, learner, found.attempt, found.model))
