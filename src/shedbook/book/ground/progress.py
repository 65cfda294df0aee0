"""How far a long piece of work is: what is told while it runs."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple


class Step(NamedTuple):
    """How far a phase is, so many steps of all.

    `phase` is "reading", "books", "engraving", "pages", "back", "tracks" or "practice".
    `said` is what is told before a phase that takes long, "" for nothing.
    """

    phase: str
    done: int
    of: int
    said: str = ""


Tell = Callable[[Step], None]
"""Is called at every step of a piece of work."""
