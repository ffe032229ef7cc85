"""The questions of lab 05 and what they are worth: 20 marks."""

from __future__ import annotations

from coldwright.answers.forms import ChoiceForm, NumberForm
from coldwright.labs.capacitors.case import backed, make_case, missing, worked
from coldwright.labs.capacitors.how import HOW, RULES
from coldwright.labs.capacitors.shelf import LETTERS
from coldwright.labs.capacitors.slips import MISCONCEPTIONS
from coldwright.labs.capacitors.solutions import solutions
from coldwright.labs.capacitors.unit import open_bench
from coldwright.labs.question import Answer, Lab, Question, WorkPoint
from coldwright.labs.winding_checks.lab import OL
from coldwright.quantities import Kind

OPEN = ("open circuit", "no path")
SHORTED = ("short", "short circuit", "dead short")
CAPACITANCE = NumberForm(Kind.CAPACITANCE, "12.3 uF", {"open": OPEN, "shorted": SHORTED, **OL})
SIZE = NumberForm(Kind.CAPACITANCE, "12.3 uF")
VOLTS = NumberForm(Kind.VOLTAGE, "310 V")
CONDITION = ChoiceForm(
    {
        "good": ("ok", "fine", "sound", "no fault"),
        "open": OPEN,
        "shorted": SHORTED,
        "low": ("too low", "weak", "low value"),
        "leaky": ("leaks", "leaking"),
        "wrong value": ("wrong capacitance", "wrong size"),
        "wrong voltage": ("wrong volts", "voltage too low", "wrong voltage rating"),
    }
)
PART = ChoiceForm({**{letter: (f"spare {letter}",) for letter in LETTERS}, "none": ("keep it", "no spare", "it stays")})
REASON = ChoiceForm(
    {
        "capacitance": ("value", "wrong value", "wrong capacitance"),
        "voltage": ("volts", "voltage too low", "wrong voltage"),
        "type": ("wrong type", "start or run"),
        "frequency": ("hertz", "hz", "wrong frequency"),
        "bleed resistor": ("no bleed resistor", "bleeder", "resistor"),
    }
)

QUESTIONS = (
    Question(
        "off_the_unit",
        "The capacitor, off the unit",
        (
            Answer("capacitance", CAPACITANCE, 2, "farads"),
            Answer("resistance_across", NumberForm(Kind.RESISTANCE, "15 kohm", OL), 1, "ohms"),
        ),
    ),
    Question(
        "tolerance",
        "What the maker's tolerance allows",
        (Answer("lowest_allowed", SIZE, 1), Answer("highest_allowed", SIZE, 1)),
    ),
    Question("condition", "What it is worth", (Answer("condition", CONDITION, 2, "tests"),)),
    Question(
        "spare",
        "The right spare",
        (Answer("part", PART, 1, "tests"), Answer("owners_spare", REASON, 1)),
    ),
    Question(
        "two_together",
        "Two capacitors together",
        (Answer("made_up", SIZE, 1), Answer("volts_on_p", VOLTS, 1)),
    ),
    Question(
        "sizing",
        "Three sizes for one motor",
        (
            Answer("quadrature", SIZE, 1),
            Answer("most_torque", SIZE, 1),
            Answer("most_torque_per_amp", SIZE, 1),
        ),
    ),
    Question(
        "at_work",
        "At work",
        (Answer("under_load", CAPACITANCE, 1, "load"), Answer("volts_in_service", VOLTS, 1, "at work")),
    ),
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
                "proved_dead",
                1,
                "You proved the unit dead in full before your meter's first ohms and before hands went in.",
                "Prove it dead in full: live source, plug pulled, L to N, L to E, N to E, and the live source again.",
            ),
            WorkPoint(
                "discharged",
                1,
                "You discharged the capacitor before you touched or measured it.",
                "Discharge the capacitor before you take it off or measure it.",
            ),
            WorkPoint(
                "repaired",
                1,
                "The right capacitor is in its place, and earth, insulation and polarity are proved after it.",
                "With the right capacitor in and the plug pulled, prove earth, insulation of L and N, and polarity.",
            ),
        ),
    ),
)

LAB = Lab(
    name="capacitors",
    number="05",
    title="Capacitors",
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
