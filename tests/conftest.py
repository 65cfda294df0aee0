"""What holds for all tests.

librosa keeps compiled code in a cache, by default inside the environment. What is read from it in a later run
ends that run with a segmentation fault now and then; so each run has a folder of its own, which goes with it.

Hypothesis gives each example a fifth of a second unless told otherwise. No test here is about time, and a
busy machine must fail none. Laws are tried on twenty-five examples, others in every run; where faults are
planted on fifty: with so many the shares in docs/tests.md were found.

A test in a browser that fails is run once more, on a page of its own, for browsers stumble where programs do
not; one that fails twice fails. The last line of a run counts those that were run again.
"""

import atexit
import os
import shutil
import tempfile

import pytest
from hypothesis import HealthCheck, Phase, settings

settings.register_profile(
    "house", deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=25
)
settings.register_profile(
    "the same each time", settings.get_profile("house"), derandomize=True, database=None
)
settings.register_profile(  # a planted fault is found by one example, however large
    "planted faults",
    settings.get_profile("the same each time"),
    max_examples=50,
    phases=(Phase.explicit, Phase.generate),
)
settings.load_profile(os.environ.get("SHEDBOOK_EXAMPLES", "house"))

_COMPILED = tempfile.mkdtemp(prefix="compiled-")
os.environ["NUMBA_CACHE_DIR"] = _COMPILED
atexit.register(shutil.rmtree, _COMPILED, ignore_errors=True)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "browser" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.flaky(reruns=1))
