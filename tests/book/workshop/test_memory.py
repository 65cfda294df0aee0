"""How much memory a process holds at most, held against a block of a known size."""

from __future__ import annotations

import sys

import pytest

from shedbook.book.workshop.crew import Crew
from shedbook.book.workshop.memory import begin_peak, peak_mb

BLOCK_MB = 64
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="only Linux forgets a peak")


def block(megabytes: int) -> int:
    return len(bytearray(megabytes * 1024 * 1024))


def test_a_peak_is_seen_and_forgotten() -> None:
    begin_peak()
    before = peak_mb()
    block(BLOCK_MB)
    assert 0.9 * BLOCK_MB < peak_mb() - before < 2 * BLOCK_MB
    begin_peak()
    assert abs(peak_mb() - before) < BLOCK_MB / 2


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
