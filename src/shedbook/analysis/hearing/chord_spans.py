"""Spans: the stretches of a phrase over one chord and one scale, and what each pitch class is there.

Conventions: places are quarter notes from the first beat of bar 1, as fractions. Neighbouring changes that
repeat both the chord and the scale are one span. Where no chord sounds (N.C.), a span has no degrees, and its
scale notes are those of the key.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType

from shedbook.phrase.model import Phrase
from shedbook.table_index import Rows
from shedbook.theory.chord import Chord, name_over
from shedbook.theory.scale import Scale, passing_classes
from shedbook.theory.slash_chords import over_bass

CHORD, SCALE, OUTSIDE = "chord", "scale", "outside"
"""The three memberships: a pitch class is a tone of the chord, a tone of the scale only, or neither."""

_COLOURS_OF_A_DOMINANT = frozenset(("b9", "b13"))
"""Degrees a half step above a chord tone that a dominant holds as colours [the project's design]."""

BLUES_SCALES = frozenset(("blues", "major blues", "minor pentatonic"))
"""The scales in which the notes of the blues are heard as what they are [common practice]."""

BLUE_DEGREES = MappingProxyType({3: "b3", 6: "b5", 10: "b7"})
"""The names of the blue notes, by half steps above the root [the project's vocabulary]."""

_KEY_STEPS: Rows[tuple[int, ...]] = Rows(
    "notes of a key", "src/shedbook/analysis/hearing/chord_spans.py",
    {"major": (0, 2, 4, 5, 7, 9, 11), "minor": (0, 2, 3, 5, 7, 8, 9, 10, 11)},
)  # fmt: skip
"""The notes of a key where no chord sounds, in half steps above the tonic [common practice].

In minor both sixths and both sevenths belong to it.
"""


@dataclass(frozen=True, slots=True)
class Span:
    """One chord with its scale, from `start` to `end` in quarters.

    `first_change` and `last_change` are indices into the phrase's changes, -1 where the phrase has none.
    `chord` is as it is written, `heard` the chord that sounds, which differs over some slash basses.
    `degrees` names the twelve pitch classes over the chord. The sets hold pitch classes (0 for C): `core` the
    root, third, fifth and seventh (or sixth), `pass_through` those a half step above one of them that are
    neither chord tones nor colours.
    """

    index: int
    first_change: int
    last_change: int
    chord: Chord
    heard: Chord
    scale: Scale | None
    start: Fraction
    end: Fraction
    degrees: tuple[str, ...]
    chord_classes: frozenset[int]
    scale_classes: frozenset[int]
    core: frozenset[int]
    pass_through: frozenset[int]

    def membership(self, pitch_class: int) -> str:
        """Return "chord", "scale" or "outside" for a pitch class from 0 to 11."""
        if pitch_class in self.chord_classes:
            return CHORD
        return SCALE if pitch_class in self.scale_classes else OUTSIDE

    @property
    def scale_name(self) -> str:
        """The scale's name, its root before it only where that is not the chord's; "" without a scale."""
        if self.scale is None:
            return ""
        if self.chord.root is not None and self.scale.root.pitch_class == self.chord.root.pitch_class:
            return self.scale.name
        return str(self.scale)


def spans_of(phrase: Phrase, scales: tuple[Scale | None, ...]) -> tuple[Span, ...]:
    """Return the spans of a phrase in order; `scales` goes with the changes, one to one.

    A phrase without changes is one span over no chord.

    Raises:
        MissingRowError: if the notes of a key in the phrase's mode stand in no table.
    """
    end_of_all = phrase.full_bars * phrase.metre.bar_quarters
    home = frozenset((phrase.key.tonic.pitch_class + step) % 12 for step in _KEY_STEPS[phrase.key.mode])
    groups: list[tuple[int, int]] = []
    for index, change in enumerate(phrase.changes):
        if groups:
            first = groups[-1][0]
            same = phrase.changes[first].chord.meaning == change.chord.meaning
            if same and scales[first] == scales[index]:
                groups[-1] = (first, index)
                continue
        groups.append((index, index))
    if not groups:
        silent = Chord("N.C.", None, third="", fifth="")
        return (_span(0, (-1, -1), silent, None, Fraction(0), end_of_all, home),)
    starts = [phrase.change_start(phrase.changes[first]) for first, _ in groups]
    ends = [*starts[1:], max(end_of_all, starts[-1])]
    return tuple(
        _span(number, group, phrase.changes[group[0]].chord, scales[group[0]], start, end, home)
        for number, (group, start, end) in enumerate(zip(groups, starts, ends, strict=True))
    )


def _span(
    number: int,
    changes: tuple[int, int],
    chord: Chord,
    scale: Scale | None,
    start: Fraction,
    end: Fraction,
    home: frozenset[int],
) -> Span:
    scale_classes = home if scale is None else scale.pitch_classes - passing_classes(scale)
    heard = over_bass(chord)
    degrees = degree_names(chord, scale)
    chord_classes, core, pass_through = _classes(chord, heard, degrees, scale_classes)
    return Span(
        number, changes[0], changes[1], chord, heard, scale, start, end, degrees, chord_classes,
        scale_classes, core, pass_through,
    )  # fmt: skip


@lru_cache(maxsize=1024)
def degree_names(chord: Chord, scale: Scale | None) -> tuple[str, ...]:
    """Return what the twelve pitch classes are over a chord, in order from C; over N.C. each is "".

    In a blues scale the notes of the blues have their own names, b3, b5 and b7, whatever the chord.
    """
    heard = over_bass(chord)
    names = [heard.degree_of(pitch_class) for pitch_class in range(12)]
    if scale is not None and heard.root is not None and scale.name in BLUES_SCALES:
        on_its_root = heard.root.pitch_class == scale.root.pitch_class
        for semitones, degree in BLUE_DEGREES.items() if on_its_root else ():
            pitch_class = (heard.root.pitch_class + semitones) % 12
            if pitch_class in scale.pitch_classes:
                names[pitch_class] = degree
    return tuple(names)


@lru_cache(maxsize=1024)
def _classes(
    chord: Chord, heard: Chord, degrees: tuple[str, ...], scale_classes: frozenset[int]
) -> tuple[frozenset[int], frozenset[int], frozenset[int]]:
    """Return the pitch classes of a span's chord, of its core and to pass through."""
    core: frozenset[int] = frozenset()
    chord_classes = chord.pitch_classes
    if chord.bass is not None:
        chord_classes |= {chord.bass.pitch_class}
    if chord.root is not None and heard.root is not None:
        named = ("1", heard.third, heard.fifth, heard.seventh)
        core = frozenset(name_over(heard.root, degree).pitch_class for degree in named if degree)
        if heard is not chord:  # only what is written or sounds in the bass
            core &= chord_classes
    exempt = _COLOURS_OF_A_DOMINANT if heard.family in ("dominant", "suspended") else frozenset()
    pass_through = frozenset(
        pitch_class
        for pitch_class in scale_classes - chord_classes
        if (pitch_class - 1) % 12 in core and degrees[pitch_class] not in exempt
    )
    return chord_classes, core, pass_through
