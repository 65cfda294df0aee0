"""The door to variants: every transformation by its name, each with what it did and its account."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.analysis.account import Account, account
from shedbook.draft.ground import Ground
from shedbook.draft.variants import more_or_fewer, same_pitches, same_rhythm
from shedbook.draft.variants.sketch import Sketch, sketch_of
from shedbook.errors import UnknownNameError, nearest
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import Metre


@dataclass(frozen=True)
class Varied:
    """One variant: the name of what was done, what it did in words, the phrase and its account."""

    name: str
    said: str
    phrase: Phrase
    account: Account


@dataclass(frozen=True)
class VaryWishes:
    """What variants are asked for.

    Attributes:
        names: names of `TRANSFORMATIONS`; empty for all that need nothing else.
        fixed: ticks at which notes are struck that must stay.
        onto: other changes, for "onto other changes".
        metre: another metre, for "another metre".
        other: a second phrase, for "joined".
    """

    names: tuple[str, ...] = ()
    fixed: tuple[int, ...] = ()
    onto: Ground | None = None
    metre: Metre | None = None
    other: Phrase | None = None


_Made = Iterator[tuple[Sketch, str]]
_PLAIN: Mapping[str, Callable[[Sketch], _Made]] = MappingProxyType(
    {
        "decorate": more_or_fewer.decorated,
        "thin": more_or_fewer.skeleton,
        "shift": same_pitches.moved_in_time,
        "displace": same_pitches.displaced,
        "invert": same_rhythm.inverted,
        "reverse": same_rhythm.reversed_cell,
        "sequence": same_rhythm.sequenced,
        "easier": more_or_fewer.easier,
        "harder": more_or_fewer.harder,
    }
)
TRANSFORMATIONS: tuple[str, ...] = (*_PLAIN, "onto other changes", "another metre", "joined")
"""The names of all transformations; the last three need changes, a metre or a second phrase."""


def vary(phrase: Phrase, wishes: VaryWishes) -> tuple[Varied, ...]:
    """Return the variants of a phrase, in the order of `TRANSFORMATIONS`.

    A transformation that finds nothing to do, or whose result cannot be written, gives none.

    Raises:
        UnknownNameError: for a name that is no transformation.
    """
    for name in wishes.names:
        if name not in TRANSFORMATIONS:
            raise UnknownNameError(
                f'There is no transformation "{name[:40]}".',
                hint=nearest(name, TRANSFORMATIONS) or f"Write one of {', '.join(TRANSFORMATIONS)}.",
            )
    sketch = sketch_of(phrase, wishes.fixed)
    if len(sketch.midi) < 3:
        return ()
    return tuple(_accounted(phrase, sketch, wishes))


def _accounted(phrase: Phrase, sketch: Sketch, wishes: VaryWishes) -> Iterator[Varied]:
    before = account(phrase)
    given: list[Sketch] = []
    for name in wishes.names or TRANSFORMATIONS:
        for made, said in _made(name, sketch, wishes):
            if any(made == other for other in given):
                continue  # decorated and harder may be one
            title = f"{phrase.title}, {name}"
            try:
                varied = made.phrase(phrase, title)
            except ValueError:
                continue
            seen = account(varied)
            if _worth_giving(name, before, seen, made, sketch):
                given.append(made)
                yield Varied(name, f"{said}{_level(name, before, seen)}", varied, seen)


def _made(name: str, sketch: Sketch, wishes: VaryWishes) -> _Made:
    if name in _PLAIN:
        yield from _PLAIN[name](sketch)
    elif name == "onto other changes" and wishes.onto is not None:
        yield from same_rhythm.on_changes(sketch, wishes.onto)
    elif name == "another metre" and wishes.metre is not None:
        yield from same_pitches.in_metre(sketch, wishes.metre)
    elif name == "joined" and wishes.other is not None:
        yield from more_or_fewer.joined(sketch, sketch_of(wishes.other))


def _worth_giving(name: str, before: Account, after: Account, made: Sketch, sketch: Sketch) -> bool:
    """Whether something changed as it should, and no more notes are unaccounted for."""
    if (made.midi, made.onsets, made.ends) == (
        sketch.midi,
        sketch.onsets,
        sketch.ends,
    ) and made.ground == sketch.ground:
        return False
    open_before = len(before.notes) - before.accounted
    if len(after.notes) - after.accounted > open_before:
        return False
    if name == "easier":
        return _hardness(after) < _hardness(before)
    return name != "harder" or _hardness(after) > _hardness(before)


def _hardness(account: Account) -> tuple[int, float, int]:
    found = account.difficulty
    return found.level, float(found.chromatic_density) + float(found.fastest_rate) / 20, len(account.notes)


def _level(name: str, before: Account, after: Account) -> str:
    if name not in ("easier", "harder") or before.difficulty.level == after.difficulty.level:
        return ""
    return f" Level {before.difficulty.level} becomes {after.difficulty.level}."


def fixed_ticks(phrase: Phrase, words: Sequence[str]) -> tuple[int, ...]:
    """Return the ticks of struck notes named as "bar:beat".

    Raises:
        UnknownNameError: where no note is struck.
    """
    from shedbook.draft.ground import TICKS  # noqa: PLC0415

    struck = {(note.bar, note.beat): round(note.start * TICKS) for note in sounding_notes(phrase)}
    found = []
    for word in words:
        bar, _, beat = word.partition(":")
        key = next((one for one in struck if str(one[0]) == bar.strip() and _same_beat(one[1], beat)), None)
        if key is None:
            raise UnknownNameError(
                f'No note is struck at "{word[:20]}".', hint="Write bar and beat: --keep 2:1.5"
            )
        found.append(struck[key])
    return tuple(found)


def _same_beat(beat: object, text: str) -> bool:
    try:
        return abs(float(beat) - float(text or "1")) < 0.02  # type: ignore[arg-type]
    except ValueError:
        return False
