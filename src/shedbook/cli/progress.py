"""Progress on standard error: one line that moves on a terminal, a plain line a phase elsewhere."""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shedbook.book.ground.progress import Step

_SAYS = {
    "reading": ("Reading {done} of {of} phrase", "Reading {done} of {of} phrases"),
    "engraving": ("Engraving phrase {done} of {of}",) * 2,
    "tracks": ("Playing track {done} of {of}",) * 2,
    "pages": ("Laying out pages, {done} of {of} book", "Laying out pages, {done} of {of} books"),
}
"""By phase: of one, of several."""


class Progress:
    """Takes the steps of a build and says how far it is, with the time since the start."""

    def __init__(self) -> None:
        self._started = time.perf_counter()
        self._moves = sys.stderr.isatty()
        self._open = ""

    def __call__(self, step: Step) -> None:
        """Say how far a phase is; away from a terminal only when it is over."""
        says = _SAYS[step.phase][step.of != 1].format(done=step.done, of=step.of)
        text = f"{says}  {time.perf_counter() - self._started:.1f} s"
        over = step.done >= step.of
        if self._moves:
            end = "\n" if over else ""
            print(f"\r{text:<{len(self._open)}}", end=end, file=sys.stderr, flush=True)
            self._open = "" if over else text
        elif over:
            print(text, file=sys.stderr, flush=True)

    def close(self) -> None:
        """End a line that stands open, so that what follows begins on its own."""
        if self._open:
            print(file=sys.stderr, flush=True)
            self._open = ""
