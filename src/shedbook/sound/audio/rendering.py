"""From a performance to an audio file: synthesised, brought to its loudness, encoded and measured.

Audio begins with the first beat and lasts up to the last bar line and a tail for what still rings; a loop
has no tail: what rings over its end sounds at its beginning.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.sound.audio.levelling import levelled
from shedbook.sound.audio.loudness import PIECE_FRAMES, SILENT, Levels, levels_of
from shedbook.sound.audio.mixing import mixed
from shedbook.sound.audio.quick_loudness import quick_lufs
from shedbook.sound.audio.soundfile_door import decoded, encode
from shedbook.sound.audio.stems import Stems
from shedbook.sound.audio.synthesiser import Synth
from shedbook.sound.audio.tables.formats import (
    CEILING_DBTP,
    FADE_SECONDS,
    RATE_HZ,
    TAIL_SECONDS,
    TARGET_LUFS,
    FormatRow,
)
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import TICKS_A_QUARTER, Performance, to_ticks
from shedbook.sound.score.written_score import COUNT_IN, LINE

_MIDDLE_PAN = 64
_TRIES = 6
_KEPT_SECONDS = 180
"""Up to which length the stems of a track are kept: a minute of four players takes 92 MB."""
_CODER_DB = 0.4
_BETWEEN_DB = 0.1
"""How much lower than the ceiling peaks are held: finer meters than ours find a little more."""
_NEAR_LU = 0.1
_SAME_DB = 0.01
_AT_THE_END = TICKS_A_QUARTER // 16
"""How many ticks before the last bar line a note may end that is held to it: players are not quite even."""


@dataclass(frozen=True, slots=True)
class AudioFile:
    """The bytes of a file and what a meter says of it once it is decoded again."""

    content: bytes
    levels: Levels


def rendered(
    performance: Performance,
    synth: Synth,
    *,
    sides: bool = False,
    loop: bool = False,
    without: Collection[str] = (),
) -> NDArray[np.float32]:
    """Return a performance as stereo samples at `RATE_HZ`, not yet at its loudness.

    Args:
        performance: what is played.
        synth: who plays it.
        sides: the bass left and the piano right, each on its own side only; the others in the middle.
        loop: as long as the score to the sample, so that the end joins the beginning.
        without: players that are left out; the others sound as they do with them.
    """
    short = performance.seconds <= _KEPT_SECONDS
    stems = (_kept_stems if short else stems_of)(performance, synth, loop=loop)
    heard = mixed(stems, sides=sides, without=without)
    return _looped(heard, frames_of(performance, tail=False)) if loop else _faded(heard)


@lru_cache(maxsize=1)
def _kept_stems(performance: Performance, synth: Synth, *, loop: bool) -> Stems:
    """Return the stems of a performance, kept for the next kind of track that is mixed of them."""
    return stems_of(performance, synth, loop=loop)


def stems_of(performance: Performance, synth: Synth, *, loop: bool = False) -> Stems:
    """Return every player of a performance by himself, all rendered in one pass.

    A loop is not let ring at its end; it rings over into its beginning.
    """
    frames = frames_of(performance, tail=True)
    played = performance if loop else _ringing(performance)
    channels = {part.player: part.channel for part in played.parts}
    found = synth.stems(smf(_in_the_middle(played)), frames, tuple(channels.values()))
    # A count-in alone, or a click, is no band: it is not measured against one.
    first = next((sign.start for sign in performance.signs if sign.text != COUNT_IN), Fraction(0))
    begins = round(performance.seconds_at(to_ticks(first)) * RATE_HZ)
    players = {player: found[channel] for player, channel in channels.items()}
    return Stems(players, begins, performance.drums_db)


def frames_of(performance: Performance, *, tail: bool) -> int:
    """Return how many frames a performance lasts at `RATE_HZ`.

    Args:
        performance: what is played.
        tail: whether `TAIL_SECONDS` behind the last bar line are counted too, for what still rings.
    """
    return round((performance.seconds + (TAIL_SECONDS if tail else 0.0)) * RATE_HZ)


def audio_file(
    samples: NDArray[np.float32],
    row: FormatRow,
    *,
    target_lufs: float = TARGET_LUFS,
    ceiling_dbtp: float = CEILING_DBTP,
    loud: float | None = None,
) -> AudioFile:
    """Return samples as a file at a loudness, measured after encoding and made again where that changed it.

    `loud` is the loudness of the samples where it is known already, as from another format of the track.

    Raises:
        SoundError: if the file cannot be brought under the ceiling.
    """
    target = target_lufs
    loud = quick_lufs(samples.T) if loud is None else loud
    # What a coder that loses something makes of a held peak stands a little higher than the peak did.
    ceiling = ceiling_dbtp - _BETWEEN_DB - (0.0 if row.lossless else _CODER_DB - _BETWEEN_DB)
    for attempt in range(_TRIES):
        level = levelled(samples, target, ceiling, loud=loud)
        content = encode(level.raw, row, level.gain)
        heard = levels_of(decoded(content, PIECE_FRAMES))
        off = target_lufs - heard.lufs if heard.lufs != SILENT else 0.0
        # A track of sharp peaks may stay below its loudness: then it is the ceiling that has held it.
        short = level.held_db and off > 0
        if heard.peak_dbtp <= ceiling_dbtp + _SAME_DB and (abs(off) <= _NEAR_LU or short):
            break
        over = heard.peak_dbtp - ceiling_dbtp
        target += 0.0 if short else off
        if over > 0:
            ceiling -= over + _CODER_DB / 4
            if attempt >= _TRIES // 2:  # holding peaks down does not help: less loudness does
                target -= over
    if heard.peak_dbtp > ceiling_dbtp + _SAME_DB:
        raise SoundError(
            f"The peaks of a track could not be held under {ceiling_dbtp:g} dBTP.",
            hint="Ask for less loudness in manuscript.toml: [tracks] loudness = -18.",
        )
    return AudioFile(content, heard)


def _ringing(performance: Performance) -> Performance:
    """Return a performance whose last chord, held to the bar line, is let ring instead of being damped there.

    A MIDI file ends at the bar line; in audio the tail is still to come.
    """
    end = performance.ticks
    tempo_us = performance.later[-1].tempo_us if performance.later else performance.tempo_us
    over = round(TAIL_SECONDS * 1_000_000 * TICKS_A_QUARTER / tempo_us)
    parts = tuple(
        part
        if part.player == LINE
        else replace(
            part,
            notes=tuple(
                replace(note, end=end + over)
                if note.end >= end - _AT_THE_END and note.end - note.start >= TICKS_A_QUARTER
                else note
                for note in part.notes
            ),
        )
        for part in performance.parts
    )
    return replace(performance, parts=parts, ticks=end + over)


def _in_the_middle(performance: Performance) -> Performance:
    """Return a performance without MIDI's pan: the mix sets each player at his place."""
    return replace(performance, parts=tuple(replace(part, pan=_MIDDLE_PAN) for part in performance.parts))


def _faded(samples: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return samples that end in silence."""
    frames = min(len(samples), round(FADE_SECONDS * RATE_HZ))
    if frames:
        samples[-frames:] *= np.cos(np.linspace(0.0, np.pi / 2, frames, dtype=np.float32))[:, None] ** 2
    return samples


def _looped(samples: NDArray[np.float32], frames: int) -> NDArray[np.float32]:
    """Return so many samples, what rings on behind them added to the beginning."""
    loop = np.array(samples[:frames])
    over = samples[frames:]
    while len(over) and frames:
        loop[: len(over[:frames])] += over[:frames]
        over = over[frames:]
    return loop
