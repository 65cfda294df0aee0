"""A remark: one thing that is worth saying, in several builds, so that neighbours need not sound alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.analysis.telling.topics import Topic
from shedbook.errors import MissingRowError

_TOPICS_FILE = "src/shedbook/analysis/telling/topics.py"

NARRATIVE, SUMMARY, LAST = 0, 1, 2
"""The parts of an explanation: what follows the line in time, what looks back over it, what to practise."""


class Build(NamedTuple):
    """One way to say a remark.

    `kind` names how the sentence is built, by what it opens with. `frame` is the row of the table and
    `filled` is what stands in its gaps; they are put together only when the build is told. A build that
    `goes_on` ("From there …") makes sense only after a remark on what comes before.
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
        """Say whether a name stands in one of the gaps."""
        return any(name in text and f"{{{gap}}}" in self.frame for gap, text in self.filled.items())


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing that is worth saying.

    `weight` is how much it matters, up to 100; `first` and `last` are the indices of the notes it is about.
    `covers` are the notes it explains, so that a lighter remark on the same notes is left out; `spans` are
    the indices of the spans whose scale it names. `part` is one of NARRATIVE, SUMMARY and LAST.
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
