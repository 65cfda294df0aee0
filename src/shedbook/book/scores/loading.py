"""Loading in a worker what it will need, while its parent finds out what to do. Imports nothing of ours."""

from __future__ import annotations

import gc
import importlib


def load_engraver() -> None:
    """Load in a worker what reading and engraving a phrase will need.

    All of it stays, so Python's search for garbage is spared: meanwhile, and in what was loaded afterwards.
    """
    gc.disable()
    try:
        importlib.import_module("shedbook.book.scores.engraving")
    finally:
        gc.freeze()
        gc.enable()
