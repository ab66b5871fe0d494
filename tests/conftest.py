"""Settings for all tests."""

from hypothesis import settings

# The same examples on every machine, however slow or busy: a red light must be repeatable.
settings.register_profile("shedlight", deadline=None, derandomize=True, database=None)
settings.load_profile("shedlight")
