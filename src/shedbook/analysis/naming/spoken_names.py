"""What one musical thing is called in words: a note, a degree, a chord, a scale, the size of an interval.

Conventions: every function takes the words of a language and gives a text without a capital letter at its
start. The rows come from `tables.wording`; that those rows are there which a name can need is checked when
this module is imported.
"""

from __future__ import annotations

import re
from functools import lru_cache

from shedbook.analysis.naming.language import ENGLISH, Words, note_as_written
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName, Pitch, spellings
from shedbook.theory.scale import Scale
from shedbook.theory.slash_chords import over_bass
from shedbook.theory.tables.degrees import FAMILY_DEGREES

_OCTAVE = 12
_SIGN = re.compile(r"(?:(?<=^[A-G])|(?<=/[A-G]))(?:b{1,2}|#{1,2})|[b#](?=\d)")
_ALTERED_DEGREE = re.compile(r"[( ]?([b#])(\d+)\)?")

_DEGREES = {"6", *(degree for row in FAMILY_DEGREES.values() for degree in row)}
"""Every degree that a note can have over a chord; on a sixth chord the 13 is its 6."""

ENGLISH.must_have(
    [f"{form}degree.{degree}" for degree in sorted(_DEGREES) for form in ("", "bare ")],
    "a note can have this degree over a chord",
)
ENGLISH.must_have(
    [f"size.{semitones}" for semitones in range(_OCTAVE + 1)], "an interval can have this size in half steps"
)


def spoken_name(name: NoteName) -> NoteName:
    """Return the name by which a note is spoken of: a double accidental gives way to the plain name."""
    return spellings(60 + name.pitch_class)[0].name if abs(name.alteration) > 1 else name


@lru_cache(maxsize=512)
def name_words(name: NoteName, words: Words = ENGLISH) -> str:
    """Return "B♭", "F♯", "C"; a double accidental gives way to the plain name that sounds."""
    return words.short_note(spoken_name(name))


def pitch_words(pitch: Pitch, words: Words = ENGLISH) -> str:
    """Return a pitch's name, without the octave."""
    return name_words(pitch.name, words)


def pitch_with_octave(pitch: Pitch, words: Words = ENGLISH) -> str:
    """Return a pitch's name with its octave as it is written: "C♯5"."""
    return f"{words.short_note(pitch.name)}{pitch.octave}"


def degree_words(degree: str, chord: Chord, words: Words = ENGLISH, form: int = 1) -> str:
    """Return "the third", "the flat 9", "the major third" (over a chord with another); "" for no degree.

    `form` is the form that the sentence asks for, where the language has several.
    """
    return _degree("", degree, chord, words, form)


def bare_degree(degree: str, chord: Chord, words: Words = ENGLISH, form: int = 1) -> str:
    """Return the degree in words without its article: "third", "flat 9"; "" for no degree."""
    return _degree("bare ", degree, chord, words, form)


def _degree(article: str, degree: str, chord: Chord, words: Words, form: int) -> str:
    """Return a degree by a name of its own where the chord has it and its row is there: third, not flat 3."""
    if not degree:
        return ""
    own = f"{article}own degree.{degree}"
    has_own = degree in over_bass(chord).degrees and words.has(own)
    return words.form(own if has_own else f"{article}degree.{degree}", form)


def chord_words(chord: Chord, words: Words = ENGLISH) -> str:
    """Return a chord as it is said: its symbol, but "B♭ minor" for a plain minor chord."""
    if chord.root is None:
        return words("chord.none")
    _, kind = chord.split_text()
    if chord.bass is None and kind in ("m", "-", "min", "mi"):
        return words("chord.minor", root=name_words(chord.root, words))
    return symbol_words(chord, words)


@lru_cache(maxsize=1024)
def symbol_words(chord: Chord, words: Words = ENGLISH) -> str:
    """Return a chord's symbol as it stands in a text, "B♭m7♭5"; "N.C." where no chord sounds."""
    if chord.root is None:
        return words("chord.silent", symbol=chord.text)
    slash = "" if chord.bass is None else words("chord.slash", bass=words.short_note(chord.bass))
    root, kind = words.short_note(chord.root), with_signs(chord.split_text()[1])
    return words("chord.symbol", symbol=with_signs(chord.text), root=root, kind=kind, slash=slash)


@lru_cache(maxsize=1024)
def voiced_chord(chord: Chord, words: Words = ENGLISH) -> str:
    """Return a chord for a voice that reads: "E flat m7 flat 5"; "N.C." where no chord sounds."""
    if chord.root is None:
        return words("chord.silent", symbol=chord.text)
    kind = _ALTERED_DEGREE.sub(
        lambda found: words("voice.flat" if found[1] == "b" else "voice.sharp", n=found[2]),
        chord.split_text()[1],
    )
    root = note_as_written(chord.root, words)
    said = words("voice.chord", root=root, kind=kind.strip()) if kind else root
    return (
        said
        if chord.bass is None
        else words("voice.slash", chord=said, bass=note_as_written(chord.bass, words))
    )


def with_signs(symbol: str) -> str:
    """Return a chord symbol with real signs: "B♭m7♭5" for "Bbm7b5"."""
    return _SIGN.sub(lambda found: "♭" * len(found[0]) if found[0][0] == "b" else "♯" * len(found[0]), symbol)


def scale_words(
    scale: Scale, words: Words = ENGLISH, *, over: Chord | None = None, short: bool = False
) -> str:
    """Return a scale's name, its root before it where that is not the root of the chord it stands over.

    It is the printed name, or the one that is said where it shall be `short`.
    """
    name = words.named("short scale" if short else "scale", scale.name)
    if over is not None and over.root is not None and scale.root.pitch_class == over.root.pitch_class:
        return name
    return words("scale.on", root=words.short_note(scale.root), scale=name)


def interval_words(semitones: int, words: Words = ENGLISH, form: int = 1) -> str:
    """Return the name of an interval's size, up or down: "a minor sixth", "an octave"."""
    return words.form(f"size.{abs(semitones)}" if abs(semitones) <= _OCTAVE else "size.more", form)
