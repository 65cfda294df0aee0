"""One chord or scale written into its text. The text form is the project's own."""

import pytest

from shedbook.phrase.changes_edits import chord_edit, scales_with
from shedbook.phrase.changes_text import parse_changes, parse_scales
from shedbook.phrase.line_edits import edited
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import parse_scale

CHORDS = [
    pytest.param("Dm7 | G7 | C6", 1, "G7b9", "Dm7 | G7b9 | C6", id="one a bar"),
    pytest.param("| Dm7 G7@4 |  C6 |", 1, "G7alt", "| Dm7 G7alt@4 |  C6 |", id="its beat stays"),
    pytest.param("Dm7 | %", 1, "G7", None, id="a repeated bar is not its own"),
]


@pytest.mark.parametrize(("text", "index", "symbol", "expected"), CHORDS)
def test_a_chord(text: str, index: int, symbol: str, expected: str | None) -> None:
    edit = chord_edit(text, parse_changes(text, Metre()).changes, index, symbol)
    assert (None if edit is None else edited(text, [edit])) == expected


SCALES = [
    pytest.param("", "Dm7 | G7 | C6", 1, "altered", "| altered |", id="the first that is named"),
    pytest.param(
        "dorian | mixolydian | ionian",
        "Dm7 | G7 | C6",
        1,
        "altered",
        "dorian | altered | ionian",
        id="in its place",
    ),
    pytest.param(
        "dorian,  | ionian", "Dm7 G7 | C6", 1, "altered", "dorian, altered | ionian", id="in an empty place"
    ),
    pytest.param(
        "dorian | %", "Dm7 | %", 0, "aeolian", "aeolian | dorian", id="what repeated it keeps its own"
    ),
    pytest.param(
        "D dorian | mixolydian",
        "Dm7 | G7",
        1,
        "half-whole diminished",
        "D dorian | half-whole diminished",
        id="the rest stays",
    ),
]


@pytest.mark.parametrize(("text", "changes", "index", "name", "expected"), SCALES)
def test_a_scale(text: str, changes: str, index: int, name: str, expected: str) -> None:
    read = parse_changes(changes, Metre())
    scales = parse_scales(text, *read) if text else (None,) * len(read.changes)
    root = read.changes[index].chord.root
    scale = parse_scale(name, root=root)
    new = scales_with(text, read.changes, scales, index, scale)
    assert new == expected
    again = parse_scales(new, *read)
    assert again[index] == scale
    assert [one for place, one in enumerate(again) if place != index] == [
        one for place, one in enumerate(scales) if place != index
    ]


def test_a_scale_on_another_root_carries_it() -> None:
    read = parse_changes("G7", Metre())
    scale = parse_scale("melodic minor", root=NoteName.parse("Ab"))
    assert scales_with("", read.changes, (None,), 0, scale) == "Ab melodic minor"
