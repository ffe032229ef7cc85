"""The sealed system: cycle, capillary, charge, balance and what service does to it."""
