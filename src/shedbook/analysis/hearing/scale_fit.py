"""Which scale the notes of the line ask for over each change.

Where the author names a scale it stands, and is said not to fit when the notes speak against it. Where
none is named, the scales that go with the chord in its context are weighed against the notes: a later
choice has to be earned by notes that the first choice leaves outside. Neighbouring changes to the same
chord are weighed together.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.analysis.hearing.harmony import ChordScale, Harmony
from shedbook.analysis.hearing.note_places import NotePlace, NotePlaces
from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.chord_scales import ScaleChoice, must_sound
from shedbook.theory.scale import Scale, passing_classes

_RANK_COSTS = (0, 3, 5, 6)
"""What each choice costs before its notes are weighed, best first; further choices cost one more each.

The costs and the doubt below are the project's design.
"""

_LAST = len(_RANK_COSTS) - 1

_ASKED_COST = 4
"""What a scale costs that only the notes ask for."""

_DOUBT = 6
"""The author's scale is doubted when another scale leaves outside notes of this much less weight."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """One scale as it was weighed against the notes.

    `outside` are the indices of the notes that it leaves outside, `weight` is what those weigh together, and
    `points` count against the scale: the fewest win.
    """

    scale: Scale
    reason: str
    outside: tuple[int, ...]
    weight: int
    points: int


@dataclass(frozen=True, slots=True)
class ScaleFit:
    """The scale of one change: `stated` by the author, or chosen; candidates best first.

    `better` is a scale that the notes ask for where the author's does not fit, else None.
    """

    scale: Scale | None
    reason: str
    stated: bool
    outside: tuple[int, ...]
    candidates: tuple[Candidate, ...]
    better: Scale | None = None


class _Weighed(NamedTuple):
    """A note, by its index, with the weight it has for the choice of a scale.

    `passes` says that it goes by half steps in one direction, on a weak place.
    """

    place: int
    pitch_class: int
    weight: int
    passes: bool


def fit_scales(phrase: Phrase, harmony: Harmony, places: NotePlaces) -> tuple[ScaleFit, ...]:
    """Return the fit of every change of a phrase, in order; `harmony` and `places` are the phrase's own."""
    by_change = _notes_by_change(places)
    found: list[ScaleFit] = []
    for group in _same_chords(phrase):
        together = [note for change in group for note in by_change[change]]
        for change in group:
            found.append(_fit(harmony.scales[change], phrase.changes[change].chord, together))
    return tuple(found)


def _same_chords(phrase: Phrase) -> list[list[int]]:
    """Group neighbouring changes to the same chord for which the author says the same of the scale."""
    groups: list[list[int]] = []
    for index, change in enumerate(phrase.changes):
        if groups:
            before = groups[-1][0]
            same = phrase.changes[before].chord.meaning == change.chord.meaning
            if same and phrase.scales[before] == phrase.scales[index]:
                groups[-1].append(index)
                continue
        groups.append([index])
    return groups


def _notes_by_change(places: NotePlaces) -> list[list[_Weighed]]:
    starts, notes = places.changes, places.notes
    found: list[list[_Weighed]] = [[] for _ in starts]
    if not starts:
        return found
    for index, one in enumerate(notes):
        following = notes[index + 1] if index + 1 < len(notes) else None
        before = notes[index - 1] if index else None
        weight = _weight(one, following, places.grain)
        weighed = _Weighed(index, one.note.pitch.midi % 12, weight, _passes(before, one, following))
        found[max(0, bisect_right(starts, one.arrival) - 1)].append(weighed)
    return found


def _weight(one: NotePlace, following: NotePlace | None, quarter: int) -> int:
    """Weigh a note: 1 for a short weak one that moves on by half step, up to 4 for a long accented one."""
    weight = 2 + one.strong + (one.end - one.start > quarter)
    moves_on = following is not None and abs(following.note.pitch.midi - one.note.pitch.midi) == 1
    return 1 if weight == 2 and moves_on else weight


def _passes(before: NotePlace | None, one: NotePlace, following: NotePlace | None) -> bool:
    """Whether a note goes by half steps in one direction, on a weak place."""
    if before is None or following is None or one.strong:
        return False
    midi = one.note.pitch.midi
    step = following.note.pitch.midi - midi
    return abs(step) == 1 and midi - before.note.pitch.midi == step


def _fit(seen: ChordScale, chord: Chord, notes: list[_Weighed]) -> ScaleFit:
    weighed: list[Candidate] = []
    for rank, choice in enumerate(seen.choices):
        cost = _RANK_COSTS[min(rank, _LAST)] + max(0, rank - _LAST)
        if not rank or _may_be(choice.scale, chord, notes):
            weighed.append(_candidate(choice, cost, notes))
    if weighed and min([one.points for one in weighed]) > _ASKED_COST:  # else none of these could be better
        weighed += [
            _candidate(choice, _ASKED_COST, notes)
            for choice in seen.asked
            if _may_be(choice.scale, chord, notes)
        ]
    weighed.sort(key=lambda candidate: candidate.points)
    if not seen.stated or seen.scale is None:
        return _chosen(seen, weighed)
    outside, points = _outside(seen.scale, notes)
    better = next(
        (one for one in weighed if len(one.outside) < len(outside) and points - one.weight >= _DOUBT),
        None,
    )
    if better is not None:
        return ScaleFit(seen.scale, seen.reason, True, outside, tuple(weighed), better.scale)
    return ScaleFit(seen.scale, seen.reason, True, outside, tuple(weighed))


def _chosen(seen: ChordScale, weighed: list[Candidate]) -> ScaleFit:
    """Return the best candidate, with the reason why the notes prefer it to the first choice."""
    if not weighed:
        return ScaleFit(seen.scale, seen.reason, False, (), ())
    best = weighed[0]
    first = seen.choices[0]
    reason = best.reason
    if best.scale != first.scale:
        reason = f"{best.reason}; the line has notes that the {first.scale.name} scale leaves outside"
    return ScaleFit(best.scale, reason, False, best.outside, tuple(weighed))


def _may_be(scale: Scale, chord: Chord, notes: list[_Weighed]) -> bool:
    """Whether a scale other than the first choice has what it is known by.

    An altered scale needs an altered note, and the passing note of a bebop scale has to sound and to pass.
    """
    asked = must_sound(chord, scale)
    if asked and not any([note.pitch_class in asked for note in notes]):
        return False
    passing = passing_classes(scale)
    if not passing:
        return True
    there = [note.passes for note in notes if note.pitch_class in passing]
    return bool(there) and all(there)


def _candidate(choice: ScaleChoice, cost: int, notes: list[_Weighed]) -> Candidate:
    outside, weight = _outside(choice.scale, notes)
    return Candidate(choice.scale, choice.reason, outside, weight, cost + 2 * weight)


def _outside(scale: Scale, notes: list[_Weighed]) -> tuple[tuple[int, ...], int]:
    """Return the indices of the notes that a scale leaves outside, and what they weigh together."""
    classes = scale.pitch_classes
    left = [note for note in notes if note.pitch_class not in classes]
    return tuple([note.place for note in left]), sum([note.weight for note in left])
