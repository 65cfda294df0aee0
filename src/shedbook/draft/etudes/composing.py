"""The étude: one search over excerpts in their places and drafted bars, then the bars between are drafted.

The cost of an étude is the sum over its pieces of what does not fit, of how they link, of bars that no phrase
gives, of coming back too soon, and of how far it lies from an arc that rises to two thirds and falls again.
The least is looked for bar by bar among the best beginnings (a beam); what a beginning remembers is its last
pitch and which phrases it has used, lately and at all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random
from typing import NamedTuple

from shedbook.draft.etudes.filling import bars_between, filled
from shedbook.draft.etudes.fitting import Fit, Source, fits, sources_of
from shedbook.draft.ground import TICKS, Ground
from shedbook.draft.leaning import figures_of
from shedbook.draft.reading import TRIAD
from shedbook.draft.variants.sketch import Sketch
from shedbook.editions.instruments.instrument import Instrument
from shedbook.phrase.model import Phrase

MOST_BARS = 64
_WIDTH = 300
_KEPT_FITS = 60
"""How many fits are kept for each bar."""

# What is weighed [the project's design].
_DRAFTED_BAR = 1.6
_ANOTHER_PIECE = 0.4
_CUT = 0.7
_AGAIN = 1.5
_FAR = 0.05
_OPEN_END = 8.0
"""An excerpt at the end that does not land on the root, third or fifth, before the last beat and held."""
_NEAR_ITSELF = 8
"""Bars within which a phrase does not come back."""
_SAME_BARS = 14
"""Bars within which the same bars of a phrase do not come back: the last eight of a form may be its first."""


class _Beginning(NamedTuple):
    """A beginning of an étude: its cost, its pieces, its last pitch and when that ends."""

    cost: float
    pieces: tuple[Fit, ...]
    pitch: int | None
    end: int


@dataclass(frozen=True)
class Piece:
    """Bars of an étude: from a phrase, or drafted.

    Attributes:
        first_bar: the first bar of the étude, from 1.
        bars: how many.
        phrase: the phrase they come from, None where they are drafted.
        from_bar: the first bar in that phrase.
        up: by how many half steps it is moved, octaves included.
    """

    first_bar: int
    bars: int
    phrase: Phrase | None
    from_bar: int = 0
    up: int = 0


@dataclass(frozen=True)
class Etude:
    """A study: the line, and which phrase stands where."""

    phrase: Phrase
    pieces: tuple[Piece, ...]

    @property
    def taken_bars(self) -> int:
        """How many bars come from phrases."""
        return sum(piece.bars for piece in self.pieces if piece.phrase is not None)


@dataclass(frozen=True)
class EtudeWishes:
    """How an étude shall be; weights and the instrument's awkward fingerings are for drafted bars."""

    low: int = 55
    high: int = 81
    tempo: int = 120
    feel: str = "swing"
    seed: int = 1
    title: str = "Étude"
    weights: str = "both"
    instrument: Instrument | None = None


def compose(ground: Ground, phrases: Sequence[Phrase], wishes: EtudeWishes) -> Etude:
    """Return a study over a ground, from phrases where they fit and from drafted bars."""
    sources = sources_of(phrases, ground)
    chosen = _chosen(ground, fits(sources, ground), wishes)
    return _written(ground, chosen, {one.number: one for one in sources}, wishes)


def _chosen(ground: Ground, found: Sequence[Fit], wishes: EtudeWishes) -> tuple[Fit, ...]:
    """Return the excerpts of the cheapest étude, in order."""
    by_bar: dict[int, list[Fit]] = {}
    for fit in found:
        room = by_bar.setdefault(fit.at, [])
        if len(room) < _KEPT_FITS:
            room.append(fit)
    waiting: dict[int, dict[object, _Beginning]] = {1: {None: _Beginning(0.0, (), None, 0)}}
    end = ground.bars + 1
    for bar in range(1, end):
        beginnings = sorted(waiting.get(bar, {}).values(), key=lambda one: one.cost)[:_WIDTH]
        for one in beginnings:
            _offer(waiting, bar + 1, one._replace(cost=one.cost + _DRAFTED_BAR))
            for fit in by_bar.get(bar, ()):
                for moved in _octaves(fit, wishes):
                    cost = _cost(one, moved, ground, wishes)
                    if cost is not None:
                        grown = _Beginning(cost, (*one.pieces, moved), moved.midi[-1], moved.ends[-1])
                        _offer(waiting, moved.last, grown)
    best = min(waiting[end].values(), key=lambda one: one.cost)
    return best.pieces


def _offer(waiting: dict[int, dict[object, _Beginning]], bar: int, one: _Beginning) -> None:
    """Keep a beginning, if it is the cheapest that has used the same phrases and ends on the same pitch."""
    key = (frozenset(piece.source for piece in one.pieces), one.pieces[-1] if one.pieces else None)
    room = waiting.setdefault(bar, {})
    known = room.get(key)
    if known is None or one.cost < known.cost:
        room[key] = one


def _octaves(fit: Fit, wishes: EtudeWishes) -> list[Fit]:
    """Return an excerpt in the octaves in which it lies within the range, or the nearest one."""
    found = []
    for octave in (-12, 0, 12):
        midi = tuple(one + octave for one in fit.midi)
        if wishes.low - 2 <= min(midi) and max(midi) <= wishes.high + 3:
            found.append(replace(fit, midi=midi, up=fit.up + octave))
    return found


def _cost(one: _Beginning, fit: Fit, ground: Ground, wishes: EtudeWishes) -> float | None:
    """Return what an étude costs that goes on with an excerpt; None where it may not."""
    own = [piece for piece in one.pieces if piece.source == fit.source]
    if any(fit.at - piece.last < _NEAR_ITSELF for piece in own):
        return None
    same = [piece for piece in own if (piece.first_bar, piece.bars) == (fit.first_bar, fit.bars)]
    if any(fit.at - piece.last < _SAME_BARS for piece in same):
        return None
    cost = one.cost + fit.cost + _ANOTHER_PIECE + _AGAIN * len(own) + (_CUT if fit.cut else 0.0)
    cost -= 0.15 * min(fit.bars, 4)
    touching = one.pieces and one.pieces[-1].last == fit.at
    if touching and one.pitch is not None:
        if fit.onsets[0] < one.end:
            return None
        rest = fit.onsets[0] - one.end
        leap = abs(fit.midi[0] - one.pitch)
        cost += 0.06 * leap if rest >= TICKS else 0.22 * max(0, leap - 2) + (0.6 if leap > 7 else 0.0)
    if fit.last == ground.bars + 1 and not _lands(fit, ground):
        cost += _OPEN_END
    middle = sum(fit.midi) / len(fit.midi)
    return cost + _FAR * abs(middle - _arc(fit.at / ground.bars, wishes)) * fit.bars


def _lands(fit: Fit, ground: Ground) -> bool:
    """Whether an excerpt ends on its chord's root, third or fifth, before the last beat and held."""
    onset, end = fit.onsets[-1], fit.ends[-1]
    chord = ground.stretches[ground.heard_at(onset, end)]
    above = (fit.midi[-1] - chord.root) % 12
    held = end - onset >= TICKS and ground.end - onset > TICKS
    return held and above in TRIAD and fit.midi[-1] % 12 in chord.firm


def _arc(place: float, wishes: EtudeWishes) -> float:
    """Return the pitch about which an étude lies at a place from 0 to 1: it rises to two thirds."""
    height = 0.42 + 0.24 * (place / 0.66 if place < 0.66 else (1 - place) / 0.34)
    return wishes.low + (wishes.high - wishes.low) * height


def _written(ground: Ground, chosen: Sequence[Fit], sources: dict[int, Source], wishes: EtudeWishes) -> Etude:
    """Draft the bars between the excerpts and write the whole as a phrase."""
    dice = Random(wishes.seed)
    figures = figures_of(wishes.weights, {})
    onsets: list[int] = []
    ends: list[int] = []
    midi: list[int] = []
    pieces: list[Piece] = []
    bar, bar_ticks = 1, ground.bar_ticks
    for fit in (*chosen, None):
        start = ground.bars + 1 if fit is None else fit.at
        if start > bar:
            after = None if fit is None else fit.midi[0]
            part = bars_between(ground, bar, start)
            made = filled(
                part, figures, (midi[-1] if midi else None, after), (wishes.low, wishes.high), wishes.feel,
                wishes.tempo, dice, last=fit is None, player=wishes.instrument,
            )  # fmt: skip
            pieces.append(Piece(bar, start - bar, None))
            if made is not None:
                shift = (bar - 1) * bar_ticks
                onsets += [one + shift for one in made[0].onsets]
                ends += [one + shift for one in made[0].ends]
                midi += made[1]
        if fit is not None:
            kept = [at for at, one in enumerate(fit.onsets) if not ends or one >= ends[-1]]
            onsets += [fit.onsets[at] for at in kept]
            ends += [fit.ends[at] for at in kept]
            midi += [fit.midi[at] for at in kept]
            pieces.append(Piece(fit.at, fit.bars, sources[fit.source].phrase, fit.first_bar, fit.up))
            bar = fit.last
    like = replace(
        next(iter(sources.values())).phrase if sources else _empty(ground, wishes),
        tempo_bpm=wishes.tempo,
        feel=wishes.feel,
    )
    line = Sketch(ground, tuple(onsets), tuple(ends), tuple(midi))
    phrase = replace(line.phrase(like, wishes.title), commentary=told(pieces), key_inferred=True)
    return Etude(phrase, tuple(pieces))


def _empty(ground: Ground, wishes: EtudeWishes) -> Phrase:
    return ground.phrase((), title=wishes.title, tempo=wishes.tempo, feel=wishes.feel)


def told(pieces: Sequence[Piece]) -> str:
    """Return the words that say which phrase stands where, for the author to print or to change."""
    said = []
    for piece in pieces:
        last = piece.first_bar + piece.bars - 1
        bars = f"Bar {piece.first_bar}" if piece.bars == 1 else f"Bars {piece.first_bar} to {last}"
        if piece.phrase is None:
            said.append(f"{bars}: drafted.")
            continue
        whole = piece.bars == piece.phrase.full_bars
        part = "" if whole else f", its bars {piece.from_bar} to {piece.from_bar + piece.bars - 1}"
        said.append(f"{bars}: {piece.phrase.title}{part}{moved_words(piece.up)}.")
    return " ".join(said)


def moved_words(up: int) -> str:
    """Return by how much something is moved, as ", up 3 half steps"; "" where it is not."""
    if not up:
        return ""
    return f", {'up' if up > 0 else 'down'} {abs(up)} half step{'s' if abs(up) > 1 else ''}"
