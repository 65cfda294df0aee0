"""Drafts: new phrases over changes, drawn exactly under the hard rules and chosen for what a reader hears.

A rhythm is drawn first (`rhythms`); over each, the lattice of lines (`lines`) is counted and drawn from in
proportion to the weights. Of what is drawn, lines are offered that land, peak once, bring something back, do
not
hover and breathe (`reading`): leaving out the others keeps the proportions among those that stay. A set is
then
chosen that is worth reading and unlike itself and the book (`likeness`), and each draft is held against the
account of its phrase before it is given out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from random import Random
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import proof
from shedbook.draft.figures import Figures, weighing
from shedbook.draft.ground import TICKS, Ground
from shedbook.draft.leaning import figures_of, shape_pull
from shedbook.draft.likeness import SAME_MOVES, cells, diverse, moves_kept, profiles
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.order import RULES, Order, checked, rules_of
from shedbook.draft.places import Place, places_of
from shedbook.draft.reading import Motif, read
from shedbook.draft.rhythms import Rhythm, Rhythms, RhythmWishes, table_name
from shedbook.draft.writing import bars_of, midi_of, rhythm_of
from shedbook.phrase.model import Phrase

_RHYTHMS = 12
"""How many rhythms are tried for a set, at least; a large set has one for every four drafts."""
_DRAWN = 320
"""How many lines are drawn over each."""
_TRIED_RHYTHMS = 400
_MOST_RELAXED = 3
"""How many rules are relaxed at most where nothing satisfies them all."""
_ROUNDS = 3
_ALIKE_RHYTHMS = 6


@dataclass(frozen=True)
class Draft:
    """One draft.

    Attributes:
        phrase: the phrase, named and spelled.
        account: its account.
        midi: its MIDI numbers.
        rhythm: its rhythm.
        weight: the logarithm of its weight among the lines over its rhythm, whose sum is 1.
        space: all lines that the rules allow over its rhythm; its `count` says how many.
        motif: (notes, first note, first note where it comes back); notes are 0 where nothing does.
    """

    phrase: Phrase
    account: Account
    midi: tuple[int, ...]
    rhythm: Rhythm
    weight: float
    space: Lines
    motif: tuple[int, int, int]


@dataclass(frozen=True)
class Drafted:
    """The drafts, and how large the space was that they were chosen from.

    Attributes:
        drafts: the drafts, the worthiest first; fewer than asked for where no more differ enough.
        rhythms: how many rhythms there are, exactly.
        drawn: how many lines were drawn.
        offered: how many of them had all that a draft must have.
        relaxed: names of rules that nothing satisfies together: a smallest set; () where all hold.
    """

    drafts: tuple[Draft, ...]
    rhythms: int
    drawn: int
    offered: int
    relaxed: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Pool:
    """Lines over one rhythm that may be offered."""

    lines: Lines
    rhythm: Rhythm
    midi: NDArray[np.intp]
    motif: Motif
    worth: NDArray[np.float64]


def draft(ground: Ground, order: Order) -> Drafted:
    """Draft phrases over a ground.

    Where no line satisfies the hard rules, no draft is made, and the answer names a smallest set of rules to
    relax.

    Raises:
        NotationError: if the order cannot be asked for.
        UnknownNameError: for a name in it that is none.
    """
    order = checked(order, ground)
    figures = figures_of(order.weights, order.leans, [midi_of(one) for one in order.like])
    dice = Random(order.seed)
    space = Rhythms(_rhythm_wishes(ground, order))
    pools: list[_Pool] = []
    drawn = 0
    for _ in range(_ROUNDS):
        for pool, many in _pools(space, ground, order, figures, dice):
            drawn += many
            if len(pool.midi):
                pools.append(pool)
        if sum(len(pool.midi) for pool in pools) >= 4 * order.count:
            break
    if not drawn:
        relaxed = _relaxed(space, ground, order, figures)
        return Drafted((), space.count, 0, 0, relaxed)
    chosen = _chosen(pools, ground, order)
    return Drafted(tuple(chosen), space.count, drawn, sum(len(pool.midi) for pool in pools))


def _rhythm_wishes(ground: Ground, order: Order, *, taught: bool = True) -> RhythmWishes:
    rules = rules_of(order, ground)
    needs = []
    for index in sorted(rules.covered):
        stretch = ground.stretches[index]
        notes = len(stretch.span.scale_classes)
        needs.append((stretch.start // TICKS, max(stretch.start // TICKS + 1, stretch.end // TICKS), notes))
    return RhythmWishes(
        beats=ground.end // TICKS,
        bar=max(1, ground.bar_ticks // TICKS),
        name=table_name(order.feel, order.tempo),
        bpm=order.tempo,
        pickup=ground.end > ground.bar_ticks,
        needs=tuple(needs),
        taught=taught,
    )


def _pools(
    space: Rhythms, ground: Ground, order: Order, figures: Figures, dice: Random
) -> Iterator[tuple[_Pool, int]]:
    """Yield for each rhythm the lines that may be offered, and how many were drawn."""
    rules = rules_of(order, ground)
    wanted = max(_RHYTHMS, order.count // 4)
    for rhythm in _rhythms(space, order, dice, wanted * 2):
        if wanted <= 0:
            return
        places = places_of(rhythm, ground)
        found = _lines(rhythm, places, rules, order, figures)
        if found is None or not found.possible:
            continue
        wanted -= 1
        if order.best:
            midi = np.array([line for _, line in found.best(_DRAWN)], dtype=np.intp)
        else:
            midi = np.unique(found.drawn(_DRAWN, dice), axis=0)
        reading = read(midi, rhythm, places)
        kept = reading.offered
        yield _Pool(found, rhythm, midi[kept], reading.motif.of(kept), reading.worth[kept]), len(midi)


def _rhythms(space: Rhythms, order: Order, dice: Random, many: int) -> list[Rhythm]:
    """Return rhythms that differ and strike the fixed notes, those that bring a figure back first."""
    if order.like and any(order.like):
        own = [rhythm_of(one) for one in order.like if one.full_bars * 4 == space.wishes.beats]
    else:
        own = []
    drawn = [*own, *space.drawn(_TRIED_RHYTHMS, dice)]
    ticks = {one.tick for one in order.fixed}
    fitting = (
        [one for one in drawn if ticks <= set(one.onsets)] if "fixed notes" not in order.without else drawn
    )
    bars = space.wishes.beats / space.wishes.bar
    fitting = [one for one in fitting if 2.2 * bars <= len(one.onsets)]
    found: dict[tuple[int, ...], Rhythm] = {}
    for one in sorted(fitting, key=lambda rhythm: -_returns(rhythm)):
        found.setdefault(one.onsets, one)
    plenty = list(found.values())[: 3 * many]
    dice.shuffle(plenty)
    return plenty[:many]


def _returns(rhythm: Rhythm) -> int:
    """Return how many waits in a row come back in a rhythm, in notes that are not all alike."""
    waits, best = rhythm.waits, 0
    for apart in range(3, len(waits)):
        run = 0
        for at in range(len(waits) - apart):
            run = run + 1 if waits[at] == waits[at + apart] and run < apart - 1 else 0
            if run >= 2 and len(set(waits[at - run + 1 : at + 1])) > 1:
                best = max(best, run)
    return min(best, 4)


def _lines(
    rhythm: Rhythm, places: Sequence[Place], rules: LineRules, order: Order, figures: Figures
) -> Lines | None:
    """Return the lines over a rhythm; None where a covered chord has no note in it."""
    here = {place.index for place in places}
    if not rules.covered <= here:
        return None
    if "fixed notes" not in order.without:
        at = {onset: number for number, onset in enumerate(rhythm.onsets)}
        fixed = {at[one.tick]: one.midi for one in order.fixed if one.tick in at}
        rules = replace(rules, fixed=MappingProxyType(fixed))
    weights = weighing(figures, places, rules.low, rules.high, (rules.low + rules.high) / 2)
    if order.shape:
        pull = shape_pull(order.shape, rhythm.onsets, rules.low, rules.high)
        weights = replace(weights, notes=weights.notes + pull)
    return Lines(places, rules, weights)


def _chosen(pools: Sequence[_Pool], ground: Ground, order: Order) -> list[Draft]:
    """Choose a set that is worth reading and differs, and hold each draft against its account."""
    if not pools:
        return []
    rows = [(pool, at) for pool in pools for at in _worthiest(pool, order.count)]
    bags = [cells(pool.midi[at].tolist(), pool.rhythm.onsets) for pool, at in rows]
    known = [(midi_of(one), rhythm_of(one)) for one in (*order.unlike, *order.like)]
    against = profiles([cells(midi, rhythm.onsets) for midi, rhythm in known])
    worth = np.array([pool.worth[at] for pool, at in rows])
    tried = len(rows) if order.level else 3 * order.count + 20
    order_of = diverse(profiles(bags), worth, tried, against)
    found: list[Draft] = []
    rhythms: dict[tuple[int, ...], int] = {}
    limit = max(1, -(-order.count // max(1, min(len(pools), _RHYTHMS))) + 1)
    for at in order_of:
        pool, line = rows[at]
        midi = tuple(pool.midi[line].tolist())
        if rhythms.get(pool.rhythm.onsets, 0) >= limit:
            continue
        if any(moves_kept(midi, other) >= SAME_MOVES for other, _ in known):
            continue
        if any(moves_kept(midi, other.midi) >= SAME_MOVES for other in found):
            continue
        one = _held(pool, line, midi, ground, order, len(found) + 1)
        if one is not None:
            found.append(one)
            rhythms[pool.rhythm.onsets] = rhythms.get(pool.rhythm.onsets, 0) + 1
        if len(found) == order.count:
            break
    return found


def _worthiest(pool: _Pool, count: int) -> list[int]:
    """Return the better half of the lines of a pool, at least a few."""
    many = max(12, min(len(pool.midi) // 2, 4 * count))
    return [int(at) for at in np.argsort(-pool.worth, kind="stable")[:many]]


def _held(
    pool: _Pool, line: int, midi: tuple[int, ...], ground: Ground, order: Order, number: int
) -> Draft | None:
    """Return a draft, None where its account leaves a note open or the proof-reader warns."""
    bars = bars_of(pool.rhythm, midi, ground.metre, ground.bars)
    phrase = ground.phrase(bars, title=f"Draft {number}", tempo=order.tempo, feel=order.feel)
    seen = account(phrase)
    if "outside notes" not in order.without and seen.accounted < len(seen.notes):
        return None
    if order.level and seen.difficulty.level != order.level:
        return None
    if not order.without and any(one.severity != "advice" for one in proof(seen)):
        return None
    motif = pool.motif
    weight = pool.lines.weight_of(midi) - pool.lines.log_weight
    return Draft(
        phrase,
        seen,
        midi,
        pool.rhythm,
        weight,
        pool.lines,
        (int(motif.notes[line]), int(motif.first[line]), int(motif.again[line])),
    )


def _relaxed(space: Rhythms, ground: Ground, order: Order, figures: Figures) -> tuple[str, ...]:
    """Return a smallest set of rules without which some line is possible over some of a few rhythms.

    Sets of one rule are tried first, then of two and of three; () where more would have to go.
    """
    for size in range(1, _MOST_RELAXED + 1):
        for names in combinations([name for name in RULES if name not in order.without], size):
            relaxed = replace(order, without=(*order.without, *names))
            wishes = _rhythm_wishes(ground, relaxed)
            rhythms = space if wishes == space.wishes else Rhythms(wishes)
            few = _rhythms(rhythms, relaxed, Random(order.seed), _ALIKE_RHYTHMS)
            rules = rules_of(relaxed, ground)
            for rhythm in few:
                found = _lines(rhythm, places_of(rhythm, ground), rules, relaxed, figures)
                if found is not None and found.possible:
                    return names
    return ()
