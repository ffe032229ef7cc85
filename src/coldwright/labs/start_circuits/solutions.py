"""What is right for every answer of one unit, and why, with the numbers of this unit.

A number that was read is right within what the instrument's limit and one digit leave open round what it showed; a
number that is worked out carries these through its formula. Without a reading, what a sound instrument would show.
"""

from __future__ import annotations

from coldwright.appliance.unit_circuit import UnitCircuit
from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_acts import UnitTaken
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.multimeter import VOLTS_AC, Function, limit_of
from coldwright.labs.question import Expected, Solution
from coldwright.labs.start_circuits.case import LINE, OUTLET, PINS, RUNNING, StartCase
from coldwright.labs.start_circuits.devices import KINDS, NO_DEVICE, WHY
from coldwright.labs.start_circuits.economy import best_tests
from coldwright.labs.start_circuits.remedies import FOUND

Reading = tuple[float, float]  # what showed, and what the instrument leaves open
NO_CURRENT_A = 0.05  # below this a winding takes no current worth the name


def kind_of(case: StartCase) -> tuple[str, str, str]:
    """The start device of a unit, what a good one shows at rest, and what lets it go.

    Parameters
    ----------
    case : StartCase
        The unit [-]
    """
    found = case.unit.wiring.of_kind(*KINDS)
    return KINDS[found[0].kind] if found else NO_DEVICE


def solutions(case: StartCase) -> dict[str, Solution]:
    """What is right for every answer, with reasons.

    Parameters
    ----------
    case : StartCase
        The unit and the readings taken on it [-]
    """
    device, rest, lets_go = kind_of(case)
    part, wrong, _ = FOUND[case.fault]
    why = WHY[device]
    return {
        "at_rest": _word(rest, why),
        "lets_go": _word(lets_go, why),
        "found_amps": _found(case),
        "part": _word(part, _diagnosis(case)),
        "wrong": _word(wrong, _diagnosis(case)),
        "remedy": _word(remedy_of(case), _remedy_reason(case)),
        **{name: _start(case, name) for name in PINS},
        **{name: _running(case, name) for name in RUNNING},
        "source_ohm": _source(case),
        "supply": _supply(case),
    }


def remedy_of(case: StartCase) -> str:
    """What puts the unit right, as the lab words it.

    Parameters
    ----------
    case : StartCase
        The unit [-]
    """
    if case.component:
        return f"new {case.component}" if case.fault is not FaultName.RELAY_UPSIDE_DOWN else "relay upright"
    part = FOUND[case.fault][0]
    return {"none": "nothing", "supply": "put the supply right"}.get(part, "new compressor")


def amps_read(readings: list[UnitTaken], true_a: float | None) -> tuple[Reading, ...]:
    """Amps that are right, each with its tolerance: what was read, or what a sound clamp would show.

    Parameters
    ----------
    readings : list
        Readings on the sheet [-]
    true_a : float, optional
        True amps, where there is no reading [A]
    """
    found = tuple((t.display.value, t.display.limit + t.display.resolution) for t in readings)
    return found if found or true_a is None else ((true_a, sum(limit_of_clamp(true_a))),)


def _word(word: str, reason: str) -> Solution:
    return Solution(Expected(words=(word,)), reason)


def found_amps(case: StartCase) -> tuple[Reading, ...]:
    """Start amps of one wire of the cord, as found.

    Parameters
    ----------
    case : StartCase
        The unit and its readings [-]
    """
    readings = case.found("inrush", LINE)
    return amps_read(readings, None if readings else case.start_amps(case.unit.parts, LINE))


def _found(case: StartCase) -> Solution:
    numbers = found_amps(case)
    plate = case.unit.plate
    reason = (
        f"The clamp goes round one wire. It kept {numbers[0][0]:.2f} A; the plate says {plate.locked_a:.0f} A with the "
        f"rotor locked and {plate.running_a:.1f} A running. Round the whole cord both currents cancel."
    )
    return Solution(Expected(numbers), reason)


def start_amps(case: StartCase, name: str) -> tuple[Reading, ...]:
    """Start amps at a pin, as the unit is left.

    Parameters
    ----------
    case : StartCase
        The unit and its readings [-]
    name : str
        Name of the answer [-]
    """
    readings = case.left("inrush", PINS[name])
    return amps_read(readings, None if readings else case.start_amps(case.right_parts, PINS[name]))


def _start(case: StartCase, name: str) -> Solution:
    run, start, common = (start_amps(case, each)[-1][0] for each in PINS)
    reason = (
        f"At start the run winding takes {run:.2f} A and the start winding {start:.2f} A. They do not peak together: "
        f"pin C carries {common:.2f} A and not their plain sum, {run + start:.2f} A."
    )
    if start < NO_CURRENT_A:
        reason = "The start winding gets no current, so pin C carries what the run winding does."
    return Solution(Expected(start_amps(case, name)), reason)


def _running(case: StartCase, name: str) -> Solution:
    readings = case.running(RUNNING[name])
    words = () if case.runs else ("does not run",)
    if readings or not case.runs:
        reason = (
            f"The clamp showed {readings[-1].display.value:.3f} A." if readings else "It does not run as you leave it."
        )
        return Solution(Expected(amps_read(readings, None), words, sum(limit_of_clamp(1.0))), reason)
    amps = _running_truth(case, RUNNING[name])
    reason = "The start device has let go" if name == "running_start" else "Up to speed it takes far less than at start"
    return Solution(Expected(amps_read([], amps)), f"{reason}: {amps:.3f} A.")


def _running_truth(case: StartCase, wire: str) -> float:
    return UnitCircuit(case.unit.wiring, case.right_parts, case.settled.state).ac_current(wire)


def sags(case: StartCase) -> list[tuple[float, float]]:
    """Volts at rest and lowest volts at a start, of every pair of readings; true ones where there is none.

    Parameters
    ----------
    case : StartCase
        The unit and its readings [-]
    """
    rest = [t.display.value for t in case.base.readings("volts ac", *OUTLET, when=lambda t: not t.plugged)]
    low = [t.display.value for t in case.left("lowest volts")]
    if not rest or not low:
        return [(case.unit.parts.supply.volts, case.true_lowest)]
    return [(a, b) for a in rest for b in low]


def sag_limit(rest: float, low: float) -> float:
    """How far off a sag can be that one meter showed on one range [V].

    The share of the reading is the same for both and falls on the difference; the digits are counted once, and one
    digit more for rounding.

    Parameters
    ----------
    rest, low : float
        The two readings [V]
    """
    chosen = next(r for r in VOLTS_AC if rest < r.full_scale)
    _, digit = limit_of(Function.VOLTS_AC, rest)
    return abs(rest - low) * chosen.percent / 100 + (chosen.digits + 1) * digit


def line_amps(case: StartCase) -> tuple[Reading, ...]:
    """Start amps of the cord as the unit is left: what the sag belongs to.

    Parameters
    ----------
    case : StartCase
        The unit and its readings [-]
    """
    readings = case.left("inrush", LINE)
    return amps_read(readings, None if readings else case.start_amps(case.right_parts, LINE))


def _source(case: StartCase) -> Solution:
    numbers = []
    for rest, low in sags(case):
        limit = sag_limit(rest, low)
        if rest - low <= limit:
            return _no_sag(case, rest, low)
        for amps, open_a in line_amps(case):
            ohm = (rest - low) / amps
            numbers.append((ohm, limit / amps + ohm * open_a / amps))
    rest, low = sags(case)[-1]
    amps = line_amps(case)[-1][0]
    reason = (
        f"The volts fall from {rest:.1f} V to {low:.1f} V while {amps:.2f} A flow: {rest - low:.1f} V / {amps:.2f} A. "
        "Since the current lags, the wiring has more than that, often a tenth to a third."
    )
    return Solution(Expected(tuple(numbers)), reason)


def _no_sag(case: StartCase, rest: float, low: float) -> Solution:
    """No dip to be told: a word is right; a number given all the same is a slip within what the instruments leave."""
    amps, open_a = line_amps(case)[-1]
    tolerance = (sag_limit(rest, low) + rest * open_a / amps) / amps if amps > 0 else 0.0
    reason = f"The volts fall by {rest - low:.1f} V, which the meter cannot tell from nothing."
    return Solution(Expected(words=("cannot tell",), slip_tolerance=tolerance), reason)


def _supply(case: StartCase) -> Solution:
    rest, low = sags(case)[-1]
    plate = case.unit.cooler.volts
    if case.fault is FaultName.LOW_SUPPLY:
        return _word("too low", f"At rest, with nothing plugged in, the outlet has {rest:.0f} V, not {plate:.0f} V.")
    return _word(
        "in order", f"At rest it has {rest:.0f} V; a dip to {low:.0f} V while a motor starts is as it should be."
    )


def _diagnosis(case: StartCase) -> str:
    part, wrong, _ = FOUND[case.fault]
    found = f"it is the {part}: {wrong}" if part != "none" else "no part has failed"
    best = best_tests(case.unit.cooler.model, case.fault)
    steps = "; then ".join(test.words for test in best) or "none beyond looking, listening and the start amps"
    return f"Here {found}. The best next tests were: {steps}."


def _remedy_reason(case: StartCase) -> str:
    if case.component:
        return f"The {case.component} is what failed; after it, prove earth, insulation and polarity, and see it start."
    return (
        "No part on this bench would mend it." if FOUND[case.fault][0] != "none" else "Nothing has failed: fit nothing."
    )
