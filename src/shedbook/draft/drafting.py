"""Drafts: new phrases over changes, drawn exactly under the hard rules and chosen for what a reader hears.

A rhythm is drawn first (`rhythms`), most of them with a statement that returns (`rhymes`); over each, the
lattice of lines (`lines`) is counted and drawn from in proportion to the weights. Where the rhythm returns, a
few statements are taken of what was drawn, and the rest is drawn anew from the lines that keep and answer
them (`answers`). Of what is drawn, lines are offered that land, peak once, bring something back, do not hover
and breathe (`reading`): leaving out the others keeps the proportions among those that stay. A set is then
chosen that is worth reading and unlike itself and the book (`likeness`), and each draft is held against the
account of its phrase before it is given out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import log
from random import Random
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import proof
from shedbook.draft.answers import answering, guide_pull, kept, shifts, statements
from shedbook.draft.figures import Figures, weighing
from shedbook.draft.ground import TICKS, Ground
from shedbook.draft.hands import hand_weights, weights_of_pairs
from shedbook.draft.leaning import figures_of, shape_pull
from shedbook.draft.likeness import SAME_MOVES, cells, diverse, moves_kept, profiles
from shedbook.draft.lines import LineRules, Lines, Weighing
from shedbook.draft.moods import WIDEST
from shedbook.draft.order import RULES, Order, checked, rules_of
from shedbook.draft.places import Place, places_of
from shedbook.draft.reading import Motif, read, stands_over
from shedbook.draft.rhymes import Rhyme, rhyming
from shedbook.draft.rhymes import worth as worth_of_rhythm
from shedbook.draft.rhythms import Rhythm, Rhythms, RhythmWishes, table_name
from shedbook.draft.whole_lines import whole_worth
from shedbook.draft.writing import bars_of, midi_of, rhythm_of
from shedbook.phrase.model import Phrase

_RHYTHMS = 12
"""How many rhythms are tried for a set, at least; a large set has one for every four drafts."""
_DRAWN = 320
"""How many lines are drawn over each."""
_SHAPED = 4.0
"""What the pull of a note to the shape that was asked for is worth on the average [the project's design]."""
_TRIED_RHYTHMS = 200
_FIRST_DRAWN = 32
"""How many lines are drawn to take statements from."""
_STATEMENTS = 2
"""How many statements are answered over each rhythm; one of each in long phrases, which have several."""
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
        rests=False,
    )


def _pools(
    space: Rhythms, ground: Ground, order: Order, figures: Figures, dice: Random
) -> Iterator[tuple[_Pool, int]]:
    """Yield for each rhythm the lines that may be offered, and how many were drawn."""
    rules = rules_of(order, ground)
    wanted = max(_RHYTHMS, order.count // 4)
    for rhyme in _rhythms(space, order, dice, wanted * 2):
        if wanted <= 0:
            return
        places = places_of(rhyme.rhythm, ground)
        here = _rules_and_weights(rhyme.rhythm, places, rules, order, figures)
        if here is None:
            continue
        found = Lines(places, *here)
        if not found.possible:
            continue
        wanted -= 1
        midi, more = _drawn(found, here, rhyme, order, dice)
        reading = read(midi, rhyme.rhythm, places)
        good = reading.offered
        worth = (reading.worth + more)[good]
        if order.shape and here[1].pull is not None:
            pulled = here[1].pull[np.arange(midi.shape[1]), midi[good] - rules.low]
            worth = worth + _SHAPED * pulled.mean(axis=1)
        if order.weights == "learnt":
            worth = worth + whole_worth(midi[good], places)
        if here[1].pairs is not None:
            worth = worth + weights_of_pairs(here[1].pairs, midi[good] - rules.low)
        yield _Pool(found, rhyme.rhythm, midi[good], reading.motif.of(good), worth), len(midi)


def _drawn(
    lines: Lines, here: tuple[LineRules, Weighing], rhyme: Rhyme, order: Order, dice: Random
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Return different lines over a rhythm, and what their answers add to their worth."""
    if order.best:
        midi = np.array([line for _, line in lines.best(_DRAWN)], dtype=np.intp)
        return midi, np.zeros(len(midi))
    stands = stands_over(lines.places)
    if not rhyme.forms:
        midi = np.unique(lines.drawn(_DRAWN, dice, stands), axis=0)
        return midi, np.zeros(len(midi))
    found, worth = [], []
    many = _STATEMENTS if len(rhyme.forms) == 1 else 1
    for statement in statements(lines.drawn(_FIRST_DRAWN, dice, stands), rhyme, lines.places, many):
        moved = shifts(statement, rhyme, lines.places, here[0], here[1].pull, dice)
        answered = lines.keeping(*answering(*here, lines.places, rhyme, statement, moved))
        if answered.possible:
            found.append(np.unique(answered.drawn(_DRAWN // many, dice, stands), axis=0))
            worth.append(kept(found[-1], rhyme, statement, moved))
    return np.concatenate(found), np.concatenate(worth)


def _rhythms(space: Rhythms, order: Order, dice: Random, many: int) -> list[Rhyme]:
    """Return rhythms that differ and strike the fixed notes, the worthier of those that were drawn."""
    own = [Rhyme(rhythm_of(one)) for one in order.like if one.full_bars * 4 == space.wishes.beats]
    drawn = [] if order.best else rhyming(space, many, dice)
    if len(drawn) < many or order.fixed:
        drawn += [Rhyme(one) for one in space.drawn(_TRIED_RHYTHMS, dice)]
    ticks = set() if "fixed notes" in order.without else {one.tick for one in order.fixed}
    fewest = 2.2 * space.wishes.beats / space.wishes.bar
    fitting = [
        one for one in [*own, *drawn] if ticks <= set(one.rhythm.onsets) and len(one.rhythm.onsets) >= fewest
    ]
    # The first by these sums are drawn in proportion to worth, without putting back [from memory: Gumbel].
    drawn_by = {one: worth_of_rhythm(one, space.wishes) - log(-log(dice.random() or 0.5)) for one in fitting}
    found: dict[tuple[int, ...], Rhyme] = {}
    for one in sorted(fitting, key=lambda rhyme: -drawn_by[rhyme]):
        found.setdefault(one.rhythm.onsets, one)
    plenty = list(found.values())[:many]
    dice.shuffle(plenty)
    return plenty


def _rules_and_weights(
    rhythm: Rhythm, places: Sequence[Place], rules: LineRules, order: Order, figures: Figures
) -> tuple[LineRules, Weighing] | None:
    """Return the rules and weights of lines over a rhythm; None where a covered chord has no note in it."""
    here = {place.index for place in places}
    if not rules.covered <= here:
        return None
    if "fixed notes" not in order.without:
        at = {onset: number for number, onset in enumerate(rhythm.onsets)}
        fixed = {at[one.tick]: one.midi for one in order.fixed if one.tick in at}
        rules = replace(rules, fixed=MappingProxyType(fixed))
    weights = weighing(figures, places, rules.low, rules.high, (rules.low + rules.high) / 2)
    pull = np.zeros((len(places), rules.high - rules.low + 1))
    if order.shape:
        pull += shape_pull(order.shape, rhythm.onsets, rules.low, rules.high)[:, WIDEST:-WIDEST]
    if order.weights != "learnt":
        pull += guide_pull(places, rules.low, rules.high)
    pairs = None
    if order.instrument is not None and figures.fingering[0]:
        point = float(figures.fingering[0])
        pairs = hand_weights(point, order.instrument, places, rules.low, rules.high, order.tempo)
    return rules, replace(weights, pull=pull, pairs=pairs)


def _chosen(pools: Sequence[_Pool], ground: Ground, order: Order) -> list[Draft]:
    """Choose a set that is worth reading and differs, and hold each draft against its account."""
    if not pools:
        return []
    rows = [(pool, at) for pool in pools for at in _worthiest(pool, order.count)]
    bags = [cells(pool.midi[at].tolist(), pool.rhythm.onsets) for pool, at in rows]
    known = [(midi_of(one), rhythm_of(one)) for one in (*order.unlike, *order.like)]
    against = profiles([cells(midi, rhythm.onsets) for midi, rhythm in known])
    worth = np.array([pool.worth[at] for pool, at in rows])
    order_of = diverse(profiles(bags), worth, len(rows), against)
    tries = len(rows) if order.level else 3 * order.count + 20
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
        tries -= 1
        one = _held(pool, line, midi, ground, order, len(found) + 1)
        if one is not None:
            found.append(one)
            rhythms[pool.rhythm.onsets] = rhythms.get(pool.rhythm.onsets, 0) + 1
        if len(found) == order.count or not tries:
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
            for rhyme in few:
                places = places_of(rhyme.rhythm, ground)
                found = _rules_and_weights(rhyme.rhythm, places, rules, relaxed, figures)
                if found is not None and Lines(places, *found).possible:
                    return names
    return ()
