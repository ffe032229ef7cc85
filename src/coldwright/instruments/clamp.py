"""A clamp meter for alternating current, made up for the course.

It reads the net current inside its jaws. Round one conductor that is its current; round a whole cord what goes out
comes back, and it reads nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from coldwright.instruments.display import (
    Display,
    Error,
    LiveCircuit,
    Range,
    decimals,
    limit_and_resolution,
    show_size,
)
from coldwright.instruments.hold import Samples, largest_rms

RANGES = (Range(6.0, 0.001, 2.0, 5), Range(60.0, 0.01, 2.0, 5), Range(400.0, 0.1, 2.0, 5))
CATEGORY = "CAT III 600 V"
BURDEN_OHM = 0.0  # the jaws touch no conductor and take nothing away


def _write(value: float, chosen: Range) -> str:
    return f"{value:.{decimals(chosen.resolution)}f} A a.c."


@dataclass
class ClampMeter:
    """One clamp meter. `draw_error` says where it stands within its accuracy on a range."""

    draw_error: Callable[[int], Error] = field(default=lambda _range: Error())
    category: str = CATEGORY

    def read(self, circuit: LiveCircuit, conductor: str) -> Display:
        """Current shown with the jaws round a conductor or a bundle.

        Parameters
        ----------
        circuit : LiveCircuit
            The circuit at this moment [-]
        conductor : str
            What the jaws go round [-]
        """
        return self.amps(circuit.ac_current(conductor))

    def amps(self, amps: float) -> Display:
        """Current shown for a true current.

        Parameters
        ----------
        amps : float
            True net current in the jaws, RMS, zero or more [A]
        """
        return show_size(amps, RANGES, self.draw_error, _write)

    def inrush(self, samples: Samples) -> Display:
        """Largest current that the meter keeps on hold, as RMS over 100 ms.

        Parameters
        ----------
        samples : sequence of tuple of float
            Time and amps while it is on hold, times rising [s and A]

        Raises
        ------
        InputError
            If there are no samples or their times do not rise.
        """
        return self.amps(largest_rms(samples))


def limit_of_clamp(amps: float) -> tuple[float, float]:
    """Accuracy limit and resolution of this clamp for a current.

    Parameters
    ----------
    amps : float
        Current shown [A]

    Returns
    -------
    tuple of float
        Limit and resolution; both inf over range [A]
    """
    return limit_and_resolution(RANGES, amps)
