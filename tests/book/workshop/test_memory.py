"""How much memory a process holds at most, held against a block of a known size."""

from __future__ import annotations

import subprocess
import sys

import pytest

from shedbook.book.workshop.crew import Crew

BLOCK_MB = 64
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="only Linux forgets a peak")


def block(megabytes: int) -> int:
    return len(bytearray(megabytes * 1024 * 1024))


PEAKS = f"""
from shedbook.book.workshop.memory import begin_peak, peak_mb

begin_peak()
before = peak_mb()
len(bytearray({BLOCK_MB} * 1024 * 1024))
risen = peak_mb() - before
begin_peak()
print(risen, peak_mb() - before)
"""


def test_a_peak_is_seen_and_forgotten() -> None:
    """In a process of its own: one that has held gigabytes before has room for the block without growing."""
    done = subprocess.run([sys.executable, "-c", PEAKS], capture_output=True, text=True, check=True)
    risen, left = map(float, done.stdout.split())
    assert 0.9 * BLOCK_MB < risen < 2 * BLOCK_MB
    assert abs(left) < BLOCK_MB / 2


def test_a_crew_tells_what_its_workers_held_in_each_phase() -> None:
    crew = Crew(1)
    crew.phase_memory("before")
    assert [result for _, result in crew.run(block, [BLOCK_MB])] == [BLOCK_MB * 1024 * 1024]
    first = crew.phase_memory("first")
    assert [result for _, result in crew.run(block, [1])] == [1024 * 1024]
    second = crew.phase_memory("second")
    crew.close()
    assert first.phase == "first"
    assert first.together > first.largest > 0.9 * BLOCK_MB
    assert first.largest - second.largest > BLOCK_MB / 3 or first.together - second.together > BLOCK_MB / 3
