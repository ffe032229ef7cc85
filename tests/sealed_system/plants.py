"""Sealed systems for the tests: three nameplates, ten faults, and random draws of what they stand in."""

from __future__ import annotations

import importlib.util
import random
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from coldwright.sealed_system.around import surroundings
from coldwright.sealed_system.design import SystemPlate, plant_of
from coldwright.sealed_system.engine import Engine, engine_of
from coldwright.sealed_system.plant import Around, Plant

COOLER = SystemPlate("R-134a", 0.080, 5e-6, 50.0)
ISOBUTANE = SystemPlate("R-600a", 0.036, 8e-6, 50.0)
PROPANE = SystemPlate("R-290", 0.060, 5e-6, 60.0)
PLATES = (COOLER, ISOBUTANE, PROPANE)
FAST = importlib.util.find_spec("numba") is not None
CELSIUS = 273.15

Faulty = Callable[[Plant, Around, float], tuple[Plant, Around]]
"""Plant and surroundings with a fault of a size from 0 (none) to 1 (gross)."""


def _plant(**share: Callable[[Plant, float], float]) -> Faulty:
    def change(plant: Plant, around: Around, size: float) -> tuple[Plant, Around]:
        return plant._replace(**{name: of(plant, size) for name, of in share.items()}), around

    return change


def _condenser_air(plant: Plant, around: Around, size: float) -> tuple[Plant, Around]:
    return plant, around._replace(condenser_air=1.0 - 0.75 * size)


def _evaporator_air(plant: Plant, around: Around, size: float) -> tuple[Plant, Around]:
    return plant, around._replace(evaporator_air=1.0 - 0.9 * size)


def _slow(plant: Plant, around: Around, size: float) -> tuple[Plant, Around]:
    return plant, around._replace(speed=1.0 - 0.3 * size)


FAULTS: dict[str, Faulty] = {
    "none": _plant(),
    "fouled condenser": _condenser_air,
    "evaporator without air": _evaporator_air,
    "restricted capillary": _plant(bore_m=lambda p, s: p.bore_m * (1.0 - 0.4 * s)),
    "capillary too wide": _plant(bore_m=lambda p, s: p.bore_m * (1.0 + 0.15 * s)),
    "leaking valves": _plant(leak_m2=lambda p, s: s * 0.06e-6 * p.displacement_m3 / 5e-6),
    "air in it": _plant(air_mol=lambda p, s: s * 0.01 * (p.condenser_m3 + p.discharge_m3) / 150e-6),
    "worn cylinder": _plant(clearance=lambda p, s: p.clearance + 0.05 * s),
    "capillary off the suction line": _plant(exchanger=lambda p, s: p.exchanger * (1.0 - s)),
    "slow": _slow,
}


@cache
def built(plate: SystemPlate) -> Plant:
    """The calibrated system of a plate, worked out once."""
    return plant_of(plate)


def engine(plate: SystemPlate, *, fast: bool = False) -> Engine:
    """Its functions: machine code only where it is asked for and to be had."""
    return engine_of(plate.refrigerant, fast=fast and FAST)


@dataclass(frozen=True)
class Draw:
    """One random system."""

    plate: SystemPlate
    fault: str
    plant: Plant
    around: Around


def drawn(number: int) -> Draw:
    """Draw of a number: nameplate, charge 30 to 160 %, room 10 to 43 °C, cabinet -5 to 32 °C, a fault of any size."""
    dice = random.Random(f"sealed system {number}")
    plate = dice.choice(PLATES)
    fault = dice.choice(tuple(FAULTS))
    room = dice.uniform(10.0, 43.0) + CELSIUS
    air = dice.uniform(-5.0, min(32.0, room - CELSIUS)) + CELSIUS
    around = surroundings(room_k=room, air_k=air, charge_kg=plate.charge_kg * dice.uniform(0.3, 1.6))
    plant, around = FAULTS[fault](built(plate), around, dice.random())
    return Draw(plate, fault, plant, around)
