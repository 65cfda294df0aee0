"""Where a melody, a contour or a rhythm stands in the lines of a whole catalogue."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from shedbook.catalogue.asked import Asked
from shedbook.catalogue.tune import CONTOUR, Tune, joined, quarters_into_bar, steps_of


class Spot(NamedTuple):
    """A place in the line of a phrase.

    Attributes:
        book: the number of the book.
        ordinal: how many phrases of the book stand before it.
        note: which of its notes the find begins with, from 0.
        bar: the bar of that note, 0 for a pick-up.
        quarters: how far into the bar it is struck.
        semitones: by how many half steps the melody asked for was transposed; 0 for contours and rhythms.
        wrong: how many of its notes are others.
    """

    book: int
    ordinal: int
    note: int
    bar: int
    quarters: Fraction
    semitones: int = 0
    wrong: int = 0


@dataclass(frozen=True, slots=True)
class Lines:
    """The lines of all books, one after the other; `starts` are the places where books begin."""

    texts: Tune
    books: tuple[int, ...]
    starts: tuple[int, ...]

    def spot(self, place: int, semitones: int = 0, wrong: int = 0) -> Spot:
        """Return which note of which phrase stands at a place of the texts."""
        pitches = self.texts.pitches
        book = bisect_right(self.starts, place) - 1
        return Spot(
            self.books[book],
            pitches.count(0, self.starts[book], place) - 1,
            place - pitches.rindex(0, 0, place) - 1,
            self.texts.bars[place] - 1,
            quarters_into_bar(self.texts.beats[place]),
            semitones,
            wrong,
        )


def lines_of(tunes: Sequence[tuple[int, Tune]]) -> Lines:
    """Return the lines of books, given with their numbers."""
    starts, place = [], 0
    for _, texts in tunes:
        starts.append(place)
        place += len(texts.pitches)
    return Lines(joined([texts for _, texts in tunes]), tuple(book for book, _ in tunes), tuple(starts))


def spots(lines: Lines, asked: Asked) -> Iterator[Spot]:
    """Yield where everything asked of the line stands, beginning with the same note."""
    if asked.wrong and asked.melody:
        found = _nearly(lines, asked)
    elif asked.melody:
        found = _melody(lines, asked)
    elif asked.rhythm:
        found = ((place, 0, 0) for place in _places(lines.texts.gaps, asked.rhythm[:-1]))
    else:
        found = ((place - 1, 0, 0) for place in _places(_contours(lines), asked.contour.encode()))
    for place, semitones, wrong in found:
        if _also(lines, asked, place):
            yield lines.spot(place, semitones, wrong)


def _contours(lines: Lines) -> bytes:
    return lines.texts.steps.translate(CONTOUR)


def _also(lines: Lines, asked: Asked, place: int) -> bool:
    """Whether rhythm and contour stand at a place too."""
    gaps = asked.rhythm[:-1]  # how long the last note is held does not matter
    if gaps and lines.texts.gaps[place : place + len(gaps)] != gaps:
        return False
    notes = lines.texts.pitches[place : place + len(asked.rhythm)]
    if len(notes) < len(asked.rhythm) or 0 in notes:
        return False  # the phrase is over before the last value
    if not asked.contour:
        return True
    steps = lines.texts.steps[place + 1 : place + 1 + len(asked.contour)]
    return steps.translate(CONTOUR) == asked.contour.encode()


def _places(text: bytes, wanted: bytes) -> Iterator[int]:
    """Yield every place at which bytes stand, those that overlap too."""
    place = text.find(wanted)
    while place >= 0:
        yield place
        place = text.find(wanted, place + 1)


def _melody(lines: Lines, asked: Asked) -> Iterator[tuple[int, int, int]]:
    """Yield the places of a melody without a wrong note, with its transposition."""
    first = asked.melody[0]
    for after in _places(lines.texts.steps, steps_of(asked.melody)):
        moved = lines.texts.pitches[after - 1] - first
        if not (asked.in_its_key and moved):
            yield after - 1, moved, 0


def _nearly(lines: Lines, asked: Asked) -> Iterator[tuple[int, int, int]]:
    """Yield the places of a melody with few wrong notes, the best ones first.

    Where n may be wrong, of n + 1 notes one is right: each of the first n + 1 is taken as right in turn, and
    gives the transposition by which the others are judged.
    """
    import numpy as np  # noqa: PLC0415  loading it takes longer than the whole search for a melody that is right

    pitches = np.frombuffer(lines.texts.pitches, dtype=np.uint8).astype(np.int16)
    wanted = np.array(asked.melody, dtype=np.int16)
    windows = len(pitches) - len(wanted) + 1
    if windows < 1:
        return
    rows = [pitches[start : start + windows] for start in range(len(wanted))]
    inside = np.ones(windows, dtype=bool)
    for row in rows:
        inside &= row > 0
    fewest = np.full(windows, asked.wrong + 1, dtype=np.int8)
    moved = np.zeros(windows, dtype=np.int16)
    for right in range(min(asked.wrong + 1, len(wanted))):
        move = rows[right] - wanted[right]
        wrong = np.zeros(windows, dtype=np.int8)
        for note, row in enumerate(rows):
            wrong += row != wanted[note] + move
        better = inside & (wrong < fewest)
        if asked.in_its_key:
            better &= move == 0
        fewest[better], moved[better] = wrong[better], move[better]
    places = np.flatnonzero(fewest <= asked.wrong)
    for place in places[np.argsort(fewest[places], kind="stable")]:
        yield int(place), int(moved[place]), int(fewest[place])
