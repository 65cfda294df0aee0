"""What holds for all tests.

librosa keeps compiled code in a cache, by default inside the environment. Two workers that write it at the
same time leave files that end a later run with a segmentation fault; so each worker has a folder of its own.

Hypothesis gives each example a fifth of a second unless told otherwise. No test here is about time, and a
busy machine must fail none. Laws are tried on fifty examples, others in every run: with so many the shares of
planted faults in docs/tests.md were found.
"""

import os
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings

settings.register_profile(
    "house", deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=50
)
settings.register_profile(
    "the same each time", settings.get_profile("house"), derandomize=True, database=None
)
settings.register_profile(  # a planted fault is found by one example, however large
    "planted faults",
    settings.get_profile("the same each time"),
    phases=(Phase.explicit, Phase.generate),
)
settings.load_profile(os.environ.get("SHEDBOOK_EXAMPLES", "house"))

_WORKER = os.environ.get("PYTEST_XDIST_WORKER", "alone")

os.environ.setdefault("NUMBA_CACHE_DIR", str(Path(__file__).parents[1] / "build" / "numba" / _WORKER))
