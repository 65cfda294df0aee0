"""A track: what is asked for, and the file that comes of it.

A track is arranged, performed and written as MIDI; for audio it is also synthesised, brought to its loudness,
encoded and tagged. One synthesis serves every format of a track.
"""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from shedbook.errors import SoundError
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.audio.file_tags import Chapter, Tags, tagged
from shedbook.sound.audio.loudness import Levels
from shedbook.sound.audio.sound_fonts import SoundFont, find_font
from shedbook.sound.audio.synthesiser import Synth, synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ, TARGET_LUFS, FormatRow
from shedbook.sound.audio.tables.voices import ENGLISH
from shedbook.sound.players.tables.drums import TOUCHES
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import Performance, perform, to_ticks
from shedbook.sound.score.tables.timing import ALTERNATES
from shedbook.sound.score.written_score import COUNT, DRUMS
from shedbook.sound.tables.clicks import STRUCK
from shedbook.sound.tables.drum_keys import BRUSH_KIT

if TYPE_CHECKING:
    from shedbook.sound.audio.rendering import AudioFile

_DRUM_BANK = 128
_LOOP_SECONDS = 600
"""How long a loop goes round that is played at once, unless it is stopped."""


@dataclass(frozen=True, slots=True)
class Sound:
    """How tracks are to sound: the author's SoundFont or None, loudness in LUFS, bass and piano on sides.

    `without` are players that are left out, `count` says how tracks are counted in (`tables.clicks.COUNTS`),
    `language` in which language a voice counts.
    """

    font: Path | None = None
    lufs: float = TARGET_LUFS
    sides: bool = False
    without: tuple[str, ...] = ()
    count: str = STRUCK
    language: str = ENGLISH


@dataclass(frozen=True, slots=True)
class Track:
    """A finished track.

    `seconds` is its length up to the last bar line; for audio `levels` are what a meter says of it.
    """

    content: bytes
    seconds: float
    levels: Levels | None = None
    played_with: str = ""


def performance_of(
    phrases: Phrase | Sequence[Phrase], order: Order, *, font: SoundFont | None = None
) -> Performance:
    """Return a track as played; brushes only where the font has them, or none is known.

    Where the drums of a font are not balanced as those of the first font, they are struck accordingly.
    """
    brushes = order.brushes and (font is None or font.has(_DRUM_BANK, BRUSH_KIT))
    played = perform(arrange(phrases, replace(order, brushes=brushes)), seed=order.seed)
    touch = TOUCHES.get(font.name) if font is not None else None
    return played if touch is None else _touched(played, touch)


def _touched(performance: Performance, touch: Mapping[tuple[int, int], int]) -> Performance:
    """Return a performance with the velocities of the drums in percent of what they were."""
    parts = tuple(
        replace(
            part,
            notes=tuple(
                replace(
                    note,
                    velocity=min(
                        127,
                        max(1, note.velocity * touch.get((part.program, usual_drum(note.midi)), 100) // 100),
                    ),
                )
                for note in part.notes
            ),
        )
        if part.player == DRUMS and part.name != COUNT
        else part
        for part in performance.parts
    )
    return replace(performance, parts=parts)


def usual_drum(key: int) -> int:
    """Return the key of a drum of which another is an alternate."""
    return next((usual for usual, (other, _, _) in ALTERNATES.items() if other == key), key)


def chapters_of(performance: Performance) -> tuple[Chapter, ...]:
    """Return a chapter for each key of a track that goes through several, or each tempo of one that grows.

    A track in one key at one tempo has none.
    """
    if len(performance.keys) < 2:
        return _tempo_chapters(performance)
    starts = [performance.seconds_at(to_ticks(at.start)) for at in performance.keys]
    ends = [*starts[1:], performance.seconds]
    return tuple(
        Chapter(start, end, str(at.key), at.key)
        for at, start, end in zip(performance.keys, starts, ends, strict=True)
    )


def _tempo_chapters(performance: Performance) -> tuple[Chapter, ...]:
    """Return a chapter from each tempo of a track on, the first from the beginning."""
    later = performance.later
    if not later:
        return ()
    starts = [performance.seconds_at(row.tick) for row in later]
    first_bpm = round(later[0].tempo_bpm * later[0].tempo_us / performance.tempo_us)
    first = Chapter(0.0, starts[0], f"{first_bpm} beats a minute")
    ends = [*starts[1:], performance.seconds]
    return (
        first,
        *(
            Chapter(start, end, f"{row.tempo_bpm} beats a minute")
            for row, start, end in zip(later, starts, ends, strict=True)
        ),
    )


def midi_track(performance: Performance, without: Collection[str] = ()) -> Track:
    """Return a performance as a MIDI file, without some of its players."""
    parts = tuple(part for part in performance.parts if part.player not in without)
    return Track(smf(replace(performance, parts=parts)), performance.seconds)


def samples_of(
    performance: Performance, synth: Synth, sound: Sound, *, loop: bool = False
) -> NDArray[np.float32]:
    """Return a performance as stereo samples, as loud as the synthesiser makes them.

    Args:
        performance: what is played.
        synth: who plays it.
        sound: whether bass and piano stand on their sides.
        loop: whether the end joins the beginning, without a tail.
    """
    # Loaded here: MIDI needs neither NumPy's nor libsndfile's help.
    from shedbook.sound.audio.rendering import rendered  # noqa: PLC0415

    return rendered(
        performance,
        synth,
        sides=sound.sides,
        loop=loop,
        without=sound.without,
        count=sound.count,
        language=sound.language,
    )


def audio_track(
    samples: NDArray[np.float32], row: FormatRow, tags: Tags, sound: Sound, seconds: float
) -> Track:
    """Return samples as an audio file at the loudness asked for.

    Raises:
        SoundError: if it cannot be brought to its loudness.
    """
    from shedbook.sound.audio.rendering import audio_file  # noqa: PLC0415 - as above

    made = audio_file(samples, row, target_lufs=sound.lufs)
    return Track(tagged(made.content, row, tags), seconds, made.levels, tags.sound)


def stem_audio(
    performance: Performance, synth: Synth, sound: Sound, row: FormatRow, samples: NDArray[np.float32]
) -> AudioFile:
    """Return samples of some players as a file at the level that they have in the whole track.

    Raises:
        SoundError: if the whole cannot be rendered.
    """
    from shedbook.sound.audio.rendering import (  # noqa: PLC0415 - as above
        kept_stems,
        stem_file,
        stem_gain,
    )

    stems = kept_stems(performance, synth, loop=False, count=sound.count, language=sound.language)
    return stem_file(samples, row, stem_gain(stems, sound.lufs, sides=sound.sides))


def played_with(synth: Synth) -> str:
    """Return synthesiser and font as reports and tags say them."""
    licence = f" ({synth.font.licence})" if synth.font.licence else ""
    return f"{synth.name} with {synth.font.name}{licence}"


@dataclass(frozen=True, slots=True)
class LiveTrack:
    """A track that is heard while it is made: `pieces` of 16 bit, stereo, at 48 kHz, so many frames."""

    pieces: Iterator[bytes]
    frames: int
    seconds: float
    played_with: str


def live_track(phrases: Phrase | Sequence[Phrase], order: Order, sound: Sound) -> LiveTrack:
    """Return a track that can be heard before it is whole, its loudness estimated. A loop goes round.

    Raises:
        SoundError: if nothing can sound.
        UnknownNameError: if the order names an instrument that is in no table.
    """
    from shedbook.sound.audio.live import live  # noqa: PLC0415 - as above
    from shedbook.sound.audio.rendering import frames_of  # noqa: PLC0415 - as above

    loading = _Loading(sound.font)
    performance = performance_of(phrases, order, font=find_font(sound.font))
    synth = loading.synth()
    if order.loop:
        return _round_and_round(performance, synth, sound)
    heard = live(
        performance,
        synth,
        sound.lufs,
        sides=sound.sides,
        without=sound.without,
        count=sound.count,
        language=sound.language,
    )
    frames = frames_of(performance, tail=True)
    return LiveTrack(map(_bytes_of, heard), frames, performance.seconds, played_with(synth))


class _Loading:
    """Loads the synthesiser with its font while the players are still choosing what they play."""

    def __init__(self, font: Path | None) -> None:
        self._font = font
        self._thread = threading.Thread(target=self._load, daemon=True)
        self._thread.start()

    def _load(self) -> None:
        with contextlib.suppress(SoundError):  # said where it is asked for
            synth_for(self._font)

    def synth(self) -> Synth:
        """Return it once it is there.

        Raises:
            SoundError: if none is there.
        """
        self._thread.join()
        return synth_for(self._font)


def _round_and_round(performance: Performance, synth: Synth, sound: Sound) -> LiveTrack:
    """Return a loop that begins anew at its end, for so long as somebody practises at one thing."""
    from shedbook.sound.audio.live import live_loop  # noqa: PLC0415 - as above
    from shedbook.sound.audio.rendering import frames_of  # noqa: PLC0415 - as above

    once = frames_of(performance, tail=False)
    times = max(1, round(_LOOP_SECONDS * RATE_HZ / once))
    heard = live_loop(performance, synth, sound.lufs, times, sides=sound.sides, without=sound.without)
    return LiveTrack(map(_bytes_of, heard), times * once, times * performance.seconds, played_with(synth))


def _bytes_of(samples: NDArray[np.float32]) -> bytes:
    return np.asarray(np.rint(samples * np.float32(32767)), "<i2").tobytes()


def make(phrases: Phrase | Sequence[Phrase], order: Order, row: FormatRow, tags: Tags, sound: Sound) -> Track:
    """Return one track in one format.

    Raises:
        SoundError: if nothing that sounds can be made; MIDI can be made all the same.
        UnknownNameError: if the order names an instrument that is in no table.
    """
    if not row.container:
        return midi_track(performance_of(phrases, order), sound.without)
    synth = synth_for(sound.font)
    performance = performance_of(phrases, order, font=synth.font)
    samples = samples_of(performance, synth, sound, loop=order.loop)
    full = replace(tags, sound=played_with(synth))
    return audio_track(samples, row, full, sound, performance.seconds)
