"""Rules on notes that are held against their chord, or outside it.

Whether a shorter note is a slip is asked of the figures of real lines (`slips`): there, most notes that a
harmony book would object to are music.
"""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account, felt_beat
from shedbook.analysis.account.note_account import NoteAccount, followed_by_step
from shedbook.analysis.hearing.chord_spans import OUTSIDE, Span
from shedbook.analysis.naming.sayings import ChordName, Degree, Note, Size, Typed, saying
from shedbook.analysis.proof.finding import Found, found_at
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule
from shedbook.analysis.roles.role_names import BLUE, PEDAL, SUSPENSION
from shedbook.theory.chord import Chord

_MINOR_THIRD = 3
"""In half steps: what a sharp 9 is heard as over a major chord."""

_HELD = 2
"""From how many felt beats on a note is held: shorter ones go by [the project's design]."""


@phrase_rule(
    RuleRow(
        "chord-contradicted",
        "error",
        "A note that speaks against the chord's own third, fifth or seventh is held for two beats or more, "
        "and nothing excuses it.",
        fires=Example("Cm7 | Fm7", "1/2 e4 g4 | 1/2 ab4 c4", "dorian | dorian"),
        silent=Example("Cm7 | Fm7", "1/2 eb4 g4 | 1/2 ab4 c4", "dorian | dorian"),
        source="common practice",
    )
)
def chord_contradicted(account: Account) -> Iterator[Found]:
    """Find notes held against their chord, and notes held into a chord that they speak against."""
    for note in account.notes:
        if _held_outside(account, note) and _speaks_against(note.degree, note.span.chord):
            name, chord = Note(note.pitch.name), note.span.chord
            heard = Size(_MINOR_THIRD) if note.degree == "#9" else Degree(note.degree, chord)
            message = saying(
                "finding.chord-contradicted.held", note=name, heard=heard, chord=ChordName(chord)
            )
            mend = saying("finding.chord-contradicted.mend.held", note=name, typed=Typed(chord.text))
            yield found_at(note, message, mend)
        for span in _spans_held_into(account, note):
            if _speaks_against(span.degrees[note.midi % 12], span.chord):
                yield _held_into(account, note, span)


@phrase_rule(
    RuleRow(
        "outside-held",
        "warning",
        "An outside note is held for two beats or more, and nothing excuses it.",
        fires=Example("Dm7 | Cmaj7", "1/4 d5 e f a | 1/1 c#5", "dorian | ionian"),
        silent=Example("Dm7 | Cmaj7", "1/4 d5 e f a | 1/2 c#5 d", "dorian | ionian"),
        source="common practice",
    )
)
def outside_held(account: Account) -> Iterator[Found]:
    """Find notes held outside chord and scale that do not speak against a tone of the chord itself."""
    for note in account.notes:
        chord = note.span.chord
        if _held_outside(account, note) and not _speaks_against(note.degree, chord):
            yield found_at(
                note,
                saying(
                    "finding.outside-held",
                    note=Note(note.pitch.name),
                    degree=Degree(note.degree, chord),
                    chord=ChordName(chord),
                ),
            )


def _held_outside(account: Account, note: NoteAccount) -> bool:
    """Say whether a note is held outside chord and scale, and nothing excuses it."""
    if note.membership != OUTSIDE or note.span.chord.root is None:
        return False
    excused = note.role in (SUSPENSION, BLUE, PEDAL) or followed_by_step(account.notes, note)
    return not excused and note.quarters >= _HELD * felt_beat(account.phrase.metre)


_AGAINST = {"3": "b3", "7": "b7", "b7": "7"}
"""A degree that is heard, and the degree of the chord that it speaks against [common practice]."""


def _speaks_against(degree: str, chord: Chord) -> bool:
    """Whether a degree contradicts a chord's third, fifth or seventh."""
    if degree == "5":
        return chord.altered or chord.fifth in ("b5", "#5")
    if degree == "#9":  # a colour over a dominant, the wrong third over a major chord
        return chord.family == "major" and chord.third == "3"
    return degree in _AGAINST and _AGAINST[degree] in chord.degrees


def _spans_held_into(account: Account, note: NoteAccount) -> list[Span]:
    """Return the spans into which an outside note is held for two beats or more, unresolved."""
    found: list[Span] = []
    length = note.quarters
    if length.numerator < length.denominator:  # shorter than any beat that is felt
        return found
    if note.role in (SUSPENSION, PEDAL) or followed_by_step(account.notes, note):
        return found
    for span in account.spans[note.span.index + 1 :]:
        held = min(note.end, span.end) - span.start
        if held < _HELD * felt_beat(account.phrase.metre):
            break
        if span.chord.root is not None and span.membership(note.midi % 12) == OUTSIDE:
            found.append(span)
    return found


def _held_into(account: Account, note: NoteAccount, span: Span) -> Found:
    """Say that a note is held into a span; it is found where the span begins."""
    metre = account.phrase.metre
    bar, rest = divmod(span.start, metre.bar_quarters)
    message = saying(
        "finding.chord-contradicted.into",
        note=Note(note.pitch.name),
        chord=ChordName(span.chord),
        heard=Degree(span.degrees[note.midi % 12], span.chord),
    )
    return Found(int(bar) + 1, rest / metre.beat_quarters + 1, message, note=note.index)
