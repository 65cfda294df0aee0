"""Variants with more or fewer notes: decorated, thinned, easier, harder; two phrases joined."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shedbook.draft.ground import TICKS, Ground, ground_over
from shedbook.draft.variants.sketch import Sketch, inserted, place_words
from shedbook.phrase.changes_text import Changes
from shedbook.phrase.model import ChangeAt

_EIGHTH = TICKS // 2
_MOST_DECORATED = 3


def decorated(sketch: Sketch, most: int = _MOST_DECORATED) -> Iterator[tuple[Sketch, str]]:
    """Yield the line with approaches and enclosures before its landings, where there is time for them."""
    made, said = sketch, []
    for at in reversed(_targets(sketch)):
        notes = _figure(made, at)
        if notes is None:
            continue
        made = inserted(made, at, notes)
        names = (
            "an enclosure"
            if len(notes) == 2
            else "a half step below"
            if notes[0][2] < made.midi[at + 1]
            else "a half step above"
        )
        said.append(f"{names} before {place_words(sketch, at)}")
        if len(said) == most:
            break
    if said:
        yield made, f"Decorated: {', '.join(reversed(said))}."


def _targets(sketch: Sketch) -> list[int]:
    """Return the places of landings that may be decorated: strong, in the chord, and not the first note."""
    return [
        at
        for at, place in enumerate(sketch.places)
        if at and (place.strong or place.enters) and sketch.midi[at] % 12 in place.chord.firm
    ]


def _figure(sketch: Sketch, at: int) -> list[tuple[int, int, int]] | None:
    """Return the notes of a figure before a note, None where there is no time: an eighth, or two."""
    onset, target = sketch.onsets[at], sketch.midi[at]
    before, starts = sketch.midi[at - 1], sketch.onsets[at - 1]
    if onset % _EIGHTH or at - 1 in sketch.fixed:
        return None
    free = onset - starts
    inside = sketch.places[at].chord.inside
    above = target + 1 if (target + 1) % 12 in inside else target + 2
    if free >= 3 * _EIGHTH and abs(before - above) <= 7 and above != before:
        return [(onset - 2 * _EIGHTH, onset - _EIGHTH, above), (onset - _EIGHTH, onset, target - 1)]
    if free >= 2 * _EIGHTH:
        near = target - 1 if before < target else target + 1
        near = near if near != before else 2 * target - near
        return [(onset - _EIGHTH, onset, near)]
    return None


def skeleton(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the notes on strong beats, those that enter chords, the first and the last, made longer."""
    last = len(sketch.midi) - 1
    gone = [
        at for at, place in enumerate(sketch.places) if not (place.strong or place.enters or at in (0, last))
    ]
    made = sketch.without(gone)
    if len(made.midi) < 2 or len(made.midi) == len(sketch.midi):
        return
    ends = tuple(
        min(after, start + 2 * TICKS)
        for start, after in zip(made.onsets, [*made.onsets[1:], made.ends[-1]], strict=True)
    )
    yield (
        replace(made, ends=ends),
        f"The skeleton: {len(made.midi)} of {len(sketch.midi)} notes, those the rest hangs on.",
    )


def easier(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the line without its quickest notes, its outside notes and its wide leaps."""
    gone = []
    for at, place in enumerate(sketch.places[:-1]):
        quick = sketch.onsets[at + 1] - sketch.onsets[at] < _EIGHTH and sketch.onsets[at] % TICKS
        outside = sketch.midi[at] % 12 not in place.chord.inside
        if quick or outside:
            gone.append(at)
    thinned = sketch.without(gone)
    if len(thinned.midi) < 3:
        return
    thinned = _held_over(sketch, thinned)
    midi, octave, folded = list(thinned.midi), 0, 0
    for at in range(1, len(midi)):
        leap = thinned.midi[at] - thinned.midi[at - 1]
        if abs(leap) > 7 and at not in thinned.fixed:
            octave += -12 if leap > 0 else 12
            folded += 1
        midi[at] += octave
    made = replace(thinned, midi=tuple(midi))
    if made == sketch:
        return
    left = len(sketch.midi) - len(made.midi)
    done = [
        f"{number} {what}{'s' if number != 1 else ''} {did}"
        for number, what, did in ((left, "quick or outside note", "left out"), (folded, "leap", "folded"))
        if number
    ]
    yield made, f"Easier: {', '.join(done) or 'notes held longer'}."


def _held_over(sketch: Sketch, thinned: Sketch) -> Sketch:
    """Return a line that has lost notes, each held over what is gone after it, for a beat and a half."""
    silent = {end for end, start in zip(sketch.ends[:-1], sketch.onsets[1:], strict=True) if start > end}
    ends = []
    for start, end, after in zip(
        thinned.onsets, thinned.ends, [*thinned.onsets[1:], thinned.ends[-1]], strict=True
    ):
        ends.append(after if end not in silent and end < after <= start + 3 * _EIGHTH else end)
    return replace(thinned, ends=tuple(ends))


def harder(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the line with every landing decorated that has time for it, and long notes filled by step."""
    made, said = sketch, 0
    for at in range(len(sketch.midi) - 1, 0, -1):
        free = made.onsets[at] - made.onsets[at - 1]
        gap = made.midi[at] - made.midi[at - 1]
        if (
            free >= TICKS
            and free % _EIGHTH == 0
            and made.onsets[at] % _EIGHTH == 0
            and abs(gap) in (3, 4)
            and at - 1 not in made.fixed
        ):
            between = _between(made, at)
            made = inserted(made, at, [(made.onsets[at] - _EIGHTH, made.onsets[at], between)])
            said += 1
    for more, words in decorated(made, most=4):
        yield more, f"Harder: {_filled(said)}{words}"
        return
    if said:
        yield made, f"Harder: {_filled(said)}".strip()


def _filled(thirds: int) -> str:
    return "" if not thirds else f"{thirds} third{'s' if thirds != 1 else ''} filled by step. "


def _between(sketch: Sketch, at: int) -> int:
    """Return the scale note between two notes, or the half step that leads on."""
    low, high = sorted((sketch.midi[at - 1], sketch.midi[at]))
    inside = sketch.places[at - 1].chord.inside
    found = [one for one in range(low + 1, high) if one % 12 in inside]
    return found[0] if found else sketch.midi[at] + (1 if sketch.midi[at] < sketch.midi[at - 1] else -1)


def joined(sketch: Sketch, other: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield two phrases as one, the second in the octave that links best, with notes that lead over."""
    if other.ground.metre != sketch.ground.metre:
        return
    ground = _after_one_another(sketch.ground, other.ground)
    shift = sketch.ground.end
    end, start = sketch.midi[-1], other.onsets[0] + shift
    octave = min((-24, -12, 0, 12, 24), key=lambda up: (abs(other.midi[0] + up - end), abs(up)))
    own = [at for at in range(len(sketch.midi)) if sketch.onsets[at] < start]
    ends = [min(sketch.ends[at], start) for at in own]
    made = Sketch(
        ground,
        (*[sketch.onsets[at] for at in own], *[one + shift for one in other.onsets]),
        (*ends, *[one + shift for one in other.ends]),
        (*[sketch.midi[at] for at in own], *[one + octave for one in other.midi]),
        sketch.fixed | frozenset(len(own) + at for at in other.fixed),
    )
    at = len(own)
    notes = _figure(made, at) if abs(made.midi[at] - made.midi[at - 1]) > 2 else None
    link = abs(made.midi[at] - made.midi[at - 1])
    said = f"linked by {link} half step{'s' if link != 1 else ''}"
    if notes is not None:
        made = inserted(made, at, notes)
        said = "with an approach that leads over" if len(notes) == 1 else "with an enclosure that leads over"
    moved = "" if not octave else f", the second an octave {'up' if octave > 0 else 'down'}"
    yield made, f"Two phrases joined, {said}{moved}."


def _after_one_another(one: Ground, other: Ground) -> Ground:
    later = tuple(
        ChangeAt(change.bar + one.bars, change.beat, change.chord) for change in other.changes.changes
    )
    changes = Changes((*one.changes.changes, *later), one.bars + other.bars)
    return ground_over(changes, (*one.scales, *other.scales), one.metre, one.harmony.key)
