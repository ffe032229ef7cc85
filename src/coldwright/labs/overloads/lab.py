"""The questions of lab 06 and what they are worth: 20 marks."""

from __future__ import annotations

from coldwright.answers.forms import ChoiceForm, NumberForm
from coldwright.labs.overloads.case import make_case
from coldwright.labs.overloads.how import HOW, RULES
from coldwright.labs.overloads.needs import backed, missing, unfair, worked
from coldwright.labs.overloads.slips import MISCONCEPTIONS
from coldwright.labs.overloads.solutions import NO_CLICK, NOT_DONE, solutions
from coldwright.labs.overloads.unit import open_bench
from coldwright.labs.question import Answer, Lab, Question, WorkPoint
from coldwright.quantities import Kind

OL = {"OL": ("O.L", "0L", "over range", "open", "open circuit", "infinite", "∞", "> 1000 MΩ", "more than 1000 MΩ")}
NONE = {NO_CLICK: ("none", "no clicks", "does not click", "doesn't click", "it does not click", "never")}
GROUNDED = {NOT_DONE: ("not done, grounded", "not done, it is grounded", "not done")}
SOUND = ChoiceForm(
    {
        "runs and stays on": ("it runs and stays on", "runs", "keeps running"),
        "runs and clicks off": ("it runs and clicks off", "runs, then clicks off"),
        "hums and clicks off": ("it hums and clicks off", "hums, then clicks off", "hums and clicks"),
        "hums and stays on": ("it hums and stays on",),
        "stays silent": ("it stays silent", "silent", "nothing", "silence"),
    }
)
RATING = ChoiceForm({"fits": ("it fits", "right", "yes"), "does not fit": ("doesn't fit", "wrong", "no")})
START_TEST = ChoiceForm(
    {
        "starts and runs": ("it starts and runs", "starts", "runs", "it starts"),
        "does not start": ("doesn't start", "it does not start", "no start"),
        "nothing happens": ("nothing",),
        **GROUNDED,
    }
)
FAULT = ChoiceForm(
    {
        "no fault": ("none", "ok", "good", "nothing wrong"),
        "overload open": ("open overload",),
        "overload weak": ("weak overload",),
        "overload of the wrong rating": ("wrong overload", "overload wrong", "wrong rating"),
        "seized rotor": ("seized", "rotor seized", "seized compressor", "locked rotor"),
        "start device open": ("open start device", "relay open", "PTC open"),
        "start device stays closed": ("start device closed", "relay welded", "welded relay", "welded contacts"),
        "start winding open": ("open start winding",),
        "grounded winding": ("grounded", "earthed winding", "ground fault", "earth fault"),
        "low supply": ("low supply voltage", "low voltage", "low volts", "supply low"),
        "condenser fan": ("fan", "condenser fan stands still", "condenser fan open", "condenser fan seized"),
    }
)
REMEDY = ChoiceForm(
    {
        "leave it as it is": ("nothing", "none", "no repair"),
        "fit a new overload": ("new overload", "fit an overload", "overload"),
        "fit a new start device": ("new start device", "new relay", "new PTC", "start device"),
        "fit a new condenser fan": ("new condenser fan", "new fan", "condenser fan"),
        "change the compressor": ("new compressor", "compressor", "replace the compressor"),
        "have the supply put right": ("supply", "put the supply right"),
        "bridge the overload": ("bridge it", "bypass the overload"),
    }
)
TIME = NumberForm(Kind.TIME, "15 s", NONE)
AMPS = NumberForm(Kind.CURRENT, "12.3 A")
START_AMPS = NumberForm(Kind.CURRENT, "12.3 A", GROUNDED)

QUESTIONS = (
    Question(
        "clicking",
        "What it does, and its times",
        (
            Answer("sound", SOUND, 1, "listening"),
            Answer("on_seconds", TIME, 1, "listening"),
            Answer("off_seconds", TIME, 1, "listening"),
        ),
    ),
    Question(
        "average",
        "Average watts",
        (Answer("average_watts", NumberForm(Kind.POWER, "140 W"), 1, "watts"),),
    ),
    Question(
        "start",
        "Amps at the start, and the time to trip",
        (
            Answer("start_amps", START_AMPS, 1, "start"),
            Answer("trip_estimate", NumberForm(Kind.TIME, "9.5 s", {**NONE, **GROUNDED}), 1, "start"),
        ),
    ),
    Question("ultimate", "Lowest amps that open it, warm", (Answer("ultimate_amps", AMPS, 1, "shell"),)),
    Question(
        "winding",
        "How hot the winding was",
        (Answer("winding_hot", NumberForm(Kind.TEMPERATURE, "85 °C"), 1, "winding"),),
    ),
    Question(
        "overload",
        "The overload, apart and cold",
        (
            Answer("overload_ohms", NumberForm(Kind.RESISTANCE, "0.25 ohm", OL), 1, "overload"),
            Answer("overload_rating", RATING, 1, "label"),
        ),
    ),
    Question("bypassed", "The start test", (Answer("start_test", START_TEST, 1, "start test"),)),
    Question(
        "verdict",
        "What is wrong, and what to do",
        (Answer("fault", FAULT, 1, "evidence"), Answer("remedy", REMEDY, 1, "evidence")),
    ),
    Question(
        "proof",
        "Proof after the repair",
        (
            Answer("earth_ohms", NumberForm(Kind.RESISTANCE, "0.08 ohm", OL), 1, "earth"),
            Answer("insulation", NumberForm(Kind.RESISTANCE, "250 Mohm", OL), 1, "insulation"),
        ),
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
                "You proved it dead before the first ohms reading and before your hands went in.",
                "Prove it dead first: meter on the live outlet, all three pairs of the plug, the outlet once more.",
            ),
            WorkPoint(
                "zeroed",
                1,
                "You zeroed the leads before the first ohms reading.",
                "Zero the leads before the first ohms reading.",
            ),
            WorkPoint(
                "proof",
                1,
                "You proved earth, insulation and polarity after the last part went in, or left a grounded one dead.",
                "After the last part goes in, plug pulled: at most 0.5 Ω from plug E to metal, at least 2 MΩ from plug "
                "L and plug N to metal, a path from plug L to thermostat 1. A grounded one gets no power any more.",
            ),
            WorkPoint(
                "repaired",
                1,
                "You fitted what had failed and nothing else, and tried a new part.",
                "Fit what has failed and nothing else, and none where no part here helps. Put every part back, plug "
                "in and see what a new part does.",
            ),
        ),
    ),
)

LAB = Lab(
    name="overloads",
    number="06",
    title="Overloads and locked rotor",
    questions=QUESTIONS,
    misconceptions=MISCONCEPTIONS,
    open_bench=open_bench,
    make_case=make_case,
    backed=backed,
    missing=missing,
    worked=worked,
    unfair=unfair,
    solutions=solutions,
    how=HOW,
    rules=RULES,
)
