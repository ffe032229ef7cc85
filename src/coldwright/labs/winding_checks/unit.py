"""The unit that a ticket draws for the winding checks."""

from __future__ import annotations

import math
from pathlib import Path

from coldwright.appliance.compressor import PINS, BenchCompressor
from coldwright.appliance.faults import FaultKind, WindingFault
from coldwright.appliance.nameplate import compressors
from coldwright.bench.compressor_bench import CompressorBench
from coldwright.bench.draw import Draw
from coldwright.labs.ticket import Ticket
from coldwright.quantities.constants import ICE_POINT_K

TRIPPED = "hot protector"
CONDITIONS = (*(kind for kind in FaultKind if kind is not FaultKind.NONE), FaultKind.NONE, TRIPPED)
INVERTER_CONDITIONS = (FaultKind.NONE, FaultKind.GROUNDED)


def _fault(draw: Draw, kind: FaultKind) -> WindingFault:
    if kind in (FaultKind.SHORTED_RUN, FaultKind.SHORTED_START):
        return WindingFault(kind, remaining=draw.between("remaining", 0.55, 0.8))
    if kind is FaultKind.GROUNDED:
        return WindingFault(kind, ground_ohm=10 ** draw.between("ground", math.log10(5e4), math.log10(1.2e6)))
    return WindingFault(kind)


def draw_unit(seed: bytes) -> BenchCompressor:
    """The compressor that a seed draws.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]

    Returns
    -------
    BenchCompressor
        Healthy windings within 4 % of the maker's value, a room far enough from 20 °C that the correction shows, and
        one fault or none. Windings drawn to be told apart, since the lab asks for them.
    """
    draw = Draw(seed)
    plate = draw.one_of("plate", compressors())
    condition = draw.one_of("condition", INVERTER_CONDITIONS if plate.is_inverter else CONDITIONS)
    tripped = condition == TRIPPED
    fault = _fault(draw, condition if isinstance(condition, FaultKind) else FaultKind.NONE)
    common, run, start = draw.order("pins", PINS)
    cool = draw.fraction("season") < 0.3
    room_c = draw.between("room", 5.0, 12.0) if cool else draw.between("room", 28.0, 38.0)
    data = plate.windings
    return BenchCompressor(
        plate=plate,
        run_ohm=data.run * draw.between("run", 0.96, 1.04),
        start_ohm=(data.start or data.run) * draw.between("start", 0.96, 1.04),
        common=common,
        run=run,
        start=start,
        fault=fault,
        insulation_ohm=draw.between("insulation", 150e6, 900e6),
        room_k=ICE_POINT_K + room_c,
        arrival_k=ICE_POINT_K + draw.between("arrival", 100.0, 125.0),
        cooling_s=draw.between("cooling", 2400.0, 4200.0),
        capacitor_v=plate.supply_v * math.sqrt(2) * draw.between("capacitor", 0.7, 1.0),
        fan_ohm=plate.supply_v * draw.between("fan", 0.35, 0.7),
        under_vacuum=draw.fraction("vacuum") < 0.25,
        protector_tripped=tripped,
    )


def draw_lead(seed: bytes) -> float:
    """Resistance of the meter's leads, as old leads have [Ω].

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    return Draw(seed).between("lead", 0.4, 0.9)


def open_bench(ticket: Ticket, path: Path | None = None) -> CompressorBench:
    """The ticket's unit on the bench.

    Parameters
    ----------
    ticket : Ticket
        Whose unit [-]
    path : Path, optional
        Job sheet to go on with, or to begin [-]
    """
    seed = ticket.seed_bytes
    return CompressorBench(draw_unit(seed), seed, draw_lead(seed), ticket.header, path)
