"""The picture of trip time against current, and the words that go with it."""

import re
from pathlib import Path

import pytest

from coldwright.electrical.overload import Overload
from coldwright.errors import AnswerError, InputError
from coldwright.panels.figures_overloads import trip_curves, trip_figure
from coldwright.quantities.constants import ICE_POINT_K


def test_the_words_give_the_model_s_times() -> None:
    """Cold and warm times in the words are those of IEC 60255-8's formula, worked out here from the heater's data.

    t = τ ln[(I² - Io²) / (I² - Iu²)] as quoted in a handbook on electrical engineering for plants, section 12.7.1.
    """
    import math

    text = trip_figure("Tarn 11", "15 A", "85 °C", "25 °C").text
    cold, warm = map(float, re.findall(r"in ([0-9.]+) s", text))
    tau, rise = 2.6 / 0.04, 15.0**2 * 0.13 / 0.04
    assert cold == pytest.approx(tau * math.log(rise / (rise - (115 - 25))), abs=0.06)
    around = 0.4 * 85 + 0.6 * 25
    assert warm == pytest.approx(tau * math.log((rise + around - 62) / (rise + around - 115)), abs=0.06)


def test_a_hot_shell_lets_it_open_sooner_and_at_less() -> None:
    """Less time at the same amps, and a lower figure below which it never opens."""
    text = trip_figure(shell="85 °C").text
    cold, warm = map(float, re.findall(r"[Bb]elow ([0-9.]+) A", text))
    assert warm < cold
    curves = trip_curves("Tarn 21", "90 °C", "25 °C")
    assert all(curves.warm(a) < curves.cold(a) for a in (3.0, 5.0, 8.0))


def test_below_the_lowest_amps_it_never_opens() -> None:
    """1.8 A, the running amps, never open it: said in words."""
    assert "it opens never from cold" in trip_figure(amps="1.8 A", shell="45 °C").text


def test_the_lines_drawn_pass_through_the_point_of_the_sheet() -> None:
    """The dotted rule passes the square, and the cold curve comes within a tenth of a second of it at 25 °C."""
    picture = trip_figure("Tarn 22", "7 A", "60 °C", "25 °C")
    axes = picture.figure.axes[0]
    (square,) = (line for line in axes.lines if line.get_marker() == "s")
    amps, seconds = float(square.get_xdata()[0]), float(square.get_ydata()[0])
    cold = axes.lines[0]
    nearest = min(zip(cold.get_xdata(), cold.get_ydata(), strict=True), key=lambda point: abs(point[0] - amps))
    assert isinstance(trip_curves("Tarn 22", "60 °C", "25 °C").overload, Overload)
    assert nearest[1] == pytest.approx(seconds * (amps / nearest[0]) ** 2, abs=0.15)
    assert axes.get_ylabel() == "seconds until it opens"


def test_fahrenheit_is_the_same_temperature() -> None:
    """185 °F is 85 °C."""
    assert trip_figure(shell="185 °F", room="77 °F").text == trip_figure(shell="85 °C", room="25 °C").text
    assert trip_curves("Tarn 11", "185 °F", "77 °F").shell_k == pytest.approx(ICE_POINT_K + 85)


@pytest.mark.parametrize(
    ("typed", "error", "message"),
    [
        ({"amps": "15"}, AnswerError, "amps: "),
        ({"amps": "0 A"}, InputError, "amps is 0 A; it must be above zero"),
        ({"shell": "hot"}, AnswerError, "shell: "),
        ({"shell": "20 °C"}, InputError, "a shell is never colder. Were they swapped"),
        ({"model": "Tarn 28"}, InputError, "the cooler Tarn 28 has no overload of its own"),
        ({"model": "Tarn 99"}, InputError, "there is no cooler 'Tarn 99'"),
    ],
)
def test_what_cannot_be_is_said(typed: dict[str, str], error: type[Exception], message: str) -> None:
    """The message names the entry and the rule."""
    with pytest.raises(error, match=message):
        trip_figure(**typed)


def test_the_typed_amps_have_a_line_of_their_own_and_nothing_is_covered() -> None:
    """Typed amps are dash-dot beside the two solid lines of the plate, and the legend lies outside the axes."""
    figure = trip_figure("Tarn 11", "15 A").figure
    (axes,) = figure.axes
    upright = [line for line in axes.lines if len(set(line.get_xdata())) == 1 and len(line.get_xdata()) == 2]
    assert sorted(line.get_linestyle() for line in upright) == ["-", "-", "-."]
    (typed,) = (line for line in upright if line.get_linestyle() == "-.")
    assert (float(typed.get_xdata()[0]), typed.get_label()) == (15.0, "15.0 A as typed")
    figure.draw_without_rendering()
    assert axes.get_legend() is None
    (legend,) = figure.legends
    assert not legend.get_window_extent().overlaps(axes.get_window_extent())


def test_the_lesson_and_the_words_agree_on_the_lowest_amps() -> None:
    """The lesson's example, 5.26 A · √(66 / 90), by hand 4.504 A, is the figure's at 85 °C to the digits both give."""
    lesson = Path(__file__).parents[2] / "source_notebooks" / "06_overloads" / "lesson.py"
    (said,) = re.findall(r"√\(66 / 90\) = ([0-9.]+) A", lesson.read_text(encoding="utf-8"))
    assert f"with the shell that hot, below {said} A" in trip_figure(shell="85 °C", room="25 °C").text
    assert float(said) == pytest.approx(5.26 * (66 / 90) ** 0.5, abs=0.05)
