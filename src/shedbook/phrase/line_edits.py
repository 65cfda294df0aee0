"""Other pitches written into the text of a line: the fewest edits that do it, and nothing else changed.

A note keeps its marks and brackets. An octave number holds until the next one, so where a note moves into
another octave the number of the next note is written too if it was not.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from shedbook.errors import NotationError
from shedbook.phrase.line_words import GRACE, NOTE, WORD, LineWord, read_word
from shedbook.theory.pitch import Pitch, accidental_text


class Edit(NamedTuple):
    """The characters from `start` to `end` of a text give way to `text`."""

    start: int
    end: int
    text: str


def edited(text: str, edits: Iterable[Edit]) -> str:
    """Return a text with edits, which are in order and do not overlap."""
    parts, at = [], 0
    for edit in edits:
        parts += [text[at : edit.start], edit.text]
        at = edit.end
    return "".join([*parts, text[at:]])


def pitch_edits(text: str, pitches: Mapping[int, Pitch]) -> tuple[Edit, ...]:
    """Return the edits that give struck notes of a line other pitches.

    Args:
        text: the line.
        pitches: the new pitches, by the index of the note as `model.sounding_notes` counts.

    Raises:
        NotationError: if a word of the line cannot be read, or the first note has no octave number.
    """
    found: list[Edit] = []
    before = after = None
    struck = -1
    for match in WORD.finditer(text):
        word = read_word(match.group())
        if word.kind not in (NOTE, GRACE):
            continue
        struck += word.kind == NOTE
        before = word.octave if word.octave is not None else before
        if before is None:
            raise NotationError("The first note of a line needs its octave number.", start=match.start())
        new = pitches.get(struck) if word.kind == NOTE else None
        octave = before if new is None else new.octave
        if new is not None or (word.octave is None and octave != after):
            numbered = word.octave is not None or octave != after
            found.append(_written(match.group(), match.start(), word, new, octave if numbered else None))
        after = octave
    return tuple(found)


def _written(token: str, start: int, word: LineWord, new: Pitch | None, octave: int | None) -> Edit:
    """Return the edit of one note: its name where it is new, and its octave number, None for none."""
    first = len("grace:") if word.kind == GRACE else len(token) - len(token.lstrip("("))
    body = token[first:].rstrip(")")
    name = body.partition(".")[0]
    own = name.rstrip("-0123456789")
    spelled = own if new is None else new.letter.lower() + accidental_text(new.alteration)
    if new is not None and own[:1].isupper():
        spelled = spelled[:1].upper() + spelled[1:]
    number = "" if octave is None else str(octave)
    return Edit(start + first, start + first + len(name), spelled + number)
