"""Floor 6: documents. What an engineer hands over, printed from the computed records."""
