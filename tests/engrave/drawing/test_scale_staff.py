"""Scales written out: every note, its degree and its accidental, together as alone."""

from __future__ import annotations

import re
from typing import Any

import pytest

from shedbook.engrave.drawing.scale_staff import ScaleStaff, draw_scales
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.errors import RenderError
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import Pitch

STYLE = ScoreStyle(staff_mm=6, tempo=False)
MAJOR = ("1", "2", "3", "4", "5", "6", "7", "1")
HALF_WHOLE = ("1", "b9", "#9", "3", "#11", "5", "13", "b7", "1")


def row(notes: str, degrees: tuple[str, ...], chord: str = "") -> ScaleStaff:
    pitches = tuple(Pitch.parse(note) for note in notes.split())
    return ScaleStaff(pitches, degrees, parse_chord(chord) if chord else None)


ROWS = (
    row("C4 D4 E4 F4 G4 A4 B4 C5", MAJOR, "Cmaj7"),
    row("G4 Ab4 Bb4 B4 C#5 D5 E5 F5 G5", HALF_WHOLE, "G7b9"),
    row("Gb5 Ab5 Bb5 Cb6 Db6 Eb6 F6 Gb6", MAJOR),
    row("A3 B3 C#4 D4 E4 F#4 G#4 A4", MAJOR, "Amaj7"),
)


def test_scales_drawn_together_are_equally_long_and_have_the_notes_of_each_alone() -> None:
    together = draw_scales(ROWS, STYLE)
    assert len({one.width_mm for one in together}) == 1
    for made, one in zip(together, ROWS, strict=True):
        (alone,) = draw_scales([one], STYLE)
        heads = [
            re.findall(r'href="#s(E\w+)" x="-?\d+" y="(-?\d+)"', drawing.svg) for drawing in (made, alone)
        ]
        assert heads[0] == heads[1]
    assert draw_scales(ROWS[:1], STYLE) == draw_scales(ROWS[:1], STYLE)
    assert draw_scales([], STYLE) == ()


def test_scales_beside_one_another_lie_on_the_same_lines() -> None:
    """Symbols, staves and degrees, also where one scale goes high and another low."""
    rows = (*ROWS[:2], ScaleStaff(ROWS[2].pitches, MAJOR, parse_chord("Gbmaj7")), ROWS[3])
    made = draw_scales(rows, STYLE)
    assert len({(one.height_mm, one.staff_top_mm) for one in made}) == 1
    for word in ("sb", "sa"):  # symbols begin with a bold letter, degrees with a thin one or a sign
        lines = {
            y
            for one in made
            for y in re.findall(rf'<g transform="translate\(\d+ (-?\d+)\)"><use href="#{word}', one.svg)
        }
        assert len(lines) == 1


def test_symbols_stand_equally_high_from_one_phrase_to_the_next() -> None:
    low, middle = (draw_scales([one], STYLE)[0] for one in (ROWS[0], ROWS[3]))
    assert low.staff_top_mm == middle.staff_top_mm


def test_every_note_is_drawn_with_the_accidentals_that_it_needs() -> None:
    """Flat E260, natural E261, sharp E262 (SMuFL)."""
    for one, signs in zip(ROWS, ("", "E260 E260 E261 E262", "E260 " * 7, "E262 " * 3), strict=True):
        (made,) = draw_scales([one], STYLE)
        assert len(re.findall(r'<g id="sn\d+">', made.svg)) == len(one.pitches)
        assert re.findall(r"#s(E26\d)", made.svg) == signs.split()


def test_no_ink_is_cut_off(ink: Any) -> None:
    for made in draw_scales(ROWS, STYLE):
        left, top, width, height = (int(n) for n in re.findall(r'viewBox="([^"]*)"', made.svg)[0].split())
        for box in ink.boxes(made.svg):
            assert left <= box.left + 10
            assert top <= box.top
            assert box.right <= left + width + 10
            assert box.bottom <= top + height
        assert made.staff_top_mm == pytest.approx(-top * STYLE.mm)


def test_a_scale_that_lacks_notes_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    real = verovio_door.svg

    def without_one(mei: str, **more: Any) -> str:
        return real(re.sub(r'<note xml:id="k1-n3".*?</note>', "", mei), **more)

    monkeypatch.setattr(verovio_door, "svg", without_one)
    with pytest.raises(RenderError, match="missing"):
        draw_scales([ROWS[0], ROWS[3]], STYLE)
