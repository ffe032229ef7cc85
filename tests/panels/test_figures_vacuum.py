"""The picture of three decay tests, and the words that go with it."""

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_vacuum import vacuum_decay_figure
from coldwright.refrigerants.water import water_vapour_pressure

MICRON = 101_325.0 / 760_000


def lines(picture):
    """Lines of the picture by their labels."""
    return {line.get_label(): line for line in picture.figure.axes[0].lines}


@pytest.mark.parametrize("celsius", [15, 30])
def test_water_levels_at_its_line_and_the_leak_goes_past(celsius):
    """In an hour the wet one stands within 5 % of the vapour pressure (IAPWS); the leak is straight and passes it."""
    found = lines(vacuum_decay_figure(f"{celsius} °C", "90 min"))
    water = water_vapour_pressure(273.15 + celsius) / MICRON
    wet, leak, dry = (found[name].get_ydata() for name in ("water in it", "a leak", "dry and tight"))

    assert wet[-1] == pytest.approx(water, rel=0.05)
    assert wet[-1] - wet[-20] < 0.01 * wet[-1]
    assert leak[-1] - leak[60] == pytest.approx(leak[60] - leak[0], rel=0.05)
    assert leak[-1] > water
    assert max(dry) < 1000
    assert dry[-1] - dry[60] < 0.1 * dry[-1]


def test_the_words_say_what_is_drawn():
    """Every number that the picture is read for stands in the words too."""
    picture = vacuum_decay_figure()
    for words in ("from 300 microns", "Dry and tight", "the line of water at this temperature is at 17500 microns"):
        assert words in picture.text
    assert f'alt="{picture.text[:40]}' in picture._repr_html_()


def test_the_lines_are_told_apart_without_colour():
    """Each line has a style of its own."""
    styles = [line.get_linestyle() for line in vacuum_decay_figure().figure.axes[0].lines]
    assert len(set(styles)) == len(styles) == 4


def test_own_readings_are_drawn_and_read():
    """A straight rise of 500 microns a minute, typed: drawn as dots, and told to be a leak."""
    readings = [(f"{minute} min", f"{300 + 500 * minute} micron") for minute in range(0, 21, 2)]
    picture = vacuum_decay_figure(readings=readings)

    dots = lines(picture)["your readings"]
    assert list(dots.get_xdata()) == pytest.approx(list(range(0, 21, 2)))
    assert list(dots.get_ydata()) == pytest.approx([300 + 500 * minute for minute in range(0, 21, 2)])
    assert "Your 11 readings: leak; it goes on rising in a straight line" in picture.text


@pytest.mark.parametrize(
    ("asked", "error", "message"),
    [
        ({"temperature": "warm"}, AnswerError, r"^temperature: "),
        ({"temperature": "-20 °C"}, InputError, r"^temperature is -20 °C; the picture is made for 5 °C to 50 °C$"),
        ({"time": "0 min"}, InputError, r"^time is 0 min; it must be above zero"),
        ({"time": "20 h"}, InputError, r"^time is 20 h; the picture goes to 8 h at most$"),
        ({"readings": [("5 min", "650")]}, AnswerError, r"^pressure: "),
        ({"readings": [("5 min", "650 micron")]}, InputError, r"^there are 1 readings; a decay test needs at least 6$"),
    ],
)
def test_what_is_refused(asked, error, message):
    """Each message names what was typed and the rule."""
    with pytest.raises(error, match=message):
        vacuum_decay_figure(**asked)
