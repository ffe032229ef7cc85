"""What a wrong use of an instrument does, and which measurement category a place asks for.

The category says how hard a short, high pulse on the mains may hit the meter. The nearer to where the supply comes in,
the harder. Categories are those of IEC/EN 61010-1, 6.7.4, read as quoted in instrument manuals; the present edition has
no category I any more (from memory).
"""

from __future__ import annotations

import re
from enum import Enum

from coldwright.errors import InputError


class MeterEvent(Enum):
    """What a measurement did besides showing digits."""

    OHMS_ON_LIVE = "ohms on a live circuit"
    OHMS_ON_CHARGED = "ohms on a charged capacitor"
    CONTINUITY_ON_LIVE = "continuity on a live circuit"
    CONTINUITY_ON_CHARGED = "continuity on a charged capacitor"
    CAPACITANCE_ON_LIVE = "capacitance on a live circuit"
    CAPACITANCE_ON_CHARGED = "capacitance on a charged capacitor"
    FUSE_BLOWN = "current input across a voltage, fuse blown"
    RUINED = "meter ruined"
    INSULATION_ON_LIVE = "insulation test on a live circuit"
    INSULATION_ON_ELECTRONICS = "insulation test with electronics connected"
    INSULATION_UNDER_VACUUM = "insulation test under vacuum"


CONSEQUENCES = {
    MeterEvent.OHMS_ON_LIVE: "The number means nothing. You and the meter are at risk. Pull the plug, prove it dead.",
    MeterEvent.OHMS_ON_CHARGED: "The number means nothing and the meter is at risk. Discharge, then measure.",
    MeterEvent.CONTINUITY_ON_LIVE: "No beep, although the path may be whole. Pull the plug, prove it dead.",
    MeterEvent.CONTINUITY_ON_CHARGED: "No beep, although the path may be whole. Discharge, then measure.",
    MeterEvent.CAPACITANCE_ON_LIVE: "The meter refuses; a high voltage ruins it. Pull the plug, prove it dead.",
    MeterEvent.CAPACITANCE_ON_CHARGED: "The meter refuses; a high voltage ruins it. Discharge, then measure.",
    MeterEvent.FUSE_BLOWN: "The current input is nearly a short circuit. Its fuse blew. Fit one of the same rating.",
    MeterEvent.RUINED: "More voltage than this input stands. The meter shows dashes from now on. Take another.",
    MeterEvent.INSULATION_ON_LIVE: "No test can be made. Pull the plug, prove it dead, discharge.",
    MeterEvent.INSULATION_ON_ELECTRONICS: "500 V ruins a board. Take the board off first.",
    MeterEvent.INSULATION_UNDER_VACUUM: "500 V flashes over inside the shell and burns the winding. Break the vacuum.",
}


def before_insulation_test(is_live: bool, has_electronics: bool, under_vacuum: bool) -> tuple[MeterEvent, ...]:
    """What an insulation test would do now; nothing if it may be made.

    Parameters
    ----------
    is_live : bool
        Whether the unit is plugged in or charged [-]
    has_electronics : bool
        Whether a board is joined to what is tested [-]
    under_vacuum : bool
        Whether the shell is under vacuum [-]
    """
    found = (
        (under_vacuum, MeterEvent.INSULATION_UNDER_VACUUM),
        (is_live, MeterEvent.INSULATION_ON_LIVE),
        (has_electronics, MeterEvent.INSULATION_ON_ELECTRONICS),
    )
    return tuple(event for is_so, event in found if is_so)


class Place(Enum):
    """Where one measures; the value says it in words."""

    SOURCE = "where the supply comes in: electricity meter, main fuse"
    DISTRIBUTION_BOARD = "distribution board and circuit breakers"
    WALL_OUTLET = "wall outlet and fixed wiring"
    FIXED_MOTOR = "motor wired to the building for good"
    APPLIANCE = "inside an appliance with a plug, such as a plug-in cooler"
    NOT_MAINS = "circuit that is not joined to the mains"


CATEGORY_OF = {
    Place.SOURCE: 4,
    Place.DISTRIBUTION_BOARD: 3,
    Place.WALL_OUTLET: 3,
    Place.FIXED_MOTOR: 3,
    Place.APPLIANCE: 2,
    Place.NOT_MAINS: 0,
}
NUMERALS = {"I": 1, "II": 2, "III": 3, "IV": 4}
RATING = re.compile(r"CAT ?(IV|III|II|I) \(?(\d+) ?V\)?")


def _numeral(number: int) -> str:
    return next(text for text, n in NUMERALS.items() if n == number)


def ratings(category: str) -> tuple[tuple[int, float], ...]:
    """Category and volts of each rating printed on an instrument [V].

    Parameters
    ----------
    category : str
        What is printed beside the inputs, such as "CAT III 600 V" or "CAT II 1000 V / CAT III 600 V" [-]

    Raises
    ------
    InputError
        If it is no such rating.
    """
    found = []
    for part in re.split(r"[/,]", category):
        match = RATING.fullmatch(part.strip())
        if match is None:
            raise InputError(f"the rating {category!r} cannot be read; it must look like 'CAT III 600 V'")
        found.append((NUMERALS[match[1]], float(match[2])))
    return tuple(found)


def category_fault(place: Place, volts: float, category: str) -> str:
    """Why an instrument must not be used at a place; empty if it may.

    Parameters
    ----------
    place : Place
        Where one measures [-]
    volts : float
        Voltage of the mains there to earth, RMS, or of the circuit, zero or more [V]
    category : str
        What is printed on the instrument [-]

    Raises
    ------
    InputError
        If the voltage is below zero or the rating cannot be read.
    """
    if not volts >= 0:
        raise InputError(f"the voltage at the place is {volts:g} V; it must be zero or more")
    needed, printed = CATEGORY_OF[place], ratings(category)
    reach = [rated for number, rated in printed if number >= needed]
    if not reach:
        return f"{place.value}: CAT {_numeral(needed)} or higher is asked for; printed on the instrument: {category}"
    if volts > max(reach):
        return f"{volts:g} V is more than the {max(reach):g} V that the instrument stands there"
    return ""


def category_suits(place: Place, volts: float, category: str) -> bool:
    """Whether an instrument may be used at a place.

    Parameters
    ----------
    place : Place
        Where one measures [-]
    volts : float
        Voltage of the mains there to earth, RMS, or of the circuit, zero or more [V]
    category : str
        What is printed on the instrument, such as "CAT III 600 V" [-]

    Raises
    ------
    InputError
        If the voltage is below zero or the rating cannot be read.
    """
    return category_fault(place, volts, category) == ""
