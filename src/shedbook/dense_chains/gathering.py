"""Sparse layers on NumPy arrays: paths from layer to layer that may have to gather a whole set on their way.

A layer has numbered states; an *arc* leads from a state of a layer to one of the next. Arcs are arrays, and
every one has a whole weight in hundredths of a natural logarithm, so that best paths are the same on every
machine. Over a *stretch* of layers a path may have to gather every member of a set: each state that is
entered there gives the members of its own mask. Beside each state the walk then keeps a column for every
subset that can still be made whole in the notes that are left; at the end of the stretch it must be.

Three questions are answered exactly: how many paths there are (whole numbers, found modulo primes and put
together by the Chinese remainder theorem), which k are best (best first, with the best that can still follow
as the bound), and paths drawn in proportion to their weights (backward filtering, forward sampling: the walk
of `sums` from the other end). Of equally good paths the one comes first whose earliest differing arc was
offered first. The trade of dense columns for subsets costs 2^members numbers a state, so sets stay small.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from heapq import heappop, heappush
from random import Random
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

Ints = NDArray[np.intp]
Floats = NDArray[np.float64]

HUNDREDTHS = 100.0
"""Weights are hundredths of a natural logarithm."""
MOST_MEMBERS = 10
"""The largest set that can be gathered: 1,024 columns a state."""
_NOTHING = np.int64(-(2**40))
_PRIME_BITS = 30


@dataclass(frozen=True, slots=True)
class Step:
    """The arcs from one layer to the next, those of a state together and in the order of the states.

    Attributes:
        first: by state of the layer before, where its arcs begin; one more for the end.
        target: by arc, the state it leads to.
        weight: by arc, in hundredths of a natural logarithm.
        targets: how many states the next layer has.
        gives: by state of the next layer, the mask of what it gives to the set; None outside stretches.
        before: the subsets that may have been gathered in the layer before, a column each.
        after: the same of the next layer; only 0 where the stretch is over.
        full: the mask that must be reached with this step; 0 where the stretch goes on.
    """

    first: Ints
    target: Ints
    weight: NDArray[np.int64]
    targets: int
    gives: Ints | None = None
    before: tuple[int, ...] = (0,)
    after: tuple[int, ...] = (0,)
    full: int = 0

    @property
    def sources(self) -> int:
        """How many states the layer before has."""
        return len(self.first) - 1


def step_of(source: Ints, target: Ints, weight: NDArray[np.int64], sources: int, targets: int) -> Step:
    """Return a step outside of stretches from arcs in any order; those of a state keep theirs."""
    order = np.argsort(source, kind="stable")
    first = np.searchsorted(source[order], np.arange(sources + 1))
    return Step(first, target[order], weight[order], targets)


def stretch(steps: Sequence[Step], gives: Ints, members: int) -> list[Step]:
    """Return steps in which paths must gather a set.

    Args:
        steps: the steps that enter the states of the stretch, one after another.
        gives: by state, the mask of what it gives, one member at most.
        members: how many members the set has, at most `MOST_MEMBERS`.

    Raises:
        ValueError: if the set has too many members.
    """
    if members > MOST_MEMBERS:
        raise ValueError(f"a set of {members} members cannot be gathered; {MOST_MEMBERS} are the most")
    full, many = (1 << members) - 1, len(steps)

    def columns(entered: int) -> tuple[int, ...]:
        return _subsets(members, members - (many - entered), entered)

    found = []
    for at, step in enumerate(steps):
        last = at == many - 1
        found.append(
            replace(
                step,
                gives=gives,
                before=columns(at) if at else (0,),
                after=(0,) if last else columns(at + 1),
                full=full if last else 0,
            )
        )
    return found


@lru_cache(maxsize=512)
def _subsets(members: int, least: int, most: int) -> tuple[int, ...]:
    """Return the subsets of so many members that have so many of them; (0,) for none."""
    return tuple(one for one in range(1 << members) if least <= one.bit_count() <= most) or (0,)


def _columns_of(step: Step) -> Ints:
    """Return for each subset its column in the layer after a step; beyond them all for what leads nowhere."""
    given = 0 if step.gives is None else int(step.gives.max(initial=0))
    size = max(1, *step.before, *step.after, step.full, given).bit_length()
    found = np.full(1 << size, len(step.after), dtype=np.intp)
    if step.full:
        found[step.full] = 0
    else:
        found[list(step.after)] = np.arange(len(step.after))
    return found


def _entered(step: Step, after: NDArray[Any], nothing: object) -> NDArray[Any]:
    """Return for each state of the next layer and each subset before it what follows: [state, subset]."""
    if step.gives is None:
        return after
    column, before = _columns_of(step), np.array(step.before, dtype=np.intp)
    empty = np.full((len(after), 1), nothing, dtype=after.dtype)
    padded = np.concatenate([after, empty], axis=1)
    found = np.empty((len(after), len(before)), dtype=after.dtype)
    for given in np.unique(step.gives):
        rows = np.flatnonzero(step.gives == given)
        found[rows] = padded[rows][:, column[before | given]]
    return found


def onward(steps: Sequence[Step]) -> tuple[list[Floats], float]:
    """Return the weight of all that can follow each state and subset, and the logarithm of the whole.

    Each layer is scaled by its own factor, which drawing does not need; the logarithm is minus infinity where
    no path leads through.
    """
    after = np.ones((steps[-1].targets, 1))
    found, log_scale = [after], 0.0
    for step in reversed(steps):
        weight = np.exp(step.weight / HUNDREDTHS)
        table = csr_array((weight, step.target, step.first), shape=(step.sources, step.targets))
        after = np.asarray(table @ _entered(step, after, 0.0))
        top = float(after.max(initial=0.0))
        if top <= 0.0:
            return [], -np.inf
        after = after / top
        log_scale += float(np.log(top))
        found.append(after)
    return found[::-1], log_scale + float(np.log(found[-1][0, 0])) if found[-1][0, 0] > 0 else -np.inf


def draw(
    steps: Sequence[Step],
    following: Sequence[Floats],
    count: int,
    dice: Random,
    stands: Callable[[Ints], NDArray[np.bool_]] | None = None,
) -> Ints:
    """Return states [path, layer] of paths from state 0, drawn in proportion to their weights.

    What `stands` says of paths may look at several layers. A path that does not stand gives way to one that
    does, drawn from the others of its layer; that comes near to a draw from the paths that stand throughout,
    the nearer the more are drawn (from memory: Gordon, Salmond and Smith 1993, the bootstrap filter). Where
    none stands, all go on.

    Args:
        steps: the arcs.
        following: what `onward` found of them.
        count: how many paths.
        dice: what is drawn with; the same seed gives the same paths.
        stands: says of the states [path, layer] up to some layer which paths stand there; None for all.

    Raises:
        ValueError: if no path leads through.
    """
    if not following:
        raise ValueError("no path leads through all layers")
    chance = np.random.default_rng(dice.getrandbits(64))
    state, subset = np.zeros(count, dtype=np.intp), np.zeros(count, dtype=np.intp)
    found = np.zeros((count, len(steps)), dtype=np.intp)
    for place, step in enumerate(steps):
        begin = step.first[state]
        degree = step.first[state + 1] - begin
        column = np.arange(int(degree.max()))
        arcs = np.minimum(begin[:, None] + column, len(step.target) - 1)
        target = step.target[arcs]
        reached = _reached(step, subset[:, None], target)
        shares = np.exp(step.weight[arcs] / HUNDREDTHS) * _worth(step, following[place + 1], target, reached)
        shares[column[None, :] >= degree[:, None]] = 0.0
        upto = shares.cumsum(axis=1)
        at = (upto <= (chance.random(count) * upto[:, -1])[:, None]).sum(axis=1)
        last = shares.shape[1] - 1 - (shares[:, ::-1] > 0).argmax(axis=1)  # rounding may carry past it
        row = np.arange(count)
        at = np.minimum(at, last)
        state, subset = target[row, at], reached[row, at]
        if step.full:
            subset = np.zeros(count, dtype=np.intp)
        found[:, place] = state
        if stands is not None:
            kept = stands(found[:, : place + 1])
            if kept.any() and not kept.all():
                others = chance.choice(np.flatnonzero(kept), count - int(kept.sum()))
                state[~kept], subset[~kept] = state[others], subset[others]
                found[~kept, : place + 1] = found[others, : place + 1]
    return found


def _reached(step: Step, subset: Ints, target: Ints) -> Ints:
    return np.zeros_like(target) if step.gives is None else subset | step.gives[target]


def _worth(step: Step, after: NDArray[Any], target: Ints, reached: Ints) -> NDArray[Any]:
    """Return what follows each arc, nothing where too little has been gathered."""
    if step.gives is None:
        return np.asarray(after[target, 0])
    column = _columns_of(step)[reached]
    nothing = np.asarray(_NOTHING if after.dtype == np.int64 else 0, dtype=after.dtype)
    known = column < len(step.after)
    return np.asarray(np.where(known, after[target, np.where(known, column, 0)], nothing))


def count(steps: Sequence[Step]) -> int:
    """Return exactly how many paths lead from state 0 through all layers, whatever their weights."""
    plain = [_unweighted(step) for step in steps]
    _, log_count = onward(plain)
    if log_count == -np.inf:
        return 0
    whole, product = 0, 1
    for prime in _primes(int(log_count / np.log(2)) // (_PRIME_BITS - 1) + 2):
        rest = _count_modulo(plain, prime)
        whole += product * ((rest - whole) * pow(product, -1, prime) % prime)
        product *= prime
    return whole


def _unweighted(step: Step) -> Step:
    return replace(step, weight=np.zeros_like(step.weight))


def _count_modulo(steps: Sequence[Step], prime: int) -> int:
    after = np.ones((steps[-1].targets, 1), dtype=np.int64)
    for step in reversed(steps):
        ones = np.ones(len(step.target), dtype=np.int64)
        table = csr_array((ones, step.target, step.first), shape=(step.sources, step.targets))
        after = np.asarray(table @ _entered(step, after, 0)) % prime
    return int(after[0, 0])


def _primes(many: int) -> list[int]:
    """Return so many primes just under 2 to the power of `_PRIME_BITS`, the largest first."""
    found: list[int] = []
    candidate = 2**_PRIME_BITS - 1
    while len(found) < many:
        if all(pow(base, candidate - 1, candidate) == 1 for base in (2, 3, 5, 7)) and _no_small(candidate):
            found.append(candidate)
        candidate -= 2
    return found


def _no_small(candidate: int) -> bool:
    """Whether nothing up to the square root divides a candidate."""
    odd = np.arange(3, int(candidate**0.5) + 1, 2)
    return bool((candidate % odd).all())


def best(steps: Sequence[Step], many: int) -> list[tuple[int, tuple[int, ...]]]:
    """Return the heaviest paths from state 0 with their weights, the heaviest first; fewer where there are.

    The best that can follow every state is found first; paths are then grown best first, so that nothing is
    looked at that is not the beginning of a path given out, but for equals.
    """
    bounds = _bounds(steps)
    if bounds[0][0, 0] <= _NOTHING // 2:
        return []
    found: list[tuple[int, tuple[int, ...]]] = []
    waiting: list[tuple[int, tuple[int, ...], int, int, int, tuple[int, ...]]] = []
    heappush(waiting, (-int(bounds[0][0, 0]), (), 0, 0, 0, ()))
    while waiting and len(found) < many:
        _, order, weight, state, subset, path = heappop(waiting)
        place = len(path)
        if place == len(steps):
            found.append((weight, path))
            continue
        step = steps[place]
        low, high = int(step.first[state]), int(step.first[state + 1])
        target = step.target[low:high]
        reached = _reached(step, np.full(high - low, subset), target)
        worth = _worth(step, bounds[place + 1], target, reached)
        for at, (to, after, own, more) in enumerate(
            zip(
                target.tolist(), reached.tolist(), step.weight[low:high].tolist(), worth.tolist(), strict=True
            )
        ):
            if more > _NOTHING // 2:
                kept = 0 if step.full else after
                total = weight + own
                heappush(waiting, (-(total + more), (*order, at), total, to, kept, (*path, to)))
    return found


def _bounds(steps: Sequence[Step]) -> list[NDArray[np.int64]]:
    """Return the best weight that can follow each state and subset, layer by layer."""
    after = np.zeros((steps[-1].targets, 1), dtype=np.int64)
    found = [after]
    for step in reversed(steps):
        entered = _entered(step, after, _NOTHING)
        columns = entered.shape[1]
        before = np.full((step.sources, columns), _NOTHING, dtype=np.int64)
        leading = np.flatnonzero(np.diff(step.first))
        if len(leading):
            ways = np.asarray(entered, dtype=np.int64)[step.target] + step.weight[:, None]
            before[leading] = np.maximum.reduceat(ways, step.first[leading], axis=0)
        after = np.maximum(before, _NOTHING)
        found.append(after)
    return found[::-1]
