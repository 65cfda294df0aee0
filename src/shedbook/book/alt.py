"""What a listener is told of a score: every bar with its chords and notes, in words. Pure."""

from __future__ import annotations

from shedbook.book.words import Words
from shedbook.book.written_scales import WrittenScale
from shedbook.phrase.model import Bar, Phrase, Value
from shedbook.theory.pitch import Pitch


def score_text(phrase: Phrase, words: Words) -> str:
    """Return "Low tide in C minor, … Bar 1, G7b9: eighth B 4, D 5, …"; values stand where they change."""
    said = [
        words(
            "alt.title",
            title=phrase.title,
            key=words.whole_key(str(phrase.key)),
            metre=phrase.metre,
            tempo=tempo_words(phrase.tempo_bpm, phrase.feel, words),
        )
    ]
    value: Value | None = None
    for bar in phrase.bars:
        notes, value = _bar(bar, value, words)
        if bar.number == 0:
            said.append(words("alt.pickup", notes=notes))
        else:
            chords = " ".join(change.chord.text for change in phrase.changes if change.bar == bar.number)
            said.append(words("alt.bar", n=bar.number, chords=chords or _sounding(phrase, bar), notes=notes))
    return " ".join(said)


def tempo_words(tempo: int, feel: str, words: Words) -> str:
    """Return "132 beats a minute, swing"; a free feel has no tempo."""
    return words("tempo.fact.free" if feel == "free" else "tempo.fact", n=tempo, feel=feel)


def _sounding(phrase: Phrase, bar: Bar) -> str:
    """Return the chord that goes on through a bar without one of its own."""
    return phrase.changes[phrase.change_index_at(phrase.bar_start(bar.number))].chord.text


def _bar(bar: Bar, value: Value | None, words: Words) -> tuple[str, Value | None]:
    """Return the notes of a bar in words, and the value that holds at its end."""
    said = []
    for event in bar.events:
        for index, own in enumerate(event.values):
            tied = event.pitch is not None and (event.tie_in or index > 0)
            name = words("alt.rest") if event.pitch is None else pitch_text(event.pitch, words)
            if tied:
                said.append(words("alt.tie", value=_value(own, words)))
            else:
                said.append(f"{_value(own, words)} {name}" if own != value else name)
            value = own
    return ", ".join(said), value


def pitch_text(pitch: Pitch, words: Words) -> str:
    """Return "B flat 4"."""
    return f"{words.note(str(pitch.name))} {pitch.octave}"


def scale_text(scale: WrittenScale, words: Words) -> str:
    """Return "dorian over E flat m7: E flat 4, F 4, …"."""
    root, kind = scale.chord.split_text()
    chord = words.note(str(scale.chord.root)) if scale.chord.root is not None else root
    return words(
        "alt.scale",
        scale=scale.name,
        chord=f"{chord} {kind}".strip(),
        notes=", ".join(pitch_text(pitch, words) for pitch in scale.pitches),
    )


def _value(value: Value, words: Words) -> str:
    text = words(f"alt.{value.part}") if words.has(f"alt.{value.part}") else f"1/{value.part}"
    for _ in range(value.dots):
        text = words("alt.dotted", value=text)
    if (value.actual, value.normal) == (3, 2):
        return words("alt.triplet", value=text)
    if value.actual != 1:
        text = words("alt.tuplet", value=text, actual=value.actual, normal=value.normal)
    return text
