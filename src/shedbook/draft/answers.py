"""Answers: what was stated comes back over the next chords, changed where a guide tone asks for it.

A statement is a few notes of a line that was drawn; its answers are pulled to the same pitches, or to the
same a step or more away, and to thirds and sevenths where chords begin. The pull is a weight like any other,
so the lines are drawn exactly from a lattice under the same hard rules.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.lines import LineRules, Weighing
from shedbook.draft.moods import LEAP, SIZE_OF
from shedbook.draft.places import Place, mask_of
from shedbook.draft.rhymes import Rhyme
from shedbook.draft.tables.leanings import ANSWERS, SHIFTS

_WEIGHT = MappingProxyType({row.name: row.weight / 100 for row in ANSWERS})

_OFF = ("as it was", "a half step off", "a whole step off", "farther")


def guide_pull(places: Sequence[Place], low: int, high: int) -> NDArray[np.float64]:
    """Return a pull [note, pitch] to the thirds and sevenths of chords where they begin."""
    pitches = np.arange(low, high + 1)
    pull = np.zeros((len(places), len(pitches)))
    for at, place in enumerate(places):
        if place.enters and at:
            guides = mask_of(place.chord.guides)[pitches % 12]
            pull[at] += np.where(guides, _WEIGHT["guide tones"] * (1.0 if place.strong else 0.5), 0.0)
    return pull


def statements(
    lines: NDArray[np.intp], rhyme: Rhyme, places: Sequence[Place], many: int
) -> list[dict[int, int]]:
    """Return the best statements of lines, each as pitches by number of the note; no two move alike."""
    worth = np.zeros(len(lines))
    for notes in rhyme.statements:
        here = [places[at] for at in notes]
        worth += [_statement_worth(line, here) for line in lines[:, list(notes)]]
    every = [at for notes in rhyme.statements for at in notes]
    found: list[dict[int, int]] = []
    moved: set[tuple[int, ...]] = set()
    for row in np.argsort(-worth, kind="stable"):
        pitches = lines[row][every]
        moves = tuple(np.diff(pitches).tolist())
        if moves not in moved:
            moved.add(moves)
            found.append(dict(zip(every, pitches.tolist(), strict=True)))
        if len(found) == many:
            break
    return found


def _statement_worth(pitches: NDArray[np.intp], places: Sequence[Place]) -> float:
    """Return how well a statement is known again: it turns, has a third or more, and is plain otherwise."""
    moves = np.diff(pitches)
    signs = np.sign(moves)
    sizes = [SIZE_OF[min(12, abs(int(move)))] for move in moves]
    turns = int((signs[1:] * signs[:-1] < 0).sum())
    outside = sum(int(one) % 12 not in place.chord.inside for one, place in zip(pitches, places, strict=True))
    chordal = sum(
        int(one) % 12 in place.chord.span.chord_classes for one, place in zip(pitches, places, strict=True)
    )
    found = 1.0 * (0 < turns <= 1 + len(moves) // 3) + 0.8 * (sizes.count(3) > 0)
    leaps = sum(size >= LEAP for size in sizes)
    found += 0.6 * (leaps == 1) - 0.8 * max(0, leaps - 1)
    found += 1.2 * chordal / max(1, len(places)) - 0.9 * outside
    found += 0.7 * (int(pitches[-1]) % 12 in places[-1].chord.strong)
    return found - 0.5 * (np.ptp(pitches) > 12) - 0.7 * (np.ptp(pitches) < 4)


def shifts(
    statement: dict[int, int],
    rhyme: Rhyme,
    places: Sequence[Place],
    rules: LineRules,
    pull: NDArray[np.float64] | None,
    dice: Random,
) -> tuple[int, ...]:
    """Return for each answer how far it is moved in half steps: where it fits its chords and lies well.

    A move is drawn from the four that fit best, where they are pulled to besides, nearer ones sooner.
    """
    found = []
    top = max(statement.values())
    several = len(rhyme.statements) > 1
    for pairs in rhyme.answers:
        rows = []
        for shift, leaning in SHIFTS:
            pitches = [(statement[one] + shift, places[other]) for one, other in pairs]
            fit = sum(pitch % 12 in place.chord.inside for pitch, place in pitches) / max(1, len(pitches))
            firm = sum(place.strong and pitch % 12 not in place.chord.strong for pitch, place in pitches)
            at = np.array([statement[one] + shift - rules.low for one, _ in pairs], dtype=np.intp)
            inside = bool(np.all((at >= 0) & (at <= rules.high - rules.low)))
            pulled = 0.0
            if inside and pull is not None and pairs:
                pulled = float(pull[[other for _, other in pairs], at].mean())
            value = 3.0 * fit - 0.6 * firm + leaning / 100 + pulled - 9.0 * (not inside)
            if several and max((pitch for pitch, _ in pitches), default=0) == top:
                value -= 3.0  # a long line reaches its highest note once
            rows.append((value, shift))
        rows.sort(key=lambda row: (-row[0], abs(row[1])))
        weights = [float(np.exp(1.5 * (value - rows[0][0]))) for value, _ in rows[:4]]
        found.append(dice.choices([shift for _, shift in rows[:4]], weights)[0])
        top = max([top, *[statement[one] + found[-1] for one, _ in pairs]])
    return tuple(found)


def answering(
    rules: LineRules,
    weights: Weighing,
    places: Sequence[Place],
    rhyme: Rhyme,
    statement: dict[int, int],
    moved: Sequence[int],
) -> tuple[LineRules, Weighing]:
    """Return the rules and weights of lines that keep a statement and answer it, moved so far each time.

    A note of an answer that is not the one wanted weighs less the farther it is away (`ANSWERS`).
    """
    pitches = np.arange(rules.low, rules.high + 1)
    pull = np.zeros((len(places), len(pitches))) if weights.pull is None else weights.pull.copy()
    cost = np.array([_WEIGHT[name] for name in _OFF])
    for pairs, shift in zip(rhyme.answers, moved, strict=True):
        for one, other in pairs:
            off = np.minimum(np.abs(pitches - (statement[one] + shift)), 3)
            pull[other] += cost[off]
    kept = replace(rules, fixed=MappingProxyType({**statement, **rules.fixed}))
    return kept, replace(weights, pull=pull)


def kept(
    lines: NDArray[np.intp], rhyme: Rhyme, statement: dict[int, int], moved: Sequence[int]
) -> NDArray[np.float64]:
    """Return what the answers of lines are worth: how much they keep and that they change."""
    wanted = [
        (other, statement[one] + shift)
        for pairs, shift in zip(rhyme.answers, moved, strict=True)
        for one, other in pairs
    ]
    if not wanted:
        return np.zeros(len(lines))
    notes, pitches = np.array(wanted).T
    same = (lines[:, notes] == pitches[None, :]).mean(axis=1)
    changed = (same < 1) | any(moved)
    return np.asarray(_WEIGHT["notes kept"] * same + _WEIGHT["something changed"] * changed)
