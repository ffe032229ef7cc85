"""The known slips of the start circuits, each as a function of the true unit and the readings on it."""

from __future__ import annotations

from coldwright.appliance.unit_faults import FaultName
from coldwright.electrical.ptc import Ptc
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay
from coldwright.labs.question import Misconception
from coldwright.labs.start_circuits.case import LINE, StartCase
from coldwright.labs.start_circuits.remedies import FOUND
from coldwright.labs.start_circuits.solutions import kind_of, line_amps, sags, start_amps

Values = tuple[float, ...]
LEAST_A = 1.0  # below this a unit made no try that one could mistake


def _cord(case: StartCase, _name: str) -> Values:
    shown = case.base.readings("inrush", "cord") + case.base.readings("clamp", "cord")
    return tuple(t.display.value for t in shown) or (0.0,)


def _plate_running(case: StartCase, _name: str) -> float:
    return case.unit.plate.running_a


def _locked(case: StartCase, _name: str) -> Values | None:
    if not case.runs:
        return None
    return (*(amps for amps, _ in line_amps(case)), case.unit.plate.locked_a)


def _sum(case: StartCase, _name: str) -> Values:
    return tuple(a + b for a, _ in start_amps(case, "start_run") for b, _ in start_amps(case, "start_start"))


def _swapped(case: StartCase, name: str) -> Values:
    other = "start_start" if name == "start_run" else "start_run"
    return tuple(amps for amps, _ in start_amps(case, other))


def _sag_over_running(case: StartCase, _name: str) -> Values | None:
    amps = [t.display.value for t in case.running(LINE)] or [case.unit.plate.running_a]
    if max(a for a, _ in line_amps(case)) < LEAST_A:
        return None
    return tuple((rest - low) / a for rest, low in sags(case) for a in amps if a > 0)


def _whole_volts(case: StartCase, _name: str) -> Values:
    return tuple(volts / amps for pair in sags(case) for volts in pair for amps, _ in line_amps(case) if amps > 0)


def _sag_blamed(case: StartCase, _name: str) -> str | None:
    return None if case.fault is FaultName.LOW_SUPPLY else "too low"


def _low_supply_missed(case: StartCase, _name: str) -> str | None:
    return "in order" if case.fault is FaultName.LOW_SUPPLY else None


def _closed_at_rest(case: StartCase, _name: str) -> str | None:
    return "closed" if isinstance(case.unit.healthy.start_device, CurrentRelay) else None


def _open_at_rest(case: StartCase, _name: str) -> str | None:
    return "open" if isinstance(case.unit.healthy.start_device, PotentialRelay) else None


def _open_contact_condemned(case: StartCase, _name: str) -> str | None:
    sound = case.fault not in (FaultName.RELAY_STUCK_OPEN, FaultName.RELAY_WRONG)
    return "contact stuck open" if sound and isinstance(case.unit.healthy.start_device, CurrentRelay) else None


def _closed_contact_condemned(case: StartCase, _name: str) -> str | None:
    sound = case.fault is not FaultName.RELAY_WELDED
    return "contact welded" if sound and isinstance(case.unit.healthy.start_device, PotentialRelay) else None


def _hot_ptc(case: StartCase, _name: str) -> str | None:
    hot = case.fault is not FaultName.PTC_OPEN and FOUND[case.fault][1] != "open"
    return "open" if hot and isinstance(case.unit.healthy.start_device, Ptc) else None


def _pick_up_not_read(case: StartCase, _name: str) -> str | None:
    return "contact stuck open" if case.fault is FaultName.RELAY_WRONG else None


def _seized_blamed(case: StartCase, _name: str) -> str | None:
    device = kind_of(case)[0]
    if case.fault is not FaultName.SEIZED or device == "none":
        return None
    return "relay" if "relay" in device else device


MISCONCEPTIONS = (
    Misconception(
        "clamp round the cord",
        ("found_amps",),
        "You put the clamp round the whole cord, where the current out and the current back cancel, so put it round "
        "one wire.",
        _cord,
    ),
    Misconception(
        "running amps for start amps",
        ("found_amps",),
        "You gave the running amps of the plate, but at a try the motor draws far more, so read the clamp on hold.",
        _plate_running,
    ),
    Misconception(
        "start amps for running amps",
        ("running_line",),
        "You gave the amps of the start, but a running motor draws far less, so wait a minute after the start and read "
        "again.",
        _locked,
    ),
    Misconception(
        "amps simply added",
        ("start_common",),
        "You added the amps of the two windings, but they do not peak at the same time, so the wire to C carries less "
        "than the plain sum.",
        _sum,
    ),
    Misconception(
        "run and start swapped",
        ("start_run", "start_start"),
        "You gave the amps of the other winding: run is at pin R and start is at pin S.",
        _swapped,
    ),
    Misconception(
        "sag divided by running amps",
        ("source_ohm",),
        "You divided the dip by the running amps, but the volts dip while the start amps flow, so divide by those.",
        _sag_over_running,
    ),
    Misconception(
        "whole volts divided",
        ("source_ohm",),
        "You divided the whole volts by the amps, but only those lost on the way count: the volts at rest minus the "
        "lowest volts.",
        _whole_volts,
    ),
    Misconception(
        "sag taken for a bad supply",
        ("supply",),
        "You took the dip at the start for a bad supply, but every start pulls the volts down for a moment, so judge "
        "the supply by its volts at rest.",
        _sag_blamed,
    ),
    Misconception(
        "low supply not seen",
        ("supply",),
        "You called the supply good, but the volts at rest are far below the plate, so no start device can help.",
        _low_supply_missed,
    ),
    Misconception(
        "current relay thought closed at rest",
        ("at_rest",),
        "You took this contact for closed at rest, but a current relay closes only while its coil carries the locked-"
        "rotor amps.",
        _closed_at_rest,
    ),
    Misconception(
        "potential relay thought open at rest",
        ("at_rest",),
        "You took this contact for open at rest, but a potential relay is closed at rest and opens once the start "
        "winding makes enough volts.",
        _open_at_rest,
    ),
    Misconception(
        "current relay condemned for an open contact",
        ("wrong",),
        "You condemned the contact because it reads open cold, but a current relay is open at rest, so that is normal.",
        _open_contact_condemned,
    ),
    Misconception(
        "potential relay condemned for a closed contact",
        ("wrong",),
        "You condemned the contact because it reads closed cold, but a potential relay is closed at rest, so that is "
        "normal.",
        _closed_contact_condemned,
    ),
    Misconception(
        "hot PTC condemned",
        ("wrong",),
        "You called the PTC open, but a hot PTC reads thousands of ohms, so let it cool and read it again.",
        _hot_ptc,
    ),
    Misconception(
        "pick-up not read",
        ("wrong",),
        "You called the contact stuck, but the pick-up on the label is above what this motor draws, so a good contact "
        "is never pulled in.",
        _pick_up_not_read,
    ),
    Misconception(
        "seized rotor taken for the start device",
        ("part",),
        "You blamed the start device, but the motor draws its full start amps and does not turn even on the test cord, "
        "so the rotor is stuck.",
        _seized_blamed,
    ),
)
