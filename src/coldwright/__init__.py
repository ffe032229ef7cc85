"""coldwright: learn to service small hermetic refrigeration, on units that answer to physics."""

__version__ = "0.1.0"
