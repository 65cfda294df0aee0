"""A track: what is asked for, and the file that comes of it.

A track is arranged, performed and written as MIDI; for audio it is also synthesised, brought to its loudness,
encoded and tagged. One synthesis serves every format of a track.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.audio.file_tags import Chapter, Tags, tagged
from shedbook.sound.audio.loudness import Levels
from shedbook.sound.audio.sound_fonts import SoundFont
from shedbook.sound.audio.synthesiser import Synth, synth_for
from shedbook.sound.audio.tables.formats import TARGET_LUFS, FormatRow
from shedbook.sound.players.tables.drums import TOUCHES
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import Performance, perform, to_ticks
from shedbook.sound.score.written_score import COUNT, DRUMS
from shedbook.sound.tables.drum_keys import BRUSH_KIT

_DRUM_BANK = 128


@dataclass(frozen=True, slots=True)
class Sound:
    """How tracks are to sound: the author's SoundFont or None, loudness in LUFS, bass and piano on sides.

    `without` are players that are left out.
    """

    font: Path | None = None
    lufs: float = TARGET_LUFS
    sides: bool = False
    without: tuple[str, ...] = ()


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
                        127, max(1, note.velocity * touch.get((part.program, note.midi), 100) // 100)
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


def chapters_of(performance: Performance) -> tuple[Chapter, ...]:
    """Return a chapter for each key of a track that goes through several; none for a track in one key."""
    if len(performance.keys) < 2:
        return ()
    starts = [performance.seconds_at(to_ticks(at.start)) for at in performance.keys]
    ends = [*starts[1:], performance.seconds]
    return tuple(
        Chapter(start, end, str(at.key), at.key)
        for at, start, end in zip(performance.keys, starts, ends, strict=True)
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

    return rendered(performance, synth, sides=sound.sides, loop=loop, without=sound.without)


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


def played_with(synth: Synth) -> str:
    """Return synthesiser and font as reports and tags say them."""
    licence = f" ({synth.font.licence})" if synth.font.licence else ""
    return f"{synth.name} with {synth.font.name}{licence}"


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
