"""Lab 02, reading the circuit: following a schematic, and hunting for a break and for a poor joint."""

from coldwright.labs.reading_the_circuit.lab import LAB

__all__ = ["LAB"]
