"""What the players may use over a chord: the same chord scale for bass, piano and line.

The usable notes are read from a chord and its scale: the pair that says what the chord is, the colours a
voicing may add, the notes a bass may walk through, and the notes that would contradict the scale.
Pitch classes are 0 (C) to 11 (B).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from shedbook.sound.players.tables.usable_notes import BASE_SCALES, PASSING, PLAIN_COLOURS, VOICING_COLOURS
from shedbook.sound.players.tables.voicings import DEGREES
from shedbook.table_index import need
from shedbook.theory.chord import Chord, name_over
from shedbook.theory.scale import Scale, scale_row
from shedbook.theory.tables.degrees import FAMILY_DEGREES

_FILE = "src/shedbook/sound/players/tables/usable_notes.py"
_COSTS_FILE = "src/shedbook/sound/players/tables/voicings.py"


def check_usable_notes(
    base_scales: Mapping[str, str], colours: Mapping[str, Sequence[str]], scales: Iterable[str]
) -> None:
    """See that every family of chords has a plain scale and colours, and every scale that is named is known.

    Args:
        base_scales: family to the scale that is read where none is said.
        colours: family, and "minor tonic", to the degrees that a voicing may add.
        scales: the other scales that the tables name.

    Raises:
        TableError: if a family has no row, or a colour no cost.
        UnknownNameError: if a scale is in no row of the table of scales.
    """
    for family in FAMILY_DEGREES:
        need(
            family in base_scales,
            f'The band has no plain scale for chords of the family "{family}".',
            f'Write "{family}": scale into BASE_SCALES in {_FILE}.',
        )
    for family in (*FAMILY_DEGREES, "minor tonic"):
        need(
            family in colours,
            f'The piano has no colours for chords of the family "{family}".',
            f'Write "{family}": degrees into VOICING_COLOURS in {_FILE}.',
        )
    for family, degrees in colours.items():
        for degree in degrees:
            need(
                degree in DEGREES,
                f'Nothing says what the {degree} costs, a colour of chords of the family "{family}".',
                f'Write "{degree}" into DEGREES in {_COSTS_FILE}.',
            )
    for name in (*base_scales.values(), *scales):
        scale_row(name)


check_usable_notes(BASE_SCALES, VOICING_COLOURS, (*PASSING, *PLAIN_COLOURS))


@dataclass(frozen=True, slots=True)
class UsableNotes:
    """What may be played over one chord; all but the texts are pitch classes.

    `root` is None over N.C., where everything else is empty. `ground` is the slash bass, else the root.
    `pair` are the two notes that say what the chord is; `needed` further notes that a voicing must have;
    `colours` those it may have, each with its degree. `tones` are root, third, fifth and seventh as far as
    the chord has them; `walk` is the scale without its passing notes, `shunned` what would contradict it.
    """

    root: int | None
    ground: int | None
    pair: tuple[int, ...]
    needed: frozenset[int]
    colours: tuple[tuple[int, str], ...]
    tones: frozenset[int]
    walk: frozenset[int]
    shunned: frozenset[int]
    fifth: int | None
    sevenths: frozenset[int]


SILENT = UsableNotes(
    None, None, (), frozenset(), (), frozenset(), frozenset(), frozenset(), None, frozenset()
)
"""The palette of N.C."""


@lru_cache(maxsize=4096)
def usable_notes(chord: Chord, scale: Scale | None) -> UsableNotes:
    """Return what may be played over a chord.

    Args:
        chord: the chord; over N.C. nothing is played (`SILENT`).
        scale: its chord scale; without one, or with one that is a colour of the line only, the plain scale of
            the chord's family is taken.

    Which degrees a voicing may add stands in `tables.usable_notes` (Levine 1995, from memory).
    """
    if chord.root is None:
        return SILENT
    root = chord.root.pitch_class
    names = FAMILY_DEGREES[chord.family]
    own = {degree: name_over(chord.root, degree).pitch_class for degree in chord.degrees}
    core = {own[degree] for degree in ("1", chord.third, chord.fifth, chord.seventh) if degree}
    walk = _walked(chord, scale) | frozenset(own.values())
    if not _keeps_plain_fifth(chord, scale, root):
        core, walk = core - {(root + 7) % 12}, walk - {(root + 7) % 12}
    pair = _pair(chord, own)
    needed = frozenset(own[tension] for tension in chord.tensions) | _needed_fifth(chord, own)
    rests = chord.family == "minor" and chord.seventh != "b7"
    may_add = VOICING_COLOURS["minor tonic" if rests else chord.family]
    colours = tuple(
        (pitch_class, degree)
        for pitch_class in sorted(walk)
        if (degree := names[(pitch_class - root) % 12]) in may_add and pitch_class not in pair
    )
    fifth = next((pc for pc in ((root + 7) % 12, (root + 6) % 12, (root + 8) % 12) if pc in walk), None)
    return UsableNotes(
        root=root,
        ground=root if chord.bass is None else chord.bass.pitch_class,
        pair=pair,
        needed=needed - set(pair),
        colours=colours,
        tones=frozenset(core),
        walk=walk,
        shunned=_shunned(chord, walk, root),
        fifth=fifth,
        sevenths=frozenset({own[chord.seventh]} if chord.seventh else ()),
    )


def _walked(chord: Chord, scale: Scale | None) -> frozenset[int]:
    """Return the scale without notes that only pass; a scale that is no chord scale gives way to one."""
    root = chord.root
    if root is None:
        return frozenset()
    if scale is None or scale.name in PLAIN_COLOURS:
        name = BASE_SCALES[chord.family]
        return Scale(root, scale_row(name)).pitch_classes
    passing = {name_over(scale.root, degree).pitch_class for degree in PASSING.get(scale.name, ())}
    return scale.pitch_classes - passing


def _keeps_plain_fifth(chord: Chord, scale: Scale | None, root: int) -> bool:
    """Whether the natural fifth may be played.

    An altered chord has none; else the scale says so, and the chord where there is none.
    """
    if chord.altered or scale is None:
        return not chord.altered and chord.fifth == "5"
    return (root + 7) % 12 in scale.pitch_classes


def _pair(chord: Chord, own: dict[str, int]) -> tuple[int, ...]:
    """Return third and seventh, third and sixth, fourth and seventh; of a triad, third and fifth."""
    first = own.get(chord.third)
    second = own.get(chord.seventh, own.get(chord.fifth))
    return tuple(pitch_class for pitch_class in (first, second) if pitch_class is not None)


def _needed_fifth(chord: Chord, own: dict[str, int]) -> frozenset[int]:
    """Return the fifth where it is what makes the chord: flat or sharp, and not one of an altered scale."""
    if chord.altered or chord.fifth in ("", "5"):
        return frozenset()
    return frozenset({own[chord.fifth]})


def _shunned(chord: Chord, walk: frozenset[int], root: int) -> frozenset[int]:
    """Return the notes that contradict chord and scale, even in passing.

    Over a dominant the major seventh, and each of 5, 9 and 13 (natural or flat) that the scale has in its
    other form only.
    """
    if chord.family not in ("dominant", "suspended"):
        return frozenset()
    found = {(root + 11) % 12}
    for mine, other in ((7, 6), (7, 8), (2, 1), (9, 8), (8, 9)):
        if (root + mine) % 12 not in walk and (root + other) % 12 in walk:
            found.add((root + mine) % 12)
    return frozenset(found)
