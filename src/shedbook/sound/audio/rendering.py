"""From a performance to an audio file: synthesised, brought to its loudness, encoded and measured.

Audio begins with the first beat and lasts up to the last bar line and a tail for what still rings; a loop
has no tail: what rings over its end sounds at its beginning.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.sound.audio.levelling import levelled
from shedbook.sound.audio.loudness import PIECE_FRAMES, SILENT, Levels, levels_of, true_peak_dbtp
from shedbook.sound.audio.mixing import mixed
from shedbook.sound.audio.quick_loudness import energies_of, quick_lufs
from shedbook.sound.audio.soundfile_door import decoded, encode
from shedbook.sound.audio.spoken_count import spoken_count
from shedbook.sound.audio.stems import Stems, ratio
from shedbook.sound.audio.synthesiser import Synth
from shedbook.sound.audio.tables.formats import (
    CEILING_DBTP,
    FADE_SECONDS,
    RATE_HZ,
    TAIL_SECONDS,
    TARGET_LUFS,
    FormatRow,
)
from shedbook.sound.audio.tables.voices import ENGLISH
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import TICKS_A_QUARTER, Performance
from shedbook.sound.score.written_score import DRUMS, LINE
from shedbook.sound.tables.clicks import SPOKEN, STRUCK

_MIDDLE_PAN = 64
_TRIES = 6
_KEPT_SECONDS = 180
"""Up to which length the stems of a track are kept: a minute of four players takes 92 MB."""
_CODER_DB = 0.6
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


@dataclass(frozen=True, slots=True)
class Take:
    """What the synthesiser is given: a MIDI file without a mix, so many frames, the channel of each player.

    `first` is the frame at which the band begins, `entries` those at which each player does; `drums_db` as in
    `Stems`.
    """

    midi: bytes
    frames: int
    channels: Mapping[str, int]
    first: int
    entries: Mapping[str, int]
    drums_db: float | None


def take_of(performance: Performance, *, loop: bool = False, filters: bool = False) -> Take:
    """Return what the synthesiser is given of a performance.

    A loop is not let ring at its end; it rings over into its beginning. `filters` as in `smf`.
    """
    played = performance if loop else _ringing(performance)

    def frame(tick: int) -> int:
        return round(performance.seconds_at(tick) * RATE_HZ)

    return Take(
        smf(_in_the_middle(played), filters=filters),
        frames_of(performance, tail=True),
        {part.player: part.channel for part in played.parts},
        frame(performance.band_tick),
        {part.player: frame(part.notes[0].start) for part in played.parts if part.notes},
        performance.drums_db,
    )


def rendered(
    performance: Performance,
    synth: Synth,
    *,
    sides: bool = False,
    loop: bool = False,
    without: Collection[str] = (),
    count: str = STRUCK,
    language: str = ENGLISH,
) -> NDArray[np.float32]:
    """Return a performance as stereo samples at `RATE_HZ`, not yet at its loudness.

    Args:
        performance: what is played.
        synth: who plays it.
        sides: the bass left and the piano right, each on its own side only; the others in the middle.
        loop: as long as the score to the sample, so that the end joins the beginning.
        without: players that are left out; the others sound as they do with them.
        count: one of `tables.clicks.COUNTS`: how it is counted in.
        language: the tag of the language in which a voice counts.

    Raises:
        SoundError: if it cannot be rendered, or nothing speaks.
    """
    heard = mixed(
        kept_stems(performance, synth, loop=loop, count=count, language=language),
        sides=sides,
        without=without,
    )
    return looped(heard, frames_of(performance, tail=False)) if loop else _faded(heard)


def kept_stems(performance: Performance, synth: Synth, *, loop: bool, count: str, language: str) -> Stems:
    """Return the stems of a performance; those of a short one are kept for the next kind of track of them."""
    if performance.seconds <= _KEPT_SECONDS:
        return _kept_stems(performance, synth, loop=loop, count=count, language=language)
    return stems_of(performance, synth, loop=loop, count=count, language=language)


@lru_cache(maxsize=1)
def _kept_stems(performance: Performance, synth: Synth, *, loop: bool, count: str, language: str) -> Stems:
    return stems_of(performance, synth, loop=loop, count=count, language=language)


def stems_of(
    performance: Performance,
    synth: Synth,
    *,
    loop: bool = False,
    count: str = STRUCK,
    language: str = ENGLISH,
) -> Stems:
    """Return every player of a performance by himself, all in one pass, and the voice that counts."""
    played, voice = counted_by(performance, count, language)
    take = take_of(played, loop=loop, filters=synth.filters)
    found = synth.stems(take.midi, take.frames, tuple(take.channels.values()))
    players = {player: found[channel] for player, channel in take.channels.items()}
    # A count-in alone, or a click, is no band: it is not measured against one.
    return Stems(players, take.first, performance.drums_db, voice)


def counted_by(
    performance: Performance, count: str, language: str = ENGLISH
) -> tuple[Performance, NDArray[np.float32] | None]:
    """Return a performance as it is counted in, and the voice that counts, None for none.

    Raises:
        SoundError: if nothing speaks.
    """
    if count == STRUCK or not performance.counted:
        return performance, None
    first = performance.band_tick
    said = [(performance.seconds_at(tick), number) for tick, number in performance.counted]
    voice = spoken_count(said, performance.seconds_at(first), language)
    # A player may be a little early on the band's first beat: that stroke stays.
    over = first - TICKS_A_QUARTER // 4
    parts = tuple(
        replace(part, notes=tuple(note for note in part.notes if note.start >= over))
        if count == SPOKEN and part.player == DRUMS
        else part
        for part in performance.parts
    )
    return replace(performance, parts=parts), voice


def stem_gain(stems: Stems, target_lufs: float, *, sides: bool = False) -> float:
    """Return by what stems are multiplied so that together they are as loud as asked, under the ceiling.

    No limiter is at work: laid over one another the stems are the whole.
    """
    key = ("gain", target_lufs, sides)
    if key not in stems.kept:
        whole = mixed(stems, sides=sides)
        loud = quick_lufs(whole.T)
        room = CEILING_DBTP - _BETWEEN_DB - true_peak_dbtp(whole)
        stems.kept[key] = 1.0 if loud == SILENT else ratio(min(target_lufs - loud, room))
    return stems.kept[key]


def stem_file(samples: NDArray[np.float32], row: FormatRow, gain: float) -> AudioFile:
    """Return samples as a file, multiplied by a gain and not touched otherwise."""
    content = encode(samples, row, gain)
    return AudioFile(content, levels_of(decoded(content, PIECE_FRAMES)))


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
    energies: NDArray[np.float64] | None = None,
) -> AudioFile:
    """Return samples as a file at a loudness.

    A file that keeps the very samples is as they were measured. Another one is measured after encoding, and
    made again where that has changed it. `energies` are those of `energies_of` the samples where they are
    known already, as from another format of the track.

    Raises:
        SoundError: if the file cannot be brought under the ceiling.
    """
    target = target_lufs
    if energies is None:
        energies = energies_of(samples.T)
    if row.lossless:
        level = levelled(samples, target, ceiling_dbtp - _BETWEEN_DB, energies=energies)
        return AudioFile(encode(level.raw, row, level.gain), level.levels)
    # What a coder that loses something makes of a held peak stands a little higher than the peak did.
    ceiling = ceiling_dbtp - _CODER_DB
    for attempt in range(_TRIES):
        level = levelled(samples, target, ceiling, energies=energies)
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


def looped(samples: NDArray[np.float32], frames: int) -> NDArray[np.float32]:
    """Return so many samples, what rings on behind them added to the beginning."""
    loop = np.array(samples[:frames])
    over = samples[frames:]
    while len(over) and frames:
        loop[: len(over[:frames])] += over[:frames]
        over = over[frames:]
    return loop
