"""The cooler that a ticket draws for the start circuits, and what its owner says of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from coldwright.appliance.cooler import Cooler, cooler
from coldwright.appliance.operation import Operation, Passed
from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import BenchUnit, Spare
from coldwright.appliance.unit_faults import FaultName, can_have
from coldwright.bench.draw import Draw
from coldwright.bench.unit_bench import UnitBench
from coldwright.electrical.start_relays import CurrentRelay
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_draw import drawn_lead, drawn_unit

MODELS = (
    "Tarn 11",
    "Tarn 21",
    "Tarn 12",
    "Tarn 22",
    "Tarn 13",
    "Tarn 14",
    "Tarn 24",
    "Tarn 25",
    "Tarn 15",
    "Tarn 26",
    "Tarn 17",
    "Tarn 27",
)
FAULTS = (
    FaultName.NONE,
    FaultName.RELAY_COIL_OPEN,
    FaultName.RELAY_STUCK_OPEN,
    FaultName.RELAY_WELDED,
    FaultName.RELAY_UPSIDE_DOWN,
    FaultName.RELAY_WRONG,
    FaultName.PTC_OPEN,
    FaultName.PTC_CRACKED,
    FaultName.PTC_NOT_COOLED,
    FaultName.START_SWITCH_OPEN,
    FaultName.START_SWITCH_SHORTED,
    FaultName.START_CAPACITOR_OPEN,
    FaultName.START_CAPACITOR_SHORTED,
    FaultName.START_CAPACITOR_LOW,
    FaultName.RUN_CAPACITOR_OPEN,
    FaultName.START_WINDING_OPEN,
    FaultName.RUN_WINDING_OPEN,
    FaultName.SEIZED,
    FaultName.LOW_SUPPLY,
    FaultName.OVERLOAD_OPEN,
)
SET_UPRIGHT = "the old one, set upright"
TRIED_S = 150.0  # how long the owner heard it try
HUMS_AND_CLICKS = "hums and clicks"
RUNS_AND_CLICKS = "starts, runs, clicks off"
SILENT = "silent"
HUMS = "hums"
RUNS = "runs"
COMPLAINTS = {
    HUMS_AND_CLICKS: 'The owner says: "It hums and clicks every half minute or so, and never cools."',
    RUNS_AND_CLICKS: 'The owner says: "It starts, runs for a moment and clicks off, over and over."',
    SILENT: 'The owner says: "It is plugged in and it is silent. The fans turn, nothing else."',
    HUMS: 'The owner says: "It only hums."',
    RUNS: 'The owner says: "Some days it starts, some days it hums and clicks. Right now I cannot say."',
}


def faults_of(plate: Cooler) -> tuple[FaultName, ...]:
    """Faults that a model can have in this lab, none among them.

    Parameters
    ----------
    plate : Cooler
        The model [-]
    """
    return tuple(name for name in FAULTS if can_have(plate.parts, name))


def behaviour(passed: Passed) -> str:
    """What a person would say who heard it try: one of the keys of `COMPLAINTS`.

    Parameters
    ----------
    passed : Passed
        What was heard [-]
    """
    words = {event.words for event in passed.events}
    clicks = "click from the compressor" in words
    if "runs" in words:
        return RUNS_AND_CLICKS if clicks else RUNS
    if "hums" in words:
        return HUMS_AND_CLICKS if clicks else HUMS
    return SILENT


def drawn_condition(seed: bytes) -> tuple[FaultName, str]:
    """The fault that a seed draws, each as likely, and a model that can have it.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    draw = Draw(seed)
    fault = draw.one_of("condition", FAULTS)
    return fault, draw.one_of("cooler", [name for name in MODELS if can_have(cooler(name).parts, fault)])


@lru_cache(maxsize=256)
def draw_unit(seed: bytes) -> BenchUnit:
    """The cooler that a seed draws, with its complaint and its spares.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]

    Returns
    -------
    BenchUnit
        Unplugged and cold. The owner's words are what the unit does when it is plugged in.
    """
    fault, model = drawn_condition(seed)
    unit = drawn_unit(seed, (model,), (fault,))
    run = Operation(unit.wiring, unit.parts, unit.room_k, unit.phase)
    heard = behaviour(run.advance(replace(unit.arrival, plugged=True), TRIED_S))
    return replace(unit, complaint=COMPLAINTS[heard], spares=_spares(unit))


def _spares(unit: BenchUnit) -> Mapping[str, Mapping[str, Spare]]:
    if not isinstance(unit.healthy.start_device, CurrentRelay):
        return {}
    return {"relay": {**unit.spares_for("relay"), SET_UPRIGHT: _upright}}


def _upright(parts: Parts) -> Parts:
    assert isinstance(parts.start_device, CurrentRelay)
    return replace(parts, start_device=replace(parts.start_device, upside_down=False))


def open_bench(ticket: Ticket, path: Path | None = None) -> UnitBench:
    """The ticket's unit on the bench.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    path : Path, optional
        Job sheet to go on with, or to begin [-]
    """
    seed = ticket.seed_bytes
    return UnitBench(draw_unit(seed), seed, drawn_lead(seed), ticket.header, path)
