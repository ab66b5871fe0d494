"""Floor 6: exchange. Assessments as data for other programs."""
