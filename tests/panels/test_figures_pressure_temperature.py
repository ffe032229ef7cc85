"""The picture of gauge pressure against temperature, and the words that go with it."""

import re

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_pressure_temperature import pressure_temperature, pressure_temperature_figure


def test_the_printed_pressure_stands_in_the_words():
    """R-134a at 0 °C: 292.8 kPa absolute (tables of the refrigerant, from memory), 1.91 bar on a gauge at sea level."""
    text = pressure_temperature_figure("R-134a").text
    assert "0 °C 1.91;" in text


def test_a_reading_of_zero_is_the_normal_boiling_point():
    """At sea level a gauge at 0 stands at the normal boiling point: R-134a -26.1 °C, R-600a -11.7 °C (from memory)."""
    text = pressure_temperature_figure("R-134a, R-600a", "0 bar gauge").text
    assert "There R-134a boils at -26.1 °C (-15 °F)." in text
    assert "There R-600a boils at -11.7 °C (11 °F)." in text


def test_a_blend_has_two_lines_and_two_temperatures():
    """R-404A: bubble below dew in temperature, above in pressure; both are named with what they are for."""
    picture = pressure_temperature_figure("R-404A", "5 bar gauge")
    bubble, dew = map(float, re.findall(r"(-?[0-9.]+) °C \(-?[0-9]+ °F; (?:bubble|dew)", picture.text))
    assert 0.3 < dew - bubble < 1.0
    found = pressure_temperature("R-404A")
    assert found.gauge("R-404A", 0.0) > found.gauge("R-404A", 0.0, dew=True)
    labels = {line.get_label(): line.get_marker() for line in picture.figure.axes[0].lines}
    assert labels["R-404A, bubble"] != labels["R-404A, dew"]


def test_lines_are_told_apart_without_colour():
    """Each refrigerant has its own dashes."""
    lines = pressure_temperature_figure("R-134a, R-600a, R-290, R-22").figure.axes[0].lines
    styles = {line.get_label(): line.get_linestyle() for line in lines}
    assert len({styles[name] for name in ("R-134a", "R-600a", "R-290", "R-22")}) == 4


def test_the_mark_lies_on_line_and_reading():
    """The square stands at the reading and on the refrigerant's own line."""
    picture = pressure_temperature_figure("R-134a", "3.0 bar gauge")
    (square,) = (line for line in picture.figure.axes[0].lines if line.get_marker() == "s")
    celsius, bar = float(square.get_xdata()[0]), float(square.get_ydata()[0])
    assert bar == pytest.approx(3.0)
    assert pressure_temperature("R-134a").gauge("R-134a", celsius) == pytest.approx(3.0, abs=1e-6)


def test_psi_and_feet_are_the_same_chart():
    """14.504 psig is 1.0000 bar; 1000 m is 3280.84 ft."""
    one = pressure_temperature_figure("R-134a", "1.0 bar gauge", "1000 m").text
    assert pressure_temperature_figure("R-134a", "14.504 psig", "3280.84 ft").text == one


def test_height_moves_the_whole_scale():
    """At 1600 m the air has less: every temperature reads higher on the gauge by the same amount."""
    low, high = pressure_temperature("R-134a"), pressure_temperature("R-134a", altitude="1600 m")
    rise = (low.air_pa - high.air_pa) / 1e5
    assert 0.15 < rise < 0.20
    for celsius in (-30.0, 0.0, 40.0):
        assert high.gauge("R-134a", celsius) - low.gauge("R-134a", celsius) == pytest.approx(rise, rel=1e-9)


def test_a_pressure_without_a_boiling_point_is_said():
    """Above its critical pressure R-134a does not boil, and the words say so; no mark is drawn."""
    picture = pressure_temperature_figure("R-134a", "45 bar gauge")
    assert picture.text.endswith("R-134a does not boil at this pressure.")
    assert not [line for line in picture.figure.axes[0].lines if line.get_marker() == "s"]


def test_picture_and_words_stand_together():
    """In a notebook the words are the picture's label and stand under it."""
    picture = pressure_temperature_figure()
    assert picture._repr_html_().count("a gauge shows 0 in it") == 2
    assert repr(picture) == picture.text


@pytest.mark.parametrize(
    ("typed", "error", "message"),
    [
        ({"reading": "1.0 bar"}, AnswerError, "^reading: "),
        ({"reading": "-2 bar gauge"}, InputError, "vacuum"),
        ({"altitude": "high"}, AnswerError, "^altitude: "),
        ({"altitude": "16000 m"}, InputError, "Was it in feet"),
        ({"refrigerants": "R-134a, R-143z"}, InputError, "R-143z"),
        ({"refrigerants": "R-134a, R-600a, R-290, R-22, R-12"}, InputError, "^5 refrigerants are given; 4 lines"),
    ],
)
def test_what_cannot_be_is_said_by_name(typed, error, message):
    """The message begins with the entry, or names the rule."""
    with pytest.raises(error, match=message):
        pressure_temperature_figure(**typed)
