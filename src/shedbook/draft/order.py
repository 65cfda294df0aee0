"""What is asked of a draft, and the hard rules that follow from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from shedbook.draft.ground import TICKS, Ground
from shedbook.draft.lines import LineRules
from shedbook.draft.moods import WIDEST, Habits
from shedbook.draft.tables.hard_rules import HARD_RULES
from shedbook.editions.instruments.instrument import Instrument
from shedbook.errors import NotationError, UnknownNameError, nearest
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import degree_interval
from shedbook.theory.pitch import NoteName, Pitch

RULES: tuple[str, ...] = tuple(row.name for row in HARD_RULES)
LOWEST, HIGHEST = 55, 81
"""The range without a wish: G3 to A5, comfortable on most instruments [common practice]."""
_WIDER = 5
_LEAP_OF_LEVEL = MappingProxyType({1: 5, 2: 7, 3: 9, 4: 12, 5: 12})
"""The largest leap by the level of difficulty that is wanted [the project's design]."""


@dataclass(frozen=True, slots=True)
class Fixed:
    """A note that the author fixes: where it is struck, in ticks, and its MIDI number."""

    tick: int
    midi: int


@dataclass(frozen=True)
class Order:
    """What is asked of drafts over a ground.

    Attributes:
        count: how many drafts.
        seed: what the dice begin with.
        low: the lowest MIDI number; None for the usual.
        high: the highest.
        first: pitch classes (0 to 11) or MIDI numbers that the first note may be; empty for any.
        last: the same for the last.
        fixed: notes that must stand.
        covered: symbols of chords whose whole scale must sound; "all" for all.
        without: names of hard rules that do not hold.
        leap: the largest leap in half steps.
        run: how many moves may go one way.
        shape: a name of `leaning.CONTOURS`, "" for any.
        weights: one of `leaning.WEIGHTS`.
        leans: by name of a leaning, hundredths of a logarithm to add.
        like: phrases whose moves are liked.
        unlike: phrases that must not be copied.
        level: the level of difficulty wanted, 1 to 5; 0 for any.
        tempo: beats a minute.
        feel: the feel.
        instrument: who plays, for what is awkward for the hands; None for anyone.
        best: whether the k best lines of a rhythm are taken, in place of lines that are drawn.
    """

    count: int = 5
    seed: int = 1
    low: int | None = None
    high: int | None = None
    first: frozenset[int] = frozenset()
    last: frozenset[int] = frozenset()
    fixed: tuple[Fixed, ...] = ()
    covered: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    leap: int = 9
    run: int = 5
    shape: str = ""
    weights: str = "both"
    leans: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    like: tuple[Phrase, ...] = ()
    unlike: tuple[Phrase, ...] = ()
    level: int = 0
    tempo: int = 132
    feel: str = "swing"
    instrument: Instrument | None = None
    best: bool = False

    @property
    def bottom(self) -> int:
        """The lowest MIDI number."""
        return LOWEST if self.low is None else self.low

    @property
    def top(self) -> int:
        """The highest MIDI number."""
        return HIGHEST if self.high is None else self.high


def checked(order: Order, ground: Ground) -> Order:
    """Return an order that can be asked for.

    Raises:
        NotationError: for an empty range, a number out of bounds, or a fixed note outside the changes.
        UnknownNameError: for a rule or a chord that is not there.
    """
    for name in order.without:
        if name not in RULES:
            raise UnknownNameError(
                f'There is no rule "{name[:40]}".',
                hint=nearest(name, RULES) or f"Write one of {', '.join(RULES)}.",
            )
    if order.low is not None and order.high is None and order.low > HIGHEST - 12:
        order = replace(order, high=order.low + 19)
    if order.high is not None and order.low is None and order.high < LOWEST + 12:
        order = replace(order, low=order.high - 19)
    _check_numbers(order)
    _check_fixed(order, ground)
    marked_stretches(order, ground)
    return order


def _check_numbers(order: Order) -> None:
    if order.top - order.bottom < 3:
        raise NotationError(
            f"From {_name(order.bottom)} up to {_name(order.top)} there is no room for a line.",
            hint="Name a lowest note that lies well under the highest: --low G3 --high A5.",
        )
    if order.top - order.bottom > 60:
        raise NotationError(
            "The range is wider than five octaves.",
            hint="Name a range that an instrument has: --low G3 --high A5.",
        )
    if not 1 <= order.count <= 200:
        raise NotationError("Ask for 1 to 200 drafts at a time.", hint="Write --count 12.")
    if not 1 <= order.leap <= WIDEST or not 1 <= order.run <= 6:
        raise NotationError(
            "The largest leap is 1 to 12 half steps, and 1 to 6 moves may go one way.",
            hint="Write --leap 9 --run 5.",
        )


def _check_fixed(order: Order, ground: Ground) -> None:
    for one in order.fixed:
        if not 0 <= one.tick < ground.end:
            raise NotationError(
                "A fixed note lies outside the changes.", hint="Write bar, beat and note: --fix 2:1=eb5."
            )
        if not order.bottom <= one.midi <= order.top:
            raise NotationError(
                f"The fixed note {_name(one.midi)} lies outside the range "
                f"{_name(order.bottom)} to {_name(order.top)}.",
                hint="Fix another note, or widen the range with --low and --high.",
            )


def _name(midi: int) -> str:
    names = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
    return f"{names[midi % 12]}{midi // 12 - 1}"


def marked_stretches(order: Order, ground: Ground) -> frozenset[int]:
    """Return the numbers of the stretches whose whole scale must sound.

    Raises:
        UnknownNameError: for a chord that is not among the changes.
    """
    if "all" in order.covered:
        return frozenset(range(len(ground.stretches)))
    found: set[int] = set()
    for symbol in order.covered:
        here = [at for at, one in enumerate(ground.stretches) if one.span.chord.text == symbol]
        if not here:
            known = [one.span.chord.text for one in ground.stretches]
            raise UnknownNameError(
                f'The changes have no chord "{symbol[:40]}".',
                hint=nearest(symbol, known) or f"They have {', '.join(known)}.",
            )
        found.update(here)
    return frozenset(found)


def note_classes(text: str) -> frozenset[int]:
    """Read the notes that a line may begin or end on: names, or pitches with an octave.

    Returns:
        Pitch classes 0 to 11 for names, MIDI numbers for pitches.

    Raises:
        NotationError: if one is no note.
    """
    found = set()
    for word in text.replace(",", " ").split():
        try:
            found.add(Pitch.parse(word).midi if word[-1].isdigit() else NoteName.parse(word).pitch_class)
        except ValueError:
            raise NotationError(
                f'"{word[:20]}" is not a note.', hint='Write names such as "Eb", or pitches such as "Eb5".'
            ) from None
    return frozenset(found)


def degree_classes(degrees: Sequence[str], root: int) -> frozenset[int]:
    """Return the pitch classes of degrees above a root."""
    return frozenset((root + degree_interval(one).semitones) % 12 for one in degrees)


def rules_of(order: Order, ground: Ground) -> LineRules:
    """Return the hard rules of an order; fixed notes are added for each rhythm."""
    out = frozenset(order.without)
    leap = min(order.leap, _LEAP_OF_LEVEL.get(order.level, WIDEST))
    wider = _WIDER if "range" in out else 0
    return LineRules(
        low=order.bottom - wider,
        high=order.top + wider,
        habits=Habits(
            largest=WIDEST if "largest leap" in out else leap,
            run=0 if "one direction" in out else order.run,
            recover="leaps recovered" not in out,
            repeats="repetition" in out,
            figures="outside notes" not in out,
        ),
        strong="strong beats" not in out,
        links="links" not in out,
        ending="ending" not in out,
        covered=frozenset() if "coverage" in out else marked_stretches(order, ground),
        first=frozenset() if "from" in out else order.first,
        last=frozenset() if "to" in out else order.last,
    )


def ticks_at(bar: int, beat: float, ground: Ground) -> int:
    """Return the tick of a bar and a beat, both from 1."""
    return (bar - 1) * ground.bar_ticks + round((beat - 1) * float(ground.metre.beat_quarters) * TICKS)
