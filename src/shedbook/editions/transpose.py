"""Transposition: a phrase moved by an interval, letters and sound together.

Notes, grace notes, changes, scales and key all move. Moving back by the same interval gives the same phrase.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import NoteName, Pitch
from shedbook.theory.scale import Scale


@lru_cache(maxsize=4096)
def pitch_at(step: int, midi: int) -> Pitch:
    """Return the pitch with this step (letters from C-1) and MIDI number; equal pitches are one object."""
    return Pitch(step, midi)


def with_pitches(event: Event, pitch: Pitch | None, grace: tuple[Pitch, ...]) -> Event:
    """Return the event with another pitch and other grace notes.

    It calls the class directly, because it is called for every note of every key and `replace` is slow.
    """
    return Event(
        pitch, event.values, event.tie_in, event.marks, grace, event.slurs_open, event.slurs_close
    )  # fmt: skip


@lru_cache(maxsize=4096)
def moved_chord(chord: Chord, interval: Interval) -> Chord:
    """Return the chord moved by an interval; results are kept, because the same chords come back often."""
    return chord.transposed(interval)


@lru_cache(maxsize=4096)
def moved_scale(scale: Scale, interval: Interval) -> Scale:
    """Return the scale moved by an interval; results are kept."""
    return scale.transposed(interval)


def moved_bar(bar: Bar, interval: Interval) -> Bar:
    """Return the bar with every note and grace note moved by an interval."""
    steps, semitones = interval.steps, interval.semitones
    events = []
    for event in bar.events:
        pitch = event.pitch
        if pitch is None:
            events.append(event)
            continue
        grace = event.grace
        if grace:
            grace = tuple([pitch_at(note.step + steps, note.midi + semitones) for note in grace])
        events.append(with_pitches(event, pitch_at(pitch.step + steps, pitch.midi + semitones), grace))
    return Bar(bar.number, tuple(events))


def transpose(phrase: Phrase, interval: Interval) -> Phrase:
    """Return the phrase moved by an interval, each note by the same number of letters and half steps."""
    bars = [moved_bar(bar, interval) for bar in phrase.bars]
    changes = [
        ChangeAt(change.bar, change.beat, moved_chord(change.chord, interval)) for change in phrase.changes
    ]
    scales = [None if scale is None else moved_scale(scale, interval) for scale in phrase.scales]
    return replace(
        phrase,
        key=phrase.key.transposed(interval),
        bars=tuple(bars),
        changes=tuple(changes),
        scales=tuple(scales),
    )


def renamed(phrase: Phrase, tonic: NoteName) -> Phrase:
    """Return the phrase with its key called by another name of the same sound, such as B for Cb.

    All notes, chords and scales change their letters with it.

    Args:
        phrase: the phrase.
        tonic: the new name of its tonic, which must sound the same.
    """
    letters = (phrase.key.tonic.fifths - tonic.fifths) // 12
    return transpose(phrase, Interval(letters, 0)) if letters else phrase
