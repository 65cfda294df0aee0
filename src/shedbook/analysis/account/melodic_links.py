"""Links: how the line crosses from one chord, or one bar, into the next."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shedbook.analysis.account.figures import FALLING_GUIDES
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.roles.role_names import ENCLOSURE

CHANGE, BAR_LINE = "change", "bar line"

_GUIDES = FALLING_GUIDES | frozenset(
    (("3", "b7"), ("3", "7"), ("b3", "b7"), ("b3", "7"), ("3", "6"), ("b3", "6"))
)
"""Degrees that resolve by step or by staying [common practice]: sevenths to thirds, thirds to sevenths."""


@dataclass(frozen=True, slots=True)
class Link:
    """How the line crosses into a bar, or into a chord, at the bar and beat given.

    `before` and `after` are the indices of the notes on either side and `semitones` is the interval between
    them; both `after` and `semitones` are None where no note follows. `wrapped` says that an enclosure closes
    in on its target across the crossing. `guide` is a guide tone that resolves by step, as two degrees, and
    `guide_note` the index of the note that it starts from. `held` is the index of a note that lies over the
    crossing, or is struck again after it. `kept` are the pitch classes that the two chords have in common.
    """

    kind: str
    bar: int
    beat: Fraction
    before: int | None
    after: int | None
    semitones: int | None
    by_step: bool
    wrapped: bool
    guide: tuple[str, str] | None
    guide_note: int | None
    held: int | None
    kept: tuple[int, ...]


def melodic_links(
    notes: tuple[NoteAccount, ...], bar_quarters: Fraction, beat_quarters: Fraction, end: Fraction
) -> tuple[Link, ...]:
    """Return the links of a line at every change of chord and every bar line, in order.

    The lengths of a bar and of a beat and the `end` of the phrase are in quarters. A change of chord on a bar
    line is one link, of the kind "change".
    """
    if not notes:
        return ()
    spans = {note.span.index: note.span for note in notes}
    changes = {
        span.start: CHANGE
        for index, span in spans.items()
        if index > 0 and (index - 1 not in spans or spans[index - 1].chord.meaning != span.chord.meaning)
    }  # where only the scale is another one, the chord has not changed
    first = notes[0].arrival // bar_quarters + 1
    last = -(-end // bar_quarters)
    bars = {number * bar_quarters: BAR_LINE for number in range(int(first), int(last))}
    places = sorted({**bars, **changes}.items())
    found, after = [], 0
    for place, kind in places:
        while after < len(notes) and _lies_before(notes[after], place, kind):
            after += 1
        if after:
            found.append(_link(notes, after, place, kind, bar_quarters, beat_quarters))
    return tuple(found)


def _lies_before(note: NoteAccount, place: Fraction, kind: str) -> bool:
    """Whether a note belongs to what comes before a change of chord, or before a bar line."""
    if kind == CHANGE:
        return note.span.start < place
    return note.arrival < place and note.span.start < place


def _link(
    notes: tuple[NoteAccount, ...],
    after: int,
    place: Fraction,
    kind: str,
    bar_quarters: Fraction,
    beat_quarters: Fraction,
) -> Link:
    bar, rest = divmod(place, bar_quarters)
    before = notes[after - 1]
    following = notes[after] if after < len(notes) else None
    where = (int(bar) + 1, rest / beat_quarters + 1)
    lies_over = before.index if before.end > place else None
    if following is None:
        return Link(
            kind, *where, before.index, None, None, False, False, None, None, lies_over, ()
        )  # fmt: skip
    semitones = following.midi - before.midi
    guide, guide_note = _guide(notes, before, following) if kind == CHANGE else (None, None)
    if lies_over is None and semitones == 0:
        lies_over = before.index
    kept = before.span.chord_classes & following.span.chord_classes if kind == CHANGE else frozenset()
    return Link(
        kind, *where, before.index, following.index, semitones, 1 <= abs(semitones) <= 2,
        before.role == ENCLOSURE and before.target == following.index, guide, guide_note, lies_over,
        tuple(sorted(kept)),
    )  # fmt: skip


def _guide(
    notes: tuple[NoteAccount, ...], before: NoteAccount, following: NoteAccount
) -> tuple[tuple[str, str] | None, int | None]:
    """Return the guide tone that resolves into the first note over the new chord.

    It is the last note over the old chord or the one before that, and falls by step or stays.
    """
    for note in reversed(notes[max(0, before.index - 1) : before.index + 1]):
        if note.span.index != before.span.index or not note.joined:
            break
        pair = (note.degree, following.degree)
        falls = -2 <= following.midi - note.midi <= 0
        if pair in _GUIDES and note.in_chord and following.in_chord and falls:
            return pair, note.index
    return None, None
