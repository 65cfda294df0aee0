"""What a person types to look for."""

from __future__ import annotations

import pytest

from shedbook.catalogue.asked import (
    read_chords,
    read_contour,
    read_levels,
    read_melody,
    read_rhythm,
    read_words,
    wrong_notes,
)
from shedbook.errors import NotationError

MELODIES = [
    pytest.param("d5 f ab c6", (74, 77, 80, 84), id="an octave holds until the next"),
    pytest.param(
        "1/8 d5 f | ab - c6.ghost", (74, 77, 80, 84), id="values, rests and bar lines are passed over"
    ),
    pytest.param("B♭4 C5 Db", (70, 72, 73), id="signs and capitals"),
    pytest.param("cb5 b#4 c5", (71, 72, 72), id="the number changes at C [scientific pitch notation]"),
]


@pytest.mark.parametrize(("text", "midi"), MELODIES)
def test_melody(text: str, midi: tuple[int, ...]) -> None:
    assert read_melody(text) == midi


def test_contour_rhythm_words_and_levels() -> None:
    assert read_contour("up, up down same") == read_contour("uuds") == "uuds"
    assert read_rhythm("1/8 -1/8 1/8t 1/4.") == bytes((24, 8, 36))
    assert read_words("Flat-nine, LEANS") == ("flat", "nine", "leans")
    assert read_levels("2, 4-5") == (2, 4, 5)


CHANGES = [
    pytest.param("Dm7b5 | G7b9 | Cm6 | %", "h5D5m", id="minor ii–V–i"),
    pytest.param("Am7b5 | D7 | Gm", "h5D5m", id="the same in another key, plainer"),
    pytest.param("Cmaj7 | C#dim7 | Dm7", "M1o1m", id="rising diminished"),
    pytest.param("C7sus | N.C. | F", "SnM", id="suspended, and no chord"),
]


@pytest.mark.parametrize(("text", "letters"), CHANGES)
def test_changes_in_any_key(text: str, letters: str) -> None:
    assert read_chords(text) == letters


REFUSED = [
    (read_melody, "d f a", "no octave number"),
    (read_melody, "d5 h a", "not a word of a line"),
    (read_melody, "d5 f", "has 2 notes"),
    (read_contour, "up", "has 1 directions"),
    (read_contour, "up left", '"left" is no direction'),
    (read_rhythm, "1/8 1/9 1/8", "not among the note values"),
    (read_rhythm, "-1/8 1/8 1/8 1/8", "begins with a note"),
    (read_levels, "0", "no level"),
    (read_levels, "3-2", "no level"),
    (read_levels, "2-6", "no level"),
    (read_chords, "Dm7 | H7", "H7"),
]


@pytest.mark.parametrize(("read", "text", "says"), REFUSED)
def test_refused(read: object, text: str, says: str) -> None:
    assert callable(read)
    with pytest.raises(Exception, match=says):
        read(text)


@pytest.mark.parametrize(("many", "notes"), [(5, 20), (-1, 20), (2, 4)])
def test_too_many_wrong_notes(many: int, notes: int) -> None:
    with pytest.raises(NotationError):
        wrong_notes(many, range(notes))
    assert wrong_notes(2, range(5)) == 2
