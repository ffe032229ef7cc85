"""Scripted people for lab 00: one works right, each other one works right but for one slip.

They see what the instruments show and what stands on the note and the nameplate, never the true parts.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from coldwright.bench.unit_bench import UnitBench
from coldwright.electrical.measured import Measured
from coldwright.instruments.display import Display, pick_range
from coldwright.instruments.meter_ranges import BEEPS_BELOW_OHM, VOLTS_AC
from coldwright.instruments.misuse import Place, category_suits, ratings
from coldwright.labs.safe_isolation.compare import Against, against_plate, readings_agree
from coldwright.labs.safe_isolation.unit import FAN_TOLERANCE, NOTE_STEPS, NOTHING, OLD_METER, PLATE_TOLERANCE
from coldwright.labs.unit_case import EARTHED_BELOW_OHM

Answers = dict[str, str]
ROOT = math.sqrt(2)
GHOST_BELOW = 0.1  # of what the high input showed: it broke down


@dataclass(frozen=True)
class Notes:
    """What one person read off the job's text and the instruments."""

    rated: float
    fan_plate: float
    lacks: str
    old: Measured
    place: Place
    meters: Mapping[str, str]
    supply: Display
    wire: Display
    wire_low: Display
    earth: Display
    fan_in_place: Display | None
    fan: Display


def _number(pattern: str, text: str) -> float:
    found = re.search(pattern, text)
    assert found is not None, pattern
    return float(found[1])


def _shown(bench: UnitBench, act: str, *on: str) -> Display:
    display = bench.perform(act, on).display
    assert display is not None
    return display


def take_readings(bench: UnitBench, zeroes: bool = True, in_place: bool = False) -> Notes:
    """All that the lab needs, read in a safe order.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    zeroes : bool
        Whether the leads are zeroed before the first ohms [-]
    in_place : bool
        Whether the fan is read before it is taken off as well [-]
    """
    told = bench.look()
    supply = _shown(bench, "volts ac", "outlet L", "outlet N")
    bench.perform("open door")
    wire = _shown(bench, "volts ac", "door switch 2", "cord N")
    wire_low = _shown(bench, "volts ac low impedance", "door switch 2", "cord N")
    bench.perform("isolate")
    for a, b in (("L", "N"), ("L", "E"), ("N", "E")):
        _shown(bench, "volts ac", f"plug {a}", f"plug {b}")
    _shown(bench, "volts ac", "outlet L", "outlet N")
    if zeroes:
        bench.perform("zero leads")
    earth = _shown(bench, "ohms", "plug E", "cabinet metal")
    ends = ("condenser fan 1", "condenser fan 2")
    fan_in_place = _shown(bench, "ohms", *ends) if in_place else None
    bench.perform("take off", ("condenser fan",))
    fan = _shown(bench, "ohms", *ends)
    bench.perform("put back", ("condenser fan",))
    old = _number(r"old meter showed ([0-9.]+) V", told)
    chosen = pick_range(OLD_METER, old)
    assert chosen is not None
    return Notes(
        rated=_number(r"Cooler .*?, ([0-9]+) V", told),
        fan_plate=_number(r"condenser fan ([0-9.]+) Ω", told),
        lacks=next((step for step, words in NOTE_STEPS.items() if words not in told), NOTHING),
        old=Measured(old, chosen.limit(old)),
        place=next(place for place in Place if f"First reading: {place.value}." in told),
        meters=dict(re.findall(r"\b([ABC]): (CAT [IV]+ [0-9]+ V)", told)),
        supply=supply,
        wire=wire,
        wire_low=wire_low,
        earth=earth,
        fan_in_place=fan_in_place,
        fan=fan,
    )


def answers_from(notes: Notes) -> Answers:
    """The answers that right reasoning draws from the notes.

    Parameters
    ----------
    notes : Notes
        What was read [-]
    """
    supply, old = notes.supply, notes.old
    chosen = pick_range(OLD_METER, supply.value)
    assert chosen is not None
    fan = against_plate(notes.fan.measured, notes.fan_plate, FAN_TOLERANCE)
    ghost = notes.wire_low.value < GHOST_BELOW * notes.wire.value
    earth = notes.earth.value
    return {
        "supply_volts": _volts(supply.value),
        "supply_limit": f"{supply.limit:.2f} V",
        "supply_verdict": against_plate(supply.measured, notes.rated, PLATE_TOLERANCE).value,
        "old_range": f"{chosen.full_scale:g} V",
        "old_digit": f"{chosen.resolution:g} V",
        "meter": next(m for m, rating in notes.meters.items() if category_suits(notes.place, notes.rated, rating)),
        "both_limits": f"{math.hypot(supply.limit, old.limit):.2f} V",
        "meters": "agree" if readings_agree(supply.measured, old) else "differ",
        "peak_volts": _volts(ROOT * supply.value),
        "wire_volts": _volts(notes.wire.value),
        "wire": "ghost" if ghost else "live",
        "earth_ohm": _ohms(notes.earth),
        "earth": "lost" if math.isinf(earth) else "good" if earth <= EARTHED_BELOW_OHM else "poor",
        "fan_ohm": _ohms(notes.fan),
        "fan": {Against.WITHIN: "agrees", Against.CANNOT_TELL: "cannot tell"}.get(fan, "differs"),
        "note": notes.lacks,
    }


def right(bench: UnitBench) -> Answers:
    """Answers of a person who works by the book.

    Parameters
    ----------
    bench : UnitBench
        The learner's own unit [-]
    """
    return answers_from(take_readings(bench))


def _volts(volts: float) -> str:
    return f"{volts:.1f} V"


def _ohms(display: Display) -> str:
    return display.text.replace("Ω", "ohm") if math.isfinite(display.value) else "OL"


# ------------------------------------------------------------------ slips


def _slip(change: Callable[[Notes, Answers], Answers]) -> Callable[[UnitBench], Answers]:
    """Works right and makes one slip in what is written down."""

    def works(bench: UnitBench) -> Answers:
        notes = take_readings(bench)
        answers = answers_from(notes)
        return {**answers, **change(notes, answers)}

    return works


def _leads(bench: UnitBench) -> Answers:
    return answers_from(take_readings(bench, zeroes=False))


def _in_place(bench: UnitBench) -> Answers:
    notes = take_readings(bench, in_place=True)
    assert notes.fan_in_place is not None
    return {**answers_from(notes), "fan_ohm": notes.fan_in_place.text.replace("Ω", "ohm").replace("OL", "")}


def _no_digits(notes: Notes, _answers: Answers) -> Answers:
    return {"supply_limit": f"{notes.supply.value * VOLTS_AC[-1].percent / 100:.2f} V"}


def _of_range(_notes: Notes, _answers: Answers) -> Answers:
    return {"supply_limit": f"{VOLTS_AC[-1].limit(VOLTS_AC[-1].full_scale):.1f} V"}


def _says(name: str, word: str) -> Callable[[Notes, Answers], Answers]:
    return lambda _notes, _answers: {name: word}


def _low_input(notes: Notes, _answers: Answers) -> Answers:
    return {"wire_volts": f"{notes.wire_low.value:.3f} V"}


def _both(rule: Callable[[float, float], float]) -> Callable[[Notes, Answers], Answers]:
    return lambda notes, _answers: {"both_limits": f"{rule(notes.supply.limit, notes.old.limit):.2f} V"}


def _times(name: str, factor: float) -> Callable[[Notes, Answers], Answers]:
    return lambda notes, _answers: {name: _volts(factor * notes.supply.value)}


def _rated(notes: Notes, _answers: Answers) -> Answers:
    return {"supply_volts": _volts(notes.rated), "peak_volts": _volts(ROOT * notes.rated)}


def _by_rating(number: int) -> Callable[[Notes, Answers], Answers]:
    """Takes the meter with the highest category (0) or the most volts (1)."""
    return lambda notes, _a: {"meter": max(notes.meters, key=lambda m: ratings(notes.meters[m])[0][number])}


def _limit_left_out(notes: Notes, answers: Answers) -> Answers:
    changed = {}
    if answers["supply_verdict"] == "cannot tell":
        inside = notes.supply.value >= notes.rated * (1 - PLATE_TOLERANCE)
        changed["supply_verdict"] = "within limits" if inside else "too low"
    if answers["fan"] == "cannot tell":
        inside = abs(notes.fan.value / notes.fan_plate - 1) <= FAN_TOLERANCE
        changed["fan"] = "agrees" if inside else "differs"
    return changed


def _plate_exact(notes: Notes, answers: Answers) -> Answers:
    changed = {}
    if answers["supply_verdict"] == "within limits":
        changed["supply_verdict"] = "too low" if notes.supply.value < notes.rated else "too high"
    if answers["fan"] == "agrees":
        changed["fan"] = "differs"
    return changed


def _beep(notes: Notes, _answers: Answers) -> Answers:
    return {"earth": "good"} if notes.earth.value < BEEPS_BELOW_OHM else {}


def _next_range(step: int) -> Callable[[Notes, Answers], Answers]:
    """Takes the old meter's range one step above the right one (1), or one below it (-1)."""

    def change(notes: Notes, _answers: Answers) -> Answers:
        chosen = pick_range(OLD_METER, notes.supply.value)
        assert chosen is not None
        number = OLD_METER.index(chosen) + step
        if number >= len(OLD_METER):
            return {}
        other = OLD_METER[number]
        return {"old_range": f"{other.full_scale:g} V", "old_digit": f"{other.resolution:g} V"}

    return change


SLIPS: Mapping[str, Callable[[UnitBench], Answers]] = {
    "leads not zeroed": _leads,
    "digits forgotten": _slip(_no_digits),
    "percent of the range": _slip(_of_range),
    "ghost taken for live": _slip(_says("wire", "live")),
    "low input for the high one": _slip(_low_input),
    "limits added": _slip(_both(lambda one, other: one + other)),
    "larger limit alone": _slip(_both(max)),
    "peak for RMS": _slip(_times("supply_volts", ROOT)),
    "RMS for peak": _slip(_times("peak_volts", 1.0)),
    "peak to peak": _slip(_times("peak_volts", 2 * ROOT)),
    "rated for measured": _slip(_rated),
    "category by the volts alone": _slip(_by_rating(1)),
    "volts left out of the rating": _slip(_by_rating(0)),
    "0 V once is dead": _slip(_says("note", NOTHING)),
    "limit left out of the verdict": _slip(_limit_left_out),
    "plate value taken as exact": _slip(_plate_exact),
    "two readings must be equal": _slip(_says("meters", "differ")),
    "a beep is enough": _slip(_beep),
    "fan read in place": _in_place,
    "range higher than needed": _slip(_next_range(1)),
    "range below the reading": _slip(_next_range(-1)),
}
