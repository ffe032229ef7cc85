"""The picture of a ghost against the meter's resistance, and the words that go with it."""

import math

import pytest

from coldwright.errors import InputError
from coldwright.panels.figures_safe_isolation import StrayWire, ghost_figure

WIRE = StrayWire(120.0, 60.0, 300e-12, 100e-12)


@pytest.mark.parametrize("load_ohm", [1e3, 3e3, 1e6, 10e6, 1e8])
def test_the_ghost_is_the_divider_by_hand(load_ohm):
    """Two capacitors in a row with the meter across one: |jωC₁R / (1 + jω(C₁ + C₂)R)| of the supply."""
    omega = 2 * math.pi * 60.0
    by_hand = abs(1j * omega * 300e-12 * load_ohm / (1 + 1j * omega * 400e-12 * load_ohm)) * 120.0
    assert WIRE.shown(load_ohm) == pytest.approx(by_hand, rel=1e-6)


def test_limits_of_the_ghost():
    """An ideal meter sees the share of the capacitances, 300 of 400; a very low one sees next to nothing."""
    assert WIRE.shown(1e12) == pytest.approx(90.0, rel=1e-4)
    assert WIRE.shown(1.0) < 1e-4


def test_a_live_wire_keeps_its_volts():
    """On the low input a closed switch leaves all but the drop in it, 0.05 Ω of 3 kΩ."""
    assert WIRE.shown(3e3, closed=True) == pytest.approx(120.0, rel=1e-4)


def test_words_and_picture_say_the_same():
    """The text has the volts on both inputs; the curve passes through them."""
    picture = ghost_figure("120 V", "60 Hz")
    assert (
        f"a meter of 10 MΩ shows {WIRE.shown(10e6):.0f} V, and one of 3 kΩ shows {WIRE.shown(3e3):.2f} V"
        in picture.text
    )
    ghost = picture.figure.axes[0].lines[0].get_ydata()
    assert max(ghost) == pytest.approx(WIRE.shown(1e8))


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ({"supply": "loud"}, "^supply: "),
        ({"hertz": "0 Hz"}, "^hertz is 0 Hz; it must be above zero"),
        ({"to_live": "3 ohm"}, "^to_live: "),
    ],
)
def test_bad_input_is_named(typed, message):
    """Each message begins with the name of what was typed."""
    with pytest.raises(InputError, match=message):
        ghost_figure(**typed)


@pytest.mark.parametrize("typed", [{}, {"to_live": "1 nF", "to_earth": "10 pF"}, {"supply": "120 V", "hertz": "60 Hz"}])
def test_the_words_in_the_picture_lie_on_no_line(typed):
    """They stand above the live wire's line, which no other line passes, and inside the axes."""
    axes = ghost_figure(**typed).figure.axes[0]
    highest = max(float(max(line.get_ydata())) for line in axes.lines if len(line.get_xdata()) > 2)
    axes.figure.draw_without_rendering()
    assert len(axes.texts) == 2
    for words in axes.texts:
        low, high = axes.transData.inverted().transform(words.get_window_extent())[:, 1]
        assert highest < low
        assert high < axes.get_ylim()[1]
