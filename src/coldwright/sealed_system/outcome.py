"""What becomes of a system left to run: it settles, or it ends in one of the ways that have a name."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from coldwright.refrigerants.kernels import Tables
from coldwright.sealed_system.balance import CLOSED, first_guess
from coldwright.sealed_system.engine import Engine
from coldwright.sealed_system.plant import Around, Moment, Plant, State

WALKS_S = (0.0, 600.0, 1800.0, 7200.0)  # how long it is let run before each search
FLOODS_BELOW = 0.9  # quality of what leaves the evaporator
DRY_BELOW = 0.02  # wetted share of the evaporator
MOST_HIGH = 0.995  # of the top of the tables, in ln P


class Outcome(Enum):
    """How it ends."""

    STEADY = "settles"
    FLOODS_BACK = "settles, with liquid coming back to the compressor"
    EMPTY = "runs nearly empty: almost no refrigerant reaches the evaporator as liquid"
    TRIPS = "trips on overload"
    UNSETTLED = "does not settle"


@dataclass(frozen=True)
class Settled:
    """How a system ends when it is left to run.

    Parameters
    ----------
    outcome : Outcome
        In which way [-]
    state : State
        Where it is then; for a trip, where the search stopped [-]
    moment : Moment
        What can be read then [-]
    """

    outcome: Outcome
    state: State
    moment: Moment

    @property
    def is_steady(self) -> bool:
        """Whether it has a steady state that the motor can drive [-]."""
        return self.outcome in (Outcome.STEADY, Outcome.FLOODS_BACK, Outcome.EMPTY)


def settled(engine: Engine, plant: Plant, around: Around, guess: State | None = None) -> Settled:
    """How a system ends that is left to run.

    Parameters
    ----------
    engine : Engine
        Of the refrigerant [-]
    plant : Plant
        The system, its faults included [-]
    around : Around
        What it stands in; running [-]
    guess : State | None
        Where to begin, such as the last state [-]

    Returns
    -------
    Settled
        The outcome with its state [-]
    """
    tables = engine.tables
    start = guess or first_guess(tables, around)
    for walk in WALKS_S:
        if walk > 0.0:
            start = engine.advance(tables, plant, around, start, walk, 1.0)[0]
        found = engine.steady(tables, plant, around, start)
        now = engine.at_once(tables, plant, around, found.state)
        if found.residual <= CLOSED:
            return Settled(_named(plant, now), found.state, now)
    over = now.shaft_w > plant.most_shaft_w or _at_top(tables, found.state)
    return Settled(Outcome.TRIPS if over else Outcome.UNSETTLED, found.state, now)


def _named(plant: Plant, now: Moment) -> Outcome:
    """The name of a steady state."""
    if now.shaft_w > plant.most_shaft_w:
        return Outcome.TRIPS
    if now.outlet_quality < FLOODS_BELOW:
        return Outcome.FLOODS_BACK
    return Outcome.EMPTY if now.wetted < DRY_BELOW else Outcome.STEADY


def _at_top(tables: Tables, state: State) -> bool:
    """Whether the condensing pressure stands at the end of the tables."""
    return state.log_high > tables.low + tables.step * (tables.rows - 1) - 0.01
