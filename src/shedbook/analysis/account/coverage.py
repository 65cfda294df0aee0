"""Coverage: which degrees of each chord scale the line touches, and which it leaves out."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.analysis.account.note_account import NoteAccount, notes_by_span
from shedbook.analysis.hearing.chord_spans import Span


@dataclass(frozen=True, slots=True)
class Coverage:
    """The degrees used and missing of one scale over one chord, in the scale's order.

    `spans` are the indices of the spans meant: one, or all with that chord and scale in the phrase.
    """

    spans: tuple[int, ...]
    used: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """Whether every note of the scale is used."""
        return bool(self.used) and not self.missing


def coverage(notes: tuple[NoteAccount, ...], spans: tuple[Span, ...]) -> tuple[Coverage, ...]:
    """Return one entry a span, in order."""
    heard = notes_by_span(notes)
    return tuple(_entry(heard, (span,)) for span in spans)


def coverage_over_phrase(notes: tuple[NoteAccount, ...], spans: tuple[Span, ...]) -> tuple[Coverage, ...]:
    """Return one entry for each chord with its scale, taking all their spans together."""
    heard = notes_by_span(notes)
    together: dict[tuple[object, ...], list[Span]] = {}
    for span in spans:
        key = (span.scale, span.degrees, span.chord_classes)
        together.setdefault(key, []).append(span)
    return tuple(_entry(heard, tuple(group)) for group in together.values())


def _entry(heard: dict[int, list[NoteAccount]], spans: tuple[Span, ...]) -> Coverage:
    span = spans[0]
    members = tuple(member.index for member in spans)
    if span.scale is None:
        return Coverage(members, (), ())
    sounding = {note.midi % 12 for member in members for note in heard.get(member, ())}
    root = span.scale.root if span.chord.root is None else span.chord.root
    classes = sorted(span.scale_classes, key=lambda pitch_class: (pitch_class - root.pitch_class) % 12)
    used = tuple(span.degrees[one] for one in classes if one in sounding)
    missing = tuple(span.degrees[one] for one in classes if one not in sounding)
    return Coverage(members, used, missing)
