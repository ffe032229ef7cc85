"""The p-h chart with a cycle on it, and the words that go with it."""

import math
import re
from itertools import pairwise

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_ph import cycle_figure, readings_figure
from coldwright.panels.ph_chart import dome, isotherm
from coldwright.refrigerants.saturation import dew_pressure, latent_heat


def number(text: str, pattern: str) -> float:
    """The number that stands in the words at a place."""
    return float(re.search(pattern, text)[1])


def test_the_printed_cycle_stands_in_the_words():
    """Borgnakke & Sonntag, Example 11.6 (inputs and results in a textbook companion): COP 3.06, 1017 kPa."""
    text = cycle_figure("R-134a", "-20 °C", "40 °C", "0 K", "0 K", "100 %").text

    assert "COP 3.06;" in text
    assert "2 discharge: 10.17 bar absolute" in text
    assert "4 evaporator inlet: 1.33 bar absolute, -20.0 °C, 256" in text


def test_the_words_close_the_energy():
    """Heat taken up and work add to the heat given off, and COP is their ratio, in the words themselves."""
    text = cycle_figure(exchanger="60 %").text
    cold = number(text, r"takes up ([0-9.]+) kJ of heat")
    work = number(text, r"and ([0-9.]+) kJ of work")
    assert cold + work == pytest.approx(number(text, r"gives off ([0-9.]+) kJ"), abs=0.16)
    assert cold / work == pytest.approx(number(text, r"COP ([0-9.]+);"), abs=0.006)
    assert number(text, r"exchanger moves ([0-9.]+) kJ") > 0


def test_fahrenheit_is_the_same_cycle():
    """-4 °F and 113 °F are -20 °C and 45 °C."""
    assert cycle_figure(evaporating="-4 °F", condensing="113 °F").text == cycle_figure().text


def test_the_chart_shows_the_points_told_in_words():
    """Each point has its own mark and number, and lies where the words say; lines differ by their dashes."""
    picture = cycle_figure()
    axes = picture.figure.axes[0]
    told = re.findall(r"\d ([a-z ]+): ([0-9.]+) bar absolute, [-0-9.]+ °C, ([0-9.]+) kJ/kg", picture.text)
    drawn = {
        line.get_label()[2:]: line
        for line in axes.lines
        if len(line.get_xdata()) == 1 and line.get_label()[0].isdigit()
    }

    assert len(told) == len(drawn) == 4
    for name, bar, kilojoule in told:
        point = drawn[name]
        assert float(point.get_xdata()[0]) == pytest.approx(float(kilojoule), abs=0.06)
        assert float(point.get_ydata()[0]) == pytest.approx(float(bar), abs=0.006)
    assert len({line.get_marker() for line in drawn.values()}) == 4
    styles = {line.get_label(): line.get_linestyle() for line in axes.lines}
    assert styles["saturated liquid"] != styles["saturated vapour"]
    assert picture.text in picture._repr_html_().replace("&#x27;", "'")


def test_the_cycle_is_drawn_as_a_closed_line():
    """The line of the cycle ends where it began."""
    (line,) = (line for line in cycle_figure(exchanger="50 %").figure.axes[0].lines if line.get_label() == "the cycle")
    assert (line.get_xdata()[0], line.get_ydata()[0]) == (line.get_xdata()[-1], line.get_ydata()[-1])
    assert len(line.get_xdata()) == 7


def test_the_dome_is_as_wide_as_the_latent_heat():
    """Between the two lines of the dome lies the heat of evaporation; they come together towards the top."""
    (liquid, bars), (vapour, same) = dome("R-134a", 1e5)
    assert bars == pytest.approx(same)
    for place in (0, 10):
        assert vapour[place] - liquid[place] == pytest.approx(latent_heat("R-134a", bars[place] * 1e5) / 1e3, abs=0.01)
    widths = [v - f for v, f in zip(vapour, liquid, strict=True)]
    assert widths == sorted(widths, reverse=True)
    assert widths[-1] < 0.2 * widths[0]


def test_an_isotherm_is_level_under_the_dome():
    """At 20 °C R-134a crosses the dome at its vapour pressure; above the critical temperature nothing is level."""
    _, bars = isotherm("R-134a", 20.0, 1e5, 30e5)
    level = dew_pressure("R-134a", 293.15) / 1e5
    assert sum(bar == pytest.approx(level, rel=1e-6) for bar in bars) >= 2
    _, above = isotherm("R-134a", 120.0, 1e5, 30e5)
    assert all(a > b for a, b in pairwise(above))


def test_readings_give_their_spread():
    """Coarser instruments leave more ±; superheat ± is at least the thermometer's."""
    fine = readings_figure(low_limit="0.01 bar gauge", high_limit="0.05 bar gauge", thermometer="0.5 K").text
    coarse = readings_figure(low_limit="0.05 bar gauge", high_limit="0.5 bar gauge", thermometer="2 K").text
    pattern = r"±([0-9.]+) K in superheat"
    assert 0.5 <= number(fine, pattern) < 2 <= number(coarse, pattern)
    assert number(fine, r"±([0-9.]+) in COP") < number(coarse, r"±([0-9.]+) in COP")


def test_a_gauge_on_a_mountain_reads_higher():
    """At 1600 m the air has some 17 kPa less (standard atmosphere): the same reading boils colder."""
    pattern = r"It evaporates at ([-0-9.]+) °C"
    sea, mountain = number(readings_figure().text, pattern), number(readings_figure(altitude="1600 m").text, pattern)
    assert mountain < sea - 2
    assert math.isclose(number(readings_figure(altitude="0 ft").text, pattern), sea)


def test_readings_show_the_perfect_compressor_too():
    """The measured chart has one more line, from suction to where a perfect compressor would end."""
    labels = {line.get_label() for line in readings_figure().figure.axes[0].lines}
    assert "a perfect compressor" in labels
    assert "a perfect compressor" not in {line.get_label() for line in cycle_figure().figure.axes[0].lines}
    assert "6 evaporator outlet" in labels
    assert "evaporator outlet" not in readings_figure(evaporator_outlet="").text


def test_a_blend_is_drawn_too():
    """R-404A has a chart as well, and a spelling of a name is taken as on the plate."""
    assert cycle_figure("R404A").text.startswith("Pressure-enthalpy chart of R-404A.")


@pytest.mark.parametrize(
    ("typed", "error", "message"),
    [
        ({"evaporating": "-20"}, AnswerError, r'^evaporating: "-20" has no unit'),
        ({"efficiency": "160 %"}, InputError, r"^isentropic efficiency is 1\.6; it must be above 0"),
        ({"superheat": "-3 K"}, InputError, r"^superheat is -3 K"),
        ({"condensing": "-30 °C"}, InputError, "Were they swapped"),
        ({"refrigerant": "R-143z"}, InputError, "R-143z"),
    ],
)
def test_what_cannot_be_is_said_by_name(typed, error, message):
    """The message begins with the entry, or names the thing, the rule and the slip."""
    with pytest.raises(error, match=message):
        cycle_figure(**typed)


def test_readings_that_cannot_be_are_said_by_name():
    """A pressure without gauge or absolute is asked about; swapped hoses are named."""
    with pytest.raises(AnswerError, match=r"^suction: "):
        readings_figure(suction="0.3 bar")
    with pytest.raises(InputError, match="Were the hoses swapped"):
        readings_figure(suction="10.6 bar gauge", discharge="0.3 bar gauge")
