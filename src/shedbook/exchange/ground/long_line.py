"""A line as long as its file: bars of events with chords, and where it may be divided into phrases.

Readers make one of these, and `sections` makes phrases of it. Places within a bar are quarter notes from
its start; everything is in concert pitch.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from shedbook.exchange.ground.note_lengths import TICKS_A_QUARTER, ticks_of
from shedbook.phrase.model import Event
from shedbook.theory.chord import Chord
from shedbook.theory.metre import Metre

DOUBLE_BAR, REHEARSAL, SYSTEM, RESTS = "double-bars", "rehearsal-marks", "system-breaks", "rests"
SPLITS = (DOUBLE_BAR, REHEARSAL, SYSTEM, RESTS)
"""Where a line may be divided: at double and final bar lines, at rehearsal marks, where a new system
begins, and at whole bars of rest."""
DEFAULT_SPLIT = frozenset({DOUBLE_BAR, REHEARSAL})


@dataclass(frozen=True, slots=True)
class Setting:
    """What holds at a bar; None where the file has not said it yet.

    `fifths` are those of the key signature in concert pitch, by its plainer name; `letters` is how many
    letters the notes must go up to be called by it, as the file spells them. `tempo_qpm` counts quarter
    notes a minute.
    """

    metre: Metre = Metre()  # noqa: RUF009 - a frozen value
    fifths: int | None = None
    mode: str = ""
    tempo_qpm: Fraction | None = None
    feel: str = ""
    letters: int = 0


@dataclass(frozen=True, slots=True)
class LineBar:
    """One bar as its file has it, of any length.

    `label` is its number as the file prints it. `events` need not begin with `tie_in`: `tie_out` says that
    the last note is tied on, and whoever puts bars together ties what follows where the pitch is the same.
    `chords` are places with chords. `breaks` says which of `SPLITS` stand before the bar, `heading` what
    its rehearsal mark says, `short` that the file itself calls it no full bar, `unwritten` that it holds a
    length that no written value says: a phrase with such a bar is left out.
    """

    label: str
    setting: Setting
    events: tuple[Event, ...]
    chords: tuple[tuple[Fraction, Chord], ...] = ()
    tie_out: bool = False
    breaks: frozenset[str] = frozenset()
    heading: str = ""
    short: bool = False
    unwritten: bool = False
    quarters: Fraction = field(init=False, compare=False)
    """The length of the events, in quarter notes; kept, for it is asked for again and again."""

    def __post_init__(self) -> None:
        ticks = sum([ticks_of(event.values) for event in self.events])
        object.__setattr__(self, "quarters", Fraction(ticks, TICKS_A_QUARTER))

    @property
    def silent(self) -> bool:
        """Whether the bar holds rests only."""
        return all(event.pitch is None for event in self.events)


@dataclass(frozen=True, slots=True)
class LongLine:
    """All bars of one part in the order in which they sound, and what the file says of the whole.

    `kept` are the phrase's keys that notation cannot hold and the file carries as texts.
    """

    title: str
    bars: tuple[LineBar, ...]
    kept: Mapping[str, str] = field(default_factory=dict)
