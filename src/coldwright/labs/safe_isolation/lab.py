"""The questions of lab 00 and what they are worth: 20 marks."""

from __future__ import annotations

from coldwright.answers.forms import ChoiceForm, NumberForm
from coldwright.labs.question import Answer, Lab, Question, WorkPoint
from coldwright.labs.safe_isolation.case import backed, make_case, missing, worked
from coldwright.labs.safe_isolation.how import HOW, RULES
from coldwright.labs.safe_isolation.slips import MISCONCEPTIONS
from coldwright.labs.safe_isolation.solutions import solutions
from coldwright.labs.safe_isolation.unit import open_bench
from coldwright.labs.winding_checks.lab import OL
from coldwright.quantities import Kind

CANNOT_TELL = {"cannot tell": ("can't tell", "cant tell", "can not tell", "cannot be told", "unknown")}
VERDICT = ChoiceForm(
    {
        "within limits": ("within", "inside", "in limits", "ok", "good"),
        "too low": ("low", "below"),
        "too high": ("high", "above"),
        **CANNOT_TELL,
    }
)
RANGE = ChoiceForm({f"{volts} V": (f"{volts}V", f"{volts}", f"{volts} volts") for volts in (2, 20, 200, 600)})
METER = ChoiceForm({letter: (f"meter {letter}",) for letter in "ABC"})
MEETING = ChoiceForm({"agree": ("they agree", "yes"), "differ": ("they differ", "disagree", "no")})
WIRE = ChoiceForm({"live": ("it is live",), "ghost": ("ghost voltage", "phantom", "not live")})
EARTH = ChoiceForm({"good": ("ok", "fine"), "poor": ("bad", "too high"), "lost": ("open", "no earth", "missing")})
PLATE = ChoiceForm({"agrees": ("agree", "ok", "within"), "differs": ("differ", "does not agree"), **CANNOT_TELL})


def _pair(a: str, b: str) -> tuple[str, ...]:
    long = {"L": "live", "N": "neutral", "E": "earth"}
    return (f"{a}{b}", f"{a} {b}", f"{b}{a}", f"{b} to {a}", f"{a}–{b}", f"{long[a]} to {long[b]}")


NOTE = ChoiceForm(
    {
        "live source before": ("before", "try the meter before", "live source first"),
        "L to N": _pair("L", "N"),
        "L to E": _pair("L", "E"),
        "N to E": _pair("N", "E"),
        "live source after": ("after", "try the meter again", "live source again"),
        "nothing": ("none", "nothing is missing", "complete"),
    }
)
VOLTS, OHMS = "120.5 V", "4.2 ohm"


def _volts(name: str, example: str, needs: str) -> Answer:
    return Answer(name, NumberForm(Kind.VOLTAGE, example), 1, needs)


QUESTIONS = (
    Question(
        "supply",
        "The supply",
        (
            _volts("supply_volts", VOLTS, "supply"),
            _volts("supply_limit", "1.5 V", "supply"),
            Answer("supply_verdict", VERDICT, 1, "supply"),
        ),
    ),
    Question(
        "range",
        "A range for the old meter",
        (Answer("old_range", RANGE, 1, "supply"), _volts("old_digit", "0.01 V", "supply")),
    ),
    Question("category", "The right meter for the place", (Answer("meter", METER, 1),)),
    Question(
        "two_meters",
        "Two meters, one supply",
        (_volts("both_limits", "2.5 V", "supply"), Answer("meters", MEETING, 1, "supply")),
    ),
    Question("peak", "The peak", (_volts("peak_volts", "170 V", "supply"),)),
    Question(
        "wire",
        "The wire to the lamp",
        (_volts("wire_volts", VOLTS, "wire"), Answer("wire", WIRE, 1, "wire both")),
    ),
    Question(
        "earth",
        "The earth path",
        (Answer("earth_ohm", NumberForm(Kind.RESISTANCE, OHMS, OL), 1, "earth"), Answer("earth", EARTH, 1, "earth")),
    ),
    Question(
        "fan",
        "The fan against its plate",
        (Answer("fan_ohm", NumberForm(Kind.RESISTANCE, OHMS), 1, "fan"), Answer("fan", PLATE, 1, "fan")),
    ),
    Question("note", "What the note lacks", (Answer("note", NOTE, 1),)),
    Question(
        "safe_order",
        "Safe order",
        work=(
            WorkPoint(
                "no_hazard",
                1,
                "There is no hazard on your job sheet.",
                "There is a hazard on your job sheet; it says which act and why.",
            ),
            WorkPoint(
                "tried",
                1,
                "You tried the meter on a live source before and after the dead readings.",
                "Try the meter on a live source before you prove dead, and try it again after: a dead meter shows 0 V.",
            ),
            WorkPoint(
                "pairs",
                1,
                "You read all three pairs dead before the first ohms reading and before hands went in.",
                "With the plug pulled read L to N, L to E and N to E before the first ohms reading.",
            ),
            WorkPoint(
                "zeroed",
                1,
                "You zeroed the leads before the first ohms reading.",
                "Zero the leads before the first ohms reading.",
            ),
        ),
    ),
)

LAB = Lab(
    name="safe_isolation",
    number="00",
    title="Safe isolation and the meter",
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
