"""What a feel is made of: everything that the players do otherwise in one feel than in another.

A feel is one value. It is refused where it is made if a part of it is missing, so that no player ever has
to take another feel's part for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from shedbook.errors import TableError
from shedbook.sound.feels.patterns import (
    CELL_LENGTHS,
    BassWay,
    CompingWay,
    DrumVoice,
    DrumWay,
    WeightedFill,
)

ROWS_FOLDER = "src/shedbook/sound/feels/rows"
"""Where the modules of the feels lie."""


@dataclass(frozen=True, slots=True)
class FeelSwing:
    """How a feel swings.

    `ratio` is the long eighth over the short one, 1 for even eighths, None for what the tempo gives by the
    curve of `score.tables.swing`; `lag` is how much of the curve's lag a soloist lays back, 0 to 1.
    """

    ratio: Fraction | None
    lag: Fraction
    source: str


EVEN_EIGHTHS = FeelSwing(Fraction(1), Fraction(0), "common practice")


@dataclass(frozen=True, slots=True)
class FeelBass:
    """The rhythms of the bass: the ways to play a cell, by its length in quarters.

    `two_bars` takes their place where a bar of that length goes by the clave: the ways of its side with three
    strokes and of that with two. `in_two_percent` is how often of a hundred tracks the first round is played
    in two before the bass walks, `pedal_percent` how often empty bars are played over a pedal,
    `groove_percent` how often a bar keeps to the rhythm that was drawn for its kind of bar (every second
    one) for the whole track. `instrument` is who plays where nobody is named.
    """

    ways: Mapping[Fraction, tuple[BassWay, ...]]
    source: str
    instrument: str = "acoustic bass"
    two_bars: Mapping[Fraction, tuple[tuple[BassWay, ...], tuple[BassWay, ...]]] = field(default_factory=dict)
    in_two_percent: int = 0
    pedal_percent: int = 0
    groove_percent: int = 0


@dataclass(frozen=True, slots=True)
class FeelComping:
    """The rhythms of the comping: the ways to play a cell, by its length in quarters.

    `held` says that chords are held rather than struck: then every chord of the changes is played at full
    length. `two_bars` takes the place of the ways where a bar goes by the clave, as for the bass; what stands
    there is played as it stands, bar by bar. `instrument` is who plays where nobody is named.
    """

    ways: Mapping[Fraction, tuple[CompingWay, ...]]
    held: bool
    source: str
    instrument: str = "piano"
    two_bars: Mapping[Fraction, tuple[tuple[CompingWay, ...], tuple[CompingWay, ...]]] = field(
        default_factory=dict
    )


@dataclass(frozen=True, slots=True)
class FeelDrums:
    """What the drums play: the voices, and the fills to draw from, none for a feel without fills.

    `without_brushes` are the voices for a SoundFont that has no kit of brushes; where there are none, the
    feel is played with sticks. `level_db` is how loud the drums are over the bass, in LU, None where they
    are as loud as in most feels.
    """

    voices: tuple[DrumVoice, ...]
    fills: tuple[WeightedFill, ...]
    without_brushes: tuple[DrumVoice, ...]
    source: str
    level_db: float | None = None

    @property
    def brushes(self) -> bool:
        """Whether the feel is played with brushes."""
        return bool(self.without_brushes)


@dataclass(frozen=True, slots=True)
class FeelEnding:
    """How a track ends.

    `held_percent` is how often of a hundred times the last chord rings instead of being a short hit;
    `strokes` are the drums' last ones, each a General MIDI key and a velocity.
    """

    held_percent: int
    strokes: tuple[tuple[int, int], ...]
    source: str


_MISSING: Any = None


@dataclass(frozen=True, slots=True)
class Feel:
    """One feel, by the name that `phrase/tables/feels.py` gives it.

    Raises:
        TableError: if a part, its source or the ways for a length of cell are missing; the message names
            the part, the hint the file.
    """

    name: str
    swing: FeelSwing = _MISSING
    bass: FeelBass = _MISSING
    comping: FeelComping = _MISSING
    drums: FeelDrums = _MISSING
    ending: FeelEnding = _MISSING

    def __post_init__(self) -> None:
        for part, kind in _PARTS.items():
            own = getattr(self, part)
            if own is None:
                raise TableError(
                    f'The feel "{self.name}" has no {part}.',
                    hint=f"Write {part}={kind.__name__}(…) in {row_file(self.name)}.",
                )
            if not own.source:
                raise TableError(
                    f'The {part} of the feel "{self.name}" has no source.',
                    hint=f'Write where it comes from in {row_file(self.name)}: source="common practice".',
                )
        for part, ways in _patterns(self):
            _check_lengths(self.name, part, ways)

    @property
    def sources(self) -> Mapping[str, str]:
        """The source of each part, by the part's name."""
        return MappingProxyType({part: getattr(self, part).source for part in _PARTS})


_PARTS: Mapping[str, type] = MappingProxyType({
    "swing": FeelSwing, "bass": FeelBass, "comping": FeelComping, "drums": FeelDrums, "ending": FeelEnding,
})  # fmt: skip


def row_file(name: str) -> str:
    """Return the file in which a feel is written, by the feel's name."""
    return f"{ROWS_FOLDER}/{module_name(name)}.py"


def module_name(name: str) -> str:
    """Return what the module of a feel is called: "fast swing" is in fast_swing."""
    return name.replace(" ", "_").replace("-", "_")


_Ways = Mapping[Fraction, tuple[BassWay, ...]] | Mapping[Fraction, tuple[CompingWay, ...]]


def _patterns(feel: Feel) -> Iterator[tuple[str, _Ways | Mapping[Fraction, tuple[DrumWay, ...]]]]:
    """Yield every pattern of a feel with the words for it."""
    yield "bass", feel.bass.ways
    yield "comping", feel.comping.ways
    for voice in (*feel.drums.voices, *feel.drums.without_brushes):
        yield f"drum {voice.key}", voice.cells


def _check_lengths(name: str, part: str, ways: _Ways | Mapping[Fraction, tuple[DrumWay, ...]]) -> None:
    """Refuse a pattern that leaves some bars empty because a length of cell has no ways."""
    missing = [str(length) for length in CELL_LENGTHS if not ways.get(length)]
    if missing:
        raise TableError(
            f'The {part} of the feel "{name}" has no way to play {", ".join(missing)} quarters.',
            hint=f"Write a row for each of these lengths in {row_file(name)}.",
        )
