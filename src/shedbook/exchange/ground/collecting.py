"""The collector of cycles, put off while a file is read.

A tree of elements and the bars that are read from it hold no cycles, so that memory is given back without
the collector. It would look through all of them again and again, which takes a sixth of the time of reading.
"""

from __future__ import annotations

import contextlib
import gc
from collections.abc import Iterator


@contextlib.contextmanager
def collecting_later() -> Iterator[None]:
    """Put off the collection of cycles for a while; where it was off before, it stays off."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
