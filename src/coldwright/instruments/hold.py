"""What an instrument on hold keeps: the largest or lowest RMS over a short window.

Samples are RMS values; each holds until the next one, and the last one stays. The window of 100 ms is a whole number of
cycles at 50 Hz (5) and at 60 Hz (6).
"""

from __future__ import annotations

import bisect
import math
from collections.abc import Sequence
from itertools import pairwise

from coldwright.errors import InputError
from coldwright.quantities.checks import check_number

WINDOW_S = 0.1
Samples = Sequence[tuple[float, float]]


def largest_rms(samples: Samples, window_s: float = WINDOW_S) -> float:
    """Largest RMS over any window that begins at or after the first sample.

    Parameters
    ----------
    samples : sequence of tuple of float
        Time and value, times rising [s and unit of the value]
    window_s : float
        Length of the window, above zero [s]

    Raises
    ------
    InputError
        If there are no samples, a time does not rise, a value is no number or the window is not above zero.
    """
    return max(_windows(samples, window_s))


def lowest_rms(samples: Samples, window_s: float = WINDOW_S) -> float:
    """Lowest RMS over any window that begins at or after the first sample.

    Parameters
    ----------
    samples : sequence of tuple of float
        Time and value, times rising [s and unit of the value]
    window_s : float
        Length of the window, above zero [s]

    Raises
    ------
    InputError
        If there are no samples, a time does not rise, a value is no number or the window is not above zero.
    """
    return min(_windows(samples, window_s))


def _windows(samples: Samples, window_s: float) -> list[float]:
    """RMS of each window that begins or ends at a sample: the largest and the lowest are among them."""
    _check(samples, window_s)
    times = [at for at, _ in samples]
    squares = [value * value for _, value in samples]
    sums = [0.0]
    for number in range(len(times) - 1):
        sums.append(sums[-1] + squares[number] * (times[number + 1] - times[number]))

    def until(at: float) -> float:
        number = bisect.bisect_right(times, at) - 1
        return sums[number] + squares[number] * (at - times[number])

    starts = [*times, *(at - window_s for at in times if at - window_s >= times[0])]
    return [math.sqrt(max(0.0, until(start + window_s) - until(start)) / window_s) for start in starts]


def _check(samples: Samples, window_s: float) -> None:
    check_number("the window", window_s)
    if not window_s > 0:
        raise InputError(f"the window is {window_s:g} s; it must be above zero")
    if not samples:
        raise InputError("there are no samples to hold; the instrument must be on before the start")
    for at, value in samples:
        if not (math.isfinite(at) and math.isfinite(value)):
            raise InputError(f"the sample at {at:g} s is {value:g}; time and value must be finite numbers")
    for (before, _), (at, _) in pairwise(samples):
        if not at > before:
            raise InputError(f"a sample at {at:g} s follows one at {before:g} s; times must rise")
