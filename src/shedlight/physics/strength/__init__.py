"""Strength: bending, pressure, brittle fracture, wind and short-circuit force, gaskets."""
