"""What is right for every answer of one case, and why, with the numbers of its unit.

Limits are those of the instruments and of what they showed, with one digit more where a reading is given.
"""

from __future__ import annotations

import math

from coldwright.electrical.measured import Measured
from coldwright.instruments.display import pick_range
from coldwright.instruments.meter_ranges import INPUT_OHM, LOW_INPUT_OHM, VOLTS_AC, Function, limit_of, limit_of_ohms
from coldwright.instruments.misuse import category_fault
from coldwright.labs.question import Expected, Solution
from coldwright.labs.safe_isolation.case import Case
from coldwright.labs.safe_isolation.compare import Against, against_plate, readings_agree
from coldwright.labs.safe_isolation.unit import (
    FAN_TOLERANCE,
    NOTE_STEPS,
    NOTHING,
    OLD_METER,
    PLATE_TOLERANCE,
    old_reading,
)
from coldwright.labs.unit_case import EARTHED_BELOW_OHM
from coldwright.quantities import Kind, show

METER_PERCENT, METER_DIGITS = VOLTS_AC[-1].percent, VOLTS_AC[-1].digits
DIGIT_AND_ROUNDING = 1.1  # a limit is given to the digits that the meter shows


def solutions(case: Case) -> dict[str, Solution]:
    """What is right for every answer of one case, with reasons.

    Parameters
    ----------
    case : Case
        The unit and the readings taken on it [-]
    """
    return {
        "supply_volts": _supply_volts(case),
        "supply_limit": _supply_limit(case),
        "supply_verdict": _supply_verdict(case),
        **_old_range(case),
        "meter": _meter(case),
        **_two_meters(case),
        "peak_volts": _peak(case),
        **_wire(case),
        **_earth(case),
        **_fan(case),
        "note": _note(case),
    }


def read_within(function: Function, value: float) -> float:
    """How far off a reading of this meter may be: its limit and one digit [unit of the function].

    Parameters
    ----------
    function : Function
        What the dial is set to [-]
    value : float
        True value, in SI [unit of the function]
    """
    return sum(limit_of(function, value))


def fan_word(reading: Measured, plate: float) -> str:
    """Whether a reading of the fan agrees with its plate, in the word of the answer.

    Parameters
    ----------
    reading : Measured
        The reading with its limit [Ω]
    plate : float
        What the maker gives [Ω]
    """
    found = against_plate(reading, plate, FAN_TOLERANCE)
    return {Against.WITHIN: "agrees", Against.CANNOT_TELL: "cannot tell"}.get(found, "differs")


def _ohms(value: float, digits: int = 4) -> str:
    return show(value, Kind.RESISTANCE, "Ω", digits)


def _supply_volts(case: Case) -> Solution:
    numbers = tuple((volts, read_within(Function.VOLTS_AC, volts)) for volts in case.supply_volts)
    shown, limit, _ = case.supply_shown[-1]
    return Solution(Expected(numbers=numbers), f"From live to neutral the meter shows {shown:.1f} V, ±{limit:.1f} V.")


def _supply_limit(case: Case) -> Solution:
    shown, limit, digit = case.supply_shown[-1]
    numbers = tuple((off, DIGIT_AND_ROUNDING * one) for _, off, one in case.supply_shown)
    reason = (
        f"{METER_PERCENT:g} % of {shown:.1f} V is {shown * METER_PERCENT / 100:.2f} V, and {METER_DIGITS} digits of "
        f"{digit:g} V are {METER_DIGITS * digit:.1f} V: together ±{limit:.2f} V."
    )
    return Solution(Expected(numbers=numbers), reason)


def _supply_verdict(case: Case) -> Solution:
    words = tuple(
        against_plate(Measured(shown, limit), case.rated_volts, PLATE_TOLERANCE).value
        for shown, limit, _ in case.supply_shown
    )
    shown, limit, _ = case.supply_shown[-1]
    low, high = (case.rated_volts * (1 + side * PLATE_TOLERANCE) for side in (-1, 1))
    reason = (
        f"The plate allows {low:.0f} V to {high:.0f} V. With its ± the reading means {shown - limit:.1f} V to "
        f"{shown + limit:.1f} V: {words[-1]}."
    )
    return Solution(Expected(words=tuple(dict.fromkeys(words))), reason)


def _old_range(case: Case) -> dict[str, Solution]:
    chosen = [pick_range(OLD_METER, shown) for shown, _, _ in case.supply_shown]
    found = {r.full_scale: r.resolution for r in chosen if r is not None}
    full, digit = next(iter(found.items()))
    reason = f"{case.supply_shown[-1][0]:.1f} V needs a range that goes higher, and {full:g} V is the lowest that does"
    return {
        "old_range": Solution(Expected(words=tuple(f"{each:g} V" for each in found)), f"{reason}."),
        "old_digit": Solution(
            Expected(numbers=tuple((each, 0.0) for each in found.values())),
            f"{reason}; its last digit is one step of {digit:g} V.",
        ),
    }


def _meter(case: Case) -> Solution:
    job, volts = case.job, case.rated_volts
    right = tuple(letter for letter in job.lettered if job.suits(letter))
    wrong = [f"{letter}: {category_fault(job.place, volts, job.lettered[letter])}" for letter in job.lettered]
    reason = f"Meter {right[0]} stands it. Not the others. " + ". ".join(w for w in wrong if w[0] not in right)
    return Solution(Expected(words=right), f"{reason}.")


def _two_meters(case: Case) -> dict[str, Solution]:
    old, old_limit, _ = old_reading(case.job.old_volts)
    numbers, words = [], []
    for shown, limit, digit in case.supply_shown:
        numbers.append((math.hypot(limit, old_limit), DIGIT_AND_ROUNDING * digit))
        agree = readings_agree(Measured(shown, limit), Measured(old, old_limit))
        words += ["agree", "differ"] if agree is None else ["agree" if agree else "differ"]
    shown, limit, _ = case.supply_shown[-1]
    both = numbers[-1][0]
    root = f"√({limit:.2f}² + {old_limit:.2f}²) = {both:.2f} V"
    than = "no more" if abs(shown - old) <= both else "more"
    return {
        "both_limits": Solution(Expected(numbers=tuple(numbers)), f"The root of the sum of squares: {root}."),
        "meters": Solution(
            Expected(words=tuple(dict.fromkeys(words))),
            f"They are {abs(shown - old):.1f} V apart, {than} than both limits together allow: {root}.",
        ),
    }


def _peak(case: Case) -> Solution:
    root = math.sqrt(2)
    numbers = tuple((root * v, root * read_within(Function.VOLTS_AC, v)) for v in case.supply_volts)
    shown = case.supply_shown[-1][0]
    return Solution(Expected(numbers=numbers), f"The meter shows RMS: {shown:.1f} V × 1.414 = {shown * root:.0f} V.")


def _wire(case: Case) -> dict[str, Solution]:
    high, low = case.wire_volts[-1], case.wire_low_volts
    numbers = tuple((volts, read_within(Function.VOLTS_AC, volts)) for volts in case.wire_volts)
    inputs = f"On the {INPUT_OHM / 1e6:.0f} MΩ input it reads {high:.0f} V, on the {LOW_INPUT_OHM / 1e3:.0f} kΩ input"
    if case.wire_is_live:
        reason = f"{inputs} about the same, {low:.0f} V. A ghost would break down: the wire is live."
    else:
        reason = f"{inputs} {low:.2f} V. It breaks down: a ghost, picked up from the wires beside it."
    return {
        "wire_volts": Solution(Expected(numbers=numbers), reason),
        "wire": Solution(Expected(words=("live" if case.wire_is_live else "ghost",)), reason),
    }


def _earth(case: Case) -> dict[str, Solution]:
    ohm, limit = case.earth_ohm, f"up to {EARTHED_BELOW_OHM:g} Ω counts as good here"
    word = case.job.earth
    if math.isinf(ohm):
        expected = Expected(words=("OL",))
        reason = "From the earth pin to the metal the meter shows OL: there is no earth path."
    else:
        tolerance = sum(limit_of_ohms(ohm, case.base.lead_ohm))
        expected = Expected(numbers=((ohm, tolerance),))
        reason = f"With the leads zeroed the earth path reads {_ohms(ohm, 3)}; {limit}."
    return {"earth_ohm": Solution(expected, reason), "earth": Solution(Expected(words=(word,)), reason)}


def _fan(case: Case) -> dict[str, Solution]:
    plate, ohm = case.job.fan_plate_ohm, case.fan_ohm
    shown = [t.display.measured for t in case.fan_readings if t.zeroed] or [
        Measured(ohm, limit_of_ohms(ohm, case.base.lead_ohm)[0])
    ]
    low, high = plate * (1 - FAN_TOLERANCE), plate * (1 + FAN_TOLERANCE)
    reason = (
        f"The maker allows {_ohms(low)} to {_ohms(high)}. The reading, {_ohms(shown[-1].value)}, means "
        f"{_ohms(shown[-1].value - shown[-1].limit)} to {_ohms(shown[-1].value + shown[-1].limit)}."
    )
    right = tuple(dict.fromkeys(fan_word(reading, plate) for reading in shown))
    tolerance = sum(limit_of_ohms(ohm, case.base.lead_ohm))
    return {
        "fan_ohm": Solution(
            Expected(numbers=((ohm, tolerance),)), f"Taken off, the fan reads {_ohms(shown[-1].value)}."
        ),
        "fan": Solution(Expected(words=right), reason),
    }


def _note(case: Case) -> Solution:
    lacks = case.job.lacks
    if lacks == NOTHING:
        return Solution(Expected(words=(NOTHING,)), "The note has it all: live source, three pairs, live source again.")
    return Solution(Expected(words=(lacks,)), f'The note does not have this: "{NOTE_STEPS[lacks]}"')
