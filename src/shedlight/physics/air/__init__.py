"""Air: its density and moisture, the strength of gaps, protective horns."""
