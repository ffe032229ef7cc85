"""Every unit of the table, in every spelling, against pint, which comes from other hands."""

import math
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.quantities import Kind, in_unit, read, registry, to_si
from coldwright.quantities.units import EXAMPLES, UNITS, Unit

SI = {
    Kind.RESISTANCE: "ohm",
    Kind.VOLTAGE: "volt",
    Kind.CURRENT: "ampere",
    Kind.POWER: "watt",
    Kind.ENERGY: "joule",
    Kind.CAPACITANCE: "farad",
    Kind.CHARGE: "coulomb",
    Kind.FREQUENCY: "hertz",
    Kind.TIME: "second",
    Kind.MASS: "kilogram",
    Kind.LENGTH: "meter",
    Kind.TEMPERATURE: "kelvin",
    Kind.TEMPERATURE_DIFFERENCE: "kelvin",
    Kind.PRESSURE_ABSOLUTE: "pascal",
    Kind.PRESSURE_GAUGE: "pascal",
    Kind.RATIO: "dimensionless",
}
IN_PINT = {  # names that pint spells differently; all others are the same there
    "Ω": "ohm",
    "mΩ": "milliohm",
    "kΩ": "kiloohm",
    "MΩ": "megaohm",
    "GΩ": "gigaohm",
    "hp": "horsepower",
    "Btu": "Btu_it",
    "Btu/h": "Btu_it/hour",
    "Wh": "watt*hour",
    "kWh": "kilowatt*hour",
    "h": "hour",
    "in": "inch",
    "psia": "psi",
    "psig": "psi",
    "bara": "bar",
    "barg": "bar",
    "inHg": "inch_Hg",
    "micron": "millimeter_Hg",
    "": "dimensionless",
    "%": "percent",
}
TEMPERATURES = {"°C": "degC", "°F": "degF", "K": "kelvin"}
DIFFERENCES = {"°C": "delta_degC", "°F": "delta_degF", "K": "kelvin"}
TIMES = {"inHg vac": -1, "micron": 1 / 1000}
ALL = [(kind, unit) for kind, units in UNITS.items() for unit in units]
SPELLED = [(kind, unit, word) for kind, unit in ALL for word in sorted(unit.exact | unit.any_case)]
NAMES = [f"{kind.name}-{unit.name}" for kind, unit in ALL]

decimals = st.decimals(min_value=-99999, max_value=99999, allow_nan=False, allow_infinity=False, places=4)


def by_pint(value: float, kind: Kind, unit: Unit) -> float:
    """Value in SI by pint alone; our mark for gauge, absolute or vacuum taken off the name first."""
    special = {Kind.TEMPERATURE: TEMPERATURES, Kind.TEMPERATURE_DIFFERENCE: DIFFERENCES}.get(kind, IN_PINT)
    name = unit.name.partition(" ")[0]
    quantity = registry().Quantity(value * TIMES.get(unit.name, 1), registry().Unit(special.get(name, name)))
    return quantity.to(SI[kind]).magnitude


@pytest.mark.parametrize(("kind", "unit"), ALL, ids=NAMES)
def test_conversion_agrees_with_pint(kind: Kind, unit: Unit):
    """Factor and offset of each unit are those of an independent library, at several sizes."""
    for value in (-40.0, 0.0, 0.0031, 1.0, 98.6, 12345.0):
        assert to_si(value, kind, unit.name) == pytest.approx(by_pint(value, kind, unit), rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(
    ("value", "kind", "unit", "si"),
    [
        (-40, Kind.TEMPERATURE, "°F", 233.15),  # the two scales meet
        (-40, Kind.TEMPERATURE, "°C", 233.15),
        (212, Kind.TEMPERATURE, "°F", 373.15),
        (9, Kind.TEMPERATURE_DIFFERENCE, "°F", 5.0),
        (1, Kind.LENGTH, "in", 0.0254),  # exact by agreement
        (1, Kind.MASS, "lb", 0.45359237),  # exact by agreement
        (16, Kind.MASS, "oz", 0.45359237),
        (1, Kind.ENERGY, "kWh", 3.6e6),
    ],
)
def test_fixed_points_and_exact_units(value: float, kind: Kind, unit: str, si: float):
    """Points known by definition come out as the nearest float, and go back within what the kelvins can hold."""
    assert to_si(value, kind, unit) == si
    assert in_unit(si, kind, unit) == pytest.approx(value, abs=2e-13)


@settings(max_examples=400, deadline=None)
@given(decimals, st.sampled_from(SPELLED), st.booleans(), st.sampled_from(["", " ", "\u00a0", "\u202f"]))
def test_reading_any_number_in_any_spelling_agrees_with_pint(number, spelled, comma, blank):
    """What is typed in any spelling of any unit reads as pint's SI value, or is refused by a stated range rule."""
    kind, unit, word = spelled
    typed = str(number).replace(".", ",") if comma else str(number)
    si = by_pint(float(number), kind, unit)
    below_zero = kind in (Kind.TEMPERATURE, Kind.PRESSURE_ABSOLUTE) and si < 0
    if below_zero or (unit.name == "inHg vac" and number < 0):
        with pytest.raises(InputError, match=r"below absolute zero|never below zero|without a minus"):
            read(f"{typed}{blank}{word}", kind)
        return
    reading = read(f"{typed}{blank}{word}", kind)
    assert reading.value == pytest.approx(si, rel=1e-12, abs=1e-12)
    assert (reading.kind, reading.unit) == (kind, unit.name)
    assert Decimal(reading.number) == number
    assert reading.step == pytest.approx(abs(by_pint(1e-4, kind, unit) - by_pint(0.0, kind, unit)), rel=1e-6, abs=1e-16)


@settings(max_examples=300, deadline=None)
@given(st.floats(min_value=-1e9, max_value=1e9), st.sampled_from(ALL))
def test_there_and_back(value, chosen):
    """To SI and back gives the number again, within the last bits of the larger of the two."""
    kind, unit = chosen
    si = to_si(value, kind, unit.name)
    shift = abs(float(unit.offset / unit.factor))
    assert in_unit(si, kind, unit.name) == pytest.approx(value, rel=1e-15, abs=(abs(value) + shift) * 1e-15 + 1e-300)


@settings(max_examples=200, deadline=None)
@given(st.integers(1, 10**6), st.sampled_from(UNITS[Kind.RESISTANCE]))
def test_the_same_resistance_in_any_prefix_is_the_same_number(milliohms, unit):
    """One resistance typed with any prefix gives one and the same float, so it gets one and the same mark."""
    count = Decimal(milliohms) / Decimal(int(unit.factor * 1000))
    assert read(f"{count:.12f} {unit.name}", Kind.RESISTANCE).value == milliohms / 1000


@pytest.mark.parametrize("kind", list(Kind))
def test_each_kind_has_units_that_do_not_share_a_spelling_and_an_example_that_reads(kind: Kind):
    """No spelling of a kind stands for two units, each unit's name and spoken name read, and so does the example."""
    words = [word for unit in UNITS[kind] for word in {w.casefold() for w in unit.exact} | unit.any_case]
    clashes = {word for word in words if words.count(word) > 1}
    for word in clashes:  # only capitals tell these apart, so none of them may be read in any case
        assert not any(word in unit.any_case for unit in UNITS[kind]), word
    for unit in UNITS[kind]:
        for word in (unit.name, unit.spoken):
            assert read(f"5 {word}", kind).unit == unit.name
    assert read(EXAMPLES[kind], kind).kind is kind


def test_over_range_and_no_reading_pass_through():
    """Over-range (infinity) stays over-range, and what is no number stays none."""
    assert to_si(math.inf, Kind.RESISTANCE, "kΩ") == math.inf
    assert in_unit(math.inf, Kind.RESISTANCE, "kΩ") == math.inf
    assert in_unit(math.inf, Kind.PRESSURE_GAUGE, "inHg vac") == -math.inf
    assert math.isnan(in_unit(math.nan, Kind.VOLTAGE, "V"))


@pytest.mark.parametrize("convert", [to_si, in_unit])
@pytest.mark.parametrize("name", ["V", "mohm", "", "psi"])
def test_a_unit_of_another_kind_is_named(convert, name):
    """Converting with a wrong or unclear unit says which units the kind has."""
    with pytest.raises(InputError, match=f'^"{name}" is no unit of a resistance; use one of Ω, kΩ, mΩ, MΩ, GΩ$'):
        convert(1.0, Kind.RESISTANCE, name)
