"""Floor 5: variants. Tables of duties, sites and shapes, every combination checked."""
