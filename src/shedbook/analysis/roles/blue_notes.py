"""The language of the blues: notes that are bent, borrowed or rubbed against the chord, and are no mistakes.

Conventions are those of `reasons`. The facts are common practice of blues and jazz playing.
"""

from __future__ import annotations

from collections.abc import Iterator
from types import MappingProxyType

from shedbook.analysis.roles.costs import COST
from shedbook.analysis.roles.nodes import Line
from shedbook.analysis.roles.reasons import Explanation
from shedbook.analysis.roles.role_names import BLUE, MAJOR_SEVENTH_OF_MINOR, THIRD_BENT

_THIRD, _FIFTH, _SEVENTH = 3, 6, 10
"""The blue notes, in half steps above the root."""

BLUE_NAMES = MappingProxyType({_THIRD: "b3", _FIFTH: "b5", _SEVENTH: "b7"})
"""What the blue notes are called, whatever the family of the chord [the project's vocabulary]."""

_MAJOR_THIRD, _MAJOR_SEVENTH = 4, 11

_ON = MappingProxyType({
    "dominant": (_THIRD, _FIFTH),
    "suspended": (_THIRD, _FIFTH),
    "major": (_THIRD, _FIFTH, _SEVENTH),
    "minor": (_FIFTH,),
})  # fmt: skip
"""Which blue notes are heard over a family of chords, in any changes."""

_ON_ANY_OF_A_BLUES = (_THIRD, _FIFTH)
"""Blue notes that are heard over every chord of a blues."""

_NEAR = MappingProxyType({_THIRD: 3, _FIFTH: 2, _SEVENTH: 3})
"""How far from a neighbour a blue note lies at most, in half steps: the flat fifth moves by step."""


def blue(line: Line, index: int) -> Iterator[Explanation]:
    """Yield the blue third, fifth or seventh: over a dominant, a major or a minor chord, or in a blues.

    Over a dominant or in a blues it may be held; over another chord a long one is a wrong note.
    """
    node = line.nodes[index]
    if node.inside:
        return
    span = line.spans[node.span]
    root = span.heard.root
    if root is None:
        return
    above = (node.midi - root.pitch_class) % 12
    family = span.heard.family
    at_home = family in ("dominant", "suspended") or line.blues
    free = above == _THIRD and at_home
    if node.size > 0 and not at_home:
        return
    known = above in _ON.get(family, ()) or (line.blues and above in _ON_ANY_OF_A_BLUES)
    if known and (free or _moves_near(line, index, _NEAR[above])):
        yield Explanation(BLUE, index, index, None, COST.blue_note, BLUE_NAMES[above])


def bent_third(line: Line, index: int) -> Iterator[Explanation]:
    """Yield the major third over a minor chord, where it curls out of the minor third or into it."""
    node = line.nodes[index]
    heard = line.spans[node.span].heard
    if node.inside or node.size > 0 or heard.family != "minor" or heard.root is None:
        return
    if (node.midi - heard.root.pitch_class) % 12 == _MAJOR_THIRD and _beside(line, index, -1):
        yield Explanation(BLUE, index, index, None, COST.bent_third, THIRD_BENT)


def major_seventh_of_minor(line: Line, index: int) -> Iterator[Explanation]:
    """Yield the major seventh over a minor seventh chord, as melodic minor has it over a tonic."""
    node = line.nodes[index]
    heard = line.spans[node.span].heard
    if node.inside or heard.family != "minor" or heard.seventh != "b7" or heard.root is None:
        return
    if (node.midi - heard.root.pitch_class) % 12 == _MAJOR_SEVENTH and _moves_near(line, index, 2):
        cost = COST.major_seventh_of_a_minor_chord
        yield Explanation(BLUE, index, index, None, cost, MAJOR_SEVENTH_OF_MINOR)


def _moves_near(line: Line, index: int, most: int) -> bool:
    """Whether a node is reached or left by at most so many half steps."""
    reached = index > 0 and line.nodes[index - 1].joined and abs(line.nodes[index - 1].step) <= most
    return reached or (line.nodes[index].joined and abs(line.nodes[index].step) <= most)


def _beside(line: Line, index: int, way: int) -> bool:
    """Whether the note a half step in a direction comes at once before or after a node."""
    before = index > 0 and line.nodes[index - 1].joined and line.nodes[index - 1].step == -way
    return before or (line.nodes[index].joined and line.nodes[index].step == way)
