"""Lab 00, safe isolation and the meter: the unit it draws, its questions, its slips and the readings it needs."""

from coldwright.labs.safe_isolation.lab import LAB

__all__ = ["LAB"]
