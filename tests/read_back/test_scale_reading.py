"""A written-out scale is read: heads without stems, all in one bar, with the chord over them."""

import pytest

from shedbook.engrave.drawing.scale_staff import ScaleStaff, draw_scales
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.read_back.ink import Ink
from shedbook.read_back.scale_reading import read_scale
from shedbook.read_back.staves import UnreadableError
from shedbook.read_back.svg_ink import ink_of_svg
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import Pitch


def test_notes_and_chord_of_a_scale() -> None:
    names = ["G4", "Ab4", "Bb4", "B4", "C#5", "D5", "E5", "F5", "G5"]
    row = ScaleStaff(tuple(map(Pitch.parse, names)), ("1",) * 9, parse_chord("G7b9"))
    (drawing,) = draw_scales([row], ScoreStyle(tempo=False))
    pitches, symbol = read_scale(ink_of_svg(drawing.svg))
    assert [str(pitch) for pitch in pitches] == names
    assert symbol == "G7(b9)"


def test_ink_without_a_staff_is_no_scale() -> None:
    with pytest.raises(UnreadableError, match="0 staves"):
        read_scale(Ink())
