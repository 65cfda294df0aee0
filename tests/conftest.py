"""What holds for all tests.

Where Python is told to write no bytecode beside the sources, it is kept in `build/bytecode`: else every
program that the tests start compiles all of shedbook anew, and every run rewrites all tests.

The files that take longest begin first (`make test` keeps their order), so that no worker waits for the other
at the end.

librosa keeps compiled code in a cache, by default inside the environment. What is read from it in a later run
ends that run with a segmentation fault now and then; so each run has a folder of its own, which goes with it.

A build opens one worker where nothing else is said, for tests run side by side already; and workers find
loaded what tracks need too, which each of them would load anew for a second of sound.

Hypothesis gives each example a fifth of a second unless told otherwise. No test here is about time, and a
busy machine must fail none. Laws are tried on twenty-five examples, others in every run; where faults are
planted on fifty: with so many the shares in docs/tests.md were found.

A test in a browser that fails is run once more, on a page of its own, for browsers stumble where programs do
not; one that fails twice fails. The last line of a run counts those that were run again.
"""

import atexit
import os
import shutil
import sys
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

from shedbook.book.workshop import crew

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

if sys.dont_write_bytecode and sys.pycache_prefix is None:
    sys.dont_write_bytecode = False
    sys.pycache_prefix = str(Path(__file__).parents[1] / "build" / "bytecode")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix

_COMPILED = tempfile.mkdtemp(prefix="compiled-")
os.environ["NUMBA_CACHE_DIR"] = _COMPILED
os.environ.setdefault("NUMBA_OPT", "0")  # what is compiled runs for a second at most
atexit.register(shutil.rmtree, _COMPILED, ignore_errors=True)


def _one_core() -> int:
    return 1


os.cpu_count = _one_core

crew.LOADED_ONCE += ("shedbook.book.tracks.worker", "scipy.signal", "soundfile", "fluidsynth")

LONGEST = (
    "test_what_depends", "test_phrase_screen", "test_extending", "test_progress", "test_recording_screen",
    "test_build_tracks", "test_page", "test_everyone_screen", "test_film", "test_check_files", "test_docs",
    "test_rendering", "test_drums", "test_comping", "test_schedule", "test_take_reading", "test_beat_finding",
    "test_drafting", "test_quantise", "test_worker", "test_forecast", "test_build", "test_midi_file",
    "test_score_drawing", "test_reader_part",
)  # fmt: skip
"""Test files by the time that they take, the longest first; another order changes nothing but the waiting."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    items.sort(key=lambda item: LONGEST.index(item.path.stem) if item.path.stem in LONGEST else len(LONGEST))
    for item in items:
        if "browser" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.flaky(reruns=1))
