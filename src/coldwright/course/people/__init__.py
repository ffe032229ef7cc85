"""Scripted people of each lab: they see what the instruments show, and nothing else."""
