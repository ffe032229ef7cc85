"""The unit that a ticket draws for the lab on overloads."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from coldwright.appliance.cooler import cooler
from coldwright.appliance.unit import BenchUnit, arrival_state
from coldwright.appliance.unit_faults import FaultName, can_have
from coldwright.bench.draw import Draw
from coldwright.bench.unit_bench import UnitBench
from coldwright.labs.overloads.sheet import trip_sheet
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_draw import arrived_running, drawn_lead, drawn_unit
from coldwright.quantities.constants import ICE_POINT_K

MODELS = ("Tarn 11", "Tarn 21", "Tarn 12", "Tarn 22", "Tarn 14", "Tarn 24")
FAULTS = (
    FaultName.NONE,
    FaultName.OVERLOAD_OPEN,
    FaultName.OVERLOAD_WEAK,
    FaultName.OVERLOAD_WRONG,
    FaultName.SEIZED,
    FaultName.RELAY_STUCK_OPEN,
    FaultName.RELAY_WELDED,
    FaultName.PTC_OPEN,
    FaultName.START_WINDING_OPEN,
    FaultName.GROUNDED,
    FaultName.LOW_SUPPLY,
    FaultName.CONDENSER_FAN_OPEN,
    FaultName.CONDENSER_FAN_SEIZED,
)
COMPLAINT = "The owner says: it is not cold, and at times it clicks. It came in plugged in, in a hot kitchen."
KITCHEN_C = (28.0, 32.0)  # hot enough that a weak overload lets go while it runs
WEAK_KITCHEN_C = (28.0, 30.0)  # not so hot that a weak one takes more than ten minutes to close again
ALREADY_ON_S = (1300.0, 1600.0)  # warm by now, and a sound one has not yet cooled the cabinet
TOO_BRIEF = ("Tarn 12", "Tarn 22")  # a weak overload lets go within a second there: nothing can be read in that time


@lru_cache(maxsize=1024)
def chosen_unit(seed: bytes) -> BenchUnit:
    """The cooler that a seed draws, before it had power: first a fault, then a model that can have it.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    draw = Draw(seed)
    fault = draw.one_of("which fault", FAULTS)
    brief = TOO_BRIEF if fault is FaultName.OVERLOAD_WEAK else ()
    models = [model for model in MODELS if can_have(cooler(model).parts, fault) and model not in brief]
    model = draw.one_of("which model", models)
    drawn = drawn_unit(seed, (model,), (fault,))
    kitchen_c = WEAK_KITCHEN_C if fault is FaultName.OVERLOAD_WEAK else KITCHEN_C
    room_k = ICE_POINT_K + draw.between("kitchen", *kitchen_c)
    cord = replace(drawn.healthy.cord, earth_ohm=draw.between("earth", 0.05, 0.16))
    sheet = trip_sheet(drawn.cooler).lines()
    return replace(
        drawn,
        healthy=replace(drawn.healthy, cord=cord),
        room_k=room_k,
        arrival=arrival_state(room_k),
        complaint="\n".join([COMPLAINT, *sheet]),
    )


@lru_cache(maxsize=256)
def draw_unit(seed: bytes) -> BenchUnit:
    """The cooler that a seed draws, as it came in: with the heat of over twenty minutes on power.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    return arrived_running(chosen_unit(seed), Draw(seed).between("already on", *ALREADY_ON_S))


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
