"""What a MIDI file holds and a phrase cannot keep: each such thing gets a remark in the report."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from statistics import median_low

from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.tables.own_fields import MIDI_MAKER
from shedbook.exchange.midi.chord_texts import FoundChanges, chord_in_text, feel_named
from shedbook.exchange.midi.events import COPYRIGHT, CUE, LYRIC, TEXT, MidiFile, MidiNote

_KINDS = ((LYRIC, "lyrics"), (TEXT, "texts"), (CUE, "cue points"), (COPYRIGHT, "copyright notices"))
_MOST_SHOWN, _LONGEST_SHOWN = 3, 40
_LOUDER = 20
"""A note stands out when its velocity is so much higher than the median."""


def name_what_is_lost(
    file: MidiFile, notes: Sequence[MidiNote], found: FoundChanges, reporter: Reporter
) -> None:
    """Report the texts that are no chords, the pedal, pitch bends and loudness.

    Args:
        file: the file.
        notes: the notes of the line.
        found: the chords that were found among the texts.
        reporter: told of everything that is not read.
    """
    for remark in file.remarks:
        reporter.note(remark)
    if any(track.bends for track in file.tracks):
        reporter.note("pitch bends are left out")
    if any(track.pedals for track in file.tracks):
        reporter.note("the sustain pedal is left out")
    for kind, called in _KINDS:
        texts = [
            text.text
            for track in file.tracks
            for text in track.texts
            if text.kind == kind and text.text and not _is_read(text.text, kind, found)
        ]
        if texts:
            shown = ", ".join(f'"{text[:_LONGEST_SHOWN]}"' for text in texts[:_MOST_SHOWN])
            more = f" and {len(texts) - _MOST_SHOWN} more" if len(texts) > _MOST_SHOWN else ""
            reporter.note(f"{called} are left out: {shown}{more}")
    if not notes:
        return
    middle = median_low([note.velocity for note in notes])
    loud = sum(note.velocity >= middle + _LOUDER for note in notes)
    if loud:
        reporter.note(
            f"loudness is left out: {loud} of {len(notes)} notes stand out, and get no accent for it"
        )


def _is_read(text: str, kind: int, found: FoundChanges) -> bool:
    """Tell whether a text of a kind has been read: as a chord, as the feel or as the maker."""
    if kind == found.kind and chord_in_text(text) is not None:
        return True
    return kind != LYRIC and (text == MIDI_MAKER or bool(feel_named(text)))


def name_other_tempos(tempos: Sequence[tuple[str, Fraction]], taken: Fraction, reporter: Reporter) -> None:
    """Report the tempos inside a line that differ from the one that is taken.

    Args:
        tempos: each tempo in quarters a minute, with the label of its bar.
        taken: the tempo of the phrase, likewise.
        reporter: told of the other tempos.
    """
    others = [(bar, tempo) for bar, tempo in tempos if round(tempo) != round(taken)]
    if not others:
        return
    least, most = (round(end(tempo for _, tempo in tempos)) for end in (min, max))
    for bar, _ in others:
        reporter.note(
            f"the tempo changes between {least} and {most} quarter notes a minute: {round(taken)} is taken",
            bar,
        )


def name_other_signatures(keys: Sequence[tuple[str, int]], taken: int | None, reporter: Reporter) -> None:
    """Report the key signatures inside a line that differ from the one that is taken.

    Args:
        keys: each signature as a number of sharps, with the label of its bar.
        taken: the signature of the phrase, None for none.
        reporter: told of the other signatures.
    """
    for bar, signature in keys:
        if signature != taken:
            reporter.note("a change of key signature is left out", bar)
