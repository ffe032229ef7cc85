"""The picture of volts against time, and the words that go with it."""

import math

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_stored_charge import discharge_figure


def test_a_bus_is_too_slow_for_one_minute():
    """220 µF · 220 kΩ = 48.4 s; · ln(325/50) = 90.6 s; after 60 s 325 · e^(-60/48.4) = 94.1 V."""
    text = discharge_figure("220 uF", "325 V", "220 kohm").text

    assert "11.6 J" in text
    assert "After one R times C, 48.4 s, 120 V are left." in text
    assert "It meets the safe line of 50 V after 90.6 s; measure all the same." in text
    ohm = 60 / (220e-6 * math.log(325 / 50))
    assert f"After one minute 94.1 V is left, so it is too slow: at most {ohm / 1e3:.0f} kΩ would do." in text


def test_a_start_capacitor_with_its_bleed_resistor_is_quick():
    """180 µF · 15 kΩ · ln(233/50) = 4.16 s, and nothing is left after a minute."""
    text = discharge_figure("180 uF", "233 V", "15 kohm").text

    assert "50 V after 4.16 s" in text
    assert "After one minute next to nothing is left, so it keeps the rule of one minute." in text


@pytest.mark.parametrize(
    ("volts", "resistor", "words"),
    [
        ("233 V", "OL", "the line stays flat, and it never gets below 50 V by itself"),
        ("33 V", "15 kohm", "from the start"),
    ],
)
def test_limit_cases(volts, resistor, words):
    """Nothing across it: it never falls. Below the line already: said so."""
    assert words in discharge_figure("180 uF", volts, resistor).text


def test_the_line_drawn_is_the_exponential():
    """Every point is V · exp(-t/RC), and the dot sits where it meets 50 V."""
    axes = discharge_figure("220 uF", "325 V", "220 kohm").figure.axes[0]
    curve = next(line for line in axes.lines if line.get_label() == "volts left")
    (dot,) = (line for line in axes.lines if line.get_marker() == "o")

    for seconds, volts in zip(curve.get_xdata(), curve.get_ydata(), strict=True):
        assert volts == pytest.approx(325 * math.exp(-seconds / 48.4))
    assert (list(dot.get_xdata()), list(dot.get_ydata())) == ([pytest.approx(48.4 * math.log(6.5))], [50.0])


def test_picture_and_words_stand_together():
    """In a notebook the words are the picture's label and stand under it; as text they are the words alone."""
    picture = discharge_figure("180 uF", "233 V", "OL")

    assert picture._repr_html_().count("the line stays flat") == 2
    assert repr(picture) == picture.text


def test_what_cannot_be_read_is_said():
    """The entry and the rule stand in the message."""
    with pytest.raises(AnswerError, match=r'capacitance: "180" has no unit'):
        discharge_figure("180", "233 V", "15 kohm")
    with pytest.raises(InputError, match="volts is 0 V; it must be above zero"):
        discharge_figure("180 uF", "0 V", "15 kohm")
    with pytest.raises(InputError, match="resistor is 0 ohm; it must be above zero"):
        discharge_figure("180 uF", "233 V", "0 ohm")


def test_the_point_on_the_safe_line_calls_for_a_meter():
    """Neither words nor legend say "safe after": a number is no proof."""
    picture = discharge_figure("220 uF", "325 V", "220 kohm")
    labels = [text.get_text() for text in picture.figure.axes[0].get_legend().get_texts()]
    assert "50 V after 90.6 s; measure all the same" in labels
    assert "measure all the same" in picture.text
    assert "safe after" not in " ".join([*labels, picture.text])
