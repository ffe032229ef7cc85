"""The drier: what it holds, whether it suits, and when a new one goes in."""

from __future__ import annotations

import pytest

from coldwright.errors import InputError
from coldwright.sealed_system.service.drier import (
    Desiccant,
    Drier,
    DrierEvent,
    drops,
    reasons_for_new_drier,
    share_used,
    suits,
)


def test_capacity_by_hand():
    """15 g of sieve that hold 15 % and start at 2 %: 1.95 g of water, 39 drops; half of it uses half."""
    drier = Drier(Desiccant.SIEVE_3A, 0.015)

    assert drier.water_capacity_kg == pytest.approx(1.95e-3, rel=1e-12)
    assert drops(drier.water_capacity_kg) == pytest.approx(39.0, rel=1e-12)
    assert share_used(drier, 0.975e-3) == pytest.approx(0.5, rel=1e-12)


def test_a_sieve_holds_more_than_the_others_in_dry_refrigerant():
    """Water per gram while the refrigerant stays dry: both sieves above gel and alumina (two makers' pages, read)."""
    held = {desiccant: Drier(desiccant, 0.02).water_capacity_kg for desiccant in Desiccant}
    sieves = (Desiccant.SIEVE_3A, Desiccant.SIEVE_4A)

    assert min(held[s] for s in sieves) > 3 * max(v for d, v in held.items() if d not in sieves)


def test_nothing_holds_more_in_dry_refrigerant_than_in_wet_air():
    """What a desiccant holds while the refrigerant is dry is never above the most it takes."""
    assert all(0 < d.dry_share <= d.most_share for d in Desiccant)


def test_a_drier_left_open_has_no_room():
    """A drier that took its fill from the air takes no more, and any water is then too much."""
    soaked = Drier(Desiccant.SIEVE_3A, 0.015, share_at_start=0.20)

    assert soaked.water_capacity_kg == 0.0
    assert share_used(soaked, 1e-6) == float("inf")
    assert share_used(soaked, 0.0) == 0.0


@pytest.mark.parametrize(
    ("desiccant", "refrigerant", "expected"),
    [
        (Desiccant.SIEVE_4A, "R-32", False),
        (Desiccant.SIEVE_4A, "R-410A", False),
        (Desiccant.SIEVE_4A, "R-12", True),
        (Desiccant.SIEVE_3A, "R-32", True),
        (Desiccant.SIEVE_3A, "R-600a", True),
    ],
)
def test_pores_that_let_the_refrigerant_in(desiccant, refrigerant, expected):
    """R-32, alone or in a blend, fits the pores of a 4 Å sieve (from memory)."""
    assert suits(desiccant, refrigerant) is expected


def test_every_event_but_one_calls_for_a_new_drier():
    """Opening, burn-out, blockage, air and water each give their reason; nothing opened gives none."""
    assert len(reasons_for_new_drier(tuple(DrierEvent))) == len(DrierEvent) - 1
    assert reasons_for_new_drier([DrierEvent.REFRIGERANT_TOPPED_UP]) == ()
    assert "opened" in reasons_for_new_drier([DrierEvent.SYSTEM_OPENED])[0]


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: Drier(Desiccant.SIEVE_3A, 15.0), r"15000 g; .*4 g to 500 g. Was it 15 g, typed where kilograms"),
        (lambda: Drier(Desiccant.SIEVE_3A, 0.001), r"is 1 g; .*water it holds, or ounces"),
        (lambda: Drier(Desiccant.SIEVE_3A, -0.015), r"desiccant in the drier is -0.015 kg"),
        (lambda: Drier(Desiccant.SIEVE_3A, 0.015, 2.0), r"at the start is 2;.*per cent"),
        (lambda: drops(-1e-3), r"the water is -1 g"),
    ],
)
def test_bad_driers_are_named(act, message):
    """Each message names the thing, its value and the slip."""
    with pytest.raises(InputError, match=message):
        act()
