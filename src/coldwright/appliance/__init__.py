"""Appliances as they stand in a shop: nameplate, wiring, faults, and the unit they make up."""
