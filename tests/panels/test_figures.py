"""The picture of resistance against temperature, and the words that go with it."""

import pytest

from coldwright.errors import AnswerError
from coldwright.panels import winding_figure


def test_heat_hides_shorted_turns() -> None:
    """4.05 Ω fits 4.10 Ω ± 7 % at 20 °C; at 85 °C copper's band starts at 3.813 · 319.5 / 254.5 = 4.79 Ω."""
    text = winding_figure("4.05 ohm", "85 °C", "4.10 ohm").text

    assert "At 20 °C it is 3.81 Ω to 4.39 Ω; at 85 °C it is 4.79 Ω to 5.51 Ω." in text
    assert "There it lies below the band. The winding is too low for its temperature: turns are shorted." in text
    assert "Heat hides it" in text


def test_only_warm() -> None:
    """5.0 Ω is above the band at 20 °C and inside it at 85 °C."""
    text = winding_figure("5.00 ohm", "185 °F", "4.10 ohm").text

    assert "There it lies inside the band. The winding is as its maker made it. It is only warm" in text


@pytest.mark.parametrize(("reading", "words"), [("3.5 ohm", "below the band"), ("4.9 ohm", "above the band")])
def test_cold_readings_outside_the_band(reading: str, words: str) -> None:
    """At 20 °C the band itself decides, and no heat is blamed."""
    text = winding_figure(reading, "20 °C", "4.10 ohm").text

    assert words in text
    assert "only warm" not in text
    assert "Heat hides" not in text


def test_the_meters_limit_counts_for_the_winding() -> None:
    """3.80 Ω lies 0.013 Ω under the band; a meter of ±(0.2 % + 3 digits) cannot tell it from the edge."""
    assert "inside the band" in winding_figure("3.80 ohm", "20 °C", "4.10 ohm").text
    assert "below the band" in winding_figure("3.800 ohm", "20 °C", "4.10 ohm", meter="0.1 % + 1 digit").text


def test_the_lines_drawn_are_those_of_copper() -> None:
    """The band's corners at 0 °C and 120 °C follow 4.1 Ω · (234.5 + t) / 254.5, less and plus 7 %."""
    picture = winding_figure("4.05 ohm", "85 °C", "4.10 ohm")
    axes = picture.figure.axes[0]
    corners = {tuple(round(float(x), 3) for x in point) for point in axes.collections[0].get_paths()[0].vertices}

    for celsius in (0.0, 120.0):
        middle = 4.1 * (234.5 + celsius) / 254.5
        assert {(celsius, round(middle * 0.93, 3)), (celsius, round(middle * 1.07, 3))} <= corners
    (dot,) = (line for line in axes.lines if line.get_marker() == "o")
    assert (list(dot.get_xdata()), list(dot.get_ydata())) == ([pytest.approx(85.0)], [4.05])


def test_picture_and_words_stand_together() -> None:
    """In a notebook the words are the picture's label and stand under it; as text they are the words alone."""
    picture = winding_figure("4.05 ohm", "85 °C", "4.10 ohm")
    html = picture._repr_html_()

    assert html.count("turns are shorted") == 2
    assert 'src="data:image/png;base64,' in html
    assert repr(picture) == picture.text


def test_what_cannot_be_read_is_said() -> None:
    """The entry and the form wanted stand in the message."""
    with pytest.raises(AnswerError, match=r'reading: "4\.05" has no unit'):
        winding_figure("4.05", "85 °C", "4.10 ohm")
