"""Rhythms that rhyme: a rhythm of a bar or two that returns in later bars, varied where they end.

A statement is drawn by the chain of `rhythms`; the rest of the rhythm is then drawn, exactly, from the
rhythms of the same chain that keep the statement and repeat its beats where a form says so. The better of
what is drawn are tried (`worth`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from random import Random
from types import MappingProxyType

from shedbook.draft.ground import TICKS
from shedbook.draft.rhythms import Rhythm, Rhythms, RhythmWishes
from shedbook.draft.tables.rhythm_rules import RHYTHM_READING, STATEMENT

_WORTH: Mapping[str, float] = MappingProxyType({row.name: row.weight / 100 for row in RHYTHM_READING})
_NEED: Mapping[str, int] = MappingProxyType({row.name: row.number for row in STATEMENT})
_GROUP = 4
"""Bars that have a statement of their own in a long phrase [the project's design]."""
_TRIPLET = 3
_OF_EACH = 3
"""How many rhythms are drawn for each statement."""


@dataclass(frozen=True, slots=True)
class Form:
    """Where a statement stands and where it is answered, in beats.

    Attributes:
        start: its first beat.
        beats: how many beats it has.
        answers: (first beat of an answer, how many beats of it are the statement's), in order.
    """

    start: int
    beats: int
    answers: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Rhyme:
    """A rhythm and the forms that it was drawn by, one for every four bars or so; () for one without."""

    rhythm: Rhythm
    forms: tuple[Form, ...] = ()

    @property
    def answers(self) -> tuple[tuple[tuple[int, int], ...], ...]:
        """For each answer in order, the pairs of (note of the statement, note that answers it)."""
        at = {onset: number for number, onset in enumerate(self.rhythm.onsets)}
        found = []
        for form in self.forms:
            for first, beats in form.answers:
                away = (first - form.start) * TICKS
                stated = _between(self.rhythm, form.start, form.start + beats)
                struck = [(one, self.rhythm.onsets[one] + away) for one in stated]
                found.append(tuple((one, at[onset]) for one, onset in struck if onset in at))
        return tuple(found)

    @property
    def statements(self) -> tuple[tuple[int, ...], ...]:
        """The notes of the statements."""
        return tuple(_between(self.rhythm, form.start, form.start + form.beats) for form in self.forms)


def _between(rhythm: Rhythm, first: int, last: int) -> tuple[int, ...]:
    """Return the notes that are struck from one beat up to another."""
    return tuple(at for at, onset in enumerate(rhythm.onsets) if first * TICKS <= onset < last * TICKS)


def forms(wishes: RhythmWishes) -> tuple[tuple[Form, ...], ...]:
    """Return for every four bars or so the forms that they can have; a phrase of one bar has none.

    An answer keeps its statement's beats but the last, or the last two where the phrase ends with it. Beats
    that must have so many notes are in none.
    """
    bars = wishes.beats // wishes.bar
    starts = list(range(0, max(1, bars - _GROUP + 1), _GROUP))
    found = []
    for start, end in zip(starts, [*starts[1:], bars], strict=True):
        rows = [_form(start, end, wishes, *row) for row in _shapes(end - start)]
        kept = tuple(one for one in rows if one is not None)
        if kept:
            found.append(kept)
    return tuple(found)


def _shapes(bars: int) -> list[tuple[int, int, tuple[int, ...]]]:
    """Return the shapes that so many bars can have: (bar of the statement, its bars, bars of the answers)."""
    found: list[tuple[int, int, tuple[int, ...]]] = []
    if bars >= 2:
        found += [(0, 1, (1,))]
    if bars >= 3:
        found += [(0, 1, (2,)), (0, 1, (1, 2)), (1, 1, (2,)), (0, 1, (bars - 1,))]
    if bars >= 4:
        found += [(0, 2, (2,)), (0, 2, (2,)), (1, 1, (3,)), (0, 1, (1, 3))]
    return found


def _form(
    start: int, end: int, wishes: RhythmWishes, stated: int, size: int, answers: tuple[int, ...]
) -> Form | None:
    """Return a form in beats; None where it holds beats that must have so many notes."""
    bar, bars = wishes.bar, wishes.beats // wishes.bar
    rows = []
    for answer in answers:
        last = start + answer + size >= bars
        rows.append(((start + answer) * bar, size * bar - (2 if last else 1)))
    form = Form((start + stated) * bar, size * bar, tuple(rows))
    spans = [(form.start, form.start + form.beats), *[(first, first + beats) for first, beats in rows]]
    if any(first < there and here < last for first, last in spans for here, there, _ in wishes.needs):
        return None
    return form


def rhyming(space: Rhythms, many: int, dice: Random) -> list[Rhyme]:
    """Return rhythms of `many` statements and their returns; [] where no form fits."""
    known = forms(space.wishes)
    found: list[Rhyme] = []
    if not known:
        return found
    for drawn in space.drawn(8 * many, dice):
        chosen = tuple(some[dice.randrange(len(some))] for some in known)
        kept: dict[int, str] = {}
        for form in chosen:
            cells = statement_cells(drawn, form)
            if tells(cells, space.wishes):
                kept.update(_repeated(cells, form))
        held = tuple(form for form in chosen if form.start in kept)
        rhyme = space.keeping(kept)
        if held and rhyme.possible:
            found += [Rhyme(one, held) for one in rhyme.drawn(_OF_EACH, dice)]
        if len(found) >= _OF_EACH * many:
            break
    return found


def _repeated(cells: Sequence[str], form: Form) -> dict[int, str]:
    """Return by beat what a form keeps of a statement's beats."""
    kept = {form.start + at: cell for at, cell in enumerate(cells)}
    for first, beats in form.answers:
        kept.update({first + at: cells[at] for at in range(beats)})
    return kept


def statement_cells(rhythm: Rhythm, form: Form) -> tuple[str, ...]:
    """Return the beats of a statement."""
    return rhythm.cells[form.start + 1 : form.start + 1 + form.beats]


def tells(cells: Sequence[str], wishes: RhythmWishes) -> bool:
    """Whether beats are a rhythm that is known again: neither empty, nor crammed, nor all eighths."""
    struck = sum(cell.count("o") for cell in cells)
    bars = len(cells) / 4
    if wishes.bpm > _NEED["sixteenths"] and any(len(cell) > 3 for cell in cells):
        return False
    if not _NEED["fewest notes"] * bars <= struck <= _NEED["most notes"] * bars:
        return False
    if sum(len(cell) == 3 for cell in cells) > _NEED["triplets"]:
        return False
    if set(cells) == {"oo"} or "o" not in cells[0] + cells[1]:
        return False
    return not any(one == "." and other in (".", "-") for one, other in pairwise(cells))


def worth(rhyme: Rhyme, wishes: RhythmWishes) -> float:
    """Return what a rhythm is worth before it has pitches (`RHYTHM_READING`), in natural logarithms."""
    rhythm, bar = rhyme.rhythm, wishes.bar * TICKS
    notes, bars = len(rhythm.onsets), wishes.beats / wishes.bar
    pairs = [pair for answer in rhyme.answers for pair in answer]
    answered = {note for pair in pairs for note in pair}
    rests = (*rhythm.rests[1:], TICKS)
    lonely = sum(
        before > 0 and after > 0 and end - onset <= TICKS
        for onset, end, before, after in zip(
            rhythm.onsets[1:-1], rhythm.ends[1:-1], rhythm.rests[1:-1], rests[1:-1], strict=True
        )
    )
    lonely += rests[0] >= TICKS
    struck = [len(cell) for cell in rhythm.cells]
    again = sum(
        struck[first + at + 1] == _TRIPLET
        for form in rhyme.forms
        for first, beats in form.answers
        for at in range(beats)
    )
    triplets = struck.count(_TRIPLET) - again
    fine = sum(parts > _TRIPLET for parts in struck) if wishes.bpm > _NEED["sixteenths"] else 0
    loose = sum(
        onset % TICKS > 0 and end // TICKS * TICKS > onset and end - onset > TICKS // 2
        for at, (onset, end) in enumerate(zip(rhythm.onsets[:-1], rhythm.ends[:-1], strict=True))
        if at not in answered
    )
    silent = sum(rest > 0 for rest in rhythm.rests)
    place, last = rhythm.onsets[-1] % bar, wishes.beats * TICKS - rhythm.onsets[-1] <= TICKS
    strong = place in (0, bar // 2) or place % (bar // 2) == bar // 2 - TICKS // 2
    found = _WORTH["lonely notes"] * lonely + _WORTH["triplets"] * max(0, triplets - 1)
    found += _WORTH["a lonely triplet"] * (triplets > again) + _WORTH["sixteenths"] * fine
    found += _WORTH["loose syncopations"] * max(0, loose - 1)
    found += _WORTH["rests"] * max(0, silent - bars)
    found += _WORTH["thin"] * max(0.0, 3.6 * bars - notes) + _WORTH["thick"] * max(0.0, notes - 6.8 * bars)
    tail = last and max(after - before for before, after in pairwise(rhythm.onsets[-3:])) > TICKS // 2
    found += _WORTH["a tail"] if tail else _WORTH["an open end"] if last else _WORTH["arrival"] * strong
    left = wishes.beats * TICKS - rhythm.ends[-1]
    found += _WORTH["let go at once"] * (left >= TICKS and rhythm.ends[-1] - rhythm.onsets[-1] < TICKS)
    found += _WORTH["a last note on its own"] * (rhythm.rests[-1] >= TICKS)
    found += _WORTH["off the beat"] * (rhythm.onsets[0] % TICKS > 0)
    return found + _WORTH["rhyme"] * min(len(pairs), 8)
