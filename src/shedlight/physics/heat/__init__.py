"""Heat: losses of the current, how they leave, what becomes hot, what a short circuit adds."""
