"""What a track shall be."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.phrase.excerpt import excerpt
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.tables.band_instruments import LINE_INSTRUMENT

PARTS = ("line", "trio", "both")


@dataclass(frozen=True, slots=True)
class Order:
    """What a track shall be.

    `parts` is "line", "trio" or "both"; `click` goes with "line". `rounds` counts how often the phrase is
    played in each key. `tempo_bpm` (taps a minute) and `feel` take the place of the phrase's own. `ramp` are
    the tempos of one round after the other, in the place of `rounds` and `tempo_bpm`. `bars` are the first
    and the last bar of those that are played, without empty bars between two rounds; None for the whole
    phrase. `count_in` is a number of bars, None for what fits the tempo; a pick-up is counted in whatever it
    says. With `answers` every second round is left to the reader. A `loop` has neither count-in nor ending
    and joins its own beginning. `ending` is "hit", "held" or "" for what fits the feel. `wide` puts the bass
    left and the piano right.
    `comping_instrument` and `bass_instrument` are "" for those of the feel. `bass_feel` and `drum_feel`
    name another feel whose bass and drums are played, "" for none. `brushes` says whether the SoundFont has
    a kit of them.
    """

    parts: str = "both"
    click: bool = False
    rounds: int = 1
    tempo_bpm: int | None = None
    feel: str = ""
    count_in: int | None = None
    answers: bool = False
    loop: bool = False
    ending: str = ""
    seed: int = 0
    line_instrument: str = LINE_INSTRUMENT
    comping_instrument: str = ""
    bass_instrument: str = ""
    bass_feel: str = ""
    drum_feel: str = ""
    click_kind: str = "beats"
    wide: bool = False
    brushes: bool = True
    ramp: tuple[int, ...] = ()
    bars: tuple[int, int] | None = None

    @property
    def rounds_a_key(self) -> int:
        """How often the phrase comes in each key, rounds that are left to the reader included."""
        return len(self.ramp) * (2 if self.answers else 1) if self.ramp else self.rounds

    def tempo_of(self, round_: int) -> int | None:
        """Return the tempo of a round of a key, counted from 0; None for the phrase's own."""
        return self.ramp[round_ // (2 if self.answers else 1)] if self.ramp else self.tempo_bpm

    def played(self, phrase: Phrase) -> Phrase:
        """Return what of a phrase is played.

        Raises:
            UnknownNameError: if the phrase has no such bars.
        """
        return phrase if self.bars is None else excerpt(phrase, *self.bars)

    @property
    def name(self) -> str:
        """What tells the dice of some bars from those of the whole phrase."""
        return "" if self.bars is None else f", bars {self.bars[0]}-{self.bars[1]}"
