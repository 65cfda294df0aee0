"""Which notes of a system stand in a tuplet or are tied to the next: from numbers, brackets and arcs."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from shedbook.read_back.beams import Fault, Written
from shedbook.read_back.ink import Arc, Glyph
from shedbook.read_back.staves import System
from shedbook.read_back.written_notes import HEAD_WIDTH, WrittenSystem

_NUMBER_HALF = 0.5
"""Half the width of a tuplet's number in spaces."""


class Tie(NamedTuple):
    """A tie from one note to the next, as indexes of the notes; None for an end in another system."""

    before: int | None
    after: int | None


def plain_quarters(note: Written) -> Fraction:
    """Return the length of a note in quarters by its head, beams, flags and dots alone."""
    return quarters_of(note.part, note.dots)


@lru_cache(maxsize=256)
def quarters_of(part: int, dots: int, actual: int = 1, normal: int = 1) -> Fraction:
    """Return the length of a value in quarters; in a tuplet `actual` of them last as long as `normal`."""
    return Fraction(4, part) * (2 - Fraction(1, 2**dots)) * Fraction(normal, actual)


def mark_tuplets(system: System, written: WrittenSystem) -> None:
    """Give each note of a tuplet its ratio; the second number is the usual one, a power of two."""
    digits = sorted(
        (glyph for glyph in system.glyphs if glyph.font == "music" and "E880" <= glyph.name <= "E889"),
        key=lambda glyph: glyph.x,
    )
    numbers: list[list[Glyph]] = []
    for digit in digits:
        if numbers and digit.x - numbers[-1][-1].x < 1.2 and abs(digit.y - numbers[-1][-1].y) < 0.3:
            numbers[-1].append(digit)
        else:
            numbers.append([digit])
    notes = [note for note in written.notes if not note.small]
    for number in numbers:
        count = int("".join(glyph.name[-1] for glyph in number))
        middle = (number[0].x + number[-1].x) / 2 + _NUMBER_HALF
        members = _bracketed(system, number[0], middle, notes) or _beamed(count, middle, notes)
        if not members:
            written.faults.append(Fault(number[0].x, f"the number {count} of a tuplet belongs to no notes"))
        usual = 2 ** ((count - 1).bit_length() - 1) if count > 1 else 1
        for note in members:
            if note.tuplet is not None:
                written.faults.append(Fault(note.x, "a note stands in two tuplets"))
            note.tuplet = (count, usual)


def _bracketed(system: System, number: Glyph, middle: float, notes: Sequence[Written]) -> list[Written]:
    """Return the notes under the bracket that a number interrupts, none where there is no bracket."""
    level = [
        stroke
        for stroke in system.strokes
        if abs(stroke.y1 - stroke.y2) < 0.8 and abs(stroke.y1 - number.y) < 1.5 and stroke.width < 0.2
        and abs(stroke.x1 - stroke.x2) > 0.1
    ]  # fmt: skip
    left = [min(one.x1, one.x2) for one in level if 0 < middle - max(one.x1, one.x2) < 1.6]
    right = [max(one.x1, one.x2) for one in level if 0 < min(one.x1, one.x2) - middle < 1.6]
    if not left or not right:
        return []
    start, end = min(left), max(right)
    return [note for note in notes if start - 0.6 < note.x + HEAD_WIDTH / 2 < end + 0.6]


def _beamed(count: int, middle: float, notes: list[Written]) -> list[Written]:
    """Return the run of beamed notes over whose middle a number stands and whose lengths it divides."""
    best: tuple[float, list[Written]] | None = None
    for first, note in enumerate(notes):
        if note.beam < 0:
            continue
        for last in range(first + 1, len(notes)):
            run = notes[first : last + 1]
            if run[-1].x - run[0].x > 2 * (middle - run[0].x) + 4:
                break
            if run[-1].beam != note.beam:
                continue
            unit = sum((plain_quarters(one) for one in run), Fraction(0)) / count
            if not _is_unit(unit, min(Fraction(4, one.part) for one in run)):
                continue
            stems = [one.stem for one in (run[0], run[-1]) if one.stem is not None]
            off = abs(sum(stems) / len(stems) - middle)
            if off < 1.2 and (best is None or off < best[0]):
                best = (off, run)
    return best[1] if best else []


def _is_unit(length: Fraction, shortest: Fraction) -> bool:
    """Say whether a tuplet may count in this length: a plain value, and no shorter than its shortest note."""
    return (
        length >= shortest
        and length.numerator & (length.numerator - 1) == 0
        and (length.denominator & (length.denominator - 1) == 0)
    )


def ties_of(system: System, written: WrittenSystem) -> list[Tie]:
    """Return the ties of a system.

    An arc is a tie where its ends lie beside the heads of two notes of one step that follow one another. At
    the end of a system and at its beginning an arc beside one head is half a tie.
    """
    notes = [note for note in written.notes if not note.small]
    found = []
    for arc in system.arcs:
        before = [i for i, note in enumerate(notes) if _begins(arc, note)]
        after = [i for i, note in enumerate(notes) if _ends(arc, note)]
        pairs = [i for i in before if i + 1 in after and notes[i].step == notes[i + 1].step]
        if pairs:
            found.append(Tie(pairs[0], pairs[0] + 1))
        elif before[-1:] == [len(notes) - 1] and not after and arc.x2 > notes[-1].x + 1 and _level(arc):
            found.append(Tie(len(notes) - 1, None))
        elif after[:1] == [0] and not before and arc.x1 < notes[0].x and _level(arc):
            found.append(Tie(None, 0))
    return found


def _level(arc: Arc) -> bool:
    return abs(arc.y1 - arc.y2) < 0.3


def _begins(arc: Arc, note: Written) -> bool:
    """Say whether an arc begins beside a head or close over or under its right half."""
    return note.step is not None and -0.9 < arc.x1 - note.x - HEAD_WIDTH < 1.3 and abs(arc.y1 - note.y) < 1.3


def _ends(arc: Arc, note: Written) -> bool:
    return note.step is not None and -1.3 < arc.x2 - note.x < 0.9 and abs(arc.y2 - note.y) < 1.3
