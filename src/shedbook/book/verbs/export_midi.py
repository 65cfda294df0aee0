"""A phrase as a plain MIDI file: the line as written, its chord symbols as markers.

This is for other programs to read notes from, so nothing is swung; tracks to listen to are made by `sound`.
Every note begins where it is written. Accents are louder, ghost notes softer, staccato notes shorter. Grace
notes are struck before the beat and take their time from the note before, at most half of it; where nothing
comes before, and for a pick-up, a whole bar is put ahead.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from shedbook.analysis.account import quarters_a_minute
from shedbook.exchange.ground.tables.own_fields import MIDI_MAKER
from shedbook.exchange.rhythm.grace_and_staccato import staccato_ticks
from shedbook.exchange.rhythm.plain_ticks import is_plain
from shedbook.phrase.model import Phrase, Sounding, sounding_notes
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import TICKS_A_QUARTER, Performance, PlayedNote, PlayedPart, to_ticks
from shedbook.sound.score.written_score import LINE, KeyAt, Sign
from shedbook.theory.pitch import Pitch

_VELOCITY, _GHOST_VELOCITY, _ACCENT_VELOCITY = 90, 50, 110
_GRACE_VELOCITY = 80
_GRACE_MS = 60
"""How long a grace note sounds (common practice: crushed, but heard)."""
_PIANO = 0
_MIDDLE = 64


def plain_midi(phrase: Phrase) -> bytes:
    """Return the bytes of a Standard MIDI File that holds the notes and changes of a phrase.

    Slurs, scoops and falls have no place in it.
    """
    bar = phrase.metre.bar_quarters
    sounding = sounding_notes(phrase)
    pickup = phrase.bars[0].number == 0
    shift = bar if pickup else Fraction(0)
    if sounding and _graces(phrase, sounding[0]) and sounding[0].start + shift == 0:
        shift += bar
    signs = tuple(Sign(phrase.change_start(change) + shift, change.chord.text) for change in phrase.changes)
    ticks = to_ticks(shift + phrase.full_bars * bar)
    tempo_us = round(60_000_000 / quarters_a_minute(phrase))
    notes = tuple(_played(phrase, sounding, shift, 60_000_000 // tempo_us))
    part = PlayedPart(LINE, "line", _PIANO, 0, _MIDDLE, notes, ())
    keys = (KeyAt(Fraction(0), phrase.key),)
    texts = (MIDI_MAKER, phrase.feel)
    return smf(Performance(phrase.title, (part,), ticks, tempo_us, phrase.metre, keys, signs, texts))


def _played(
    phrase: Phrase, sounding: Sequence[Sounding], shift: Fraction, quarters_a_min: int
) -> Iterator[PlayedNote]:
    """Yield the notes, each after its grace notes."""
    before: PlayedNote | None = None
    for note in sounding:
        start, end = to_ticks(note.start + shift), to_ticks(note.end + shift)
        if "staccato" in note.marks:
            end = start + staccato_ticks(start, end - start, TICKS_A_QUARTER)
        graces = _graces(phrase, note)
        length = 0
        if graces:
            length = _grace_ticks(start, len(graces), _room(before, start), quarters_a_min)
        first = start - length * len(graces)
        if before is not None:
            yield PlayedNote(before.start, min(before.end, first), before.midi, before.velocity)
        for index, pitch in enumerate(graces):
            begins = first + index * length
            yield PlayedNote(begins, begins + length, pitch.midi, _GRACE_VELOCITY)
        before = PlayedNote(start, end, note.pitch.midi, _loudness(note.marks))
    if before is not None:
        yield before


def _room(before: PlayedNote | None, start: int) -> int:
    """Return how many ticks grace notes may take: a silence but for its first tick, or half of a note.

    A note that a grace note follows at once is thought to have been cut short by it.
    """
    if before is None:
        return start // 2
    silence = start - before.end
    return silence - 1 if silence else (start - before.start) // 2


def _graces(phrase: Phrase, note: Sounding) -> tuple[Pitch, ...]:
    bar, event = note.event
    return phrase.bars[bar].events[event].grace


def _grace_ticks(start: int, count: int, room: int, quarters_a_min: int) -> int:
    """Return how long each of some grace notes sounds.

    None of them begins where a written note could, so that whoever reads the file can tell them apart.
    """
    longest = min(_GRACE_MS * quarters_a_min * TICKS_A_QUARTER // 60_000, room // count)
    for length in range(longest, 0, -1):
        if not any(is_plain(start - length * place, TICKS_A_QUARTER) for place in range(1, count + 1)):
            return length
    return max(1, longest)


def _loudness(marks: tuple[str, ...]) -> int:
    if "ghost" in marks:
        return _GHOST_VELOCITY
    return _ACCENT_VELOCITY if "accent" in marks else _VELOCITY
