"""A remark: one thing that is worth saying of a phrase, as a kind with typed slots."""

from __future__ import annotations

from dataclasses import dataclass, replace

from shedbook.analysis.naming.language import Gaps
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.slots import Slot

ALONG, PRACTICE, ELSEWHERE = 0, 1, 2
"""The parts of an explanation: what follows the line, what to practise, where else it fits."""


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing that is worth saying.

    `kind` names the row of its sentence, whose gaps are filled by the `slots`. `worth` is how much it helps
    one to learn this phrase, up to 100. `first` is the note at which it is told, `about` are the notes that
    it explains, and of two remarks of which one explains what the other does only one is told. `leads` says
    that it may be told before everything else, `placed` that it says itself where in the line it is. A remark
    that `recalls` a topic speaks of "those notes", by the row " told", where a remark on that topic has named
    them.
    """

    kind: str
    worth: int
    first: int
    slots: dict[str, Slot]
    about: frozenset[int] = frozenset()
    topic: str = ""
    part: int = ALONG
    leads: bool = False
    placed: bool = True
    recalls: str = ""

    def said(self, say: ReaderNames) -> str:
        """Return the remark in the words of a reader's language, as yet without a capital letter."""
        return say.words.table[f"tell.{self.kind}"].format_map(
            Gaps(lambda gap, form: self.slots[gap].said(say if form == 1 else replace(say, form=form)))
        )
