"""How the tests run: no test is timed, and each run draws the same examples.

`COLLATE_EXAMPLES=2000` draws that many for each property.
"""

import os

from hypothesis import settings

EXAMPLES = int(os.environ.get("COLLATE_EXAMPLES", "60"))

settings.register_profile("collate", deadline=None, derandomize=True, max_examples=EXAMPLES)
settings.load_profile("collate")
