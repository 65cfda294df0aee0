"""The words of a line, read one at a time: notes, rests, values, ties, grace notes and bar lines.

A word means the same wherever it stands, so that reading one is a pure function whose results are kept. What
a row of words means is read by `line_reader`. Offsets in errors count from the start of the word.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from shedbook.errors import NotationError, nearest, shown
from shedbook.phrase.model import MARKS, Value
from shedbook.phrase.other_ways import meant, with_plain_signs
from shedbook.phrase.value_text import EXPECTED, read_values
from shedbook.theory.interval import ACCIDENTALS
from shedbook.theory.pitch import LETTERS

NOTE, REST, VALUE, TIE, GRACE, BAR_LINE, BRACKETS = range(7)

WORD = re.compile(r"\||[^\s|]+")
"""A word of the line; a bar line is one even where no white space stands around it."""

_NOTE = re.compile(r"([A-Ga-g])(##|bb|#|b|)(-?[0-9]{1,2})?((?:\.[^.]*)*)")
_BRACKETED_VALUE = re.compile(r"(\(*)((?:[^()]|\([^()]*\))*)(\)*)", re.DOTALL)
_REST_WORDS = frozenset({"r", "rest", "z", "_", "0", "pause", "silence"})


class LineWord(NamedTuple):
    """One word, with those of its parts that words of its kind have.

    Attributes:
        kind: `NOTE`, `REST`, `VALUE`, `TIE`, `GRACE`, `BAR_LINE` or `BRACKETS`.
        letter: the letter of a note, counted from 0 for C.
        alteration: its accidental in half steps.
        octave: its octave number, or None where none is written.
        marks: its marks, in the order of `phrase.model.MARKS`.
        opens: how many round brackets stand before it.
        closes: how many stand after it.
        values: the tied values of a value, or of a tie with its value written close to it.
    """

    kind: int
    letter: int = 0
    alteration: int = 0
    octave: int | None = None
    marks: tuple[str, ...] = ()
    opens: int = 0
    closes: int = 0
    values: tuple[Value, ...] = ()


@lru_cache(maxsize=8192)
def read_word(word: str) -> LineWord:
    """Read one word; signs that have one meaning, such as "b♭" and "¼", are read as what they stand for.

    Raises:
        NotationError: if it cannot be read, with offsets from the start of the word.
    """
    plain = with_plain_signs(word)
    if plain == word:
        return _read_plain_word(word)
    try:
        return _read_plain_word(plain)
    except NotationError as error:
        message = error.message.replace(f'"{plain}"', f'"{word}"')
        raise NotationError(message, hint=error.hint, start=0, end=len(word)) from None


def _read_plain_word(word: str) -> LineWord:
    """Read a word without such signs."""
    if word == "|":
        return LineWord(BAR_LINE)
    opens = len(word) - len(word.lstrip("("))
    head = word[opens : opens + 1]
    if head.isdigit() or head == "+":
        return _read_length_word(word, opens)
    body = word[opens:].rstrip(")")
    closes = len(word) - opens - len(body)
    if not body:
        return LineWord(BRACKETS, opens=opens, closes=closes)
    if body == "-":
        return LineWord(REST, opens=opens, closes=closes)
    if body[:6].lower() == "grace:":
        return _read_grace(body, opens, closes)
    return _read_note(body, opens, closes, NOTE)


def _read_length_word(word: str, opens: int) -> LineWord:
    """Read a value, "+", or "+" with its value close to it."""
    found = _BRACKETED_VALUE.fullmatch(word)
    body, closes = (word[opens:], 0) if found is None else (found[2], len(found[3]))
    kind = TIE if body.startswith("+") else VALUE
    values_text = body.removeprefix("+")
    if kind == TIE and not values_text:
        return LineWord(TIE, opens=opens, closes=closes)
    try:
        values = read_values(values_text)
    except NotationError as error:
        known = meant(word.strip("()")) or meant(word[opens:])
        if known is not None:
            raise NotationError(known.message, hint=known.hint, start=0, end=len(word)) from None
        shift = opens + len(body) - len(values_text)
        if "/" not in values_text and not values_text.isdigit():
            raise _not_a_note(body, opens) from None
        raise error.moved(shift) from None
    return LineWord(kind, opens=opens, closes=closes, values=values)


def _read_grace(body: str, opens: int, closes: int) -> LineWord:
    """Read "grace:f#5"."""
    length = len("grace:")
    try:
        word = _read_note(body[length:], 0, 0, GRACE)
    except NotationError as error:
        shift = opens + length
        raise error.moved(shift) from None
    if word.marks or closes:
        raise NotationError(
            "A grace note carries no mark and ends no slur.",
            hint='Put it on the note that follows: "grace:f# g.accent", "(e grace:f# g)".',
            start=opens,
            end=opens + len(body) + closes,
        )
    return word._replace(opens=opens)


def _read_note(body: str, opens: int, closes: int, kind: int) -> LineWord:
    """Read a note's letter, accidental, octave number and marks."""
    found = _NOTE.fullmatch(body)
    if found is None:
        raise _not_a_note(body, opens)
    letter, accidental, octave, marks = found.groups()
    return LineWord(
        kind,
        LETTERS.index(letter.upper()),
        ACCIDENTALS[accidental],
        None if octave is None else int(octave),
        _read_marks(marks, opens + found.start(4)) if marks else (),
        opens,
        closes,
    )


def _read_marks(text: str, start: int) -> tuple[str, ...]:
    """Read marks such as ".accent.staccato", and return them in the order of `phrase.model.MARKS`."""
    marks = []
    for mark in text[1:].split("."):
        end = start + 1 + len(mark)
        if mark not in MARKS:
            known = "" if mark else 'A dot lengthens the value, "1/4. d"; a mark has a name: "d.accent". '
            raise NotationError(
                f'"{shown(mark)}" is not a mark.' if mark else "A full stop has no mark after it.",
                hint=nearest(mark, MARKS) or f"{known}The marks are {', '.join(MARKS)}.",
                start=start if not mark else start + 1,
                end=end,
            )
        if mark in marks:
            raise NotationError(
                f'"{mark}" stands twice on one note.', hint="Write it once.", start=start + 1, end=end
            )
        marks.append(mark)
        start = end
    return tuple(mark for mark in MARKS if mark in marks)


def _not_a_note(body: str, start: int) -> NotationError:
    """Return the error for a word that is not a note, with the advice that fits it best."""
    hint = (
        "A note is a letter a to g, an accidental (# b ## bb) and, where the octave changes, "
        'its number: "b5", "bb5".'
    )
    known = meant(body)
    if body.lower() in _REST_WORDS:
        hint = 'A rest is "-".'
    elif known is not None:
        return NotationError(known.message, hint=known.hint, start=start, end=start + len(body))
    elif "/" in body:
        hint = EXPECTED
    elif "(" in body or ")" in body:
        hint = 'Slur brackets stand before the first note and after the last: "(c d e.accent)".'
    return NotationError(f'"{shown(body)}" is not a note.', hint=hint, start=start, end=start + len(body))
