"""A line as long as its file: bars of events with chords, and the places where it may be divided.

Each reader makes one `LongLine` of a file, and `phrases.line_division` makes phrases of it. Places within a
bar are counted in quarter notes from the start of the bar. Everything is in concert pitch.
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
"""The kinds of places where a line may be divided: double and final bar lines, rehearsal marks, the
beginnings of new systems, and whole bars of rest."""
DEFAULT_SPLIT = frozenset({DOUBLE_BAR, REHEARSAL})
"""The kinds of places where a line is divided when its owner does not choose."""


@dataclass(frozen=True, slots=True)
class BarContext:
    """The metre, key signature, tempo and feel that hold at a bar.

    Attributes:
        metre: the metre of the bar.
        fifths: the number of sharps in the key signature at concert pitch, flats being negative; None where
            the file has no key signature yet. A signature of many signs is replaced by its enharmonic.
        mode: "major", "minor", another mode as the file writes it, or "".
        tempo_qpm: the tempo in quarter notes a minute; None where the file has none yet.
        feel: the name of a feel, "" where the file has none yet.
        letters: how many letters the notes must be moved up to agree with `fifths`, because the file spells
            them by the enharmonic signature.
    """

    metre: Metre = Metre()  # noqa: RUF009 - a frozen value
    fifths: int | None = None
    mode: str = ""
    tempo_qpm: Fraction | None = None
    feel: str = ""
    letters: int = 0


@dataclass(frozen=True, slots=True)
class LineBar:
    """One bar as its file has it; it may have any length.

    Attributes:
        label: the number of the bar as the file prints it.
        context: what holds at the bar.
        events: the notes and rests. The first event never says `tie_in`: whoever joins bars ties it where
            the bar before says `tie_out` and the pitch is the same.
        chords: each chord with its place in quarter notes from the start of the bar.
        tie_out: whether the last note is tied to the next bar.
        breaks: those of `SPLITS` that stand before the bar.
        heading: the text of its rehearsal mark, "" for none.
        short: whether the file itself says that this is no full bar.
        unwritten: whether the bar has a length that no written value makes. A phrase with such a bar is
            left out, and the report says so.
    """

    label: str
    context: BarContext
    events: tuple[Event, ...]
    chords: tuple[tuple[Fraction, Chord], ...] = ()
    tie_out: bool = False
    breaks: frozenset[str] = frozenset()
    heading: str = ""
    short: bool = False
    unwritten: bool = False
    quarters: Fraction = field(init=False, compare=False)
    """The length of the events in quarter notes. It is computed once, because it is asked for often."""

    def __post_init__(self) -> None:
        ticks = sum([ticks_of(event.values) for event in self.events])
        object.__setattr__(self, "quarters", Fraction(ticks, TICKS_A_QUARTER))

    @property
    def silent(self) -> bool:
        """Whether the bar has no notes."""
        return all(event.pitch is None for event in self.events)


@dataclass(frozen=True, slots=True)
class LongLine:
    """All bars of one part in the order in which they sound.

    Attributes:
        title: the title that the file gives, "" for none.
        bars: the bars, repeats written out.
        kept: the fields of a file that shedbook wrote (`tables.own_fields`), by their names.
    """

    title: str
    bars: tuple[LineBar, ...]
    kept: Mapping[str, str] = field(default_factory=dict)
