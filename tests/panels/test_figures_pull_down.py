"""The picture of a pull-down with the thermostat's band, and the words that go with it."""

import re

import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_pull_down import THERMOSTAT, pull_down, pull_down_figure


def number(pattern: str, text: str) -> float:
    """The number in the words."""
    found = re.search(pattern, text)
    assert found, text
    return float(found[1])


def test_the_words_agree_with_the_lines_drawn():
    """The dot stands at 5 °C at the hours told, on the line of the food; the band is that of the thermostat."""
    picture = pull_down_figure()
    axes = picture.figure.axes[0]
    (dot,) = (line for line in axes.lines if line.get_marker() == "o")
    assert float(dot.get_xdata()[0]) == pytest.approx(number(r"food only after ([\d.]+) h", picture.text), abs=0.05)
    food = next(line for line in axes.lines if line.get_label() == "food")
    at = min(range(len(food.get_xdata())), key=lambda i: abs(food.get_xdata()[i] - dot.get_xdata()[0]))
    assert food.get_ydata()[at] == pytest.approx(5.0, abs=0.1)
    band = (number(r"band is (-?[\d.]+) °C", picture.text), number(r"°C to (-?[\d.]+) °C at its sensor", picture.text))
    assert band == pytest.approx((THERMOSTAT.cut_out_k - 273.15, THERMOSTAT.cut_in_k - 273.15), abs=0.05)


def test_a_damaged_gasket_shows_in_duty_and_energy_before_the_temperature():
    """More duty, more kWh and a later pull-down, while the food stays nearly as cold."""
    sound, damaged = pull_down("25 °C", "15 kg", "0 cm", "150 W"), pull_down("25 °C", "15 kg", "50 cm", "150 W")
    assert damaged.day.duty > 1.1 * sound.day.duty
    assert damaged.day.kwh > 1.1 * sound.day.kwh
    assert damaged.record.time_to(278.15) > sound.record.time_to(278.15)
    assert damaged.day.product_k == pytest.approx(sound.day.product_k, abs=0.3)


def test_duty_told_is_load_over_capacity():
    """Duty is the heat load over what is taken out on average while it runs, within 5 %."""
    found = pull_down("25 °C", "15 kg", "0 cm", "150 W")
    record = found.record
    settled = record.time_s > 36 * 3600
    taken, ran = (values[settled] for values in (record.taken_j, record.running_s))
    capacity = (taken[-1] - taken[0]) / (ran[-1] - ran[0])
    assert found.day.duty == pytest.approx(found.load.total / capacity, rel=0.05)


def test_too_little_capacity_is_told():
    """20 W never cool it: the words say so, and no dot is drawn."""
    picture = pull_down_figure(room="43 °C", capacity="20 W")
    assert "runs 100% of the time" in picture.text
    assert "was never at 5 °C" in picture.text
    assert not [line for line in picture.figure.axes[0].lines if line.get_marker() == "o"]


def test_nothing_hangs_on_colour():
    """Air, food and rule have line styles of their own, the band is hatched."""
    axes = pull_down_figure().figure.axes[0]
    styles = [line.get_linestyle() for line in axes.lines if line.get_marker() == "None"]
    assert sorted(styles) == ["-", "--", ":"]
    assert any(patch.get_hatch() for patch in axes.patches)


def test_both_systems_of_units():
    """77 °F and 33.07 lb are 25 °C and 15 kg: the same words."""
    assert pull_down_figure("77 °F", "33.0693 lb").text == pull_down_figure("25 °C", "15 kg").text


@pytest.mark.parametrize(
    ("given", "error", "message"),
    [
        ({"room": "warm"}, AnswerError, r"^room: "),
        ({"contents": "15 °C"}, AnswerError, r"^contents: "),
        ({"room": "-4 °C"}, InputError, r"^room is -4 °C; a pull-down begins warmer than 4 °C"),
        ({"room": "200 °C"}, InputError, r"^the room is 473\.15 K \(200 °C\); it must be from -50 °C to 60 °C"),
        ({"capacity": "0.15 W"}, InputError, r"^the capacity is 0\.15 W; .* Was it in kW\? 0\.15 kW is 150 W$"),
        ({"damaged_gasket": "20 m"}, InputError, r"^the damaged length of the gasket is 20 m; .* Was it in mm\?"),
    ],
)
def test_what_cannot_be(given, error, message):
    """The input is named, with the rule and the likely slip."""
    with pytest.raises(error, match=message):
        pull_down_figure(**given)
