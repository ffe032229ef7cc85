"""Instruments: what they show, how far it can be off, and what they do to the circuit."""
