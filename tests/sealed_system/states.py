"""States for the tests: the steady one of a plate, and random ones that no balance holds."""

from __future__ import annotations

import random
from functools import cache

from coldwright.sealed_system.balance import first_guess
from coldwright.sealed_system.design import SystemPlate, design_around
from coldwright.sealed_system.outcome import settled
from coldwright.sealed_system.plant import Moment, State
from tests.sealed_system.plants import Draw, built, engine


@cache
def settled_of(plate: SystemPlate, charge: float = 1.0) -> tuple[State, Moment]:
    """The healthy system of a plate at its design point with a share of its charge, left to run."""
    found = settled(engine(plate), built(plate), design_around(plate.charge_kg * charge))
    assert found.is_steady
    return found.state, found.moment


def some_states(draw: Draw, count: int, dice: random.Random) -> list[State]:
    """States spread widely about a first guess, with room for some oil."""
    guess = first_guess(engine(draw.plate).tables, draw.around)
    charge = draw.around.charge_kg
    return [
        State(
            guess.log_high + dice.uniform(-0.25, 0.4),
            guess.log_low + dice.uniform(-1.2, 0.5),
            charge * dice.uniform(0.1, 0.85),
            guess.shell_k + dice.uniform(-20.0, 25.0),
            guess.return_h + dice.uniform(-4e4, 3e4),
            guess.inlet_h + dice.uniform(-3e4, 4e4),
            charge * dice.uniform(0.0, 0.1),
        )
        for _ in range(count)
    ]
