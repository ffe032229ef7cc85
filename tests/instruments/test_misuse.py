"""Measurement categories, what an insulation test must not be made on, and the page that tells of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.instruments import clamp, insulation_tester, meter_ranges, multimeter, power_meter, thermometer
from coldwright.instruments.display import Range
from coldwright.instruments.misuse import (
    CATEGORY_OF,
    MeterEvent,
    Place,
    before_insulation_test,
    category_fault,
    category_suits,
    ratings,
)

PAGE = Path(__file__).parents[2] / "docs" / "instruments.md"
MAINS = [place for place in Place if place is not Place.NOT_MAINS]


@pytest.mark.parametrize(
    ("place", "volts", "category", "suits"),
    [
        (Place.APPLIANCE, 230, "CAT II 300 V", True),
        (Place.WALL_OUTLET, 230, "CAT II 300 V", False),
        (Place.WALL_OUTLET, 230, "CAT III 600 V", True),
        (Place.SOURCE, 230, "CAT III 600 V", False),
        (Place.SOURCE, 230, "CAT IV 600 V", True),
        (Place.APPLIANCE, 400, "CAT II 300 V", False),
        (Place.NOT_MAINS, 12, "CAT II 300 V", True),
        (Place.FIXED_MOTOR, 480, "CAT II 1000 V / CAT III 600 V", True),
        (Place.FIXED_MOTOR, 700, "CAT II 1000 V / CAT III 600 V", False),
        (Place.APPLIANCE, 700, "CAT II 1000 V / CAT III 600 V", True),
        (Place.APPLIANCE, 230, "CATII (600V), CATIII (300V)", True),
    ],
)
def test_where_a_category_may_be_used(place, volts, category, suits):
    """By the definitions of IEC/EN 61010-1, 6.7.4: a category serves its own places and all below, up to its volts."""
    assert category_suits(place, volts, category) == suits
    assert (category_fault(place, volts, category) == "") == suits


@given(st.sampled_from(MAINS), st.sampled_from(["II", "III", "IV"]), st.floats(0, 1200), st.floats(0, 1200))
def test_nearer_or_higher_is_never_safer(place, numeral, volts, more):
    """What is refused stays refused at a higher voltage, and nearer to where the supply comes in."""
    rating = f"CAT {numeral} 600 V"
    if not category_suits(place, volts, rating):
        assert not category_suits(place, volts + more, rating)
        for nearer in MAINS:
            if CATEGORY_OF[nearer] >= CATEGORY_OF[place]:
                assert not category_suits(nearer, volts, rating)


def test_the_reasons_in_words():
    """Either the category is too low for the place, or the voltage too high."""
    assert category_fault(Place.WALL_OUTLET, 230, "CAT II 300 V") == (
        "wall outlet and fixed wiring: CAT III or higher is asked for; printed on the instrument: CAT II 300 V"
    )
    assert category_fault(Place.APPLIANCE, 400, "CAT III 300 V") == (
        "400 V is more than the 300 V that the instrument stands there"
    )


@pytest.mark.parametrize("category", ["", "CAT V 600 V", "600 V", "CAT III", "CAT III 600 V / none"])
def test_a_rating_that_cannot_be_read(category):
    """The message shows the form."""
    with pytest.raises(InputError, match=r"cannot be read; it must look like 'CAT III 600 V'$"):
        ratings(category)


@pytest.mark.parametrize("volts", [-1.0, float("nan")])
def test_a_voltage_below_zero(volts):
    """The message names the voltage and the rule."""
    with pytest.raises(InputError, match=r"^the voltage at the place is .* V; it must be zero or more$"):
        category_suits(Place.APPLIANCE, volts, "CAT III 600 V")


@pytest.mark.parametrize("made", [multimeter.CATEGORY, clamp.CATEGORY, insulation_tester.CATEGORY])
def test_the_hand_held_instruments_serve_the_outlet(made):
    """Those that one puts on the outlet or in the cooler are made for both, at 120 V and 230 V."""
    assert all(category_suits(place, v, made) for place in (Place.WALL_OUTLET, Place.APPLIANCE) for v in (120, 230))


def test_the_power_meter_is_for_a_plug():
    """It sits between plug and outlet as an appliance does: category II, up to 300 V."""
    assert category_suits(Place.APPLIANCE, 230, power_meter.CATEGORY)
    assert not category_suits(Place.DISTRIBUTION_BOARD, 230, power_meter.CATEGORY)


@given(st.booleans(), st.booleans(), st.booleans())
def test_before_an_insulation_test(live, electronics, vacuum):
    """Each reason not to test is told by itself, and there is none only if all three are away."""
    found = before_insulation_test(live, electronics, vacuum)
    assert (MeterEvent.INSULATION_ON_LIVE in found) == live
    assert (MeterEvent.INSULATION_ON_ELECTRONICS in found) == electronics
    assert (MeterEvent.INSULATION_UNDER_VACUUM in found) == vacuum
    assert (found == ()) == (not (live or electronics or vacuum))


def said(ranges: tuple[Range, ...]) -> set[str]:
    """Accuracies of ranges as the page writes them."""
    return {f"±({r.percent:g} % + {r.digits})" for r in ranges}


def row(text: str, first: str) -> str:
    """The row of a table that begins with a word."""
    return next(line for line in text.splitlines() if line.startswith(f"| {first} |"))


def test_the_page_gives_the_accuracy_of_every_range():
    """docs/instruments.md names for each function the percent and digits that the instrument works with."""
    text = PAGE.read_text(encoding="utf-8")
    tables = {f.value: ranges for f, ranges in meter_ranges.RANGES.items()}
    tables |= {"clamp": clamp.RANGES, "insulation": insulation_tester.RANGES}
    tables |= {q.value: (r,) for q, r in power_meter.RANGES.items()}
    for name, ranges in tables.items():
        assert [cell for cell in said(ranges) if cell not in row(text, name)] == [], name
    assert "±0.5 K" in row(text, "temperature")
    assert thermometer.limit_of_temperature() == (0.5, 0.1)


def test_the_page_tells_every_misuse():
    """Each event stands on the page by its name."""
    text = PAGE.read_text(encoding="utf-8")
    assert [event.value for event in MeterEvent if f"| {event.value} |" not in text] == []
