"""Lab 06, overloads and locked rotor: the unit it draws, its questions, its slips and the readings it needs."""

from coldwright.labs.overloads.lab import LAB

__all__ = ["LAB"]
