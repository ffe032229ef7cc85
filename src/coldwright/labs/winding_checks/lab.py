"""The questions of lab 03 and what they are worth: 20 marks."""

from __future__ import annotations

from coldwright.answers.forms import ChoiceForm, NumberForm
from coldwright.labs.question import Answer, Lab, Question, WorkPoint
from coldwright.labs.winding_checks.case import PAIR_NAMES, backed, make_case, missing, worked
from coldwright.labs.winding_checks.how import HOW, RULES
from coldwright.labs.winding_checks.practice_solutions import solutions
from coldwright.labs.winding_checks.slips import MISCONCEPTIONS
from coldwright.labs.winding_checks.unit import open_bench
from coldwright.quantities import Kind

OL = {
    "OL": (
        "O.L",
        "0L",
        "0.L",
        "over range",
        "overrange",
        "overload",
        "over limit",
        "open",
        "open circuit",
        "infinite",
        "infinity",
        "∞",
    )
}
PIN = ChoiceForm(
    {
        "1": (),
        "2": (),
        "3": (),
        "none": ("no such pin", "not there", "three equal windings", "inverter"),
        "cannot tell": ("can't tell", "cannot be told", "cant tell", "can not tell", "unknown", "not known"),
    }
)
SUM_RULE = ChoiceForm(
    {
        "holds": ("it holds", "hold", "ok", "yes"),
        "does not hold": ("doesn't hold", "fails", "no", "broken"),
        "does not apply": ("doesn't apply", "not for this compressor", "n/a", "not applicable"),
        "cannot be tested": ("can't be tested", "cannot be tried", "cannot test", "can't test"),
    }
)
VERDICT = ChoiceForm(
    {
        "good": ("ok", "fine", "sound", "healthy", "no fault"),
        "open winding": ("winding open", "winding is open", "open circuit winding"),
        "open internal protector": (
            "open protector",
            "protector open",
            "internal protector open",
            "open internal overload",
            "internal overload open",
        ),
        "shorted turns": (
            "shorted winding",
            "shorted",
            "short circuited turns",
            "shorted windings",
            "short in winding",
        ),
        "grounded": (
            "grounded winding",
            "earthed",
            "earth fault",
            "ground fault",
            "short to ground",
            "shorted to ground",
        ),
    }
)
OHM = "4.2 ohm"

QUESTIONS = (
    Question(
        "pairs",
        "Resistance of each pair of pins, cold",
        tuple(Answer(name, NumberForm(Kind.RESISTANCE, OHM, OL), 1, "pair") for name in PAIR_NAMES),
    ),
    Question("pins", "Which pin is which", tuple(Answer(name, PIN, 1) for name in ("common", "run", "start"))),
    Question(
        "sum_rule",
        "The sum rule and the meter",
        (Answer("sum_rule", SUM_RULE, 1), Answer("meter_limit", NumberForm(Kind.RESISTANCE, "0.05 ohm"), 1)),
    ),
    Question(
        "at_20",
        "The lowest pair, corrected to 20 °C",
        (Answer("resistance_at_20", NumberForm(Kind.RESISTANCE, OHM), 2, "lowest pair"),),
    ),
    Question(
        "rise",
        "Temperature rise of the winding on arrival",
        (Answer("temperature_rise", NumberForm(Kind.TEMPERATURE_DIFFERENCE, "55 K"), 2, "hot and cold"),),
    ),
    Question(
        "insulation",
        "Insulation to the shell",
        (Answer("insulation", NumberForm(Kind.RESISTANCE, "250 Mohm", OL), 1, "insulation"),),
    ),
    Question("verdict", "The verdict", (Answer("verdict", VERDICT, 3),)),
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
                "You proved the circuit dead before the first ohms or insulation reading.",
                "Prove it dead: with the plug pulled, read a.c. volts from L to N before the first ohms reading.",
            ),
            WorkPoint(
                "discharged",
                1,
                "You discharged the capacitor before you put your hands on the connector.",
                "Discharge the capacitor before you pull the connector off.",
            ),
            WorkPoint(
                "zeroed",
                1,
                "You zeroed the leads before you read the windings.",
                "Zero the leads before the first reading of a winding.",
            ),
        ),
    ),
)

LAB = Lab(
    name="winding_checks",
    number="03",
    title="Winding checks",
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
