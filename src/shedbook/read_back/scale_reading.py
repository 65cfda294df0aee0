"""A scale written out on a staff of its own: heads without stems, all in one bar."""

from __future__ import annotations

from shedbook.read_back.chord_symbols import symbols_of
from shedbook.read_back.ink import Ink
from shedbook.read_back.reading import ReadPitch
from shedbook.read_back.staves import UnreadableError, systems_of
from shedbook.read_back.written_notes import HEADS, SIGNS


def read_scale(ink: Ink) -> tuple[tuple[ReadPitch, ...], str]:
    """Return the pitches of a scale from left to right, and the chord symbol over it ("" for none).

    Raises:
        UnreadableError: if it is not one staff.
    """
    systems = systems_of(ink)
    if len(systems) != 1:
        raise UnreadableError(f"a scale stands on {len(systems)} staves")
    system = systems[0]
    music = [glyph for glyph in system.glyphs if glyph.font == "music"]
    signs = [glyph for glyph in music if glyph.name in SIGNS]
    in_force: dict[int, int] = {}
    found = []
    for head in sorted((glyph for glyph in music if glyph.name in HEADS), key=lambda glyph: glyph.x):
        step = round(system.step_at(head.y))
        own = [one for one in signs if abs(one.y - head.y) < 0.2 and 0.2 < head.x - one.x < 2.8]
        if own:
            in_force[step] = SIGNS[max(own, key=lambda glyph: glyph.x).name]
        found.append(ReadPitch(step, in_force.get(step, 0)))
    symbols = symbols_of(system)
    return tuple(found), symbols[0].text if symbols else ""
