"""What is looked for in a catalogue, read from what a person types."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from shedbook.analysis.account.difficulty import HIGHEST_LEVEL
from shedbook.catalogue.entry import chord_letters
from shedbook.catalogue.tune import gaps_of
from shedbook.errors import NotationError
from shedbook.phrase.changes_text import parse_changes
from shedbook.phrase.line_words import NOTE, read_word
from shedbook.phrase.value_text import read_values
from shedbook.theory.interval import LETTER_SEMITONES
from shedbook.theory.metre import Metre

MOST_WRONG = 4
"""So many notes of a melody may be wrong at most."""

_SHORTEST = 3
"""A melody, a contour or a rhythm of fewer notes is in every book."""

_WAYS = {"up": "u", "down": "d", "same": "s", "u": "u", "d": "d", "s": "s"}


@dataclass(frozen=True, slots=True)
class Asked:
    """What the phrases that are looked for must all have; what is empty is not asked.

    Attributes:
        melody: MIDI numbers in a row.
        in_its_key: whether the melody must stand at these very pitches; else it may be transposed.
        wrong: how many of its notes may be others.
        contour: letters u, d and s: where the line goes from each note to the next.
        rhythm: bytes of `Tune.gaps`, from each note to the next.
        chords: `chord_letters` of changes, in any key; the first letter is that of a family.
        words: words that all stand in title or commentary; the last may be the beginning of one.
        terms: (kind, name) of progressions, scales and devices.
        levels: the levels, all allowed where empty.
    """

    melody: tuple[int, ...] = ()
    in_its_key: bool = False
    wrong: int = 0
    contour: str = ""
    rhythm: bytes = b""
    chords: str = ""
    words: tuple[str, ...] = ()
    terms: tuple[tuple[str, str], ...] = ()
    levels: tuple[int, ...] = ()


def read_melody(text: str) -> tuple[int, ...]:
    """Return the MIDI numbers of notes as a phrase writes them, such as "d5 f ab c6"; values are passed over.

    Raises:
        NotationError: if a word is not a note, the first has no octave number, or there are too few.
    """
    found: list[int] = []
    octave: int | None = None
    for match in re.finditer(r"\S+", text):
        word = match.group()
        if word == "|" or word == "-" or word[:1].isdigit():
            continue
        try:
            read = read_word(word)
            if read.kind != NOTE:
                raise _refuse(f'"{word}" is not a note.', "Write notes as in a phrase: d5 f ab c6.")
            octave = read.octave if read.octave is not None else octave
            if octave is None:
                raise _refuse(
                    "The first note has no octave number.", "Write it as d5; it holds until the next."
                )
        except NotationError as error:
            raise error.moved(match.start()) from None
        found.append(12 * (octave + 1) + LETTER_SEMITONES[read.letter] + read.alteration)
    _check(len(found), "melody", "notes")
    return tuple(found)


def read_contour(text: str) -> str:
    """Return letters for words such as "up up down same"; the letters u, d and s may be written too.

    Raises:
        NotationError: for any other word.
    """
    found = []
    for word in re.findall(r"[a-z]+|[^\s,]", text.lower()):
        way = _WAYS.get(word)
        if way is None and set(word) <= set("uds"):
            way = word
        if way is None:
            raise _refuse(f'"{word}" is no direction.', "Write up, down and same: up up down.")
        found.append(way)
    _check(len("".join(found)), "contour", "directions", _SHORTEST - 1)
    return "".join(found)


def read_rhythm(text: str) -> bytes:
    """Return the gaps of note values such as "1/8 1/8 1/4. 1/8t".

    A rest is its value after a minus, as in "1/8 -1/8 1/4"; it is added to the note before.

    Raises:
        NotationError: if a word is not a note value.
    """
    lengths: list[Fraction] = []
    for match in re.finditer(r"\S+", text):
        word = match.group()
        rest = word.startswith("-")
        try:
            values = read_values(word[1:] if rest else word)
        except NotationError as error:
            raise error.moved(match.start()) from None
        length = sum((value.quarters for value in values), Fraction(0))
        if rest and not lengths:
            raise _refuse("A rhythm begins with a note.", "Write the first value without a minus.")
        if rest:
            lengths[-1] += length
        else:
            lengths.append(length)
    _check(len(lengths), "rhythm", "values")
    return gaps_of(lengths)


def read_chords(text: str) -> str:
    """Return the letters of changes such as "Dm7b5 | G7 | Cm", which are looked for in every key.

    Raises:
        NotationError: if they cannot be read.
    """
    changes = parse_changes(text, Metre(4, 4))
    return chord_letters([change.chord for change in changes.changes])


def read_levels(text: str) -> tuple[int, ...]:
    """Return the levels of a text such as "2", "2,4" or "2-3".

    Raises:
        NotationError: if it is anything else.
    """
    found: list[int] = []
    for part in text.replace(" ", "").split(","):
        match = re.fullmatch(r"(\d)(?:-(\d))?", part)
        first, last = (int(match[1]), int(match[2] or match[1])) if match else (0, 0)
        if not 1 <= first <= last <= HIGHEST_LEVEL:
            raise _refuse(f'"{part}" is no level.', f"Levels go from 1 to {HIGHEST_LEVEL}: write 2 or 2-3.")
        found += range(first, last + 1)
    return tuple(dict.fromkeys(found))


def wrong_notes(many: int, melody: Sequence[int]) -> int:
    """Return how many notes of a melody may be wrong.

    Raises:
        NotationError: if they are too many for it to be this melody at all.
    """
    if not 0 <= many <= MOST_WRONG:
        raise _refuse(f"{many} wrong notes are not looked for.", f"Ask for 0 to {MOST_WRONG}.")
    if many and len(melody) - many < _SHORTEST:
        raise _refuse(
            f"With {many} wrong, {len(melody)} notes are no melody.",
            f"{_SHORTEST} must be right: give more notes.",
        )
    return many


def read_words(text: str) -> tuple[str, ...]:
    """Return the words of a text, in lower case."""
    return tuple(re.findall(r"\w+", text.lower()))


def _check(many: int, name: str, of_what: str, least: int = _SHORTEST) -> None:
    if many < least:
        raise _refuse(f"This {name} has {many} {of_what}.", f"Give {least} at least: fewer are everywhere.")


def _refuse(message: str, hint: str) -> NotationError:
    return NotationError(message, hint=hint)
