"""How the tests run: no test is timed, and each run draws the same examples."""

from hypothesis import settings

settings.register_profile("collate", deadline=None, derandomize=True, max_examples=60)
settings.load_profile("collate")
