"""The one table of the units that a person may type, kind by kind.

A unit is SI = factor × number + offset, in exact fractions. Units whose capitals matter (m and M, K) are read only as
written here; all others in any case. Blanks inside a unit do not count, so "k ohm" is "kohm" and "deg C" is "degc".
"""

from fractions import Fraction
from typing import NamedTuple

from coldwright.quantities.kinds import Kind

INCH = Fraction("0.0254")
POUND = Fraction("0.45359237")
GRAVITY = Fraction("9.80665")  # standard gravity, exact by definition [m/s²]
MERCURY = Fraction("13595.1")  # conventional density [kg/m³]
PSI = POUND * GRAVITY / INCH**2
INCH_OF_MERCURY = MERCURY * GRAVITY * INCH
MICRON = MERCURY * GRAVITY * Fraction(1, 10**6)
HORSEPOWER = 550 * 12 * INCH * POUND * GRAVITY
BTU = Fraction("1055.05585262")  # International Table
ICE_POINT = Fraction("273.15")
PER_FAHRENHEIT = Fraction(5, 9)
FAHRENHEIT_ZERO = ICE_POINT - 32 * PER_FAHRENHEIT

MILLI, MICRO, NANO, PICO = (Fraction(1, 10**n) for n in (3, 6, 9, 12))


class Unit(NamedTuple):
    """One unit of one kind. `unclear` are spellings that a person could mean otherwise: they are asked about."""

    name: str
    spoken: str
    factor: Fraction
    offset: Fraction
    exact: frozenset[str]
    any_case: frozenset[str]
    unclear: frozenset[str]


def _unit(
    name: str,
    spoken: str,
    factor: Fraction | int,
    also: str = "",
    *,
    exact: str = "",
    unclear: str = "",
    offset: Fraction | int = 0,
) -> Unit:
    capitals_matter = name[:1] in ("m", "M", "K")
    plain = name.replace(" ", "")
    words = (spoken.replace(" ", ""), *also.split(), *(() if capitals_matter else (plain,)))
    exacts = frozenset((plain, *exact.split()))
    any_case = frozenset(word.casefold() for word in words)
    asked = frozenset(word.casefold() for word in (*unclear.split(), *exacts)) - any_case
    return Unit(name, spoken, Fraction(factor), Fraction(offset), exacts, any_case, asked)


_ABSOLUTE = ("a", "(a)", "abs", "(abs)", "absolute")
_GAUGE = ("g", "(g)", "gauge", "(gauge)", "gage")


def _pressure(root: str, name: str, spoken: str, factor: Fraction | int, marks: tuple[str, ...]) -> Unit:
    spellings = " ".join(root + mark for mark in marks)
    if root[0] in "mM":
        return _unit(name, spoken, factor, exact=spellings, unclear=root)
    return _unit(name, spoken, factor, spellings, unclear=root)


def _absolute(root: str, name: str, spoken: str, factor: Fraction | int) -> Unit:
    return _pressure(root, name, f"{spoken} absolute", factor, _ABSOLUTE)


def _gauge(root: str, name: str, spoken: str, factor: Fraction | int) -> Unit:
    return _pressure(root, name, f"{spoken} gauge", factor, _GAUGE)


UNITS: dict[Kind, tuple[Unit, ...]] = {
    Kind.RESISTANCE: (
        _unit("Ω", "ohm", 1, "ohms", exact="R"),
        _unit("kΩ", "kilohm", 10**3, "kilohms kiloohm kiloohms kohm kohms", unclear="k"),
        _unit("mΩ", "milliohm", MILLI, "milliohms", unclear="mohm mohms m"),
        _unit("MΩ", "megohm", 10**6, "megohms megaohm megaohms", exact="Mohm Mohms MOhm MOhms", unclear="M"),
        _unit("GΩ", "gigaohm", 10**9, "gigaohms gohm gohms"),
    ),
    Kind.VOLTAGE: (
        _unit("V", "volt", 1, "volts vac vdc"),
        _unit("mV", "millivolt", MILLI, "millivolts"),
        _unit("kV", "kilovolt", 10**3, "kilovolts"),
    ),
    Kind.CURRENT: (
        _unit("A", "ampere", 1, "amperes amp amps"),
        _unit("mA", "milliampere", MILLI, "milliamperes milliamp milliamps"),
        _unit("µA", "microampere", MICRO, "microamperes microamp microamps ua"),
    ),
    Kind.POWER: (
        _unit("W", "watt", 1, "watts"),
        _unit("kW", "kilowatt", 10**3, "kilowatts"),
        _unit("mW", "milliwatt", MILLI, "milliwatts"),
        _unit("hp", "horsepower", HORSEPOWER),
        _unit("Btu/h", "Btu per hour", BTU / 3600, "btuh btu/hr"),
    ),
    Kind.ENERGY: (
        _unit("J", "joule", 1, "joules"),
        _unit("mJ", "millijoule", MILLI, "millijoules"),
        _unit("kJ", "kilojoule", 10**3, "kilojoules"),
        _unit("MJ", "megajoule", 10**6, "megajoules"),
        _unit("Wh", "watt hour", 3600, "watthours"),
        _unit("kWh", "kilowatt hour", 3_600_000, "kilowatthours"),
        _unit("Btu", "Btu", BTU, "btus"),
    ),
    Kind.CAPACITANCE: (  # no mF: on old labels MF is a microfarad, so it is always asked about
        _unit("µF", "microfarad", MICRO, "microfarads uf mfd", unclear="mf"),
        _unit("nF", "nanofarad", NANO, "nanofarads"),
        _unit("pF", "picofarad", PICO, "picofarads"),
        _unit("F", "farad", 1, "farads"),
    ),
    Kind.CHARGE: (
        _unit("C", "coulomb", 1, "coulombs"),
        _unit("mC", "millicoulomb", MILLI, "millicoulombs"),
        _unit("µC", "microcoulomb", MICRO, "microcoulombs uc"),
    ),
    Kind.FREQUENCY: (
        _unit("Hz", "hertz", 1),
        _unit("kHz", "kilohertz", 10**3),
    ),
    Kind.TIME: (
        _unit("s", "second", 1, "seconds sec secs"),
        _unit("min", "minute", 60, "minutes min mins", unclear="m"),
        _unit("h", "hour", 3600, "hours hr hrs"),
        _unit("ms", "millisecond", MILLI, "milliseconds"),
    ),
    Kind.MASS: (
        _unit("g", "gram", MILLI, "grams gm gramme grammes"),
        _unit("kg", "kilogram", 1, "kilograms kilo kilos"),
        _unit("mg", "milligram", MICRO, "milligrams"),
        _unit("oz", "ounce", POUND / 16, "ounces"),
        _unit("lb", "pound", POUND, "pounds lbs"),
    ),
    Kind.LENGTH: (
        _unit("m", "metre", 1, "metres meter meters"),
        _unit("mm", "millimetre", MILLI, "millimetres millimeter millimeters"),
        _unit("cm", "centimetre", Fraction(1, 100), "centimetres centimeter centimeters"),
        _unit("in", "inch", INCH, 'inches "'),
        _unit("ft", "foot", 12 * INCH, "feet"),
    ),
    Kind.TEMPERATURE: (
        _unit("°C", "degree Celsius", 1, "degreesCelsius Celsius degC c", offset=ICE_POINT),
        _unit("°F", "degree Fahrenheit", PER_FAHRENHEIT, "degreesFahrenheit Fahrenheit degF f", offset=FAHRENHEIT_ZERO),
        _unit("K", "kelvin", 1, "kelvins", exact="°K"),
    ),
    Kind.TEMPERATURE_DIFFERENCE: (
        _unit("K", "kelvin", 1, "kelvins", exact="°K"),
        _unit("°C", "degree Celsius", 1, "degreesCelsius Celsius degC c c° celsiusdegree celsiusdegrees"),
        _unit(
            "°F",
            "degree Fahrenheit",
            PER_FAHRENHEIT,
            "degreesFahrenheit Fahrenheit degF f f° fahrenheitdegree fahrenheitdegrees",
        ),
    ),
    Kind.PRESSURE_ABSOLUTE: (
        _absolute("psi", "psia", "psi", PSI),
        _absolute("bar", "bara", "bar", 10**5),
        _absolute("kPa", "kPa abs", "kilopascal", 10**3),
        _absolute("Pa", "Pa abs", "pascal", 1),
        _absolute("MPa", "MPa abs", "megapascal", 10**6),
        _absolute("mbar", "mbar abs", "millibar", 100),
        _absolute("inHg", "inHg abs", "inch of mercury", INCH_OF_MERCURY),
        _unit("micron", "micron", MICRON, "microns"),
    ),
    Kind.PRESSURE_GAUGE: (
        _gauge("psi", "psig", "psi", PSI),
        _gauge("bar", "barg", "bar", 10**5),
        _gauge("kPa", "kPa gauge", "kilopascal", 10**3),
        _gauge("Pa", "Pa gauge", "pascal", 1),
        _gauge("MPa", "MPa gauge", "megapascal", 10**6),
        _gauge("mbar", "mbar gauge", "millibar", 100),
        _unit("inHg vac", "inch of mercury vacuum", -INCH_OF_MERCURY, "inhgvacuum", unclear="inHg"),
    ),
    Kind.RATIO: (
        _unit("", "", 1),
        _unit("%", "percent", Fraction(1, 100), "pct"),
    ),
}

EXAMPLES: dict[Kind, str] = {
    Kind.RESISTANCE: "4.2 ohm",
    Kind.VOLTAGE: "120 V",
    Kind.CURRENT: "1.3 A",
    Kind.POWER: "95 W",
    Kind.ENERGY: "0.8 J",
    Kind.CAPACITANCE: "15 uF",
    Kind.CHARGE: "2 mC",
    Kind.FREQUENCY: "60 Hz",
    Kind.TIME: "10 s",
    Kind.MASS: "85 g",
    Kind.LENGTH: "6.4 mm",
    Kind.TEMPERATURE: "-5 C",
    Kind.TEMPERATURE_DIFFERENCE: "8 K",
    Kind.PRESSURE_ABSOLUTE: "30 psia",
    Kind.PRESSURE_GAUGE: "12 psig",
    Kind.RATIO: "35 %",
}
