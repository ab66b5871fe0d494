"""The end in oil: strength of oil gaps and surfaces, head and expansion of the oil."""
