"""The language of the blues, on lines of our own; what is expected is common practice."""

from __future__ import annotations

import pytest

from analysis.helpers import both_keys, read

# Changes, scales, line, note, role, degree.
NAMED = [
    pytest.param("C7", "mixolydian", "1/8 g4 a eb c a4 g e c", 2, "blue note", "b3", id="b3 over a dominant"),
    pytest.param("C6", "ionian", "1/8 g4 a eb c a4 g e c", 2, "blue note", "b3", id="b3 over a major chord"),
    pytest.param("C6", "ionian", "1/8 g4 a bb g e c d e", 2, "blue note", "b7", id="b7 over a major chord"),
    pytest.param("Bm7", "dorian", "1/8 b4 d5 e f d b4 a f#", 3, "blue note", "b5", id="F over Bm7"),
    pytest.param("Dm7", "dorian", "1/8 d5 a4 f f# c5 a4 g d", 3, "blue note", "3", id="the curl"),
    pytest.param("Dm7", "dorian", "1/8 a4 d5 c# a4 f g f e", 2, "blue note", "7", id="7 over m7"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line", "place", "role", "degree"), NAMED)
def test_named_as_what_they_are(
    changes: str, scales: str, line: str, place: int, role: str, degree: str
) -> None:
    for found in both_keys(changes, scales, line):
        note = found.notes[place]
        assert (note.role, note.degree) == (role, degree)


def test_a_blues_scale_calls_its_notes_by_the_blues() -> None:
    found = read("Bm7", "1/8 b4 d5 e f f# a b a", "blues")
    assert found.notes[3].degree == "b5"
    assert read("C7", "1/8 c5 eb f gb g bb g f", "blues").notes[1].degree == "b3"


@pytest.mark.parametrize(
    ("changes", "line", "place"),
    [
        ("Cmaj7", "1/2 eb5 g4", 0),  # long over a major chord: the wrong third
        ("Dm7", "1/8 d5 c a4 f a c#5 e a", 5),  # leapt to and left by leap
        ("Dm7b5", "1/8 d5 f ab c a4 f d c", 4),  # no blue note over a half-diminished chord
    ],
)
def test_what_is_no_blue_note(changes: str, line: str, place: int) -> None:
    assert read(changes, line).notes[place].role == "unaccounted"
