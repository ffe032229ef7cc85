"""Tickets: the same call gives the same one, and whatever was touched in one is found."""

from __future__ import annotations

import json
from dataclasses import asdict, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import TicketError
from coldwright.labs.ticket import (
    SECRET_BYTES,
    Ticket,
    check_ticket,
    issue_ticket,
    new_secret,
    parse_ticket,
    practice_ticket,
    read_ticket,
)

SECRET = b"a secret of the test class, 32 by"
COURSE, LAB, ADA = "cold 26", "winding_checks", "ada"
TICKET = issue_ticket(SECRET, COURSE, LAB, ADA)
NAMES = st.text(min_size=1, max_size=30)


def check(ticket: Ticket, secret: bytes = SECRET, course: str = COURSE, lab: str = LAB, learner: str = ADA) -> None:
    """Check a ticket as the class of this test would."""
    check_ticket(secret, ticket, course, lab, learner)


@given(NAMES, NAMES, NAMES, st.integers(1, 99))
def test_the_same_call_gives_the_same_ticket(course, lab, learner, attempt):
    """A ticket can be made again from the secret and the names, and is genuine; its text reads back the same."""
    one = issue_ticket(SECRET, course, lab, learner, attempt)
    assert one == issue_ticket(SECRET, course, lab, learner, attempt)
    assert parse_ticket(one.text()) == one
    check_ticket(SECRET, one, course, lab, learner)


def test_every_learner_lab_course_attempt_and_secret_has_its_own_seed():
    """Change any one of them and the seed is another."""
    others = [
        issue_ticket(SECRET, COURSE, LAB, "ben"),
        issue_ticket(SECRET, COURSE, "other lab", ADA),
        issue_ticket(SECRET, "other course", LAB, ADA),
        issue_ticket(SECRET, COURSE, LAB, ADA, attempt=2),
        issue_ticket(SECRET + b"!", COURSE, LAB, ADA),
    ]
    assert len({TICKET.seed, *(ticket.seed for ticket in others)}) == 6
    many = {issue_ticket(SECRET, COURSE, LAB, f"learner {n}").seed for n in range(300)}
    assert len(many) == 300


def test_names_that_run_together_stay_apart():
    """Course "a" with lab "bc" is not course "ab" with lab "c"."""
    assert issue_ticket(SECRET, "a", "bc", "d").seed != issue_ticket(SECRET, "ab", "c", "d").seed


def test_the_seed_does_not_show_the_secret_or_the_signature():
    """Seed and signature are 32 and 64 hex digits that share nothing."""
    assert (len(TICKET.seed), len(TICKET.signature)) == (32, 64)
    assert TICKET.seed_bytes.hex() == TICKET.seed
    assert not TICKET.signature.startswith(TICKET.seed)


@pytest.mark.parametrize("field", [f for f in asdict(TICKET) if f != "attempt"])
def test_an_altered_field_is_found(field):
    """Any one changed character in a field is found as altered, before anything else is said."""
    value = getattr(TICKET, field)
    changed = ("0" if value[0] != "0" else "1") + value[1:]
    with pytest.raises(TicketError, match=r"^the ticket was altered, or another class issued it$"):
        check(replace(TICKET, **{field: changed}))


@pytest.mark.parametrize(
    ("attempt", "message"), [(2, "altered, or another class"), (0, "^the ticket was altered$"), (-1, "altered")]
)
def test_an_altered_attempt_is_found(attempt, message):
    """Another number of the try draws another unit: it is found."""
    with pytest.raises(TicketError, match=message):
        check(replace(TICKET, attempt=attempt))


def test_a_ticket_of_another_class():
    """A ticket signed with another secret is refused."""
    with pytest.raises(TicketError, match=r"^the ticket was altered, or another class issued it$"):
        check(issue_ticket(b"another secret, long enough", COURSE, LAB, ADA))


def test_a_practice_ticket_is_not_signed():
    """A practice ticket is never taken for a class's ticket; each number draws its own unit, the same each time."""
    with pytest.raises(TicketError, match="altered"):
        check(practice_ticket(LAB, 1), course="practice", learner="practice")
    assert practice_ticket(LAB, 1) == practice_ticket(LAB, 1)
    assert len({practice_ticket(LAB, n).seed for n in range(200)}) == 200


@pytest.mark.parametrize(
    ("other", "message"),
    [
        ({"course": "warm 26"}, r"^the ticket is for the course 'cold 26', not for 'warm 26'$"),
        ({"lab": "start_circuits"}, r"^the ticket is for the lab 'winding_checks', not for 'start_circuits'$"),
        ({"learner": "eve"}, r"^the ticket belongs to another learner$"),
    ],
)
def test_a_genuine_ticket_in_the_wrong_place(other, message):
    """A genuine ticket for another course, lab or learner is told as such; another learner's name is not shown."""
    with pytest.raises(TicketError, match=message):
        check(TICKET, **other)


def test_a_short_secret_is_refused():
    """A secret that could be guessed is refused with its length; a new one is long and never the same."""
    with pytest.raises(TicketError, match=r"^the class secret is 5 bytes long; it must have at least 16$"):
        issue_ticket(b"short", COURSE, LAB, ADA)
    assert len(new_secret()) == SECRET_BYTES == 32
    assert new_secret() != new_secret()


def test_attempts_count_from_one():
    """The first try is number 1."""
    with pytest.raises(TicketError, match=r"^attempt is 0; the first try is number 1$"):
        issue_ticket(SECRET, COURSE, LAB, ADA, attempt=0)


def test_the_sheet_hangs_on_the_ticket():
    """The job sheet's head carries lab, learner, version and the ticket's digest, which any change moves."""
    assert TICKET.header.lab == LAB
    assert TICKET.header.learner == ADA
    assert TICKET.header.ticket == TICKET.digest
    assert TICKET.digest != issue_ticket(SECRET, COURSE, LAB, ADA, attempt=2).digest


BODY = asdict(TICKET)
REFUSED = r"^the ticket cannot be read; copy ticket\.json again from the folder you were given$"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "null",
        "[]",
        "5",
        '"text"',
        "{}",
        "[" * 9_000,
        json.dumps({**BODY, "extra": 1}),
        json.dumps({k: v for k, v in BODY.items() if k != "seed"}),
        json.dumps({**BODY, "seed": "no hex"}),
        json.dumps({**BODY, "seed": None}),
        json.dumps({**BODY, "seed": "é"}),
        json.dumps({**BODY, "attempt": True}),
        json.dumps({**BODY, "attempt": 1.0}),
        json.dumps({**BODY, "attempt": "1"}),
        json.dumps({**BODY, "learner": ["ada"]}),
        json.dumps({**BODY, "learner": "a" * 201}),
        json.dumps({**BODY, "learner": "\ud800"}),
        json.dumps({**BODY, "signature": "\udfff"}),
        json.dumps(BODY).replace('"attempt": 1', '"attempt": ' + "9" * 5000),
        json.dumps(BODY) + " " * 10_000,
    ],
)
def test_text_that_is_no_ticket(text):
    """Whatever is not a ticket is refused in one plain sentence."""
    with pytest.raises(TicketError, match=REFUSED):
        parse_ticket(text)


@given(
    st.dictionaries(
        st.sampled_from(list(BODY)), st.one_of(st.none(), st.booleans(), st.integers(), st.text(max_size=20))
    )
)
def test_any_field_is_refused_or_found_altered(changes):
    """Whatever stands in the fields, it is the genuine ticket, is refused, or is found altered."""
    try:
        ticket = parse_ticket(json.dumps({**BODY, **changes}))
        check(ticket)
    except TicketError:
        return
    assert ticket == TICKET


@given(st.text(max_size=200))
def test_any_text_is_a_ticket_or_a_plain_refusal(text):
    """No text brings anything but a ticket error."""
    with pytest.raises(TicketError, match=REFUSED):
        parse_ticket(text)


def test_a_file_that_is_no_ticket(tmp_path):
    """A ticket that is missing, too large or no text is told with the file's name and what to do."""
    path = tmp_path / "ticket.json"
    with pytest.raises(TicketError, match=r"^there is no ticket\.json beside the notebook; copy it from the folder"):
        read_ticket(path)
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(TicketError, match=r"^ticket\.json cannot be read as text; copy it again"):
        read_ticket(path)
    path.write_bytes(b" " * 10_001)
    with pytest.raises(TicketError, match=r"^ticket\.json is too large to be a ticket$"):
        read_ticket(path)
    with pytest.raises(TicketError, match="cannot be read as text"):
        read_ticket(tmp_path)
    path.write_text(TICKET.text(), encoding="utf-8")
    assert read_ticket(path) == TICKET
