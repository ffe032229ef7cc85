"""The picture of torque against the size of the capacitor, and the words that go with it."""

import math

import numpy as np
import pytest

from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_capacitors import Motor, size_figure

PRINT = {"run_r": "4.5 ohm", "run_x": "3.7 ohm", "start_r": "9.5 ohm", "start_x": "3.5 ohm"}


def test_the_printed_example_is_marked():
    """Fitzgerald, Kingsley, Umans, Example 9.1: 176 µF for 90° (read in a textbook companion)."""
    text = size_figure(**PRINT).text

    assert "90° between the currents: 176.2 µF" in text
    assert "90° apart" in text
    assert text.endswith("So 90° is not where the torque is highest.")


def test_the_marks_lie_on_the_tops_of_the_curves():
    """Every size in steps of 0.05 µF tried: none has more torque, or more torque per amp, than the marked one."""
    motor = Motor(4.5 + 3.7j, 9.5 + 3.5j, 120.0, 60.0)
    tried = np.arange(50e-6, 600e-6, 0.05e-6)
    found = motor.at(tried)

    assert tried[found.torque_product.argmax()] == pytest.approx(motor.sizes["most torque"], abs=0.05e-6)
    assert tried[found.torque_per_amp.argmax()] == pytest.approx(motor.sizes["most torque per amp"], abs=0.05e-6)


def test_angle_at_the_size_for_quadrature_by_hand():
    """With X_C = 3.5 + 9.5·4.5/3.7 the start branch's angle is that of the run winding less 90°."""
    ohm = 3.5 + 9.5 * 4.5 / 3.7
    angle = math.degrees(math.atan2(3.7, 4.5) - math.atan2(3.5 - ohm, 9.5))

    assert angle == pytest.approx(90.0)
    farad = Motor(4.5 + 3.7j, 9.5 + 3.5j, 120.0, 60.0).sizes["90° between the currents"]
    assert farad == pytest.approx(1 / (2 * math.pi * 60 * ohm))


def test_picture_shows_two_curves_and_three_marks():
    """Two curves told apart by their dashes, three marks told apart by their shape, and the words under it."""
    picture = size_figure(**PRINT)
    lines = picture.figure.axes[0].get_lines()
    curves = [line for line in lines if len(line.get_xdata()) > 10]

    assert {line.get_linestyle() for line in curves} == {"-", "--"}
    assert {line.get_marker() for line in lines} >= {"o", "s", "D"}
    assert picture.text in picture._repr_html_().replace("&#x27;", "'")


@pytest.mark.parametrize(
    ("changed", "error", "message"),
    [
        ({"run_r": "4.5"}, AnswerError, r'run_r: "4\.5" has no unit'),
        ({"start_x": "0 ohm"}, InputError, "start_x is 0 ohm; it must be above zero"),
        ({"frequency": "60 V"}, AnswerError, "frequency: "),
    ],
)
def test_what_cannot_be_is_said_by_name(changed, error, message):
    """The message begins with the entry."""
    with pytest.raises(error, match=message):
        size_figure(**{**PRINT, **changed})
