"""The study marks of a score: degrees under notes, names of scales, landings and links."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class StudyMarks:
    """What is drawn into a score for the student.

    Notes are indexes of struck notes, as in `phrase.model.sounding_notes`; changes are indexes of
    `Phrase.changes`.

    Attributes:
        under: by note, the degree that stands under it, such as "b9".
        scales: by change, the name of the scale that stands over its chord symbol.
        landings: the notes that get a wedge below.
        links: pairs of notes that a bracket below joins.
        shorter: by name of a scale, a shorter one for where the next chord leaves it too little room.
    """

    under: Mapping[int, str] = field(default_factory=dict)
    scales: Mapping[int, str] = field(default_factory=dict)
    landings: frozenset[int] = frozenset()
    links: tuple[tuple[int, int], ...] = ()
    shorter: Mapping[str, str] = field(default_factory=dict)


NO_STUDY_MARKS = StudyMarks()
