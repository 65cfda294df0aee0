"""Rules on how a phrase is written: bars, ties, its length, and accidentals that are easily misread."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.naming.sayings import Beats, Note, WrittenNote, saying
from shedbook.analysis.proof.finding import Found, Remedy, found_at
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule
from shedbook.theory.pitch import Pitch, spellings

_MOST_BARS = 16
"""A phrase with more bars than these is several phrases [the project's design]."""


@phrase_rule(
    RuleRow(
        "bar-does-not-fill",
        "error",
        "The notes and rests of a bar are longer or shorter than the bar.",
        fires=Example("Dm7 | G7", "1/4 d4 f a c5 | b4 g d g", edit="shorten the last bar"),
        silent=Example("Dm7 | G7", "1/4 d4 f a c5 | b4 g d g"),
        source="common practice",
    )
)
def bar_does_not_fill(account: Account) -> Iterator[Found]:
    """Find bars of another length than the metre's; a pick-up may be shorter."""
    phrase = account.phrase
    for bar in phrase.bars:
        over = bar.quarters - phrase.metre.bar_quarters
        if over == 0 or (bar.number == 0 and over < 0):
            continue
        beats = Beats(abs(over) / phrase.metre.beat_quarters)
        row = f"finding.bar-does-not-fill.{'long' if over > 0 else 'short'}"
        yield Found(bar.number, None, saying(row, bar=bar.number, beats=beats))


@phrase_rule(
    RuleRow(
        "tie-to-another-pitch",
        "error",
        "A tie leads to a note of another pitch.",
        fires=Example("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 g4 d g", edit="move the tied note"),
        silent=Example("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 g4 d g"),
        source="common practice",
    )
)
def tie_to_another_pitch(account: Account) -> Iterator[Found]:
    """Find ties into a bar from a rest or from another pitch."""
    before: Pitch | None = None
    for bar in account.phrase.bars:
        for event in bar.events:
            if (
                event.tie_in
                and event.pitch is not None
                and (before is None or before.midi != event.pitch.midi)
            ):
                to = Note(event.pitch.name)
                if before is None:
                    message = saying("finding.tie-to-another-pitch.rest", to=to)
                else:
                    message = saying("finding.tie-to-another-pitch.note", start=Note(before.name), to=to)
                yield Found(bar.number, Fraction(1), message)
            before = event.pitch


@phrase_rule(
    RuleRow(
        "long-phrase",
        "advice",
        "The phrase has more than 16 bars.",
        fires=Example("Dm7" + " | %" * 16, "1/1 d4" + " | f4 | d4" * 8),
        silent=Example("Dm7" + " | %" * 15, "1/1 d4" + " | f4 | d4" * 7 + " | f4"),
        source="the project's design",
    )
)
def long_phrase(account: Account) -> Iterator[Found]:
    """Find a phrase that has too many bars to be practised as one."""
    bars = account.phrase.full_bars
    if bars > _MOST_BARS:
        yield Found(None, None, saying("finding.long-phrase", n=bars))


@phrase_rule(
    RuleRow(
        "misread-accidental",
        "advice",
        "A note is written so that a reader will stumble: with a double accidental, as E sharp, B sharp, "
        "C flat or F flat where neither chord nor scale asks for it, or in two ways within a bar.",
        fires=Example("G7", "1/4 a#4 b4 bb4 g4", "half-whole diminished"),
        silent=Example("G7", "1/4 bb4 b4 bb4 g4", "half-whole diminished"),
        source="common practice",
    )
)
def misread_accidental(account: Account) -> Iterator[Found]:
    """Find notes whose written name a reader has to think about."""
    written: dict[tuple[int, int], Pitch] = {}
    for note in account.notes:
        pitch = note.pitch
        known = written.setdefault((note.bar, pitch.midi), pitch)
        plain = spellings(pitch.midi)[0]
        if abs(pitch.alteration) > 1 or (_sounds_as_a_white_key(pitch) and not _asked_for(note)):
            message = saying("finding.misread-accidental.name", note=WrittenNote(pitch.name))
            mend = saying("finding.misread-accidental.mend.plain", plain=Note(plain.name))
            yield found_at(note, message, mend, Remedy(((note.index, plain),)))
        elif known.step != pitch.step:
            message = saying(
                "finding.misread-accidental.two ways", note=Note(pitch.name), other=Note(known.name)
            )
            mend = saying("finding.misread-accidental.mend.alike")
            yield found_at(note, message, mend, Remedy(((note.index, known),)))


def _sounds_as_a_white_key(pitch: Pitch) -> bool:
    """Whether a pitch is E sharp, B sharp, C flat or F flat, which sound as another letter."""
    return (pitch.letter in "EB" and pitch.alteration == 1) or (
        pitch.letter in "CF" and pitch.alteration == -1
    )


def _asked_for(note: NoteAccount) -> bool:
    """Whether the chord or the scale spells the note as it is written."""
    scale = note.span.scale
    names = set(note.span.chord.tones) | (set() if scale is None else set(scale.notes))
    return note.pitch.name in names
