"""The known slips of lab 05: the answers each can show in, and the sentence it gets."""

from __future__ import annotations

from coldwright.labs.capacitors.at_work import SIZES
from coldwright.labs.capacitors.slip_values import VALUES
from coldwright.labs.question import Misconception

SLIPS: tuple[tuple[str, tuple[str, ...], str], ...] = (
    (
        "read in circuit",
        ("capacitance",),
        "You read the capacitor while the windings still hung beside it: take it off the unit first.",
    ),
    (
        "figure of the other frequency",
        ("under_load",),
        "You took the figure of the other supply: it is 2652 at 60 Hz and 3183 at 50 Hz.",
    ),
    (
        "supply volts for the capacitor's",
        ("under_load", "volts_in_service"),
        "You took the volts of the supply: a run capacitor at work has more across it, so read it there.",
    ),
    (
        "tolerance of the other type",
        ("lowest_allowed", "highest_allowed"),
        "You took the tolerance of the other type: a start capacitor has −0 % +20 % here and a run capacitor ±5 %.",
    ),
    (
        "series for parallel",
        ("made_up",),
        "You joined them in series, which makes less than the smaller one: side by side they add up to the nameplate.",
    ),
    (
        "parallel for series",
        ("made_up",),
        "You added them up, which is right side by side: here it is in series that they make the nameplate's value.",
    ),
    (
        "volts shared in parallel",
        ("volts_on_p",),
        "You shared the volts between the two: side by side each of them has the whole voltage.",
    ),
    (
        "whole volts in series",
        ("volts_on_p",),
        "You gave P the whole voltage: in series the two share it, and P as the smaller one takes more than half.",
    ),
    (
        "equal shares in series",
        ("volts_on_p",),
        "You gave both the same share: in series the smaller capacitor takes the larger part of the volts.",
    ),
    (
        "shares swapped",
        ("volts_on_p",),
        "You gave P the share of Q: in series the smaller capacitor takes the larger part of the volts.",
    ),
    (
        "quadrature for most torque",
        ("most_torque",),
        "This is the size for 90° between the currents: a larger one gives more torque, since the start current grows.",
    ),
    (
        "most torque for torque per amp",
        ("most_torque_per_amp",),
        "This is the size for the most torque: a smaller one gives more torque for each amp of the line.",
    ),
    (
        "start winding's reactance left out",
        tuple(SIZES),
        "You left out the reactance of the start winding: the capacitor must make up for it first, so add X_s.",
    ),
    (
        "ohms added as plain numbers",
        ("volts_in_service",),
        "You added the ohms as plain numbers: the reactances of winding and capacitor stand against each other.",
    ),
    (
        "lower voltage accepted",
        ("part",),
        "This spare is for fewer volts than the nameplate asks for: the same or more is right, less breaks down.",
    ),
    (
        "other type accepted",
        ("part",),
        "This spare is of the other type: a start capacitor works for seconds, a run capacitor all the time.",
    ),
    (
        "other value accepted",
        ("part",),
        "This spare has another capacitance: it must be the nameplate's value, within the maker's tolerance.",
    ),
    (
        "other frequency accepted",
        ("part",),
        "This spare is not marked for the frequency of your supply: choose one that is.",
    ),
    (
        "bleed resistor not missed",
        ("part",),
        "This spare has no bleed resistor: the maker's one has, so that no charge is left on it.",
    ),
    (
        "good one replaced",
        ("part",),
        "You replaced a good capacitor: it reads inside its tolerance, does not leak and fits the nameplate.",
    ),
    (
        "capacitance alone trusted",
        ("condition",),
        "You went by the capacitance alone: it is right, but the ohms across it show that it leaks.",
    ),
    (
        "own label trusted",
        ("condition",),
        "You went by its own label: someone fitted one of another value than the nameplate asks for.",
    ),
    (
        "marked volts not compared",
        ("condition",),
        "You went by the capacitance alone: it is marked for fewer volts than the nameplate asks for.",
    ),
    (
        "bleed resistor taken for a leak",
        ("condition",),
        "You took the bleed resistor for a leak: the label names it, and 15 kΩ is what it should read.",
    ),
)
MISCONCEPTIONS = tuple(Misconception(key, answers, sentence, VALUES[key]) for key, answers, sentence in SLIPS)
