"""What each chord does in a key, and for which key some chords speak.

Semitones count from the tonic up to the root, 0 to 11. The table `tables.chord_functions` says how numerals
are written, and with which weights a key is chosen.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import islice, pairwise
from types import MappingProxyType
from typing import NamedTuple, TypeVar

from shedbook.theory.chord import Chord
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.slash_chords import over_bass
from shedbook.theory.tables.chord_functions import (
    DEGREES,
    ENDS,
    FITS,
    KIND_CLASSES,
    MAJOR_HEAD_START,
    MOST_SIGNATURE,
    MOVES,
)

_MINOR_SEVENTHS = {"b7": "minor seventh", "6": "minor sixth", "7": "minor sixth", "": "minor triad"}
_MAJOR_SEVENTHS = {"7": "major seventh", "6": "major seventh", "b7": "dominant", "": "major triad"}
_ENHARMONIC = 12
_TONIC_FIRST = (0, 7, 2, 5, 9, 4, 11)
"""Degrees, in semitones above the tonic, whose spelling decides how the tonic is called, the best first."""


@dataclass(frozen=True, slots=True)
class Heard:
    """A chord as it is heard for its function.

    Attributes:
        root: the root that it is heard on, which may be its slash bass.
        kind: the kind of chord on that root, a key of `tables.chord_functions.KIND_CLASSES`.
        raised_fifth: whether its fifth is #5.
    """

    root: NoteName
    kind: str
    raised_fifth: bool = False

    @property
    def pitch_class(self) -> int:
        """The pitch class of the root."""
        return self.root.pitch_class


@dataclass(frozen=True, slots=True)
class Group:
    """Neighbouring chords that have one function.

    Attributes:
        first: the index of the first chord.
        last: the index of the last chord.
        heard: the chords as they are heard; () where no chord sounds.
    """

    first: int
    last: int
    heard: tuple[Heard, ...]

    @property
    def pitch_class(self) -> int | None:
        """The pitch class of their root, or None where no chord sounds."""
        return self.heard[0].pitch_class if self.heard else None


def heard(chord: Chord) -> Heard | None:
    """Return how a chord is heard for its function, or None for N.C.

    A chord over a bass that is none of its tones is heard on the bass: F/G and Dm7/G are G9sus
    (`tables.slash_chords`).
    """
    sounding = over_bass(chord)
    if sounding.root is None:
        return None
    return Heard(sounding.root, _kind(sounding), sounding.fifth == "#5")


def _kind(chord: Chord) -> str:
    """Return the kind of chord, a name in `KIND_CLASSES`."""
    if chord.third in ("4", "2"):
        return "suspended" if chord.seventh == "b7" else "suspended triad"
    if chord.third == "b3":
        if chord.fifth == "b5" and chord.seventh != "6":
            return "half-diminished" if chord.seventh == "b7" else "diminished"
        return _MINOR_SEVENTHS.get(chord.seventh, "diminished")
    if chord.fifth == "#5" and not chord.seventh:
        return "augmented"
    return _MAJOR_SEVENTHS.get(chord.seventh, "major seventh")


def groups(chords: Sequence[Chord]) -> tuple[Group, ...]:
    """Return the chords in groups, in which neighbours have the same root and the same class of chord.

    "G9sus G7b9" is one function, and so is a tonic minor chord whose seventh comes down. "C C7" is two. So is
    "Cm6 Cm7" where F7 follows, because the tonic becomes the ii of another key there.
    """
    found: list[Group] = []
    sounds = [heard(chord) for chord in chords]
    for index, now in enumerate(sounds):
        last = found[-1] if found else None
        if last is not None and _continues(last, now) and not _becomes_ii(last, sounds, index):
            found[-1] = Group(last.first, index, last.heard + ((now,) if now is not None else ()))
        else:
            found.append(Group(index, index, (now,) if now is not None else ()))
    return tuple(found)


def _continues(group: Group, now: Heard | None) -> bool:
    """Tell whether a chord only goes on with the function of the group before it."""
    if now is None or not group.heard:
        return now is None and not group.heard
    if group.pitch_class != now.pitch_class:
        return False
    classes = {KIND_CLASSES[one.kind] for one in (*group.heard, now)} - {"suspended triad"}
    return len(classes) <= 1


def _becomes_ii(group: Group, sounds: Sequence[Heard | None], index: int) -> bool:
    """Tell whether a tonic minor (m6, m(maj7)) goes on as the minor seventh that is a dominant's ii."""
    now = sounds[index]
    if now is None or now.kind != "minor seventh" or group.heard[-1].kind != "minor sixth":
        return False
    after = next((one for one in islice(sounds, index, None) if one is None or one != now), None)
    if after is None or KIND_CLASSES[after.kind] != "dominant":
        return False
    return (after.pitch_class - now.pitch_class) % 12 == 5


def numerals(chords: Sequence[Chord], key: Key) -> tuple[str, ...]:
    """Return the Roman numeral of each chord in a key; "" for N.C."""
    found = [""] * len(chords)
    sounding = groups(chords)
    for place, group in enumerate(sounding):
        following = sounding[place + 1].pitch_class if place + 1 < len(sounding) else None
        for index, now in zip(range(group.first, group.last + 1), group.heard, strict=False):
            found[index] = _numeral(now, key.tonic.pitch_class, following)
    return tuple(found)


def _numeral(now: Heard, tonic: int, following: int | None) -> str:
    """Return the numeral of one chord; `following` is the pitch class of the next root."""
    semitones = (now.pitch_class - tonic) % 12
    row = DEGREES[semitones]
    step = None if following is None else (following - now.pitch_class) % 12
    degree = row.rising if _rises(semitones, now.kind, step) else row.plain
    minor_third = KIND_CLASSES[now.kind] in ("minor", "half-diminished", "diminished")
    head = degree.lower() if minor_third else degree
    if now.kind == "diminished":
        return f"{head}°"
    if now.kind == "half-diminished":
        return f"{head}ø"
    plus = now.raised_fifth and now.kind in ("augmented", "major seventh")
    return f"{head}+" if plus else head


def _rises(semitones: int, kind: str, step: int | None) -> bool:
    """Tell whether a chromatic degree is called by the degree below it: #i° and not bii°."""
    if kind == "diminished":
        return step != 11
    if kind == "half-diminished":
        return semitones in (1, 6)
    if semitones == 6:
        return KIND_CLASSES[kind] == "minor" or step == 5
    return False


def infer_key(chords: Sequence[Chord]) -> Key:
    """Return the key for which the chords speak, by the weights in `tables.chord_functions`.

    A dominant alone is heard as the V of its major key, and a minor chord alone as a tonic. Without any chord
    the key is C major.
    """
    sounding = tuple(group.heard[-1] for group in groups(chords) if group.heard)
    if not sounding:
        return Key(NoteName(0))
    weights, last = _weights(sounding), sounding[-1].pitch_class
    best = max(
        ((mode, semitones) for mode in weights for semitones in range(12)),
        # The last root breaks a tie, so that the choice moves with the chords into every key.
        key=lambda candidate: weights[candidate[0]][(last - candidate[1]) % 12],
    )
    tonic = (last - best[1]) % 12
    return Key(tonic_name(tonic, sounding, best[0]), best[0])


def key_weight(chords: Sequence[Chord], key: Key) -> int:
    """Return how strongly the chords speak for a key, in points; 0 where none sounds."""
    sounding = tuple(group.heard[-1] for group in groups(chords) if group.heard)
    return _weights(sounding)[key.mode][key.tonic.pitch_class] if sounding else 0


def _weights(sounding: Sequence[Heard]) -> dict[str, list[int]]:
    """Return how strongly the chords speak for each key, by mode and the tonic's pitch class."""
    weights = {"major": [MAJOR_HEAD_START] * 12, "minor": [0] * 12}
    votes = [(one, vote) for one in sounding for vote in _FITS.get(one.kind, ())]
    for first, second in pairwise(sounding):
        step = (second.pitch_class - first.pitch_class) % 12
        votes += [(first, vote) for vote in _MOVES.get((first.kind, step, second.kind), ())]
    votes += [(sounding[0], vote) for vote in _OPENINGS.get(sounding[0].kind, ())]
    votes += [(sounding[-1], vote) for vote in _CLOSES.get(sounding[-1].kind, ())]
    for one, vote in votes:
        weights[vote.mode][(one.pitch_class - vote.semitones) % 12] += vote.weight
    return weights


def tonic_name(tonic: int, sounding: Iterable[Heard], mode: str) -> NoteName:
    """Return the name of a tonic as the chords spell it.

    The spelling of I decides where I sounds, else that of V, of ii, of IV and so on. A key of more than seven
    sharps or flats gets its other name.

    Args:
        tonic: the pitch class of the tonic.
        sounding: the chords, at least one.
        mode: the mode of the key.
    """
    by_degree: dict[int, NoteName] = {}
    for one in sounding:
        by_degree[(one.pitch_class - tonic) % 12] = one.root
    semitones = next(one for one in (*_TONIC_FIRST, *range(12)) if one in by_degree)
    name = by_degree[semitones] + -_degree_interval(semitones)
    signature = Key(name, mode).signature
    while signature > MOST_SIGNATURE:
        name, signature = NoteName(name.fifths - _ENHARMONIC), signature - _ENHARMONIC
    while signature < -MOST_SIGNATURE:
        name, signature = NoteName(name.fifths + _ENHARMONIC), signature + _ENHARMONIC
    return name


def _degree_interval(semitones: int) -> Interval:
    """Return the interval of a chromatic degree as a reader spells it above the tonic."""
    return Interval((0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)[semitones], semitones)


class _Vote(NamedTuple):
    """The weight that a chord gives to the key of a mode whose tonic lies `semitones` below its root."""

    mode: str
    semitones: int
    weight: int


_Of = TypeVar("_Of")


def _votes(rows: Iterable[tuple[_Of, _Vote]]) -> MappingProxyType[_Of, tuple[_Vote, ...]]:
    """Return the votes by what is heard; where two rows are for one mode and degree, the later one counts."""
    found: dict[_Of, dict[tuple[str, int], _Vote]] = {}
    for heard_as, vote in rows:
        found.setdefault(heard_as, {})[vote.mode, vote.semitones] = vote
    return MappingProxyType({heard_as: tuple(votes.values()) for heard_as, votes in found.items()})


_FITS = _votes((kind, _Vote(row.mode, row.semitones, row.weight)) for row in FITS for kind in row.kinds)
_OPENINGS = _votes((kind, _Vote(row.mode, row.semitones, row.opening)) for row in ENDS for kind in row.kinds)
_CLOSES = _votes((kind, _Vote(row.mode, row.semitones, row.closing)) for row in ENDS for kind in row.kinds)
_MOVES = _votes(
    ((one, (row.second - row.first) % 12, two), _Vote(row.mode, row.first, row.weight))
    for row in MOVES
    for one in row.first_kinds
    for two in row.second_kinds
)
"""What speaks for a key: kinds of chords by themselves, as the first, as the last, and before another."""
