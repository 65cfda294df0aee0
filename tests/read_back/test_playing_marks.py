"""Marks at heads, as a player sees them. Source: Gould 2011, from memory; SMuFL 1.4 for the glyphs."""

from __future__ import annotations

import pytest

from read_back.printed import hard_phrase, printed
from shedbook.read_back.beams import Written
from shedbook.read_back.ink import Curve, Glyph
from shedbook.read_back.playing_marks import give_marks
from shedbook.read_back.staves import System
from shedbook.read_back.written_notes import WrittenSystem


def marked(*ink: Glyph | Curve) -> tuple[list[str], list[str]]:
    """Return the marks of two heads, at 4 and at 8 spaces, and the faults."""
    clef = Glyph("music", "E050", 0, 3, 0.004)
    glyphs = [one for one in ink if isinstance(one, Glyph)]
    system = System(20, clef, glyphs, curves=[one for one in ink if isinstance(one, Curve)])
    written = WrittenSystem(notes=[Written(4, 2, 4, 30), Written(8, 1.5, 4, 31, sign=-1, sign_x=6.9)])
    give_marks(system, written)
    return [" ".join(sorted(note.marks)) for note in written.notes], [fault.says for fault in written.faults]


def sign(name: str, x: float, y: float) -> Glyph:
    return Glyph("music", name, x, y, 0.004)


@pytest.mark.parametrize(
    ("ink", "marks"),
    [
        ([sign("E4A0", 4, -1)], ["accent", ""]), ([sign("E4A3", 8.4, 3)], ["", "staccato"]),
        ([sign("E4A4", 4, -1), sign("E4A2", 4.4, -0.5)], ["staccato tenuto", ""]),
        ([sign("E26A", 3.4, 2), sign("E26B", 5.2, 2)], ["ghost", ""]), ([sign("E26A", 3.4, 2)], ["", ""]),
        ([sign("E26A", 6.2, 1.5), sign("E26B", 9.2, 1.5)], ["", "ghost"]),
        ([sign("E26A", 6.2, 1.5), sign("E26B", 7.7, 1.5)], ["", ""]),
        ([Curve(5.4, 2, 6.1, 3.3)], ["fall", ""]), ([Curve(3.1, 3, 3.8, 2)], ["scoop", ""]),
        ([Curve(6.1, 2.5, 6.7, 1.5)], ["", "scoop"]),
    ],
)  # fmt: skip
def test_marks_belong_to_their_heads(ink: list[Glyph | Curve], marks: list[str]) -> None:
    assert marked(*ink) == (marks, [])


@pytest.mark.parametrize(
    ("ink", "says"),
    [
        (sign("E4A0", 6, -1), "a sign of accent belongs to no note"),
        (Curve(5.4, 2, 6.1, 1), "a curve leads from no note and to none"),
        (Curve(12, 2, 12.7, 3.3), "a curve leads from no note and to none"),
    ],
)
def test_what_stands_at_no_head_is_a_fault(ink: Glyph | Curve, says: str) -> None:
    assert marked(ink) == (["", ""], [says])


def test_every_mark_is_read_from_a_picture() -> None:
    score = printed(hard_phrase("marks"))
    read = [" ".join(sorted(note.marks)) for bar in score.read().bars for note in bar.notes]
    assert read[:8] == ["accent", "staccato", "tenuto", "ghost", "ghost", "fall", "scoop", "accent staccato"]
    assert score.wrong() == []
