"""The known slips of lab 01: the answers each can show in, and the sentence it gets."""

from __future__ import annotations

from coldwright.labs.question import Misconception
from coldwright.labs.stored_charge.formulas import USES
from coldwright.labs.stored_charge.slip_values import VALUES

SLIPS: tuple[tuple[str, tuple[str, ...], str], ...] = (
    (
        "plug out taken for empty",
        ("volts_left",),
        "You took it for empty because the plug is out: read the direct volts (d.c.) across it, for a charge can stay.",
    ),
    (
        "RMS for peak",
        tuple(USES),
        "You took the RMS volts: a capacitor can keep the peak, which is 1.414 times as much.",
    ),
    (
        "peak for the heat",
        ("bleed_watts",),
        "You took the peak volts for the heat: it is the RMS volts that count for watts here.",
    ),
    (
        "half forgotten",
        ("energy", "energy_two"),
        "You worked out C times V squared: the energy is half of that.",
    ),
    (
        "volts not squared",
        ("energy", "energy_two"),
        "You did not square the volts: the energy is half of C times V times V.",
    ),
    (
        "a thousand off in the capacitance",
        ("charge", "energy"),
        "You are a thousand off in the capacitance: one µF is a millionth of a farad.",
    ),
    (
        "joules for watts",
        ("low_lead_watts",),
        "You gave the joules of the whole charge: the watts at the first moment are V squared over R.",
    ),
    (
        "time constant taken for safe",
        ("high_lead_time", "bleed_ohm", "time_alone"),
        "You took R times C for the time: then 37 % of the volts are still there, so multiply by the ln of V over v.",
    ),
    (
        "logarithm to ten",
        ("high_lead_time", "bleed_ohm", "time_alone"),
        "You took the log key, which counts in tens: use the ln key, since the volts fall by the number e.",
    ),
    (
        "ohms in circuit",
        ("ohms_across",),
        "You read the ohms with the windings still beside it: take the capacitor off the unit first.",
    ),
    (
        "series for parallel",
        ("energy_two",),
        "You took product over sum, which is for a row: side by side the two capacitances add up.",
    ),
    (
        "parallel for series",
        ("energy_two",),
        "You added the two capacitances, which is right side by side: in series it is product over sum.",
    ),
    (
        "screwdriver",
        ("lead",),
        "You took the screwdriver: it makes an arc that throws hot metal, so let the charge out through a resistor.",
    ),
    (
        "lead too weak",
        ("lead",),
        "You took the lead with the few ohms: its first watts are more than ten times what its resistor is made for.",
    ),
    (
        "lead too slow",
        ("lead",),
        "You took the lead with the many ohms: after half a minute the volts on it are still too high.",
    ),
    (
        "bleed resistor trusted",
        ("condition",),
        "You trusted the bleed resistor: what you see and the ohms across it are not what its maker fits.",
    ),
    (
        "leak not seen",
        ("condition",),
        "You did not see the leak: the ohms across the capacitor are far below what its maker fits there.",
    ),
    (
        "low value not seen",
        ("condition",),
        "You did not compare the capacitance: it reads less than what is printed and its tolerance allow.",
    ),
    (
        "bleed resistor taken for a leak",
        ("condition",),
        "You took the bleed resistor for a leak: a leak reads far less than the maker's resistor.",
    ),
    (
        "open taken for missing",
        ("condition",),
        "You took the bleed resistor for missing: a look shows that it is there, so OL across it means it is open.",
    ),
    (
        "missing taken for open",
        ("condition",),
        "You took the bleed resistor for open: a look shows none, so OL across it means that it is missing.",
    ),
    (
        "none fitted taken for missing",
        ("condition",),
        "You missed a bleed resistor where the maker fits none: the windings empty this run capacitor.",
    ),
)
MISCONCEPTIONS = tuple(Misconception(key, answers, sentence, VALUES[key]) for key, answers, sentence in SLIPS)
