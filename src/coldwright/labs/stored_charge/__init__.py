"""Lab 01, stored charge: the cooler it draws, its questions, its slips and the readings it needs."""

from coldwright.labs.stored_charge.lab import LAB

__all__ = ["LAB"]
