"""Floor 5: checks. Each answers one question a reviewer would ask: demand against capability."""
