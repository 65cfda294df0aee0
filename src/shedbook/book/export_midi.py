"""A phrase as a plain MIDI file: the line exactly as written, its chord symbols as markers.

This is for other programs to read notes from, so nothing is swung or shaped; tracks to listen to are made by
`sound`. A pick-up stands at the end of a whole bar of its own.
"""

from __future__ import annotations

from fractions import Fraction

from shedbook.analysis.account import quarters_a_minute
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.midi import smf
from shedbook.sound.parts import LINE, KeyAt, Sign
from shedbook.sound.perform import Performance, PlayedNote, PlayedPart, to_ticks

_VELOCITY, _GHOST_VELOCITY, _ACCENT_VELOCITY = 90, 50, 110
_PIANO = 0
_MIDDLE = 64


def plain_midi(phrase: Phrase) -> bytes:
    """Return the bytes of a Standard MIDI File that holds the notes and changes of a phrase.

    Grace notes and slurs have no place in it.
    """
    shift = phrase.metre.bar_quarters if phrase.bars[0].number == 0 else Fraction(0)
    notes = tuple(
        PlayedNote(
            to_ticks(note.start + shift), to_ticks(note.end + shift), note.pitch.midi, _loudness(note.marks)
        )
        for note in sounding_notes(phrase)
    )
    signs = tuple(Sign(phrase.change_start(change) + shift, change.chord.text) for change in phrase.changes)
    ticks = to_ticks(shift + phrase.full_bars * phrase.metre.bar_quarters)
    tempo_us = round(60_000_000 / quarters_a_minute(phrase))
    part = PlayedPart(LINE, "line", _PIANO, 0, _MIDDLE, notes, ())
    keys = (KeyAt(Fraction(0), phrase.key),)
    return smf(Performance(phrase.title, (part,), ticks, tempo_us, phrase.metre, keys, signs))


def _loudness(marks: tuple[str, ...]) -> int:
    if "ghost" in marks:
        return _GHOST_VELOCITY
    return _ACCENT_VELOCITY if "accent" in marks else _VELOCITY
