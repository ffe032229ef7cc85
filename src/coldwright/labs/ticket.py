"""The ticket: a small signed file that gives one learner one unit for one lab.

The seed comes from the class's secret by HMAC, so nobody without the secret can tell which seed another learner has,
and the instructor can make any ticket again. It does not hide the unit from a learner who takes the simulation apart
at home; docs/marking.md says what that means.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import secrets
from dataclasses import asdict, dataclass
from pathlib import Path

from coldwright.bench import MODEL_VERSION
from coldwright.bench.sheet import SheetHeader
from coldwright.errors import TicketError

FILE_NAME = "ticket.json"
SECRET_BYTES = 32


@dataclass(frozen=True)
class Ticket:
    """Who works on which unit. `seed` is 32 hex digits, `signature` 64."""

    course: str
    lab: str
    learner: str
    attempt: int
    model: str
    seed: str
    signature: str

    @property
    def seed_bytes(self) -> bytes:
        """The seed as bytes."""
        return bytes.fromhex(self.seed)

    @property
    def digest(self) -> str:
        """Short name of this ticket, as the job sheet carries it."""
        return hashlib.sha256(json.dumps(asdict(self), sort_keys=True).encode()).hexdigest()[:16]

    @property
    def header(self) -> SheetHeader:
        """Head of the job sheet that belongs to this ticket."""
        return SheetHeader(lab=self.lab, learner=self.learner, ticket=self.digest, model=self.model)

    def text(self) -> str:
        """The ticket as its file holds it."""
        return json.dumps(asdict(self), indent=2, ensure_ascii=False) + "\n"


def new_secret() -> bytes:
    """A new secret for a class."""
    return secrets.token_bytes(SECRET_BYTES)


def _hmac(secret: bytes, purpose: str, *parts: str) -> str:
    if len(secret) < 16:
        raise TicketError(f"the class secret is {len(secret)} bytes long; it must have at least 16")
    message = json.dumps([purpose, *parts]).encode()
    return hmac.new(secret, message, hashlib.sha256).hexdigest()


def issue_ticket(
    secret: bytes, course: str, lab: str, learner: str, attempt: int = 1, model: str = MODEL_VERSION
) -> Ticket:
    """The ticket of one learner for one lab; the same call gives the same ticket.

    Parameters
    ----------
    secret : bytes
        The class's secret, at least 16 bytes [-]
    course, lab, learner : str
        Names [-]
    attempt : int
        Number of the try, from 1; a new number draws a new unit [-]
    model : str
        Version of the simulation [-]
    """
    if attempt < 1:
        raise TicketError(f"attempt is {attempt}; the first try is number 1")
    seed = _hmac(secret, "seed", course, lab, learner, str(attempt))[:32]
    signature = _hmac(secret, "ticket", course, lab, learner, str(attempt), model, seed)
    return Ticket(course, lab, learner, attempt, model, seed, signature)


def practice_ticket(lab: str, number: int) -> Ticket:
    """A ticket for practice, unsigned: every number draws its own unit.

    Parameters
    ----------
    lab : str
        Name of the lab [-]
    number : int
        Any whole number [-]
    """
    seed = hashlib.sha256(f"practice {lab} {number}".encode()).hexdigest()[:32]
    return Ticket("practice", lab, "practice", 1, MODEL_VERSION, seed, "")


def parse_ticket(text: str) -> Ticket:
    """A ticket from its text; its signature is not checked here.

    Parameters
    ----------
    text : str
        Text of a ticket file [-]

    Raises
    ------
    TicketError
        If it is no ticket.
    """
    refused = TicketError("the ticket cannot be read; copy ticket.json again from the folder you were given")
    if len(text) > 10_000:
        raise refused
    try:
        found = json.loads(text)
        ticket = Ticket(**found)
        ticket.seed_bytes  # noqa: B018 - raises if it is no hex
        ticket.text().encode()  # raises if there are halves of characters in it
    except (ValueError, TypeError, RecursionError):
        raise refused from None
    texts = (ticket.course, ticket.lab, ticket.learner, ticket.model, ticket.seed, ticket.signature)
    if not all(isinstance(t, str) and len(t) <= 200 for t in texts) or type(ticket.attempt) is not int:
        raise refused
    return ticket


def read_ticket(path: Path) -> Ticket:
    """A ticket from a file.

    Parameters
    ----------
    path : Path
        The file [-]

    Raises
    ------
    TicketError
        If there is none or it is no ticket.
    """
    try:
        if path.stat().st_size > 10_000:
            raise TicketError(f"{path.name} is too large to be a ticket")
        return parse_ticket(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise TicketError(
            f"there is no {path.name} beside the notebook; copy it from the folder you were given"
        ) from None
    except (OSError, UnicodeDecodeError):
        raise TicketError(f"{path.name} cannot be read as text; copy it again from the folder you were given") from None


def check_ticket(secret: bytes, ticket: Ticket, course: str, lab: str, learner: str) -> None:
    """Check that a ticket is one this class issued, for this lab and this learner.

    Parameters
    ----------
    secret : bytes
        The class's secret [-]
    ticket : Ticket
        What was handed in [-]
    course, lab, learner : str
        Who and what it should be for [-]

    Raises
    ------
    TicketError
        If it was altered, or belongs to another class, lab or learner; the message says which.
    """
    if ticket.attempt < 1:
        raise TicketError("the ticket was altered")
    genuine = issue_ticket(secret, ticket.course, ticket.lab, ticket.learner, ticket.attempt, ticket.model)
    same = hmac.compare_digest(genuine.signature.encode(), ticket.signature.encode())
    if not same or genuine.seed != ticket.seed:
        raise TicketError("the ticket was altered, or another class issued it")
    if ticket.course != course:
        raise TicketError(f"the ticket is for the course {ticket.course!r}, not for {course!r}")
    if ticket.lab != lab:
        raise TicketError(f"the ticket is for the lab {ticket.lab!r}, not for {lab!r}")
    if ticket.learner != learner:
        raise TicketError("the ticket belongs to another learner")
