"""The job that a ticket draws: a cooler that is off but plugged in, a colleague's note, and meters to choose from.

Every unit has the lamp out, so that the wire to it floats where the door switch does not close. Supply, earth path,
door switch, fan and note are drawn each by itself, every condition as likely as its others.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from coldwright.appliance.cooler import Cooler, coolers
from coldwright.appliance.operation import Operation
from coldwright.appliance.parts import Parts
from coldwright.appliance.unit import BenchUnit
from coldwright.appliance.unit_faults import FaultName, UnitFault, with_fault
from coldwright.bench.draw import Draw
from coldwright.bench.unit_bench import UnitBench
from coldwright.instruments.display import Range, pick_range
from coldwright.instruments.meter_ranges import Function, limit_of, limit_of_ohms
from coldwright.instruments.misuse import Place, category_suits
from coldwright.labs.safe_isolation.compare import Against
from coldwright.labs.ticket import Ticket
from coldwright.labs.unit_draw import drawn_lead, drawn_unit

MODELS = tuple(cooler.model for cooler in coolers())
SWITCHES = (FaultName.NONE, FaultName.DOOR_SWITCH_OPEN)
EARTHS = ("good", "poor", "lost")
SUPPLIES = (Against.WITHIN, Against.LOW, Against.CANNOT_TELL)
FANS = ("agrees", "differs", "cannot tell")
FAN = "condenser fan"
PLATE_TOLERANCE = (
    0.1  # of the supply around the plate's volts (common practice, no source; EN 50160 has it, from memory)
)
FAN_TOLERANCE = 0.05  # what the maker of this invented fan allows
OLD_METER = tuple(Range(*each, percent=1.2, digits=2) for each in ((2, 0.001), (20, 0.01), (200, 0.1), (600, 1.0)))
PLACES = (Place.WALL_OUTLET, Place.DISTRIBUTION_BOARD)
NOTE_STEPS = {
    "live source before": "Outlet, L to N: the meter reads the supply.",
    "pulled": "Plug pulled and locked off.",
    "L to N": "Plug, L to N: 0.0 V.",
    "L to E": "Plug, L to E: 0.0 V.",
    "N to E": "Plug, N to E: 0.0 V.",
    "live source after": "Back at the outlet, L to N: the meter reads the supply.",
}
NOTHING = "nothing"
CAN_LACK = (*(step for step in NOTE_STEPS if step != "pulled"), NOTHING)
AGREE_WITHIN = (0.1, 0.3)  # of both limits together: inside even where this meter is off by all it may be
DIFFER_BY = (0.9, 2.0)  # limits of this meter, beyond the sum of both limits


@dataclass(frozen=True)
class Job:
    """One ticket's unit, and what else its job sheet begins with."""

    unit: BenchUnit
    earth: str
    lacks: str
    old_volts: float
    place: Place
    meters: tuple[str, ...]

    @property
    def fan_plate_ohm(self) -> float:
        """What the maker gives for the condenser fan [Ω]."""
        return self.unit.cooler.parts.fans[FAN].winding_ohm

    @property
    def lettered(self) -> dict[str, str]:
        """What is printed on each meter in the van, by its letter."""
        return dict(zip("ABC", self.meters, strict=True))

    def suits(self, letter: str) -> bool:
        """Whether a meter from the van may be used at the place of the first reading.

        Parameters
        ----------
        letter : str
            Letter of the meter [-]
        """
        return category_suits(self.place, self.unit.cooler.volts, self.lettered[letter])


@lru_cache(maxsize=64)
def draw_job(seed: bytes) -> Job:
    """The job that a seed draws.

    Parameters
    ----------
    seed : bytes
        The ticket's seed [-]
    """
    draw = Draw(seed)
    unit = drawn_unit(seed, MODELS, SWITCHES)
    earth = draw.one_of("earth", EARTHS)
    healthy = _earthed(draw, _with_fan(draw, _supplied(draw, unit), unit.cooler), earth, unit.cooler)
    volts = healthy.supply.volts
    place, meters = draw.one_of("place", PLACES), _meters(draw, unit.cooler.volts)
    job = Job(unit, earth, draw.one_of("note", CAN_LACK), _old_volts(draw, volts), place, meters)
    arrival = replace(unit.arrival, plugged=True, knob_on=False, removed=frozenset({"lamp"}))
    settled = (
        Operation(unit.wiring, with_fault(healthy, unit.fault), unit.room_k, unit.phase).advance(arrival, 1.0).state
    )
    came = replace(unit, healthy=healthy, arrival=replace(settled, at_s=0.0, energy_j=0.0), complaint=_told(job))
    return replace(job, unit=came)


def old_reading(volts: float) -> tuple[float, float, float]:
    """Reading, limit and digit of the old meter for a voltage on its best range [V].

    Parameters
    ----------
    volts : float
        Voltage, below 600 [V]
    """
    chosen = pick_range(OLD_METER, volts)
    assert chosen is not None
    shown = round(volts / chosen.resolution) * chosen.resolution
    return shown, chosen.limit(shown), chosen.resolution


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
    return UnitBench(draw_job(seed).unit, seed, drawn_lead(seed), ticket.header, path)


def _supplied(draw: Draw, unit: BenchUnit) -> Parts:
    """A supply inside the plate's limits but not at the rated volts, too low, or at the lower limit."""
    condition = draw.one_of("supply condition", SUPPLIES)
    if condition is Against.LOW:
        share = draw.between("low", 0.82, 0.85)
    elif condition is Against.CANNOT_TELL:
        share = 1 - PLATE_TOLERANCE + draw.between("edge", -0.001, 0.001)
    elif draw.fraction("above") < 0.5:
        share = draw.between("higher", 1.035, 1.06)
    else:
        share = draw.between("lower", 0.93, 0.965)
    return replace(unit.healthy, supply=replace(unit.healthy.supply, volts=unit.cooler.volts * share))


def _with_fan(draw: Draw, parts: Parts, cooler: Cooler) -> Parts:
    """A condenser fan inside the maker's limits, outside them, or at one of them."""
    fan, plate = parts.fans[FAN], cooler.parts.fans[FAN].winding_ohm
    side = 1 if draw.fraction("fan side") < 0.5 else -1
    edge = plate * (1 + side * FAN_TOLERANCE)
    ohm = {
        "agrees": plate * (1 + side * draw.between("fan inside", 0.01, 0.04)),
        "differs": plate * (1 + side * draw.between("fan outside", 0.07, 0.1)),
        "cannot tell": edge + draw.between("fan edge", -0.15, 0.15) * limit_of_ohms(edge)[0],
    }[draw.one_of("fan condition", FANS)]
    return replace(parts, fans={**parts.fans, FAN: replace(fan, winding_ohm=ohm)})


def _earthed(draw: Draw, parts: Parts, earth: str, cooler: Cooler) -> Parts:
    parts = replace(parts, cord=replace(parts.cord, earth_ohm=draw.between("earth ohm", 0.04, 0.14)))
    if earth == "lost":
        return with_fault(parts, UnitFault(FaultName.EARTH_LOST))
    if earth == "poor":
        return replace(parts, loose={"cord E": draw.between("poor earth", 3.0, 8.0) * cooler.volts / 120.0})
    return parts


def _old_volts(draw: Draw, volts: float) -> float:
    """What the old meter showed: within both meters' limits of the true volts, or well outside them."""
    own, other = limit_of(Function.VOLTS_AC, volts)[0], old_reading(volts)[1]
    if draw.fraction("old meter") < 0.5:
        off = draw.between("old meter near", *AGREE_WITHIN) * math.hypot(own, other)
    else:
        off = own + other + draw.between("old meter far", *DIFFER_BY) * own + old_reading(volts)[2]
    side = 1 if draw.fraction("old meter side") < 0.5 else -1
    if pick_range(OLD_METER, volts + side * off) is not pick_range(OLD_METER, volts):
        side = -side
    return old_reading(volts + side * off)[0]


def _meters(draw: Draw, volts: float) -> tuple[str, ...]:
    """Three meters in a drawn order: one that may be used; many volts in too low a category; too few volts."""
    right = draw.one_of("meter right", ("CAT III 300 V", "CAT III 600 V"))
    weak = draw.one_of("meter weak", ("CAT II 1000 V", "CAT II 750 V"))
    few = f"CAT IV {150 if volts > 150 else 100} V"
    return tuple(draw.order("meters", (right, weak, few)))


def _told(job: Job) -> str:
    """What the owner, the colleague's note and the maker say, and what lies in the van."""
    steps = " ".join(words for step, words in NOTE_STEPS.items() if step != job.lacks)
    meters = "; ".join(f"{letter}: {printed}" for letter, printed in job.lettered.items())
    _, _, digit = old_reading(job.old_volts)
    return "\n".join(
        (
            "Owner: the lamp did not light, so I took it out. I turned the cooler off at its thermostat.",
            f"A colleague's note, all of it: {steps}",
            f"The colleague's old meter showed {job.old_volts:.{1 if digit < 1 else 0}f} V at the outlet, L to N.",
            f"Maker: {FAN} {job.fan_plate_ohm:g} Ω ± {FAN_TOLERANCE * 100:g} %.",
            f"In the van, {meters}. First reading: {job.place.value}.",
        )
    )
