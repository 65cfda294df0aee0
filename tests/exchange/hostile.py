"""Files that mean harm, and the check that they are refused in bounded time and memory."""

from __future__ import annotations

import time
import tracemalloc

import pytest

from exchange.scores import note, score
from shedbook.errors import ReadError
from shedbook.exchange.musicxml.reader import read_musicxml

GOOD = score(note("C4"))


def doctype(declarations: str) -> bytes:
    return score(
        note("C4"),
        head="<movement-title>&a;</movement-title>",
        prolog=f"<!DOCTYPE score-partwise [{declarations}]>",
    )


def bomb() -> bytes:
    """Ten entities, each ten times the one before."""
    levels = ['<!ENTITY a0 "haha">']
    levels += [f'<!ENTITY a{level} "{f"&a{level - 1};" * 10}">' for level in range(1, 10)]
    return doctype("".join([*levels, '<!ENTITY a "&a9;">']))


def assert_refused(data: bytes, says: str) -> None:
    """Check that a file is refused with an error that says something, in bounded time and memory."""
    tracemalloc.start()
    start = time.process_time()
    with pytest.raises(ReadError, match=says) as caught:
        read_musicxml(data, "hostile.xml")
    taken = time.process_time() - start
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert caught.value.hint
    assert "hostile.xml" in caught.value.message
    assert taken < 10
    assert peak < 150_000_000 + 3 * len(data)
