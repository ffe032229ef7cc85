"""The questions of lab 01 and what they are worth: 20 marks."""

from __future__ import annotations

from coldwright.answers.forms import ChoiceForm, NumberForm
from coldwright.labs.question import Answer, Lab, Question, WorkPoint
from coldwright.labs.stored_charge.case import make_case
from coldwright.labs.stored_charge.how import HOW, RULES
from coldwright.labs.stored_charge.needs import backed, missing, worked
from coldwright.labs.stored_charge.slips import MISCONCEPTIONS
from coldwright.labs.stored_charge.solutions import NEVER, solutions
from coldwright.labs.stored_charge.unit import IN_ORDER, LEAKY, LOW, MISSING, OPEN, TOO_HIGH, open_bench
from coldwright.labs.stored_charge.van import LETTERS
from coldwright.labs.winding_checks.lab import OL
from coldwright.quantities import Kind

VOLTS = NumberForm(Kind.VOLTAGE, "165.3 V")
JOULES = NumberForm(Kind.ENERGY, "4.9 J")
WATTS = NumberForm(Kind.POWER, "35 W")
OHMS = NumberForm(Kind.RESISTANCE, "15.2 kohm", OL)
BLEED = NumberForm(Kind.RESISTANCE, "220 kohm")
SECONDS = NumberForm(Kind.TIME, "12.5 s")
ALONE = NumberForm(Kind.TIME, "12.5 s", {NEVER: ("not at all", "it never does", "no end", "infinite", "OL")})
LEAD = ChoiceForm({**{letter: (f"lead {letter}",) for letter in LETTERS}, "screwdriver": ("the screwdriver",)})
CONDITION = ChoiceForm(
    {
        IN_ORDER: ("good", "ok", "fine", "no fault"),
        MISSING: ("missing", "no bleed resistor"),
        OPEN: ("open", "burnt", "burnt open", "bleed open"),
        TOO_HIGH: ("too high", "bleed too high", "high"),
        LEAKY: ("leaks", "leaking", "capacitor leaks"),
        LOW: ("too low", "low capacitance", "low value"),
    }
)

QUESTIONS = (
    Question("left", "Volts left with the plug out", (Answer("volts_left", VOLTS, 1, "left"),)),
    Question("peak", "The most volts it can hold", (Answer("peak_volts", VOLTS, 1, "peak"),)),
    Question(
        "stored",
        "Charge and energy at that peak",
        (Answer("charge", NumberForm(Kind.CHARGE, "42 mC"), 1, "stored"), Answer("energy", JOULES, 1, "stored")),
    ),
    Question(
        "lead",
        "The discharge lead",
        (
            Answer("low_lead_watts", WATTS, 1, "peak"),
            Answer("high_lead_time", SECONDS, 1, "stored"),
            Answer("lead", LEAD, 1, "stored"),
        ),
    ),
    Question(
        "bleed",
        "A bleed resistor for it",
        (Answer("bleed_ohm", BLEED, 1, "stored"), Answer("bleed_watts", WATTS, 1, "peak")),
    ),
    Question(
        "alone",
        "What empties it by itself",
        (Answer("ohms_across", OHMS, 1, "ohms"), Answer("time_alone", ALONE, 1, "alone")),
    ),
    Question("condition", "What it is worth", (Answer("condition", CONDITION, 3, "tests"),)),
    Question("two", "Two capacitors together", (Answer("energy_two", JOULES, 2),)),
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
                "You proved the unit dead in full before you discharged, touched or tested anything.",
                "Prove it dead in full: live source, plug pulled, L to N, L to E, N to E, and the live source again.",
            ),
            WorkPoint(
                "read_first",
                1,
                "You read volts d.c. across it before you discharged it.",
                "Read volts d.c. across it with the plug out before you discharge it: you must know what you face.",
            ),
            WorkPoint(
                "emptied",
                1,
                "You discharged it and read near zero volts d.c. before hands or ohms came near it.",
                "Discharge it through a resistor, and read volts d.c. again: near zero, before hands or ohms go there.",
            ),
        ),
    ),
)

LAB = Lab(
    name="stored_charge",
    number="01",
    title="Stored charge",
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
