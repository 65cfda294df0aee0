"""What holds for all tests.

librosa keeps compiled code in a cache, by default inside the environment. Two workers that write it at the
same time leave files that end a later run with a segmentation fault; so each worker has a folder of its own.
"""

import os
from pathlib import Path

_WORKER = os.environ.get("PYTEST_XDIST_WORKER", "alone")

os.environ.setdefault("NUMBA_CACHE_DIR", str(Path(__file__).parents[1] / "build" / "numba" / _WORKER))
