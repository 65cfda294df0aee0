"""How far something is that takes long, told on standard error."""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shedbook.book.ground.progress import Step

_SAYS = {
    "reading": ("Reading {done} of {of} phrase", "Reading {done} of {of} phrases"),
    "books": ("Reading {done} of {of} book", "Reading {done} of {of} books"),
    "engraving": ("Engraving phrase {done} of {of}",) * 2,
    "tracks": ("Playing track {done} of {of}",) * 2,
    "exchange": ("Writing MusicXML and MIDI, {done} of {of}",) * 2,
    "packing": ("Packing {done} of {of} zip file", "Packing {done} of {of} zip files"),
    "practice": ("Making the student's page, phrase {done} of {of}",) * 2,
    "back": ("Reading back {done} of {of} book", "Reading back {done} of {of} books"),
    "pages": ("Laying out pages, part {done} of {of}",) * 2,
}
"""What is said of each phase, where it has one step and where it has several."""


class Progress:
    """Prints on standard error how far a build is, with the time since it began.

    A terminal shows one line that changes; elsewhere there is a line for each phase when it is over, or, if
    it is `verbose`, for each step. If it is `quiet` nothing is printed.
    """

    def __init__(self, *, quiet: bool = False, verbose: bool = False) -> None:
        self._started = time.perf_counter()
        self._quiet, self._verbose = quiet, verbose
        self._moves = sys.stderr.isatty() and not verbose
        self._open = ""

    def __call__(self, step: Step) -> None:
        """Print how far a phase is."""
        if self._quiet:
            return
        if step.said:
            print(step.said, file=sys.stderr, flush=True)
            return
        says = _SAYS[step.phase][step.of != 1].format(done=step.done, of=step.of)
        text = f"{says}  {time.perf_counter() - self._started:.1f} s"
        over = step.done >= step.of
        if self._moves:
            end = "\n" if over else ""
            print(f"\r{text:<{len(self._open)}}", end=end, file=sys.stderr, flush=True)
            self._open = "" if over else text
        elif over or self._verbose:
            print(text, file=sys.stderr, flush=True)

    def close(self) -> None:
        """End the line that is still open, so that other text begins on a new one."""
        if self._open:
            print(file=sys.stderr, flush=True)
            self._open = ""
