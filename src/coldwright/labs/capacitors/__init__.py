"""Lab 05, capacitors: the cooler it draws, its questions, its slips and the readings it needs."""

from coldwright.labs.capacitors.lab import LAB

__all__ = ["LAB"]
