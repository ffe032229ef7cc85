"""Energy, duty and temperatures of a day, read from a record over whole cycles."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from coldwright.cabinet.pull_down import Run
from coldwright.errors import InputError

DAY_S, J_PER_KWH = 86400.0, 3.6e6


@dataclass(frozen=True)
class Day:
    """A day from a record of whole cycles: energy [kWh], duty [1], starts, mean temperatures and extremes [K]."""

    kwh: float
    duty: float
    starts: float
    air_k: float
    product_k: float
    coldest_air_k: float
    warmest_product_k: float


def whole_cycles(record: Run, after_s: float) -> tuple[float, float]:
    """Times of the first and the last start in a record; its own ends where there are not two.

    Parameters
    ----------
    record : Run
        The record [-]
    after_s : float
        What is before is left out [s]

    Returns
    -------
    tuple of float
        From and to [s]
    """
    times = _starts(record)
    times = times[times >= after_s]
    return (float(times[0]), float(times[-1])) if times.size >= 2 else (after_s, float(record.time_s[-1]))


def day_of(record: Run, after_s: float = 0.0) -> Day:
    """Energy, duty and temperatures of a day like the whole cycles in a record.

    Parameters
    ----------
    record : Run
        The record [-]
    after_s : float
        What is before is left out: pull-down and settling [s]

    Returns
    -------
    Day
        Scaled to 24 h [-]

    Raises
    ------
    InputError
        If less than an hour of the record is left.
    """
    length = float(record.time_s[-1])
    if not 0.0 <= after_s <= length - 3600.0:
        raise InputError(
            f"the record ends at {length / 3600.0:.1f} h and is to be read from {after_s / 3600.0:.1f} h on; an hour "
            "or more must be left"
        )
    began, ended = whole_cycles(record, after_s)
    took = ended - began
    inside = (record.time_s >= began) & (record.time_s <= ended)
    times = _starts(record)
    counted = int(np.count_nonzero((times > began) & (times <= ended)))
    return Day(
        _between(record, record.energy_j, began, ended) / took * DAY_S / J_PER_KWH,
        _between(record, record.running_s, began, ended) / took,
        counted * DAY_S / took,
        _mean(record, record.air_k, inside),
        _mean(record, record.product_k, inside),
        float(record.air_k[inside].min()),
        float(record.product_k[inside].max()),
    )


def _starts(record: Run) -> np.ndarray:
    """Times at which it started, shape (n,): an entry tells whether it ran in the step that ends there."""
    return np.asarray(record.time_s[:-1][record.running[1:] & ~record.running[:-1]])


def _between(record: Run, sums: np.ndarray, began: float, ended: float) -> float:
    first, last = np.interp([began, ended], record.time_s, sums)
    return float(last - first)


def _mean(record: Run, values: np.ndarray, inside: np.ndarray) -> float:
    times, chosen = record.time_s[inside], values[inside]
    return float(np.sum(0.5 * (chosen[1:] + chosen[:-1]) * np.diff(times)) / (times[-1] - times[0]))
