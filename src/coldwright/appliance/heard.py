"""What a step of time lets hear: the motor from its beginning, a switch at its end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coldwright.appliance.drive import Drive
from coldwright.appliance.parts import Parts
from coldwright.appliance.state import UnitState
from coldwright.electrical.start_relays import CurrentRelay, PotentialRelay

SOUNDS = ("silence", "runs", "hums")
JUST_BEGUN_S = 0.02  # a motor that has had power for less is not yet heard to run


@dataclass(frozen=True)
class Event:
    """Something to be heard or seen at a moment."""

    at_s: float
    words: str


def heard(parts: Parts, before: UnitState, after: UnitState, drive: Drive, already: Sequence[Event]) -> list[Event]:
    """What a step let hear that was not heard before.

    Parameters
    ----------
    parts : Parts
        The unit's parts [-]
    before, after : UnitState
        State at both ends of the step [-]
    drive : Drive
        What the circuit did meanwhile [-]
    already : sequence of Event
        What was heard until then [-]
    """
    events = []
    if parts.motor is not None or parts.board is not None:
        sound = _sound(parts, after, drive)
        said = next((e.words for e in reversed(already) if e.words in SOUNDS), "")
        just_begun = sound == "runs" and after.powered_s < JUST_BEGUN_S
        if sound != said and not just_begun:
            events.append(Event(before.at_s, sound))
    words = []
    if before.thermostat_closed != after.thermostat_closed:
        words.append(f"click: the thermostat {'closes' if after.thermostat_closed else 'opens'}")
    if before.overload_open != after.overload_open:
        words.append("click from the compressor")
    has_relay = isinstance(parts.start_device, (CurrentRelay, PotentialRelay))
    if has_relay and before.contact_closed != after.contact_closed and drive.powered:
        words.append("tick from the relay")
    return [*events, *(Event(after.at_s, each) for each in words)]


def _sound(parts: Parts, after: UnitState, drive: Drive) -> str:
    if not drive.powered:
        return "silence"
    return "runs" if after.speed > 0 or parts.board is not None else "hums"
