"""What holds for all tests: a busy machine is no slip, so no example has a time to keep."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
