"""The lattice of lines: every row of pitches that the hard rules allow over a rhythm, weighed by soft ones.

Pitches are MIDI numbers. A state is a pitch with a mood (`moods`); a layer of states stands at each note.
What
may stand where is said of pitches (`Place`), what may follow what by the moods, and what resolves to what by
both. The engine is `dense_chains.gathering`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, field, replace
from functools import cached_property
from random import Random
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.dense_chains.gathering import MOST_MEMBERS, Step, best, count, draw, onward, stretch
from shedbook.draft.arcs import arcs_of, resolving
from shedbook.draft.ground import TICKS
from shedbook.draft.moods import START, WIDEST, Habits, moods_of
from shedbook.draft.places import Place, mask_of

_SIXTH_NINTH = {"major": (2, 9), "minor": (2, 9)}
"""What a line may end on besides the firm tones, in half steps above the root [common practice]."""
_SHORT = TICKS // 2
"""The longest that a note outside the scale sounds: an eighth [the project's design]."""
_MOVES = np.arange(-WIDEST, WIDEST + 1)


_TAUGHT = Habits()


@dataclass(frozen=True)
class LineRules:
    """The hard rules of a line.

    Attributes:
        low: the lowest pitch.
        high: the highest pitch.
        habits: what moves are made of.
        strong: whether strong beats hold chord tones and tensions.
        links: whether new chords are entered by step.
        ending: whether the last note lands.
        covered: the stretches whose whole scale must sound.
        first: the pitch classes or pitches that the first note may be; empty for any.
        last: the same for the last note.
        fixed: by place of a note, the pitch that it must have.
        nearby: (place before, place after): a pitch that the line comes from and one that it goes on to,
            which are no notes of it, for lines that fill a gap.
    """

    low: int = 58
    high: int = 81
    habits: Habits = _TAUGHT
    strong: bool = True
    links: bool = True
    ending: bool = True
    covered: frozenset[int] = frozenset()
    first: frozenset[int] = frozenset()
    last: frozenset[int] = frozenset()
    fixed: Mapping[int, int] = field(default_factory=lambda: MappingProxyType({}))
    nearby: tuple[int | None, int | None] = (None, None)


@dataclass(frozen=True)
class Weighing:
    """Soft weights as arrays in natural logarithms, ready for a rhythm.

    Attributes:
        moves: by [class of the last move, move + WIDEST].
        runs: by [moves that went one way, whether the next goes on], 0 for the first.
        notes: by [place, pitch - low + WIDEST]: an octave beyond the range at either end is there too.
        steps: by [place, move + WIDEST].
        resolving: by [move + WIDEST], for moves that leave a note outside the scale.
        shares: whether the weights of all moves from a state are made to sum to 1, whatever the rules forbid,
            so that a line weighs what its likelihood is; else weights are taken as they stand.
        pull: by [place, pitch - low], added after shares were made, so that it is heard from afar: a note may
            be chosen for one that comes later; None for no pull.
        pairs: by [place, pitch before - low, pitch - low], added like the pull; None for nothing.
    """

    moves: NDArray[np.float64]
    runs: NDArray[np.float64]
    notes: NDArray[np.float64]
    steps: NDArray[np.float64]
    resolving: NDArray[np.float64]
    shares: bool = False
    pull: NDArray[np.float64] | None = None
    pairs: NDArray[np.float64] | None = None


class Lines:
    """All lines over a rhythm that the rules allow, to be counted, ranked and drawn."""

    def __init__(self, places: Sequence[Place], rules: LineRules, weighing: Weighing | None = None) -> None:
        self.places = tuple(places)
        self.rules = rules
        self._moods = moods_of(rules.habits)
        self._arcs = arcs_of(rules.habits, rules.high - rules.low + 1)
        self._pitches = np.arange(rules.low, rules.high + 1)
        self._outside = [self._is_outside(place) for place in self.places]
        self._may = [self._allowed(at) for at in range(len(self.places))]
        self._weights = weighing or _even(len(self.places), len(self._pitches))
        self._common = self._all_arcs()
        self._ready()

    def _ready(self) -> None:
        self.steps = self._steps()
        self._following, self.log_weight = onward(self.steps)

    def keeping(self, rules: LineRules, weighing: Weighing) -> Lines:
        """Return these lines under more fixed notes and another pull, all else being the same.

        What is the same is not worked out again.

        Raises:
            ValueError: if the rules differ in anything else, or fixed notes are missing.
        """
        if replace(rules, fixed=self.rules.fixed) != self.rules or not (
            set(self.rules.fixed.items()) <= set(rules.fixed.items())
        ):
            raise ValueError("only fixed notes may be added")
        found = copy(self)
        found.__dict__.pop("count", None)
        found.rules, found._weights = rules, weighing
        found._may = [may & self._is_fixed(at, rules) for at, may in enumerate(self._may)]
        found._ready()
        return found

    def _is_fixed(self, at: int, rules: LineRules) -> NDArray[np.bool_]:
        """Return which pitches are the one that is fixed at a place; all where none is."""
        every = np.ones(len(self._pitches), dtype=bool)
        return self._pitches == rules.fixed[at] if at in rules.fixed else every

    @property
    def possible(self) -> bool:
        """Whether the rules allow any line."""
        return bool(self._following)

    @cached_property
    def count(self) -> int:
        """How many lines there are, exactly."""
        return count(self.steps) if self.possible else 0

    def drawn(
        self, many: int, dice: Random, stands: Callable[[NDArray[np.intp]], NDArray[np.bool_]] | None = None
    ) -> NDArray[np.intp]:
        """Return lines [line, note] drawn in proportion to their weights.

        Where `stands` is given, of those that stand at every note: it says of beginnings [line, note] which
        do at their last note. The proportions are then nearly those (`gathering.draw`).
        """
        if stands is None:
            return self._heard(draw(self.steps, self._following, many, dice))
        told = stands
        return self._heard(
            draw(self.steps, self._following, many, dice, lambda states: told(self._heard(states)))
        )

    def best(self, many: int) -> list[tuple[float, tuple[int, ...]]]:
        """Return the heaviest lines with the logarithms of their weights, the heaviest first."""
        found = best(self.steps, many)
        return [(weight / 100, tuple(self._heard(np.array([path]))[0].tolist())) for weight, path in found]

    def weight_of(self, line: Sequence[int]) -> float:
        """Return the logarithm of the weight of a line that the rules allow.

        Raises:
            ValueError: if they do not.
        """
        state, total = 0, 0
        for step, pitch in zip(self.steps, line, strict=True):
            low, high = int(step.first[state]), int(step.first[state + 1])
            targets = step.target[low:high]
            here = np.flatnonzero(targets // self._moods.count == pitch - self.rules.low)
            if not len(here):
                raise ValueError("the rules do not allow this line")
            state, total = int(targets[here[0]]), total + int(step.weight[low + here[0]])
        return total / 100

    def _heard(self, states: NDArray[np.intp]) -> NDArray[np.intp]:
        return np.asarray(states // self._moods.count + self.rules.low)

    def _is_outside(self, place: Place) -> NDArray[np.bool_]:
        return ~mask_of(place.chord.inside)[self._pitches % 12]

    def _allowed(self, at: int) -> NDArray[np.bool_]:
        """Return which pitches may stand at a place by themselves."""
        place, rules = self.places[at], self.rules
        classes = self._pitches % 12
        allowed = np.ones(len(self._pitches), dtype=bool)
        last = at == len(self.places) - 1
        if rules.strong and place.strong:
            allowed &= mask_of(place.chord.strong)[classes]
        if rules.habits.figures and (place.rest_after or place.length > _SHORT or place.strong or last):
            allowed &= ~self._outside[at]
        if last and rules.ending:
            more = _SIXTH_NINTH.get(place.chord.family, ())
            firm = place.chord.firm | {(place.chord.root + one) % 12 for one in more} & place.chord.inside
            allowed &= np.isin(classes, sorted(firm))
        for wanted, here in ((rules.first, at == 0), (rules.last, last)):
            if wanted and here:
                # A number below 12 is a pitch class, any other a pitch.
                allowed &= np.isin(classes, sorted(wanted)) | np.isin(self._pitches, sorted(wanted))
        return allowed & self._is_fixed(at, rules)

    def _steps(self) -> list[Step]:
        steps = [self._first_step()]
        steps += [self._step(at) for at in range(1, len(self.places))]
        return self._with_coverage(steps)

    def _first_step(self) -> Step:
        came_from, goes_to = self.rules.nearby
        allowed = self._may[0].copy()
        if came_from is not None:
            near = np.abs(self._pitches - came_from)
            allowed &= near <= self.rules.habits.largest
        if goes_to is not None and len(self.places) == 1:
            allowed &= np.abs(self._pitches - goes_to) <= self.rules.habits.largest
        index = np.flatnonzero(allowed)
        weight = self._weights.notes[0][index + WIDEST]
        if came_from is not None:
            weight = (
                weight
                + self._weights.steps[0][np.clip(self._pitches[index] - came_from, -WIDEST, WIDEST) + WIDEST]
            )
        if self._weights.pull is not None:
            weight = weight + self._weights.pull[0][index]
        return Step(
            np.array([0, len(index)], dtype=np.intp),
            index * self._moods.count + START,
            _hundredths(weight),
            len(self._pitches) * self._moods.count,
        )

    def _step(self, at: int) -> Step:
        """Return the arcs into a place: those of `_arcs_into` that the fixed notes leave, with the pull."""
        arcs, weights = self._arcs, self._weights
        index, weight = self._common[at - 1]
        kept = self._may[at][arcs.pitch_to[index]] & self._may[at - 1][arcs.pitch_from[index]]
        if not kept.all():
            index, weight = index[kept], weight[kept]
        if weights.pull is not None:
            weight = weight + weights.pull[at][arcs.pitch_to[index]]
        if weights.pairs is not None:
            weight = weight + weights.pairs[at][arcs.pitch_from[index], arcs.pitch_to[index]]
        return Step(
            np.searchsorted(arcs.source[index], np.arange(arcs.states + 1)),
            arcs.target[index],
            _hundredths(weight),
            arcs.states,
        )

    def _all_arcs(self) -> list[tuple[NDArray[np.intp], NDArray[np.float64]]]:
        """Return the arcs into each place but the first that a line can come by."""
        reached = np.zeros(self._arcs.states, dtype=bool)
        reached[np.flatnonzero(self._may[0]) * self._moods.count + START] = True
        found = []
        for at in range(1, len(self.places)):
            found.append(self._arcs_into(at, reached))
            reached = np.zeros(self._arcs.states, dtype=bool)
            reached[self._arcs.target[found[-1][0]]] = True
        return found

    def _arcs_into(self, at: int, reached: NDArray[np.bool_]) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
        """Return which arcs into a place the rules allow from the states that are reached before it.

        With them, what they weigh without a pull.
        """
        place, weights, arcs = self.places[at], self._weights, self._arcs
        before_out, here_out = self._outside[at - 1], self._outside[at]
        pairs = self._may[at - 1][:, None] & self._may[at][None, :]
        ways = self._pitches[None, :] - self._pitches[:, None]
        if self.rules.links and place.enters and not place.breathed:
            pairs &= (np.abs(ways) <= 2) & (ways != 0)
        goes_to = self.rules.nearby[1]
        if goes_to is not None and at == len(self.places) - 1:
            pairs &= (np.abs(self._pitches - goes_to) <= self.rules.habits.largest)[None, :]
        index = np.flatnonzero(pairs.ravel()[arcs.pair] & reached[arcs.source])
        if place.rest_after or at == len(self.places) - 1:
            index = index[~arcs.opens[index]]  # an enclosure is closed before the line breathes or ends
        if self.rules.habits.figures:
            index = index[resolving(arcs, index, before_out, here_out)]
        own = self._own(at, before_out)
        weight = own.ravel()[arcs.step[index]]
        if place.breathed:
            weight = weight + weights.moves[0][arcs.move[index] + WIDEST]
        else:
            weight = weight + self._habits[index]
        if weights.shares:
            weight = weight - self._whole(own, breathed=place.breathed).ravel()[arcs.shared[index]]
        return index, weight

    def _own(self, at: int, before_out: NDArray[np.bool_]) -> NDArray[np.float64]:
        """Return what moves weigh at a place, but for habits, by [pitch before, move]."""
        weights = self._weights
        places = np.arange(len(self._pitches))[:, None] + np.arange(2 * WIDEST + 1)[None, :]
        own = weights.notes[at][places] + weights.steps[at][None, :]
        return np.asarray(own + np.where(before_out[:, None], weights.resolving[None, :], 0.0))

    @cached_property
    def _habits(self) -> NDArray[np.float64]:
        """What each arc weighs by the move before it and by how many have gone its way."""
        weights, arcs = self._weights, self._arcs
        return np.asarray(weights.moves.ravel()[arcs.habit] + weights.runs.ravel()[arcs.turn])

    def _whole(self, own: NDArray[np.float64], *, breathed: bool) -> NDArray[np.float64]:
        """Return the logarithm of the summed weights of all moves, by pitch, last move and moves one way."""
        habit = self._habit_shares
        if breathed:
            habit = np.broadcast_to(np.exp(self._weights.moves[0]), habit.shape)
        whole = np.exp(own) @ habit.reshape(-1, 2 * WIDEST + 1).T
        return np.asarray(np.log(whole).reshape(len(self._pitches), *habit.shape[:2]))

    @cached_property
    def _habit_shares(self) -> NDArray[np.float64]:
        """The weights, no logarithms, of moves by [last move, moves one way, move]."""
        weights = self._weights
        signs = np.array([0, 0, *[1] * 5, *[-1] * 5])
        ways = np.sign(_MOVES)
        goes_on = ((signs[:, None] == ways[None, :]) & (ways != 0)[None, :]).astype(int)
        runs = weights.runs[:, goes_on]  # [run, last, move]
        return np.asarray(np.exp(weights.moves[:, None, :] + runs.transpose(1, 0, 2)))

    def _with_coverage(self, steps: list[Step]) -> list[Step]:
        """Return the steps with the sets that are to be gathered over the marked stretches."""
        for index in self.rules.covered:
            inside = [at for at, place in enumerate(self.places) if place.index == index]
            scale = sorted(self.covered_classes(index))
            if not inside or len(scale) > MOST_MEMBERS:
                continue
            gives = np.zeros(len(self._pitches), dtype=np.intp)
            for bit, pitch_class in enumerate(scale):
                gives[self._pitches % 12 == pitch_class] = 1 << bit
            by_state = np.repeat(gives, self._moods.count)
            first, last = inside[0], inside[-1] + 1
            steps[first:last] = stretch(steps[first:last], by_state, len(scale))
        return steps

    def covered_classes(self, index: int) -> frozenset[int]:
        """Return the pitch classes of the scale of a stretch."""
        for place in self.places:
            if place.index == index:
                return place.chord.span.scale_classes
        return frozenset()


def _hundredths(weight: NDArray[np.float64]) -> NDArray[np.int64]:
    return np.asarray(np.rint(100 * weight), dtype=np.int64)


def _even(places: int, pitches: int) -> Weighing:
    """Return weights that say nothing."""
    moves = 2 * WIDEST + 1
    return Weighing(
        np.zeros((12, moves)),
        np.zeros((7, 2)),
        np.zeros((places, pitches + 2 * WIDEST)),
        np.zeros((places, moves)),
        np.zeros(moves),
    )
