"""Places and lengths of a phrase. Source: arithmetic over the design's definitions, worked out by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes, timed_notes


def phrase(metre: str, line: str, pickup: str = "", changes: str = "C | F@2 G7@3 | %") -> Phrase:
    fields = {"metre": metre, "line": line, "changes": changes, "key": "C major"}
    return phrase_from_fields({**fields, "pickup": pickup} if pickup else fields)


PICKED_UP = phrase("4/4", "1/8 g4 a | 1/2 b c5 | + 1/4 - 1/2 d5 | 1/1 + ".rstrip("+ ") + " c5", "1/4")
IN_SIX = phrase("6/8", "1/8 c4 d e f g a | 1/4. b4 c5 | 1/2. d5", changes="C | F@1 G7@4 | C")


@pytest.mark.parametrize(
    ("one", "number", "start"),
    [(PICKED_UP, 0, -1), (PICKED_UP, 1, 0), (PICKED_UP, 2, 4), (PICKED_UP, 3, 8),
     (IN_SIX, 1, 0), (IN_SIX, 3, 6)],
)  # fmt: skip
def test_where_a_bar_starts(one: Phrase, number: int, start: int) -> None:
    assert one.bar_start(number) == start


def test_where_chords_start_and_hold() -> None:
    assert [PICKED_UP.change_start(change) for change in PICKED_UP.changes] == [0, 5, 6, 9, 10]
    assert [IN_SIX.change_start(change) for change in IN_SIX.changes] == [0, 3, Fraction(9, 2), 6]
    places = {
        Fraction(-1): 0,
        Fraction(0): 0,
        Fraction(9, 2): 0,
        Fraction(5): 1,
        Fraction(6): 2,
        Fraction(20): 4,
    }
    assert {place: PICKED_UP.change_index_at(place) for place in places} == places


def test_notes_as_they_are_heard() -> None:
    """A pick-up's beats are the last of a bar before; a tie over the bar line adds to the note before it."""
    heard = [
        (str(note.pitch), note.start, note.quarters, note.end, note.bar, note.beat, note.event)
        for note in sounding_notes(PICKED_UP)
    ]
    half = Fraction(1, 2)
    assert heard == [
        ("G4", -1, half, -half, 0, 4, (0, 0)),
        ("A4", -half, half, 0, 0, 4 + half, (0, 1)),
        ("B4", 0, 2, 2, 1, 1, (1, 0)),
        ("C5", 2, 3, 5, 1, 3, (1, 1)),
        ("D5", 6, 2, 8, 2, 3, (2, 2)),
        ("C5", 8, 4, 12, 3, 1, (3, 0)),
    ]
    grain, timed = timed_notes(PICKED_UP)
    assert [(Fraction(one.start, grain), Fraction(one.length, grain)) for one in timed] == [
        (start, length) for _, start, length, *_ in heard
    ]


def test_beats_count_in_the_metre_s_denominator() -> None:
    assert [note.beat for note in sounding_notes(IN_SIX)] == [1, 2, 3, 4, 5, 6, 1, 4, 1]
    assert [note.start for note in sounding_notes(IN_SIX)][-3:] == [3, Fraction(9, 2), 6]
