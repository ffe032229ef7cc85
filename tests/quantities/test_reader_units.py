"""Units as people type them: look-alike signs, capitals, blanks, and what is asked about instead of guessed."""

import pytest

from coldwright.errors import AnswerError
from coldwright.quantities import Kind, read


def refusal(text: str, kind: Kind) -> str:
    """The message with which a text is refused."""
    with pytest.raises(AnswerError) as caught:
        read(text, kind)
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("4.2 \u2126", Kind.RESISTANCE, 4.2),
        ("4.2\u03a9", Kind.RESISTANCE, 4.2),
        ("4.2 OHMS", Kind.RESISTANCE, 4.2),
        ("4.2 R", Kind.RESISTANCE, 4.2),
        ("4.2 k ohm", Kind.RESISTANCE, 4200.0),
        ("4.2 KOHM", Kind.RESISTANCE, 4200.0),
        ("4.2 Mohm", Kind.RESISTANCE, 4.2e6),
        ("4.2 megohm", Kind.RESISTANCE, 4.2e6),
        ("4.2 MΩ", Kind.RESISTANCE, 4.2e6),
        ("4.2 mΩ", Kind.RESISTANCE, 0.0042),
        ("4.2 Milliohm", Kind.RESISTANCE, 0.0042),
        ("15 \u00b5F", Kind.CAPACITANCE, 15e-6),
        ("15 \u03bcF", Kind.CAPACITANCE, 15e-6),
        ("15 MFD", Kind.CAPACITANCE, 15e-6),
        ("15 UF", Kind.CAPACITANCE, 15e-6),
        ("120 V AC", Kind.VOLTAGE, 120.0),
        ("-5 deg C", Kind.TEMPERATURE, 268.15),
        ("-5 \u2103", Kind.TEMPERATURE, 268.15),
        ("-5 \u00baC", Kind.TEMPERATURE, 268.15),
        ("300 \u212a", Kind.TEMPERATURE, 300.0),
        ("18 F\u00b0", Kind.TEMPERATURE_DIFFERENCE, 10.0),
        ("18 \u00b0F", Kind.TEMPERATURE_DIFFERENCE, 10.0),
        ("8 °C", Kind.TEMPERATURE_DIFFERENCE, 8.0),
        ("2 bar a", Kind.PRESSURE_ABSOLUTE, 2e5),
        ("101.3 kPa(abs)", Kind.PRESSURE_ABSOLUTE, 101300.0),
        ("1 kpa gauge", Kind.PRESSURE_GAUGE, 1000.0),
        ("0 in. Hg vac.", Kind.PRESSURE_GAUGE, 0.0),
        ('1 "', Kind.LENGTH, 0.0254),
        ("1 in.", Kind.LENGTH, 0.0254),
        ("35%", Kind.RATIO, 0.35),
        ("0.35", Kind.RATIO, 0.35),
    ],
)
def test_common_spellings_read(text: str, kind: Kind, value: float):
    """What people type for a unit, with either code point of Ω and µ, is read."""
    assert read(text, kind).value == pytest.approx(value, rel=1e-15)


M_AND_M = "; small m and capital M are not the same"


@pytest.mark.parametrize(
    ("text", "kind", "ending"),
    [
        ("4.2 mohm", Kind.RESISTANCE, "write mΩ (milliohm) or MΩ (megohm)" + M_AND_M),
        ("4.2 MOHM", Kind.RESISTANCE, "write mΩ (milliohm) or MΩ (megohm)" + M_AND_M),
        ("4.2 mOhms", Kind.RESISTANCE, "write mΩ (milliohm) or MΩ (megohm)" + M_AND_M),
        ("4.2 k", Kind.RESISTANCE, "write kΩ (kilohm)"),
        ("4.2 M", Kind.RESISTANCE, "write mΩ (milliohm) or MΩ (megohm)" + M_AND_M),
        ("15 mF", Kind.CAPACITANCE, "write µF (microfarad)" + M_AND_M),
        ("15 MF", Kind.CAPACITANCE, "write µF (microfarad)" + M_AND_M),
        ("3 MA", Kind.CURRENT, "write mA (milliampere)" + M_AND_M),
        ("3 Mv", Kind.VOLTAGE, "write mV (millivolt)" + M_AND_M),
        ("3 mj", Kind.ENERGY, "write mJ (millijoule) or MJ (megajoule)" + M_AND_M),
        (
            "1 mPa abs",
            Kind.PRESSURE_ABSOLUTE,
            "write MPa abs (megapascal absolute); small m and capital M are not the same",
        ),
        ("5 m", Kind.TIME, "write min (minute)" + M_AND_M),
        ("300 k", Kind.TEMPERATURE, "write K (kelvin)"),
    ],
)
def test_capitals_that_change_the_meaning_are_asked_about(text: str, kind: Kind, ending: str):
    """A spelling that could mean two sizes, or a wrong capital, is never guessed: the message offers the clear ones."""
    assert refusal(text, kind) == f'"{text}" is not clear: {ending}'


@pytest.mark.parametrize("kind", [Kind.PRESSURE_ABSOLUTE, Kind.PRESSURE_GAUGE])
@pytest.mark.parametrize(
    ("unit", "gauge", "absolute"),
    [
        ("psi", "psig (psi gauge)", "psia (psi absolute)"),
        ("bar", "barg (bar gauge)", "bara (bar absolute)"),
        ("kPa", "kPa gauge (kilopascal gauge)", "kPa abs (kilopascal absolute)"),
        ("in Hg", "inHg vac (inch of mercury vacuum)", "inHg abs (inch of mercury absolute)"),
    ],
)
def test_a_pressure_without_gauge_or_absolute_is_asked_about(kind: Kind, unit: str, gauge: str, absolute: str):
    """A bare pressure is refused for either kind, and both ways to write it are named."""
    assert refusal(f"12 {unit}", kind) == f'"12 {unit}" is not clear: write {gauge} or {absolute}'


@pytest.mark.parametrize(
    ("text", "kind", "rest"),
    [
        ("12 V", Kind.RESISTANCE, " is a voltage; a resistance is wanted, as in 4.2 ohm"),
        (
            "12 psi",
            Kind.RESISTANCE,
            " is an absolute pressure or a gauge pressure; a resistance is wanted, as in 4.2 ohm",
        ),
        ("12 psig", Kind.PRESSURE_ABSOLUTE, " is a gauge pressure; an absolute pressure is wanted, as in 30 psia"),
        ("12 psia", Kind.PRESSURE_GAUGE, " is an absolute pressure; a gauge pressure is wanted, as in 12 psig"),
        ("8 C°", Kind.TEMPERATURE, " is a temperature difference; a temperature is wanted, as in -5 C"),
        ("8 J", Kind.POWER, " is an energy; a power is wanted, as in 95 W"),
        (
            "-300 °C",
            Kind.TEMPERATURE,
            " cannot be: it lies below absolute zero (-273.15 °C, -459.67 °F); check the number and its unit",
        ),
        (
            "-5 psia",
            Kind.PRESSURE_ABSOLUTE,
            " cannot be: an absolute pressure is never below zero; was it a gauge pressure?",
        ),
        ("-20 inHg vac", Kind.PRESSURE_GAUGE, ": a vacuum is written without a minus sign, as in 20 inHg vac"),
        ("8 foo", Kind.FREQUENCY, ": this unit is not known here; a frequency is written in Hz or kHz, as in 60 Hz"),
        ("8", Kind.FREQUENCY, " has no unit; a frequency needs one: Hz or kHz, as in 60 Hz"),
        ("Hz", Kind.FREQUENCY, " does not start with a number; write the number first, nothing before it, as in 60 Hz"),
    ],
)
def test_a_wrong_missing_or_unknown_unit_says_what_is_wanted(text: str, kind: Kind, rest: str):
    """The message names what was typed, what it is, what is wanted, and an example."""
    assert refusal(text, kind) == f'"{text}"{rest}'


def test_absolute_zero_itself_reads():
    """The end of each scale belongs to it."""
    assert read("-273.15 C", Kind.TEMPERATURE).value == 0.0
    assert read("-459.67 F", Kind.TEMPERATURE).value == 0.0
    assert read("0 psia", Kind.PRESSURE_ABSOLUTE).value == 0.0
