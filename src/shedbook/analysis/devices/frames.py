"""Frames: the chords that a line hangs on, plain as an arpeggio, decorated, or laid over the changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from shedbook.analysis.account import Account
from shedbook.analysis.account.figures import ARPEGGIO
from shedbook.analysis.account.note_account import NoteAccount, notes_by_span
from shedbook.analysis.hearing.chord_spans import Span

_FEWEST_IN_ARPEGGIO, _FEWEST_IN_FRAME = 4, 4
_FOURTH = 5
_TRIADS = (((0, 4, 7), "major"), ((0, 3, 7), "minor"))


@dataclass(frozen=True, slots=True)
class Arpeggio:
    """Four notes or more over one chord in one direction, `first` to `last`.

    `in_thirds` says that every move is a third, else all are tones of the chord; `of_chord` that they are in
    any case. `direction` is 1 up and -1 down.
    """

    first: int
    last: int
    direction: int
    in_thirds: bool
    of_chord: bool = False


@dataclass(frozen=True, slots=True)
class Frame:
    """The notes of one chord that stand on strong beats in one direction, while others fill between them.

    `diminished` says that they are the diminished seventh chord over a dominant, else they are its own tones.
    """

    notes: tuple[int, ...]
    direction: int
    diminished: bool


@dataclass(frozen=True, slots=True)
class LaidTriad:
    """Three notes in a row that are a triad, `first` to `first` + 2, and two of them colours of the chord.

    `root` is the pitch class of the triad's root, `root_note` the index of that note.
    """

    first: int
    root: int
    root_note: int
    quality: str


def arpeggios(account: Account) -> tuple[Arpeggio, ...]:
    """Return the arpeggios of four notes or more, in order."""
    found = []
    for figure in account.figures:
        if figure.kind == ARPEGGIO and figure.last - figure.first + 1 >= _FEWEST_IN_ARPEGGIO:
            notes = account.notes[figure.first : figure.last + 1]
            thirds = all(abs(after.midi - before.midi) in (3, 4) for before, after in pairwise(notes))
            own = all(note.in_chord for note in notes) and not notes[0].span.chord.altered
            if own or thirds:
                found.append(Arpeggio(figure.first, figure.last, figure.direction, thirds, own))
    return tuple(found)


def fourths(account: Account) -> tuple[Arpeggio, ...]:
    """Return the stacks of three perfect fourths or more in one direction, in order; none is in thirds."""
    found: list[Arpeggio] = []
    first = 0
    notes = account.notes
    for index in range(1, len(notes) + 1):
        move = notes[index].midi - notes[index - 1].midi if index < len(notes) else 0
        way = notes[first + 1].midi - notes[first].midi if index > first + 1 else move
        if abs(move) == _FOURTH and move == way and notes[index - 1].joined:
            continue
        if index - first >= _FEWEST_IN_ARPEGGIO:
            found.append(Arpeggio(first, index - 1, 1 if way > 0 else -1, in_thirds=False))
        first = index - 1 if abs(move) == _FOURTH and notes[index - 1].joined else index
    return tuple(found)


def frames(account: Account) -> tuple[Frame, ...]:
    """Return the frames of a line, at most one a span: four accented notes or more, filled in between."""
    found = []
    heard = notes_by_span(account.notes)
    for span in account.spans:
        strong = [note for note in heard.get(span.index, ()) if note.strong]
        if span.chord.root is None or len(strong) < _FEWEST_IN_FRAME:
            continue
        own, sharp = span.chord_classes, _diminished(span)
        for classes, diminished in ((sharp, True), (own, False)):
            frame = _longest(strong, classes) if classes else []
            if len(frame) >= _FEWEST_IN_FRAME:
                way = 1 if frame[-1].midi > frame[0].midi else -1
                found.append(Frame(tuple(note.index for note in frame), way, diminished))
                break
    return tuple(found)


def _diminished(span: Span) -> frozenset[int]:
    """Return the third, fifth, seventh and flat ninth of a dominant that has all four; else nothing."""
    wanted = ("3", "5", "b7", "b9")
    if span.heard.family != "dominant" or any(degree not in span.degrees for degree in wanted):
        return frozenset()
    return frozenset(span.degrees.index(degree) for degree in wanted)


def _longest(strong: list[NoteAccount], classes: frozenset[int]) -> list[NoteAccount]:
    """Return the longest stretch of accented notes that go from chord tone to next chord tone in one way."""
    best: list[NoteAccount] = []
    run: list[NoteAccount] = []
    for note in strong:
        if note.midi % 12 not in classes:
            run = []
        elif run and _goes_on(run, note, classes):
            run.append(note)
        else:
            run = [run[-1], note] if run and _adjoin(run[-1], note, classes) else [note]
        if len(run) > len(best):
            best = list(run)
    return best


def _goes_on(run: list[NoteAccount], note: NoteAccount, classes: frozenset[int]) -> bool:
    way = note.midi - run[-1].midi
    same = len(run) == 1 or way * (run[1].midi - run[0].midi) > 0
    return same and _adjoin(run[-1], note, classes)


def _adjoin(before: NoteAccount, after: NoteAccount, classes: frozenset[int]) -> bool:
    """Whether no chord tone lies between two notes in pitch, while other notes fill the time between them."""
    low, high = sorted((before.midi, after.midi))
    filled = after.index - before.index >= 2
    return low != high and filled and not any(midi % 12 in classes for midi in range(low + 1, high))


def laid_triads(account: Account) -> tuple[LaidTriad, ...]:
    """Return the major and minor triads in three notes in a row, two of which are colours of their chord."""
    found: list[LaidTriad] = []
    for three in zip(account.notes, account.notes[1:], account.notes[2:], strict=False):
        leaps = min(abs(three[1].midi - three[0].midi), abs(three[2].midi - three[1].midi)) > 2
        triad = _triad(three) if leaps else None
        if triad is not None and (not found or found[-1].first + 2 < three[0].index):
            found.append(triad)
    return tuple(found)


def _triad(three: tuple[NoteAccount, NoteAccount, NoteAccount]) -> LaidTriad | None:
    span = three[0].span
    if span.chord.root is None or any(note.span.index != span.index for note in three):
        return None
    if not three[0].joined or not three[1].joined or not all(_at_home(note) for note in three):
        return None
    if sum(note.midi % 12 not in span.core for note in three) < 2:
        return None
    found = root_of_triad([note.midi % 12 for note in three])
    if found is None:
        return None
    root, quality = found
    return LaidTriad(three[0].index, root, next(one.index for one in three if one.midi % 12 == root), quality)


def _at_home(note: NoteAccount) -> bool:
    """Whether a note is inside, and not only to pass through."""
    return note.inside and not note.passes_through


def root_of_triad(classes: Sequence[int]) -> tuple[int, str] | None:
    """Return the root and "major" or "minor" of the triad that pitch classes make, or None."""
    for steps, quality in _TRIADS:
        for root in classes:
            if {(root + step) % 12 for step in steps} == set(classes):
                return root, quality
    return None
