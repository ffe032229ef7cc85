"""Circuits and the parts in them: windings and the network that joins them."""
