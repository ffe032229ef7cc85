"""The clamp meter, and what an instrument on hold keeps."""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coldwright.errors import InputError
from coldwright.instruments.clamp import ClampMeter, limit_of_clamp
from coldwright.instruments.display import Error
from coldwright.instruments.hold import WINDOW_S, largest_rms, lowest_rms
from tests.instruments.circuits import Live

STAND = st.floats(-0.7, 0.7)


@given(st.floats(0, 399), STAND, STAND)
def test_amps_are_within_the_accuracy(amps, gain, offset):
    """Wherever the clamp stands, the truth is within ±(2 % + 5 digits), and nothing below zero shows."""
    shown = ClampMeter(lambda _range: Error(gain, offset)).amps(amps)
    assert shown.value >= 0
    assert abs(shown.value - amps) <= shown.limit * (1 + 1e-9)


@given(st.floats(0.1, 30.0), st.floats(-math.pi, math.pi))
def test_round_both_conductors_it_reads_nothing(amps, angle):
    """What goes out on L comes back on N: each alone shows the current, the cord shows nothing."""
    out = cmath.rect(amps, angle)
    circuit = Live(clamped=(("L", out), ("N", -out)))
    clamp = ClampMeter()
    assert clamp.read(circuit, "L").text == clamp.read(circuit, "N").text
    assert clamp.read(circuit, "L").value == pytest.approx(amps, abs=0.01)
    assert clamp.read(circuit, "L+N").text == "0.000 A a.c."


def test_round_both_conductors_it_reads_what_leaks():
    """5 A out and 4.7 A back: 0.3 A leaks to earth, and that is what the cord shows."""
    assert ClampMeter().read(Live(clamped=(("L", 5 + 0j), ("N", -4.7 + 0j))), "L+N").text == "0.300 A a.c."


@pytest.mark.parametrize(("amps", "text"), [(1.234, "1.234 A a.c."), (12.34, "12.34 A a.c."), (123.4, "123.4 A a.c.")])
def test_what_the_clamp_says(amps, text):
    """Four digits on three ranges, OL from 400 A."""
    assert ClampMeter().amps(amps).text == text
    assert ClampMeter().amps(400.0).text == "OL"


def test_limits_by_hand():
    """1.5 A: 2 % and 5 mA is 35 mA; 12 A: 0.24 A and 0.05 A; past 400 A none."""
    assert limit_of_clamp(1.5) == (pytest.approx(0.035), 0.001)
    assert limit_of_clamp(12.0) == (pytest.approx(0.29), 0.01)
    assert limit_of_clamp(400.0) == (math.inf, math.inf)


def test_inrush_of_a_start():
    """12 A for 0.4 s and then 1.5 A: hold keeps 12.00 A, as long as the inrush lasts the whole window."""
    assert ClampMeter().inrush([(0.0, 0.0), (0.2, 12.0), (0.6, 1.5)]).text == "12.00 A a.c."


def test_a_peak_shorter_than_the_window_is_thinned():
    """By hand: 20 A for 25 ms of 100 ms is √(400 / 4) = 10 A."""
    assert largest_rms([(0.0, 0.0), (1.0, 20.0), (1.025, 0.0)]) == pytest.approx(10.0)


def test_the_best_window_may_end_at_a_sample():
    """By hand: 5 A for 90 ms, 20 A for 30 ms, then nothing. The window that ends with the peak holds most.

    It has 70 ms of 5 A and 30 ms of 20 A: √(0.7 · 25 + 0.3 · 400) = √137.5 A. The same upside down for the lowest.
    """
    assert largest_rms([(0.0, 0.0), (1.0, 5.0), (1.09, 20.0), (1.12, 0.0)]) == pytest.approx(math.sqrt(137.5))
    sag = [(0.0, 230.0), (1.0, 220.0), (1.09, 200.0), (1.12, 230.0)]
    assert lowest_rms(sag) == pytest.approx(math.sqrt(0.7 * 220**2 + 0.3 * 200**2))


@pytest.mark.parametrize("hertz", [50, 60])
def test_the_window_holds_whole_cycles(hertz):
    """At 50 and 60 Hz a finely sampled wave of peak √2 · 7 A that ends in nothing gives 7 A: by definition its RMS."""
    times = np.arange(0, 0.2, 1e-4)
    wave = [(float(t), 7 * math.sqrt(2) * math.sin(2 * math.pi * hertz * t)) for t in times]
    assert largest_rms([*wave, (0.2, 0.0)]) == pytest.approx(7.0, rel=1e-3)


SAMPLES = st.lists(st.tuples(st.floats(0.001, 0.3), st.floats(0, 50)), min_size=1, max_size=12)


def timed(steps: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Samples at rising times from steps."""
    ends = np.cumsum([step for step, _ in steps])
    return [(float(at), value) for at, (_, value) in zip(ends, steps, strict=True)]


@given(SAMPLES)
def test_no_window_lies_outside_what_is_held(steps):
    """Against windows at every millisecond, summed plainly: none is above the largest or below the lowest."""
    samples = timed(steps)
    times = np.array([at for at, _ in samples])
    values = np.array([value for _, value in samples])
    low, high = lowest_rms(samples), largest_rms(samples)
    assert values.min() - 1e-6 <= low <= high <= values.max() + 1e-6
    edges = np.append(times, times[-1] + 2 * WINDOW_S)
    for start in np.arange(times[0], times[-1] + WINDOW_S, 0.001):
        shared = np.minimum(edges[1:], start + WINDOW_S) - np.maximum(edges[:-1], start)
        rms = math.sqrt(float(np.sum(np.maximum(shared, 0) * values**2)) / WINDOW_S)
        assert low - 1e-4 <= rms <= high + 1e-4


@given(st.floats(0, 50), st.floats(0, 5))
def test_one_sample_stays(value, at):
    """A single sample holds on: largest and lowest are its own."""
    assert largest_rms([(at, value)]) == pytest.approx(value)
    assert lowest_rms([(at, value)]) == pytest.approx(value)


@pytest.mark.parametrize(
    ("samples", "window", "message"),
    [
        ([], 0.1, r"^there are no samples to hold; the instrument must be on before the start$"),
        ([(0.0, 1.0), (0.0, 2.0)], 0.1, r"^a sample at 0 s follows one at 0 s; times must rise$"),
        ([(0.0, math.nan)], 0.1, r"^the sample at 0 s is nan; time and value must be finite numbers$"),
        ([(0.0, 1.0)], 0.0, r"^the window is 0 s; it must be above zero$"),
    ],
)
def test_what_cannot_be_held(samples, window, message):
    """Each message names the sample or the window and the rule."""
    for held in (largest_rms, lowest_rms):
        with pytest.raises(InputError, match=message):
            held(samples, window)
