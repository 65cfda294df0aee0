"""What in a phrase is suspected of being a slip, with the odds: a noisy channel.

The odds that something else was meant are how often such a slip is made, times how much more likely the
mended line is than the written one among real lines. Both are logarithms in hundredths, so that they add up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import log
from typing import NamedTuple

from shedbook.analysis.account import Account
from shedbook.analysis.proof.slips.candidates import (
    OCTAVE,
    intervals_moved,
    notes_meant,
    octaves_meant,
    stretch_feature,
)
from shedbook.analysis.proof.slips.chord_features import (
    OtherChord,
    chords_meant,
    notes_over,
    place_features,
    quality_features,
    shifted,
)
from shedbook.analysis.proof.slips.figures import (
    Figures,
    note_figures,
    octave_figures,
    place_figures,
    quality_figures,
)
from shedbook.analysis.proof.slips.note_features import (
    Feature,
    note_features,
    octave_features,
    surroundings,
)
from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS as KINDS
from shedbook.analysis.proof.slips.tables.line_figures import START
from shedbook.analysis.proof.slips.tables.slip_kinds import NAMED_SCALE, ROWS
from shedbook.analysis.proof.slips.typed_line import TypedLine, shapes_of, typed_line

QUALITY, PLACE = "quality", "place"
"""The kinds of slip in the changes: a chord's quality, and changes a bar early or late."""

_BASE = {row.name: START[row.name] + round(100 * log(row.per_hundred_phrases / 100)) for row in ROWS}
"""Where the sum of a kind of slip begins: how often it is made at one place."""


class Suspicion(NamedTuple):
    """A slip that may have been made.

    The notes `first` to `last` are meant `shift` half steps away; for a chord's quality they are the notes
    over it, and `shift` is the kind of chord that is meant; for changes in another place `shift` is by how
    many bars the chords are late. `log_odds` is the natural logarithm of the odds, in hundredths; `span` is
    that of the first note, or the chord that is meant.
    """

    kind: str
    first: int
    last: int
    shift: int
    log_odds: int
    span: int = 0


def suspected(account: Account) -> Iterator[Suspicion]:
    """Yield everything that may be a slip in a phrase, however unlikely."""
    if not account.notes:
        return
    line = typed_line(account)
    yield from _notes(line)
    yield from _octaves(line)
    yield from _qualities(line)
    yield from _places(account)


def _notes(line: TypedLine) -> Iterator[Suspicion]:
    shapes, figures = shapes_of(line.midi), note_figures()
    for at, written in enumerate(line.midi):
        meant = list(notes_meant(line, at))
        if meant:
            around = surroundings(line, at)
            here = _sum(figures, note_features(line, shapes, around, at, written))
            for one in meant:
                there = _sum(figures, note_features(line, shapes, around, at, written + one.shift))
                named = _by_the_scale(line.named[at], written, written + one.shift)
                yield Suspicion(*one, _BASE[one.kind] + named + there - here)


def _by_the_scale(named: int, written: int, meant: int) -> int:
    """Return what the author's own scale says: it speaks for the notes that it holds."""
    if not named:
        return 0
    return NAMED_SCALE[named >> written % 12 & 1, named >> meant % 12 & 1]


def _octaves(line: TypedLine) -> Iterator[Suspicion]:
    intervals, figures = shapes_of(line.midi).intervals, octave_figures()
    for one in octaves_meant(line):
        first, last = one.first, one.last
        here = _sum(figures, octave_features(line, intervals, first, last, 0))
        moved = intervals_moved(intervals, one)
        there = _sum(figures, octave_features(line, moved, first, last, one.shift))
        there += _sum(figures, [stretch_feature(line, one)])
        yield Suspicion(*one, _BASE[OCTAVE] + there - here)


def _qualities(line: TypedLine) -> Iterator[Suspicion]:
    for other in chords_meant(line):
        over = notes_over(line, other.span)
        odds = (
            _BASE[QUALITY]
            + _by_the_scale_of(line, other, over[0])
            + _sum(quality_figures(), quality_features(line, other))
        )
        yield Suspicion(QUALITY, over[0], over[-1], other.kind, odds, other.span)


def _by_the_scale_of(line: TypedLine, other: OtherChord, note: int) -> int:
    """Return what the author's own scale says of a chord: it speaks for the guide tones that it holds."""
    kind, root = line.chords[other.span]
    own, new = set(KINDS[kind].guides), set(KINDS[other.kind].guides)
    pairs = zip(sorted(own - new), sorted(new - own), strict=False)
    return sum(_by_the_scale(line.named[note], root + one, root + two) for one, two in pairs)


def _places(account: Account) -> Iterator[Suspicion]:
    for by in (-1, 1):
        notes = shifted(account, by)
        if notes is not None:
            odds = _BASE[PLACE] + sum(
                many * place_figures()[name].get(key, 0)
                for (name, key), many in place_features(notes).items()
            )
            yield Suspicion(PLACE, 0, len(account.notes) - 1, by, odds)


def _sum(figures: Figures, features: Iterable[Feature]) -> int:
    """Return what features are worth together."""
    return sum(figures[name].get(key, 0) for name, key in features if name in figures)
