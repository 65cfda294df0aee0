"""Harmony: the key, the functions, the progressions and the chord scale of each change.

`harmony_of` works on plain chords with their bars, `harmony` on a phrase, whose stated key and scales win.

Conventions: everything goes with the changes, one to one and in their order. A chord over which none
sounds (N.C.) has an empty numeral, no scale and no choices.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.chord_context import Context
from shedbook.theory.chord_function import Group, groups
from shedbook.theory.chord_scales import ScaleChoice, by_notes, ranked
from shedbook.theory.key import Key
from shedbook.theory.progression import Progression, infer_key, numerals, recognise
from shedbook.theory.scale import Scale
from shedbook.theory.slash_chords import over_bass

STATED_REASON = "the author's choice"
"""The reason of a scale that the author names and that is not among those usual over its chord."""


@dataclass(frozen=True, slots=True)
class ChordScale:
    """The scale of one change and why; `stated` says that the author named it.

    `choices` holds the scales that go with the chord in its context, best first, and `asked` those that only
    the notes of a line may ask for.
    """

    scale: Scale | None
    reason: str
    stated: bool
    choices: tuple[ScaleChoice, ...]
    asked: tuple[ScaleChoice, ...] = ()


@dataclass(frozen=True, slots=True)
class Harmony:
    """What some changes mean: `numerals` and `scales` go with the changes, one to one."""

    key: Key
    numerals: tuple[str, ...]
    progressions: tuple[Progression, ...]
    scales: tuple[ChordScale, ...]


def harmony(phrase: Phrase) -> Harmony:
    """Return the harmony of a phrase in its own key, with the author's scales where they are named."""
    return harmony_of(
        [change.chord for change in phrase.changes],
        [change.bar for change in phrase.changes],
        key=phrase.key,
        stated=phrase.scales,
    )


def harmony_of(
    chords: Sequence[Chord],
    bars: Sequence[int],
    *,
    key: Key | None = None,
    stated: Sequence[Scale | None] = (),
) -> Harmony:
    """Return the harmony of chords that stand in `bars`; the key is inferred where it is not given.

    `bars` goes with the chords, one to one. `stated` holds the scale that is named for each chord, or None;
    it may be shorter than the chords.

    Raises:
        ValueError: if there are not as many bars as chords, or the bars go back.
    """
    in_key = infer_key(chords) if key is None else key
    names = numerals(chords, in_key)
    progressions = recognise(chords, bars)
    contexts = _contexts(chords, in_key, names, progressions)
    scales = tuple(
        _chord_scale(chord, context, stated[index] if index < len(stated) else None)
        for index, (chord, context) in enumerate(zip(chords, contexts, strict=True))
    )
    return Harmony(in_key, names, progressions, scales)


def _chord_scale(chord: Chord, context: Context, stated: Scale | None) -> ChordScale:
    """Return the author's scale, or the first choice in this context."""
    choices = ranked(chord, context) if chord.root is not None else ()
    asked = by_notes(chord, context) if chord.root is not None else ()
    if stated is not None:
        wanted = stated.pitch_classes
        known = [one.reason for one in choices if one.scale.pitch_classes == wanted]
        return ChordScale(stated, known[0] if known else STATED_REASON, True, choices, asked)
    if not choices:
        return ChordScale(None, "", False, ())
    return ChordScale(choices[0].scale, choices[0].reason, False, choices, asked)


def _contexts(
    chords: Sequence[Chord], key: Key, names: Sequence[str], progressions: Sequence[Progression]
) -> list[Context]:
    """Return the context of each chord.

    What comes before and after is the nearest chord with another function, so that G9sus G7b9 Cm are
    both heard on their way to C minor. Function and key are those of the progression in which the chord
    stands: in C major, Am7 D7 Gmaj7 is ii–V–I in G.
    """
    sounding = groups(chords)
    holding: list[list[Progression]] = [[] for _ in chords]
    for progression in progressions:
        for index in range(progression.first, progression.last + 1):
            holding[index].append(progression)
    found: list[Context] = []
    for place, group in enumerate(sounding):
        before = _chord_of(chords, sounding, place - 1, last=True)
        after = _chord_of(chords, sounding, place + 1, last=False)
        for index in range(group.first, group.last + 1):
            local = _local(index, holding[index])
            function, in_key = names[index], key
            if local is not None and local.key != key:
                function, in_key = _name_in(chords, local, index), local.key
            found.append(Context(previous=before, following=after, function=function, key=in_key))
    return found


def _chord_of(chords: Sequence[Chord], sounding: Sequence[Group], place: int, *, last: bool) -> Chord | None:
    """Return the last or the first chord of a group; None beyond the ends and where no chord sounds."""
    if not 0 <= place < len(sounding) or not sounding[place].heard:
        return None
    return over_bass(chords[sounding[place].last if last else sounding[place].first])


def _local(index: int, holding: Sequence[Progression]) -> Progression | None:
    """Return the shortest progression in which a chord leads on, else the shortest that ends on it."""
    leading = [one for one in holding if index < one.last]
    return min(leading or holding, key=lambda one: one.last - one.first, default=None)


def _name_in(chords: Sequence[Chord], progression: Progression, index: int) -> str:
    """Return the numeral of a chord within a progression."""
    inside = chords[progression.first : progression.last + 2]
    return numerals(inside, progression.key)[index - progression.first]
