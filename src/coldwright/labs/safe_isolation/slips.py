"""The known slips of safe isolation and the meter: what each gives, and the sentence that a learner reads."""

from __future__ import annotations

from coldwright.labs.question import Misconception
from coldwright.labs.safe_isolation.slip_values import VALUES


def _slip(key: str, answers: tuple[str, ...], sentence: str) -> Misconception:
    return Misconception(key, answers, sentence, VALUES[key])


MISCONCEPTIONS = (
    _slip(
        "leads not zeroed",
        ("earth_ohm", "earth", "fan_ohm", "fan"),
        "Your reading holds the resistance of the meter's leads as well: zero the leads before you read ohms.",
    ),
    _slip(
        "digits forgotten",
        ("supply_limit",),
        "You took the percentage alone: the digits of the accuracy come on top of it.",
    ),
    _slip(
        "percent of the range",
        ("supply_limit",),
        "You took the percentage of the whole range: it is a percentage of the reading.",
    ),
    _slip(
        "ghost taken for live",
        ("wire",),
        "A floating wire picks up volts from its neighbours: on the low-impedance input this one falls to nothing.",
    ),
    _slip(
        "low input for the high one",
        ("wire_volts",),
        "You gave what the low-impedance input shows: the question asks for the usual input of high impedance.",
    ),
    _slip(
        "limits added",
        ("both_limits",),
        "You added the two limits, which is the worst case: of two separate meters take the root of both squares.",
    ),
    _slip(
        "larger limit alone",
        ("both_limits",),
        "You took the larger limit alone: the other meter can be off as well, so both go under the root.",
    ),
    _slip(
        "peak for RMS",
        ("supply_volts",),
        "You multiplied by 1.414, which gives the peak: the meter and the plate both speak of RMS volts.",
    ),
    _slip(
        "RMS for peak",
        ("peak_volts",),
        "You gave the RMS volts that the meter shows: the peak of a sine is 1.414 times as high.",
    ),
    _slip(
        "peak to peak",
        ("peak_volts",),
        "You gave the volts from the lowest to the highest point: the peak counts from zero and is half of that.",
    ),
    _slip(
        "rated for measured",
        ("supply_volts", "peak_volts"),
        "You took the volts from the plate: the supply has its own, so give what the meter shows.",
    ),
    _slip(
        "category by the volts alone",
        ("meter",),
        "You took the meter with the most volts: its category is too low for this place, where hard pulses come in.",
    ),
    _slip(
        "volts left out of the rating",
        ("meter",),
        "You took the meter with the highest category: the volts beside it are too few for this supply.",
    ),
    _slip(
        "0 V once is dead",
        ("note",),
        "Zero volts shown is no proof by itself: one step that makes it a proof is not on the note.",
    ),
    _slip(
        "limit left out of the verdict",
        ("supply_verdict", "fan"),
        "You went by the bare number: the edge lies inside the ± of your reading, so this meter cannot tell.",
    ),
    _slip(
        "plate value taken as exact",
        ("supply_verdict", "fan"),
        "You asked for the very number on the plate: a value inside the allowed band around it is in order.",
    ),
    _slip(
        "two readings must be equal",
        ("meters",),
        "Two good meters need not show the same: they agree while no further apart than both limits together allow.",
    ),
    _slip(
        "a beep is enough",
        ("earth",),
        "The meter beeps up to 30 Ω, far too much for an earth path: read its ohms with the leads zeroed.",
    ),
    _slip(
        "fan read in place",
        ("fan_ohm",),
        "Your value is that of the fan with the rest of the circuit beside it: take the fan off first.",
    ),
    _slip(
        "range higher than needed",
        ("old_range", "old_digit"),
        "You went one range too high: the lowest range that still goes above the reading shows the finest digit.",
    ),
    _slip(
        "range below the reading",
        ("old_range", "old_digit"),
        "On this range the reading is over range and the meter shows OL: take the next one up.",
    ),
)
