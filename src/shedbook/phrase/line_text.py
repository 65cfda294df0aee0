"""The line of a phrase as text: read to bars, and printed in the normal form.

    1/8 d5 f ab c6 bb5 ab g f | 1/4 e5 1/8+1/4 (g f) 1/4 - | + 1/4 ...

A note value holds until the next one, and so does a tied value such as "1/8+1/4". An octave number holds
until the next one, for notes and grace notes together. Where the last note of a bar goes on into the next,
the next bar begins with "+" and the value that is added. The normal form is what `print_line` gives.
"""

from __future__ import annotations

from fractions import Fraction

from shedbook.errors import NotationError
from shedbook.phrase.line_reader import LineReader
from shedbook.phrase.line_words import BAR_LINE, NOTE, REST, TIE, WORD, read_word
from shedbook.phrase.model import Bar, Event, Value
from shedbook.phrase.value_text import print_values
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch, accidental_text


def parse_line(text: str, metre: Metre, pickup: Fraction = Fraction(0)) -> tuple[Bar, ...]:
    """Read the text of a line.

    Args:
        text: the line, in which a bar line may stand at the very start and end.
        metre: the metre, which says how long every bar must be.
        pickup: the length in quarters of the pick-up, bar 0, with which the line begins; 0 for none.

    Raises:
        NotationError: if the line cannot be read, with offsets into `text` and bar and beat as its place.
    """
    reader = LineReader(text, metre, pickup)
    for found in WORD.finditer(text):
        reader.start, reader.end = found.span()
        try:
            word = read_word(found.group())
        except NotationError as error:
            raise error.moved(reader.start, place=reader.place()) from None
        reader.take(word)
    return reader.finish()


def print_line(bars: tuple[Bar, ...]) -> str:
    """Return bars as text in the normal form.

    Raises:
        ValueError: if an event is tied to nothing, or a tied-in event carries marks or grace notes.
    """
    parts: list[str] = []
    values: tuple[Value, ...] = ()
    before: Event | None = None
    for bar in bars:
        octave: int | None = None
        words: list[str] = []
        for event in bar.events:
            if event.tie_in:
                _check_tie(event, before if not words else None)
                words += ["(" * event.slurs_open + "+", print_values(event.values) + ")" * event.slurs_close]
            else:
                if event.values != values:
                    words.append(print_values(event.values))
                octave = _print_event(event, octave, words)
            values, before = event.values, event
        parts.append(" ".join(words))
    return " | ".join(parts)


def _check_tie(event: Event, before: Event | None) -> None:
    """Refuse what the text has no way to say of a tied-in event."""
    if before is None or before.pitch != event.pitch or event.pitch is None:
        raise ValueError("a tied-in event opens a bar and goes on from the same pitch")
    if event.marks or event.grace:
        raise ValueError("marks and grace notes stand where the note is struck")


def _print_event(event: Event, octave: int | None, words: list[str]) -> int | None:
    """Add the words of a note or rest to `words`, and return the octave number that holds after it."""
    if event.pitch is None:
        words.append("-")
        return octave
    for pitch in event.grace:
        words.append("grace:" + _print_pitch(pitch, octave))
        octave = pitch.octave
    marks = "".join(f".{mark}" for mark in event.marks)
    note = _print_pitch(event.pitch, octave)
    words.append("(" * event.slurs_open + note + marks + ")" * event.slurs_close)
    return event.pitch.octave


def _print_pitch(pitch: Pitch, octave: int | None) -> str:
    """Return a pitch as text, with its octave number unless that holds already."""
    number = "" if pitch.octave == octave else str(pitch.octave)
    return pitch.letter.lower() + accidental_text(pitch.alteration) + number


def event_spans(text: str) -> tuple[tuple[tuple[int, int], ...], ...]:
    """Return the offsets of every event in the text of a line, bar by bar.

    They match `Bar.events` of the bars that `parse_line` gives for the same text.

    Raises:
        NotationError: if a word of the line cannot be read.
    """
    bars: list[list[tuple[int, int]]] = [[]]
    for found in WORD.finditer(text):
        kind = read_word(found.group()).kind
        if kind == BAR_LINE:
            bars.append([])
        elif kind in (NOTE, REST, TIE):
            bars[-1].append(found.span())
    return tuple(tuple(bar) for bar in bars if bar)
