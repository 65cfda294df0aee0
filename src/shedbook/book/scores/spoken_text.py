"""What a listener is told of a score: every bar with its chords and notes, in words. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from shedbook.analysis.naming.language import strung
from shedbook.analysis.naming.spoken_names import voiced_chord
from shedbook.book.ground.words import Words
from shedbook.editions.fingering.tab import Stop, Tab
from shedbook.phrase.feels import feel_row
from shedbook.phrase.model import Bar, Phrase, Value
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import Pitch


def score_text(phrase: Phrase, words: Words, tab: Tab | None = None) -> str:
    """Return "Low tide in C minor, … Bar 1, G 7 flat 9: eighth B 4, D 5, …"; values stand where they change.

    With tablature each note is followed by its string and fret.
    """
    said = [
        words(
            "alt.title",
            title=phrase.title,
            key=words.voiced_key(str(phrase.key)),
            metre=phrase.metre,
            tempo=tempo_words(phrase.tempo_bpm, phrase.feel, words),
        )
    ]
    value: Value | None = None
    stops = iter(tab.notes if tab else ())
    for bar in phrase.bars:
        notes, value = _bar(bar, value, words, stops)
        if bar.number == 0:
            said.append(words("alt.pickup", notes=notes))
        else:
            chords = " ".join(
                voiced_chord(change.chord, words) for change in phrase.changes if change.bar == bar.number
            )
            said.append(
                words("alt.bar", n=bar.number, chords=chords or _sounding(phrase, bar, words), notes=notes)
            )
    return " ".join(said)


def tempo_words(tempo: int, feel: str, words: Words) -> str:
    """Return "132 beats a minute, swing"; a feel without a steady beat has no tempo.

    Args:
        tempo: beats a minute.
        feel: a name of the table of feels.
        words: the words of the book's language.
    """
    row = "tempo.fact" if feel_row(feel).steady else "tempo.fact.free"
    return words(row, n=tempo, feel=words.named("feel", feel))


def _sounding(phrase: Phrase, bar: Bar, words: Words) -> str:
    """Return the chord that goes on through a bar without one of its own."""
    chord = phrase.changes[phrase.change_index_at(phrase.bar_start(bar.number))].chord
    return voiced_chord(chord, words)


def _bar(
    bar: Bar, value: Value | None, words: Words, stops: Iterator[Stop | None]
) -> tuple[str, Value | None]:
    """Return the notes of a bar in words, and the value that holds at its end.

    `stops` are those of the notes that have not been told yet.
    """
    said = []
    for event in bar.events:
        for index, own in enumerate(event.values):
            tied = event.pitch is not None and (event.tie_in or index > 0)
            name = words("alt.rest") if event.pitch is None else pitch_text(event.pitch, words)
            if tied:
                said.append(words("alt.tie", value=_value(own, words)))
            else:
                stop = next(stops, None) if event.pitch is not None else None
                name += f" {words('alt.stop', string=stop.string, fret=stop.fret)}" if stop else ""
                said.append(
                    name if own == value else words("alt.valued", value=_value(own, words), note=name)
                )
            value = own
    return strung(said, "alt.next", words), value


@lru_cache(maxsize=1024)
def pitch_text(pitch: Pitch, words: Words) -> str:
    """Return "B flat 4"; the same few come again in every key."""
    return words("alt.note", note=words.note(str(pitch.name)), octave=pitch.octave)


def scale_text(name: str, chord: Chord, pitches: Iterable[Pitch], words: Words) -> str:
    """Return "dorian over E flat m7: E flat 4, F 4, …"."""
    return words(
        "alt.scale",
        scale=words.named("scale", name),
        chord=voiced_chord(chord, words),
        notes=strung((pitch_text(pitch, words) for pitch in pitches), "alt.next", words),
    )


@lru_cache(maxsize=256)
def _value(value: Value, words: Words) -> str:
    text = words(f"alt.{value.part}") if words.has(f"alt.{value.part}") else f"1/{value.part}"
    for _ in range(value.dots):
        text = words("alt.dotted", value=text)
    if (value.actual, value.normal) == (3, 2):
        return words("alt.triplet", value=text)
    if value.actual != 1:
        text = words("alt.tuplet", value=text, actual=value.actual, normal=value.normal)
    return text
