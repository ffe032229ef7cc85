"""The questions of lab 04 and what they are worth: 20 marks."""

from __future__ import annotations

from coldwright.answers.forms import ChoiceForm, NumberForm
from coldwright.labs.question import Answer, Lab, Question, WorkPoint
from coldwright.labs.start_circuits.case import PINS, make_case
from coldwright.labs.start_circuits.economy import CLOSE, SLACK
from coldwright.labs.start_circuits.how import HOW, RULES
from coldwright.labs.start_circuits.slips import MISCONCEPTIONS
from coldwright.labs.start_circuits.solutions import solutions
from coldwright.labs.start_circuits.unit import open_bench
from coldwright.labs.start_circuits.work import backed, missing, worked
from coldwright.quantities import Kind

AT_REST = ChoiceForm(
    {
        "open": ("OL", "it is open", "no path"),
        "closed": ("it is closed", "shut"),
        "low ohms": ("a few ohms", "few ohms", "low resistance"),
        "no device": ("none", "there is none"),
    }
)
LETS_GO = ChoiceForm(
    {
        "the run amps fall": ("run amps fall", "the run current falls", "run current falls"),
        "the start volts rise": ("start volts rise", "the start voltage rises", "start voltage rises"),
        "it heats up": ("heat", "its own heat", "it gets hot"),
        "its time is over": ("time", "its time", "time is over"),
        "it never does": ("never", "nothing"),
    }
)
PART = ChoiceForm(
    {
        "relay": ("start relay", "the relay"),
        "PTC": ("the PTC",),
        "start switch": ("solid-state switch", "solid state", "the start switch"),
        "start capacitor": ("the start capacitor",),
        "run capacitor": ("the run capacitor",),
        "overload": ("the overload", "overload protector"),
        "start winding": ("the start winding",),
        "run winding": ("the run winding",),
        "rotor": ("the rotor", "compressor stuck"),
        "supply": ("the supply", "low supply"),
        "none": ("no part", "no fault", "nothing"),
    }
)
WRONG = ChoiceForm(
    {
        "open": ("open circuit", "no path"),
        "shorted": ("short", "short circuit"),
        "low": ("low capacitance", "too low", "weak"),
        "coil open": ("open coil",),
        "contact stuck open": ("stuck open", "contacts stuck open", "burnt contact", "contact burnt", "burnt contacts"),
        "contact welded": ("welded", "contacts welded", "stuck closed"),
        "upside down": ("wrong way up", "turned over"),
        "wrong rating": ("wrong relay", "wrong size", "too large"),
        "cracked": ("broken disc",),
        "does not cool": ("not cooled", "stays hot", "does not cool down"),
        "seized": ("stuck", "locked"),
        "low voltage": ("low volts", "volts too low"),
        "nothing": ("none", "no fault"),
    }
)


def _new(part: str) -> tuple[str, ...]:
    """Other ways to say that a part has to be replaced."""
    return (f"a new {part}", *(f"{verb}{article} {part}" for verb in ("replace", "change") for article in ("", " the")))


NEW = ("relay", "PTC", "start switch", "start capacitor", "run capacitor", "overload", "compressor")
REMEDY = ChoiceForm(
    {
        **{f"new {part}": _new(part) for part in NEW},
        "new relay": (*_new("relay"), *_new("start relay"), "new start relay"),
        "relay upright": ("set the relay upright", "turn the relay upright"),
        "put the supply right": ("supply", "mend the supply"),
        "nothing": ("none", "no part"),
    }
)
SUPPLY = ChoiceForm({"in order": ("good", "ok", "fine"), "too low": ("low", "bad")})
AMPS = NumberForm(Kind.CURRENT, "9.5 A")
RUNNING_AMPS = NumberForm(Kind.CURRENT, "1.25 A", {"does not run": ("it does not run", "not running", "doesn't run")})
OHMS = NumberForm(Kind.RESISTANCE, "0.45 ohm", {"cannot tell": ("can't tell", "cannot be told", "too small to tell")})

QUESTIONS = (
    Question(
        "device", "A good start device of this kind", (Answer("at_rest", AT_REST, 1), Answer("lets_go", LETS_GO, 1))
    ),
    Question("found", "Start amps, as found", (Answer("found_amps", AMPS, 1, "as found"),)),
    Question(
        "diagnosis", "What has failed", (Answer("part", PART, 1, "evidence"), Answer("wrong", WRONG, 2, "evidence"))
    ),
    Question("remedy", "What to do", (Answer("remedy", REMEDY, 1),)),
    Question("start", "The two windings at start", tuple(Answer(name, AMPS, 1, "start amps") for name in PINS)),
    Question(
        "running",
        "Running",
        tuple(Answer(name, RUNNING_AMPS, 1, "running amps") for name in ("running_line", "running_start")),
    ),
    Question(
        "supply",
        "The supply while it starts",
        (Answer("source_ohm", OHMS, 1, "sag"), Answer("supply", SUPPLY, 1, "sag")),
    ),
    Question(
        "safe_order",
        "Safe order, economy and proof",
        work=(
            WorkPoint(
                "no_hazard",
                1,
                "There is no hazard on your job sheet.",
                "There is a hazard on your job sheet; it says which act and why.",
            ),
            WorkPoint(
                "proved_dead",
                1,
                "You proved it dead before the first ohms, with the meter tried on the outlet before and after.",
                "Prove it dead before the first ohms: outlet, plug L to N, L to E, N to E, then the outlet again.",
            ),
            WorkPoint(
                "economy",
                1,
                f"You found the fault with at most {SLACK} readings more than the best sequence takes.",
                f"You took more than {SLACK} readings beyond the best sequence: choose each by what it can rule out.",
            ),
            WorkPoint(
                "best_test",
                1,
                f"You found it with at most {CLOSE} reading more than the best sequence takes.",
                f"You took more than {CLOSE} reading beyond the best sequence: listen, look, use the start amps first.",
            ),
            WorkPoint(
                "proof",
                1,
                "After the work you proved earth continuity, insulation and polarity.",
                "After the last part is in, prove earth continuity, insulation of live and neutral, and polarity.",
            ),
            WorkPoint(
                "repaired",
                1,
                "You fitted what had failed and nothing else, and tried it.",
                "Fit what has failed and nothing else, put every part back, then plug it in and see what it does.",
            ),
        ),
    ),
)

LAB = Lab(
    name="start_circuits",
    number="04",
    title="Start circuits",
    questions=QUESTIONS,
    misconceptions=MISCONCEPTIONS,
    open_bench=open_bench,
    make_case=make_case,
    backed=backed,
    missing=missing,
    worked=worked,
    solutions=solutions,
    how=HOW,
    rules=RULES,
)
