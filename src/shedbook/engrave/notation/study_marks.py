"""What the author's study page adds to a score: degrees, names of scales, landings and links."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class StudyMarks:
    """Study marks: degree texts under notes, by note; names of scales over chords, by change.

    `landings` are the notes that get a wedge below; `links` pairs of notes that a bracket joins.
    Notes count as in `phrase.model.sounding_notes`, changes as in `Phrase.changes`.
    """

    under: Mapping[int, str] = field(default_factory=dict)
    scales: Mapping[int, str] = field(default_factory=dict)
    landings: frozenset[int] = frozenset()
    links: tuple[tuple[int, int], ...] = ()


NO_STUDY_MARKS = StudyMarks()
