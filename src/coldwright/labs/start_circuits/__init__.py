"""Lab 04, start circuits: the unit it draws, its questions, its slips, the readings it needs, the best next test."""

from coldwright.labs.start_circuits.lab import LAB

__all__ = ["LAB"]
