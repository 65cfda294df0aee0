"""How short black heads are by the flags and the beams at their stems."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shedbook.read_back.ink import Area, Glyph

FLAGS = {"E240": 1, "E241": 1, "E242": 2, "E243": 2, "E244": 3, "E245": 3}
"""Flags by their SMuFL code points: how many halvings each says."""
_REACH = 0.45
"""How far from the end of a stem the middle of its outer beam may lie, in spaces."""
_LONGEST_HOOK = 2.2
"""A beam at one stem that is longer than this leads to another note, in spaces."""


@dataclass(slots=True)
class Written:
    """One written note or rest; `step` is the diatonic step, C4 being 28, None for a rest.

    `sign` is the accidental it shows, in half steps, or None, `sign_x` where that stands, and
    `bracketed` whether in brackets.
    `marks` are how it is played. `part` is 4 for a quarter; `stem` its abscissa, `tip` its far end and `beam`
    the number of its beam group.
    """

    x: float
    y: float
    part: int
    step: int | None = None
    small: bool = False
    dots: int = 0
    sign: int | None = None
    sign_x: float = 0.0
    bracketed: bool = False
    stem: float | None = None
    tip: float = 0.0
    beam: int = -1
    tuplet: tuple[int, int] | None = None
    marks: frozenset[str] = frozenset()


@dataclass(slots=True)
class Fault:
    """Something on the page that cannot be read: where, in spaces from the left of the system, and what."""

    x: float
    says: str


@dataclass(slots=True, eq=False)
class _Beam:
    """A beam by the middle line between its long sides; `stems` counts the stems that it meets."""

    left: float
    right: float
    start: float
    end: float
    stems: int = 0

    def level_at(self, x: float) -> float:
        if self.right == self.left:
            return self.start
        return self.start + (self.end - self.start) * (x - self.left) / (self.right - self.left)


def shorten(notes: Iterable[Written], areas: Iterable[Area], flags: Sequence[Glyph]) -> list[Fault]:
    """Shorten black heads by what is at their stems, name their beam groups, and return what is wrong.

    Two beams that lie on one another count once: engravers draw them so.
    """
    beams = [beam for area in areas if (beam := _beam(area)) is not None]
    groups: list[_Beam] = []
    used: set[int] = set()
    faults: list[Fault] = []
    for note in sorted(notes, key=lambda one: one.x):
        if note.step is None or note.stem is None:
            continue
        own = [
            index
            for index, flag in enumerate(flags)
            if abs(flag.x - note.stem) < 0.25 and abs(flag.y - note.tip) < 0.4
        ]
        used.update(own)
        # A grace note with a flag of its own may stand close under the beam of the notes around it.
        levels = [] if note.small and own else _levels(note, note.stem, beams, groups)
        count = len(levels) + sum(FLAGS[flags[index].name] for index in own)
        if count and note.part != 4:
            faults.append(Fault(note.x, "a white head has a beam or a flag"))
        elif levels and min(abs(level - note.tip) for level in levels) > _REACH:
            faults.append(Fault(note.x, "a stem does not end at its outer beam"))
        note.part *= 2**count
    faults += _unused(beams)
    faults += [
        Fault(flag.x, "a flag belongs to no stem") for index, flag in enumerate(flags) if index not in used
    ]
    return faults


def _levels(note: Written, stem: float, beams: Sequence[_Beam], groups: list[_Beam]) -> list[float]:
    """Return the heights at which beams meet the stem of a note."""
    found: list[float] = []
    high, low = sorted((note.tip, note.y))
    for beam in beams:
        if not beam.left - 0.15 < stem < beam.right + 0.15:
            continue
        level = beam.level_at(stem)
        if not high - 0.7 < level < low + 0.7:
            continue
        beam.stems += 1
        if abs(level - note.tip) < _REACH:
            if beam not in groups:
                groups.append(beam)
            note.beam = groups.index(beam)
        if all(abs(level - other) > 0.3 for other in found):
            found.append(level)
    return found


def _unused(beams: Iterable[_Beam]) -> Iterable[Fault]:
    for beam in beams:
        if not beam.stems:
            yield Fault(beam.left, "a beam belongs to no stem")
        elif beam.stems == 1 and beam.right - beam.left > _LONGEST_HOOK:
            yield Fault(beam.left, "a beam leads from a stem to none")


def _beam(area: Area) -> _Beam | None:
    """Return the beam that an area of four corners is, or None."""
    if len(area.points) != 4:
        return None
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = sorted(area.points)
    if abs(x1 - x2) > 0.05 or abs(x3 - x4) > 0.05 or x3 - x1 < 0.3:
        return None
    return _Beam(x1, x3, (y1 + y2) / 2, (y3 + y4) / 2)
