"""Rhythms that rhyme: a rhythm of a bar or two that returns in later bars, varied where they end.

A statement is drawn by the chain of `rhythms`; the rest of the rhythm is then drawn, exactly, from the rhythms
of the same chain that keep the statement and repeat its beats where a form says so. The better of what is
drawn are tried (`worth`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from random import Random
from types import MappingProxyType

from shedbook.draft.ground import TICKS
from shedbook.draft.rhythms import Rhythm, Rhythms, RhythmWishes
from shedbook.draft.tables.rhythm_rules import RHYTHM_READING, STATEMENT

_WORTH: Mapping[str, float] = MappingProxyType({row.name: row.weight / 100 for row in RHYTHM_READING})
_NEED: Mapping[str, int] = MappingProxyType({row.name: row.number for row in STATEMENT})
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
    """A rhythm and the form that it was drawn by; None for one without."""

    rhythm: Rhythm
    form: Form | None

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """(note of the statement, note of an answer) for all notes that answer, by the answer's place."""
        if self.form is None:
            return ()
        at = {onset: number for number, onset in enumerate(self.rhythm.onsets)}
        found = []
        for first, beats in self.form.answers:
            away = (first - self.form.start) * TICKS
            for onset, note in at.items():
                inside = self.form.start * TICKS <= onset < (self.form.start + beats) * TICKS
                if inside and onset + away in at:
                    found.append((note, at[onset + away]))
        return tuple(sorted(found, key=lambda pair: pair[1]))

    @property
    def statement(self) -> tuple[int, ...]:
        """The notes of the statement."""
        if self.form is None:
            return ()
        first, last = self.form.start * TICKS, (self.form.start + self.form.beats) * TICKS
        return tuple(at for at, onset in enumerate(self.rhythm.onsets) if first <= onset < last)


def forms(wishes: RhythmWishes) -> tuple[Form, ...]:
    """Return the forms that a phrase of so many bars can have; () where it is too short.

    An answer keeps its statement's beats but the last, or the last two where the phrase ends with it. Beats that
    must have so many notes are in none.
    """
    bar, bars = wishes.bar, wishes.beats // wishes.bar
    found: list[tuple[int, int, tuple[int, ...]]] = []
    if bars >= 2:
        found += [(0, 1, (1,)), (0, 1, tuple(range(2, bars, 2)))]
    if bars >= 3:
        found += [(0, 1, (1, *range(4, bars, 4))), (0, 1, (1, 2)), (1, 1, (2,)), (0, 1, (bars - 1,))]
    if bars >= 4:
        found += [(0, 2, tuple(range(2, bars - 1, 2)))] * 2
        found += [(1, 1, (3,)), (0, 1, (1, 3))]
    kept = []
    for start, size, answers in found:
        rows = []
        for answer in answers:
            last = answer + size >= bars
            rows.append((answer * bar, size * bar - (2 if last else 1)))
        spans = [(start * bar, (start + size) * bar), *[(one, one + beats) for one, beats in rows]]
        if rows and not any(first < there and here < end for first, end in spans for here, there, _ in wishes.needs):
            kept.append(Form(start * bar, size * bar, tuple(rows)))
    return tuple(kept)


def rhyming(space: Rhythms, many: int, dice: Random) -> list[Rhyme]:
    """Return rhythms of one statement each and its returns; [] where no form fits."""
    known = forms(space.wishes)
    found: list[Rhyme] = []
    if not known:
        return found
    for drawn in space.drawn(8 * many, dice):
        form = known[dice.randrange(len(known))]
        cells = statement_cells(drawn, form)
        if not tells(cells):
            continue
        kept = {form.start + at: cell for at, cell in enumerate(cells)}
        for first, beats in form.answers:
            kept.update({first + at: cells[at] for at in range(beats)})
        rhyme = space.keeping(kept)
        if rhyme.possible:
            found += [Rhyme(one, form) for one in rhyme.drawn(_OF_EACH, dice)]
        if len(found) >= _OF_EACH * many:
            break
    return found


def statement_cells(rhythm: Rhythm, form: Form) -> tuple[str, ...]:
    """Return the beats of a statement."""
    return rhythm.cells[form.start + 1 : form.start + 1 + form.beats]


def tells(cells: Sequence[str]) -> bool:
    """Whether beats are a rhythm that is known again: neither empty, nor crammed, nor all eighths."""
    struck = sum(cell.count("o") for cell in cells)
    bars = len(cells) / 4
    if not _NEED["fewest notes"] * bars <= struck <= _NEED["most notes"] * bars:
        return False
    if sum(len(cell) == 3 for cell in cells) > _NEED["triplets"]:
        return False
    if set(cells) == {"oo"} or "o" not in cells[0] + cells[1]:
        return False
    return not any(one == "." and other in (".", "-") for one, other in zip(cells, cells[1:], strict=False))


def worth(rhyme: Rhyme, wishes: RhythmWishes) -> float:
    """Return what a rhythm is worth before it has pitches (`RHYTHM_READING`), in natural logarithms."""
    rhythm, bar = rhyme.rhythm, wishes.bar * TICKS
    notes, bars = len(rhythm.onsets), wishes.beats / wishes.bar
    answered = {note for pair in rhyme.pairs for note in pair}
    rests = (*rhythm.rests[1:], TICKS)
    lonely = sum(
        before > 0 and after > 0 and end - onset <= TICKS
        for onset, end, before, after in zip(
            rhythm.onsets[1:-1], rhythm.ends[1:-1], rhythm.rests[1:-1], rests[1:-1], strict=True
        )
    )
    triplets = sum(len(cell) == 3 for cell in rhythm.cells) - sum(
        len(rhythm.cells[first + at + 1]) == 3
        for first, beats in (rhyme.form.answers if rhyme.form else ())
        for at in range(beats)
    )
    loose = sum(
        onset % TICKS > 0 and end // TICKS * TICKS > onset and end - onset > TICKS // 2
        for at, (onset, end) in enumerate(zip(rhythm.onsets[:-1], rhythm.ends[:-1], strict=True))
        if at not in answered
    )
    silent = sum(rest > 0 for rest in rhythm.rests)
    place, last = rhythm.onsets[-1] % bar, wishes.beats * TICKS - rhythm.onsets[-1] <= TICKS
    strong = place in (0, bar // 2) or place % (bar // 2) == bar // 2 - TICKS // 2
    found = _WORTH["lonely notes"] * lonely + _WORTH["triplets"] * max(0, triplets - 1)
    found += _WORTH["loose syncopations"] * max(0, loose - 1)
    found += _WORTH["rests"] * max(0, silent - bars)
    found += _WORTH["thin"] * max(0.0, 3.6 * bars - notes) + _WORTH["thick"] * max(0.0, notes - 6.8 * bars)
    found += _WORTH["an open end"] if last else _WORTH["arrival"] * strong
    left = wishes.beats * TICKS - rhythm.ends[-1]
    found += _WORTH["let go at once"] * (left >= TICKS and rhythm.ends[-1] - rhythm.onsets[-1] < TICKS)
    found += _WORTH["off the beat"] * (rhythm.onsets[0] % TICKS > 0)
    return found + _WORTH["rhyme"] * min(len(rhyme.pairs), 8)
