"""A scale for charging: grams with its resolution, accuracy, drift with time, and the pull of the hose.

What counts in charging is the difference of two readings of one scale. Its zero cancels; drift and hose pull do not.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from coldwright.errors import BenchError, InputError
from coldwright.instruments.display import Display, Error, Range, no_reading, show
from coldwright.instruments.service_events import ServiceEvent

RANGE = Range(full_scale=50.0, resolution=0.001, percent=0.05, digits=1)
"""In kg: 50 kg in steps of 1 g, ±(0.05 % + 1 digit) (common practice, no source)."""
_DIGITS = Range(RANGE.full_scale, RANGE.resolution, 0.0, 0)
STRAINED_KG = 75.0
STRAINED_SHIFT_KG = 0.5  # illustrative
DRIFT_KG_PER_H = 0.002  # most; illustrative
HOSE_PULL_KG = 0.010  # most, of a stiff hose that was moved; illustrative
_TOLD_PULL_KG = 0.0005


@dataclass
class Scale:
    """One scale. `error` says where it stands within its accuracy, `drift` from -1 to 1 within its drift."""

    error: Error = field(default_factory=Error)
    drift: float = 0.0
    tare_kg: float = 0.0
    tared_at_s: float = 0.0
    strained: bool = False

    def tare(self, load_kg: float, at_s: float) -> Display:
        """Sets what is on it to zero.

        Parameters
        ----------
        load_kg : float
            True mass on it, zero or more [kg]
        at_s : float
            Time since it was switched on [s]

        Raises
        ------
        BenchError
            If it was strained.
        """
        if self.strained:
            raise BenchError("this scale was strained and shows nothing that can be trusted; take another")
        seen = self._seen(load_kg, at_s)
        self.tare_kg, self.tared_at_s = round(seen / RANGE.resolution) * RANGE.resolution, at_s
        return self.read(load_kg, at_s)[0]

    def read(self, load_kg: float, at_s: float, hose_pull_kg: float = 0.0) -> tuple[Display, tuple[ServiceEvent, ...]]:
        """What it shows for a true mass, and what that did.

        Parameters
        ----------
        load_kg : float
            True mass on it, zero or more [kg]
        at_s : float
            Time since it was switched on, not before it was tared [s]
        hose_pull_kg : float
            Pull of the hose, down positive [kg]

        Raises
        ------
        InputError
            If a value is outside these bounds.
        """
        if load_kg > STRAINED_KG and not self.strained:
            self.strained = True
            return no_reading("OVER"), (ServiceEvent.SCALE_STRAINED,)
        if load_kg > RANGE.full_scale:
            return no_reading("OVER"), ()
        if not at_s >= self.tared_at_s:
            raise InputError(f"the scale is read at {at_s:g} s but was tared at {self.tared_at_s:g} s; time goes on")
        events = (ServiceEvent.HOSE_PULLS,) if abs(hose_pull_kg) > _TOLD_PULL_KG else ()
        seen = self._seen(load_kg, at_s) + hose_pull_kg
        shown = show(seen, _DIGITS, Error(), _write, self.tare_kg)
        gross = abs(shown.value + self.tare_kg)
        limit = RANGE.limit(gross) + drift_limit(at_s - self.tared_at_s)
        return Display(shown.text, shown.value, limit, RANGE.resolution), events

    def _seen(self, load_kg: float, at_s: float) -> float:
        if not 0 <= load_kg < math.inf:
            raise InputError(f"the mass on the scale is {load_kg:g} kg; it must be zero or more and finite")
        gained = load_kg * (1 + self.error.gain * RANGE.percent / 100)
        zero = self.error.offset * RANGE.digits * RANGE.resolution + (STRAINED_SHIFT_KG if self.strained else 0.0)
        return gained + zero + self.drift * DRIFT_KG_PER_H * at_s / 3600


def drift_limit(seconds: float) -> float:
    """Most that the scale drifts in some time.

    Parameters
    ----------
    seconds : float
        Time, zero or more [s]

    Returns
    -------
    float
        Drift [kg]

    Raises
    ------
    InputError
        If the time is below zero.
    """
    if not 0 <= seconds < math.inf:
        raise InputError(f"the time between two readings is {seconds:g} s; it must be zero or more and finite")
    return DRIFT_KG_PER_H * seconds / 3600


def charged_limit(charged_kg: float, seconds: float, hose_moved: bool = False) -> float:
    """Most that a charge can be off, which is the difference of two readings of one scale.

    Parameters
    ----------
    charged_kg : float
        Difference of the two readings [kg]
    seconds : float
        Time between them, zero or more [s]
    hose_moved : bool
        Whether a hose on the cylinder was moved between them [-]

    Returns
    -------
    float
        Limit: share of the difference, a step for both readings, drift, pull of the hose [kg]
    """
    share = abs(charged_kg) * RANGE.percent / 100
    return share + RANGE.resolution + drift_limit(seconds) + (HOSE_PULL_KG if hose_moved else 0.0)


def _write(kilograms: float, _range: Range) -> str:
    return f"{1000 * kilograms + 0.0:.0f} g"
