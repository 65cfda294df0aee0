"""Variants that move notes in time: shifted, displaced, in another metre."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shedbook.draft.ground import TICKS, ground_over
from shedbook.draft.variants.sketch import Sketch, fitted
from shedbook.phrase.changes_text import Changes
from shedbook.phrase.model import ChangeAt
from shedbook.theory.metre import Metre

_EIGHTH = TICKS // 2
_MOST_CUT = 2
"""How many notes a shift may cut off [the project's design]."""


def shifted(sketch: Sketch, by: int) -> Sketch | None:
    """Return the line moved by ticks, what leaves the changes being cut; None if little is left."""
    end = sketch.ground.end
    kept = [at for at in range(len(sketch.midi)) if -TICKS * 2 <= sketch.onsets[at] + by < end - _EIGHTH]
    kept = _without_stub(sketch, kept)
    if len(kept) < max(3, len(sketch.midi) - _MOST_CUT) or not sketch.fixed <= set(kept):
        return None
    return Sketch(
        sketch.ground,
        tuple(sketch.onsets[at] + by for at in kept),
        tuple(min(end, sketch.ends[at] + by) for at in kept),
        tuple(sketch.midi[at] for at in kept),
        frozenset(kept.index(at) for at in sketch.fixed),
    )


def _without_stub(sketch: Sketch, kept: list[int]) -> list[int]:
    """Return notes without a stub: one or two left after the last rest, where what followed was cut."""
    if not kept or kept[-1] == len(sketch.midi) - 1:
        return kept
    for at in kept[-1:-3:-1]:
        if at and sketch.onsets[at] - sketch.ends[at - 1] >= _EIGHTH:
            return [one for one in kept if one < at]
    return kept


def moved_in_time(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the line an eighth and a beat later and earlier, its landings mended."""
    for by, said in (
        (_EIGHTH, "an eighth later"),
        (-_EIGHTH, "an eighth earlier"),
        (TICKS, "a beat later"),
        (-TICKS, "a beat earlier"),
    ):
        moved = shifted(sketch, by)
        if moved is None:
            continue
        made = fitted(moved)
        changed = sum(one != other for one, other in zip(made.midi, moved.midi, strict=True))
        mended = (
            f"{changed} note{'s' if changed != 1 else ''} moved so that its landings stand"
            if changed
            else "not a note moved"
        )
        yield made, f"The line comes {said}, {mended}."


def displaced(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the line from its second rest on displaced by a beat and a half, which plays across the bar."""
    breaks = [at for at in range(2, len(sketch.midi)) if sketch.onsets[at] - sketch.ends[at - 1] >= _EIGHTH]
    start = breaks[0] if breaks else len(sketch.midi) // 2
    for by in (3 * _EIGHTH, -3 * _EIGHTH, _EIGHTH, -_EIGHTH):
        onsets = [one + by if at >= start else one for at, one in enumerate(sketch.onsets)]
        ends = [one + by if at >= start else one for at, one in enumerate(sketch.ends)]
        if (
            onsets[start] < ends[start - 1]
            or onsets[-1] > sketch.ground.end - _EIGHTH
            or sketch.fixed & set(range(start, len(onsets)))
        ):
            continue
        cut = tuple(min(one, sketch.ground.end) for one in ends)
        way = "later" if by > 0 else "earlier"
        count = {1: "an eighth", 3: "a beat and a half"}[abs(by) // _EIGHTH]
        yield (
            fitted(replace(sketch, onsets=tuple(onsets), ends=cut)),
            (f"The second half of the line comes {count} {way}, against the bar."),
        )
        return


def in_metre(sketch: Sketch, metre: Metre) -> Iterator[tuple[Sketch, str]]:
    """Yield the line in another metre: beats are left out from the end of each bar, or added there as rest.

    Chords keep their bar; a chord on a beat that is gone moves to the last one.
    """
    old, new = sketch.ground, metre
    if metre == old.metre or metre.unit != old.metre.unit:
        return
    beats = min(old.metre.beats, new.beats)
    room = beats * TICKS * 4 // metre.unit
    bar = int(metre.bar_quarters * TICKS)
    changes = tuple(
        ChangeAt(one.bar, min(one.beat, one.beat.__class__(beats)), one.chord) for one in old.changes.changes
    )
    places = {(one.bar, one.beat) for one in changes}
    if len(places) < len(changes):
        return
    ground = ground_over(Changes(changes, old.bars), old.scales, metre, old.harmony.key)
    kept, onsets, ends = [], [], []
    for at, (start, end) in enumerate(zip(sketch.onsets, sketch.ends, strict=True)):
        number, place = divmod(start, old.bar_ticks)
        if place >= room and start >= 0:
            continue
        kept.append(at)
        here = number * bar + place if start >= 0 else start
        onsets.append(here)
        last, rest = divmod(end, old.bar_ticks)
        there = last * bar + min(rest, room) if end > 0 else end
        ends.append(max(here + 2, there))
    if len(kept) < 3 or not sketch.fixed <= set(kept):
        return
    cut = tuple(min(end, after) for end, after in zip(ends, [*onsets[1:], ground.end], strict=True))
    made = Sketch(
        ground,
        tuple(onsets),
        cut,
        tuple(sketch.midi[at] for at in kept),
        frozenset(kept.index(at) for at in sketch.fixed),
    )
    gone = len(sketch.midi) - len(kept)
    said = (
        f"{gone} notes on the last beat{'s' if old.metre.beats - beats > 1 else ''} of a bar are left out"
        if gone
        else "every note stays"
    )
    yield fitted(made), f"In {metre}, {said}."
