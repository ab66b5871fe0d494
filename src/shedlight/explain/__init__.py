"""Floor 6: explain. What a bushing is made of and why, in plain words with computed numbers."""
