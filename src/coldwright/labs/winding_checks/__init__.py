"""Lab 03, winding checks: the unit it draws, its questions, its slips and the readings it needs."""

from coldwright.labs.winding_checks.lab import LAB

__all__ = ["LAB"]
