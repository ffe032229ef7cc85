"""Which readings prove what is wrong with a cooler, fault by fault, and what else tells that a repair was made."""

from __future__ import annotations

import math
from collections.abc import Callable

from coldwright.appliance.drive import drive_of
from coldwright.appliance.unit_faults import FaultName
from coldwright.appliance.wiring import ComponentKind
from coldwright.bench.unit_acts import METAL, UnitTaken
from coldwright.labs.overloads.case import Case
from coldwright.labs.unit_case import VOLTS_AC

PINS = ("pin C", "pin R", "pin S")
POWERS = ("plug in", "inrush", "lowest volts")
CONTACT = ("relay 1", "relay 3")
LONG_ENOUGH = 5  # times two minutes without a click: longer than any overload here stays as it is


def listened(case: Case) -> bool:
    """Whether the sheet tells how long it is on and off, or that it does not click.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    if case.truth.heard.clicked or case.heard.clicked:
        return bool(case.heard.on and case.heard.off)
    return len(case.listened) >= LONG_ENOUGH


def proves(case: Case) -> bool:
    """Whether the readings stand on the sheet that tell what is wrong with this unit.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    return _PROVES[case.fault](case)


def repaired(case: Case) -> bool:
    """Whether what failed was fitted new, and nothing else, and a new part was tried.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    wanted = _part(case)
    if {name for name, _ in case.sheet.fitted} != {wanted} - {""}:
        return False
    last = case.sheet.last(("fit", "put back")) or 0
    tried = any(line.n > last and line.act in POWERS and not line.hazards for line in case.sheet.lines)
    return tried or not wanted


def stayed_dead(case: Case) -> bool:
    """Whether a compressor that was found grounded got no power from then on.

    Parameters
    ----------
    case : Case
        The unit and its job sheet [-]
    """
    found = case.found_grounded
    return found is not None and not any(line.n > found and line.act in POWERS for line in case.sheet.lines)


def _part(case: Case) -> str:
    """Component that a new one puts right; "" where none on this bench does."""
    if case.fault in (FaultName.OVERLOAD_OPEN, FaultName.OVERLOAD_WEAK, FaultName.OVERLOAD_WRONG):
        return "overload"
    if case.fault in (FaultName.RELAY_STUCK_OPEN, FaultName.RELAY_WELDED, FaultName.PTC_OPEN):
        return case.device
    fans = (FaultName.CONDENSER_FAN_OPEN, FaultName.CONDENSER_FAN_SEIZED)
    return "condenser fan" if case.fault in fans else ""


# ------------------------------------------------------------------- readings


def _supply(case: Case) -> bool:
    return any(case.sheet.has(act, "outlet L", "outlet N") for act in VOLTS_AC)


def _insulation(case: Case) -> bool:
    return any(case.old("insulation", pin, metal) for pin in PINS for metal in METAL)


def _start_winding(case: Case, is_open: bool) -> bool:
    return _path(case, ("pin C", "pin S"), is_open)


def _contact(case: Case, is_open: bool) -> bool:
    return _path(case, CONTACT, is_open, apart="relay")


def _path(case: Case, ends: tuple[str, str], is_open: bool, apart: str = "") -> bool:
    """Whether the meter showed a path, or none, between two terminals; with a part off the unit."""

    def fits(taken: UnitTaken) -> bool:
        return (not apart or apart in taken.state.removed) and math.isinf(taken.display.value) is is_open

    return any(case.old(act, *ends, when=fits) for act in ("ohms", "continuity"))


def _start_test(case: Case, words: str) -> bool:
    return any(t.display.text.startswith(words) for t in case.old("start test"))


def _fan_looked_at(case: Case) -> bool:
    """Whether the fan was looked at while the compressor had power."""

    looks = case.old("inspect", "condenser fan")
    return any(taken.plugged and drive_of(case.circuit(taken)).powered for taken in looks)


def _device_free(case: Case) -> bool:
    """Whether the start device was found to let go: a PTC does by its heat, a relay's contact must be open at rest."""
    has_relay = bool(case.unit.wiring.of_kind(ComponentKind.CURRENT_RELAY))
    return not has_relay or _contact(case, is_open=True)


def _ptc_open(case: Case) -> bool:
    return _start_test(case, "starts") or _path(case, ("PTC 1", "PTC 2"), is_open=True, apart="PTC")


def _sound(case: Case) -> bool:
    return listened(case) and _supply(case) and _insulation(case) and _fan_looked_at(case)


def _seized(case: Case) -> bool:
    return _supply(case) and _start_winding(case, is_open=False) and _start_test(case, "does not start")


def _weak(case: Case) -> bool:
    return listened(case) and bool(case.labels) and bool(case.overload_apart) and _device_free(case)


_PROVES: dict[FaultName, Callable[[Case], bool]] = {
    FaultName.NONE: _sound,
    FaultName.OVERLOAD_OPEN: lambda case: bool(case.overload_apart),
    FaultName.OVERLOAD_WEAK: _weak,
    FaultName.OVERLOAD_WRONG: lambda case: bool(case.labels),
    FaultName.SEIZED: _seized,
    FaultName.RELAY_STUCK_OPEN: lambda case: _start_test(case, "starts"),
    FaultName.PTC_OPEN: _ptc_open,
    FaultName.RELAY_WELDED: lambda case: _contact(case, is_open=False),
    FaultName.START_WINDING_OPEN: lambda case: _start_winding(case, is_open=True),
    FaultName.GROUNDED: lambda case: case.found_grounded is not None,
    FaultName.LOW_SUPPLY: _supply,
    FaultName.CONDENSER_FAN_OPEN: _fan_looked_at,
    FaultName.CONDENSER_FAN_SEIZED: _fan_looked_at,
}
