"""Which way each reading moves with each fault, the shape of the charge curve, what tells a restriction from a leak.

The table is the one that service handbooks agree on (common practice, no source). Each exception of the model is named
here, held by a test of its own, and explained in docs/sealed_system.md.
"""

from __future__ import annotations

import itertools
import math
from functools import cache
from typing import NamedTuple

import pytest

from coldwright.refrigerants.kernels import saturation
from coldwright.sealed_system.design import SystemPlate, design_around
from coldwright.sealed_system.outcome import settled
from coldwright.sealed_system.plant import Around, Moment, Plant, State
from tests.sealed_system.plants import COOLER, PLATES, built, engine
from tests.sealed_system.states import settled_of

READINGS = ("suction", "discharge", "superheat", "subcooling", "discharge temperature", "watts", "capacity")
CLEAR = {  # what counts as moved
    "suction": 0.01,
    "discharge": 0.01,
    "superheat": 1.0,
    "subcooling": 0.3,
    "discharge temperature": 0.8,
    "watts": 0.01,
    "capacity": 0.01,
}
TABLE = {  # + up, - down, 0 as it was or +, . not held
    "undercharge": "- - + - + - -",
    "overcharge": "+ + - + - + .",
    "fouled condenser": "+ + - - + + -",
    "evaporator without air": "- - - - - - -",
    "restricted capillary": "- - + 0 + - -",
    "leaking valves": "+ - - - - - -",
    "air in it": ". + + + + + -",
}
EXCEPTIONS = {
    ("fouled condenser", "discharge temperature"),  # liquid comes back and cools the compressor
    ("air in it", "discharge temperature"),  # the same
    ("air in it", "superheat"),  # the capillary feels the air's pressure and passes more
}


class Readings(NamedTuple):
    """What a person reads; subcooling is from the gauge, so that air counts as pressure."""

    suction: float
    discharge: float
    superheat: float
    subcooling: float
    discharge_temperature: float
    watts: float
    capacity: float


def readings(plate: SystemPlate, now: Moment) -> Readings:
    """Readings of a moment."""
    bubble = saturation(engine(plate).tables, now.discharge_pa).bubble_k
    return Readings(
        now.suction_pa,
        now.discharge_pa,
        now.superheat_k,
        bubble - now.liquid_k,
        now.discharge_k,
        now.watts,
        now.evaporator_w,
    )


def faulty(plate: SystemPlate, fault: str) -> tuple[Plant, Around]:
    """A plant with a fault that a trade would call clear."""
    plant, around = built(plate), design_around(plate.charge_kg)
    hole = 6e-8 * plate.displacement_m3 / 5e-6
    partial = 0.2 * math.exp(settled_of(plate)[0].log_high)  # a fifth of the condensing pressure
    moles = partial * (plant.condenser_m3 + plant.discharge_m3) / (8.314462618 * 313.0)
    return {
        "none": (plant, around),
        "undercharge": (plant, around._replace(charge_kg=0.7 * plate.charge_kg)),
        "nearly empty": (plant, around._replace(charge_kg=0.3 * plate.charge_kg)),
        "overcharge": (plant, around._replace(charge_kg=1.25 * plate.charge_kg)),
        "fouled condenser": (plant, around._replace(condenser_air=0.5)),
        "evaporator without air": (plant, around._replace(evaporator_air=0.4)),
        "restricted capillary": (plant._replace(bore_m=0.85 * plant.bore_m), around),
        "blocked": (plant._replace(bore_m=0.6 * plant.bore_m), around),
        "leaking valves": (plant._replace(leak_m2=hole), around),
        "air in it": (plant._replace(air_mol=moles), around),
    }[fault]


@cache
def read(plate: SystemPlate, fault: str, charge: float = 1.0) -> Readings:
    """Readings of a plate's system with a fault, left to run, with a share of the charge that it has by then."""
    plant, around = faulty(plate, fault)
    found = settled(engine(plate), plant, around._replace(charge_kg=charge * around.charge_kg))
    assert found.is_steady
    return readings(plate, found.moment)


def moved(plate: SystemPlate, fault: str, reading: str, charge: float = 1.0) -> str:
    """Which way a reading moved: +, - or 0."""
    at = READINGS.index(reading)
    before, after = read(plate, "none", charge)[at], read(plate, fault, charge)[at]
    by = after - before if reading in ("superheat", "subcooling", "discharge temperature") else after / before - 1.0
    return "0" if abs(by) < CLEAR[reading] else "+" if by > 0.0 else "-"


CASES = [
    (fault, reading, sign)
    for fault, row in TABLE.items()
    for reading, sign in zip(READINGS, row.split(), strict=True)
    if sign != "." and (fault, reading) not in EXCEPTIONS
]


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
@pytest.mark.parametrize(("fault", "reading", "sign"), CASES, ids=[f"{f}: {r}" for f, r, _ in CASES])
def test_the_reading_moves_as_the_table_says(plate, fault, reading, sign):
    """The reading moves the way that service handbooks say (common practice, no source)."""
    allowed = {"0": "0+"}.get(sign, sign)
    assert moved(plate, fault, reading) in allowed


def test_exceptions_are_few(figure):
    """All of the table but the named exceptions is held."""
    held = len(CASES)
    figure("fault directions held for each of three plates", f"{held} of {held + len(EXCEPTIONS)}")
    assert held + len(EXCEPTIONS) == sum(sign != "." for row in TABLE.values() for sign in row.split())
    assert len(EXCEPTIONS) <= 3


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
@pytest.mark.parametrize(("fault", "sign"), [("fouled condenser", "+"), ("air in it", "0+")])
def test_the_exception_of_discharge_temperature_is_the_liquid(plate, fault, sign):
    """With the full charge liquid comes back and cools the compressor; elsewhere the temperature does not fall."""
    plant, around = faulty(plate, fault)
    full = settled(engine(plate), plant, around).moment
    assert full.outlet_quality < 1.0
    assert moved(plate, fault, "discharge temperature") != "+"
    short = settled(engine(plate), plant, around._replace(charge_kg=0.6 * around.charge_kg)).moment
    assert short.outlet_quality == 1.0
    assert moved(plate, fault, "discharge temperature", charge=0.6) in sign


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_the_exception_of_air_is_the_capillary(plate):
    """Air's pressure stands before the capillary: it passes more, and superheat falls. A finer tube undoes it."""
    plant, around = faulty(plate, "air in it")
    healthy = settled(engine(plate), built(plate), design_around(plate.charge_kg)).moment
    now = settled(engine(plate), plant, around).moment
    assert now.flow > healthy.flow
    assert moved(plate, "air in it", "superheat") == "-"
    finer = plant._replace(bore_m=0.9 * plant.bore_m)
    assert settled(engine(plate), finer, around).moment.superheat_k > now.superheat_k


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_capacity_is_flat_then_falls_when_overcharged(plate):
    """Overcharge changes capacity little at first; far overcharged it falls (common practice, no source)."""
    some = read(plate, "overcharge").capacity / read(plate, "none").capacity
    far = read(plate, "overcharge", 1.6 / 1.25).capacity / read(plate, "none").capacity
    assert abs(some - 1.0) < 0.08
    assert far < some - 0.01


def cop_at(plate: SystemPlate, share: float) -> float:
    """COP at the design point with a share of the plate's charge."""
    around = design_around(plate.charge_kg * share)
    now = settled(engine(plate), built(plate), around).moment
    return now.evaporator_w / now.watts


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_the_charge_curve_has_an_optimum(plate, figure):
    """COP has one optimum near the plate's charge, falls on both sides, and overfilling costs more than underfilling.

    Dmitriyev & Pisarenko 1984 (abstract, seen; R-12): 10 % too little costs 4 to 6 % of COP, 10 % too much 6 to 12 %.
    The order is held; the size is the model's own, about half of theirs, and is told as a figure.
    """
    shares = [0.5 + 0.05 * n for n in range(11)] + [1.05 + 0.025 * n for n in range(8)] + [1.3, 1.4, 1.5, 1.6]
    cops = [cop_at(plate, share) for share in shares]
    at = cops.index(max(cops))
    best, optimum = shares[at], cops[at]
    under, over = (1.0 - cop_at(plate, best * part) / optimum for part in (0.9, 1.1))
    figure(
        f"charge curve of {plate.refrigerant}: optimum, COP lost at -10 % and +10 % of it",
        f"{best:.3f} of the plate, {under:.1%} (published 4 to 6 %), {over:.1%} (published 6 to 12 %)",
    )
    assert 0.9 < best < 1.2
    assert all(a < b for a, b in itertools.pairwise(cops[:at]))
    assert all(a > b for a, b in itertools.pairwise(cops[at + 1 :]))
    assert 0.005 < under < over < 0.12
    assert cops[0] < 0.85 * optimum


def test_a_quarter_too_much_raises_discharge_by_about_a_bar(figure):
    """28 % too much raised discharge by 1.3 bar (from memory, as published for R-12); here by 0.7 to 2 bar."""
    plant = built(COOLER)
    pressures = [settled(engine(COOLER), plant, design_around(0.08 * s)).moment.discharge_pa for s in (1.0, 1.28)]
    rise = (pressures[1] - pressures[0]) / 1e5
    figure("charge 28 % over: rise of discharge", f"{rise:.2f} bar (published 1.3)")
    assert 0.7 < rise < 2.0


def equalised_after(plate: SystemPlate, fault: str) -> float:
    """Time after stopping until the pressures stand within a tenth of their difference while running [s]."""
    plant, around = faulty(plate, fault)
    machine = engine(plate)
    state: State = settled(machine, plant, around).state
    rest = around._replace(running=0.0)
    start = math.exp(state.log_high) - math.exp(state.log_low)
    passed, length = 0.0, 1.0
    while passed < 7200.0:
        state, length = machine.advance(machine.tables, plant, rest, state, 10.0, length)
        passed += 10.0
        now = machine.at_once(machine.tables, plant, rest, state)
        if now.discharge_pa - now.suction_pa < 0.1 * start:
            return passed
    return math.inf


@pytest.mark.parametrize("plate", PLATES, ids=lambda p: p.refrigerant)
def test_time_to_equalise_tells_a_restriction_from_a_leak(plate, figure):
    """A restricted capillary needs several times as long to equalise as a charge so low that superheat is the same.

    Common practice, no source. A mild restriction (85 % of the bore) takes less than twice as long: a figure.
    """
    ends = {each: equalised_after(plate, each) for each in ("none", "nearly empty", "restricted capillary", "blocked")}
    figure(f"equalising of {plate.refrigerant}", ", ".join(f"{name} {seconds:.0f} s" for name, seconds in ends.items()))
    assert abs(read(plate, "blocked").superheat - read(plate, "nearly empty").superheat) < 6.0
    assert ends["nearly empty"] < 2.0 * ends["none"]
    assert ends["blocked"] > 3.0 * max(ends["none"], ends["nearly empty"])
    assert ends["restricted capillary"] > 1.3 * ends["none"]
