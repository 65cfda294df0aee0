"""How notes are played, as a page shows it: articulation, the brackets of ghost notes, falls and scoops."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shedbook.read_back.beams import Fault, Written
from shedbook.read_back.ink import Glyph
from shedbook.read_back.staves import System
from shedbook.read_back.written_notes import HEAD_WIDTH, WrittenSystem

GHOST, FALL, SCOOP = "ghost", "fall", "scoop"
_SIGNS = {
    "E4A0": "accent", "E4A1": "accent", "E4A2": "staccato", "E4A3": "staccato", "E4A4": "tenuto",
    "E4A5": "tenuto",
}  # fmt: skip
"""SMuFL code points, each above and below."""
_OPENING, _CLOSING = ("E26A", "E0F5"), ("E26B", "E0F6")
"""Brackets of accidentals and of heads: engravers take either round a head with its accidental."""
_ASIDE = 0.9
"""How far the left edge of a sign may stand from the left edge of its head, in spaces."""
_LEVEL = 0.3
"""How far from the middle of its head a bracket or the near end of a curve may stand, in spaces."""
_NEAR = 1.1
"""How far beside its head, or the accidental at its left, a bracket or a curve may begin, in spaces."""


def give_marks(system: System, written: WrittenSystem) -> None:
    """Give each note of a system the marks that stand at its head; what stands at none is a fault."""
    heads = [note for note in written.notes if note.step is not None and not note.small]
    music = [glyph for glyph in system.glyphs if glyph.font == "music"]
    written.faults += [*_articulations(heads, music), *_curves(heads, system)]
    _brackets(heads, music)


def _articulations(heads: Sequence[Written], music: Sequence[Glyph]) -> Iterator[Fault]:
    for glyph in music:
        mark = _SIGNS.get(glyph.name)
        if mark is None:
            continue
        head = min(heads, key=lambda note: abs(_from_head(note, glyph)), default=None)
        if head is None or abs(_from_head(head, glyph)) > _ASIDE:
            yield Fault(glyph.x, f"a sign of {mark} belongs to no note")
        elif mark in head.marks:
            yield Fault(glyph.x, f"a note has two signs of {mark}")
        else:
            head.marks |= {mark}


def _from_head(note: Written, glyph: Glyph) -> float:
    return glyph.x - note.x


def _left(note: Written) -> float:
    return note.x if note.sign is None else note.sign_x


def _brackets(heads: Sequence[Written], music: Sequence[Glyph]) -> None:
    """Mark the notes that stand in brackets, together with their accidentals."""
    for note in heads:
        level = [glyph for glyph in music if abs(glyph.y - note.y) < _LEVEL]
        opens = any(glyph.name in _OPENING and 0 < _left(note) - glyph.x < _NEAR for glyph in level)
        closes = any(
            glyph.name in _CLOSING and 0 <= glyph.x - note.x - HEAD_WIDTH + _LEVEL < _NEAR + _LEVEL
            for glyph in level
        )
        if opens and closes:
            note.marks |= {GHOST}


def _curves(heads: Sequence[Written], system: System) -> Iterator[Fault]:
    """Give falls and scoops to their heads: one leads down from the right of a head, one up to its left."""
    for curve in system.curves:
        (left, begins), (right, ends) = sorted([(curve.x1, curve.y1), (curve.x2, curve.y2)])
        falls = [
            note for note in heads if 0 < left - note.x - HEAD_WIDTH < _NEAR and abs(begins - note.y) < _LEVEL
        ]
        scoops = [note for note in heads if 0 <= _left(note) - right < _NEAR and abs(ends - note.y) < _LEVEL]
        if falls and ends > begins:
            falls[-1].marks |= {FALL}
        elif scoops and begins > ends:
            scoops[0].marks |= {SCOOP}
        else:
            yield Fault(left, "a curve leads from no note and to none")
