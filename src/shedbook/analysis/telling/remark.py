"""A remark: one thing worth saying, in several builds, so that neighbours need not sound alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.analysis.telling.topics import Topic
from shedbook.errors import MissingRowError

_TOPICS_FILE = "src/shedbook/analysis/telling/topics.py"

NARRATIVE, SUMMARY, LAST = 0, 1, 2
"""Remarks that follow the line in time, that look back over it, and what to practise."""


class Build(NamedTuple):
    """One way to say a remark. `kind` names how the sentence is built: what it opens with.

    `frame` is the row of the table, `filled` what stands in its gaps: only what is told is put together. A
    build that `goes_on` ("From there …") makes sense only after a remark on what comes before.
    """

    kind: str
    frame: str
    filled: Mapping[str, str]
    goes_on: bool = False

    @property
    def text(self) -> str:
        """The sentence, as yet without a capital letter."""
        return self.frame.format_map(self.filled)

    def says(self, name: str) -> bool:
        """Whether a name stands in one of the gaps."""
        return any(name in text and f"{{{gap}}}" in self.frame for gap, text in self.filled.items())


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing worth saying.

    `weight` is how much it matters, 100 for what must be said; `first` and `last` are the notes it is
    about; `covers` are the notes it explains, so that a lighter remark on the same ones is left out;
    `spans` are the chords whose scale it names.
    """

    topic: Topic
    weight: int
    first: int
    last: int
    builds: tuple[Build, ...]
    covers: frozenset[int] = frozenset()
    spans: frozenset[int] = frozenset()
    part: int = NARRATIVE

    def __post_init__(self) -> None:
        """Refuse a remark that looks back on a topic without a place among those that do."""
        if self.part == SUMMARY and not self.topic.summary_place:
            why = "a remark on it looks back over the line, so it needs a summary_place"
            raise MissingRowError("order of the summary", self.topic.name, _TOPICS_FILE, why)
