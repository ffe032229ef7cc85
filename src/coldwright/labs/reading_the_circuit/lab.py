"""The questions of lab 02 and what they are worth: 20 marks."""

from __future__ import annotations

from coldwright.answers.forms import ChoiceForm, NumberForm
from coldwright.labs.question import Answer, Lab, Question, WorkPoint
from coldwright.labs.reading_the_circuit.case import make_case
from coldwright.labs.reading_the_circuit.how import HOW, RULES
from coldwright.labs.reading_the_circuit.joint import ENDS
from coldwright.labs.reading_the_circuit.needs import backed, missing, worked
from coldwright.labs.reading_the_circuit.slips import MISCONCEPTIONS
from coldwright.labs.reading_the_circuit.solutions import solutions
from coldwright.labs.reading_the_circuit.unit import open_bench
from coldwright.quantities import Kind

OL: dict[str, tuple[str, ...]] = {
    "OL": ("O.L", "0L", "0.L", "over range", "overrange", "over limit", "open", "infinite", "infinity", "∞")
}
ABSENT: dict[str, tuple[str, ...]] = {"none": ("no heater", "no such part", "not there", "n/a")}
NO_POWER: dict[str, tuple[str, ...]] = {"0 W": ("OL", *OL["OL"])}  # what an open heater draws
AFTER = ChoiceForm(
    dict.fromkeys(
        ("timer 1", "overload 1", "board L", "condenser fan 1", "evaporator fan 1", "door switch 1", "lamp 1"), ()
    )
)
PATH = ChoiceForm(
    {
        "thermostat": ("the thermostat", "thermostat alone", "thermostat only"),
        "thermostat and timer": ("timer and thermostat", "thermostat, timer", "thermostat and defrost timer"),
        "thermostat and door switch": ("door switch and thermostat", "thermostat, door switch"),
        "door switch": ("the door switch",),
        "timer": ("defrost timer", "the timer"),
    }
)
CONTACT = ChoiceForm(
    {"closed": ("shut",), "open": (), "cannot tell": ("can't tell", "cannot be told", "cant tell", "unknown")}
)
TERMINATOR = ChoiceForm({"closed": ("shut",), "open": ("OL", *OL["OL"]), "none": ABSENT["none"]})
TIMER = ChoiceForm({"timer 2": ("2",), "timer 4": ("4",), "none": ABSENT["none"]})
JOINT = ChoiceForm(dict.fromkeys(ENDS, ()))
COMPONENT = ChoiceForm(
    {
        "cord": ("power cord", "mains lead", "flex"),
        "thermostat": ("cold control",),
        "door switch": ("light switch",),
        "lamp": ("light", "bulb"),
        "condenser fan": (),
        "evaporator fan": (),
        "compressor": (),
        "defrost timer": ("timer",),
        "heater": ("defrost heater",),
        "terminator": ("defrost terminator", "defrost thermostat"),
    }
)
WRONG = ChoiceForm(
    {
        "open": ("broken", "open circuit"),
        "stuck open": (),
        "stuck closed": ("shorted", "welded"),
        "drifted": ("out of range", "wrong temperature"),
        "seized": ("jammed", "stuck shaft"),
        "loose joint": ("loose", "loose connection", "poor joint", "bad joint"),
        "stuck at cooling": ("stuck in cooling",),
        "stuck at defrost": ("stuck in defrost",),
    }
)

QUESTIONS = (
    Question("trace", "Follow the schematic", (Answer("after_thermostat", AFTER, 1), Answer("fan_path", PATH, 1))),
    Question(
        "across",
        "Volts across a switch",
        (
            Answer("door_switch_volts", NumberForm(Kind.VOLTAGE, "24.5 V"), 1, "door switch volts"),
            Answer("thermostat_contact", CONTACT, 1, "thermostat volts"),
        ),
    ),
    Question(
        "apart",
        "Ohms of the condenser fan",
        (Answer("fan_ohms", NumberForm(Kind.RESISTANCE, "42.5 ohm", OL), 1, "fan off"),),
    ),
    Question(
        "defrost",
        "Timer and terminator",
        (Answer("timer_joins", TIMER, 1, "timer"), Answer("terminator_cold", TERMINATOR, 1, "terminator")),
    ),
    Question(
        "heater",
        "The defrost heater",
        (
            Answer("heater_ohms", NumberForm(Kind.RESISTANCE, "61.3 ohm", OL | ABSENT), 1, "heater"),
            Answer("heater_watts", NumberForm(Kind.POWER, "250 W", NO_POWER | ABSENT), 1, "heater and supply"),
        ),
    ),
    Question(
        "fault",
        "What is behind the complaint",
        (Answer("component", COMPONENT, 1, "fault"), Answer("wrong", WRONG, 1, "fault")),
    ),
    Question(
        "joint",
        "The poor joint",
        (
            Answer("joint", JOINT, 1, "joint"),
            Answer("joint_volts", NumberForm(Kind.VOLTAGE, "0.75 V"), 1, "joint"),
            Answer("joint_watts", NumberForm(Kind.POWER, "1.4 W"), 1, "joint and amps"),
        ),
    ),
    Question(
        "insulation",
        "Insulation after the repair",
        (Answer("insulation", NumberForm(Kind.RESISTANCE, "250 Mohm", OL), 1, "insulation"),),
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
                "You proved it dead before the first ohms, with the meter tried on the outlet before and after.",
                "Prove it dead before the first ohms: outlet, plug L to N, L to E, N to E, then the outlet again.",
            ),
            WorkPoint(
                "proof",
                1,
                "You fitted the right part and proved earth, insulation and polarity after it.",
                "Fit the right part, then prove plug E to metal, L and N to metal at 500 V, plug L to thermostat 1.",
            ),
            WorkPoint(
                "works",
                1,
                "You showed that current flows in the new part, or that its ohms are right.",
                "Show that it works: clamp the wire at the new part while it should draw current.",
            ),
            WorkPoint(
                "economy",
                1,
                "You took no more than twice the readings of the shortest way.",
                "You took more than twice the readings of the shortest way: let each reading halve what is left.",
            ),
        ),
    ),
)

LAB = Lab(
    name="reading_the_circuit",
    number="02",
    title="Reading the circuit",
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
