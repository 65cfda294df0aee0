"""Melodies found in many lines, against looking at every place one by one."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from shedbook.catalogue.asked import Asked
from shedbook.catalogue.melodies import lines_of, spots
from shedbook.catalogue.tune import NO_STEP, Tune, joined, steps_of

PITCHES = st.lists(st.integers(58, 63), max_size=9)
BOOKS = st.lists(st.lists(PITCHES, max_size=3), min_size=1, max_size=3)
MELODY = st.lists(st.integers(58, 63), min_size=3, max_size=5)


def tune(pitches: Sequence[int]) -> Tune:
    """Return a line of eighths from bar 1 on."""
    places = range(len(pitches))
    return Tune(
        b"\0" + bytes(pitches),
        b"\0" + bytes([NO_STEP] if pitches else []) + steps_of(pitches),
        b"\0" + bytes(12 + place % 2 for place in places),
        b"\0" + bytes(2 + place // 8 for place in places),
        b"\0" + bytes(1 + 12 * (place % 8) for place in places),
    )


def found(books: list[list[list[int]]], asked: Asked) -> list[tuple[int, int, int, int, int]]:
    lines = lines_of([(number, joined([tune(line) for line in book])) for number, book in enumerate(books)])
    return sorted(
        (spot.book, spot.ordinal, spot.note, spot.semitones, spot.wrong) for spot in spots(lines, asked)
    )


def by_looking(
    books: list[list[list[int]]], melody: list[int], wrong: int, moves: range
) -> dict[tuple[int, int, int], int]:
    """Return where a melody stands with so few wrong notes, and the fewest."""
    places = {}
    for number, book in enumerate(books):
        for ordinal, line in enumerate(book):
            for note in range(len(line) - len(melody) + 1):
                here = line[note : note + len(melody)]
                fewest = min(
                    sum(one + move != other for one, other in zip(melody, here, strict=True))
                    for move in moves
                )
                if fewest <= wrong:
                    places[number, ordinal, note] = fewest
    return places


@given(BOOKS, MELODY)
def test_a_melody_in_any_key(books: list[list[list[int]]], melody: list[int]) -> None:
    expected = by_looking(books, melody, 0, range(-6, 7))
    spotted = found(books, Asked(melody=tuple(melody)))
    assert [spot[:3] for spot in spotted] == sorted(expected)
    for book, ordinal, note, semitones, _ in spotted:
        assert books[book][ordinal][note] == melody[0] + semitones


@given(BOOKS, MELODY)
def test_a_melody_in_its_key(books: list[list[list[int]]], melody: list[int]) -> None:
    spotted = found(books, Asked(melody=tuple(melody), in_its_key=True))
    assert [spot[:3] for spot in spotted] == sorted(by_looking(books, melody, 0, range(1)))


@given(BOOKS, MELODY, st.integers(1, 2), st.booleans())
def test_a_melody_with_wrong_notes(
    books: list[list[list[int]]], melody: list[int], wrong: int, in_its_key: bool
) -> None:
    moves = range(1) if in_its_key else range(-6, 7)
    spotted = found(books, Asked(melody=tuple(melody), wrong=wrong, in_its_key=in_its_key))
    assert {spot[:3]: spot[4] for spot in spotted} == by_looking(books, melody, wrong, moves)


def ways(line: list[int]) -> str:
    return "".join(
        "u" if after > before else "d" if after < before else "s" for before, after in pairwise(line)
    )


@given(BOOKS, st.text("uds", min_size=2, max_size=4))
def test_a_contour(books: list[list[list[int]]], contour: str) -> None:
    expected = [
        (number, ordinal, note)
        for number, book in enumerate(books)
        for ordinal, line in enumerate(book)
        for note in range(len(line) - len(contour))
        if ways(line[note : note + len(contour) + 1]) == contour
    ]
    assert [spot[:3] for spot in found(books, Asked(contour=contour))] == expected


def test_the_last_value_of_a_rhythm_is_free_but_there() -> None:
    books = [[[60, 61, 62], [60, 61]]]
    assert [spot[:3] for spot in found(books, Asked(rhythm=bytes((12, 13, 99))))] == [(0, 0, 0)]


def test_what_is_asked_together_stands_together() -> None:
    books = [[[60, 62, 64, 60, 62, 63]]]
    asked = Asked(melody=(60, 62, 63), contour="uu", rhythm=bytes((13, 12, 13)))
    assert found(books, asked) == [(0, 0, 3, 0, 0)]
    assert found(books, Asked(melody=(60, 62, 63), contour="ud")) == []


def test_where_a_find_begins() -> None:
    lines = lines_of([(7, joined([tune(range(60, 72)), tune((50, 51, 55))]))])
    (spot,) = spots(lines, Asked(melody=(68, 69, 70, 71), in_its_key=True))
    assert (spot.book, spot.ordinal, spot.note, spot.bar) == (7, 0, 8, 2)
    assert spot.quarters == 0
