"""Worked questions: asked from computed numbers, with the usual mistakes as wrong answers."""
