"""Coverage: which degrees of each chord scale the line uses, and which it leaves out."""

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
    """Return the coverage of each span by itself, in order; `notes` and `spans` are those of one phrase."""
    by_span = notes_by_span(notes)
    return tuple(_entry(by_span, (span,)) for span in spans)


def coverage_over_phrase(notes: tuple[NoteAccount, ...], spans: tuple[Span, ...]) -> tuple[Coverage, ...]:
    """Return the coverage of each chord with its scale over the whole phrase: all its spans together."""
    by_span = notes_by_span(notes)
    together: dict[tuple[object, ...], list[Span]] = {}
    for span in spans:
        key = (span.scale, span.degrees, span.chord_classes)
        together.setdefault(key, []).append(span)
    return tuple(_entry(by_span, tuple(group)) for group in together.values())


def _entry(by_span: dict[int, list[NoteAccount]], spans: tuple[Span, ...]) -> Coverage:
    """Return the coverage of some spans that have one chord and one scale."""
    span = spans[0]
    members = tuple(member.index for member in spans)
    if span.scale is None:
        return Coverage(members, (), ())
    sounding = {note.midi % 12 for member in members for note in by_span.get(member, ())}
    root = span.scale.root if span.chord.root is None else span.chord.root
    classes = sorted(span.scale_classes, key=lambda pitch_class: (pitch_class - root.pitch_class) % 12)
    used = tuple(span.degrees[one] for one in classes if one in sounding)
    missing = tuple(span.degrees[one] for one in classes if one not in sounding)
    return Coverage(members, used, missing)
