"""What is right for the answers about amps and watts: on average, at the start, to trip, and at the least to trip."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import product

from coldwright.appliance.unit_faults import FaultName
from coldwright.bench.unit_acts import UnitTaken
from coldwright.instruments.clamp import limit_of_clamp
from coldwright.instruments.power_meter import Quantity, limit_of_power_meter
from coldwright.instruments.thermometer import limit_of_temperature
from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.heard import ROUNDED_S, middle
from coldwright.labs.question import Expected, Solution
from coldwright.quantities import Kind, show
from coldwright.quantities.constants import ICE_POINT_K

NO_CLICK = "no click"
NOT_DONE = "not done: grounded"  # who finds the winding grounded gives it no power any more
BEFORE_FOUND = "Found grounded, it gets no power any more. Read before that: "
Number = tuple[float, float]


def spread(formula: Callable[..., float], *given: Number) -> Number:
    """Result of a formula, and how far it moves at most when its terms move within their limits.

    Parameters
    ----------
    formula : callable
        Takes one number for each term [-]
    *given : tuple of float
        Value and limit of each term [any]
    """
    value = formula(*(term for term, _ in given))
    corners = product(*((term - limit, term + limit) for term, limit in given))
    return value, max(abs(formula(*corner) - value) for corner in corners)


def shown(taken: Sequence[UnitTaken]) -> list[Number]:
    """What readings showed, each with what the instrument allows and one digit more; nothing twice.

    Parameters
    ----------
    taken : sequence of UnitTaken
        Readings [-]
    """
    return list(dict.fromkeys((t.display.value, t.display.limit + t.display.resolution) for t in taken))


def average_of(on_w: float, off_w: float, on_s: float, off_s: float) -> float:
    """Average watts over power on and power off [W].

    Parameters
    ----------
    on_w, off_w : float
        Watts with and without power on the compressor [W]
    on_s, off_s : float
        How long each lasts [s]
    """
    return (on_w * max(0.0, on_s) + off_w * off_s) / (max(0.0, on_s) + off_s)


def watts(case: Case, on: bool) -> list[Number]:
    """Watts with, or without, power on the compressor: as read, or as they would be.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    on : bool
        Whether the compressor has power [-]
    """
    read = shown(case.watts(on))
    if read:
        return read
    true = case.truth.watts_on if on else case.truth.watts_off
    return [(true, sum(limit_of_power_meter(Quantity.WATTS, true)))]


def spans(case: Case) -> tuple[list[Number], list[Number]]:
    """Seconds on and off from click to click: as heard, or the middle ones of a quarter of an hour; empty for none.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    true = case.truth.heard
    on, off = case.heard.on or middle(true.on), case.heard.off or middle(true.off)
    return [(s, ROUNDED_S) for s in on], [(s, ROUNDED_S) for s in off]


def average(case: Case) -> Solution:
    """Average watts of the whole unit over clicks.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    on_s, off_s = spans(case)
    if not (on_s and off_s):
        numbers = watts(case, on="stays silent" not in case.truth.heard.words)
        return Solution(
            Expected(numbers=tuple(numbers)), f"It does not click, so this is what shows: {numbers[-1][0]:.0f} W."
        )
    terms = list(product(watts(case, on=True), watts(case, on=False), on_s, off_s))
    numbers = [spread(average_of, *each) for each in terms]
    (on_w, _), (off_w, _), (on, _), (off, _) = terms[-1]
    reason = (
        f"({on_w:.0f} W × {on:.0f} s + {off_w:.0f} W × {off:.0f} s) / {on + off:.0f} s = {numbers[-1][0]:.0f} W; "
        f"on for {100 * on / (on + off):.0f} % of the time."
    )
    return Solution(Expected(numbers=tuple(dict.fromkeys(numbers))), reason)


def starts(case: Case) -> list[Number]:
    """Amps at the start: as read, or as they would be.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    read = shown(case.start_amps)
    return read or [(case.truth.start_a, sum(limit_of_clamp(case.truth.start_a)))]


def start(case: Case) -> Solution:
    """Amps at the start.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    numbers, words = tuple(starts(case)), _left_out(case)
    plate = case.unit.plate.locked_a
    if case.fault is FaultName.OVERLOAD_OPEN:
        return Solution(Expected(numbers=numbers), "The path is open at the overload, so the clamp shows nothing.")
    share = f"{100 * numbers[-1][0] / plate:.0f} % of the plate's locked-rotor amps, {plate:.0f} A"
    reason = f"{BEFORE_FOUND if words else ''}The clamp shows {numbers[-1][0]:.2f} A: {share}."
    return Solution(Expected(numbers=numbers, words=words), reason)


def _left_out(case: Case) -> tuple[str, ...]:
    """What may stand for amps that were not read, as the winding was found grounded first."""
    return (NOT_DONE,) if case.fault is FaultName.GROUNDED and not case.start_amps else ()


def trip(case: Case) -> Solution:
    """Time to trip from cold at the amps of the start, by the rule of I²t.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if case.fault is FaultName.OVERLOAD_OPEN:
        return Solution(Expected(words=(NO_CLICK,)), "No current flows, so nothing heats the overload.")
    sheet = case.data_sheet
    numbers = tuple(spread(sheet.trip_estimate, amps) for amps in starts(case))
    amps = starts(case)[-1][0]
    reason = f"{sheet.seconds:.1f} s × ({sheet.amps:.0f} A / {amps:.2f} A)² = {numbers[-1][0]:.1f} s."
    words = _left_out(case)
    return Solution(Expected(numbers=numbers, words=words), f"{BEFORE_FOUND if words else ''}{reason}")


def shells(case: Case) -> list[Number]:
    """Temperatures of the shell as it came in: where it was read, or on arrival [K].

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    off = sum(limit_of_temperature())
    read = list(dict.fromkeys(t.state.shell_k for t in case.shell_on_arrival))
    return [(k, off) for k in read or [case.unit.arrival.shell_k]]


def ultimate(case: Case) -> Solution:
    """Lowest amps that ever open the overload with the shell as warm as it came in.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    sheet, room = case.data_sheet, (case.unit.room_k, sum(limit_of_temperature()))

    def amps(shell_k: float, room_k: float) -> float:
        return sheet.ultimate(sheet.around(shell_k, room_k))

    numbers = [spread(amps, shell, room) for shell in shells(case)]
    value, limit = numbers[-1]
    around_c = sheet.around(shells(case)[-1][0], room[0]) - ICE_POINT_K
    trip_c = sheet.trip_k - ICE_POINT_K
    reason = (
        f"Round it {around_c:.1f} °C; {sheet.ultimate_a:.2f} A × √(({trip_c:.0f} − {around_c:.1f}) / "
        f"({trip_c:.0f} − 25)) = {show(value, Kind.CURRENT)}, ± {show(limit, Kind.CURRENT, digits=2)}."
    )
    return Solution(Expected(numbers=tuple((v, off + 0.01) for v, off in numbers)), reason)
