"""Slips in what is heard and read under power: times, watts, amps and what is worked out from them."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product

from coldwright.appliance.unit_faults import FaultName
from coldwright.labs.overloads.amps import average_of, shells, spans, starts, watts
from coldwright.labs.overloads.case import Case
from coldwright.labs.overloads.sheet import SHEET_C
from coldwright.labs.question import Misconception
from coldwright.quantities.constants import ICE_POINT_K

SHEET_K = ICE_POINT_K + SHEET_C


def fahrenheit(kelvin: float) -> float:
    """A temperature in degrees Fahrenheit [°F].

    Parameters
    ----------
    kelvin : float
        The temperature [K]
    """
    return (kelvin - ICE_POINT_K) * 9 / 5 + 32


def each(values: Iterable[float]) -> tuple[float, ...]:
    """Every value once, in order.

    Parameters
    ----------
    values : iterable of float
        Values [any]
    """
    return tuple(dict.fromkeys(values))


def _other_span(case: Case, name: str) -> tuple[float, ...]:
    on, off = spans(case)
    return each(seconds for seconds, _ in (off if name == "on_seconds" else on))


def _clicks(case: Case) -> bool:
    on, off = spans(case)
    return bool(on and off)


def _hum_watts(case: Case, _name: str) -> tuple[float, ...] | None:
    return each(value for value, _ in watts(case, on=True)) if _clicks(case) else None


def _shares_swapped(case: Case, _name: str) -> tuple[float, ...] | None:
    if not _clicks(case):
        return None
    terms = product(watts(case, on=True), watts(case, on=False), *spans(case))
    return each(average_of(off_w, on_w, on_s, off_s) for (on_w, _), (off_w, _), (on_s, _), (off_s, _) in terms)


def _running(case: Case, _name: str) -> tuple[float, ...] | None:
    if case.truth.running_a is None or case.truth.heard.clicked or case.fault is FaultName.OVERLOAD_OPEN:
        return None
    return each(t.display.value for t in case.running_amps) or (case.truth.running_a,)


def _not_squared(case: Case, _name: str) -> tuple[float, ...] | None:
    if case.fault is FaultName.OVERLOAD_OPEN:
        return None
    sheet = case.data_sheet
    return each(sheet.seconds * sheet.amps / amps for amps, _ in starts(case))


def _upside_down(case: Case, _name: str) -> tuple[float, ...] | None:
    if case.fault is FaultName.OVERLOAD_OPEN:
        return None
    sheet = case.data_sheet
    return each(sheet.seconds * (amps / sheet.amps) ** 2 for amps, _ in starts(case))


def _around(case: Case) -> list[tuple[float, float]]:
    """Temperature of the room, and round the overload, as the thermometer showed them or as they were [K]."""
    rooms = [t.display.value for t in case.sheet.readings("temperature", "room")] or [case.unit.room_k]
    read = [t.display.value for t in case.shell_on_arrival] or [shell for shell, _ in shells(case)]
    return [(room, case.data_sheet.around(shell, room)) for shell, room in product(read, rooms)]


def _no_root(case: Case, _name: str) -> tuple[float, ...]:
    sheet = case.data_sheet
    return each(sheet.ultimate_a * (sheet.trip_k - k) / (sheet.trip_k - SHEET_K) for _, k in _around(case))


def _room_alone(case: Case, _name: str) -> tuple[float, ...]:
    return each(case.data_sheet.ultimate(room) for room, _ in _around(case))


def _fahrenheit_around(case: Case, _name: str) -> tuple[float, ...]:
    return each(case.data_sheet.ultimate(ICE_POINT_K + fahrenheit(k)) for _, k in _around(case))


LIVE = (
    Misconception(
        "times swapped",
        ("on_seconds", "off_seconds"),
        "You took one time for the other: it is on while it hums or runs, and off while the overload cools down.",
        _other_span,
    ),
    Misconception(
        "watts while on for the average",
        ("average_watts",),
        "You gave the watts while it is on: in the pauses it takes next to none, so weigh both by their seconds.",
        _hum_watts,
    ),
    Misconception(
        "on and off swapped in the average",
        ("average_watts",),
        "You weighed the watts while on by the seconds off: each goes with its own seconds.",
        _shares_swapped,
    ),
    Misconception(
        "running amps for starting amps",
        ("start_amps",),
        "You read the amps while it runs: the amps at the start are gone in a blink, so put the clamp on hold.",
        _running,
    ),
    Misconception(
        "trip time without the square",
        ("trip_estimate",),
        "You took the time as amps over amps: heat goes with amps squared, so square that ratio.",
        _not_squared,
    ),
    Misconception(
        "trip time upside down",
        ("trip_estimate",),
        "You turned the ratio over: less current heats less, so it takes longer than on the sheet.",
        _upside_down,
    ),
    Misconception(
        "square root forgotten",
        ("ultimate_amps",),
        "You left out the square root: the warmth that is left goes with amps squared.",
        _no_root,
    ),
    Misconception(
        "room alone",
        ("ultimate_amps",),
        "You took the room's temperature alone: the overload sits on the hot shell, so mix both by their shares.",
        _room_alone,
    ),
    Misconception(
        "degrees Fahrenheit round the overload",
        ("ultimate_amps",),
        "You put degrees Fahrenheit beside the sheet's degrees Celsius: change them to °C first.",
        _fahrenheit_around,
    ),
)
