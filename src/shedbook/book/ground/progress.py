"""How far a long piece of work is: what is told while it runs."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple


class Step(NamedTuple):
    """How far a phase is: "reading", "books", "engraving", "pages", "back" or "tracks", so many of all."""

    phase: str
    done: int
    of: int


Tell = Callable[[Step], None]
"""Is called at every step of a piece of work."""
